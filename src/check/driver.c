#include "plyloft/driver.h"

#include "plyloft/check.h"
#include "plyloft/mean_surface.h"
#include "plyloft/wing_sections.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum phase { TURNS, FLOWS, CUTS };

struct pl_driver {
    const struct pl_part *part;
    const struct pl_load_case *load_case;
    struct pl_driver_row rows[PL_DRIVER_ROWS];
    size_t n, done;
    enum phase phase;
    struct pl_turned turned;
    struct pl_solve *shape;      /* knows what may be asked of the flow */
    struct pl_wing_air *air;
    struct pl_wing_sections *sections;
    char doubts[PL_DRIVER_DOUBTS][256];
    size_t n_doubts;
};

struct pl_driver *pl_driver_new(void)
{
    struct pl_driver *d = calloc(1, sizeof *d);
    if (!d)
        return NULL;
    d->shape = pl_solve_new();
    d->air = pl_wing_air_new();
    d->sections = pl_wing_sections_new();
    if (d->shape && d->air && d->sections)
        return d;
    pl_driver_free(d);
    return NULL;
}

void pl_driver_free(struct pl_driver *d)
{
    if (!d)
        return;
    pl_turned_free(&d->turned);
    pl_solve_free(d->shape);
    pl_wing_air_free(d->air);
    pl_wing_sections_free(d->sections);
    free(d);
}

enum pl_status pl_driver_aim(struct pl_driver *d, const struct pl_part *part, const struct pl_load_case *c, const struct pl_setting *settings, size_t n)
{
    if (n > PL_DRIVER_ROWS)
        return PL_BAD_INPUT;
    d->part = part;
    d->load_case = c;
    d->n = n;
    d->done = d->n_doubts = 0;
    d->phase = TURNS;
    for (size_t i = 0; i < n; i++)
        d->rows[i] = (struct pl_driver_row){.at = settings[i], .force_n = (double)NAN, .drag_n = (double)NAN, .centre_m = (double)NAN, .thin_force_n = (double)NAN,
                                            .thin_drag_n = (double)NAN, .pitch_nm = (double)NAN, .front_n = (double)NAN, .rear_n = (double)NAN};
    return PL_OK;
}

static void add_doubt(struct pl_driver *d, const char *sentence)
{
    for (size_t i = 0; i < d->n_doubts; i++)
        if (!strncmp(d->doubts[i], sentence, sizeof d->doubts[i] - 1))
            return;
    if (d->n_doubts < PL_DRIVER_DOUBTS) {
        strncpy(d->doubts[d->n_doubts], sentence, sizeof *d->doubts - 1);
        d->doubts[d->n_doubts++][sizeof *d->doubts - 1] = '\0';
    }
}

static void next_row(struct pl_driver *d)
{
    d->done++;
    d->phase = TURNS;
}

/* No answer, and why. */
static void give_up(struct pl_driver *d, const struct pl_problems *problems, const char *otherwise)
{
    const struct pl_problem *p = pl_problems_first_error(problems);
    add_doubt(d, p ? p->rule : otherwise);
    next_row(d);
}

/* ---- one row ---- */

/* Of the plan area of all elements over the ground; NAN in free air or without memory. */
static double middle_height_m(struct pl_turned *t, const struct pl_wing_strip *strips, size_t n)
{
    const struct pl_mean_surface *surface = NULL;
    double sum = 0, area = 0, ground_m = (double)NAN;
    surface = pl_mean_surface_make(&t->part, t->load_case.element, &t->arena);
    if (surface)
        ground_m = pl_mean_surface_root_lowest_m(surface) - t->load_case.ride_height_m;
    for (size_t i = 0; i < n; i++) {
        if (!i || strips[i].element != strips[i - 1].element)
            surface = pl_mean_surface_make(&t->part, strips[i].element, &t->arena);
        if (!surface)
            return (double)NAN;
        double a = strips[i].width_m * strips[i].chord_m;
        sum += a * (pl_mean_surface_at(surface, strips[i].y_m, 0.5).z - ground_m);
        area += a;
    }
    return sum / area;
}

