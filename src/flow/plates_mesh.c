#include "plates_mesh.h"

#include "lattice_inside.h"

#include <math.h>
#include <stdlib.h>

static const double same_m = 1e-7;
/* By the panel they stand on: bound lines nearer than the first are one, wider gaps than the second get more. */
static const double too_near = 0.3, too_wide = 1.8;
/* By the plate's length: a mean line that touches the edge leaves this much plate. */
static const double least_height = 0.004;

enum { LINES_MOST = 200, DIVISIONS = 6, DIVISIONS_LOW = 3 };

/* ---- which plates, and what stands on them ---- */

static size_t tip_node(const struct mesh_element *m, size_t row)
{
    return m->nodes[row * (m->spanwise + 1) + m->spanwise];
}

static bool overlap(const struct plate *a, const struct plate *b)
{
    return fabs(a->y_m - b->y_m) < same_m && a->x_from_m < b->x_to_m && b->x_from_m < a->x_to_m && a->z_from_m < b->z_to_m
           && b->z_from_m < a->z_to_m;
}

static void cover(struct plate *p, double x_from_m, double x_to_m, double z_from_m, double z_to_m)
{
    p->x_from_m = fmin(p->x_from_m, x_from_m);
    p->x_to_m = fmax(p->x_to_m, x_to_m);
    p->z_from_m = fmin(p->z_from_m, z_from_m);
    p->z_to_m = fmax(p->z_to_m, z_to_m);
}

static struct plate plate_of(const struct pl_element *e)
{
    const struct pl_station *tip = &e->stations[e->n_stations - 1];
    const struct pl_end_plates *given = &e->end_plates;
    double x_m = pl_given(given->x_le_m) ? given->x_le_m : tip->x_le_m, z_m = tip->z_le_m - given->below_m;
    return (struct plate){.y_m = tip->y_m, .x_from_m = x_m, .x_to_m = x_m + given->length_m, .z_from_m = z_m, .z_to_m = z_m + given->height_m};
}

static void add_plate(struct plates *all, struct plate plate)
{
    for (size_t i = 0; i < all->count; i++)
        if (overlap(&all->list[i], &plate)) {
            cover(&all->list[i], plate.x_from_m, plate.x_to_m, plate.z_from_m, plate.z_to_m);
            return;
        }
    all->list[all->count++] = plate;
}

/* The tip's corners must follow each other in x. */
static bool runs_aft(const struct mesh_element *m, const struct pl_lattice *l)
{
    double x = pl_mean_surface_at(m->surface, m->edges_m[m->spanwise], 0).x;
    for (size_t row = 0; row <= m->chordwise; row++) {
        double next = pl_lattice_at(l, tip_node(m, row)).x;
        if (!(next > x + same_m))
            return false;
        x = next;
    }
    return true;
}

/* Takes a tip that stands in the plate's plane and touches it; the plate then covers its whole mean line. */
static bool take_tip(struct plate *p, struct mesh_element *m, const struct pl_lattice *l)
{
    double y_m = m->edges_m[m->spanwise];
    struct pl_vector nose = pl_mean_surface_at(m->surface, y_m, 0), tail = pl_lattice_at(l, tip_node(m, m->chordwise));
    struct plate tip = {.y_m = y_m, .x_from_m = nose.x, .x_to_m = tail.x, .z_from_m = nose.z, .z_to_m = nose.z};
    for (size_t row = 0; row <= m->chordwise; row++) {
        double z = pl_lattice_at(l, tip_node(m, row)).z;
        cover(&tip, nose.x, tail.x, z - same_m, z + same_m);
    }
    if (!overlap(p, &tip))
        return true;
    if (p->n_lines > TIPS_MOST)
        return false;
    cover(p, tip.x_from_m, tip.x_to_m, tip.z_from_m, tip.z_to_m);
    p->lines[p->n_lines++] = (struct plate_line){.tip = m, .nose_x = nose.x, .nose_z = nose.z, .tail_x = tail.x, .tail_z = tail.z};
    return runs_aft(m, l);
}

/* ---- lines across a plate ---- */

/* Height of a line at x: level ahead of the nose and behind the edge. */
static double height_at(const struct plate_line *line, const struct pl_lattice *l, double x)
{
    const struct mesh_element *m = line->tip;
    double x0 = line->nose_x, z0 = line->nose_z;
    if (!m || x <= x0)
        return z0;
    for (size_t row = 0; row <= m->chordwise; row++) {
        struct pl_vector next = pl_lattice_at(l, tip_node(m, row));
        if (x < next.x)
            return z0 + (x - x0) / (next.x - x0) * (next.z - z0);
        x0 = next.x;
        z0 = next.z;
    }
    return line->tail_z;
}

