/* draw_air.c - pressure round the section at the marker, and its lift and drag over the incidence. */
#include "view.h"

#include "plyloft/buffer.h"
#include "plyloft/section_air.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static struct pl_canvas canvas_in(struct pl_frame *f, struct pl_region r, double x_from, double x_to, double y_from, double y_to)
{
    return (struct pl_canvas){f, r.row + 1, r.column + PL_LABEL_COLUMNS + 1, r.rows - 2, r.columns - PL_LABEL_COLUMNS - 2, x_from, x_to, y_from, y_to};
}

/* Why there is nothing to draw yet. */
static bool is_waiting(struct pl_frame *f, struct pl_region r, const struct pl_section_air_view *v, bool there)
{
    if (there)
        return false;
    pl_frame_text_in(f, r.row + 1, r.column + 2, r.columns - 3, v->failed ? PL_ROLE_WARNING : PL_ROLE_QUIET,
                     v->failed ? v->failed : "being worked out");
    return true;
}

/* ---- pressure ---- */

static void draw_pressures(const struct pl_canvas *c, const struct pl_section_air_view *v, bool limited, enum pl_role role)
{
    for (size_t i = 1; i < v->n_pressures; i++) {
        const struct pl_polar_pressure *a = &v->pressures[i - 1], *b = &v->pressures[i];
        pl_canvas_line(c, a->x, limited ? a->limited : a->potential, b->x, limited ? b->limited : b->potential, role);
    }
}

void pl_view_pressure(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_section_air_view v = pl_section_air_view(s->air);
    char title[200], alpha[32], reynolds[32];
    double lowest = -1;
    if (r.rows < 5 || r.columns < 30)
        return;
    pl_number_fixed(alpha, sizeof alpha, v.own_alpha_deg, 1);
    pl_number_fixed(reynolds, sizeof reynolds, v.reynolds, 0);
    snprintf(title, sizeof title, "pressure, section alone at %s deg, Re %s", alpha, reynolds);
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, v.own ? title : "pressure round the section");
    if (is_waiting(f, r, &v, v.own && v.n_pressures))
        return;
    for (size_t i = 0; i < v.n_pressures; i++)
        lowest = fmin(lowest, fmin(v.pressures[i].limited, v.pressures[i].potential));
    struct pl_canvas c = canvas_in(f, r, 0, 1, 1, pl_view_round_out(lowest));  /* suction upward */
    pl_canvas_dashed(&c, 0, 0, 1, 0, PL_ROLE_LINE);
    draw_pressures(&c, &v, false, PL_ROLE_LINE);
    draw_pressures(&c, &v, true, PL_ROLE_CLOTH_A);
    pl_view_label(f, &c, c.y_to, 1);
    pl_view_label(f, &c, 0, 0);
    pl_view_label(f, &c, 1, 0);
    pl_frame_text(f, c.row + c.rows, c.column, PL_ROLE_QUIET, "nose");
    pl_frame_text_right(f, c.row + c.rows, c.column + c.columns - 6, 6, PL_ROLE_QUIET, "tail");
    pl_frame_text_in(f, c.row + c.rows, c.column + 6, c.columns - 13, PL_ROLE_QUIET, "suction upward; dim: without boundary layers");
}

/* ---- lift and drag ---- */

static double lift_of(const struct pl_polar_row *row) { return row->cl; }
static double potential_of(const struct pl_polar_row *row) { return row->cl_potential; }
static double drag_of(const struct pl_polar_row *row) { return row->cd; }

static void draw_rows(const struct pl_canvas *c, const struct pl_section_air_view *v, double (*value)(const struct pl_polar_row *),
                      enum pl_role role)
{
    for (size_t i = 1; i < v->n_rows; i++)
        pl_canvas_line(c, v->rows[i - 1].alpha_deg, value(&v->rows[i - 1]), v->rows[i].alpha_deg, value(&v->rows[i]), role);
}

static void put_incidences(struct pl_frame *f, const struct pl_canvas *c, double own_deg)
{
    char text[32];
    int row, column;
    pl_number_fixed(text, sizeof text, c->x_from, 0);
    pl_frame_text(f, c->row + c->rows, c->column, PL_ROLE_QUIET, text);
    pl_number_fixed(text, sizeof text, c->x_to, 0);
    pl_frame_text_right(f, c->row + c->rows, c->column + c->columns - 10, 10, PL_ROLE_QUIET, text);
    if (pl_canvas_cell(c, own_deg, c->y_from, &row, &column))
        pl_frame_glyph(f, c->row + c->rows, column, PL_ROLE_MARKER, PL_GLYPH_POINT_UP);
    pl_canvas_dashed(c, own_deg, c->y_from, own_deg, c->y_to, PL_ROLE_MARKER);
}

