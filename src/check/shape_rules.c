#include "model.h"

#include "plyloft/buffer.h"
#include "plyloft/gap.h"
#include "plyloft/profile.h"

#include <math.h>
#include <stdio.h>

void pl_check_profiles(const struct pl_part *part, struct pl_problems *problems)
{
    for (size_t i = 0; i < part->n_profiles; i++) {
        const struct pl_profile *p = &part->profiles[i];
        struct pl_naca naca;
        const char *fault = NULL;
        size_t at = 0;
        char place[64];
        if (p->naca && !pl_naca_parse(p->naca, &naca, &fault)) {
            snprintf(place, sizeof place, "/profiles/%zu/naca", i);
            pl_problem_add(problems, PL_ERROR, place, fault, p->naca);
        } else if (!p->naca && (fault = pl_points_fault(p->points, p->n_points, &at))) {
            char x[32], z[32], found[80];
            pl_number_digits(x, sizeof x, p->points[at].x, 8);
            pl_number_digits(z, sizeof z, p->points[at].z, 8);
            snprintf(found, sizeof found, "[%s, %s]", x, z);
            snprintf(place, sizeof place, "/profiles/%zu/points/%zu", i, at);
            pl_problem_add(problems, PL_ERROR, place, fault, p->n_points ? found : NULL);
        }
    }
}

/* A piece that reaches past the chord is clipped there and weighed clipped. */
static void rule_clipped(const struct model *m, struct pl_problems *problems)
{
    const struct pl_element *e = m->loft.element;
    for (size_t i = 0; i < e->n_layup; i++) {
        double from, to, half = pl_item_half_length_m(&e->layup[i], m->loft.semispan_m);
        for (size_t s = 0; s < m->n_sections; s++) {
            const struct pl_section *section = &m->sections[s];
            bool clipped;
            pl_item_edges(&e->layup[i], section->chord_m, &from, &to, &clipped);
            if (!clipped || section->y_m > half + PL_SAME_PLACE_M || section->y_m < e->layup[i].from_m - PL_SAME_PLACE_M)
                continue;
            char place[64];
            snprintf(place, sizeof place, "/elements/%zu/layup/%zu", m->element, i);
            pl_problem_addf(problems, PL_WARNING, place, "reaches past the chord from y %.0f mm on and is clipped there",
                            1e3 * section->y_m);
            break;
        }
    }
}

/* The plate must reach, in x and in z, over the mean line of the tip section as placed. */
static void rule_end_plates(const struct model *m, struct pl_problems *problems)
{
    const struct pl_end_plates *plate = &m->loft.element->end_plates;
    if (!plate->given)
        return;
    struct pl_loft_place tip;
    pl_loft_at(&m->loft, m->loft.semispan_m, m->builder.loft_scratch, &tip);
    double x_from = pl_given(plate->x_le_m) ? plate->x_le_m : tip.x_le_m, z_from = tip.z_le_m - plate->below_m;
    double x_least = HUGE_VAL, x_most = -HUGE_VAL, z_least = HUGE_VAL, z_most = -HUGE_VAL;
    double c = cos(tip.nose_up_rad), s = sin(tip.nose_up_rad);
    for (size_t i = 0; i < m->loft.count; i++) {
        double x = 0.5 * tip.chord_m * (tip.top.x[i] + tip.bottom.x[i]), z = 0.5 * tip.chord_m * (tip.top.z[i] + tip.bottom.z[i]);
        x_least = fmin(x_least, tip.x_le_m + x * c + z * s);
        x_most = fmax(x_most, tip.x_le_m + x * c + z * s);
        z_least = fmin(z_least, tip.z_le_m - x * s + z * c);
        z_most = fmax(z_most, tip.z_le_m - x * s + z * c);
    }
    const double slack_m = 1e-7;
    char place[64];
    snprintf(place, sizeof place, "/elements/%zu/end_plates", m->element);
    if (x_from > x_least + slack_m || x_from + plate->length_m < x_most - slack_m)
        pl_problem_addf(problems, PL_ERROR, place, "must reach over the tip's mean line in x: from %.1f to %.1f mm, the plate"
                        " from %.1f to %.1f", 1e3 * x_least, 1e3 * x_most, 1e3 * x_from, 1e3 * (x_from + plate->length_m));
    if (z_from > z_least + slack_m || z_from + plate->height_m < z_most - slack_m)
        pl_problem_addf(problems, PL_ERROR, place, "must reach over the tip's mean line in z: from %.1f to %.1f mm, the plate"
                        " from %.1f to %.1f", 1e3 * z_least, 1e3 * z_most, 1e3 * z_from, 1e3 * (z_from + plate->height_m));
}

