/* The best layout of a strip: shelves; lanes where all are of one width; the skyline in several orders; then small
 * changes of the two best orders, taken when no worse than some steps before (late acceptance: Burke & Bykov 2017,
 * Eur. J. Oper. Res. 258).  Ends at the strip's bound.  The seed is a constant and the budget counts steps, not
 * time, so that the same pieces give the same layout everywhere. */
#include "nest_inside.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { ORDERS = 5, KINDS_MOST = 60, BACK = 24, LANE_STEPS = 60000, STEPS_MOST = 1200 };

struct order {
    size_t *at;
    bool *turned;
    enum pl_nest_how how;
    double worth; /* less is better */
};

struct search {
    const struct pl_nest_strip *strip;
    struct pl_nest_sky *sky;
    struct pl_nest_spot *spots, *best;
    double best_m;
    uint64_t random;
};

/* xorshift (Marsaglia 2003, J. Stat. Softw. 8). */
static size_t below(struct search *s, size_t n)
{
    s->random ^= s->random << 13;
    s->random ^= s->random >> 7;
    s->random ^= s->random << 17;
    return (size_t)((s->random >> 32) % n);
}

static bool done(const struct search *s)
{
    return s->best_m <= s->strip->least_m + 1e-9;
}

static void keep_if_shorter(struct search *s, double length_m)
{
    if (length_m >= s->best_m - PL_NEST_SLACK_M)
        return;
    s->best_m = length_m;
    memcpy(s->best, s->spots, s->strip->count * sizeof *s->best);
}

static void weigh(struct search *s, struct order *o)
{
    double level;
    double length = pl_nest_fill(s->sky, s->strip, o->at, o->turned, o->how, s->spots, &level);
    keep_if_shorter(s, length);
    o->worth = length + 0.05 * level;
}

static bool order_take(struct order *o, size_t count, struct pl_arena *arena)
{
    *o = (struct order){.worth = HUGE_VAL};
    o->at = pl_arena_take(arena, count, sizeof *o->at);
    o->turned = pl_arena_take(arena, count, sizeof *o->turned);
    return o->at && o->turned;
}

static void order_copy(struct order *to, const struct order *from, size_t count)
{
    memcpy(to->at, from->at, count * sizeof *to->at);
    memcpy(to->turned, from->turned, count * sizeof *to->turned);
    to->how = from->how;
    to->worth = from->worth;
}

/* Of the rectangles as they are turned: longest, widest, largest, most edge, and the largest of either side first. */
static double key(const struct pl_nest_rect *r, bool turned, size_t kind)
{
    double l = turned ? r->width_m : r->length_m, w = turned ? r->length_m : r->width_m;
    switch (kind) {
    case 0:
        return l;
    case 1:
        return w;
    case 2:
        return l * w;
    case 3:
        return l + w;
    default:
        return fmax(l, w);
    }
}

static void sort_by(struct order *o, const struct pl_nest_strip *strip, size_t kind)
{
    for (size_t i = 0; i < strip->count; i++) {
        size_t k = i;
        double mine = key(&strip->rects[i], o->turned[i], kind);
        for (; k && key(&strip->rects[o->at[k - 1]], o->turned[o->at[k - 1]], kind) < mine; k--)
            o->at[k] = o->at[k - 1];
        o->at[k] = i;
    }
}

/* What may turn: as given, all lengths along the roll, all across it; then across from the length of some rectangle on,
 * the others along, and the other way round. */
static void turn_all(struct order *o, const struct pl_nest_strip *strip, size_t kind)
{
    double from_m = 0;
    if (kind > 2) {
        const struct pl_nest_rect *by = &strip->rects[(kind - 3) / 2];
        from_m = fmax(by->length_m, by->width_m);
    }
    for (size_t i = 0; i < strip->count; i++) {
        const struct pl_nest_rect *r = &strip->rects[i];
        bool across = kind == 2 || (kind > 2 && (fmax(r->length_m, r->width_m) >= from_m) == (kind % 2 == 1));
        o->turned[i] = r->turns && kind && (across == (r->length_m > r->width_m));
    }
}

static bool known_kind(const struct pl_nest_strip *strip, size_t kind)
{
    size_t by = kind > 2 ? (kind - 3) / 2 : 0;
    for (size_t i = 0; i < by; i++)
        if (strip->rects[i].length_m == strip->rects[by].length_m &&
            strip->rects[i].width_m == strip->rects[by].width_m)
            return true;
    return kind > 2 && (!strip->rects[by].turns || by >= KINDS_MOST);
}

static bool any_turns(const struct pl_nest_strip *strip)
{
    for (size_t i = 0; i < strip->count; i++)
        if (strip->rects[i].turns)
            return true;
    return false;
}

/* Puts the order into the two best, which are of different ways to fill. */
static void rank(struct order best[2], const struct order *o, size_t count)
{
    if (o->how == PL_NEST_WIDEST) /* hardly sees the order: nothing to change */
        return;
    if (o->worth < best[0].worth) {
        if (o->how != best[0].how)
            order_copy(&best[1], &best[0], count);
        order_copy(&best[0], o, count);
    } else if (o->worth < best[1].worth && o->how != best[0].how) {
        order_copy(&best[1], o, count);
    }
}

