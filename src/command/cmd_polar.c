#include "command.h"

#include "plyloft/polar.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ROWS_MOST = 2000 };

struct request { double reynolds, from, to, step, height; size_t count; };

/* ---- asking ---- */

static bool wrong(const char *rule, int *status)
{
    fprintf(stderr, "plyloft polar: %s\n", rule);
    *status = PL_EXIT_USAGE;
    return false;
}

static bool check_request(struct request *r, int *status)
{
    double steps = floor((r->to - r->from) / r->step + 1e-9);
    if (!(r->reynolds >= 1e4 && r->reynolds <= 1e9))
        return wrong("--reynolds: must be from 1e4 to 1e9", status);
    if (!(fabs(r->from) <= 90 && fabs(r->to) <= 90))
        return wrong("--from and --to: must be from -90 to 90 degrees", status);
    if (!(r->step > 0))
        return wrong("--step: must be above 0", status);
    if (steps < 0)
        return wrong("--to: must not be below --from", status);
    if (steps >= ROWS_MOST)
        return wrong("--step: makes more than 2000 rows", status);
    if (!isnan(r->height) && !(r->height > 0 && r->height <= 1e6))
        return wrong("--height: must be above 0, in chords", status);
    r->count = (size_t)steps + 1;
    return true;
}

/* ---- printing ---- */

static void print_json(const struct pl_polar_row *rows, size_t n, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_list(&w, "rows");
    for (size_t i = 0; i < n; i++) {
        const struct { const char *key; double value; } numbers[] = {
            {"alpha_deg", rows[i].alpha_deg}, {"cl", rows[i].cl}, {"cm", rows[i].cm}, {"cd", rows[i].cd},
            {"cl_potential", rows[i].cl_potential}, {"cm_potential", rows[i].cm_potential},
            {"turbulent_from_upper", rows[i].turbulent_from_upper}, {"turbulent_from_lower", rows[i].turbulent_from_lower},
        };
        pl_json_object(&w, NULL);
        for (size_t k = 0; k < sizeof numbers / sizeof *numbers; k++)
            pl_json_number(&w, numbers[k].key, numbers[k].value);
        pl_json_bool(&w, "separated", rows[i].separated);
        pl_json_close(&w);
    }
    pl_json_end(&w);
}

static void put(struct pl_buffer *out, double value, int width, int decimals)
{
    char text[32];
    pl_number_fixed(text, sizeof text, value, decimals);
    pl_buffer_printf(out, "%*s", width, text);
}

static void put_share(struct pl_buffer *out, double share)
{
    if (share < 1)
        put(out, share, 7, 2);
    else
        pl_buffer_printf(out, "%7s", "-");
}

static void print_row(const struct pl_polar_row *row, const struct request *r, bool greatest, bool used[256], struct pl_buffer *out)
{
    struct pl_polar_doubt doubts[PL_POLAR_DOUBTS];
    size_t n = pl_polar_doubts(row, r->reynolds, r->height, doubts);
    put(out, row->alpha_deg, 9, 2);
    put(out, row->cl, 9, 3);
    put(out, row->cl_potential, 10, 3);
    put(out, row->cm, 9, 3);
    put(out, row->cd, 10, 5);
    put_share(out, row->turbulent_from_upper);
    put_share(out, row->turbulent_from_lower);
    put_share(out, fmin(row->attached_upper, row->attached_lower));
    pl_buffer_text(out, n || greatest ? "  " : "");
    for (size_t i = 0; i < n; i++) {
        pl_buffer_printf(out, "%c", doubts[i].mark);
        used[(unsigned char)doubts[i].mark] = true;
    }
    pl_buffer_text(out, greatest ? "*\n" : "\n");
}

static void print_doubts(const struct pl_polar_row *rows, size_t n, const struct request *r, bool used[256], struct pl_buffer *out)
{
    struct pl_polar_doubt doubts[PL_POLAR_DOUBTS];
    for (size_t i = 0; i < n; i++)
        for (size_t k = pl_polar_doubts(&rows[i], r->reynolds, r->height, doubts); k-- > 0;) {
            if (used[(unsigned char)doubts[k].mark])
                pl_buffer_printf(out, "%c: %s\n", doubts[k].mark, doubts[k].sentence);
            used[(unsigned char)doubts[k].mark] = false;
        }
}

