#include "view.h"

#include "plyloft/buffer.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Plan of one half, the one the marker stands on: regions of equal plies, shaded by their number, with the number where
 * a region begins if it has the room, and bounds where plies end. */
struct plan {
    struct pl_session *s;
    struct pl_frame *f;
    struct pl_region r;       /* of the drawing alone */
    double semispan_m, side;  /* side: 1 right, -1 left */
    double x_from_m, x_to_m;
    size_t least;             /* plies of the thinnest place */
    int weak_row, weak_column;  /* cell of the weakest place, -1 where it is not on this half and side */
};

/* Against the thinnest place of the plan, so that a skin more does not change every colour. */
static int ply_level(size_t plies, size_t least)
{
    return plies <= least ? 0 : plies <= least + 3 ? 1 : 2;
}

static const enum pl_role level_roles[] = {PL_ROLE_CLOTH_A, PL_ROLE_CLOTH_B, PL_ROLE_CLOTH_C};

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

/* Chord fraction under the middle of a cell. */
static double fraction_at(const struct plan *p, int column, int row)
{
    double x_le_m, chord_m;
    pl_solve_chord(p->s->solve, y_of_column(p, column), &x_le_m, &chord_m);
    return (p->x_from_m + (row + 0.5) / p->r.rows * (p->x_to_m - p->x_from_m) - x_le_m) / chord_m;
}

/* Plies over a cell; PL_NONE off the wing. */
static size_t plies_at(const struct plan *p, int column, int row)
{
    double fraction = fraction_at(p, column, row);
    if (row < 0 || column < 0 || fraction < 0 || fraction > 1)
        return PL_NONE;
    return pl_solve_plies_over(p->s->solve, y_of_column(p, column), p->s->side, fraction);
}

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

/* Cells of equal plies from there on, up to the mark of the weakest place. */
static int run_of(const struct plan *p, int row, int column, size_t plies)
{
    int n = 0;
    while (column + n < p->r.columns && plies_at(p, column + n, row) == plies
           && (row != p->weak_row || column + n != p->weak_column))
        n++;
    return n;
}

/* The figure of a region, where it begins, with a cell more between it and the next; its columns, 0 where there is no
 * room.  One figure a region: an edit of a skin, which changes every figure, does not write the whole plan anew. */
static int put_figure(const struct plan *p, int row, int column, size_t plies)
{
    char figure[24];
    int width = snprintf(figure, sizeof figure, "%zu", plies);
    if (plies_at(p, column, row - 1) == plies || run_of(p, row, column, plies) <= width)
        return 0;
    pl_frame_text(p->f, p->r.row + row, p->r.column + column, PL_ROLE_TEXT, figure);
    return width;
}

static void put_cell(const struct plan *p, int row, int column, size_t plies, bool bound)
{
    int level = ply_level(plies, p->least), at_row = p->r.row + row, at_column = p->r.column + column;
    if (bound)
        pl_frame_glyph(p->f, at_row, at_column, level_roles[level], PL_GLYPH_VERTICAL);
    else if (level)
        pl_frame_glyph(p->f, at_row, at_column, level_roles[level], level == 1 ? PL_GLYPH_SHADE_1 : PL_GLYPH_SHADE_2);
    else
        pl_frame_text(p->f, at_row, at_column, level_roles[level], "\u00b7");
}

static void fill_cells(const struct plan *p)
{
    for (int row = 0; row < p->r.rows; row++) {
        size_t before = PL_NONE;
        for (int column = 0; column < p->r.columns; column++) {
            size_t plies = plies_at(p, column, row);
            int figure = plies == PL_NONE || plies == before ? 0 : put_figure(p, row, column, plies);
            if (figure)
                column += figure - 1;
            else if (plies != PL_NONE)
                put_cell(p, row, column, plies, plies != before && before != PL_NONE);
            before = plies;
        }
    }
}

/* ---- the ply group in hand: where each of its plies ends ---- */

static bool group_in_hand(const struct pl_session *s, size_t *item)
{
    const struct pl_block *b = pl_block_here(s);
    if (!b || b->group != PL_GROUP_LAYUP)
        return false;
    *item = pl_block_cursor(s, b->of >= 0 ? b->of : s->blocks[s->page]).row;
    return s->valid && *item < pl_session_part(s)->elements[s->element].n_layup;
}

/* Cells in which the number of the group's plies changes, over its width. */
static void mark_ends(const struct plan *p, size_t item)
{
    const struct pl_layup_item *group = &pl_session_part(p->s)->elements[p->s->element].layup[item];
    enum pl_role role = p->s->held.on ? PL_ROLE_CHOSEN : PL_ROLE_TITLE;
    size_t before = pl_solve_item_plies(p->s->solve, y_of_column(p, 0), item);
    if (!pl_item_on_side(group, p->s->side))
        return;
    for (int column = 1; column <= p->r.columns; column++) {
        bool tip = column == p->r.columns;
        size_t plies = tip ? 0 : pl_solve_item_plies(p->s->solve, y_of_column(p, column), item);
        for (int row = 0; row < p->r.rows && plies != before; row++) {
            double x_le_m, chord_m, from, to, fraction = fraction_at(p, column - 1, row);
            pl_solve_chord(p->s->solve, y_of_column(p, column - 1), &x_le_m, &chord_m);
            pl_item_edges(group, chord_m, &from, &to, NULL);
            if (fraction >= from && fraction <= to)
                pl_frame_role(p->f, p->r.row + row, p->r.column + column - tip, 1, 1, role);
        }
        before = plies;
    }
}

