/* view_joints.c - the page Joints: what the wing puts on its mounts, as the chassis builder will ask. */
#include "view.h"

#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>

/* ---- rows: of the element shown, case by case, as given and then pinned ---- */

static bool shown(const struct pl_session *s, size_t i, const struct pl_case_result *c)
{
    return c->load_case->element == s->element && (s->load_case == PL_NONE || s->load_case == i);
}

static size_t rows_of(const struct pl_case_result *c)
{
    return c->n_reactions * (c->pinned_reactions ? 2 : 1);
}

size_t pl_reaction_rows(const struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    size_t n = 0;
    for (size_t i = 0; v && i < v->n_cases; i++)
        n += shown(s, i, &v->cases[i]) ? rows_of(&v->cases[i]) : 0;
    return n;
}

struct row { const struct pl_case_result *c; const struct pl_reaction *reaction; const struct pl_mount *mount; bool pinned; };

static bool row_at(const struct pl_session *s, size_t wanted, struct row *out)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    for (size_t i = 0; v && i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        size_t n = shown(s, i, c) ? rows_of(c) : 0;
        if (wanted >= n) {
            wanted -= n;
            continue;
        }
        bool pinned = wanted >= c->n_reactions;
        const struct pl_reaction *r = (pinned ? c->pinned_reactions : c->reactions) + wanted % c->n_reactions;
        *out = (struct row){c, r, &pl_session_part(s)->elements[c->load_case->element].mounts[r->mount], pinned};
        return true;
    }
    return false;
}

bool pl_reaction_words(const struct pl_session *s, size_t i, char *out, size_t size)
{
    struct row row;
    char numbers[5][32];
    if (!row_at(s, i, &row))
        return false;
    const double values[] = {row.reaction->z_n, row.reaction->x_n, row.reaction->about_x_nm, row.reaction->about_y_nm, row.reaction->about_z_nm};
    for (int k = 0; k < 5; k++)
        pl_number_fixed(numbers[k], sizeof numbers[k], values[k], k < 2 ? 0 : 1);
    snprintf(out, size, "%s, %s%s: %s N up, %s N aft, %s N m about x, %s about y, %s about z", row.mount->name, row.c->load_case->name, row.pinned ? ", pinned" : "",
             numbers[0], numbers[1], numbers[2], numbers[3], numbers[4]);
    return true;
}

/* ---- drawn ---- */

enum { NAME = 16, CASE = 20 };

static int name_width(int columns) { return columns < 60 ? 12 : NAME; }
static int case_width(int columns) { return columns < 60 ? 14 : CASE; }

static void put_headings(struct pl_frame *f, struct pl_region r)
{
    static const char *const headings[] = {"up N", "aft N", "x N m", "y N m", "z N m"};
    int column = r.column + 1;
    pl_frame_text(f, r.row, column, PL_ROLE_QUIET, "mount");
    column += name_width(r.columns) + 1;
    pl_frame_text(f, r.row, column, PL_ROLE_QUIET, "load case");
    column += case_width(r.columns);
    for (int k = 0; k < 5 && column + 9 < r.column + r.columns; k++, column += 8)
        pl_frame_text_right(f, r.row, column, 8, PL_ROLE_QUIET, headings[k]);
}

static void put_row(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct row *row, bool here)
{
    const double values[] = {row->reaction->z_n, row->reaction->x_n, row->reaction->about_x_nm, row->reaction->about_y_nm, row->reaction->about_z_nm};
    enum pl_role role = !s->valid ? PL_ROLE_QUIET : here ? PL_ROLE_TITLE : PL_ROLE_TEXT;
    char text[80];
    int column = r.column + 1;
    pl_frame_text_in(f, r.row, column, name_width(r.columns), role, row->mount->name);
    column += name_width(r.columns) + 1;
    if (row->pinned)
        pl_view_text_and_end(f, r.row, column, case_width(r.columns) - 1, role, row->c->load_case->name, " pinned");
    else
        pl_frame_text_in(f, r.row, column, case_width(r.columns) - 1, role, row->c->load_case->name);
    column += case_width(r.columns);
    for (int k = 0; k < 5 && column + 9 < r.column + r.columns; k++, column += 8) {
        pl_number_fixed(text, sizeof text, values[k], k < 2 ? 0 : 1);
        pl_frame_text_right(f, r.row, column, 8, role, text);
    }
}

static void put_reactions(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    size_t count = pl_reaction_rows(s), here = pl_block_cursor(s, 0).row;
    put_headings(f, pl_region_top(&r, 1));
    if (!count) {
        pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_QUIET, pl_session_verdict(s) ? "no load case loads this element" : "nothing has been judged");
        return;
    }
    size_t room = (size_t)(r.rows > 1 ? r.rows : 1), first = here >= room ? here - room + 1 : 0;
    for (size_t i = first; i < count && r.rows > 0; i++) {
        struct row row;
        if (row_at(s, i, &row))
            put_row(s, f, pl_region_top(&r, 1), &row, i == here);
    }
    if (first + room < count)
        pl_frame_glyph(f, r.row - 1, r.column, PL_ROLE_QUIET, PL_GLYPH_POINT_DOWN);
}

static const char explained[] = "What the wing puts on each mount, factored: up and aft, moments by the right hand about axes aft, right and up through the shear "
                                "centre there. Brackets, bonds and end plates are still to come, and not checked.";

void pl_view_joints(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_place_view place;
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    bool wide = f->columns >= 110 && f->rows >= 30;
    struct pl_region left = wide ? pl_region_left(&r, r.columns * 5 / 8) : r;
    int words = f->columns < 60 ? 0 : 3;
    struct pl_region list = pl_region_top(&left, left.rows - words);
    put_reactions(s, f, list);
    if (words)
        pl_view_wrapped(f, left, 1, PL_ROLE_QUIET, explained);
    if (!wide)
        return;
    struct pl_region line = pl_region_left(&r, 1);
    pl_frame_line(f, line.row, line.column, line.rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    if (pl_view_place(s, f, r, &place))
        pl_view_plan(s, f, pl_region_top(&r, r.rows / 3), &place);
    pl_view_moment(s, f, r);
}
