#include "view.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Plan of one half, the one the marker stands on: plies counted in every cell, so that each ply's edge shows as a
 * change of figure. */
struct plan {
    struct pl_session *s;
    struct pl_frame *f;
    struct pl_region r;       /* of the drawing alone */
    double semispan_m, side;  /* side: 1 right, -1 left */
    double x_from_m, x_to_m;
};

static char ply_mark(size_t plies)
{
    return plies < 10 ? (char)('0' + plies) : plies < 36 ? (char)('a' + plies - 10) : '*';
}

/* Against the thinnest place of the plan, so that a skin more does not change every colour. */
static enum pl_role ply_role(size_t plies, size_t least)
{
    return plies <= least ? PL_ROLE_CLOTH_A : plies <= least + 3 ? PL_ROLE_CLOTH_B : PL_ROLE_CLOTH_C;
}

static double y_of_column(const struct plan *p, int column)
{
    return p->side * p->semispan_m * (column + 0.5) / p->r.columns;
}

static int column_of_y(const struct plan *p, double y_m)
{
    double at = p->side * y_m / p->semispan_m * p->r.columns;
    return at < -1e-6 ? -1 : (int)fmin(p->r.columns - 1, at);
}

static void find_extent(struct plan *p, const struct pl_element *e)
{
    p->x_from_m = HUGE_VAL;
    p->x_to_m = -HUGE_VAL;
    for (size_t i = 0; i < e->n_stations; i++) {
        p->x_from_m = fmin(p->x_from_m, e->stations[i].x_le_m);
        p->x_to_m = fmax(p->x_to_m, e->stations[i].x_le_m + e->stations[i].chord_m);
    }
}

/* Plies over a cell; PL_NONE off the wing. */
static size_t plies_at(const struct plan *p, int column, int row)
{
    double y_m = y_of_column(p, column), x_le_m, chord_m;
    pl_solve_chord(p->s->solve, y_m, &x_le_m, &chord_m);
    double x_m = p->x_from_m + (row + 0.5) / p->r.rows * (p->x_to_m - p->x_from_m), fraction = (x_m - x_le_m) / chord_m;
    return fraction < 0 || fraction > 1 ? PL_NONE : pl_solve_plies_over(p->s->solve, y_m, p->s->side, fraction);
}

enum { FIGURE_EVERY = 8 };

static size_t least_plies(const struct plan *p)
{
    size_t least = PL_NONE;
    for (int row = 0; row < p->r.rows; row++)
        for (int column = 0; column < p->r.columns; column++) {
            size_t plies = plies_at(p, column, row);
            least = plies < least ? plies : least;
        }
    return least;
}

/* The figure stands where it changes and now and then between, so that edges catch the eye and an edit of a skin does
 * not write the whole plan anew. */
static void fill_cells(const struct plan *p)
{
    size_t least = least_plies(p);
    for (int row = 0; row < p->r.rows; row++) {
        size_t before = PL_NONE;
        for (int column = 0; column < p->r.columns; column++) {
            size_t plies = plies_at(p, column, row);
            char mark[] = {ply_mark(plies), '\0'};
            bool figure = plies != before || column % FIGURE_EVERY == 0;
            if (plies != PL_NONE)
                pl_frame_text(p->f, p->r.row + row, p->r.column + column, ply_role(plies, least), figure ? mark : "\u00b7");
            before = plies;
        }
    }
}

static void mark(const struct plan *p, double y_m, enum pl_glyph glyph)
{
    int column = column_of_y(p, y_m);
    if (column >= 0)
        pl_frame_glyph(p->f, p->r.row + p->r.rows, p->r.column + column, PL_ROLE_TITLE, glyph);
}

/* What stands or pushes, on the line below the plan: of the case shown, or of all. */
static void put_marks(const struct plan *p, const struct pl_part *part, const struct pl_element *e)
{
    for (size_t i = 0; i < part->n_load_cases; i++) {
        const struct pl_load_case *c = &part->load_cases[i];
        if (c->element != p->s->element || (p->s->load_case != PL_NONE && p->s->load_case != i))
            continue;
        for (size_t k = 0; c->kind == PL_JACKING && k < c->n_pads; k++)
            mark(p, c->pads[k].y_m, PL_GLYPH_DIAMOND);
        if (c->kind == PL_TIP_STRIKE || c->kind == PL_POINT_LOAD)
            mark(p, pl_given(c->y_m) ? c->y_m : p->semispan_m, PL_GLYPH_STRIKE);
    }
    for (size_t i = 0; i < e->n_mounts; i++)
        mark(p, e->mounts[i].y_m, PL_GLYPH_POINT_UP);
}

static void put_key(const struct plan *p, int row)
{
    int column = p->r.column;
    pl_frame_glyph(p->f, row, column, PL_ROLE_TITLE, PL_GLYPH_POINT_UP);
    column = pl_frame_text(p->f, row, column + 2, PL_ROLE_QUIET, "mount  ");
    pl_frame_glyph(p->f, row, column, PL_ROLE_TITLE, PL_GLYPH_DIAMOND);
    column = pl_frame_text(p->f, row, column + 2, PL_ROLE_QUIET, "pad  ");
    pl_frame_glyph(p->f, row, column, PL_ROLE_TITLE, PL_GLYPH_STRIKE);
    column = pl_frame_text(p->f, row, column + 2, PL_ROLE_QUIET, "push  ");
    if (p->r.columns >= 50)
        pl_frame_text(p->f, row, column, PL_ROLE_QUIET, "a is 10 plies");
    char tip[48];
    snprintf(tip, sizeof tip, "tip %.0f mm", 1e3 * p->semispan_m);
    pl_frame_text_right(p->f, row, p->r.column + p->r.columns - 14, 14, PL_ROLE_QUIET, tip);
}

void pl_view_plan(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place)
{
    const struct pl_part *part = pl_session_part(s);
    const struct pl_element *e = &part->elements[s->element];
    char words[64], title[160];
    (void)place;
    if (r.rows < 4 || r.columns < 20)
        return;
    int keys = r.rows >= 7;
    struct plan p = {s, f, {r.row + 1, r.column + 1, r.rows - 2 - keys, r.columns - 2}, pl_session_semispan_m(s),
                     s->marker_m < 0 ? -1 : 1, 0, 0};
    find_extent(&p, e);
    pl_marker_words(s, words, sizeof words);
    snprintf(title, sizeof title, "plies on the %s, %s half", s->side == PL_TOP ? "top" : "bottom",
             s->marker_m < 0 ? "left" : "right");
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 14, PL_ROLE_TITLE, title);
    pl_frame_text_right(f, r.row, r.column + r.columns - 13, 12, PL_ROLE_MARKER, words);
    fill_cells(&p);
    put_marks(&p, part, e);
    for (int i = 0; i < p.r.columns; i++)
        pl_frame_hit(f, p.r.row, p.r.column + i, p.r.rows + 1, 1, PL_DO_MARKER_AT, pl_marker_argument(y_of_column(&p, i)));
    int marker = column_of_y(&p, s->marker_m);
    if (marker >= 0)
        pl_frame_role(f, p.r.row, p.r.column + marker, p.r.rows, 1, PL_ROLE_MARKER);
    if (keys)
        put_key(&p, r.row + r.rows - 1);
}
