/* turned.c - a wing set otherwise on its brackets, and the sheet to set it by. */
#include "plyloft/driver.h"

#include "plyloft/mean_surface.h"

#include <math.h>
#include <string.h>

void pl_turned_free(struct pl_turned *t)
{
    pl_arena_free(&t->arena);
}

static void put_scaled(struct pl_setting *out, size_t *n, const struct pl_setting *own, enum pl_over over, double factor, double round_to)
{
    struct pl_setting s = *own;
    double *value = over == PL_OVER_SPEED ? &s.speed_m_s : &s.ride_height_m;
    if (factor != 1)
        *value = fmax(round_to, round_to * round(factor * *value / round_to));
    if (!*n || (over == PL_OVER_SPEED ? out[*n - 1].speed_m_s < s.speed_m_s : out[*n - 1].ride_height_m < s.ride_height_m))
        out[(*n)++] = s;
}

size_t pl_settings_around(const struct pl_part *part, const struct pl_load_case *c, enum pl_over over, struct pl_setting out[PL_AROUND])
{
    static const double speeds[] = {0.4, 0.6, 0.8, 1, 1.2, 1.4}, heights[] = {0.4, 0.6, 0.8, 1, 1.4, 2, 3}, turns_deg[] = {-4, -2, 0, 2, 4, 6};
    const struct pl_setting own = pl_setting_of(part, c);
    size_t n = 0;
    for (size_t i = 0; over == PL_OVER_SPEED && i < sizeof speeds / sizeof *speeds; i++)
        put_scaled(out, &n, &own, over, speeds[i], 5 / 3.6);
    for (size_t i = 0; over == PL_OVER_HEIGHT && pl_given(own.ride_height_m) && i < sizeof heights / sizeof *heights; i++)
        put_scaled(out, &n, &own, over, heights[i], 0.001);
    for (size_t i = 0; over == PL_OVER_INCIDENCE && i < sizeof turns_deg / sizeof *turns_deg; i++) {
        out[n] = own;
        out[n].incidence_rad += turns_deg[i] * M_PI / 180;
        n += fabs(out[n].incidence_rad) <= M_PI_2;
    }
    if (!n)
        out[n++] = own;
    return n;
}

/* Tail up by an angle is more incidence of an inverted element, less of another. */
static double way_of(const struct pl_element *e)
{
    return e->inverted ? 1 : -1;
}

struct pivot { double x_m, z_m, cosine, sine; };

static void turn_point(const struct pivot *p, double *x_m, double *z_m)
{
    double dx = *x_m - p->x_m, dz = *z_m - p->z_m;
    *x_m = p->x_m + p->cosine * dx - p->sine * dz;
    *z_m = p->z_m + p->sine * dx + p->cosine * dz;
}

static enum pl_status turn_element(struct pl_element *e, const struct pivot *p, double tail_up_rad, struct pl_arena *arena)
{
    struct pl_station *stations = pl_arena_take_raw(arena, e->n_stations, sizeof *stations);
    if (!stations)
        return PL_NO_MEMORY;
    memcpy(stations, e->stations, e->n_stations * sizeof *stations);
    e->stations = stations;
    e->incidence_rad += way_of(e) * tail_up_rad;
    if (!(fabs(e->incidence_rad) <= M_PI_2))
        return PL_BAD_INPUT;
    double tip_x_m = stations[e->n_stations - 1].x_le_m;
    for (size_t i = 0; i < e->n_stations; i++)
        turn_point(p, &stations[i].x_le_m, &stations[i].z_le_m);
    e->end_plates.x_le_m += stations[e->n_stations - 1].x_le_m - tip_x_m;  /* stays NAN where it was left out */
    return PL_OK;
}

enum pl_status pl_turned_make(struct pl_turned *t, const struct pl_part *part, const struct pl_load_case *c, const struct pl_setting *to)
{
    const struct pl_element *own = &part->elements[c->element];
    double tail_up_rad = way_of(own) * (to->incidence_rad - own->incidence_rad);
    struct pivot pivot = {own->stations[0].x_le_m, own->stations[0].z_le_m, cos(tail_up_rad), sin(tail_up_rad)};
    enum pl_status status = PL_OK;
    pl_arena_reset(&t->arena);
    t->part = *part;
    memset(&t->part.arena, 0, sizeof t->part.arena);  /* not ours to free */
    t->load_case = *c;
    t->load_case.speed_m_s = to->speed_m_s;
    t->load_case.ride_height_m = to->ride_height_m;
    t->part.load_cases = &t->load_case;
    t->part.n_load_cases = 1;
    t->part.elements = pl_arena_take_raw(&t->arena, part->n_elements, sizeof *t->part.elements);
    if (!t->part.elements)
        return PL_NO_MEMORY;
    memcpy(t->part.elements, part->elements, part->n_elements * sizeof *t->part.elements);
    for (size_t i = 0; i < part->n_elements && status == PL_OK; i++)
        status = turn_element(&t->part.elements[i], &pivot, tail_up_rad, &t->arena);
    return status;
}

/* ---- the sheet ---- */

size_t pl_brackets_count(const struct pl_part *part)
{
    size_t n = 0;
    for (size_t i = 0; i < part->n_elements; i++)
        for (size_t k = 0; k < part->elements[i].n_mounts; k++)
            n += part->elements[i].mounts[k].on == PL_NONE;
    return n;
}

/* Height that the sheet counts from; NAN without memory. */
static double zero_m(struct pl_turned *t)
{
    const struct pl_mean_surface *own = pl_mean_surface_make(&t->part, t->load_case.element, &t->arena);
    if (!own)
        return (double)NAN;
    return pl_mean_surface_root_lowest_m(own) - (pl_given(t->load_case.ride_height_m) ? t->load_case.ride_height_m : 0);
}

static enum pl_status set_rows(struct pl_turned *t, size_t element, double shim_per_m, struct pl_bracket_setting **row)
{
    const struct pl_element *e = &t->part.elements[element];
    const struct pl_mean_surface *surface = pl_mean_surface_make(&t->part, element, &t->arena);
    double zero = zero_m(t);
    if (!surface || isnan(zero))
        return PL_NO_MEMORY;
    for (size_t i = 0; i < e->n_mounts; i++) {
        if (e->mounts[i].on != PL_NONE)
            continue;
        double y_m = fabs(e->mounts[i].y_m);
        double nose_m = pl_mean_surface_at(surface, y_m, 0).z - zero, tail_m = pl_mean_surface_at(surface, y_m, 1).z - zero;
        *(*row)++ = (struct pl_bracket_setting){element, e->mounts[i].name, e->mounts[i].y_m, nose_m, tail_m, tail_m - nose_m, shim_per_m};
    }
    return PL_OK;
}

enum pl_status pl_setting_sheet(const struct pl_part *part, const struct pl_load_case *c, const struct pl_setting *to, struct pl_bracket_setting *rows)
{
    const struct pl_element *own = &part->elements[c->element];
    struct pl_turned t = {0};
    enum pl_status status = pl_turned_make(&t, part, c, to);
    for (size_t i = 0; i < part->n_elements && status == PL_OK; i++)
        status = set_rows(&t, i, tan(way_of(own) * (to->incidence_rad - own->incidence_rad)), &rows);
    pl_turned_free(&t);
    return status;
}