/* Lowest point of a section as placed, in the car's axes. */
static double lowest_z(const struct model *m, double y_m)
{
    struct pl_loft_place place;
    pl_loft_at(&m->loft, y_m, m->builder.loft_scratch, &place);
    double c = cos(place.nose_up_rad), s = sin(place.nose_up_rad), least = HUGE_VAL;
    for (size_t i = 0; i < m->loft.count; i++) {
        least = fmin(least, place.z_le_m + place.chord_m * (place.top.z[i] * c - place.top.x[i] * s));
        least = fmin(least, place.z_le_m + place.chord_m * (place.bottom.z[i] * c - place.bottom.x[i] * s));
    }
    return least;
}

/* The first station of an element at or below the ground, or -1 for its end plates, -2 for none. */
static int touches_ground(const struct model *m, double ground_m)
{
    const struct pl_element *e = m->loft.element;
    for (size_t i = 0; i < e->n_stations; i++)
        if (lowest_z(m, e->stations[i].y_m) <= ground_m)
            return (int)i;
    double plate_z_m = e->stations[e->n_stations - 1].z_le_m - e->end_plates.below_m;
    return e->end_plates.given && plate_z_m <= ground_m ? -1 : -2;
}

/* Wings and plates must stay above the ground of every case that has a ride height, those of other elements too. */
static void rule_ground(const struct model *models, const struct pl_part *part, size_t index, struct pl_problems *problems)
{
    const struct pl_load_case *c = &part->load_cases[index];
    if (c->kind != PL_DOWNFORCE || !pl_given(c->ride_height_m))
        return;
    double ground_m = lowest_z(&models[c->element], 0) - c->ride_height_m;
    char place[64], rule[200], found[32];
    pl_number_digits(found, sizeof found, 1e3 * c->ride_height_m, 6);
    snprintf(place, sizeof place, "/load_cases/%zu/ride_height_mm", index);
    for (size_t e = 0; e < part->n_elements; e++) {
        int at = touches_ground(&models[e], ground_m);
        const char *whose = part->n_elements > 1 ? part->elements[e].name : "the wing";
        if (at == -2)
            continue;
        if (at == -1)
            snprintf(rule, sizeof rule, "the end plates touch the ground: they reach %.1f mm below the root's lowest point",
                     1e3 * (ground_m + c->ride_height_m - (part->elements[e].stations[part->elements[e].n_stations - 1].z_le_m
                                                           - part->elements[e].end_plates.below_m)));
        else
            snprintf(rule, sizeof rule, "%.60s touches the ground at y %.0f mm", whose, 1e3 * part->elements[e].stations[at].y_m);
        pl_problem_add(problems, PL_ERROR, place, rule, found);
    }
}

/* Two sections in one place cannot be built, and the flow over them means nothing. */
static enum pl_status rule_crossing(const struct pl_part *part, struct pl_arena *arena, struct pl_problems *problems)
{
    struct pl_gap_shape *shape;
    enum pl_status status = part->n_elements > 1 ? pl_gap_shape_make(&shape, part, arena) : PL_BAD_INPUT;
    for (size_t e = 0; e < part->n_elements && status == PL_OK; e++)
        for (size_t i = 0; i < part->elements[e].n_stations; i++) {
            struct pl_gap gap = pl_gap_at(shape, e, part->elements[e].stations[i].y_m);
            char place[64];
            snprintf(place, sizeof place, "/elements/%zu/stations/%zu", e, i);
            if (gap.crosses)
                pl_problem_addf(problems, PL_WARNING, place, "crosses the section of %.60s, ahead of it", part->elements[gap.ahead].name);
        }
    return status == PL_NO_MEMORY ? status : PL_OK;
}

enum pl_status pl_check_shape_rules(const struct model *models, const struct pl_part *part, struct pl_arena *arena,
                                    struct pl_problems *problems)
{
    for (size_t i = 0; i < part->n_elements; i++) {
        rule_clipped(&models[i], problems);
        rule_end_plates(&models[i], problems);
    }
    for (size_t i = 0; i < part->n_load_cases; i++)
        rule_ground(models, part, i, problems);
    return rule_crossing(part, arena, problems);
}
