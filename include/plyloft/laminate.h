/* laminate.h - stiffness and strength of a ply stack.
 *
 * Classical lamination theory (Jones, Mechanics of Composite Materials, 2nd ed. 1999,
 * ch. 2 and 4; handbook F5.6, F5.7).  Wall axes: 1 along the span (+y), 2 from leading
 * to trailing edge; an angle turns from 1 towards 2.  The first ply lies on the core, z
 * points outward from the stack's middle.  Knows nothing of sections or files.
 */
#ifndef PLYLOFT_LAMINATE_H
#define PLYLOFT_LAMINATE_H

#include "plyloft/part.h"

struct pl_ply {
    const struct pl_fabric *fabric;
    double angle_rad, thickness_m;
    size_t item;  /* lay-up item it comes from */
};

struct pl_abd { double a[3][3], b[3][3], d[3][3], thickness_m; };  /* N/m, N, N m */

/* Reduced stiffness of a fabric in its own axes (plane stress). */
void pl_ply_stiffness(const struct pl_fabric *fabric, double q[3][3]);
/* The same turned into wall axes. */
void pl_ply_turned(const struct pl_fabric *fabric, double angle_rad, double qbar[3][3]);

void pl_laminate_abd(const struct pl_ply *plies, size_t n, struct pl_abd *out);

/* Engineering moduli of a stack from A alone. */
struct pl_moduli { double ex_pa, ey_pa, gxy_pa, nuxy; };
struct pl_moduli pl_laminate_moduli(const struct pl_abd *abd);

/* Inverse of a symmetric positive 3 x 3. */
void pl_invert3(const double m[3][3], double out[3][3]);

/* ---- strength ---- */

struct pl_ply_strength { double xt_pa, xc_pa, yt_pa, yc_pa, s_pa; };

/* sqrt((Tg wet - T)/(Tg dry - 23)), at most 1: Chamis 1983, NASA TM-83320 (handbook F5.10). 1 when
 * a temperature is NAN.  Not for T at or above tg_wet_c, nor tg_dry_c at or below 23. */
double pl_heat_factor(double tg_dry_c, double tg_wet_c, double service_c);

/* A fabric's strengths times knockdown, and the resin-driven ones times heat: compression, shear, and
 * transverse tension of a fabric whose e2 is below half its e1. */
struct pl_ply_strength pl_ply_strength(const struct pl_fabric *fabric, double knockdown, double heat);

/* Number that multiplies a stress (own axes: s1, s2, s12) until the criterion is met; HUGE_VAL for none.
 * Tsai-Wu with F12* = -0.5 (Tsai and Wu 1971, handbook F5.8); greatest stress. */
double pl_reserve_tsai_wu(const struct pl_ply_strength *strength, const double stress_pa[3]);
double pl_reserve_max_stress(const struct pl_ply_strength *strength, const double stress_pa[3]);

/* Stress in a ply's own axes from the strains of the wall (e1, e2, g12). */
void pl_ply_stress(const struct pl_ply *ply, const double strain[3], double stress_pa[3]);

#endif