static void print_table(const char *name, const struct pl_polar_row *rows, const struct request *r, struct pl_buffer *out)
{
    char reynolds[32], height[32];
    bool used[256] = {false};
    size_t greatest = pl_polar_greatest(rows, r->count);
    pl_number_fixed(reynolds, sizeof reynolds, r->reynolds, 0);
    pl_buffer_printf(out, "%s, Reynolds number %s, ", name, reynolds);
    if (isnan(r->height)) {
        pl_buffer_text(out, "free air\n");
    } else {
        pl_number_digits(height, sizeof height, r->height, 4);
        pl_buffer_printf(out, "inverted, trailing edge %s chords above the ground; lift presses down\n", height);
    }
    pl_buffer_text(out, "incidence     lift potential   moment      drag  turbulent from  leaves  state\n"
                        "      deg       cl        cl       cm        cd  upper  lower      at\n");
    for (size_t i = 0; i < r->count; i++)
        print_row(&rows[i], r, i == greatest, used, out);
    if (greatest != PL_NONE)
        pl_buffer_text(out, "*: greatest lift\n");
    print_doubts(rows, r->count, r, used, out);
}

/* ---- the command ---- */

static enum pl_status work_out(struct pl_loaded *l, const struct pl_profile *profile, const struct request *r, struct pl_polar_row *rows)
{
    struct pl_polar *polar;
    enum pl_status status = pl_polar_start(&polar, profile, r->reynolds, r->height, PL_POLAR_PANELS, &l->problems);
    for (size_t i = 0; i < r->count && status == PL_OK; i++) {
        status = pl_polar_row(polar, r->from + (double)i * r->step, &rows[i], &l->problems);
        if (status != PL_OK)
            fprintf(stderr, "%s: at %.6g degrees: %s\n", l->path, r->from + (double)i * r->step,
                    l->problems.count ? l->problems.list[0].rule : "not enough memory");
    }
    if (polar)
        pl_problems_clear(&l->problems);  /* said, with the incidence it is about */
    pl_polar_free(polar);
    return status;
}

static int report(struct pl_loaded *l, const char *name, const struct request *r, bool json)
{
    size_t found = pl_find_named(l, PL_GROUP_PROFILE, name);
    if (found == PL_NONE)
        return PL_EXIT_INPUT;
    pl_check_profiles(&l->part, &l->problems);
    if (l->problems.errors)
        return pl_fail(l, PL_BAD_INPUT);
    struct pl_polar_row *rows = calloc(r->count, sizeof *rows);
    enum pl_status status = rows ? work_out(l, &l->part.profiles[found], r, rows) : PL_NO_MEMORY;
    if (status != PL_OK) {
        free(rows);
        return pl_fail(l, status);
    }
    struct pl_buffer out = {0};
    if (json)
        print_json(rows, r->count, &out);
    else
        print_table(name, rows, r, &out);
    free(rows);
    return pl_print_out(&out, PL_EXIT_HOLDS);
}

int pl_command_polar(int argc, char **argv)
{
    const char *path = NULL, *name = NULL, *reynolds = NULL, *from = NULL, *to = NULL, *step = NULL, *height = NULL;
    bool json = false;
    const struct pl_option options[] = {{"profile", &name, NULL, true}, {"reynolds", &reynolds, NULL, true}, {"from", &from, NULL, true},
                                        {"to", &to, NULL, true}, {"step", &step, NULL, true}, {"height", &height, NULL, false},
                                        {"json", NULL, &json, false}};
    struct request r = {.height = (double)NAN};
    struct pl_loaded l;
    int status;
    if (!pl_options_read(argc, argv, options, 7, &path, &status) || !pl_option_number("polar", "reynolds", reynolds, &r.reynolds, &status)
        || !pl_option_number("polar", "from", from, &r.from, &status) || !pl_option_number("polar", "to", to, &r.to, &status)
        || !pl_option_number("polar", "step", step, &r.step, &status)
        || (height && !pl_option_number("polar", "height", height, &r.height, &status)) || !check_request(&r, &status))
        return status;
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    status = report(&l, name, &r, json);
    pl_unload(&l);
    return status;
}
