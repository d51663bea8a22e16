/* Cloth of an element, from the very sections that weigh it. */
#include "model.h"

/* Area that each stack covers, both halves together.  The same rule over y as the element's mass: a cut stands for
 * half the way to either neighbour, and the left half is what the right is, from a cut of its own at the centreline. */
static void add_covered(const struct model *m, double *covered_m2)
{
    const double *y_m = m->beam.y_m;
    size_t n = m->beam.count;
    for (size_t c = n / 2; c < n; c++) {
        const struct pl_wall *wall = &pl_model_section(m, c)->wall;
        double length_m = y_m[c + 1 < n ? c + 1 : c] - y_m[c - 1];
        for (size_t r = 0; r < wall->n_runs; r++)
            covered_m2[wall->runs[r].stack] += length_m * wall->runs[r].girth_m;
    }
}

bool pl_model_add_cloth(const struct model *m, struct pl_cloth_result *cloths, struct pl_arena *scratch)
{
    const struct pl_element *e = m->loft.element;
    const struct pl_resin *resin = &m->part->resins[e->resin];
    double *covered_m2 = pl_arena_take(scratch, m->stacks.count, sizeof *covered_m2);
    if (!covered_m2)
        return false;
    add_covered(m, covered_m2);
    for (size_t s = 0; s < m->stacks.count; s++) {
        const struct pl_stack *stack = &m->stacks.stacks[s];
        for (size_t p = 0; p < stack->n_parts; p++) {
            size_t fabric = e->layup[stack->parts[p].item].fabric;
            double area_m2 = covered_m2[s] * (double)stack->parts[p].plies;
            cloths[fabric].area_m2 += area_m2;
            cloths[fabric].mass_kg += area_m2 * pl_fabric_ply_kg_m2(&m->part->fabrics[fabric], resin);
        }
    }
    return true;
}