static double mean_height(const struct plate *p, const struct plate_line *line, const struct pl_lattice *l)
{
    double sum = 0;
    for (int i = 0; i <= 20; i++)
        sum += height_at(line, l, p->x_from_m + i / 20.0 * (p->x_to_m - p->x_from_m));
    return sum;
}

/* From the lowest to the highest; then the plate's own edges outside of them. */
static void order_lines(struct plate *p, const struct pl_lattice *l)
{
    for (size_t i = 1; i < p->n_lines; i++)
        for (size_t k = i; k > 0 && mean_height(p, &p->lines[k], l) < mean_height(p, &p->lines[k - 1], l); k--) {
            struct plate_line other = p->lines[k];
            p->lines[k] = p->lines[k - 1];
            p->lines[k - 1] = other;
        }
    for (size_t i = p->n_lines; i > 0; i--)
        p->lines[i] = p->lines[i - 1];
    p->n_lines += 2;
}

static void add_edges(struct plate *p, const struct pl_lattice *l)
{
    const struct plate_line *lowest = &p->lines[1], *highest = &p->lines[p->n_lines - 2];
    double margin = least_height * (p->x_to_m - p->x_from_m), low = HUGE_VAL, high = -HUGE_VAL;
    for (int i = 0; i <= 200; i++) {
        double x = p->x_from_m + i / 200.0 * (p->x_to_m - p->x_from_m);
        low = fmin(low, height_at(lowest, l, x) - margin);
        high = fmax(high, height_at(highest, l, x) + margin);
    }
    low = fmin(p->z_from_m, low);
    if (!isnan(l->ground_z))  /* never nearer to the ground than half of what is there */
        low = fmax(low, fmin(p->z_from_m, l->ground_z + 0.5 * fabs(p->z_from_m - l->ground_z)));
    p->lines[0] = (struct plate_line){.nose_x = HUGE_VAL, .nose_z = low};
    p->lines[p->n_lines - 1] = (struct plate_line){.nose_x = HUGE_VAL, .nose_z = fmax(p->z_to_m, high)};
}

/* ---- bound lines ---- */

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double panel_m(const struct plate *p)
{
    double least = p->x_to_m - p->x_from_m;
    for (size_t i = 1; i + 1 < p->n_lines; i++)
        least = fmin(least, (p->lines[i].tail_x - p->lines[i].nose_x) / (double)p->lines[i].tip->chordwise);
    return least;
}

/* Between the front, or a bound line, and the next: equal panels, the first one's quarter a quarter behind the front. */
static void fill_gap(struct plate *p, double from, double to, double first, double panel)
{
    size_t n = (size_t)lround((to - from) / panel);
    for (size_t i = 0; i < n && p->n_bound < LINES_MOST; i++)
        p->x_m[p->n_bound++] = from + ((double)i + first) / (double)n * (to - from);
}

static bool set_bound_lines(struct plate *p, const struct pl_lattice *l, struct pl_arena *arena)
{
    double rows[LINES_MOST], panel = panel_m(p), nose = HUGE_VAL, tail = -HUGE_VAL;
    size_t n = 0;
    p->x_m = pl_arena_take_raw(arena, 2 * LINES_MOST + 1, sizeof *p->x_m);
    if (!p->x_m)
        return false;
    for (size_t i = 1; i + 1 < p->n_lines; i++) {
        const struct mesh_element *m = p->lines[i].tip;
        nose = fmin(nose, p->lines[i].nose_x);
        tail = fmax(tail, p->lines[i].tail_x);
        for (size_t row = 0; row < m->chordwise && n < LINES_MOST; row++)
            rows[n++] = pl_lattice_at(l, tip_node(m, row)).x;
    }
    qsort(rows, n, sizeof *rows, by_value);
    fill_gap(p, p->x_from_m, nose, 0.25, too_wide * panel);
    for (size_t i = 0; i < n; i++) {
        double before = p->n_bound ? p->x_m[p->n_bound - 1] : -HUGE_VAL;
        if (rows[i] - before < too_near * panel)
            continue;
        if (i && rows[i] - before > 2 * too_wide * panel)
            fill_gap(p, before, rows[i], 0.5, too_wide * panel);
        p->x_m[p->n_bound++] = rows[i];
    }
    fill_gap(p, tail, p->x_to_m, 0.25, too_wide * panel);
    p->x_m[p->n_bound] = p->x_to_m;
    return true;
}

