/* Rows of the flow over whole wings: lattices with plates and ground, and all that `plyloft flow` works out. */
#include "bench.h"

#include "plyloft/wing_sections.h"

#include "flow/wing_mesh.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* The sample with end plates, 40 mm of them below, 70 mm above the ground; and with a flap over its edge. */
struct wings {
    struct bench_wing wing;
    struct pl_element *own, both[2];
    struct pl_station flap[3];
};

static bool open_wings(struct wings *w, bool plates, bool flap, struct bench_figure *f)
{
    if (!bench_wing_open(&w->wing, BENCH_SAMPLE, f))
        return false;
    w->own = w->wing.part.elements;
    if (plates)
        w->own->end_plates = (struct pl_end_plates){.given = true, .height_m = 0.2, .length_m = 0.3, .below_m = 0.04, .x_le_m = (double)NAN,
                                                    .thickness_m = 0.004};
    if (!flap)
        return true;
    w->both[0] = w->both[1] = *w->own;
    memcpy(w->flap, w->own->stations, sizeof w->flap);
    for (size_t i = 0; i < COUNT(w->flap); i++) {
        w->flap[i].x_le_m += 0.97 * w->flap[i].chord_m;
        w->flap[i].z_le_m += 0.08;
        w->flap[i].chord_m *= 0.35;
    }
    w->both[1].stations = w->flap;
    w->both[1].incidence_rad = 20 * M_PI / 180;
    w->both[1].end_plates.given = false;
    w->wing.part.elements = w->both;
    w->wing.part.n_elements = 2;
    return true;
}

static void close_wings(struct wings *w)
{
    if (w->wing.part.elements == w->both) {
        w->wing.part.elements = w->own;
        w->wing.part.n_elements = 1;
    }
    bench_wing_close(&w->wing);
}

/* Laid, filled, factored, solved and summed. */
struct lattices {
    struct wings *wings;
    struct pl_lattice *lattice;
    struct pl_arena arena;
    struct mesh_size size;
};

static bool lattice_once(void *context, struct bench_figure *f)
{
    struct lattices *l = context;
    struct wing_mesh mesh;
    const struct pl_part *part = &l->wings->wing.part;
    pl_arena_reset(&l->arena);
    struct pl_mean_surface *surface = pl_mean_surface_make(part, 0, &l->arena);
    double ground_z = surface ? pl_mean_surface_root_lowest_m(surface) - part->load_cases[0].ride_height_m : 0;
    enum pl_status status = PL_NO_MEMORY;
    if (surface)
        status = pl_wing_mesh_lay(&mesh, l->lattice, part, l->size, ground_z, &l->arena, &l->wings->wing.problems);
    if (status == PL_OK)
        status = pl_lattice_solve(l->lattice);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &l->wings->wing.problems);
    else if (!(pl_lattice_trefftz_drag(l->lattice) > 0))
        bench_missing(f, "the wing has no induced drag");
    return !f->missing[0];
}

static void time_lattice(struct bench_figure *f, struct mesh_size size, bool flap)
{
    struct wings w;
    struct lattices l = {.wings = &w, .lattice = pl_lattice_new(), .size = size};
    if (!l.lattice)
        bench_missing(f, "not enough memory");
    else if (open_wings(&w, true, flap, f))
        bench_time(f, 20, lattice_once, &l);
    if (l.lattice) {
        close_wings(&w);
        bench_note(f, "%zu rings", pl_lattice_rings(l.lattice));
    }
    pl_lattice_free(l.lattice);
    pl_arena_free(&l.arena);
}

static void half_wing(struct bench_figure *f) { time_lattice(f, (struct mesh_size){8, 40}, false); }
static void own_size(struct bench_figure *f) { time_lattice(f, (struct mesh_size){PL_WING_CHORDWISE, PL_WING_SPANWISE}, false); }
static void two_elements(struct bench_figure *f) { time_lattice(f, (struct mesh_size){PL_WINGS_CHORDWISE, PL_WINGS_SPANWISE}, true); }

/* What `plyloft flow` works out, nothing kept from before. */
static bool flow_once(void *context, struct bench_figure *f)
{
    struct wings *w = context;
    struct pl_wing_air *air = pl_wing_air_new();
    struct pl_wing_sections *sections = pl_wing_sections_new();
    const struct pl_part *part = &w->wing.part;
    enum pl_status status = PL_NO_MEMORY;
    if (air && sections)
        status = pl_wing_sections_all(sections, air, part, &part->load_cases[0], &w->wing.problems);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &w->wing.problems);
    pl_wing_sections_free(sections);
    pl_wing_air_free(air);
    return status == PL_OK;
}

static void time_flow(struct bench_figure *f, bool flap)
{
    struct wings w;
    if (open_wings(&w, flap, flap, f))
        bench_time(f, 10, flow_once, &w);
    close_wings(&w);
}

static void whole_flow(struct bench_figure *f) { time_flow(f, false); }
static void whole_flow_of_two(struct bench_figure *f) { time_flow(f, true); }

static const struct bench_row rows[] = {
    {"lattice 8 x 40 a half, end plates, ground", "under 60 ms", half_wing},
    {"the same, 12 x 32 as it is used", "-", own_size},
    {"two elements, 8 x 24 a half, end plates, ground", "-", two_elements},
    {"all of plyloft flow, the front wing", "-", whole_flow},
    {"the same, two elements with end plates", "-", whole_flow_of_two},
};

const struct bench_group bench_wings = {"flow over wings", rows, COUNT(rows)};
