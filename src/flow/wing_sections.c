#include "plyloft/wing_sections.h"

#include "plyloft/strip_air.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double air_viscosity_pa_s = 1.81e-5;  /* contract, Flow */
static const double near_ground = 0.2, low_reynolds = 3e5;

enum { PANELS = 200, CHORDWISE = 12, PLACES = 7, STRIPS_A_SLICE = 8 };

/* Where along an element the section's lift is worked out, by the half span: nearer together where the load falls off; not at
 * the very tip, where the lift of narrow strips is that of their side lines. */
static const double places_at[PLACES] = {0, 0.25, 0.5, 0.7, 0.84, 0.93, 0.98};

enum phase { PREPARES, DRAGS, LIMITS, LIMITED_DRAGS, IS_DONE };

struct pl_wing_sections {
    const struct pl_part *part;
    const struct pl_load_case *load_case;
    struct pl_arena arena;
    struct pl_wing_strip *strips;
    struct pl_wing_section *rows;
    double *scale;              /* one a place of each element */
    size_t *place;              /* its strip */
    size_t n_strips;
    struct pl_wing_figures figures;
    struct pl_strip_air **airs; /* one a profile of the part; NULL: not used, or not yet */
    size_t n_airs;
    enum phase phase;
    size_t at;
    size_t untold;              /* strips whose drag could not be followed */
    bool upright_over_ground, low, slow, beyond, unsettled;
    struct pl_wing_totals totals;
    enum pl_status status;
};

struct pl_wing_sections *pl_wing_sections_new(void)
{
    return calloc(1, sizeof(struct pl_wing_sections));
}

static void drop_airs(struct pl_wing_sections *w)
{
    for (size_t i = 0; w->airs && i < w->n_airs; i++)
        pl_strip_air_free(w->airs[i]);
    w->airs = NULL;
}

void pl_wing_sections_free(struct pl_wing_sections *w)
{
    if (!w)
        return;
    drop_airs(w);
    pl_arena_free(&w->arena);
    free(w);
}

/* ---- aiming ---- */

enum pl_status pl_wing_sections_aim(struct pl_wing_sections *w, const struct pl_part *part, const struct pl_load_case *c,
                                    const struct pl_wing_air_view *air)
{
    drop_airs(w);
    pl_arena_reset(&w->arena);
    struct pl_arena arena = w->arena;
    *w = (struct pl_wing_sections){.part = part, .load_case = c, .arena = arena, .n_strips = air->n_strips, .figures = air->figures,
                                   .n_airs = part->n_profiles};
    w->strips = pl_arena_take(&w->arena, w->n_strips, sizeof *w->strips);
    w->rows = pl_arena_take(&w->arena, w->n_strips, sizeof *w->rows);
    w->scale = pl_arena_take(&w->arena, PLACES * part->n_elements, sizeof *w->scale);
    w->place = pl_arena_take(&w->arena, PLACES * part->n_elements, sizeof *w->place);
    w->airs = pl_arena_take(&w->arena, w->n_airs, sizeof(struct pl_strip_air *));
    if (!w->strips || !w->rows || !w->scale || !w->place || !w->airs)
        return w->status = PL_NO_MEMORY;
    memcpy(w->strips, air->strips, w->n_strips * sizeof *w->strips);
    return w->status = PL_OK;
}

/* ---- the section of a strip ---- */

struct mixed { size_t profile[2]; double share; };  /* of the second */

static struct mixed section_of(const struct pl_wing_sections *w, const struct pl_wing_strip *s)
{
    const struct pl_element *e = &w->part->elements[s->element];
    size_t i = 1;
    while (i + 1 < e->n_stations && e->stations[i].y_m < s->y_m)
        i++;
    double from = e->stations[i - 1].y_m, to = e->stations[i].y_m, share = fmin(1, fmax(0, (s->y_m - from) / (to - from)));
    if (e->stations[i - 1].profile == e->stations[i].profile)
        share = 0;
    return (struct mixed){{e->stations[i - 1].profile, e->stations[i].profile}, share};
}