static void load_axles(struct pl_driver_row *r, const struct pl_car *car, double root_x_m, double height_m)
{
    double rear_x_m = car->front_axle_x_m + car->wheelbase_m;
    double downforce_nm = isnan(r->centre_m) ? 0 : r->force_n * (rear_x_m - root_x_m - r->centre_m);
    double drag_nm = isnan(height_m) ? 0 : r->drag_n * height_m;
    r->front_n = (downforce_nm - drag_nm) / car->wheelbase_m;
    r->rear_n = r->force_n - r->front_n;
}

static void fill_row(struct pl_driver *d, struct pl_driver_row *r)
{
    struct pl_wing_totals t = pl_wing_sections_totals(d->sections);
    const struct pl_station *root = &d->turned.part.elements[d->load_case->element].stations[0];
    size_t n;
    const struct pl_wing_strip *strips = pl_wing_sections_strips(d->sections, &n);
    r->answered = true;
    r->force_n = t.force_limited_n;
    r->drag_n = t.drag_limited_n;
    r->centre_m = t.centre_limited_m;
    r->thin_force_n = t.force_n;
    r->thin_drag_n = t.drag_n;
    r->separated = t.separated;
    r->pitch_nm = isnan(r->centre_m) ? 0 : r->force_n * (r->centre_m - 0.25 * root->chord_m);
    for (size_t i = 0; i < t.n_doubts; i++)
        add_doubt(d, t.doubts[i]);
    if (d->part->car.given)
        load_axles(r, &d->part->car, root->x_le_m, middle_height_m(&d->turned, strips, n));
    if (d->part->car.given && isnan(r->at.ride_height_m))
        add_doubt(d, "without a ride height the drag's moment about the axles is left out");
}

static void turn(struct pl_driver *d, struct pl_problems *problems)
{
    enum pl_status status = pl_turned_make(&d->turned, d->part, d->load_case, &d->rows[d->done].at);
    if (status == PL_OK)
        status = pl_check_shape(d->shape, &d->turned.part, problems);
    if (status == PL_OK)
        d->phase = FLOWS;
    else
        give_up(d, problems, status == PL_NO_MEMORY ? "out of memory" : "an element would stand steeper than 90 degrees");
}

static void flow(struct pl_driver *d, struct pl_problems *problems)
{
    struct pl_wing_air_view view;
    if (pl_wing_air_step(d->air, &d->turned.part, &d->turned.load_case))
        return;
    enum pl_status status = pl_wing_air_find(d->air, &d->turned.part, &d->turned.load_case, &view, problems);
    if (status == PL_OK && !view.old)
        status = pl_wing_sections_aim(d->sections, &d->turned.part, &d->turned.load_case, &view);
    else if (status == PL_OK)
        status = PL_NO_MEMORY;
    if (status == PL_OK)
        d->phase = CUTS;
    else
        give_up(d, problems, status == PL_NO_MEMORY ? "out of memory" : "the flow has no answer");
}

static void cut(struct pl_driver *d, struct pl_problems *problems)
{
    if (pl_wing_sections_step(d->sections, problems))
        return;
    if (pl_wing_sections_status(d->sections) != PL_OK) {
        give_up(d, problems, "the flow round a section has no answer");
        return;
    }
    fill_row(d, &d->rows[d->done]);
    next_row(d);
}

bool pl_driver_step(struct pl_driver *d)
{
    struct pl_problems problems = {0};
    if (d->done >= d->n)
        return false;
    switch (d->phase) {
    case TURNS: turn(d, &problems); break;
    case FLOWS: flow(d, &problems); break;
    default: cut(d, &problems); break;
    }
    pl_problems_free(&problems);
    return d->done < d->n;
}

bool pl_driver_at_work(const struct pl_driver *d)
{
    return d->done < d->n;
}

const struct pl_driver_row *pl_driver_rows(const struct pl_driver *d, size_t *count)
{
    *count = d->done;
    return d->rows;
}

const char *pl_driver_doubt(const struct pl_driver *d, size_t i)
{
    return i < d->n_doubts ? d->doubts[i] : NULL;
}