static void try_orders(struct search *s, struct order *o, struct order best[2])
{
    size_t kinds = any_turns(s->strip) ? 3 + 2 * s->strip->count : 1;
    for (size_t i = 0; i < kinds * ORDERS * PL_NEST_HOWS && !done(s); i++) {
        size_t kind = i / (ORDERS * PL_NEST_HOWS);
        if (known_kind(s->strip, kind))
            continue;
        turn_all(o, s->strip, kind);
        sort_by(o, s->strip, i / PL_NEST_HOWS % ORDERS);
        o->how = (enum pl_nest_how)(i % PL_NEST_HOWS);
        weigh(s, o);
        rank(best, o, s->strip->count);
    }
}

static void change(struct search *s, struct order *o)
{
    size_t n = s->strip->count, i = below(s, n), j = below(s, n), kind = below(s, 4);
    if (kind == 0 && s->strip->rects[o->at[i]].turns) {
        o->turned[o->at[i]] = !o->turned[o->at[i]];
        return;
    }
    size_t moved = o->at[i];
    if (kind < 2) {
        o->at[i] = o->at[j];
    } else if (i < j) {
        memmove(o->at + i, o->at + i + 1, (j - i) * sizeof *o->at);
    } else {
        memmove(o->at + j + 1, o->at + j, (i - j) * sizeof *o->at);
    }
    o->at[j] = moved;
}

static void improve(struct search *s, struct order *now, struct order *next, size_t steps)
{
    double before[BACK];
    for (size_t i = 0; i < BACK; i++)
        before[i] = now->worth;
    for (size_t i = 0; i < steps && !done(s); i++) {
        order_copy(next, now, s->strip->count);
        for (size_t n = 1 + below(s, 2); n--;)
            change(s, next);
        weigh(s, next);
        if (next->worth <= now->worth || next->worth <= before[i % BACK]) {
            struct order other = *now;
            *now = *next;
            *next = other;
        }
        before[i % BACK] = fmin(before[i % BACK], now->worth);
    }
}

/* Strips of one width that cannot turn are jobs on lanes. */
static bool one_width(const struct pl_nest_strip *strip)
{
    for (size_t i = 0; i < strip->count; i++)
        if (strip->rects[i].turns || fabs(strip->rects[i].width_m - strip->rects[0].width_m) > 1e-12)
            return false;
    return true;
}

static bool lay_lanes(struct search *s, struct pl_arena *arena)
{
    size_t n = s->strip->count, budget = LANE_STEPS;
    double *lengths = pl_arena_take_raw(arena, n, sizeof *lengths), *ends = pl_arena_take(arena, n, sizeof *ends);
    struct pl_nest_jobs jobs = {.lengths_m = lengths, .count = n};
    jobs.lane_of = pl_arena_take(arena, n, sizeof *jobs.lane_of);
    if (!lengths || !ends || !jobs.lane_of)
        return false;
    for (size_t i = 0; i < n; i++)
        lengths[i] = s->strip->rects[i].length_m;
    jobs.lanes = pl_nest_side_by_side(s->strip->width_m, s->strip->rects[0].width_m);
    if (!pl_nest_lanes(&jobs, &budget, arena))
        return false;
    for (size_t i = 0; i < n; i++) {
        size_t lane = jobs.lane_of[i];
        s->spots[i] = (struct pl_nest_spot){.x_m = ends[lane], .y_m = (double)lane * s->strip->rects[0].width_m};
        ends[lane] += lengths[i];
    }
    keep_if_shorter(s, jobs.length_m);
    return true;
}

/* A step costs the square of the number of pieces: so many that kits of 20 stay under 30 ms and of 60 well under 200.
 * The few kits that stay far above their bound get more. */
static size_t steps_for(const struct search *s)
{
    size_t n = s->strip->count, most = 9000000 / (n * n);
    most = most > STEPS_MOST ? STEPS_MOST : most;
    return s->best_m > 1.1 * s->strip->least_m ? 2 * most : most;
}

bool pl_nest_search(struct pl_nest_strip *strip, struct pl_nest_spot *spots, double *length_m, struct pl_arena *arena)
{
    struct search s = {.strip = strip, .best = spots, .random = 0x9e3779b97f4a7c15u};
    struct order now, next, best[2];
    s.spots = pl_arena_take(arena, strip->count, sizeof *s.spots);
    s.sky = pl_nest_sky_take(strip->count, arena);
    if (!s.spots || !s.sky || !order_take(&now, strip->count, arena) || !order_take(&next, strip->count, arena) ||
        !order_take(&best[0], strip->count, arena) || !order_take(&best[1], strip->count, arena) ||
        !pl_nest_shelves(strip, spots, &s.best_m, arena))
        return false;
    if (strip->count && one_width(strip)) {
        if (!lay_lanes(&s, arena))
            return false;
    } else if (strip->count) {
        try_orders(&s, &now, best);
        /* Before the long search, which a better bound may end. */
        if (!done(&s) && !pl_nest_prove(strip, s.best_m, arena))
            return false;
        for (size_t i = 0; i < 2 && !done(&s); i++)
            if (best[i].worth < HUGE_VAL)
                improve(&s, &best[i], &next, steps_for(&s));
    }
    *length_m = s.best_m;
    return true;
}
