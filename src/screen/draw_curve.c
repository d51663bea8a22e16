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
    [PL_CURVE_DEFLECTION] = {"deflection", "mm", 1e3, deflection_of},
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

enum { LABEL = 7 };

static void put_label(struct pl_frame *f, const struct pl_canvas *c, double value, int decimals)
{
    char text[32];
    int row, column;
    pl_number_fixed(text, sizeof text, value, decimals);
    if (pl_canvas_cell(c, c->x_from, value, &row, &column))
        pl_frame_text_right(f, row, c->column - LABEL, LABEL - 1, PL_ROLE_QUIET, text);
}

static void put_axis(struct pl_session *s, struct pl_frame *f, const struct pl_canvas *c, enum pl_curve curve)
{
    double semispan_m = pl_session_semispan_m(s);
    int decimals = c->y_to - c->y_from < 20 ? 1 : 0, row = c->row + c->rows;
    char tip[32];
    put_label(f, c, c->y_to, decimals);
    put_label(f, c, c->y_from, decimals);
    if (curve == PL_CURVE_RESERVE)
        put_label(f, c, 1, 1);
    else if (c->y_from < 0 && c->y_to > 0)
        put_label(f, c, 0, 0);
    pl_number_digits(tip, sizeof tip, 1e3 * semispan_m, 5);
    pl_frame_text(f, row, c->column, PL_ROLE_QUIET, tip);
    pl_frame_text_right(f, row, c->column + c->columns - 10, 10, PL_ROLE_QUIET, tip);
    int at, column;
    if (pl_canvas_cell(c, s->marker_m, c->y_from, &at, &column))
        pl_frame_glyph(f, row, column, PL_ROLE_MARKER, PL_GLYPH_POINT_UP);
    const struct pl_element *e = &pl_session_part(s)->elements[s->element];
    for (size_t i = 0; i < e->n_mounts; i++)
        if (pl_canvas_cell(c, e->mounts[i].y_m, c->y_from, &at, &column))
            pl_frame_text(f, row, column, PL_ROLE_QUIET, "m");
}

static enum pl_role case_role(size_t load_case)
{
    static const enum pl_role roles[] = {PL_ROLE_TEXT, PL_ROLE_CLOTH_A, PL_ROLE_CLOTH_B, PL_ROLE_CLOTH_C};
    return roles[load_case % 4];
}

/* Which curve is whose, in its own colour, as many as fit. */
static void put_names(const struct pl_session *s, struct pl_frame *f, struct pl_region r, int column)
{
    const struct pl_part *part = pl_session_part(s);
    for (size_t i = 0; i < part->n_load_cases; i++) {
        const char *name = part->load_cases[i].name;
        int width = pl_text_columns(name);
        if (part->load_cases[i].element != s->element || column + width >= r.column + r.columns - 8)
            continue;
        column = pl_frame_text(f, r.row, column, case_role(i), name) + 2;
    }
}

static void put_title(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct kind *kind)
{
    const struct pl_part *part = pl_session_part(s);
    char title[240];
    snprintf(title, sizeof title, "%s%s%s along the span, %s", kind->title, kind->unit[0] ? ", " : "", kind->unit,
             s->load_case == PL_NONE ? "all cases" : part->load_cases[s->load_case].name);
    int end = pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
    if (s->load_case == PL_NONE)
        put_names(s, f, r, end + 2);
    if (!s->valid)
        pl_frame_text_right(f, r.row, r.column + r.columns - 8, 7, PL_ROLE_WARNING, "(old)");
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
    struct pl_canvas c = {f, r.row + 1, r.column + LABEL + 1, r.rows - 2, r.columns - LABEL - 2, -semispan_m, semispan_m, low, high};
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
    }
    put_axis(s, f, &c, curve);
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
