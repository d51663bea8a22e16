#include "command.h"

#include "plyloft/wing_sections.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char pl_flow_caution[] = "Planning figures: measure the car before you trust them at speed.\n";

struct result {
    const struct pl_part *part;
    const struct pl_load_case *load_case;
    const struct pl_wing_strip *strips;
    const struct pl_wing_section *rows;
    size_t n;
    double pressure_pa;
    struct pl_wing_figures figures;
    struct pl_wing_totals totals;
};

/* ---- JSON ---- */

static void print_station(struct pl_json_writer *w, const struct result *r, size_t i, double side)
{
    const struct pl_wing_strip *s = &r->strips[i];
    pl_json_object(w, NULL);
    if (r->part->n_elements > 1)
        pl_json_text(w, "element", r->part->elements[s->element].name);
    pl_json_number(w, "y_mm", 1e3 * side * s->y_m);
    pl_json_number(w, "cl", s->cl);
    pl_json_number(w, "force_n_per_m", r->pressure_pa * s->chord_m * s->cl);
    if (fabs(s->cl) > 1e-9)
        pl_json_number(w, "acts_at", s->moment / s->cl);
    pl_json_number(w, "cl_limited", r->rows[i].cl_limited);
    pl_json_number(w, "cd", r->rows[i].cd);
    pl_json_bool(w, "separated", r->rows[i].separated);
    pl_json_close(w);
}

/* Nothing pushes: no centre. */
static void print_centre(struct pl_json_writer *w, const char *key, double centre_m, double chord_m)
{
    if (isnan(centre_m))
        pl_json_null(w, key);
    else
        pl_json_number(w, key, centre_m / chord_m);
}

static void print_figures(struct pl_json_writer *w, const struct result *r)
{
    const struct pl_wing_totals *t = &r->totals;
    pl_json_number(w, "lift_coefficient", r->figures.lift);
    pl_json_number(w, "induced_drag_coefficient", r->figures.induced_drag);
    pl_json_number(w, "force_n", t->force_n);
    pl_json_number(w, "drag_n", t->drag_n);
    print_centre(w, "centre_of_pressure", r->figures.centre_m, r->figures.root_chord_m);
    pl_json_number(w, "profile_drag_coefficient", t->profile_drag);
    pl_json_number(w, "plate_friction_coefficient", t->plate_friction);
    pl_json_bool(w, "separated", t->separated > 0);
    pl_json_number(w, "lift_coefficient_limited", t->lift_limited);
    pl_json_number(w, "force_n_limited", t->force_limited_n);
    pl_json_number(w, "drag_n_limited", t->drag_limited_n);
    print_centre(w, "centre_of_pressure_limited", t->centre_limited_m, r->figures.root_chord_m);
    if (!isnan(t->allowance))
        pl_json_number(w, "allowance", t->allowance);
}

static void print_json(const struct result *r, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    print_figures(&w, r);
    pl_json_list(&w, "warnings");
    for (size_t i = 0; i < r->totals.n_doubts; i++)
        pl_json_text(&w, NULL, r->totals.doubts[i]);
    pl_json_close(&w);
    pl_json_list(&w, "stations");
    for (size_t e = 0; e < r->part->n_elements; e++) {
        for (size_t i = r->n; i-- > 0;)
            if (r->strips[i].element == e)
                print_station(&w, r, i, -1);
        for (size_t i = 0; i < r->n; i++)
            if (r->strips[i].element == e)
                print_station(&w, r, i, 1);
    }
    pl_json_end(&w);
}

/* ---- words ---- */

static void put_row(struct pl_buffer *out, const char *what, double lattice, double limited, int decimals, const char *unit)
{
    char one[32] = "-", two[32] = "-";
    if (!isnan(lattice))
        pl_number_fixed(one, sizeof one, lattice, decimals);
    if (!isnan(limited))
        pl_number_fixed(two, sizeof two, limited, decimals);
    pl_buffer_printf(out, "%-24s %12s %12s %s\n", what, one, two, unit);
}

static void print_totals(const struct result *r, struct pl_buffer *out)
{
    const struct pl_wing_totals *t = &r->totals;
    pl_buffer_printf(out, "%-24s %12s %12s\n", "before the case's factor", "thin lattice", "limited");
    put_row(out, "downforce", t->force_n, t->force_limited_n, 1, "N");
    put_row(out, "drag", t->drag_n, t->drag_limited_n, 2, "N");
    put_row(out, "  induced", t->induced_drag_n, (double)NAN, 2, "N");
    put_row(out, "  of the sections", t->profile_drag_n, (double)NAN, 2, "N");
    if (t->plate_drag_n > 0)
        put_row(out, "  skin of the plates", t->plate_drag_n, (double)NAN, 2, "N");
    put_row(out, "downforce over drag", t->force_n / t->drag_n, t->force_limited_n / t->drag_limited_n, 1, "");
    put_row(out, "lift coefficient", r->figures.lift, t->lift_limited, 3, "");
    put_row(out, "acts behind the root's", 1e3 * r->figures.centre_m, 1e3 * t->centre_limited_m, 1, "mm");
    pl_buffer_text(out, "  leading edge\n");
    if (!isnan(t->allowance)) {
        char ratio[32];
        pl_number_fixed(ratio, sizeof ratio, t->allowance, 2);
        pl_buffer_printf(out, "Limited: with the sections' thickness and stall.  As a load, allowance %s says the same.\n", ratio);
    }
}

