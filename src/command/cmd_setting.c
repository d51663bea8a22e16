/* cmd_setting.c - what the wing makes of the air as set otherwise, and how to set it so. */
#include "command.h"

#include "plyloft/driver.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- asking ---- */

enum { VALUES_MOST = 100 };

/* Values of one option, in the units of the file. */
struct values { double list[VALUES_MOST]; size_t n; };

struct quantity { const char *option, *noun; double least, most, factor; };

static const struct quantity quantities[PL_OVERS] = {
    [PL_OVER_SPEED] = {"speed", "km/h", 1, 1000, 1 / 3.6},
    [PL_OVER_HEIGHT] = {"height", "mm", 1, 100000, 1e-3},
    [PL_OVER_INCIDENCE] = {"incidence", "degrees", -90, 90, M_PI / 180},
};

static const char too_many[] = "takes at most 100 values";

static bool wrong(const struct quantity *q, const char *rule, int *status)
{
    fprintf(stderr, "plyloft setting: --%s: %s\n", q->option, rule);
    *status = PL_EXIT_USAGE;
    return false;
}

static bool add_value(const struct quantity *q, struct values *v, double value, int *status)
{
    char rule[96];
    if (!(value >= q->least && value <= q->most)) {
        snprintf(rule, sizeof rule, "must be from %g to %g %s", q->least, q->most, q->noun);
        return wrong(q, rule, status);
    }
    if (v->n == VALUES_MOST)
        return wrong(q, too_many, status);
    v->list[v->n++] = value;
    return true;
}

static const char syntax[] = "must be numbers with commas between, or rising ranges FROM..TO:STEP";

/* A number that is the whole text. */
static bool number_of(const char *text, double *out)
{
    const char *end;
    *out = pl_number_read(text, &end);
    return end != text && !*end && *out - *out == 0;
}

static bool add_range(const struct quantity *q, struct values *v, double from, double to, double step, int *status)
{
    if (!(step > 0) || !(to >= from))
        return wrong(q, syntax, status);
    double steps = floor((to - from) / step + 1e-9);
    if (steps >= VALUES_MOST)
        return wrong(q, too_many, status);
    for (int i = 0; i <= (int)steps; i++)
        if (!add_value(q, v, from + i * step, status))
            return false;
    return true;
}

/* "120", "2..6", or "80..140:20"; the step left out is 1, as in the contract's sweep. */
static bool read_item(const struct quantity *q, char *item, struct values *v, int *status)
{
    double from, to, step = 1;
    char *dots = strstr(item, ".."), *colon = dots ? strchr(dots, ':') : NULL;
    if (!dots)
        return number_of(item, &from) ? add_value(q, v, from, status) : wrong(q, syntax, status);
    *dots = '\0';
    if (colon)
        *colon = '\0';
    if (!number_of(item, &from) || !number_of(dots + 2, &to) || (colon && !number_of(colon + 1, &step)))
        return wrong(q, syntax, status);
    return add_range(q, v, from, to, step, status);
}

static bool read_values(const struct quantity *q, const char *text, struct values *v, int *status)
{
    char item[96];
    for (;;) {
        size_t n = strcspn(text, ",");
        if (n >= sizeof item)
            return wrong(q, syntax, status);
        memcpy(item, text, n);
        item[n] = '\0';
        if (!read_item(q, item, v, status))
            return false;
        if (!text[n])
            return true;
        text += n + 1;
    }
}

struct result {
    const struct pl_part *part;
    const struct pl_load_case *load_case;
    const struct pl_driver *driver;
    const struct pl_driver_row *rows;
    size_t n;
    struct values asked[PL_OVERS];
    struct pl_bracket_setting *sheet;  /* for each incidence asked, all brackets */
    size_t n_brackets;
};

static struct pl_setting setting_of(const struct result *r, size_t speed, size_t height, size_t incidence)
{
    struct pl_setting s = pl_setting_of(r->part, r->load_case);
    const struct values *v = r->asked;
    if (v[PL_OVER_SPEED].n)
        s.speed_m_s = v[PL_OVER_SPEED].list[speed] / 3.6;
    if (v[PL_OVER_HEIGHT].n)
        s.ride_height_m = 1e-3 * v[PL_OVER_HEIGHT].list[height];
    if (v[PL_OVER_INCIDENCE].n)
        s.incidence_rad = v[PL_OVER_INCIDENCE].list[incidence] * M_PI / 180;
    return s;
}

