/* doubts.c - what the figures of a polar are worth, in sentences. */
#include "plyloft/polar.h"

#include "plyloft/part.h"

#include <math.h>

static const double near_ground = 0.2, narrow_gap = 0.05, low_reynolds = 3e5, deep = 0.5;

static void add(struct pl_polar_doubt out[PL_POLAR_DOUBTS], size_t *n, bool holds, char mark, const char *sentence)
{
    if (holds && *n < PL_POLAR_DOUBTS)
        out[(*n)++] = (struct pl_polar_doubt){mark, sentence};
}

size_t pl_polar_doubts(const struct pl_polar_row *r, double reynolds, double height, struct pl_polar_doubt out[PL_POLAR_DOUBTS])
{
    size_t n = 0;
    add(out, &n, r->separated, 's', "the layer leaves the surface ahead of 0.95 chord on the potential flow: cd is only a floor");
    add(out, &n, fmin(r->attached_upper, r->attached_lower) < deep, 'd',
        "the flow of cl is separated over more than half a side: beyond the greatest lift the figures only show the trend");
    add(out, &n, !r->settled, 'u', "flow and boundary layers did not come to agree: cl and cm are the mean of the last rounds");
    add(out, &n, height < near_ground || r->clearance < narrow_gap, 'g',
        "so near the ground the potential lift rises without bound; measured wings lose downforce below about 0.1 chord, as wall "
        "layers fill the gap");
    add(out, &n, reynolds < low_reynolds, 'r', "Reynolds number below 300,000: long laminar bubbles are not followed, cd is optimistic");
    return n;
}

size_t pl_polar_greatest(const struct pl_polar_row *rows, size_t count)
{
    size_t best = 0;
    for (size_t i = 1; i < count; i++)
        if (rows[i].cl > rows[best].cl)
            best = i;
    return count && best + 1 < count ? best : PL_NONE;
}
