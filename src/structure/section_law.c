#include "plyloft/section.h"

#include <math.h>

void pl_section_to_car(const struct pl_section *s, double x_m, double z_m, double *x_car_m, double *z_car_m)
{
    double c = s->cos_nose_up, n = s->sin_nose_up;
    *x_car_m = s->x_le_m + x_m * c + z_m * n;
    *z_car_m = s->z_le_m - x_m * n + z_m * c;
}

struct pl_internal pl_section_turn(const struct pl_section *s, const struct pl_internal *car)
{
    double c = s->cos_nose_up, n = s->sin_nose_up;
    return (struct pl_internal){
        .shear_z_n = car->shear_z_n * c + car->shear_x_n * n,
        .shear_x_n = car->shear_x_n * c - car->shear_z_n * n,
        .moment_flap_nm = car->moment_flap_nm * c + car->moment_lead_nm * n,
        .moment_lead_nm = car->moment_lead_nm * c - car->moment_flap_nm * n,
        .torque_nm = car->torque_nm,
    };
}

/* H^-1 of rule 4 on (N, flap moment, lead moment). */
static struct pl_strain bend(const struct pl_section *s, double n, double flap, double lead)
{
    double det = s->ei_flap_nm2 * s->ei_lead_nm2 - s->ei_coupling_nm2 * s->ei_coupling_nm2;
    return (struct pl_strain){n / s->ea_n, (s->ei_lead_nm2 * flap - s->ei_coupling_nm2 * lead) / det,
                              (s->ei_flap_nm2 * lead - s->ei_coupling_nm2 * flap) / det};
}

struct pl_strain pl_section_strain(const struct pl_section *s, const struct pl_internal *f)
{
    double by_flow[3] = {0, 0, 0};
    for (int i = 0; i < 3 && s->couples; i++)
        by_flow[i] = s->by_torque[i] * f->torque_nm + s->by_shear_z[i] * f->shear_z_n + s->by_shear_x[i] * f->shear_x_n;
    return bend(s, -by_flow[0], f->moment_flap_nm - by_flow[1], f->moment_lead_nm - by_flow[2]);
}

void pl_section_compliance(const struct pl_section *s, double out[6])
{
    double c = s->cos_nose_up, n = s->sin_nose_up;
    struct pl_strain flap = bend(s, 0, 1, 0), lead = bend(s, 0, 0, 1);
    /* by_torque is the contract's c / 2A; the twist rate is closed ds / A66* times T / 4A2, less by_torque . e. */
    const double *t = s->by_torque;
    struct pl_strain turn = bend(s, -t[0], -t[1], -t[2]);
    double ff = flap.flap_1_m, fl = flap.lead_1_m, ll = lead.lead_1_m, ft = turn.flap_1_m, lt = turn.lead_1_m;
    out[0] = ff * c * c - 2 * fl * c * n + ll * n * n;
    out[1] = ff * n * n + 2 * fl * c * n + ll * c * c;
    out[2] = 1 / s->gj_nm2 - (t[0] * turn.at_neutral + t[1] * turn.flap_1_m + t[2] * turn.lead_1_m);
    out[3] = (ff - ll) * c * n + fl * (c * c - n * n);
    out[4] = ft * c - lt * n;
    out[5] = ft * n + lt * c;
}