static size_t count_of(const struct values *v)
{
    return v->n ? v->n : 1;
}

/* ---- JSON ---- */

static void put_given(struct pl_json_writer *w, const char *key, double value)
{
    if (isnan(value))
        pl_json_null(w, key);
    else
        pl_json_number(w, key, value);
}

static void json_row(struct pl_json_writer *w, const struct result *r, const struct pl_driver_row *row)
{
    double chord_m = r->part->elements[r->load_case->element].stations[0].chord_m;
    pl_json_object(w, NULL);
    pl_json_number(w, "speed_kmh", 3.6 * row->at.speed_m_s);
    put_given(w, "ride_height_mm", 1e3 * row->at.ride_height_m);
    pl_json_number(w, "incidence_deg", row->at.incidence_rad * 180 / M_PI);
    put_given(w, "force_n_limited", row->force_n);
    put_given(w, "drag_n_limited", row->drag_n);
    put_given(w, "force_over_drag", row->force_n / row->drag_n);
    put_given(w, "centre_of_pressure_limited", row->centre_m / chord_m);
    put_given(w, "pitching_moment_nm", row->pitch_nm);
    if (r->part->car.given) {
        put_given(w, "front_axle_n", row->front_n);
        put_given(w, "rear_axle_n", row->rear_n);
    }
    put_given(w, "force_n", row->thin_force_n);
    put_given(w, "drag_n", row->thin_drag_n);
    pl_json_bool(w, "separated", row->separated > 0);
    pl_json_close(w);
}

static void json_bracket(struct pl_json_writer *w, const struct result *r, double incidence_rad, const struct pl_bracket_setting *b)
{
    pl_json_object(w, NULL);
    pl_json_number(w, "incidence_deg", incidence_rad * 180 / M_PI);
    pl_json_text(w, "element", r->part->elements[b->element].name);
    pl_json_text(w, "mount", b->name);
    pl_json_number(w, "y_mm", 1e3 * b->y_m);
    pl_json_number(w, "nose_mm", 1e3 * b->nose_m);
    pl_json_number(w, "tail_mm", 1e3 * b->tail_m);
    pl_json_number(w, "block_mm", 1e3 * b->block_m);
    pl_json_number(w, "shim_behind_mm_per_100_mm", 100 * b->shim_per_m);
    pl_json_close(w);
}

static void print_json(const struct result *r, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_list(&w, "rows");
    for (size_t i = 0; i < r->n; i++)
        json_row(&w, r, &r->rows[i]);
    pl_json_close(&w);
    pl_json_list(&w, "brackets");
    for (size_t i = 0; i < count_of(&r->asked[PL_OVER_INCIDENCE]) * r->n_brackets; i++)
        json_bracket(&w, r, setting_of(r, 0, 0, i / r->n_brackets).incidence_rad, &r->sheet[i]);
    pl_json_close(&w);
    pl_json_list(&w, "warnings");
    const char *doubt;
    for (size_t i = 0; (doubt = pl_driver_doubt(r->driver, i)); i++)
        pl_json_text(&w, NULL, doubt);
    pl_json_end(&w);
}

/* ---- words ---- */

static void put(struct pl_buffer *out, double value, int width, int decimals)
{
    char text[32] = "-";
    if (!isnan(value))
        pl_number_fixed(text, sizeof text, value, decimals);
    pl_buffer_printf(out, "%*s", width, text);
}

static void print_row(const struct result *r, const struct pl_driver_row *row, struct pl_buffer *out)
{
    put(out, 3.6 * row->at.speed_m_s, 7, 0);
    put(out, 1e3 * row->at.ride_height_m, 7, 0);
    put(out, row->at.incidence_rad * 180 / M_PI, 7, 1);
    put(out, row->force_n, 9, 1);
    put(out, row->drag_n, 8, 2);
    put(out, row->force_n / row->drag_n, 7, 1);
    put(out, 1e3 * row->centre_m, 8, 0);
    put(out, row->pitch_nm, 11, 1);
    if (r->part->car.given) {
        put(out, row->front_n, 9, 1);
        put(out, row->rear_n, 9, 1);
    }
    put(out, row->thin_force_n, 9, 1);
    pl_buffer_text(out, row->separated ? "  s\n" : "\n");
}

