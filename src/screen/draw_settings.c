/* draw_settings.c - the wing as set otherwise: a table over speed, ride height or incidence, curves, and the setting sheet. */
#include "view.h"

#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct { const char *over, *heading; int decimals; } quantities[PL_OVERS] = {
    [PL_OVER_SPEED] = {"speed", "km/h", 0},
    [PL_OVER_HEIGHT] = {"ride height", "mm", 0},
    [PL_OVER_INCIDENCE] = {"incidence", "deg", 1},
};

static double value_of(const struct pl_setting *s, enum pl_over over)
{
    return over == PL_OVER_SPEED ? 3.6 * s->speed_m_s : over == PL_OVER_HEIGHT ? 1e3 * s->ride_height_m : s->incidence_rad * 180 / M_PI;
}

static void put(struct pl_frame *f, int row, int *column, int width, double value, int decimals, enum pl_role role)
{
    char text[32] = "-";
    if (!isnan(value))
        pl_number_fixed(text, sizeof text, value, decimals);
    pl_frame_text_right(f, row, *column, width, role, text);
    *column += width;
}

static void put_words(struct pl_frame *f, int row, int *column, int width, const char *words)
{
    pl_frame_text_right(f, row, *column, width, PL_ROLE_QUIET, words);
    *column += width;
}

static bool is_own(const struct pl_session *s, const struct pl_settings_view *v, const struct pl_setting *at)
{
    struct pl_setting own = pl_setting_of(pl_session_part(s), v->load_case);
    return own.speed_m_s == at->speed_m_s && own.incidence_rad == at->incidence_rad
           && (own.ride_height_m == at->ride_height_m || isnan(own.ride_height_m));
}

/* The setting whose sheet is asked for first. */
static size_t row_here(const struct pl_session *s)
{
    return pl_block_here(s)->kind == PL_SETTINGS ? pl_block_cursor(s, s->blocks[s->page]).row : 0;
}

/* ---- the table ---- */

static void put_headings(const struct pl_session *s, struct pl_frame *f, struct pl_region r, bool axles)
{
    int column = r.column;
    put_words(f, r.row, &column, 8, quantities[s->over].heading);
    put_words(f, r.row, &column, 9, "down N");
    put_words(f, r.row, &column, 8, "drag N");
    put_words(f, r.row, &column, 7, "ratio");
    if (r.columns >= 40)
        put_words(f, r.row, &column, 7, "aft mm");
    if (r.columns >= (axles ? 70 : 50))
        put_words(f, r.row, &column, 11, "pitch N m");
    if (axles) {
        put_words(f, r.row, &column, 9, "front N");
        put_words(f, r.row, &column, 9, "rear N");
    }
}

static void put_row(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_settings_view *v, size_t i, bool axles)
{
    const struct pl_driver_row *row = &v->rows[i];
    enum pl_role role = v->old ? PL_ROLE_QUIET : is_own(s, v, &row->at) ? PL_ROLE_TITLE : PL_ROLE_TEXT;
    if (i == row_here(s) && s->over == PL_OVER_INCIDENCE)
        pl_frame_glyph(f, r.row, r.column + 1, PL_ROLE_MARKER, PL_GLYPH_POINT_RIGHT);
    int column = r.column;
    put(f, r.row, &column, 8, value_of(&row->at, s->over), quantities[s->over].decimals, role);
    put(f, r.row, &column, 9, row->force_n, 0, role);
    put(f, r.row, &column, 8, row->drag_n, 1, role);
    put(f, r.row, &column, 7, row->force_n / row->drag_n, 1, role);
    if (r.columns >= 40)
        put(f, r.row, &column, 7, 1e3 * row->centre_m, 0, role);
    if (r.columns >= (axles ? 70 : 50))
        put(f, r.row, &column, 11, row->pitch_nm, 1, role);
    if (axles) {
        put(f, r.row, &column, 9, row->front_n, 0, role);
        put(f, r.row, &column, 9, row->rear_n, 0, role);
    }
    if (row->separated)
        pl_frame_text(f, r.row, column + 1, PL_ROLE_WARNING, "s");
}

static void put_table(const struct pl_session *s, struct pl_frame *f, struct pl_region *r, const struct pl_settings_view *v)
{
    bool axles = pl_session_part(s)->car.given && r->columns >= 58;
    put_headings(s, f, pl_region_top(r, 1), axles);
    for (size_t i = 0; i < v->n && r->rows > 0; i++)
        put_row(s, f, pl_region_top(r, 1), v, i, axles);
    if (v->n < v->wanted && r->rows > 0)
        pl_frame_text_in(f, pl_region_top(r, 1).row, r->column + 2, r->columns - 3, PL_ROLE_QUIET, "more being worked out");
}

/* ---- the setting sheet ---- */

enum { BRACKETS_MOST = 64 };

