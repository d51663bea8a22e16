#include "plyloft/gap.h"

#include "plyloft/profile.h"

#include <math.h>

/* Metres on the car: x aft, z up. */
struct point { double x, z; };

struct outline {
    struct point *at;         /* nose to tail over the top, then nose to tail along the bottom */
    size_t count;             /* of one surface */
    struct point nose, tail;  /* leading edge; middle of the trailing edge */
    struct point aft, up;     /* along the chord, and normal to it */
    double chord_m;
};

struct pl_gap_shape {
    const struct pl_part *part;
    struct pl_loft *lofts;
    double *scratch;
    struct point *nodes[2];
};

static const double same_m = 1e-9;

static double along(struct point a, struct point b) { return a.x * b.x + a.z * b.z; }
static double across(struct point a, struct point b) { return a.x * b.z - a.z * b.x; }
static struct point minus(struct point a, struct point b) { return (struct point){a.x - b.x, a.z - b.z}; }

static struct point plus(struct point a, double times, struct point b)
{
    return (struct point){a.x + times * b.x, a.z + times * b.z};
}

/* ---- sections, placed ---- */

static bool is_sound(const struct pl_profile *p)
{
    struct pl_naca naca;
    const char *why;
    size_t at;
    return p->naca ? pl_naca_parse(p->naca, &naca, &why) : !pl_points_fault(p->points, p->n_points, &at);
}

enum pl_status pl_gap_shape_make(struct pl_gap_shape **out, const struct pl_part *part, struct pl_arena *arena)
{
    size_t most = 0;
    *out = NULL;
    for (size_t i = 0; i < part->n_profiles; i++)
        if (!is_sound(&part->profiles[i]))
            return PL_BAD_INPUT;
    struct pl_gap_shape *g = pl_arena_take(arena, 1, sizeof *g);
    struct pl_loft *lofts = pl_arena_take(arena, part->n_elements, sizeof *lofts);
    for (size_t i = 0; lofts && i < part->n_elements; i++) {
        if (!pl_loft_build(&lofts[i], part, &part->elements[i], arena))
            return PL_NO_MEMORY;
        most = lofts[i].count > most ? lofts[i].count : most;
    }
    double *scratch = pl_arena_take_raw(arena, 4 * most, sizeof *scratch);
    struct point *nodes = pl_arena_take_raw(arena, 4 * most, sizeof *nodes);
    if (!g || !lofts || !scratch || !nodes)
        return PL_NO_MEMORY;
    *g = (struct pl_gap_shape){part, lofts, scratch, {nodes, nodes + 2 * most}};
    *out = g;
    return PL_OK;
}

const struct pl_part *pl_gap_part(const struct pl_gap_shape *g)
{
    return g->part;
}

static struct point placed(const struct outline *o, const struct pl_surface *surface, size_t i)
{
    return plus(plus(o->nose, o->chord_m * surface->x[i], o->aft), o->chord_m * surface->z[i], o->up);
}

static struct outline outline_at(const struct pl_gap_shape *g, size_t element, double y_m, struct point *nodes)
{
    const struct pl_loft *loft = &g->lofts[element];
    struct pl_loft_place p;
    pl_loft_at(loft, y_m, g->scratch, &p);
    double c = cos(p.nose_up_rad), s = sin(p.nose_up_rad);
    struct outline o = {.at = nodes, .count = loft->count, .nose = {p.x_le_m, p.z_le_m}, .aft = {c, -s}, .up = {s, c}, .chord_m = p.chord_m};
    for (size_t i = 0; i < o.count; i++) {
        nodes[i] = placed(&o, &p.top, i);
        nodes[o.count + i] = placed(&o, &p.bottom, i);
    }
    struct point top = nodes[o.count - 1], bottom = nodes[2 * o.count - 1];
    o.tail = (struct point){0.5 * (top.x + bottom.x), 0.5 * (top.z + bottom.z)};
    return o;
}

/* ---- which one is ahead ---- */

static bool reaches(const struct pl_element *e, double y_m)
{
    return fabs(y_m) <= pl_element_semispan_m(e) + same_m;
}

/* Leading edge at y, and the other end of the chord line. */
static struct point chord_line(const struct pl_element *e, double y_m, struct point *end)
{
    size_t i = 1;
    while (i + 1 < e->n_stations && e->stations[i].y_m < fabs(y_m))
        i++;
    const struct pl_station *a = &e->stations[i - 1], *b = &e->stations[i];
    double part = fmin(1, (fabs(y_m) - a->y_m) / (b->y_m - a->y_m)), chord_m = a->chord_m + part * (b->chord_m - a->chord_m);
    double turn = e->incidence_rad + a->twist_rad + part * (b->twist_rad - a->twist_rad), nose_up = e->inverted ? -turn : turn;
    struct point nose = {a->x_le_m + part * (b->x_le_m - a->x_le_m), a->z_le_m + part * (b->z_le_m - a->z_le_m)};
    *end = plus(nose, chord_m, (struct point){cos(nose_up), -sin(nose_up)});
    return nose;
}