static void put_greatest(struct pl_frame *f, const struct pl_canvas *c, const struct pl_section_air_view *v)
{
    size_t best = pl_polar_greatest(v->rows, v->n_rows);
    char lift[32], alpha[32], words[80];
    int row, column;
    if (best == PL_NONE || !pl_canvas_cell(c, v->rows[best].alpha_deg, v->rows[best].cl, &row, &column))
        return;
    pl_number_fixed(lift, sizeof lift, v->rows[best].cl, 2);
    pl_number_fixed(alpha, sizeof alpha, v->rows[best].alpha_deg, 0);
    snprintf(words, sizeof words, "greatest %s at %s", lift, alpha);
    int at = column - pl_text_columns(words) - 1;
    pl_frame_text(f, row, column, PL_ROLE_TITLE, "!");
    pl_frame_text(f, row, at > c->column ? at : column + 2, PL_ROLE_QUIET, words);
}

static void put_doubt(struct pl_frame *f, struct pl_region r, const struct pl_section_air_view *v)
{
    struct pl_polar_doubt doubts[PL_POLAR_DOUBTS];
    if (v->own && pl_polar_doubts(v->own, v->reynolds, (double)NAN, doubts))
        pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_WARNING, doubts[0].sentence);
    else if (v->usual_speed)
        pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_QUIET, "no downforce case says a speed: 40 m/s is taken");
}

static void view_rows(struct pl_frame *f, struct pl_region r, const struct pl_section_air_view *v, bool drag)
{
    double low = 0, high = 0.01;
    char title[200], one[32], two[32];
    for (size_t i = 0; i < v->n_rows; i++) {
        double value = drag ? v->rows[i].cd : v->rows[i].cl;
        low = fmin(low, value);
        high = fmax(high, value);
    }
    pl_number_fixed(one, sizeof one, drag ? v->own->cd : v->own->cl, drag ? 4 : 2);
    pl_number_fixed(two, sizeof two, v->own->cl_potential, 2);
    if (drag)
        snprintf(title, sizeof title, "drag, here %s", one);
    else
        snprintf(title, sizeof title, "lift over incidence, here %s (%s without boundary layers)", one, two);
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, title);
    struct pl_canvas c = canvas_in(f, r, v->rows[0].alpha_deg, v->rows[v->n_rows - 1].alpha_deg, pl_view_round_out(low), pl_view_round_out(high));
    if (drag)
        c.y_to = fmin(c.y_to, 0.05);  /* beyond, it is a floor in any case */
    pl_canvas_dashed(&c, c.x_from, 0, c.x_to, 0, PL_ROLE_LINE);
    if (!drag)
        draw_rows(&c, v, potential_of, PL_ROLE_LINE);
    draw_rows(&c, v, drag ? drag_of : lift_of, PL_ROLE_CLOTH_A);
    pl_view_label(f, &c, c.y_to, drag ? 3 : 1);
    pl_view_label(f, &c, c.y_from, drag ? 3 : 1);
    if (!drag)
        put_greatest(f, &c, v);
    put_incidences(f, &c, v->own_alpha_deg);
}

void pl_view_lift_and_drag(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_section_air_view v = pl_section_air_view(s->air);
    if (r.rows < 6 || r.columns < 30)
        return;
    if (v.n_rows < PL_AIR_ROWS || !v.own) {
        pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, "lift and drag over incidence");
        is_waiting(f, r, &v, false);
        return;
    }
    struct pl_region last = {r.row + r.rows - 1, r.column, 1, r.columns};
    r.rows--;
    put_doubt(f, last, &v);
    if (r.rows >= 11)
        view_rows(f, pl_region_top(&r, r.rows * 3 / 5), &v, false);
    else if (r.columns >= 76)
        view_rows(f, pl_region_left(&r, r.columns / 2), &v, false);
    else {
        view_rows(f, r, &v, false);
        return;
    }
    view_rows(f, r, &v, true);
}
