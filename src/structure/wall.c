#include "wall.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { WALL_ARRAYS = 7 };  /* of doubles in struct pl_wall */

static const double wrinkles_from = 0.10;  /* chord fraction (contract, rule 7) */
static const double same_fraction = 1e-9;

static bool side_start(struct side *side, size_t nodes, size_t strips, struct pl_arena *arena)
{
    double *slab = pl_arena_take_raw(arena, 6 * nodes, sizeof *slab);
    side->strips = pl_arena_take_raw(arena, strips, sizeof *side->strips);
    if (!slab || !side->strips)
        return false;
    double **arrays[] = {&side->x, &side->z, &side->normal_x, &side->normal_z, &side->stretch, &side->fraction};
    for (size_t i = 0; i < 6; i++)
        *arrays[i] = slab + i * nodes;
    return true;
}

bool pl_wall_scratch_start(struct pl_section_builder *b)
{
    size_t items = b->loft->element->n_layup, edges = 2 * items + 3, nodes = b->loft->count + edges;
    struct pl_section_scratch *s = b->scratch = pl_arena_take_raw(b->arena, 1, sizeof *s);
    if (!s)
        return false;
    b->loft_scratch = pl_arena_take_raw(b->arena, 4 * b->loft->count, sizeof *b->loft_scratch);
    s->plies = pl_arena_take_raw(b->arena, items, sizeof *s->plies);
    s->parts = pl_arena_take_raw(b->arena, items, sizeof *s->parts);
    s->edges = pl_arena_take_raw(b->arena, edges, sizeof *s->edges);
    s->segment_x = pl_arena_take_raw(b->arena, 2 * nodes, sizeof *s->segment_x);
    if (!b->loft_scratch || !s->plies || !s->parts || !s->edges || !s->segment_x)
        return false;
    s->segment_z = s->segment_x + nodes;
    return side_start(&s->top, nodes, edges, b->arena)
           && side_start(&s->bottom, nodes, edges, b->arena);
}