static double reynolds_of(const struct pl_wing_sections *w, const struct pl_wing_strip *s)
{
    return w->load_case->air_density_kg_m3 * w->load_case->speed_m_s * s->chord_m / air_viscosity_pa_s;
}

/* Downforce of an inverted element is the lift of its profile the right way up. */
static double upright(const struct pl_wing_sections *w, const struct pl_wing_strip *s)
{
    return w->part->elements[s->element].inverted ? 1 : -1;
}

static double drag_of(struct pl_wing_sections *w, const struct pl_wing_strip *s, double cl, bool *separated)
{
    struct mixed m = section_of(w, s);
    double cd = 0;
    for (int k = 0; k < 2; k++) {
        double share = k ? m.share : 1 - m.share;
        struct pl_strip_drag drag;
        struct pl_problems unsaid = {0};
        if (share == 0)
            continue;
        if (pl_strip_air_drag(w->airs[m.profile[k]], upright(w, s) * cl, reynolds_of(w, s), &drag, &unsaid) == PL_OK) {
            cd += share * drag.cd;
            *separated = *separated || drag.separated || drag.beyond;
        } else {
            cd = (double)NAN;
        }
        pl_problems_free(&unsaid);
    }
    return cd;
}

/* ---- slices ---- */

static bool fail(struct pl_wing_sections *w, enum pl_status status)
{
    w->status = status;
    w->phase = IS_DONE;
    drop_airs(w);
    return false;
}

static bool uses(const struct pl_part *part, size_t profile)
{
    for (size_t e = 0; e < part->n_elements; e++)
        for (size_t i = 0; i < part->elements[e].n_stations; i++)
            if (part->elements[e].stations[i].profile == profile)
                return true;
    return false;
}

static bool prepare(struct pl_wing_sections *w, struct pl_problems *problems)
{
    while (w->at < w->n_airs && !uses(w->part, w->at))
        w->at++;
    if (w->at == w->n_airs) {
        w->phase = DRAGS;
        w->at = 0;
        return true;
    }
    enum pl_status status = pl_strip_air_start(&w->airs[w->at], &w->part->profiles[w->at], PANELS, CHORDWISE, problems);
    w->at++;
    return status == PL_OK || fail(w, status);
}

/* Drag of some strips; where no layer can be followed it is the neighbour's, and told. */
static void slice_of_drags(struct pl_wing_sections *w, bool limited)
{
    for (size_t n = 0; n < STRIPS_A_SLICE && w->at < w->n_strips; n++, w->at++) {
        const struct pl_wing_strip *s = &w->strips[w->at];
        struct pl_wing_section *row = &w->rows[w->at];
        bool separated = false;
        double cd = drag_of(w, s, limited ? row->cl_limited : s->cl, &separated);
        bool told = !isnan(cd);
        if (limited) {
            row->cd_limited = told ? fmax(cd, row->cd) : row->cd;  /* stall never lessens drag */
            continue;
        }
        w->untold += !told;
        row->cd = told ? cd : w->at ? w->rows[w->at - 1].cd : 0.02;
        row->separated = separated || !told;
        w->slow = w->slow || reynolds_of(w, s) < low_reynolds;
        w->low = w->low || s->height_m < near_ground * s->chord_m;
    }
    if (w->at == w->n_strips) {
        w->phase = limited ? IS_DONE : LIMITS;
        w->at = 0;
    }
}

static size_t nearest_strip(const struct pl_wing_sections *w, size_t element, double y_m)
{
    size_t best = PL_NONE;
    for (size_t i = 0; i < w->n_strips; i++)
        if (w->strips[i].element == element && (best == PL_NONE || fabs(w->strips[i].y_m - y_m) < fabs(w->strips[best].y_m - y_m)))
            best = i;
    return best;
}

