/* Lengths proved too short by scales.  Let f be such that numbers which add up to 1 at most keep doing so when f is
 * taken of each (a dual feasible function).  If pieces lie on a roll of some length then, with f of each length by
 * the roll's and g of each width by the roll's, so do pieces of those sizes on the unit square: the sum of f g above
 * 1 proves the length too short.  All exact.  Fekete & Schepers 2001 (Math. Program. 91) and 2004 (Math. Methods
 * Oper. Res. 60). */
#include "nest_inside.h"

#include <math.h>
#include <string.h>

enum { PARTS = 6, SIZES = 20, SCALES = 1 + PARTS + 2 * SIZES, ROUNDS = 10 };

struct scale {
    enum { PLAIN, PART, ENDS, STAIRS } kind;
    double by;
};

/* Rounding may only make a size less, which keeps the proof. */
static double scaled(const struct scale *f, double x)
{
    x = fmin(1, x * (1 - 1e-12));
    switch (f->kind) {
    case PLAIN:
        return x;
    case PART: /* so many of just more than 1/(k + 1) as fit: k */
        return floor((f->by + 1) * x) / f->by;
    case ENDS: /* what leaves room for less than `by` takes all, and what is less takes nothing */
        return x > 1 - f->by ? 1 : x < f->by ? 0 : x;
    default: /* in units of `by`, large ones rounded up and small ones down */
        if (x > 0.5)
            return 1 - floor((1 - x) / f->by + 1e-9) / floor(1 / f->by);
        return floor(x / f->by) / floor(1 / f->by);
    }
}

struct proof {
    const struct pl_nest_strip *strip;
    struct scale lengths[SCALES], widths[SCALES];
    size_t n_lengths, n_widths;
    /* Of each scale in turn, each rectangle as it is and turned. */
    double *of_lengths, *of_widths;
    struct pl_nest_slices *slices;
    double *tried; /* for each number of parts, the lengths that last proved nothing */
    bool *barred;  /* ways that cannot be, two a rectangle: as it is, turned */
};

/* Sizes that scales are made of: those of the pieces, evenly over the list where it is long. */
static size_t make_scales(struct scale *list, const struct pl_nest_strip *strip, bool widths, double whole_m)
{
    size_t n = 0, every = (strip->count + SIZES - 1) / SIZES;
    list[n++] = (struct scale){PLAIN, 0};
    for (int k = 1; k <= PARTS; k++)
        list[n++] = (struct scale){PART, k};
    for (size_t i = 0; i < strip->count; i += every) {
        double by = (widths ? strip->rects[i].width_m : strip->rects[i].length_m) / whole_m * (1 - 1e-9);
        bool seen = by > 0.5 || by < 0.02;
        for (size_t k = 0; k < n && !seen; k++)
            seen = list[k].kind == ENDS && fabs(list[k].by - by) < 1e-9;
        if (seen)
            continue;
        list[n++] = (struct scale){ENDS, by};
        list[n++] = (struct scale){STAIRS, by};
    }
    return n;
}

static double side(const struct pl_nest_rect *r, size_t way, bool width)
{
    return (way == 1) == width ? r->length_m : r->width_m;
}

/* The least side in any way left. */
static double least_side(const struct proof *p, size_t i, bool width)
{
    double least = HUGE_VAL;
    for (size_t way = 0; way < 2; way++)
        if (!p->barred[2 * i + way])
            least = fmin(least, side(&p->strip->rects[i], way, width));
    return least;
}

/* Whether rectangle i cannot lie in a way on a roll so long: any two of it and of those longer than half the roll's
 * length and than what it leaves must overlap along the roll, so all share a place, and are together too wide. */
static bool cannot_lie(const struct proof *p, size_t i, size_t way, double roll_m)
{
    double length = side(&p->strip->rects[i], way, false), sum = side(&p->strip->rects[i], way, true);
    double from = fmax(roll_m / 2, roll_m - length) + 1e-9;
    for (size_t k = 0; k < p->strip->count; k++)
        if (k != i && least_side(p, k, false) > from)
            sum += least_side(p, k, true);
    return length > roll_m + 1e-9 || sum > p->strip->width_m + 1e-9;
}