size_t pl_wall_stack(struct pl_section_builder *b, enum pl_side side, double chord_m, double fraction, bool *no_memory)
{
    const struct pl_element *element = b->loft->element;
    size_t n = 0;
    for (size_t i = 0; i < element->n_layup; i++) {
        double from, to;
        if (!b->scratch->plies[i] || !pl_item_on_side(&element->layup[i], side))
            continue;
        pl_item_edges(&element->layup[i], chord_m, &from, &to, NULL);
        if (fraction >= from - same_fraction && fraction <= to + same_fraction)
            b->scratch->parts[n++] = (struct pl_stack_part){i, b->scratch->plies[i]};
    }
    size_t stack = n ? pl_stack_find(b->stacks, b->scratch->parts, n) : PL_NONE;
    *no_memory = n && stack == PL_NONE;
    return stack;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Fractions where the stack of a side may change, 0 and 1 included, rising; their number. */
static size_t side_edges(const struct pl_section_builder *b, enum pl_side side, double chord_m)
{
    const struct pl_element *element = b->loft->element;
    double *edges = b->scratch->edges;
    size_t n = 0, kept = 1;
    edges[n++] = 0;
    edges[n++] = wrinkles_from;
    for (size_t i = 0; i < element->n_layup; i++) {
        if (!b->scratch->plies[i] || !pl_item_on_side(&element->layup[i], side))
            continue;
        pl_item_edges(&element->layup[i], chord_m, &edges[n], &edges[n + 1], NULL);
        n += 2;
    }
    edges[n++] = 1;
    qsort(edges, n, sizeof *edges, by_value);
    for (size_t i = 1; i < n; i++)
        if (edges[i] > edges[kept - 1] + same_fraction)
            edges[kept++] = edges[i];
    edges[kept - 1] = 1;
    return kept;
}

static void tell_bare(struct pl_section_builder *b, enum pl_side side, double from, double to, double y_m)
{
    if (b->bare_told)
        return;
    b->bare_told = true;
    char place[160];
    snprintf(place, sizeof place, "%s/layup", b->pointer);
    pl_problem_addf(b->problems, PL_ERROR, place,
                    "leaves the %s bare from %.3f to %.3f of the chord at y %.1f mm: a piece must cover it",
                    side == PL_TOP ? "top" : "bottom", from, to, 1e3 * fabs(y_m));
}

static enum pl_status lay_strips(struct pl_section_builder *b, enum pl_side which, double chord_m, double y_m,
                                 struct side *side)
{
    size_t edges = side_edges(b, which, chord_m);
    side->n_strips = edges - 1;
    for (size_t i = 0; i + 1 < edges; i++) {
        double from = b->scratch->edges[i], to = b->scratch->edges[i + 1];
        bool no_memory;
        size_t stack = pl_wall_stack(b, which, chord_m, 0.5 * (from + to), &no_memory);
        if (no_memory)
            return PL_NO_MEMORY;
        if (stack == PL_NONE) {
            tell_bare(b, which, from, to, y_m);
            return PL_BAD_INPUT;
        }
        side->strips[i] = (struct strip){from, to, stack, 0, 0};
    }
    return PL_OK;
}

static void add_node(struct side *side, double x, double z, double chord_m)
{
    double px = x * chord_m, pz = z * chord_m;
    if (side->count) {
        double dx = px - side->x[side->count - 1], dz = pz - side->z[side->count - 1];
        if (dx * dx + dz * dz < 1e-16 * chord_m * chord_m)
            return;
    }
    side->x[side->count] = px;
    side->z[side->count] = pz;
    side->fraction[side->count++] = x;
}

/* Nodes from nose to tail, one at every strip's end. */
static void place_nodes(struct side *side, struct pl_surface surface, size_t count, double chord_m)
{
    size_t strip = 0;
    side->count = 0;
    add_node(side, surface.x[0], surface.z[0], chord_m);
    for (size_t i = 0; i + 1 < count; i++) {
        double x = surface.x[i], z = surface.z[i], x2 = surface.x[i + 1], z2 = surface.z[i + 1];
        /* The last strip reaches to the very tail. */
        while (strip + 1 < side->n_strips && side->strips[strip].to < x2 + same_fraction) {
            double part = x2 > x ? fmin(1, fmax(0, (side->strips[strip].to - x) / (x2 - x))) : 1;
            add_node(side, x + part * (x2 - x), z + part * (z2 - z), chord_m);
            side->strips[strip].last = side->strips[strip + 1].first = side->count - 1;
            strip++;
        }
        add_node(side, x2, z2, chord_m);
    }
    for (; strip < side->n_strips; strip++) {  /* strips behind a tail short of the chord have no length */
        side->strips[strip].last = side->count - 1;
        if (strip + 1 < side->n_strips)
            side->strips[strip + 1].first = side->count - 1;
    }
}

static void node_normal(struct side *side, size_t i, double ax, double az, double bx, double bz)
{
    double both = 1 + ax * bx + az * bz;
    if (both < 1e-6) {  /* a knife edge: the normals cancel */
        ax = bx;
        az = bz;
        both = 2;
    }
    double scale = 1 / sqrt(2 * both);
    side->normal_x[i] = scale * (ax + bx);
    side->normal_z[i] = scale * (az + bz);
    side->stretch[i] = both > 0.5 ? sqrt(2 / both) : 2;
}

/* Outward normal of the segment after node i. */
static void segment_normal(const struct side *side, size_t i, double sign, double *nx, double *nz)
{
    double dx = side->x[i + 1] - side->x[i], dz = side->z[i + 1] - side->z[i], scale = sign / sqrt(dx * dx + dz * dz);
    *nx = -scale * dz;
    *nz = scale * dx;
}

static void set_normals(struct side *side, double sign, double nose_x, double nose_z, double *seg_x, double *seg_z)
{
    size_t n = side->count;
    for (size_t i = 0; i + 1 < n; i++)
        segment_normal(side, i, sign, &seg_x[i], &seg_z[i]);
    node_normal(side, 0, nose_x, nose_z, seg_x[0], seg_z[0]);
    for (size_t i = 1; i + 1 < n; i++)
        node_normal(side, i, seg_x[i - 1], seg_z[i - 1], seg_x[i], seg_z[i]);
    node_normal(side, n - 1, seg_x[n - 2], seg_z[n - 2], seg_x[n - 2], seg_z[n - 2]);
}

enum pl_status pl_wall_sides(struct pl_section_builder *b, const struct pl_loft_place *place)
{
    struct pl_section_scratch *s = b->scratch;
    enum pl_status status = lay_strips(b, PL_TOP, place->chord_m, place->y_m, &s->top);
    if (status == PL_OK)
        status = lay_strips(b, PL_BOTTOM, place->chord_m, place->y_m, &s->bottom);
    if (status != PL_OK)
        return status;
    place_nodes(&s->top, place->top, b->loft->count, place->chord_m);
    place_nodes(&s->bottom, place->bottom, b->loft->count, place->chord_m);
    double top_x, top_z, bottom_x, bottom_z;
    segment_normal(&s->top, 0, 1, &top_x, &top_z);
    segment_normal(&s->bottom, 0, -1, &bottom_x, &bottom_z);
    set_normals(&s->top, 1, bottom_x, bottom_z, s->segment_x, s->segment_z);
    set_normals(&s->bottom, -1, top_x, top_z, s->segment_x, s->segment_z);
    return PL_OK;
}

static bool take_wall(struct pl_section_builder *b, struct pl_wall *wall)
{
    const struct side *sides[] = {&b->scratch->bottom, &b->scratch->top};
    wall->count = wall->n_runs = 0;
    for (int s = 0; s < 2; s++)
        for (size_t i = 0; i < sides[s]->n_strips; i++)
            if (sides[s]->strips[i].last > sides[s]->strips[i].first) {
                wall->count += sides[s]->strips[i].last - sides[s]->strips[i].first + 1;
                wall->n_runs++;
            }
    double *slab = pl_arena_take_raw(b->arena, WALL_ARRAYS * wall->count, sizeof *slab);
    wall->runs = pl_arena_take(b->arena, wall->n_runs, sizeof *wall->runs);
    if (!slab || !wall->runs)
        return false;
    double **arrays[WALL_ARRAYS] = {&wall->x_m, &wall->z_m, &wall->normal_x, &wall->normal_z,
                                    &wall->flow_z, &wall->flow_x, &wall->fraction};
    for (size_t i = 0; i < WALL_ARRAYS; i++)
        *arrays[i] = slab + i * wall->count;
    return true;
}

static void add_run(const struct pl_section_builder *b, const struct side *side, const struct strip *strip,
                    enum pl_side which, struct pl_wall_run *run, struct pl_wall *wall, size_t at)
{
    double half = 0.5 * b->stacks->stacks[strip->stack].thickness_m;
    *run = (struct pl_wall_run){.stack = strip->stack, .first = at, .count = strip->last - strip->first + 1,
                                .side = which, .from = strip->from, .to = strip->to,
                                .wrinkles = strip->from > wrinkles_from - same_fraction};
    for (size_t i = strip->first; i < strip->last; i++) {
        double dx = side->x[i + 1] - side->x[i], dz = side->z[i + 1] - side->z[i];
        run->girth_m += sqrt(dx * dx + dz * dz);
    }
    for (size_t k = 0; k < run->count; k++) {
        size_t node = which == PL_TOP ? strip->first + k : strip->last - k;
        double out = half * side->stretch[node];
        wall->x_m[at + k] = side->x[node] + out * side->normal_x[node];
        wall->z_m[at + k] = side->z[node] + out * side->normal_z[node];
        wall->normal_x[at + k] = side->normal_x[node];
        wall->normal_z[at + k] = side->normal_z[node];
        wall->fraction[at + k] = side->fraction[node];
    }
}

bool pl_wall_runs(struct pl_section_builder *b, struct pl_wall *wall)
{
    if (!take_wall(b, wall))
        return false;
    const struct side *bottom = &b->scratch->bottom, *top = &b->scratch->top;
    size_t at = 0, run = 0;
    for (size_t i = bottom->n_strips; i-- > 0;)
        if (bottom->strips[i].last > bottom->strips[i].first) {
            add_run(b, bottom, &bottom->strips[i], PL_BOTTOM, &wall->runs[run], wall, at);
            at += wall->runs[run++].count;
        }
    for (size_t i = 0; i < top->n_strips; i++)
        if (top->strips[i].last > top->strips[i].first) {
            add_run(b, top, &top->strips[i], PL_TOP, &wall->runs[run], wall, at);
            at += wall->runs[run++].count;
        }
    return true;
}
