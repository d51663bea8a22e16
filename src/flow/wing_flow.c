#include "plyloft/wing_flow.h"

#include "wing_mesh.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct pl_wing_flow {
    struct pl_arena arena;
    struct pl_lattice *lattice;
    struct wing_mesh mesh;
    struct pl_wing_strip *strips;
    size_t n_strips;
    size_t *numbers;      /* of the strips in the lattice */
    double ground_z, root_le_x;
    struct pl_wing_figures figures;
    enum pl_status status;
};

struct pl_wing_flow *pl_wing_flow_new(void)
{
    struct pl_wing_flow *f = calloc(1, sizeof *f);
    if (f)
        f->lattice = pl_lattice_new();
    if (f && !f->lattice) {
        free(f);
        f = NULL;
    }
    return f;
}

void pl_wing_flow_free(struct pl_wing_flow *f)
{
    if (!f)
        return;
    pl_lattice_free(f->lattice);
    pl_arena_free(&f->arena);
    free(f);
}

/* ---- the same for the lattice ---- */

/* FNV-1a (Fowler, Noll and Vo): tells apart what was not made to deceive. */
static void mix(uint64_t *key, const void *bytes, size_t length)
{
    for (size_t i = 0; i < length; i++)
        *key = (*key ^ ((const unsigned char *)bytes)[i]) * 1099511628211u;
}

static void mix_number(uint64_t *key, double value)
{
    mix(key, &value, sizeof value);
}

static void mix_profile(uint64_t *key, const struct pl_profile *p)
{
    if (p->naca)
        mix(key, p->naca, strlen(p->naca) + 1);
    else
        mix(key, p->points, p->n_points * sizeof *p->points);
}

static void mix_element(uint64_t *key, const struct pl_part *part, const struct pl_element *e)
{
    const struct pl_end_plates *p = &e->end_plates;
    mix_number(key, e->inverted);
    mix_number(key, e->incidence_rad);
    for (size_t i = 0; i < e->n_stations; i++) {
        const struct pl_station *s = &e->stations[i];
        const double values[] = {s->y_m, s->chord_m, s->x_le_m, s->z_le_m, s->twist_rad};
        mix(key, values, sizeof values);
        mix_profile(key, &part->profiles[s->profile]);
    }
    mix_number(key, p->given);
    if (p->given) {
        const double values[] = {p->height_m, p->length_m, p->below_m, p->x_le_m};
        mix(key, values, sizeof values);
    }
}

uint64_t pl_wing_flow_key(const struct pl_part *part, const struct pl_load_case *c)
{
    uint64_t key = 14695981039346656037u;
    for (size_t i = 0; i < part->n_elements; i++)
        mix_element(&key, part, &part->elements[i]);
    mix_number(&key, c->ride_height_m);
    mix_number(&key, (double)c->element);
    return key;
}

/* ---- aiming ---- */

static double plan_area_m2(const struct pl_part *part)
{
    double area_m2 = 0;
    for (size_t i = 0; i < part->n_elements; i++) {
        const struct pl_element *e = &part->elements[i];
        for (size_t k = 1; k < e->n_stations; k++)
            area_m2 += (e->stations[k].y_m - e->stations[k - 1].y_m) * (e->stations[k].chord_m + e->stations[k - 1].chord_m);
    }
    return area_m2;
}

/* Strips as the mesh has them. */
static bool set_strips(struct pl_wing_flow *f)
{
    f->n_strips = 0;
    for (size_t i = 0; i < f->mesh.n_elements; i++)
        f->n_strips += f->mesh.elements[i].spanwise;
    f->strips = pl_arena_take(&f->arena, f->n_strips, sizeof *f->strips);
    f->numbers = pl_arena_take(&f->arena, f->n_strips, sizeof *f->numbers);
    if (!f->strips || !f->numbers)
        return false;
    struct pl_wing_strip *s = f->strips;
    for (size_t i = 0; i < f->mesh.n_elements; i++) {
        const struct mesh_element *m = &f->mesh.elements[i];
        for (size_t j = 0; j < m->spanwise; j++, s++) {
            double y_m = m->middles_m[j];
            *s = (struct pl_wing_strip){.element = i, .y_m = y_m, .width_m = m->edges_m[j + 1] - m->edges_m[j],
                                        .chord_m = pl_mean_surface_chord_m(m->surface, y_m), .x_le_m = pl_mean_surface_at(m->surface, y_m, 0).x,
                                        .height_m = pl_mean_surface_at(m->surface, y_m, 1).z - f->ground_z};
            f->numbers[s - f->strips] = m->strips[j];
        }
    }
    return true;
}

