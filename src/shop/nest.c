/* The nest: which pieces are aligned and which slanted, either laid by its own means, and both put together.
 * Searches are in nest_search.c and nest_slanted.c, bounds in nest_least.c and nest_scales.c. */
#include "plyloft/nest.h"

#include "nest_inside.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double TINY = 1e-9; /* sine of an angle that is none */

/* -90..90 degrees. */
static double reduced(double angle_rad)
{
    return angle_rad - M_PI * round(angle_rad / M_PI);
}

static bool fits_at(const struct pl_nest_piece *p, double angle_rad, double roll_m)
{
    return p->length_m * fabs(sin(angle_rad)) + p->width_m * fabs(cos(angle_rad)) <= roll_m + PL_NEST_SLACK_M;
}

bool pl_nest_fits(const struct pl_nest_piece *piece, double roll_width_m)
{
    if (!(piece->length_m > 0 && piece->length_m < HUGE_VAL && piece->width_m > 0 && piece->width_m < HUGE_VAL &&
          isfinite(piece->thread_rad)))
        return false;
    return fits_at(piece, piece->thread_rad, roll_width_m) ||
           (piece->turns && fits_at(piece, piece->thread_rad + M_PI_2, roll_width_m));
}

void pl_nest_corners(const struct pl_nest_piece *piece, const struct pl_nest_place *place, double x_m[4], double y_m[4])
{
    static const double along[4] = {-0.5, 0.5, 0.5, -0.5}, across[4] = {-0.5, -0.5, 0.5, 0.5};
    double c = cos(place->angle_rad), s = sin(place->angle_rad);
    for (int i = 0; i < 4; i++) {
        double u = along[i] * piece->length_m, v = across[i] * piece->width_m;
        x_m[i] = place->x_m + u * c - v * s;
        y_m[i] = place->y_m + u * s + v * c;
    }
}

struct job {
    const struct pl_nest_piece *pieces;
    double roll_m, spacing_m;
    struct pl_nest_rect *rects;
    size_t n_rects;
    struct pl_nest_slanted *slanted;
    size_t n_slanted;
    double least_m;
    struct pl_arena *arena;
};

static void add_rect(struct job *job, size_t piece, double angle_rad)
{
    const struct pl_nest_piece *p = &job->pieces[piece];
    bool across = fabs(cos(angle_rad)) < TINY, turns = p->turns && fits_at(p, angle_rad + M_PI_2, job->roll_m);
    if (!fits_at(p, angle_rad, job->roll_m)) {
        across = !across;
        turns = false;
    }
    job->rects[job->n_rects++] = (struct pl_nest_rect){
        .length_m = (across ? p->width_m : p->length_m) + job->spacing_m,
        .width_m = (across ? p->length_m : p->width_m) + job->spacing_m,
        .turns = turns,
        .across = across,
        .piece = piece,
    };
}

static void add_slanted(struct job *job, size_t piece, double angle_rad)
{
    const struct pl_nest_piece *p = &job->pieces[piece];
    bool turns = p->turns && fits_at(p, angle_rad + M_PI_2, job->roll_m);
    double other = angle_rad > 0 ? angle_rad - M_PI_2 : angle_rad + M_PI_2;
    if (!fits_at(p, angle_rad, job->roll_m)) {
        angle_rad = other;
        turns = false;
    }
    job->slanted[job->n_slanted++] = (struct pl_nest_slanted){
        .length_m = p->length_m,
        .width_m = p->width_m,
        .angle_rad = turns ? fmax(angle_rad, other) : angle_rad,
        .turns = turns,
        .piece = piece,
    };
}

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

/* Longest first; the order in which pieces are given matters only among those alike. */
static int rect_order(const void *a, const void *b)
{
    const struct pl_nest_rect *x = a, *y = b;
    int by = compare(y->length_m, x->length_m);
    by = by ? by : compare(y->width_m, x->width_m);
    by = by ? by : x->turns - y->turns;
    return by ? by : (x->piece > y->piece) - (x->piece < y->piece);
}

/* Those that cannot turn first, by angle, then longest first. */
static int slanted_order(const void *a, const void *b)
{
    const struct pl_nest_slanted *x = a, *y = b;
    int by = x->turns - y->turns;
    by = by ? by : compare(x->angle_rad, y->angle_rad);
    by = by ? by : compare(y->length_m, x->length_m);
    by = by ? by : compare(y->width_m, x->width_m);
    return by ? by : (x->piece > y->piece) - (x->piece < y->piece);
}

static bool sort_out(struct job *job, const struct pl_nest *nest)
{
    job->rects = pl_arena_take_raw(job->arena, nest->count, sizeof *job->rects);
    job->slanted = pl_arena_take_raw(job->arena, nest->count, sizeof *job->slanted);
    if (!job->rects || !job->slanted)
        return false;
    for (size_t i = 0; i < nest->count; i++) {
        double angle_rad = reduced(job->pieces[i].thread_rad);
        if (!nest->places[i].fits)
            continue;
        if (fabs(sin(angle_rad)) < TINY || fabs(cos(angle_rad)) < TINY)
            add_rect(job, i, angle_rad);
        else
            add_slanted(job, i, angle_rad);
    }
    if (job->n_rects)
        qsort(job->rects, job->n_rects, sizeof *job->rects, rect_order);
    if (job->n_slanted)
        qsort(job->slanted, job->n_slanted, sizeof *job->slanted, slanted_order);
    return true;
}

