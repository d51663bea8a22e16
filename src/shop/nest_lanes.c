/* Strips of one width lie in lanes: as many may be side by side at any place as lanes fit the roll, and intervals of
 * which no more than k share a place can be shared out to k lanes.  So the shortest layout is the shortest schedule
 * on k equal machines: longest job first (Graham 1969), then exchanges, then a search through all schedules while
 * its budget lasts. */
#include "nest_inside.h"

#include <math.h>
#include <string.h>

struct schedule {
    const double *lengths_m;
    size_t count, lanes;
    double *loads_m;
    size_t *lane_of, *best;
    double best_m, least_m;
    size_t *budget;
};

size_t pl_nest_side_by_side(double strip_width_m, double width_m)
{
    return (size_t)fmin(1e6, floor((strip_width_m + PL_NEST_SLACK_M) / width_m));
}

/* The longest, the mean, and the pigeonhole: of the first h k + 1 jobs some lane takes h + 1, whose length is that of
 * the h + 1 shortest of these at least.  All are exact bounds. */
static double least_of(const double *lengths_m, size_t count, size_t lanes)
{
    double least = lengths_m[0], sum = 0;
    for (size_t i = 0; i < count; i++) {
        sum += lengths_m[i];
        if (i && i % lanes == 0) {
            double shortest = 0;
            for (size_t j = 0; j <= i / lanes; j++)
                shortest += lengths_m[i - j];
            least = fmax(least, shortest);
        }
    }
    return fmax(least, sum / (double)lanes);
}

static void keep_if_better(struct schedule *s)
{
    double length = 0;
    for (size_t l = 0; l < s->lanes; l++)
        length = fmax(length, s->loads_m[l]);
    if (length >= s->best_m - PL_NEST_SLACK_M)
        return;
    s->best_m = length;
    memcpy(s->best, s->lane_of, s->count * sizeof *s->best);
}

static void longest_first(struct schedule *s)
{
    for (size_t i = 0; i < s->count; i++) {
        size_t to = 0;
        for (size_t l = 1; l < s->lanes; l++)
            to = s->loads_m[l] < s->loads_m[to] ? l : to;
        s->lane_of[i] = to;
        s->loads_m[to] += s->lengths_m[i];
    }
    keep_if_better(s);
}

/* Makes the fullest lane shorter by a move or an exchange that leaves the other lane below what the fullest was. */
static bool exchange(struct schedule *s)
{
    size_t full = 0;
    for (size_t l = 1; l < s->lanes; l++)
        full = s->loads_m[l] > s->loads_m[full] ? l : full;
    for (size_t i = 0; i < s->count; i++)
        for (size_t j = 0; s->lane_of[i] == full && j < s->count + s->lanes; j++) {
            size_t other = j < s->count ? s->lane_of[j] : j - s->count;
            double shift = s->lengths_m[i] - (j < s->count ? s->lengths_m[j] : 0);
            if (other == full || shift <= PL_NEST_SLACK_M ||
                s->loads_m[other] + shift >= s->loads_m[full] - PL_NEST_SLACK_M)
                continue;
            if (j < s->count)
                s->lane_of[j] = full;
            s->lane_of[i] = other;
            s->loads_m[full] -= shift;
            s->loads_m[other] += shift;
            return true;
        }
    return false;
}

/* What can still go into the lanes without reaching the best length. */
static double room_m(const struct schedule *s)
{
    double room = 0;
    for (size_t l = 0; l < s->lanes; l++)
        room += fmax(0, s->best_m - PL_NEST_SLACK_M - s->loads_m[l]);
    return room;
}

static bool tried_alike(const struct schedule *s, size_t lane)
{
    for (size_t l = 0; l < lane; l++)
        if (fabs(s->loads_m[l] - s->loads_m[lane]) <= 1e-12)
            return true;
    return false;
}

/* All schedules of the jobs from i on that may beat the best; false when the budget ends. */
static bool search_from(struct schedule *s, size_t i, double left_m)
{
    if (i == s->count) {
        keep_if_better(s);
        return true;
    }
    if (!*s->budget)
        return false;
    --*s->budget;
    for (size_t l = 0; l < s->lanes; l++) {
        if (s->best_m <= s->least_m + PL_NEST_SLACK_M || left_m > room_m(s))
            return true;
        if (s->loads_m[l] + s->lengths_m[i] >= s->best_m - PL_NEST_SLACK_M || tried_alike(s, l))
            continue;
        double before = s->loads_m[l];
        s->lane_of[i] = l;
        s->loads_m[l] += s->lengths_m[i];
        bool through = search_from(s, i + 1, left_m - s->lengths_m[i]);
        s->loads_m[l] = before;
        if (!through)
            return false;
    }
    return true;
}

bool pl_nest_lanes(struct pl_nest_jobs *jobs, size_t *budget, struct pl_arena *arena)
{
    size_t lanes = jobs->lanes < jobs->count ? jobs->lanes : jobs->count;
    struct schedule s = {
        .lengths_m = jobs->lengths_m, .count = jobs->count, .lanes = lanes, .best_m = HUGE_VAL, .budget = budget};
    s.loads_m = pl_arena_take(arena, lanes, sizeof *s.loads_m);
    s.lane_of = pl_arena_take(arena, jobs->count, sizeof *s.lane_of);
    s.best = jobs->lane_of ? jobs->lane_of : pl_arena_take(arena, jobs->count, sizeof *s.best);
    if (!s.loads_m || !s.lane_of || !s.best)
        return false;
    double sum = 0;
    for (size_t i = 0; i < jobs->count; i++)
        sum += jobs->lengths_m[i];
    s.least_m = least_of(jobs->lengths_m, jobs->count, lanes);
    longest_first(&s);
    for (size_t round = 0; round < 1000 && exchange(&s); round++)
        keep_if_better(&s);
    memset(s.loads_m, 0, lanes * sizeof *s.loads_m);
    bool through = search_from(&s, 0, sum);
    jobs->length_m = s.best_m;
    jobs->least_m = through ? fmax(s.least_m, s.best_m - PL_NEST_SLACK_M) : s.least_m;
    return true;
}
