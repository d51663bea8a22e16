#include "model.h"

#include <math.h>
#include <stdlib.h>

static const double step_m = 0.010;  /* contract, rule 9 */

/* Where a piece ends the shear centre steps aside, and the printed deflection, which is its, with it.  A station this
 * far on either side keeps the step from being smeared over 10 mm by whoever draws a line through the stations; it
 * takes the section at the step, which differs by nothing that shows. */
static const double beside_m = 0.001;

struct places { double *distance_m; size_t count; double semispan_m; };

static void add(struct places *p, double y_m)
{
    p->distance_m[p->count++] = fmin(p->semispan_m, fabs(y_m));
}

static void add_case(struct places *p, const struct pl_load_case *c)
{
    for (size_t i = 0; c->kind == PL_JACKING && i < c->n_pads; i++) {
        add(p, c->pads[i].y_m - 0.5 * c->pads[i].length_m);
        add(p, c->pads[i].y_m);
        add(p, c->pads[i].y_m + 0.5 * c->pads[i].length_m);
    }
    if (c->kind == PL_TIP_STRIKE || c->kind == PL_POINT_LOAD)
        add(p, pl_given(c->y_m) ? c->y_m : p->semispan_m);
}

static void add_mounts(struct places *p, const struct pl_part *part, size_t element)
{
    for (size_t e = 0; e < part->n_elements; e++)
        for (size_t i = 0; i < part->elements[e].n_mounts; i++) {
            const struct pl_mount *mount = &part->elements[e].mounts[i];
            if (e == element || mount->on == element)
                add(p, mount->y_m);
        }
}

static size_t most_places(const struct model *m)
{
    const struct pl_part *part = m->part;
    size_t n = 2 + m->loft.element->n_stations + 2 * m->cloth.count;
    for (size_t e = 0; e < part->n_elements; e++)
        n += part->elements[e].n_mounts;
    for (size_t c = 0; c < part->n_load_cases; c++)
        n += 1 + 3 * part->load_cases[c].n_pads;
    return n;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void collect(const struct model *m, struct places *p)
{
    const struct pl_part *part = m->part;
    add(p, 0);
    add(p, p->semispan_m);
    for (size_t i = 0; i < m->loft.element->n_stations; i++)
        add(p, m->loft.element->stations[i].y_m);
    for (size_t i = 0; i < m->cloth.count; i++) {
        add(p, m->cloth.pieces[i].from_m);
        add(p, m->cloth.pieces[i].to_m);
    }
    add_mounts(p, part, m->element);
    for (size_t i = 0; i < part->n_load_cases; i++)
        if (part->load_cases[i].element == m->element)
            add_case(p, &part->load_cases[i]);
    qsort(p->distance_m, p->count, sizeof *p->distance_m, by_value);
    size_t kept = 1;
    for (size_t i = 1; i < p->count; i++)
        if (p->distance_m[i] > p->distance_m[kept - 1] + PL_SAME_PLACE_M)
            p->distance_m[kept++] = p->distance_m[i];
    p->count = kept;
    p->distance_m[kept - 1] = p->semispan_m;
}

static size_t steps_between(double from_m, double to_m)
{
    return (size_t)ceil((to_m - from_m) / step_m - 1e-9);
}

/* A piece ends here. */
static bool cloth_steps(const struct pl_cloth *cloth, double distance_m)
{
    for (size_t i = 0; i < cloth->count; i++) {
        const struct pl_piece *p = &cloth->pieces[i];
        if (fabs(p->to_m - distance_m) < PL_SAME_PLACE_M || (p->from_m > 0 && fabs(p->from_m - distance_m) < PL_SAME_PLACE_M))
            return true;
    }
    return false;
}

/* The stations after the last one up to a place, that included. */
static void add_up_to(struct model *m, double to_m, bool steps, bool tip)
{
    struct grid_station *last = &m->grid[m->n_grid - 1];
    double from_m = last->distance_m, gap_m = to_m - from_m, until_m = to_m;
    bool room = gap_m > 3 * beside_m;
    if (room && last->steps) {
        from_m += beside_m;
        m->grid[m->n_grid++] = (struct grid_station){.distance_m = from_m, .shares = -1};
    }
    if (room && steps && !tip)
        until_m -= beside_m;
    size_t n = steps_between(from_m, until_m);
    for (size_t k = 1; k < n; k++)
        m->grid[m->n_grid++] = (struct grid_station){.distance_m = from_m + (until_m - from_m) * (double)k / (double)n};
    if (until_m < to_m)
        m->grid[m->n_grid++] = (struct grid_station){.distance_m = until_m, .shares = 1};
    m->grid[m->n_grid++] = (struct grid_station){.distance_m = to_m, .paired = true, .steps = steps && !tip};
}

bool pl_model_grid(struct model *m, struct pl_arena *arena)
{
    struct places p = {pl_arena_take_raw(arena, most_places(m), sizeof(double)), 0, m->loft.semispan_m};
    if (!p.distance_m)
        return false;
    collect(m, &p);
    size_t n = 1;
    for (size_t i = 1; i < p.count; i++)
        n += steps_between(p.distance_m[i - 1], p.distance_m[i]) + 2;
    m->grid = pl_arena_take_raw(arena, n, sizeof *m->grid);
    if (!m->grid)
        return false;
    m->grid[0] = (struct grid_station){.paired = true};
    m->n_grid = 1;
    for (size_t i = 1; i < p.count; i++)
        add_up_to(m, p.distance_m[i], cloth_steps(&m->cloth, p.distance_m[i]), i + 1 == p.count);
    return true;
}