enum pl_status pl_wing_flow_aim(struct pl_wing_flow *f, const struct pl_part *part, const struct pl_load_case *c, struct pl_problems *problems)
{
    pl_arena_reset(&f->arena);
    struct pl_mean_surface *own = pl_mean_surface_make(part, c->element, &f->arena);
    if (!own)
        return f->status = PL_NO_MEMORY;
    f->ground_z = pl_given(c->ride_height_m) ? pl_mean_surface_root_lowest_m(own) - c->ride_height_m : (double)NAN;
    f->root_le_x = part->elements[c->element].stations[0].x_le_m;
    f->figures = (struct pl_wing_figures){.area_m2 = plan_area_m2(part), .root_chord_m = part->elements[c->element].stations[0].chord_m};
    struct mesh_size one = {PL_WING_CHORDWISE, PL_WING_SPANWISE}, several = {PL_WINGS_CHORDWISE, PL_WINGS_SPANWISE};
    struct mesh_size size = part->n_elements > 1 ? several : one;
    f->status = pl_wing_mesh_lay(&f->mesh, f->lattice, part, size, f->ground_z, &f->arena, problems);
    if (f->status == PL_OK && !set_strips(f))
        f->status = PL_NO_MEMORY;
    if (f->status == PL_OK)
        pl_lattice_start(f->lattice);
    return f->status;
}

/* ---- what comes out ---- */

/* Loads by rho V^2 of the right half: twice that by q, and twice that of both halves. */
static void sum_up(struct pl_wing_flow *f)
{
    double lift = 0, moment = 0;
    for (size_t i = 0; i < f->n_strips; i++) {
        struct pl_wing_strip *s = &f->strips[i];
        struct pl_lattice_load load = pl_lattice_load(f->lattice, f->numbers[i]);
        double force = -2 * load.force.z, turn = -2 * load.x_times_z;
        s->cl = force / (s->width_m * s->chord_m);
        s->moment = (turn - s->x_le_m * force) / (s->width_m * s->chord_m * s->chord_m);
        lift += 2 * force;
        moment += 2 * (turn - f->root_le_x * force);
    }
    f->figures.lift = lift / f->figures.area_m2;
    f->figures.induced_drag = 2 * pl_lattice_trefftz_drag(f->lattice) / f->figures.area_m2;
    f->figures.centre_m = fabs(lift) > 1e-12 * f->figures.area_m2 ? moment / lift : (double)NAN;
}

bool pl_wing_flow_step(struct pl_wing_flow *f)
{
    if (f->status != PL_OK)
        return false;
    if (pl_lattice_step(f->lattice))
        return true;
    f->status = pl_lattice_status(f->lattice);
    if (f->status == PL_OK)
        sum_up(f);
    /* Plates many spans high have panels wider than the wing, and their drag means nothing any more. */
    if (f->status == PL_OK && f->figures.induced_drag < -1e-6)
        f->status = PL_NOT_CONVERGED;
    return false;
}

enum pl_status pl_wing_flow_status(const struct pl_wing_flow *f)
{
    return f->status;
}

const struct pl_wing_strip *pl_wing_flow_strips(const struct pl_wing_flow *f, size_t *count)
{
    *count = f->n_strips;
    return f->strips;
}

struct pl_wing_figures pl_wing_flow_figures(const struct pl_wing_flow *f)
{
    return f->figures;
}
