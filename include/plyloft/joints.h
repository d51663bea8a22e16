/* joints.h - bonds, plates, bolts, screws and sandwich panels, one equation at a time.
 *
 * Handbook section 6, cited as F6.1 and so on.  Stresses in Pa, forces in N, lengths in m.  Knows no part and no load case.
 */
#ifndef PLYLOFT_JOINTS_H
#define PLYLOFT_JOINTS_H

#include <stdbool.h>
#include <stddef.h>

/* ---- bonds ---- */

/* A lap of length by width between adherends of tension stiffness a and b a width (E t, N/m); the glue's shear modulus and
 * thickness. */
struct pl_lap { double length_m, width_m, stiffness_a_n_m, stiffness_b_n_m, glue_g_pa, glue_m; };

/* F6.1, Volkersen 1938: elastic glue without peel.  lambda = sqrt(G/t (1/Ka + 1/Kb)), X = lambda L / 2, average P/(bL), peak
 * average x X (coth X + r tanh X), r = |Ka - Kb| / (Ka + Kb), at the free end of the stiffer one. */
struct pl_lap_stress { double average_pa, peak_pa, x; };
struct pl_lap_stress pl_lap_stress(const struct pl_lap *lap, double force_n);

/* F6.2, Hart-Smith 1973 (NASA CR-112235), a double lap: peak shear x (3 E'_glue (1 - nu^2) t_outer / (E_outer t_glue))^(1/4);
 * the glue's modulus through its thickness, the outer adherend's Poisson's ratio, thickness and modulus. */
double pl_lap_peel_pa(double peak_pa, double glue_e_pa, double nu, double outer_m, double outer_e_pa, double glue_m);

/* ---- plates and bolts ---- */

/* F6.3: 6 M / (b t^2). */
double pl_plate_bending_pa(double moment_nm, double width_m, double thickness_m);

/* F6.4, Bruhn 1973: one bolt of diameter d in a sheet of thickness t, its middle e from the edge, in a strip w wide. */
double pl_bearing_pa(double force_n, double diameter_m, double thickness_m);
double pl_tear_out_pa(double force_n, double diameter_m, double thickness_m, double edge_m);  /* infinite at e <= d/2 */
double pl_net_section_pa(double force_n, double diameter_m, double thickness_m, double width_m);  /* infinite at w <= d */

/* F6.5: the most loaded of n bolts at x, y (m) under a force through their middle and a moment about it: V/n plus M r / sum r^2,
 * as vectors. */
struct pl_bolt_place { double x_m, y_m; };
double pl_bolt_group_n(const struct pl_bolt_place *places, size_t n, double force_x_n, double force_y_n, double moment_nm);

/* F6.6, Shigley and Mischke 1989: clamping T / (0.2 d). */
double pl_bolt_clamping_n(double torque_nm, double diameter_m);

/* F6.7: pull-out of a tapped plate, pi/2 d_pitch L tau.  F6.8, ECSS-E-HB-32-22A: of a potted insert, pi D c tau_core.  F6.9: of
 * a screw in wood, pi d L tau. */
double pl_thread_pull_out_n(double pitch_diameter_m, double length_m, double shear_pa);
double pl_insert_pull_out_n(double diameter_m, double depth_m, double core_shear_pa);
double pl_screw_pull_out_n(double diameter_m, double length_m, double shear_pa);

/* F6.9: tension of screws that resist a sideways push at a lever only through an arm: F h / s. */
double pl_plate_screw_n(double force_n, double lever_m, double arm_m);

/* ---- skins and panels ---- */

/* F6.10, Hetenyi 1946: how far a skin of modulus, thickness and Poisson's ratio spreads a push on a core: (4 D / k)^(1/4). */
double pl_skin_spread_m(double e_pa, double nu, double thickness_m, double core_e_pa, double core_m);

/* F6.11, Allen 1969: a strip of sandwich, facings t on a core c, width b: facing stress and deflection at the end of a lever under
 * a force there, core shear. */
struct pl_panel { double facing_m, core_m, width_m, facing_e_pa, core_g_pa; };
struct pl_panel_stress { double facing_pa, core_pa, stiffness_nm, bending_m, shear_m; };
struct pl_panel_stress pl_panel_stress(const struct pl_panel *panel, double force_n, double lever_m);

/* ---- bends ---- */

/* F6.12: length of the neutral line in a bend of an angle, inside radius r and thickness t: theta (r + K t), K 0.33 below r = t,
 * 0.42 to 3 t, 0.5 above; and of the flat for legs measured outside. */
double pl_bend_allowance_m(double angle_rad, double inside_radius_m, double thickness_m);
double pl_bend_flat_m(double leg_a_m, double leg_b_m, double angle_rad, double inside_radius_m, double thickness_m);

#endif