/* Stands as high as one before it: the other hand of a pair. */
static bool told_before(const struct pl_bracket_setting *rows, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (rows[k].element == rows[i].element && fabs(rows[k].nose_m - rows[i].nose_m) < 1e-7 && fabs(rows[k].tail_m - rows[i].tail_m) < 1e-7)
            return true;
    return false;
}

static void put_bracket(struct pl_frame *f, struct pl_region r, const struct pl_setting *at, const struct pl_bracket_setting *b, enum pl_role role)
{
    int column = r.column;
    put(f, r.row, &column, 8, at->incidence_rad * 180 / M_PI, 1, role);
    put(f, r.row, &column, 7, 1e3 * fabs(b->y_m), 0, role);
    put(f, r.row, &column, 9, 1e3 * b->nose_m, 1, role);
    put(f, r.row, &column, 9, 1e3 * b->tail_m, 1, role);
    if (r.columns < 56)
        return;
    put(f, r.row, &column, 8, fabs(1e3 * b->block_m), 1, role);
    column = pl_frame_text_in(f, r.row, column + 1, 5, role, b->block_m > 5e-5 ? "nose" : b->block_m < -5e-5 ? "tail" : "");
    column = r.column + 47;
    put(f, r.row, &column, 6, fabs(100 * b->shim_per_m), 2, role);
    pl_frame_text_in(f, r.row, column + 1, 7, role, b->shim_per_m > 5e-5 ? "behind" : b->shim_per_m < -5e-5 ? "ahead" : "");
}

static void put_sheet(const struct pl_session *s, struct pl_frame *f, struct pl_region *r, const struct pl_settings_view *v)
{
    const struct pl_part *part = pl_session_part(s);
    struct pl_bracket_setting rows[BRACKETS_MOST];
    size_t brackets = pl_brackets_count(part);
    if (!brackets || brackets > BRACKETS_MOST || r->rows < 3)
        return;
    bool ground = pl_given(v->load_case->ride_height_m);
    pl_frame_text_in(f, pl_region_top(r, 1).row, r->column + 1, r->columns - 2, PL_ROLE_TITLE,
                     ground ? "setting sheet: mm over the ground" : "setting sheet: mm over the root's lowest point");
    int row = pl_region_top(r, 1).row, column = r->column;
    put_words(f, row, &column, 8, "deg");
    put_words(f, row, &column, 7, "y");
    put_words(f, row, &column, 9, "nose");
    put_words(f, row, &column, 9, "tail");
    if (r->columns >= 56)
        pl_frame_text(f, row, column + 3, PL_ROLE_QUIET, "block under  shim a 100");
    /* From the one in hand on, where they do not all fit. */
    size_t first = v->n * brackets <= (size_t)r->rows ? 0 : row_here(s);
    for (size_t i = first; i < v->n; i++) {
        if (pl_setting_sheet(part, v->load_case, &v->rows[i].at, rows) != PL_OK)
            continue;
        for (size_t k = 0; k < brackets && r->rows > 0; k++)
            if (!told_before(rows, k))
                put_bracket(f, pl_region_top(r, 1), &v->rows[i].at, &rows[k], is_own(s, v, &v->rows[i].at) ? PL_ROLE_TITLE : PL_ROLE_TEXT);
    }
}

/* ---- curves ---- */

static void put_curve(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_settings_view *v, bool drag)
{
    double high = 1e-9, low = 0, from = value_of(&v->rows[0].at, s->over), to = value_of(&v->rows[v->n - 1].at, s->over);
    for (size_t i = 0; i < v->n; i++)
        if (v->rows[i].answered) {
            high = fmax(high, drag ? v->rows[i].drag_n : v->rows[i].force_n);
            low = fmin(low, drag ? v->rows[i].drag_n : v->rows[i].force_n);
        }
    char title[80], end[32];
    snprintf(title, sizeof title, "%s, N", drag ? "drag" : "downforce");
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, drag ? PL_ROLE_CLOTH_B : PL_ROLE_CLOTH_A, title);
    struct pl_canvas c = {f, r.row + 1, r.column + PL_LABEL_COLUMNS + 1, r.rows - 2, r.columns - PL_LABEL_COLUMNS - 3, from, to,
                          pl_view_round_out(low), pl_view_round_out(high)};
    const struct pl_setting as_it_is = pl_setting_of(pl_session_part(s), v->load_case);
    double own = value_of(&as_it_is, s->over);
    pl_canvas_dashed(&c, own, c.y_from, own, c.y_to, PL_ROLE_LINE);
    for (size_t i = 1; i < v->n; i++) {
        const struct pl_driver_row *a = &v->rows[i - 1], *b = &v->rows[i];
        if (a->answered && b->answered)
            pl_canvas_line(&c, value_of(&a->at, s->over), drag ? a->drag_n : a->force_n, value_of(&b->at, s->over), drag ? b->drag_n : b->force_n,
                           drag ? PL_ROLE_CLOTH_B : PL_ROLE_CLOTH_A);
    }
    pl_view_label(f, &c, c.y_to, c.y_to < 10);
    pl_view_label(f, &c, c.y_from, 0);
    pl_number_fixed(end, sizeof end, from, quantities[s->over].decimals);
    pl_frame_text_in(f, c.row + c.rows, c.column, c.columns, PL_ROLE_QUIET, end);
    pl_number_fixed(end, sizeof end, to, quantities[s->over].decimals);
    strcat(end, " ");
    strncat(end, quantities[s->over].heading, 8);
    pl_frame_text_right(f, c.row + c.rows, c.column + c.columns - 16, 16, PL_ROLE_QUIET, end);
}