/* Bars ways until nothing changes; true when some rectangle has none left. */
static bool bar_ways(struct proof *p, double roll_m)
{
    size_t n = p->strip->count;
    for (size_t i = 0; i < n; i++) {
        p->barred[2 * i] = false;
        p->barred[2 * i + 1] = !p->strip->rects[i].turns;
    }
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < 2 * n; i++)
            if (!p->barred[i] && cannot_lie(p, i / 2, i % 2, roll_m)) {
                p->barred[i] = changed = true;
                if (p->barred[i ^ 1])
                    return true;
            }
    }
    return false;
}

static void take_scales(const struct proof *p, const struct scale *list, size_t n, double *out, bool widths,
                        double whole_m)
{
    for (size_t f = 0; f < n; f++)
        for (size_t i = 0; i < 2 * p->strip->count; i++) {
            double m = side(&p->strip->rects[i / 2], i % 2, widths);
            *out++ = p->barred[i] || m > whole_m * (1 + 1e-9) ? HUGE_VAL : scaled(&list[f], m / whole_m);
        }
}

/* What the rectangles take of the unit square at least, each the lesser of its ways. */
static double scaled_area(const double *l, const double *w, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < 2 * count; i += 2) {
        double as_it_is = l[i] < HUGE_VAL ? l[i] * w[i] : HUGE_VAL;
        double turned = l[i + 1] < HUGE_VAL && w[i + 1] < HUGE_VAL ? l[i + 1] * w[i + 1] : HUGE_VAL;
        sum += fmin(as_it_is, turned);
    }
    return sum;
}

/* Lengths counted in parts are the same for many lengths of roll, so what has been tried in vain is not tried again. */
static bool too_short_in_parts(struct proof *p, const double *lengths, double *tried)
{
    size_t bytes = 2 * p->strip->count * sizeof *tried;
    if (memcmp(tried, lengths, bytes) == 0)
        return false;
    if (pl_nest_slices_least(p->slices, p->strip, lengths) > 1 + 1e-9)
        return true;
    memcpy(tried, lengths, bytes);
    return false;
}

/* Scales of lengths by those of widths; then, for lengths counted in parts of the roll's, the best worth of widths. */
static bool too_short(struct proof *p, double length_m)
{
    size_t n = p->strip->count;
    if (bar_ways(p, length_m))
        return true;
    p->n_lengths = make_scales(p->lengths, p->strip, false, length_m);
    take_scales(p, p->lengths, p->n_lengths, p->of_lengths, false, length_m);
    for (size_t f = 0; f < p->n_lengths; f++)
        for (size_t g = 0; g < p->n_widths; g++)
            if (scaled_area(p->of_lengths + 2 * n * f, p->of_widths + 2 * n * g, n) > 1 + 1e-9)
                return true;
    for (size_t part = 0; part < PARTS; part++)
        if (too_short_in_parts(p, p->of_lengths + 2 * n * (1 + part), p->tried + 2 * n * part))
            return true;
    return false;
}

bool pl_nest_prove(struct pl_nest_strip *strip, double reached_m, struct pl_arena *arena)
{
    struct proof p = {.strip = strip};
    p.of_lengths = pl_arena_take_raw(arena, 2 * strip->count * SCALES, sizeof *p.of_lengths);
    p.of_widths = pl_arena_take_raw(arena, 2 * strip->count * SCALES, sizeof *p.of_widths);
    p.barred = pl_arena_take(arena, 2 * strip->count, sizeof *p.barred);
    p.tried = pl_arena_take(arena, 2 * strip->count * PARTS, sizeof *p.tried);
    p.slices = pl_nest_slices_take(arena);
    if (!p.of_lengths || !p.of_widths || !p.barred || !p.tried || !p.slices)
        return false;
    p.n_widths = make_scales(p.widths, strip, true, strip->width_m);
    for (size_t i = 0; i < strip->count; i++)
        p.barred[2 * i + 1] = !strip->rects[i].turns;
    take_scales(&p, p.widths, p.n_widths, p.of_widths, true, strip->width_m);
    double low = strip->least_m, high = reached_m;
    for (int i = 0; i < ROUNDS && high - low > 1e-6; i++) {
        double middle = (low + high) / 2;
        if (too_short(&p, middle))
            strip->least_m = low = middle;
        else
            high = middle;
    }
    return true;
}