static void print_rows(const struct result *r, struct pl_buffer *out)
{
    bool car = r->part->car.given, separated = false;
    const char *doubt;
    pl_buffer_printf(out, "%s, before the case's factor\n", r->load_case->name);
    pl_buffer_printf(out, "%7s%7s%7s%9s%8s%7s%8s%11s%s%9s\n", "km/h", "mm", "deg", "down N", "drag N", "ratio", "aft mm", "pitch N m",
                     car ? "  front N   rear N" : "", "thin N");
    for (size_t i = 0; i < r->n; i++) {
        print_row(r, &r->rows[i], out);
        separated = separated || r->rows[i].separated;
    }
    pl_buffer_text(out, "mm: ride height.  aft: where the downforce acts behind the root's leading edge.\n"
                        "pitch: about the quarter of the root's chord, nose up.  thin: the lattice alone.\n");
    if (car)
        pl_buffer_text(out, "front, rear: load that either axle gains.\n");
    if (separated)
        pl_buffer_text(out, "s: the layer leaves some sections.\n");
    for (size_t i = 0; (doubt = pl_driver_doubt(r->driver, i)); i++)
        pl_buffer_printf(out, "%s.\n", doubt);
}

static void print_bracket(const struct result *r, double incidence_rad, const struct pl_bracket_setting *b, struct pl_buffer *out)
{
    put(out, incidence_rad * 180 / M_PI, 7, 1);
    put(out, 1e3 * b->y_m, 8, 0);
    put(out, 1e3 * b->nose_m, 9, 1);
    put(out, 1e3 * b->tail_m, 9, 1);
    put(out, fabs(1e3 * b->block_m), 9, 1);
    pl_buffer_printf(out, " %-5s", fabs(b->block_m) < 5e-5 ? "" : b->block_m > 0 ? "nose" : "tail");
    put(out, fabs(100 * b->shim_per_m), 8, 2);
    pl_buffer_printf(out, " %-7s", fabs(b->shim_per_m) < 5e-5 ? "" : b->shim_per_m > 0 ? "behind" : "ahead");
    pl_buffer_printf(out, "%s%s%s\n", r->part->n_elements > 1 ? r->part->elements[b->element].name : "", r->part->n_elements > 1 ? ", " : "", b->name);
}

static void print_sheet(const struct result *r, struct pl_buffer *out)
{
    bool ground = pl_given(r->load_case->ride_height_m) || r->asked[PL_OVER_HEIGHT].n;
    if (!r->n_brackets)
        return;
    pl_buffer_printf(out, "\nsetting sheet, heights over %s\n", ground ? "the ground" : "the lowest point of the root");
    pl_buffer_printf(out, "%7s%8s%9s%9s%9s %-5s%8s %-7s%s\n", "deg", "y mm", "nose mm", "tail mm", "block mm", "under", "per 100", "shim", "bracket");
    for (size_t i = 0; i < count_of(&r->asked[PL_OVER_INCIDENCE]) * r->n_brackets; i++)
        print_bracket(r, setting_of(r, 0, 0, i / r->n_brackets).incidence_rad, &r->sheet[i], out);
    pl_buffer_text(out, "block: under that end of a straight-edge laid from nose to tail, so that a level on it reads level.\n"
                        "shim: mm for each 100 mm between the bolts of the bracket, against the part as it is.\n");
    if (r->asked[PL_OVER_HEIGHT].n > 1)
        pl_buffer_printf(out, "Heights are those at a ride height of %g mm.\n", r->asked[PL_OVER_HEIGHT].list[0]);
}

/* ---- doing ---- */

