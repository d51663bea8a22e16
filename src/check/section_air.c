#include "plyloft/section_air.h"

#include "plyloft/file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double air_viscosity_pa_s = 1.81e-5;  /* contract, Flow */
static const double usual_speed_m_s = 40, usual_density_kg_m3 = 1.2;
static const double first_alpha_deg = -8, step_alpha_deg = 2;

enum { POINTS_MOST = 600 };

struct pl_section_air {
    struct pl_point points[POINTS_MOST];
    size_t n_points;
    uint64_t shape;          /* hash of the points */
    double reynolds, own_alpha_deg;
    bool usual_speed;
    struct pl_polar *polar;
    struct pl_polar_row rows[PL_AIR_ROWS], own;
    size_t n_rows;
    bool has_own;
    struct pl_polar_pressure pressures[PL_AIR_PANELS];
    size_t n_pressures;
    char failed[256];
};

struct pl_section_air *pl_section_air_new(void)
{
    return calloc(1, sizeof(struct pl_section_air));
}

void pl_section_air_free(struct pl_section_air *a)
{
    if (!a)
        return;
    pl_polar_free(a->polar);
    free(a);
}

/* ---- aiming ---- */

/* The outline in chords, the right way up: an inverted element's suction side is its bottom. */
static size_t outline_of(const struct pl_place_view *v, bool inverted, struct pl_point *out)
{
    const double *upper_x = inverted ? v->core_bottom_x_m : v->core_x_m, *upper_z = inverted ? v->core_bottom_m : v->core_top_m;
    const double *lower_x = inverted ? v->core_x_m : v->core_bottom_x_m, *lower_z = inverted ? v->core_top_m : v->core_bottom_m;
    double per_chord = 1 / v->section.chord_m, up = inverted ? -per_chord : per_chord;
    size_t n = 0;
    if (2 * v->n_core > POINTS_MOST)
        return 0;
    for (size_t i = v->n_core; i-- > 0;)
        out[n++] = (struct pl_point){per_chord * upper_x[i], up * upper_z[i]};
    for (size_t i = 0; i < v->n_core; i++) {
        struct pl_point p = {per_chord * lower_x[i], up * lower_z[i]};
        if (hypot(p.x - out[n - 1].x, p.z - out[n - 1].z) > 1e-7)  /* the nose is one point */
            out[n++] = p;
    }
    return n;
}

static double reynolds_of(const struct pl_part *part, size_t element, double chord_m, bool *usual)
{
    *usual = true;
    for (size_t i = 0; i < part->n_load_cases; i++) {
        const struct pl_load_case *c = &part->load_cases[i];
        if (c->kind != PL_DOWNFORCE || c->element != element || !(c->speed_m_s > 0))
            continue;
        *usual = false;
        return c->air_density_kg_m3 * c->speed_m_s * chord_m / air_viscosity_pa_s;
    }
    return usual_density_kg_m3 * usual_speed_m_s * chord_m / air_viscosity_pa_s;
}

static bool is_done(const struct pl_section_air *a)
{
    return a->failed[0] || (a->has_own && a->n_rows == PL_AIR_ROWS);
}

static void begin(struct pl_section_air *a)
{
    pl_polar_free(a->polar);
    a->polar = NULL;
    a->n_rows = a->n_pressures = 0;
    a->has_own = false;
    a->failed[0] = '\0';
}

bool pl_section_air_aim(struct pl_section_air *a, const struct pl_part *part, size_t element, const struct pl_place_view *place)
{
    struct pl_point points[POINTS_MOST];
    bool inverted = part->elements[element].inverted, usual;
    size_t n = outline_of(place, inverted, points);
    double reynolds = reynolds_of(part, element, place->section.chord_m, &usual);
    double own_deg = (inverted ? -1 : 1) * place->section.nose_up_rad * 180 / M_PI;
    uint64_t shape = pl_file_hash((const char *)points, n * sizeof *points);
    bool same = a->n_points && shape == a->shape && fabs(reynolds - a->reynolds) <= 0.01 * a->reynolds && fabs(own_deg - a->own_alpha_deg) < 1e-6;
    if (same)
        return !is_done(a);
    memcpy(a->points, points, n * sizeof *points);
    a->n_points = n;
    a->shape = shape;
    a->reynolds = reynolds;
    a->own_alpha_deg = own_deg;
    a->usual_speed = usual;
    begin(a);
    return n > 0;
}

/* ---- slices ---- */

static bool fail(struct pl_section_air *a, struct pl_problems *problems)
{
    snprintf(a->failed, sizeof a->failed, "%s", problems->count ? problems->list[0].rule : "not enough memory");
    pl_problems_free(problems);
    return false;
}

bool pl_section_air_step(struct pl_section_air *a)
{
    struct pl_problems problems = {0};
    struct pl_profile profile = {.name = "", .points = a->points, .n_points = a->n_points};
    if (!a->n_points || is_done(a))
        return false;
    if (!a->polar)
        return pl_polar_start(&a->polar, &profile, a->reynolds, (double)NAN, PL_AIR_PANELS, &problems) == PL_OK || fail(a, &problems);
    struct pl_polar_row *row = a->has_own ? &a->rows[a->n_rows] : &a->own;
    double alpha_deg = a->has_own ? first_alpha_deg + step_alpha_deg * (double)a->n_rows : a->own_alpha_deg;
    if (pl_polar_row(a->polar, alpha_deg, row, &problems) != PL_OK)
        return fail(a, &problems);
    if (a->has_own) {
        a->n_rows++;
    } else {
        a->has_own = true;
        a->n_pressures = pl_polar_pressures(a->polar, a->pressures, PL_AIR_PANELS);
    }
    pl_problems_free(&problems);
    return !is_done(a);
}

struct pl_section_air_view pl_section_air_view(const struct pl_section_air *a)
{
    return (struct pl_section_air_view){.reynolds = a->reynolds, .own_alpha_deg = a->own_alpha_deg, .usual_speed = a->usual_speed,
                                        .rows = a->rows, .n_rows = a->n_rows, .own = a->has_own ? &a->own : NULL,
                                        .pressures = a->pressures, .n_pressures = a->n_pressures,
                                        .failed = a->failed[0] ? a->failed : NULL};
}