/* Of a leading edge of the element at y; PL_NONE: none. */
static size_t ahead_of(const struct pl_part *part, size_t element, double y_m, struct point nose)
{
    size_t found = PL_NONE;
    double nearest_m = HUGE_VAL;
    if (!reaches(&part->elements[element], y_m))
        return PL_NONE;
    for (size_t i = 0; i < part->n_elements; i++) {
        struct point end;
        if (i == element || !reaches(&part->elements[i], y_m) || chord_line(&part->elements[i], y_m, &end).x >= nose.x - same_m)
            continue;
        double far_m = hypot(end.x - nose.x, end.z - nose.z);
        found = far_m < nearest_m ? i : found;
        nearest_m = fmin(nearest_m, far_m);
    }
    return found;
}

static size_t ahead_at(const struct pl_part *part, size_t element, double y_m)
{
    struct point end;
    return ahead_of(part, element, y_m, chord_line(&part->elements[element], y_m, &end));
}

bool pl_gap_is_behind(const struct pl_part *part, size_t element)
{
    for (size_t i = 0; element < part->n_elements && i < part->elements[element].n_stations; i++)
        if (ahead_at(part, element, part->elements[element].stations[i].y_m) != PL_NONE)
            return true;
    return false;
}

/* ---- distance and crossing ---- */

/* Edges of the closed outline: along the top, across the open edge, back along the bottom to the nose. */
static struct point edge_at(const struct outline *o, size_t i, struct point *to)
{
    size_t n = o->count, a = i, b = (i + 1) % (2 * n);
    *to = o->at[b < n ? b : 3 * n - 1 - b];
    return o->at[a < n ? a : 3 * n - 1 - a];
}

static struct point nearest_on(const struct outline *o, struct point p)
{
    struct point best = o->at[0], to;
    double best_m = HUGE_VAL;
    for (size_t i = 0; i < 2 * o->count; i++) {
        struct point from = edge_at(o, i, &to), edge = minus(to, from);
        double square = along(edge, edge), part = square > 0 ? along(minus(p, from), edge) / square : 0;
        struct point at = plus(from, fmin(1, fmax(0, part)), edge);
        double far_m = hypot(p.x - at.x, p.z - at.z);
        best = far_m < best_m ? at : best;
        best_m = fmin(best_m, far_m);
    }
    return best;
}

static double distance_m(const struct outline *o, struct point p)
{
    struct point at = nearest_on(o, p);
    return hypot(p.x - at.x, p.z - at.z);
}

/* A ray to the right crosses the edges of what it starts in an odd number of times. */
static bool is_inside(const struct outline *o, struct point p)
{
    bool inside = false;
    struct point to;
    for (size_t i = 0; i < 2 * o->count; i++) {
        struct point from = edge_at(o, i, &to);
        if ((from.z > p.z) != (to.z > p.z) && p.x < from.x + (p.z - from.z) / (to.z - from.z) * (to.x - from.x))
            inside = !inside;
    }
    return inside;
}

static bool edges_cross(struct point a, struct point b, struct point c, struct point d)
{
    struct point ab = minus(b, a), cd = minus(d, c);
    double c_side = across(ab, minus(c, a)), d_side = across(ab, minus(d, a));
    double a_side = across(cd, minus(a, c)), b_side = across(cd, minus(b, c));
    return (c_side > 0) != (d_side > 0) && (a_side > 0) != (b_side > 0);
}

struct box { double x0, x1, z0, z1; };

static struct box box_of(const struct outline *o)
{
    struct box b = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
    for (size_t i = 0; i < 2 * o->count; i++) {
        b.x0 = fmin(b.x0, o->at[i].x);
        b.x1 = fmax(b.x1, o->at[i].x);
        b.z0 = fmin(b.z0, o->at[i].z);
        b.z1 = fmax(b.z1, o->at[i].z);
    }
    return b;
}

static bool is_off(const struct box *b, struct point from, struct point to)
{
    return fmax(from.x, to.x) < b->x0 || fmin(from.x, to.x) > b->x1 || fmax(from.z, to.z) < b->z0 || fmin(from.z, to.z) > b->z1;
}

/* One in the other, or a pair of edges that cross.  Most edges stand off the other section's box. */
static bool sections_cross(const struct outline *front, const struct outline *rear)
{
    struct box box = box_of(front);
    if (is_inside(rear, front->tail) || is_inside(front, rear->at[0]))
        return true;
    for (size_t i = 0; i < 2 * rear->count; i++) {
        struct point to, front_to, from = edge_at(rear, i, &to);
        for (size_t k = 0; !is_off(&box, from, to) && k < 2 * front->count; k++) {
            struct point front_from = edge_at(front, k, &front_to);
            if (edges_cross(from, to, front_from, front_to))
                return true;
        }
    }
    return false;
}

