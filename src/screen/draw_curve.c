#include "view.h"

#include "verdict_words.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* What a curve shows: a value of every row, its unit and factor from SI. */
struct kind {
    const char *title, *unit;
    double factor;
    double (*value)(const struct pl_check_row *row);
};

static double reserve_of(const struct pl_check_row *row) { return row->reserve; }
static double moment_of(const struct pl_check_row *row) { return row->moment_nm; }
static double deflection_of(const struct pl_check_row *row) { return row->deflection_m; }
static double stress_of(const struct pl_check_row *row) { return fabs(row->stress_pa); }

static const struct kind kinds[PL_CURVES] = {
    [PL_CURVE_RESERVE] = {"reserve", "", 1, reserve_of},
    [PL_CURVE_MOMENT] = {"moment", "N m", 1, moment_of},
    [PL_CURVE_DEFLECTION] = {"deflected shape", "mm", 1e3, deflection_of},
    [PL_CURVE_STRESS] = {"stress at the weakest place", "MPa", 1e-6, stress_of},
};

static const double reserve_top = 4;

static bool shown(const struct pl_session *s, const struct pl_case_result *c, size_t i)
{
    return c->load_case->element == s->element && (s->load_case == PL_NONE || s->load_case == i);
}

static void find_range(const struct pl_session *s, const struct pl_verdict *v, const struct kind *kind, double *low, double *high)
{
    *low = *high = 0;
    for (size_t i = 0; i < v->n_cases; i++)
        for (size_t k = 0; shown(s, &v->cases[i], i) && k < v->cases[i].n_rows; k++) {
            double value = kind->factor * kind->value(&v->cases[i].rows[k]);
            *low = fmin(*low, value);
            *high = fmax(*high, value);
        }
    *low = pl_view_round_out(*low);
    *high = pl_view_round_out(*high);
    if (*high - *low < 1e-9)
        *high = *low + 1;
}

static void draw_case(const struct pl_canvas *c, const struct pl_case_result *r, const struct kind *kind, enum pl_role role)
{
    for (size_t k = 1; k < r->n_rows; k++)
        pl_canvas_line(c, r->rows[k - 1].y_m, kind->factor * kind->value(&r->rows[k - 1]), r->rows[k].y_m,
                       kind->factor * kind->value(&r->rows[k]), role);
}

/* What the stress at the weakest place may be: reserve times it, where that is on the sheet. */
static void draw_allowed(const struct pl_canvas *c, const struct pl_case_result *r)
{
    for (size_t k = 1; k < r->n_rows; k++) {
        const struct pl_check_row *a = &r->rows[k - 1], *b = &r->rows[k];
        if (a->mode == b->mode && b->reserve < PL_MOST_RESERVE && k % 2)
            pl_canvas_line(c, a->y_m, 1e-6 * fabs(a->stress_pa) * a->reserve, b->y_m, 1e-6 * fabs(b->stress_pa) * b->reserve,
                           PL_ROLE_LIMIT);
    }
}

/* How far the tip may move: the limit is compared with the movement by the case's factor. */
static void draw_tip_limit(const struct pl_canvas *c, const struct pl_load_case *load_case, double semispan_m)
{
    double limit_mm = 1e3 * load_case->tip_limit_m * load_case->factor;
    if (!pl_given(load_case->tip_limit_m))
        return;
    pl_canvas_dashed(c, -semispan_m, limit_mm, semispan_m, limit_mm, PL_ROLE_LIMIT);
    pl_canvas_dashed(c, -semispan_m, -limit_mm, semispan_m, -limit_mm, PL_ROLE_LIMIT);
}

/* A figure that gives way to the marks. */
static void put_where_free(struct pl_frame *f, int row, int column, const char *text)
{
    for (int i = 0; i < pl_text_columns(text); i++)
        if (column + i < 0 || column + i >= f->columns || f->cells[(size_t)row * (size_t)f->columns + (size_t)(column + i)].code != ' ')
            return;
    pl_frame_text(f, row, column, PL_ROLE_QUIET, text);
}