static double scale_of(struct pl_wing_sections *w, const struct pl_wing_strip *s)
{
    struct mixed m = section_of(w, s);
    bool over_ground = !isnan(s->height_m), inverted = w->part->elements[s->element].inverted;
    double height = over_ground && inverted ? s->height_m / s->chord_m : (double)NAN, scale = 0;
    w->upright_over_ground = w->upright_over_ground || (over_ground && !inverted);
    for (int k = 0; k < 2; k++) {
        double share = k ? m.share : 1 - m.share;
        struct pl_strip_lift lift = {.scale = 1};
        struct pl_problems unsaid = {0};
        if (share == 0)
            continue;
        bool told = pl_strip_air_lift(w->airs[m.profile[k]], upright(w, s) * s->cl, reynolds_of(w, s), height, &lift, &unsaid) == PL_OK;
        pl_problems_free(&unsaid);
        w->beyond = w->beyond || !told || lift.beyond;
        w->unsettled = w->unsettled || (told && !lift.settled);
        scale += share * (told ? lift.scale : 1);
    }
    return scale;
}

static double scale_at(const struct pl_wing_sections *w, const struct pl_wing_strip *s)
{
    const size_t *place = &w->place[PLACES * s->element];
    const double *scale = &w->scale[PLACES * s->element];
    size_t i = 1;
    while (i + 1 < PLACES && w->strips[place[i]].y_m < s->y_m)
        i++;
    double from = w->strips[place[i - 1]].y_m, to = w->strips[place[i]].y_m;
    double share = to > from ? fmin(1, fmax(0, (s->y_m - from) / (to - from))) : 0;
    return scale[i - 1] + share * (scale[i] - scale[i - 1]);
}

static void slice_of_limits(struct pl_wing_sections *w)
{
    size_t element = w->at / PLACES;
    double semispan_m = pl_element_semispan_m(&w->part->elements[element]);
    w->place[w->at] = nearest_strip(w, element, places_at[w->at % PLACES] * semispan_m);
    w->scale[w->at] = scale_of(w, &w->strips[w->place[w->at]]);
    if (++w->at < PLACES * w->part->n_elements)
        return;
    for (size_t i = 0; i < w->n_strips; i++)
        w->rows[i].cl_limited = w->strips[i].cl * scale_at(w, &w->strips[i]);
    w->phase = LIMITED_DRAGS;
    w->at = 0;
}

/* ---- sums ---- */

/* Prandtl and Schlichting, both sides of both plates of an element, by the dynamic pressure. */
static double plate_drag_m2(const struct pl_wing_sections *w)
{
    double sum = 0;
    for (size_t i = 0; i < w->part->n_elements; i++) {
        const struct pl_end_plates *p = &w->part->elements[i].end_plates;
        if (!p->given)
            continue;
        double reynolds = w->load_case->air_density_kg_m3 * w->load_case->speed_m_s * p->length_m / air_viscosity_pa_s;
        sum += 4 * p->height_m * p->length_m * 0.455 / pow(log10(fmax(reynolds, 1e3)), 2.58);
    }
    return sum;
}

static void add_doubt(struct pl_wing_totals *t, bool holds, const char *sentence)
{
    if (holds && t->n_doubts < PL_WING_DOUBTS)
        t->doubts[t->n_doubts++] = sentence;
}

/* The lowest point of the root, which ride height is counted to, below a tenth of its chord. */
static bool near_root(const struct pl_wing_sections *w)
{
    return w->load_case->ride_height_m < 0.1 * w->figures.root_chord_m;  /* not so in free air, where it is NAN */
}

static void set_doubts(struct pl_wing_sections *w)
{
    struct pl_wing_totals *t = &w->totals;
    add_doubt(t, w->low || near_root(w), "part of the wing is below 0.2 chord, or its lowest point below 0.1: measured wings lose downforce below about 0.1 chord, as wall layers fill the gap");
    add_doubt(t, t->separated, "the layer leaves some sections ahead of 0.95 chord: drag there is only a floor, and the lattice knows no stall");
    add_doubt(t, w->beyond, "some strips carry more than their section can: their limited figures are those of the greatest incidence tried, or not limited");
    add_doubt(t, w->slow, "Reynolds number below 300,000 on part of the wing: drag is optimistic");
    add_doubt(t, w->upright_over_ground, "sections of an element that is not inverted are taken in free air");
    add_doubt(t, w->untold || w->unsettled, "flow and boundary layers did not come to agree on some sections: their figures are a neighbour's, or a mean");
}