static struct pl_nest_solid solid_of(const struct job *job, const struct pl_nest_rect *r, bool turned)
{
    bool across = r->across != turned;
    return (struct pl_nest_solid){
        .cos = across ? 0 : 1,
        .sin = across ? 1 : 0,
        .half_length_m = job->pieces[r->piece].length_m / 2,
        .half_width_m = job->pieces[r->piece].width_m / 2,
        .piece = r->piece,
    };
}

/* Lays rectangles in the best way found, behind what is on the table; a bound on them alone goes into least_m. */
static bool lay_strip(struct job *job, struct pl_nest_table *table, const struct pl_nest_rect *rects, size_t count,
                      double *least_m)
{
    struct pl_nest_strip strip = {.rects = rects, .count = count, .width_m = job->roll_m + job->spacing_m};
    struct pl_nest_spot *spots = pl_arena_take(job->arena, count, sizeof *spots);
    double length_m;
    size_t from = table->count;
    if (!spots || !pl_nest_least_strip(&strip, job->arena) || !pl_nest_search(&strip, spots, &length_m, job->arena))
        return false;
    for (size_t i = 0; i < count; i++) {
        struct pl_nest_solid s = solid_of(job, &rects[i], spots[i].turned);
        s.x_m = spots[i].x_m + pl_nest_reach_x(&s);
        s.y_m = spots[i].y_m + pl_nest_reach_y(&s);
        table->solids[table->count++] = s;
    }
    if (from)
        pl_nest_follow(table, from);
    *least_m = strip.least_m - job->spacing_m;
    return true;
}

enum { TUCKED_MOST = 100 }; /* tried, the longest first: time, not need */

/* Slanted blocks first, aligned pieces into the triangles that they leave, and what does not go there behind. */
static bool lay_slanted_first(struct job *job, struct pl_nest_table *table)
{
    struct pl_nest_rect *rest = pl_arena_take_raw(job->arena, job->n_rects, sizeof *rest);
    size_t n_rest = 0;
    double of_rest;
    if (!rest || !pl_nest_slant(table, job->slanted, job->n_slanted, job->arena))
        return false;
    double end_m = pl_nest_end(table);
    for (size_t i = 0; i < job->n_rects; i++) {
        const struct pl_nest_rect *r = &job->rects[i];
        if (i >= TUCKED_MOST || (!pl_nest_tuck(table, solid_of(job, r, false), end_m) &&
                                 !(r->turns && pl_nest_tuck(table, solid_of(job, r, true), end_m))))
            rest[n_rest++] = *r;
    }
    return !n_rest || lay_strip(job, table, rest, n_rest, &of_rest);
}

static bool lay(struct job *job, struct pl_nest_table *table, size_t count)
{
    struct pl_nest_table other = *table;
    table->solids = pl_arena_take_raw(job->arena, count, sizeof *table->solids);
    other.solids = pl_arena_take_raw(job->arena, count, sizeof *other.solids);
    if (!table->solids || !other.solids)
        return false;
    if (job->n_rects && !lay_strip(job, table, job->rects, job->n_rects, &job->least_m))
        return false;
    if (job->n_slanted && !pl_nest_slant(table, job->slanted, job->n_slanted, job->arena))
        return false;
    if (!job->n_rects || !job->n_slanted)
        return true;
    if (!lay_slanted_first(job, &other))
        return false;
    if (pl_nest_end(&other) < pl_nest_end(table) - PL_NEST_SLACK_M)
        *table = other;
    return true;
}

/* Beside the bounds of either kind, the area of all: no roll is shorter than its pieces would be poured out over it. */
static void say(struct pl_nest *nest, struct job *job, const struct pl_nest_table *table)
{
    double area_m2 = 0;
    for (size_t i = 0; i < table->count; i++) {
        const struct pl_nest_solid *s = &table->solids[i];
        area_m2 += 4 * s->half_length_m * s->half_width_m;
        nest->places[s->piece] =
            (struct pl_nest_place){.x_m = s->x_m, .y_m = s->y_m, .angle_rad = atan2(s->sin, s->cos), .fits = true};
    }
    nest->length_m = pl_nest_end(table);
    if (!table->count)
        return;
    nest->used = area_m2 / (nest->length_m * job->roll_m);
    job->least_m = fmax(job->least_m, area_m2 / job->roll_m);
    job->least_m = fmax(job->least_m, pl_nest_least_slanted(job->slanted, job->n_slanted, job->roll_m, job->spacing_m));
    nest->least_m = job->least_m;
}

bool pl_nest_lay(struct pl_nest *nest, const struct pl_nest_piece *pieces, size_t count, double roll_width_m,
                 double spacing_m, struct pl_arena *arena)
{
    struct job job = {.pieces = pieces, .roll_m = roll_width_m, .spacing_m = fmax(0, spacing_m), .arena = arena};
    struct pl_nest_table table = {.roll_m = job.roll_m, .spacing_m = job.spacing_m};
    *nest = (struct pl_nest){.places = pl_arena_take(arena, count, sizeof *nest->places), .count = count};
    if (!nest->places)
        return false;
    for (size_t i = 0; i < count; i++)
        nest->places[i].fits = pl_nest_fits(&pieces[i], roll_width_m);
    if (!sort_out(&job, nest) || !lay(&job, &table, count))
        return false;
    say(nest, &job, &table);
    return true;
}