enum { BARS = 30, LINES = 16 };

/* Some strips of the right half, the load drawn as a bar. */
static void print_strips(const struct result *r, size_t element, struct pl_buffer *out)
{
    double most = 1e-9;
    size_t count = 0, n = 0;
    for (size_t i = 0; i < r->n; i++)
        if (r->strips[i].element == element) {
            most = fmax(most, fabs(r->strips[i].cl * r->strips[i].chord_m));
            count++;
        }
    pl_buffer_printf(out, "\n%s, right half\n    y mm       cl  limited      N/m       cd\n", r->part->elements[element].name);
    for (size_t i = 0; i < r->n; i++) {
        const struct pl_wing_strip *s = &r->strips[i];
        if (s->element != element || (n++ % (1 + count / LINES) && n != count))
            continue;
        char y[32], cl[32], limited[32], force[32], cd[32];
        pl_number_fixed(y, sizeof y, 1e3 * s->y_m, 0);
        pl_number_fixed(cl, sizeof cl, s->cl, 3);
        pl_number_fixed(limited, sizeof limited, r->rows[i].cl_limited, 3);
        pl_number_fixed(force, sizeof force, r->pressure_pa * s->chord_m * s->cl, 0);
        pl_number_fixed(cd, sizeof cd, r->rows[i].cd, 4);
        int bars = (int)lround(BARS * fabs(s->cl * s->chord_m) / most);
        pl_buffer_printf(out, "%8s %8s %8s %8s %8s%s %.*s\n", y, cl, limited, force, cd, r->rows[i].separated ? "s" : " ", bars,
                         "##############################");
    }
}

static void print_text(const struct result *r, struct pl_buffer *out)
{
    char speed[32], height[32];
    const struct pl_load_case *c = r->load_case;
    pl_number_fixed(speed, sizeof speed, 3.6 * c->speed_m_s, 0);
    pl_buffer_printf(out, "%s, %s: %s km/h, ", r->part->name, c->name, speed);
    if (pl_given(c->ride_height_m)) {
        pl_number_digits(height, sizeof height, 1e3 * c->ride_height_m, 4);
        pl_buffer_printf(out, "%s mm above the ground\n\n", height);
    } else {
        pl_buffer_text(out, "free air\n\n");
    }
    print_totals(r, out);
    for (size_t e = 0; e < r->part->n_elements; e++)
        print_strips(r, e, out);
    if (r->totals.separated)
        pl_buffer_text(out, "s: the layer leaves the section there: cd is only a floor\n");
    pl_buffer_text(out, r->totals.n_doubts ? "\n" : "");
    for (size_t i = 0; i < r->totals.n_doubts; i++)
        pl_buffer_printf(out, "note: %s\n", r->totals.doubts[i]);
    pl_buffer_text(out, pl_flow_caution);
}

/* ---- the command ---- */

/* Shape rules first: a wing in the ground, a plate that misses its tip. */
static enum pl_status work_out(struct pl_loaded *l, size_t load_case, struct pl_wing_sections *sections, struct pl_wing_air *air)
{
    enum pl_status status = sections && air ? pl_check_shape(l->solve, &l->part, &l->problems) : PL_NO_MEMORY;
    if (status == PL_OK)
        status = pl_wing_sections_all(sections, air, &l->part, &l->part.load_cases[load_case], &l->problems);
    return status;
}

static int report(struct pl_loaded *l, size_t load_case, const struct pl_wing_sections *sections, bool json)
{
    const struct pl_load_case *c = &l->part.load_cases[load_case];
    struct result r = {.part = &l->part, .load_case = c, .rows = pl_wing_sections_rows(sections),
                       .pressure_pa = pl_load_case_pressure_pa(c),
                       .figures = pl_wing_sections_figures(sections), .totals = pl_wing_sections_totals(sections)};
    r.strips = pl_wing_sections_strips(sections, &r.n);
    struct pl_buffer out = {0};
    if (json)
        print_json(&r, &out);
    else
        print_text(&r, &out);
    return pl_print_out(&out, PL_EXIT_HOLDS);
}

int pl_command_flow(int argc, char **argv)
{
    const char *path = NULL, *name = NULL;
    bool json = false;
    const struct pl_option options[] = {{"case", &name, NULL, true}, {"json", NULL, &json, false}};
    struct pl_loaded l;
    int status;
    if (!pl_options_read(argc, argv, options, 2, &path, &status))
        return status;
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    size_t load_case = pl_find_downforce(&l, name);
    struct pl_wing_sections *sections = pl_wing_sections_new();
    struct pl_wing_air *air = pl_wing_air_new();
    enum pl_status done = load_case == PL_NONE ? PL_BAD_INPUT : work_out(&l, load_case, sections, air);
    status = done == PL_OK ? report(&l, load_case, sections, json) : load_case == PL_NONE ? PL_EXIT_INPUT : pl_fail(&l, done);
    pl_wing_sections_free(sections);
    pl_wing_air_free(air);
    pl_unload(&l);
    return status;
}