static void put_curves(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_settings_view *v)
{
    if (v->n < 2 || r.rows < 5)
        return;
    if (r.columns >= 60)
        put_curve(s, f, pl_region_left(&r, r.columns / 2), v, false);
    put_curve(s, f, r, v, r.columns >= 30 && f->columns >= 60);
}

/* ---- all of it ---- */

static void title_of(const struct pl_session *s, const struct pl_settings_view *v, char *out, size_t size)
{
    snprintf(out, size, "over %s%s%s%s", quantities[s->over].over, v->load_case ? ": " : "", v->load_case ? v->load_case->name : "",
             v->old && v->n ? ", old" : "");
}

static const char *why_none(const struct pl_session *s, const struct pl_settings_view *v)
{
    if (!v->load_case)
        return "no downforce case: add one to set the wing otherwise";
    if (s->over == PL_OVER_HEIGHT && !pl_given(v->load_case->ride_height_m))
        return "the case has no ride height: free air";
    return v->n ? NULL : "being worked out";
}

void pl_view_settings(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_settings_view v = pl_settings_view(s);
    char title[200];
    if (r.rows < 3 || r.columns < 30)
        return;
    title_of(s, &v, title, sizeof title);
    pl_frame_text_in(f, pl_region_top(&r, 1).row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
    const char *why = why_none(s, &v);
    if (why)
        pl_frame_text_in(f, pl_region_top(&r, 1).row, r.column + 1, r.columns - 2, PL_ROLE_QUIET, why);
    if (!v.n)
        return;
    put_table(s, f, &r, &v);
    const char *doubt = v.old ? NULL : pl_driver_doubt(s->driver, 0);
    /* The sheet comes before a doubt: rows in doubt are marked in any case. */
    int spare = s->over == PL_OVER_INCIDENCE ? (int)v.n + 6 : 4;
    if (doubt && r.rows >= spare) {
        struct pl_region two = pl_region_top(&r, 2);
        pl_view_wrapped(f, (struct pl_region){two.row, two.column + 1, two.rows, two.columns - 1}, 0, PL_ROLE_WARNING, doubt);
    }
    if (s->over == PL_OVER_INCIDENCE) {
        pl_region_top(&r, r.rows > 10);
        put_sheet(s, f, &r, &v);
    }
    pl_region_top(&r, r.rows > 6);
    put_curves(s, f, r, &v);
}

/* ---- in words ---- */

size_t pl_settings_words(const struct pl_session *s, size_t i, char *out, size_t size)
{
    struct pl_settings_view v = pl_settings_view(s);
    char numbers[7][32];
    if (!i) {
        const char *why = why_none(s, &v);
        title_of(s, &v, out, size);
        if (why)
            snprintf(out + strlen(out), size - strlen(out), ", %s", why);
        return v.n + 1;
    }
    if (i > v.n)
        return v.n + 1;
    const struct pl_driver_row *row = &v.rows[i - 1];
    const double values[] = {value_of(&row->at, s->over), row->force_n, row->drag_n, row->force_n / row->drag_n, 1e3 * row->centre_m, row->front_n, row->rear_n};
    for (size_t k = 0; k < sizeof values / sizeof *values; k++)
        pl_number_fixed(numbers[k], sizeof numbers[k], values[k], k == 0 ? quantities[s->over].decimals : k == 2 || k == 3);
    if (!row->answered)
        snprintf(out, size, "%s %s: no answer", numbers[0], quantities[s->over].heading);
    else
        snprintf(out, size, "%s %s: downforce %s N, drag %s N, %s to one, acts %s mm aft%s%s%s%s%s", numbers[0], quantities[s->over].heading, numbers[1],
                 numbers[2], numbers[3], numbers[4], isnan(row->front_n) ? "" : ", front axle ", isnan(row->front_n) ? "" : numbers[5],
                 isnan(row->front_n) ? "" : " N, rear ", isnan(row->front_n) ? "" : numbers[6], isnan(row->front_n) ? "" : " N");
    return v.n + 1;
}
