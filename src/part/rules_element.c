#include "rules.h"

#include <math.h>

static const double slack_m = 1e-9;

static void rule_stations(const struct rules *r)
{
    for (size_t e = 0; e < r->part->n_elements; e++) {
        const struct pl_element *element = &r->part->elements[e];
        if (element->n_stations && element->stations[0].y_m != 0)
            pl_rule_tell(r, PL_ERROR, "must be 0 for the first station", "/elements/%zu/stations/0/y_mm", e);
        for (size_t i = 1; i < element->n_stations; i++)
            if (element->stations[i].y_m < element->stations[i - 1].y_m + 1e-6)
                pl_rule_tell(r, PL_ERROR, "must be larger than that of the station before, by at least 0.001", "/elements/%zu/stations/%zu/y_mm",
                             e, i);
    }
}

static void check_chordwise(const struct rules *r, size_t e, size_t i, const struct pl_layup_item *item)
{
    bool by_edges = pl_given(item->chord_from) && pl_given(item->chord_to);
    bool by_centre = pl_given(item->centre_at) && pl_given(item->width_m);
    bool some_edge = pl_given(item->chord_from) || pl_given(item->chord_to);
    bool some_centre = pl_given(item->centre_at) || pl_given(item->width_m);
    if (!(by_edges && !some_centre) && !(by_centre && !some_edge))
        pl_rule_tell(r, PL_ERROR, "needs either chord_from and chord_to, or centre_at and width_mm", "/elements/%zu/layup/%zu", e, i);
    else if (by_edges && item->chord_to <= item->chord_from)
        pl_rule_tell(r, PL_ERROR, "must be larger than chord_from", "/elements/%zu/layup/%zu/chord_to", e, i);
}

static void check_spanwise(const struct rules *r, size_t e, size_t i, const struct pl_layup_item *item, double semispan_m)
{
    double half = pl_given(item->half_length_m) ? item->half_length_m : semispan_m;
    double shorter = (item->plies - 1) * item->drop_m;
    if (half > semispan_m + slack_m)
        pl_rule_tell(r, PL_ERROR, "must not be larger than half the span", "/elements/%zu/layup/%zu/half_length_mm", e, i);
    else if (item->from_m >= half)
        pl_rule_tell(r, PL_ERROR, "must be smaller than where the piece ends", "/elements/%zu/layup/%zu/from_mm", e, i);
    else if (half - shorter <= (item->from_m > 0 ? item->from_m + shorter : 0) + slack_m)
        pl_rule_tell(r, PL_ERROR, "is so large that the first ply would vanish", "/elements/%zu/layup/%zu/drop_mm", e, i);
}

static void rule_layup(const struct rules *r)
{
    for (size_t e = 0; e < r->part->n_elements; e++) {
        const struct pl_element *element = &r->part->elements[e];
        for (size_t i = 0; i < element->n_layup; i++) {
            check_chordwise(r, e, i, &element->layup[i]);
            check_spanwise(r, e, i, &element->layup[i], pl_element_semispan_m(element));
        }
    }
}

static void check_mount_place(const struct rules *r, size_t e, size_t i)
{
    const struct pl_element *element = &r->part->elements[e];
    const struct pl_mount *mount = &element->mounts[i];
    if (fabs(mount->y_m) > pl_element_semispan_m(element) + slack_m)
        pl_rule_tell(r, PL_ERROR, "stands past the tip", "/elements/%zu/mounts/%zu/y_mm", e, i);
    else if (mount->on != PL_NONE && fabs(mount->y_m) > pl_element_semispan_m(&r->part->elements[mount->on]) + slack_m)
        pl_rule_tell(r, PL_ERROR, "stands past the tip of the element that carries it", "/elements/%zu/mounts/%zu/y_mm", e, i);
    for (size_t k = 0; k < i; k++)
        if (fabs(element->mounts[k].y_m - mount->y_m) < 1e-6) {
            pl_rule_tell(r, PL_ERROR, "no two mounts may stand at one place", "/elements/%zu/mounts/%zu/y_mm", e, i);
            break;
        }
    if (mount->on == PL_NONE && pl_given(mount->at))
        pl_rule_tell(r, PL_WARNING, "is not used: the mount stands on the car", "/elements/%zu/mounts/%zu/at", e, i);
}

static void rule_mounts(const struct rules *r)
{
    for (size_t e = 0; e < r->part->n_elements; e++) {
        const struct pl_element *element = &r->part->elements[e];
        bool clamped = false;
        for (size_t i = 0; i < element->n_mounts; i++) {
            clamped = clamped || element->mounts[i].hold == PL_CLAMPED;
            check_mount_place(r, e, i);
        }
        if (!clamped && element->n_mounts < 2)
            pl_rule_tell(r, PL_ERROR, "needs one clamped mount or two mounts", "/elements/%zu/mounts", e);
    }
}

/* Every carrier of the element stands, over others, on the car. */
static bool carriers_stand(const struct pl_element *e, const bool *stands)
{
    for (size_t i = 0; i < e->n_mounts; i++)
        if (e->mounts[i].on != PL_NONE && !stands[e->mounts[i].on])
            return false;
    return true;
}

/* A carrier that does not stand; there is one. */
static size_t first_unsettled(const struct pl_element *e, const bool *stands)
{
    size_t i = 0;
    while (e->mounts[i].on == PL_NONE || stands[e->mounts[i].on])
        i++;
    return e->mounts[i].on;
}

static void rule_no_circle(const struct rules *r)
{
    size_t n = r->part->n_elements;
    bool *stands = pl_arena_take(&r->part->arena, n, sizeof *stands), more = stands;
    while (more) {
        more = false;
        for (size_t e = 0; e < n; e++)
            if (!stands[e] && carriers_stand(&r->part->elements[e], stands))
                stands[e] = more = true;
    }
    size_t e = 0;
    while (stands && e < n && stands[e])
        e++;
    if (!stands || e == n)
        return;
    /* It may only hang on a circle: after n steps down one is on it. */
    for (size_t step = 0; step < n; step++)
        e = first_unsettled(&r->part->elements[e], stands);
    size_t least = e;
    for (size_t at = first_unsettled(&r->part->elements[e], stands); at != e; at = first_unsettled(&r->part->elements[at], stands))
        least = at < least ? at : least;
    pl_rule_tell(r, PL_ERROR, "stands, over others, on itself", "/elements/%zu/mounts", least);
}

const struct rule pl_element_rules[] = {
    {"stations start at 0 and their y rises", rule_stations, false},
    {"a ply group lies on the chord and inside the span, and no ply of it vanishes", rule_layup, true},
    {"mounts hold the element, stand inside the span and apart", rule_mounts, true},
    {"no element stands on itself", rule_no_circle, true},
};
const size_t pl_n_element_rules = sizeof pl_element_rules / sizeof *pl_element_rules;
