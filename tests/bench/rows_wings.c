/* Rows of whole wings in the flow: the lattice, its slices, the sections behind it, and other settings. */
#include "bench.h"

#include "plyloft/driver.h"
#include "plyloft/wing_sections.h"

#include "flow/wing_mesh.h"

#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))
#define BENCH_TWO_ELEMENTS "samples/two-element-wing.json"

/* A wing, plates hung on its first element and its first case over the ground. */
static bool open_wing(struct bench_wing *w, const char *path, bool plates, struct bench_figure *f)
{
    if (!bench_wing_open(w, path, f))
        return false;
    struct pl_element *e = &w->part.elements[0];
    const struct pl_station *tip = &e->stations[e->n_stations - 1];
    if (plates)
        e->end_plates = (struct pl_end_plates){.given = true, .height_m = 0.25, .length_m = 1.2 * tip->chord_m, .below_m = 0.08, .x_le_m = tip->x_le_m - 0.1 * tip->chord_m};
    w->part.load_cases[0].ride_height_m = 0.15;
    return true;
}

/* ---- the lattice of 8 by 40 ---- */

struct lattice_job { struct bench_wing w; struct pl_lattice *lattice; struct pl_arena arena; };

static bool lattice_once(void *context, struct bench_figure *f)
{
    struct lattice_job *j = context;
    struct wing_mesh mesh;
    pl_arena_reset(&j->arena);
    enum pl_status status = pl_wing_mesh_lay(&mesh, j->lattice, &j->w.part, (struct mesh_size){8, 40}, -0.15, &j->arena, &j->w.problems);
    if (status == PL_OK)
        status = pl_lattice_solve(j->lattice);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &j->w.problems);
    else
        bench_note(f, "%zu rings", pl_lattice_rings(j->lattice));
    return status == PL_OK;
}

static void lattice_8_40(struct bench_figure *f)
{
    struct lattice_job j = {.lattice = pl_lattice_new()};
    if (j.lattice && open_wing(&j.w, BENCH_SAMPLE, true, f))
        bench_time(f, 30, lattice_once, &j);
    bench_wing_close(&j.w);
    pl_lattice_free(j.lattice);
    pl_arena_free(&j.arena);
}

/* ---- as the program lays it ---- */

struct flow_job { struct bench_wing w; struct pl_wing_flow *flow; double slowest_ms; };

static bool flow_once(void *context, struct bench_figure *f)
{
    struct flow_job *j = context;
    enum pl_status status = pl_wing_flow_aim(j->flow, &j->w.part, &j->w.part.load_cases[0], &j->w.problems);
    double from_ms = bench_now_ms();
    while (status == PL_OK && pl_wing_flow_step(j->flow)) {
        j->slowest_ms = fmax(j->slowest_ms, bench_now_ms() - from_ms);
        from_ms = bench_now_ms();
    }
    if (status == PL_OK)
        status = pl_wing_flow_status(j->flow);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &j->w.problems);
    return status == PL_OK;
}

static void flow_of(struct bench_figure *f, const char *path, bool plates)
{
    struct flow_job j = {.flow = pl_wing_flow_new()};
    if (j.flow && open_wing(&j.w, path, plates, f))
        bench_time(f, 30, flow_once, &j);
    bench_note(f, "slowest slice %.1f ms", j.slowest_ms);
    bench_wing_close(&j.w);
    pl_wing_flow_free(j.flow);
}

static void one_element(struct bench_figure *f) { flow_of(f, BENCH_SAMPLE, false); }
static void one_with_plates(struct bench_figure *f) { flow_of(f, BENCH_SAMPLE, true); }
static void two_elements(struct bench_figure *f) { flow_of(f, BENCH_TWO_ELEMENTS, false); }

/* ---- the sections ---- */

struct sections_job { struct bench_wing w; struct pl_wing_sections *sections; struct pl_wing_air *air; };

static bool sections_once(void *context, struct bench_figure *f)
{
    struct sections_job *j = context;
    enum pl_status status = pl_wing_sections_all(j->sections, j->air, &j->w.part, &j->w.part.load_cases[0], &j->w.problems);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &j->w.problems);
    return status == PL_OK;
}

static void sections(struct bench_figure *f)
{
    struct sections_job j = {.sections = pl_wing_sections_new(), .air = pl_wing_air_new()};
    if (j.sections && j.air && open_wing(&j.w, BENCH_SAMPLE, false, f))
        bench_time(f, 20, sections_once, &j);
    bench_wing_close(&j.w);
    pl_wing_sections_free(j.sections);
    pl_wing_air_free(j.air);
}

/* ---- other settings ---- */

struct driver_job { struct bench_wing w; struct pl_driver *driver; };

static bool driver_once(void *context, struct bench_figure *f)
{
    struct driver_job *j = context;
    struct pl_setting around[PL_AROUND];
    size_t n = pl_settings_around(&j->w.part, &j->w.part.load_cases[0], PL_OVER_HEIGHT, around);
    enum pl_status status = pl_driver_aim(j->driver, &j->w.part, &j->w.part.load_cases[0], around, n);
    while (status == PL_OK && pl_driver_step(j->driver))
        ;
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &j->w.problems);
    bench_note(f, "%zu heights", n);
    return status == PL_OK;
}

static void settings(struct bench_figure *f)
{
    struct driver_job j = {.driver = pl_driver_new()};
    if (j.driver && open_wing(&j.w, BENCH_SAMPLE, false, f))
        bench_time(f, 3, driver_once, &j);
    bench_wing_close(&j.w);
    pl_driver_free(j.driver);
}

static const struct bench_row rows[] = {
    {"lattice of 8 by 40, ground and end plates", "under 60 ms", lattice_8_40},
    {"flow over the front wing, near the ground", "under 100 ms", one_element},
    {"the same with end plates", "under 100 ms", one_with_plates},
    {"two elements, end plates, near the ground", "under 100 ms", two_elements},
    {"sections of the front wing, the flow being there", "-", sections},
    {"front wing at other ride heights, all of it", "-", settings},
};

const struct bench_group bench_wings = {"wings in the flow", rows, COUNT(rows)};