/* The row below a drawing: tips, what stands and pushes, the marker; and the drawing's columns as places for it. */
static void put_span(struct pl_session *s, struct pl_frame *f, const struct pl_canvas *c)
{
    struct pl_mark marks[PL_MARKS_MOST];
    double semispan_m = pl_session_semispan_m(s);
    int row = c->row + c->rows, at, column;
    char tip[32];
    size_t n = pl_view_marks(s, marks);
    for (size_t i = 0; i < n; i++)
        if (pl_canvas_cell(c, marks[i].y_m, c->y_from, &at, &column))
            pl_frame_glyph(f, row, column, PL_ROLE_QUIET, marks[i].glyph);
    if (pl_canvas_cell(c, s->marker_m, c->y_from, &at, &column))
        pl_frame_glyph(f, row, column, PL_ROLE_MARKER, PL_GLYPH_VERTICAL);
    pl_number_digits(tip, sizeof tip, 1e3 * semispan_m, 5);
    put_where_free(f, row, c->column + 2, tip);
    put_where_free(f, row, c->column + c->columns - 2 - pl_text_columns(tip), tip);
    for (int i = 0; i < c->columns; i++)
        pl_frame_hit(f, c->row, c->column + i, c->rows + 1, 1, PL_DO_MARKER_AT,
                     pl_marker_argument(semispan_m * (2 * (i + 0.5) / c->columns - 1)));
}

static void put_axis(struct pl_session *s, struct pl_frame *f, const struct pl_canvas *c, enum pl_curve curve)
{
    int decimals = c->y_to - c->y_from < 20 ? 1 : 0;
    pl_view_label(f, c, c->y_to, decimals);
    pl_view_label(f, c, c->y_from, decimals);
    if (curve == PL_CURVE_RESERVE)
        pl_view_label(f, c, 1, 1);
    else if (c->y_from < 0 && c->y_to > 0)
        pl_view_label(f, c, 0, 0);
    put_span(s, f, c);
}

static enum pl_role case_role(size_t load_case)
{
    static const enum pl_role roles[] = {PL_ROLE_TEXT, PL_ROLE_CLOTH_A, PL_ROLE_CLOTH_B, PL_ROLE_CLOTH_C};
    return roles[load_case % 4];
}

static size_t count_shown(const struct pl_session *s)
{
    const struct pl_part *part = pl_session_part(s);
    size_t n = 0;
    for (size_t i = 0; i < part->n_load_cases; i++)
        n += part->load_cases[i].element == s->element;
    return n;
}

enum { NAME_LEAST = 4 };

/* Which curve is whose: its letter and name, cut where there is little room, and left out where a stump would say
 * nothing. */
static void put_names(const struct pl_session *s, struct pl_frame *f, struct pl_region r, int column)
{
    const struct pl_part *part = pl_session_part(s);
    int left = (int)count_shown(s), end = r.column + r.columns - 7;
    bool letters = left && (end - column) / left - 1 < 2 + NAME_LEAST;
    for (size_t i = 0; i < part->n_load_cases; i++) {
        char name[200];
        if (part->load_cases[i].element != s->element)
            continue;
        snprintf(name, sizeof name, "%c%s%s", pl_view_case_letter(i), letters ? "" : " ", letters ? "" : part->load_cases[i].name);
        int room = (end - column) / left-- - 1;
        if (room < 1)
            return;
        column = pl_frame_text_in(f, r.row, column, room, case_role(i), name) + 1;
    }
}

/* The row where a curve says most: its lowest reserve, else its greatest value. */
static size_t telling_row(const struct pl_case_result *r, const struct kind *kind, bool reserve)
{
    size_t best = 0;
    for (size_t k = 1; k < r->n_rows; k++) {
        double value = kind->value(&r->rows[k]), most = kind->value(&r->rows[best]);
        if (reserve ? value < most : fabs(value) > fabs(most))
            best = k;
    }
    return best;
}

static bool is_letter(const struct pl_frame *f, int row, int column)
{
    const struct pl_cell *cell = &f->cells[(size_t)row * (size_t)f->columns + (size_t)column];
    return cell->code >= 'a' && cell->code <= 'z';
}