static enum pl_status fill_sheet(struct result *r)
{
    size_t count = count_of(&r->asked[PL_OVER_INCIDENCE]);
    enum pl_status status = PL_OK;
    r->n_brackets = pl_brackets_count(r->part);
    r->sheet = calloc(count * r->n_brackets + 1, sizeof *r->sheet);
    if (!r->sheet)
        return PL_NO_MEMORY;
    for (size_t i = 0; i < count && status == PL_OK; i++) {
        struct pl_setting s = setting_of(r, 0, 0, i);
        status = pl_setting_sheet(r->part, r->load_case, &s, r->sheet + i * r->n_brackets);
    }
    return status;
}

static enum pl_status run(struct result *r, struct pl_driver *driver)
{
    static struct pl_setting settings[PL_DRIVER_ROWS];
    size_t n = 0;
    const struct values *v = r->asked;
    for (size_t i = 0; i < count_of(&v[PL_OVER_INCIDENCE]); i++)
        for (size_t h = 0; h < count_of(&v[PL_OVER_HEIGHT]); h++)
            for (size_t s = 0; s < count_of(&v[PL_OVER_SPEED]); s++)
                settings[n++] = setting_of(r, s, h, i);
    enum pl_status status = pl_driver_aim(driver, r->part, r->load_case, settings, n);
    while (status == PL_OK && pl_driver_step(driver))
        ;
    r->driver = driver;
    r->rows = pl_driver_rows(driver, &r->n);
    return status == PL_OK ? fill_sheet(r) : status;
}

/* None of the settings has an answer: why, and no table. */
static int say_none(const struct pl_loaded *l, const struct result *r)
{
    const char *doubt = pl_driver_doubt(r->driver, 0);
    for (size_t i = 0; i < r->n; i++)
        if (r->rows[i].answered)
            return PL_EXIT_HOLDS;
    fprintf(stderr, "%s: no setting has an answer: %s\n", l->path, doubt ? doubt : "the flow does not converge");
    return PL_EXIT_NO_ANSWER;
}

static int answer(struct pl_loaded *l, struct result *r, bool json)
{
    struct pl_driver *driver = pl_driver_new();
    struct pl_buffer out = {0};
    enum pl_status status = driver ? run(r, driver) : PL_NO_MEMORY;
    int exit_status = status == PL_OK ? say_none(l, r) : pl_fail(l, status);
    if (exit_status == PL_EXIT_HOLDS) {
        if (json) {
            print_json(r, &out);
        } else {
            print_rows(r, &out);
            print_sheet(r, &out);
            pl_buffer_text(&out, pl_flow_caution);
        }
        exit_status = pl_print_out(&out, PL_EXIT_HOLDS);
    }
    free(r->sheet);
    pl_driver_free(driver);
    return exit_status;
}

static bool read_asked(struct result *r, const char *texts[PL_OVERS], int *status)
{
    size_t n = 1;
    for (int i = 0; i < PL_OVERS; i++) {
        if (texts[i] && !read_values(&quantities[i], texts[i], &r->asked[i], status))
            return false;
        n *= count_of(&r->asked[i]);
    }
    if (n <= PL_DRIVER_ROWS)
        return true;
    fprintf(stderr, "plyloft setting: makes %zu rows; at most %d are worked out\n", n, PL_DRIVER_ROWS);
    *status = PL_EXIT_USAGE;
    return false;
}

int pl_command_setting(int argc, char **argv)
{
    const char *path = NULL, *name = NULL, *texts[PL_OVERS] = {NULL};
    bool json = false;
    int status;
    const struct pl_option options[] = {
        {"case", &name, NULL, true}, {"speed", &texts[PL_OVER_SPEED], NULL, false}, {"height", &texts[PL_OVER_HEIGHT], NULL, false},
        {"incidence", &texts[PL_OVER_INCIDENCE], NULL, false}, {"json", NULL, &json, false},
    };
    struct result r = {0};
    struct pl_loaded l = {0};
    if (!pl_options_read(argc, argv, options, sizeof options / sizeof *options, &path, &status) || !read_asked(&r, texts, &status))
        return status;
    if ((status = pl_load(&l, path)) != PL_EXIT_HOLDS)
        return status;
    size_t index = pl_find_downforce(&l, name);
    status = PL_EXIT_INPUT;
    if (index != PL_NONE) {
        r.part = &l.part;
        r.load_case = &l.part.load_cases[index];
        status = answer(&l, &r, json);
    }
    pl_unload(&l);
    return status;
}