/* ---- corners ---- */

static void insert_knot(struct plate_line *line, struct mesh_knot knot)
{
    size_t i = line->n_knots++;
    for (; i > 0 && line->knots[i - 1].x > knot.x; i--)
        line->knots[i] = line->knots[i - 1];
    line->knots[i] = knot;
}

static bool has_knot(const struct plate_line *line, double x)
{
    for (size_t i = 0; i < line->n_knots; i++)
        if (fabs(line->knots[i].x - x) < same_m)
            return true;
    return false;
}

static void make_knot(const struct plate *p, struct plate_line *line, struct pl_lattice *l, double x, double z)
{
    if (!has_knot(line, x))
        insert_knot(line, (struct mesh_knot){x, z, pl_lattice_node(l, (struct pl_vector){x, p->y_m, z})});
}

static bool set_knots(struct plate *p, struct plate_line *line, struct pl_lattice *l, struct pl_arena *arena)
{
    struct mesh_element *m = line->tip;
    size_t rows = m ? m->chordwise + 1 : 0;
    line->knots = pl_arena_take_raw(arena, p->n_bound + rows + 2, sizeof *line->knots);
    line->at = pl_arena_take_raw(arena, p->n_bound + 1, sizeof *line->at);
    if (!line->knots || !line->at)
        return false;
    for (size_t row = 0; row < rows; row++) {
        struct pl_vector at = pl_lattice_at(l, tip_node(m, row));
        insert_knot(line, (struct mesh_knot){at.x, at.z, tip_node(m, row)});
    }
    if (m && p->x_m[0] < line->nose_x)
        make_knot(p, line, l, line->nose_x, line->nose_z);
    for (size_t i = 0; i <= p->n_bound; i++)
        make_knot(p, line, l, p->x_m[i], height_at(line, l, p->x_m[i]));
    for (size_t i = 0; i <= p->n_bound; i++)
        for (size_t k = 0; k < line->n_knots; k++)
            if (fabs(line->knots[k].x - p->x_m[i]) < same_m)
                line->at[i] = k;
    if (m) {
        m->tip = line->knots;
        m->n_tip = line->n_knots;
    }
    return true;
}

static bool is_above(const struct plate *p, const struct plate_line *a, const struct plate_line *b, const struct pl_lattice *l)
{
    for (size_t i = 0; i < a->n_knots; i++)
        if (!(height_at(b, l, a->knots[i].x) - a->knots[i].z > 0.1 * least_height * (p->x_to_m - p->x_from_m)))
            return false;
    return true;
}

static double share_at(double number, size_t divisions)
{
    return 0.5 * (1 - cos(M_PI * number / (double)divisions));
}

static bool set_rows(struct plate *p, size_t part, struct pl_lattice *l, struct pl_arena *arena)
{
    const struct plate_line *low = &p->lines[part], *high = &p->lines[part + 1];
    double tallest = 0;
    for (size_t i = 0; i <= p->n_bound; i++)
        tallest = fmax(tallest, height_at(high, l, p->x_m[i]) - height_at(low, l, p->x_m[i]));
    p->divisions[part] = tallest < 0.1 * (p->x_to_m - p->x_from_m) ? DIVISIONS_LOW : DIVISIONS;
    p->rows[part] = pl_arena_take_raw(arena, (p->divisions[part] - 1) * (p->n_bound + 1), sizeof **p->rows);
    if (!p->rows[part])
        return false;
    for (size_t v = 1; v < p->divisions[part]; v++)
        for (size_t i = 0; i <= p->n_bound; i++) {
            double x = p->x_m[i], a = height_at(low, l, x), b = height_at(high, l, x);
            struct pl_vector at = {x, p->y_m, a + share_at((double)v, p->divisions[part]) * (b - a)};
            p->rows[part][(v - 1) * (p->n_bound + 1) + i] = pl_lattice_node(l, at);
        }
    return true;
}

static enum pl_status cannot_join(const struct plate *p, struct pl_problems *problems)
{
    char place[64] = "";
    pl_problem_addf(problems, PL_ERROR, place,
                    "the flow cannot join the end plate at y %.0f mm to the wing tips on it: a tip is turned too far, or two of them cross",
                    1e3 * p->y_m);
    return PL_NOT_CONVERGED;
}