/* A letter on each curve where it says most, or beside another that stands there. */
static void put_letter(const struct pl_canvas *c, const struct pl_case_result *r, const struct kind *kind, bool reserve, size_t i)
{
    size_t best = telling_row(r, kind, reserve);
    char letter[] = {pl_view_case_letter(i), '\0'};
    int row, column;
    for (size_t k = 0; k < r->n_rows; k++) {
        size_t at = (best + k) % r->n_rows;
        if (!pl_canvas_cell(c, r->rows[at].y_m, kind->factor * kind->value(&r->rows[at]), &row, &column) || is_letter(c->frame, row, column))
            continue;
        pl_frame_text(c->frame, row, column, case_role(i), letter);
        return;
    }
}

static void put_title(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct kind *kind)
{
    const struct pl_part *part = pl_session_part(s);
    char title[240];
    snprintf(title, sizeof title, "%s%s%s", kind->title, kind->unit[0] ? ", " : "", kind->unit);
    if (s->load_case != PL_NONE)
        snprintf(title + strlen(title), sizeof title - strlen(title), ": %.120s", part->load_cases[s->load_case].name);
    int end = pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
    if (s->load_case == PL_NONE)
        put_names(s, f, r, end + 2);
    if (!s->valid)
        pl_frame_text_right(f, r.row, r.column + r.columns - 8, 7, PL_ROLE_WARNING, "(old)");
}

static void put_words_at_limit(struct pl_frame *f, const struct pl_canvas *c)
{
    int row, column;
    if (pl_canvas_cell(c, c->x_from, 1, &row, &column) && row + 1 < c->row + c->rows)
        pl_frame_text(f, row + 1, column + 1, PL_ROLE_LIMIT, "holds above 1");
}

void pl_view_curve(struct pl_session *s, struct pl_frame *f, struct pl_region r, enum pl_curve curve)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    const struct kind *kind = &kinds[curve];
    double low = 0, high = reserve_top, semispan_m = pl_session_semispan_m(s);
    if (!v || r.rows < 4 || r.columns < 24)
        return;
    put_title(s, f, r, kind);
    bool any = false;
    for (size_t i = 0; i < v->n_cases; i++)
        any = any || shown(s, &v->cases[i], i);
    if (!any) {
        pl_frame_text_in(f, r.row + 1, r.column + 2, r.columns - 3, PL_ROLE_WARNING, "no load case loads this element");
        return;
    }
    if (curve != PL_CURVE_RESERVE)
        find_range(s, v, kind, &low, &high);
    struct pl_canvas c = {f, r.row + 1, r.column + PL_LABEL_COLUMNS + 1, r.rows - 2, r.columns - PL_LABEL_COLUMNS - 2, -semispan_m, semispan_m, low, high};
    double base = curve == PL_CURVE_RESERVE ? 1 : 0;
    if (low <= base)
        pl_canvas_dashed(&c, -semispan_m, base, semispan_m, base, PL_ROLE_LIMIT);
    pl_canvas_dashed(&c, s->marker_m, low, s->marker_m, high, PL_ROLE_MARKER);
    for (size_t i = 0; i < v->n_cases; i++) {
        if (!shown(s, &v->cases[i], i))
            continue;
        draw_case(&c, &v->cases[i], kind, case_role(i));
        if (curve == PL_CURVE_STRESS && s->load_case == i)
            draw_allowed(&c, &v->cases[i]);
        if (curve == PL_CURVE_DEFLECTION && s->load_case == i)
            draw_tip_limit(&c, v->cases[i].load_case, semispan_m);
    }
    for (size_t i = 0; i < v->n_cases && s->load_case == PL_NONE; i++)
        if (shown(s, &v->cases[i], i))
            put_letter(&c, &v->cases[i], kind, curve == PL_CURVE_RESERVE, i);
    put_axis(s, f, &c, curve);
    if (curve == PL_CURVE_RESERVE && c.columns >= 40)
        put_words_at_limit(f, &c);
}

/* ---- the wall along the span ---- */

/* The thickest place of either side at as many places as there are dots; the greatest, in mm. */
static double wall_at_dots(struct pl_session *s, double semispan_m, int n, double *top_mm, double *bottom_mm)
{
    double most = 0;
    for (int i = 0; i < n; i++) {
        double y_m = semispan_m * (2 * (i + 0.5) / n - 1);
        top_mm[i] = 1e3 * pl_solve_wall_m(s->solve, y_m, PL_TOP);
        bottom_mm[i] = 1e3 * pl_solve_wall_m(s->solve, y_m, PL_BOTTOM);
        most = fmax(most, fmax(top_mm[i], bottom_mm[i]));
    }
    return most;
}

