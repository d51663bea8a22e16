/* The strip filled from its start.  What is filled ends in steps across the roll, as a skyline does; each piece is
 * put on a step, against a higher neighbour (Burke, Kendall & Whitwell 2004, Oper. Res. 52; the choice by matching
 * sides after Leung, Zhang & Sim 2011, Eur. J. Oper. Res. 215).  Holes behind the skyline stay holes. */
#include "nest_inside.h"

#include <math.h>
#include <string.h>

struct step {
    double y_m, width_m, x_m;
};

struct pl_nest_sky {
    struct step *steps; /* one more than pieces at most */
    size_t count;
    size_t *left; /* rectangles not yet placed, in their order */
    size_t n_left;
};

struct pl_nest_sky *pl_nest_sky_take(size_t count, struct pl_arena *arena)
{
    struct pl_nest_sky *sky = pl_arena_take(arena, 1, sizeof *sky);
    if (!sky)
        return NULL;
    sky->steps = pl_arena_take_raw(arena, count + 4, sizeof *sky->steps);
    sky->left = pl_arena_take_raw(arena, count, sizeof *sky->left);
    return sky->steps && sky->left ? sky : NULL;
}

static void drop(struct pl_nest_sky *sky, size_t at, size_t n)
{
    memmove(sky->steps + at, sky->steps + at + n, (sky->count - at - n) * sizeof *sky->steps);
    sky->count -= n;
}

static void insert(struct pl_nest_sky *sky, size_t at, struct step step)
{
    memmove(sky->steps + at + 1, sky->steps + at, (sky->count - at) * sizeof *sky->steps);
    sky->steps[at] = step;
    sky->count++;
}

static void join_if_level(struct pl_nest_sky *sky, size_t at)
{
    if (at + 1 >= sky->count || fabs(sky->steps[at].x_m - sky->steps[at + 1].x_m) > 1e-12)
        return;
    sky->steps[at].width_m += sky->steps[at + 1].width_m;
    drop(sky, at + 1, 1);
}

static void join_neighbours(struct pl_nest_sky *sky, size_t at)
{
    join_if_level(sky, at);
    if (at)
        join_if_level(sky, at - 1);
}

/* Lays a step over the skyline. */
static void cover(struct pl_nest_sky *sky, struct step step)
{
    size_t i = 0;
    double end = step.y_m + step.width_m;
    while (i + 1 < sky->count && sky->steps[i].y_m + sky->steps[i].width_m <= step.y_m + PL_NEST_SLACK_M)
        i++;
    struct step first = sky->steps[i];
    if (step.y_m > first.y_m + PL_NEST_SLACK_M) {
        insert(sky, i, (struct step){first.y_m, step.y_m - first.y_m, first.x_m});
        i++;
    }
    size_t last = i;
    while (last + 1 < sky->count && sky->steps[last].y_m + sky->steps[last].width_m < end - PL_NEST_SLACK_M)
        last++;
    struct step beyond = sky->steps[last];
    double rest = beyond.y_m + beyond.width_m - end;
    drop(sky, i, last - i + 1);
    if (rest > PL_NEST_SLACK_M)
        insert(sky, i, (struct step){end, rest, beyond.x_m});
    insert(sky, i, step);
    join_neighbours(sky, i);
}

static double length_laid(const struct pl_nest_rect *r, bool turned)
{
    return turned ? r->width_m : r->length_m;
}

static double width_laid(const struct pl_nest_rect *r, bool turned)
{
    return turned ? r->length_m : r->width_m;
}

/* A place on the lowest step, between neighbours that stand this much higher. */
struct gap {
    size_t step;
    double width_m, lower_m, higher_m;
    bool high_before; /* the higher neighbour is on the side of smaller y */
};

static struct gap lowest_gap(const struct pl_nest_sky *sky)
{
    size_t i = 0;
    for (size_t k = 1; k < sky->count; k++)
        i = sky->steps[k].x_m < sky->steps[i].x_m ? k : i;
    double x = sky->steps[i].x_m;
    double before = i ? sky->steps[i - 1].x_m - x : HUGE_VAL;
    double after = i + 1 < sky->count ? sky->steps[i + 1].x_m - x : HUGE_VAL;
    return (struct gap){i, sky->steps[i].width_m, fmin(before, after), fmax(before, after), before >= after};
}

static int worth(const struct gap *gap, double length_m, double width_m)
{
    /* A piece that fills the step, or ends level with a neighbour, leaves no new corner. */
    return 1 + 4 * (fabs(width_m - gap->width_m) < 1e-6) + 2 * (fabs(length_m - gap->higher_m) < 1e-6) +
           (fabs(length_m - gap->lower_m) < 1e-6);
}