/* How far the outline reaches aft of p: from *least to *most, along the chord of the element ahead. */
static void reach_m(const struct outline *rear, struct point p, struct point aft, double *least, double *most)
{
    *least = HUGE_VAL;
    *most = -HUGE_VAL;
    for (size_t i = 0; i < 2 * rear->count; i++) {
        double at = along(minus(rear->at[i], p), aft);
        *least = fmin(*least, at);
        *most = fmax(*most, at);
    }
}

/* ---- gap and overlap ---- */

struct pl_gap pl_gap_at(const struct pl_gap_shape *g, size_t element, double y_m)
{
    struct pl_gap gap = {PL_NONE, PL_NOT_GIVEN, PL_NOT_GIVEN, PL_NOT_GIVEN, false};
    gap.ahead = ahead_at(g->part, element, y_m);
    if (gap.ahead == PL_NONE)
        return gap;
    struct outline front = outline_at(g, gap.ahead, y_m, g->nodes[0]), rear = outline_at(g, element, y_m, g->nodes[1]);
    double least, most;
    reach_m(&rear, front.tail, front.aft, &least, &most);
    gap.crosses = sections_cross(&front, &rear);
    gap.gap_m = (gap.crosses ? -1 : 1) * distance_m(&rear, front.tail);
    gap.overlap_m = -least;
    gap.chord_m = front.chord_m;
    return gap;
}

/* 1 when the rear element lies above the edge, normal to the chord ahead, -1 when below. */
static double side_of(const struct outline *front, const struct outline *rear, bool inverted)
{
    static const double plain = 0.1;  /* less of it across than that, and the rear element is rather behind the edge */
    struct point way = minus(nearest_on(rear, front->tail), front->tail);
    double up = along(way, front->up), whole = hypot(way.x, way.z);
    if (!sections_cross(front, rear) && fabs(up) > plain * whole)
        return up > 0 ? 1 : -1;
    return inverted ? 1 : -1;
}

enum { SLIDES_MOST = 20000 };

/* The rear element comes in from far along `away` until the edge is gap_m off its surface: no step is longer than the
 * distance that is left, since none can lose more, so the first place met is not jumped over (bisection would have to
 * know it beforehand).  *slide is where it then is. */
static bool slide_in(const struct outline *rear, struct point tail, struct point away, double gap_m, double *slide)
{
    double reach = 0;
    for (size_t i = 0; i < 2 * rear->count; i++)
        reach = fmax(reach, hypot(rear->at[i].x - tail.x, rear->at[i].z - tail.z));
    *slide = reach + gap_m;
    for (int i = 0; i < SLIDES_MOST && *slide > -reach - gap_m; i++) {
        double left_m = distance_m(rear, plus(tail, -*slide, away)) - gap_m;
        if (left_m < 1e-11)
            return true;
        *slide -= left_m;
    }
    return false;
}

static void move_outline(struct outline *o, double x_m, double z_m)
{
    struct point by = {x_m, z_m};
    for (size_t i = 0; i < 2 * o->count; i++)
        o->at[i] = plus(o->at[i], 1, by);
    o->nose = plus(o->nose, 1, by);
    o->tail = plus(o->tail, 1, by);
}

enum pl_gap_fault pl_gap_solve(const struct pl_gap_shape *g, size_t element, double y_m, double gap_m, double overlap_m,
                               struct pl_gap_move *move)
{
    size_t ahead = ahead_at(g->part, element, y_m);
    double least, most, slide;
    *move = (struct pl_gap_move){0, 0, 0};
    if (ahead == PL_NONE)
        return PL_GAP_NONE_AHEAD;
    struct outline front = outline_at(g, ahead, y_m, g->nodes[0]), rear = outline_at(g, element, y_m, g->nodes[1]);
    double side = side_of(&front, &rear, g->part->elements[ahead].inverted);
    struct point away = {side * front.up.x, side * front.up.z};
    reach_m(&rear, front.tail, front.aft, &least, &most);
    /* The overlap alone says how far along the chord; then only the way across it is left. */
    double back = -least - overlap_m;
    struct point tail = plus(front.tail, -back, front.aft);
    move->least_m = fmax(0, fmax(least + back, -(most + back)));
    if (gap_m < move->least_m || !slide_in(&rear, tail, away, gap_m, &slide))
        return PL_GAP_TOO_SMALL;
    move->x_m = back * front.aft.x + slide * away.x;
    move->z_m = back * front.aft.z + slide * away.z;
    move_outline(&rear, move->x_m, move->z_m);
    if (ahead_of(g->part, element, y_m, rear.nose) != ahead)
        return PL_GAP_OTHER_AHEAD;
    return sections_cross(&front, &rear) ? PL_GAP_CROSSED : PL_GAP_FITS;
}
