#include "plyloft/part.h"

double pl_element_semispan_m(const struct pl_element *e)
{
    return e->n_stations ? e->stations[e->n_stations - 1].y_m : 0;
}

double pl_fabric_ply_m(const struct pl_fabric *f)
{
    return f->areal_weight_kg_m2 / (f->fibre_density_kg_m3 * f->fibre_fraction);
}

double pl_fabric_ply_kg_m2(const struct pl_fabric *f, const struct pl_resin *resin)
{
    double cured_kg_m3 = f->fibre_density_kg_m3 * f->fibre_fraction + resin->density_kg_m3 * (1 - f->fibre_fraction);
    return pl_fabric_ply_m(f) * cured_kg_m3;
}

double pl_load_case_pressure_pa(const struct pl_load_case *c)
{
    return 0.5 * c->air_density_kg_m3 * c->speed_m_s * c->speed_m_s;
}
