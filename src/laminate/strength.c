#include "plyloft/laminate.h"

#include <math.h>

double pl_heat_factor(double tg_dry_c, double tg_wet_c, double service_c)
{
    if (!pl_given(tg_dry_c) || !pl_given(tg_wet_c) || !pl_given(service_c))
        return 1;
    return fmin(1, sqrt((tg_wet_c - service_c) / (tg_dry_c - 23)));
}

struct pl_ply_strength pl_ply_strength(const struct pl_fabric *fabric, double knockdown, double heat)
{
    /* Across its threads a one-way cloth pulls on resin alone (contract, rule 7). */
    double across = fabric->e2_pa < 0.5 * fabric->e1_pa ? heat : 1;
    return (struct pl_ply_strength){
        .xt_pa = fabric->xt_pa * knockdown,
        .xc_pa = fabric->xc_pa * knockdown * heat,
        .yt_pa = fabric->yt_pa * knockdown * across,
        .yc_pa = fabric->yc_pa * knockdown * heat,
        .s_pa = fabric->s_pa * knockdown * heat,
    };
}

double pl_reserve_tsai_wu(const struct pl_ply_strength *s, const double stress_pa[3])
{
    double f11 = 1 / (s->xt_pa * s->xc_pa), f22 = 1 / (s->yt_pa * s->yc_pa), f66 = 1 / (s->s_pa * s->s_pa);
    double s1 = stress_pa[0], s2 = stress_pa[1], s12 = stress_pa[2];
    double a = f11 * s1 * s1 + f22 * s2 * s2 + f66 * s12 * s12 - sqrt(f11 * f22) * s1 * s2;
    double b = (1 / s->xt_pa - 1 / s->xc_pa) * s1 + (1 / s->yt_pa - 1 / s->yc_pa) * s2;
    double root = sqrt(b * b + 4 * a);
    if (b > 0)
        return 2 / (b + root);  /* no cancellation (handbook F5.8) */
    return a > 0 ? (root - b) / (2 * a) : HUGE_VAL;
}

double pl_reserve_max_stress(const struct pl_ply_strength *s, const double stress_pa[3])
{
    double one = stress_pa[0] > 0 ? stress_pa[0] / s->xt_pa : -stress_pa[0] / s->xc_pa;
    double two = stress_pa[1] > 0 ? stress_pa[1] / s->yt_pa : -stress_pa[1] / s->yc_pa;
    double used = fmax(fmax(one, two), fabs(stress_pa[2]) / s->s_pa);
    return used > 0 ? 1 / used : HUGE_VAL;
}
