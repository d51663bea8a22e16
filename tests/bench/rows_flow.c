/* Rows of the flow: one system of panels, polars in free air and near the ground, and a wing's strips. */
#include "bench.h"

#include "plyloft/polar.h"
#include "plyloft/section_flow.h"
#include "plyloft/strip_air.h"

#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

enum { PANELS = 160, ANGLES = 20, STRIPS = 32 };

static const struct pl_profile profile = {.name = "main", .naca = "6412"};

struct one_flow { struct pl_section_flow *flow; struct pl_point nodes[PANELS + 1]; };

/* Set up, factored, solved and summed. */
static bool flow_once(void *context, struct bench_figure *f)
{
    struct one_flow *o = context;
    struct pl_problems problems = {0};
    struct pl_flow_body body = {o->nodes, PANELS + 1};
    double speed[PANELS];
    enum pl_status status = pl_section_flow_set(o->flow, &body, 1, (double)NAN, false, &problems);
    if (status == PL_OK && !pl_section_flow_speeds(o->flow, 0.05, NULL, speed))
        status = PL_NOT_CONVERGED;
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &problems);
    else if (!(pl_section_flow_force(o->flow, 0, 0.05, speed, NULL, 0.25, 0).lift > 0))
        bench_missing(f, "the section has no lift");
    pl_problems_free(&problems);
    return !f->missing[0];
}

static void section_flow(struct bench_figure *f)
{
    struct one_flow o = {.flow = pl_section_flow_new()};
    if (o.flow && pl_flow_outline(&profile, o.nodes, PANELS + 1))
        bench_time(f, 200, flow_once, &o);
    else
        bench_missing(f, "not enough memory");
    pl_section_flow_free(o.flow);
}

/* -4 to 15 degrees at Re = 600,000; context is the height. */
static bool polar_once(void *context, struct bench_figure *f)
{
    struct pl_problems problems = {0};
    struct pl_polar *polar;
    enum pl_status status = pl_polar_start(&polar, &profile, 6e5, *(double *)context, PL_POLAR_PANELS, &problems);
    for (int i = 0; i < ANGLES && status == PL_OK; i++) {
        struct pl_polar_row row;
        status = pl_polar_row(polar, i - 4, &row, &problems);
    }
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &problems);
    pl_polar_free(polar);
    pl_problems_free(&problems);
    return status == PL_OK;
}

static void polar_at(struct bench_figure *f, double height)
{
    bench_time(f, 20, polar_once, &height);
}

static void free_air(struct bench_figure *f) { polar_at(f, (double)NAN); }
static void near_ground(struct bench_figure *f) { polar_at(f, 0.5); }

/* Of half a wing, lift falling off outward; the profile is prepared before. */
static bool strips_drag_once(void *context, struct bench_figure *f)
{
    struct pl_problems problems = {0};
    enum pl_status status = PL_OK;
    for (int i = 0; i < STRIPS && status == PL_OK; i++) {
        struct pl_strip_drag d;
        status = pl_strip_air_drag(context, 1.1 - 0.025 * i, 6e5, &d, &problems);
    }
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &problems);
    pl_problems_free(&problems);
    return status == PL_OK;
}

static bool strips_lift_once(void *context, struct bench_figure *f)
{
    struct pl_problems problems = {0};
    enum pl_status status = PL_OK;
    for (int i = 0; i < STRIPS && status == PL_OK; i++) {
        struct pl_strip_lift l;
        status = pl_strip_air_lift(context, 1.1 - 0.025 * i, 6e5, 0.4, &l, &problems);
    }
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &problems);
    pl_problems_free(&problems);
    return status == PL_OK;
}

static void strips(struct bench_figure *f, bool (*once)(void *, struct bench_figure *))
{
    struct pl_problems problems = {0};
    struct pl_strip_air *air;
    enum pl_status status = pl_strip_air_start(&air, &profile, PL_POLAR_PANELS, 12, &problems);
    if (status == PL_OK)
        bench_time(f, 20, once, air);
    else
        bench_missing_status(f, NULL, status, &problems);
    pl_strip_air_free(air);
    pl_problems_free(&problems);
}

static void strips_drag(struct bench_figure *f) { strips(f, strips_drag_once); }
static void strips_lift(struct bench_figure *f) { strips(f, strips_lift_once); }

static const struct bench_row rows[] = {
    {"section flow, 160 panels", "under 5 ms", section_flow},
    {"polar of 20 angles in free air", "under 150 ms", free_air},
    {"the same near the ground", "under 300 ms", near_ground},
    {"drag of 32 strips", "under 10 ms", strips_drag},
    {"lift of 32 strips near the ground", "under 500 ms", strips_lift},
};

const struct bench_group bench_flow = {"flow", rows, COUNT(rows)};