/* The place in `left` of the rectangle to put into the gap, n_left when none fits. */
static size_t choose(const struct pl_nest_sky *sky, const struct pl_nest_strip *strip, const bool *turned,
                     const struct gap *gap, enum pl_nest_how how)
{
    size_t best = sky->n_left;
    double most = 0;
    for (size_t k = 0; k < sky->n_left; k++) {
        size_t which = sky->left[k];
        const struct pl_nest_rect *r = &strip->rects[which];
        double width_m = width_laid(r, turned[which]);
        if (width_m > gap->width_m + PL_NEST_SLACK_M)
            continue;
        if (how == PL_NEST_FIRST)
            return k;
        double w = how == PL_NEST_WIDEST ? width_m : worth(gap, length_laid(r, turned[which]), width_m);
        if (w > most) {
            most = w;
            best = k;
        }
    }
    return best;
}

/* Nothing fits the lowest step: it is lost up to its lower neighbour. */
static void lift(struct pl_nest_sky *sky, const struct gap *gap)
{
    sky->steps[gap->step].x_m += gap->lower_m;
    join_neighbours(sky, gap->step);
}

static void fill_gap(struct pl_nest_sky *sky, const struct pl_nest_strip *strip, const bool *turned,
                     enum pl_nest_how how, struct pl_nest_spot *spots)
{
    struct gap gap = lowest_gap(sky);
    size_t k = choose(sky, strip, turned, &gap, how);
    if (k == sky->n_left) {
        lift(sky, &gap);
        return;
    }
    size_t which = sky->left[k];
    double width_m = width_laid(&strip->rects[which], turned[which]);
    double length_m = length_laid(&strip->rects[which], turned[which]);
    struct step at = sky->steps[gap.step];
    double y = gap.high_before ? at.y_m : fmax(at.y_m, at.y_m + at.width_m - width_m);
    spots[which] = (struct pl_nest_spot){at.x_m, y, turned[which]};
    cover(sky, (struct step){y, width_m, at.x_m + length_m});
    memmove(sky->left + k, sky->left + k + 1, (--sky->n_left - k) * sizeof *sky->left);
}

/* The least x at which a rectangle lies between y and y + width. */
static double rest_m(const struct pl_nest_sky *sky, double y, double width)
{
    double x = 0;
    for (size_t i = 0; i < sky->count; i++) {
        const struct step *s = &sky->steps[i];
        if (s->y_m < y + width - PL_NEST_SLACK_M && s->y_m + s->width_m > y + PL_NEST_SLACK_M)
            x = fmax(x, s->x_m);
    }
    return x;
}

/* The next rectangle where it begins soonest, its edge on that of a step (bottom-left: Baker, Coffman & Rivest
 * 1980). */
static void put_leftmost(struct pl_nest_sky *sky, const struct pl_nest_strip *strip, size_t which, bool turned,
                         struct pl_nest_spot *spots)
{
    double width_m = width_laid(&strip->rects[which], turned);
    double best_x = HUGE_VAL, best_y = 0;
    for (size_t i = 0; i < 2 * sky->count; i++) {
        const struct step *s = &sky->steps[i / 2];
        double y = i % 2 ? s->y_m + s->width_m - width_m : s->y_m;
        if (y < -PL_NEST_SLACK_M || y + width_m > strip->width_m + PL_NEST_SLACK_M)
            continue;
        double x = rest_m(sky, y, width_m);
        if (x < best_x - 1e-12 || (x < best_x + 1e-12 && y < best_y)) {
            best_x = x;
            best_y = fmax(0, y);
        }
    }
    spots[which] = (struct pl_nest_spot){best_x, best_y, turned};
    cover(sky, (struct step){best_y, width_m, best_x + length_laid(&strip->rects[which], turned)});
}

double pl_nest_fill(struct pl_nest_sky *sky, const struct pl_nest_strip *strip, const size_t *order, const bool *turned,
                    enum pl_nest_how how, struct pl_nest_spot *spots, double *level_m)
{
    sky->steps[0] = (struct step){0, strip->width_m, 0};
    sky->count = 1;
    sky->n_left = 0;
    for (size_t i = 0; i < strip->count; i++)
        if (how == PL_NEST_LEFTMOST)
            put_leftmost(sky, strip, order[i], turned[order[i]], spots);
        else
            sky->left[sky->n_left++] = order[i];
    while (sky->n_left)
        fill_gap(sky, strip, turned, how, spots);
    double length = 0, squares = 0;
    for (size_t i = 0; i < sky->count; i++) {
        length = fmax(length, sky->steps[i].x_m);
        squares += sky->steps[i].x_m * sky->steps[i].x_m * sky->steps[i].width_m;
    }
    *level_m = length > 0 ? squares / (length * strip->width_m) : 0;
    return length;
}