static enum pl_status make_corners(struct plate *p, struct pl_lattice *l, struct pl_arena *arena, struct pl_problems *problems)
{
    order_lines(p, l);
    add_edges(p, l);
    if (!set_bound_lines(p, l, arena))
        return PL_NO_MEMORY;
    for (size_t i = 0; i < p->n_lines; i++)
        if (!set_knots(p, &p->lines[i], l, arena))
            return PL_NO_MEMORY;
    for (size_t part = 0; part + 1 < p->n_lines; part++) {
        if (!is_above(p, &p->lines[part], &p->lines[part + 1], l))
            return cannot_join(p, problems);
        if (!set_rows(p, part, l, arena))
            return PL_NO_MEMORY;
    }
    return PL_OK;
}

enum pl_status pl_plates_join(struct plates *all, struct wing_mesh *w, struct pl_lattice *l, struct pl_arena *arena, struct pl_problems *problems)
{
    *all = (struct plates){.list = pl_arena_take(arena, w->n_elements + 1, sizeof *all->list)};
    if (!all->list)
        return PL_NO_MEMORY;
    for (size_t i = 0; i < w->n_elements; i++)
        if (w->part->elements[i].end_plates.given)
            add_plate(all, plate_of(&w->part->elements[i]));
    for (size_t i = 0; i < all->count; i++) {
        struct plate *p = &all->list[i];
        for (size_t k = 0; k < w->n_elements; k++)
            if (!take_tip(p, &w->elements[k], l))
                return cannot_join(p, problems);
        enum pl_status status = make_corners(p, l, arena, problems);
        if (status != PL_OK)
            return status;
    }
    return PL_OK;
}

/* ---- rings ---- */

static size_t corner(const struct plate *p, size_t part, size_t row, size_t i)
{
    const struct plate_line *line = &p->lines[row ? part + 1 : part];
    if (row && row < p->divisions[part])
        return p->rows[part][(row - 1) * (p->n_bound + 1) + i];
    return line->knots[line->at[i]].node;
}

/* From one bound line to the next along a row, over what a line has in between; backwards when aft is false. */
static void lay_side(const struct plate *p, struct pl_lattice *l, size_t part, size_t row, size_t i, bool aft)
{
    const struct plate_line *line = row == 0 ? &p->lines[part] : row == p->divisions[part] ? &p->lines[part + 1] : NULL;
    if (!line) {
        pl_lattice_line(l, corner(p, part, row, aft ? i : i + 1), corner(p, part, row, aft ? i + 1 : i));
        return;
    }
    for (size_t k = line->at[i]; aft && k < line->at[i + 1]; k++)
        pl_lattice_line(l, line->knots[k].node, line->knots[k + 1].node);
    for (size_t k = line->at[i + 1]; !aft && k > line->at[i]; k--)
        pl_lattice_line(l, line->knots[k].node, line->knots[k - 1].node);
}

static void lay_ring(const struct plate *p, struct pl_lattice *l, size_t part, size_t row, size_t i)
{
    bool last = i + 1 == p->n_bound;
    /* Halfway to the next bound line is three quarters of a panel; the last panel ends sooner. */
    double x = p->x_m[i] + (last ? 2.0 / 3 : 0.5) * (p->x_m[i + 1] - p->x_m[i]), share = share_at((double)row + 0.5, p->divisions[part]);
    double a = height_at(&p->lines[part], l, x), b = height_at(&p->lines[part + 1], l, x);
    pl_lattice_ring(l, (struct pl_vector){x, p->y_m, a + share * (b - a)}, (struct pl_vector){0, -1, 0}, PL_NONE);
    pl_lattice_line(l, corner(p, part, row, i), corner(p, part, row + 1, i));
    lay_side(p, l, part, row + 1, i, true);
    size_t low = corner(p, part, row, i + 1), high = corner(p, part, row + 1, i + 1);
    if (last)
        pl_lattice_wake(l, high, low, pl_between(pl_lattice_at(l, low), pl_lattice_at(l, high),
                                                 (share - share_at((double)row, p->divisions[part]))
                                                     / (share_at((double)row + 1, p->divisions[part]) - share_at((double)row, p->divisions[part]))));
    else
        pl_lattice_line(l, high, low);
    lay_side(p, l, part, row, i, false);
}

void pl_plates_lay(const struct plates *all, struct pl_lattice *l)
{
    for (size_t k = 0; k < all->count; k++)
        for (size_t part = 0; part + 1 < all->list[k].n_lines; part++)
            for (size_t row = 0; row < all->list[k].divisions[part]; row++)
                for (size_t i = 0; i < all->list[k].n_bound; i++)
                    lay_ring(&all->list[k], l, part, row, i);
}