/* ---- what stands, pushes and governs ---- */

static void put_marks(const struct plan *p)
{
    struct pl_mark marks[PL_MARKS_MOST];
    size_t n = pl_view_marks(p->s, marks);
    for (size_t i = 0; i < n; i++) {
        int column = column_of_y(p, marks[i].y_m);
        if (column >= 0)
            pl_frame_glyph(p->f, p->r.row + p->r.rows, p->r.column + column, PL_ROLE_TITLE, marks[i].glyph);
    }
}

/* The weakest place of the case shown, or of all, where this half and side has it. */
static void find_weakest(struct plan *p)
{
    const struct pl_case_result *c = pl_view_weakest_case(p->s);
    double x_le_m, chord_m;
    p->weak_row = p->weak_column = -1;
    if (!c || c->load_case->element != p->s->element || !pl_given(c->least.fraction) || p->side * c->least.y_m < 0)
        return;
    bool both = c->least.mode != PL_MODE_PLY && c->least.mode != PL_MODE_WRINKLING;
    if (!both && c->least.side != p->s->side)
        return;
    pl_solve_chord(p->s->solve, c->least.y_m, &x_le_m, &chord_m);
    double at = (x_le_m + c->least.fraction * chord_m - p->x_from_m) / (p->x_to_m - p->x_from_m) * p->r.rows;
    p->weak_row = (int)fmax(0, fmin(p->r.rows - 1, at));
    p->weak_column = column_of_y(p, c->least.y_m);
}

static void mark_weakest(const struct plan *p)
{
    if (p->weak_column >= 0)
        pl_frame_text(p->f, p->r.row + p->weak_row, p->r.column + p->weak_column, PL_ROLE_FAILS, "!");
}

static void put_key(const struct plan *p, int row)
{
    static const struct { enum pl_glyph glyph; const char *words; } signs[] = {
        {PL_GLYPH_POINT_UP, "mount  "}, {PL_GLYPH_DIAMOND, "pad  "}, {PL_GLYPH_STRIKE, "push  "},
    };
    char tip[48], mm[32];
    int column = p->r.column;
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++) {
        pl_frame_glyph(p->f, row, column, PL_ROLE_TITLE, signs[i].glyph);
        column = pl_frame_text(p->f, row, column + 2, PL_ROLE_QUIET, signs[i].words);
    }
    if (p->r.columns >= 48)
        pl_frame_text(p->f, row, column, PL_ROLE_QUIET, "! weakest");
    pl_number_digits(mm, sizeof mm, 1e3 * p->semispan_m, 6);
    snprintf(tip, sizeof tip, "tip %s mm", mm);
    pl_frame_text_right(p->f, row, p->r.column + p->r.columns - 14, 14, PL_ROLE_QUIET, tip);
}

void pl_view_plan(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_place_view *place)
{
    const struct pl_element *e = &pl_session_part(s)->elements[s->element];
    char words[64], title[160];
    size_t item;
    (void)place;
    if (r.rows < 4 || r.columns < 20)
        return;
    int keys = r.rows >= 7;
    struct plan p = {s, f, {r.row + 1, r.column + 1, r.rows - 2 - keys, r.columns - 2}, pl_session_semispan_m(s),
                     s->marker_m < 0 ? -1 : 1, 0, 0, 0, -1, -1};
    find_extent(&p, e);
    p.least = least_plies(&p);
    find_weakest(&p);
    pl_marker_words(s, words, sizeof words);
    snprintf(title, sizeof title, "plies on the %s, %s half", s->side == PL_TOP ? "top" : "bottom",
             s->marker_m < 0 ? "left" : "right");
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 14, PL_ROLE_TITLE, title);
    pl_frame_text_right(f, r.row, r.column + r.columns - 13, 12, PL_ROLE_MARKER, words);
    fill_cells(&p);
    put_marks(&p);
    for (int i = 0; i < p.r.columns; i++)
        pl_frame_hit(f, p.r.row, p.r.column + i, p.r.rows + 1, 1, PL_DO_MARKER_AT, pl_marker_argument(y_of_column(&p, i)));
    int marker = column_of_y(&p, s->marker_m);
    if (marker >= 0)
        pl_frame_role(f, p.r.row, p.r.column + marker, p.r.rows, 1, PL_ROLE_MARKER);
    if (group_in_hand(s, &item))
        mark_ends(&p, item);
    mark_weakest(&p);
    if (keys)
        put_key(&p, r.row + r.rows - 1);
}