static void sum_up(struct pl_wing_sections *w)
{
    const struct pl_load_case *c = w->load_case;
    struct pl_wing_totals *t = &w->totals;
    double q = pl_load_case_pressure_pa(c), s_m2 = w->figures.area_m2;
    double profile = 0, profile_limited = 0, lift = 0, moment = 0, own = 0, own_limited = 0;
    double root_le_x = w->part->elements[c->element].stations[0].x_le_m;
    for (size_t i = 0; i < w->n_strips; i++) {
        const struct pl_wing_strip *p = &w->strips[i];
        double area = 2 * p->width_m * p->chord_m, limited = area * w->rows[i].cl_limited;
        /* Force stays where the lattice has it. */
        double arm = p->x_le_m - root_le_x + (fabs(p->cl) > 1e-9 ? p->chord_m * p->moment / p->cl : 0);
        profile += area * w->rows[i].cd;
        profile_limited += area * w->rows[i].cd_limited;
        lift += limited;
        moment += limited * arm;
        t->separated += w->rows[i].separated;
        if (p->element == c->element) {
            own += area * p->cl;
            own_limited += limited;
        }
    }
    double ratio = fabs(w->figures.lift) > 1e-6 ? lift / s_m2 / w->figures.lift : 1, plate = plate_drag_m2(w);
    t->profile_drag = profile / s_m2;
    t->plate_friction = plate / s_m2;
    t->force_n = q * s_m2 * w->figures.lift;
    t->induced_drag_n = q * s_m2 * w->figures.induced_drag;
    t->profile_drag_n = q * profile;
    t->plate_drag_n = q * plate;
    t->drag_n = t->induced_drag_n + t->profile_drag_n + t->plate_drag_n;
    t->lift_limited = lift / s_m2;
    t->force_limited_n = q * lift;
    t->drag_limited_n = t->induced_drag_n * ratio * ratio + q * profile_limited + t->plate_drag_n;
    t->centre_limited_m = fabs(lift) > 1e-9 * s_m2 ? moment / lift : (double)NAN;
    t->allowance = fabs(own) > 1e-6 * s_m2 ? own_limited / own : (double)NAN;
    set_doubts(w);
}

bool pl_wing_sections_step(struct pl_wing_sections *w, struct pl_problems *problems)
{
    if (w->status != PL_OK || w->phase == IS_DONE)
        return false;
    switch (w->phase) {
    case PREPARES: return prepare(w, problems);
    case DRAGS: slice_of_drags(w, false); return true;
    case LIMITS: slice_of_limits(w); return true;
    default: slice_of_drags(w, true); break;
    }
    if (w->phase != IS_DONE)
        return true;
    sum_up(w);
    drop_airs(w);
    return false;
}

enum pl_status pl_wing_sections_status(const struct pl_wing_sections *w)
{
    return w->status;
}

enum pl_status pl_wing_sections_all(struct pl_wing_sections *w, struct pl_wing_air *air, const struct pl_part *part,
                                    const struct pl_load_case *c, struct pl_problems *problems)
{
    struct pl_wing_air_view view;
    while (pl_wing_air_step(air, part, c))
        ;
    enum pl_status status = pl_wing_air_find(air, part, c, &view, problems);
    if (status != PL_OK || view.old)
        return w->status = status == PL_NOT_CONVERGED ? status : PL_NO_MEMORY;
    if (pl_wing_sections_aim(w, part, c, &view) != PL_OK)
        return w->status;
    while (pl_wing_sections_step(w, problems))
        ;
    return w->status;
}

/* ---- what came out ---- */

const struct pl_wing_strip *pl_wing_sections_strips(const struct pl_wing_sections *w, size_t *count)
{
    *count = w->n_strips;
    return w->strips;
}

const struct pl_wing_section *pl_wing_sections_rows(const struct pl_wing_sections *w)
{
    return w->rows;
}

struct pl_wing_figures pl_wing_sections_figures(const struct pl_wing_sections *w)
{
    return w->figures;
}

struct pl_wing_totals pl_wing_sections_totals(const struct pl_wing_sections *w)
{
    return w->totals;
}