enum { DOTS_MOST = 512 };

void pl_view_wall_steps(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    double top_mm[DOTS_MOST], bottom_mm[DOTS_MOST], semispan_m = pl_session_semispan_m(s);
    struct pl_canvas c = {f, r.row + 1, r.column + PL_LABEL_COLUMNS + 1, r.rows - 2, r.columns - PL_LABEL_COLUMNS - 2, -semispan_m, semispan_m, 0, 1};
    struct pl_place_view place;
    if (r.rows < 4 || r.columns < 24 || 2 * c.columns > DOTS_MOST || !pl_view_place(s, f, r, &place))
        return;
    int n = 2 * c.columns;
    c.y_to = pl_view_round_out(wall_at_dots(s, semispan_m, n, top_mm, bottom_mm));
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, "thickest wall, mm: t top, b bottom");
    for (int i = 1; i < n; i++) {
        double y0 = semispan_m * (2 * (i - 0.5) / n - 1), y1 = semispan_m * (2 * (i + 0.5) / n - 1);
        pl_canvas_line(&c, y0, bottom_mm[i - 1], y1, bottom_mm[i], PL_ROLE_CLOTH_B);
        pl_canvas_line(&c, y0, top_mm[i - 1], y1, top_mm[i], PL_ROLE_CLOTH_C);
    }
    pl_canvas_dashed(&c, s->marker_m, 0, s->marker_m, c.y_to, PL_ROLE_MARKER);
    int row, column, quarter = n / 4, third = n / 3;
    if (pl_canvas_cell(&c, semispan_m * (2 * (quarter + 0.5) / n - 1), top_mm[quarter], &row, &column))
        pl_frame_text(f, row, column, PL_ROLE_CLOTH_C, "t");
    if (pl_canvas_cell(&c, semispan_m * (2 * (third + 0.5) / n - 1), bottom_mm[third], &row, &column))
        pl_frame_text(f, row, column, PL_ROLE_CLOTH_B, "b");
    pl_view_label(f, &c, c.y_to, 1);
    pl_view_label(f, &c, 0, 0);
    put_span(s, f, &c);
}

void pl_view_moment(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    if (r.rows >= 11) {
        int steps = r.rows * 2 / 5 < 5 ? 5 : r.rows * 2 / 5;
        pl_view_curve(s, f, pl_region_top(&r, r.rows - steps), PL_CURVE_MOMENT);
        pl_view_wall_steps(s, f, r);
    } else {
        pl_view_curve(s, f, r, PL_CURVE_MOMENT);
    }
}

/* ---- in words ---- */

static bool beyond(enum pl_curve curve, const struct pl_check_row *a, const struct pl_check_row *b)
{
    if (curve == PL_CURVE_RESERVE)
        return a->reserve < b->reserve;
    return fabs(kinds[curve].value(a)) > fabs(kinds[curve].value(b));
}

void pl_curve_words(const struct pl_session *s, char *out, size_t size)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    const struct kind *kind = &kinds[s->curve];
    const struct pl_check_row *most = NULL;
    const char *name = "";
    char number[48], place[48];
    for (size_t i = 0; v && i < v->n_cases; i++)
        for (size_t k = 0; shown(s, &v->cases[i], i) && k < v->cases[i].n_rows; k++)
            if (!most || beyond(s->curve, &v->cases[i].rows[k], most)) {
                most = &v->cases[i].rows[k];
                name = v->cases[i].load_case->name;
            }
    snprintf(out, size, "%s", kind->title);
    if (!most)
        return;
    if (s->curve == PL_CURVE_RESERVE)
        pl_reserve_words(most->reserve, number, sizeof number);
    else
        pl_number_digits(number, sizeof number, kind->factor * kind->value(most), 4);
    pl_place_with_unit(most->y_m, place, sizeof place);
    snprintf(out, size, "%s, %s %s%s%s, %s, %s", kind->title, s->curve == PL_CURVE_RESERVE ? "lowest" : "greatest", number,
             kind->unit[0] ? " " : "", kind->unit, place, name);
}
