#include "plyloft/joints.h"

#include <math.h>

/* ---- bonds ---- */

struct pl_lap_stress pl_lap_stress(const struct pl_lap *l, double force_n)
{
    double lambda = sqrt(l->glue_g_pa / l->glue_m * (1 / l->stiffness_a_n_m + 1 / l->stiffness_b_n_m)), x = 0.5 * lambda * l->length_m;
    double r = fabs(l->stiffness_a_n_m - l->stiffness_b_n_m) / (l->stiffness_a_n_m + l->stiffness_b_n_m);
    struct pl_lap_stress s = {.average_pa = fabs(force_n) / (l->width_m * l->length_m), .x = x};
    /* X coth X tends to 1 as X does to nothing. */
    double cothed = x < 1e-6 ? 1 : x / tanh(x);
    s.peak_pa = s.average_pa * (cothed + r * x * tanh(x));
    return s;
}

double pl_lap_peel_pa(double peak_pa, double glue_e_pa, double nu, double outer_m, double outer_e_pa, double glue_m)
{
    return peak_pa * pow(3 * glue_e_pa * (1 - nu * nu) * outer_m / (outer_e_pa * glue_m), 0.25);
}

/* ---- plates and bolts ---- */

double pl_plate_bending_pa(double moment_nm, double width_m, double thickness_m)
{
    return 6 * fabs(moment_nm) / (width_m * thickness_m * thickness_m);
}

double pl_bearing_pa(double force_n, double diameter_m, double thickness_m)
{
    return fabs(force_n) / (diameter_m * thickness_m);
}

double pl_tear_out_pa(double force_n, double diameter_m, double thickness_m, double edge_m)
{
    double left_m = edge_m - 0.5 * diameter_m;
    return left_m > 0 ? fabs(force_n) / (2 * thickness_m * left_m) : (double)INFINITY;
}

double pl_net_section_pa(double force_n, double diameter_m, double thickness_m, double width_m)
{
    return width_m > diameter_m ? fabs(force_n) / ((width_m - diameter_m) * thickness_m) : (double)INFINITY;
}

double pl_bolt_group_n(const struct pl_bolt_place *places, size_t n, double force_x_n, double force_y_n, double moment_nm)
{
    double x_m = 0, y_m = 0, sum = 0, most = 0;
    for (size_t i = 0; i < n; i++) {
        x_m += places[i].x_m / (double)n;
        y_m += places[i].y_m / (double)n;
    }
    for (size_t i = 0; i < n; i++)
        sum += pow(places[i].x_m - x_m, 2) + pow(places[i].y_m - y_m, 2);
    for (size_t i = 0; i < n; i++) {
        double rx = places[i].x_m - x_m, ry = places[i].y_m - y_m, turn = sum > 0 ? moment_nm / sum : 0;
        most = fmax(most, hypot(force_x_n / (double)n - turn * ry, force_y_n / (double)n + turn * rx));
    }
    return sum > 0 || fabs(moment_nm) < 1e-12 ? most : (double)INFINITY;  /* one bolt takes no moment */
}

double pl_bolt_clamping_n(double torque_nm, double diameter_m)
{
    return torque_nm / (0.2 * diameter_m);
}

double pl_thread_pull_out_n(double pitch_diameter_m, double length_m, double shear_pa)
{
    return M_PI_2 * pitch_diameter_m * length_m * shear_pa;
}

double pl_insert_pull_out_n(double diameter_m, double depth_m, double core_shear_pa)
{
    return M_PI * diameter_m * depth_m * core_shear_pa;
}

double pl_screw_pull_out_n(double diameter_m, double length_m, double shear_pa)
{
    return M_PI * diameter_m * length_m * shear_pa;
}

double pl_plate_screw_n(double force_n, double lever_m, double arm_m)
{
    return fabs(force_n) * lever_m / arm_m;
}

/* ---- skins and panels ---- */

double pl_skin_spread_m(double e_pa, double nu, double thickness_m, double core_e_pa, double core_m)
{
    double stiffness_nm = e_pa * pow(thickness_m, 3) / (12 * (1 - nu * nu)), bed_pa_m = core_e_pa / core_m;
    return pow(4 * stiffness_nm / bed_pa_m, 0.25);
}

struct pl_panel_stress pl_panel_stress(const struct pl_panel *p, double force_n, double lever_m)
{
    double d_m = p->facing_m + p->core_m, force = fabs(force_n);
    struct pl_panel_stress s = {.facing_pa = force * lever_m / (p->facing_m * d_m * p->width_m), .core_pa = force / (d_m * p->width_m)};
    s.stiffness_nm = 0.5 * p->facing_e_pa * p->facing_m * d_m * d_m;
    s.bending_m = force * pow(lever_m, 3) / (3 * s.stiffness_nm * p->width_m);
    s.shear_m = force * lever_m * p->core_m / (p->core_g_pa * d_m * d_m * p->width_m);
    return s;
}

/* ---- bends ---- */

double pl_bend_allowance_m(double angle_rad, double inside_radius_m, double thickness_m)
{
    double ratio = inside_radius_m / thickness_m, k = ratio < 1 ? 0.33 : ratio <= 3 ? 0.42 : 0.5;
    return angle_rad * (inside_radius_m + k * thickness_m);
}

double pl_bend_flat_m(double leg_a_m, double leg_b_m, double angle_rad, double inside_radius_m, double thickness_m)
{
    return leg_a_m + leg_b_m - 2 * (inside_radius_m + thickness_m) * tan(0.5 * angle_rad) + pl_bend_allowance_m(angle_rad, inside_radius_m, thickness_m);
}
