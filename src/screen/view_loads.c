#include "view.h"

#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what each case does at the marker ---- */

static bool shown(const struct pl_session *s, const struct pl_case_result *c)
{
    return c->load_case->element == s->element;
}

int pl_view_marker_table_rows(const struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    int rows = 2;
    for (size_t i = 0; v && i < v->n_cases; i++)
        rows += shown(s, &v->cases[i]);
    return rows;
}

static void put_number(struct pl_frame *f, int row, int *column, int width, double value, int decimals, enum pl_role role)
{
    char text[48];
    pl_number_fixed(text, sizeof text, value, decimals);
    pl_frame_text_right(f, row, *column, width, role, text);
    *column += width + 1;
}

static void put_case(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_case_result *c, bool here)
{
    const struct pl_check_row *row = pl_case_row_at(c, s->marker_m);
    char reserve[32];
    int name = r.columns < 60 ? 14 : 20, column = r.column + 2 + name;
    pl_reserve_words(row->reserve, reserve, sizeof reserve);
    pl_frame_printf(f, r.row, r.column, PL_ROLE_QUIET, "%c", pl_view_case_letter((size_t)(c - pl_session_verdict(s)->cases)));
    pl_frame_text_in(f, r.row, r.column + 2, name, here ? PL_ROLE_TITLE : PL_ROLE_TEXT, c->load_case->name);
    pl_frame_text_right(f, r.row, column, 8, row->reserve < 1 ? PL_ROLE_FAILS : PL_ROLE_TEXT, reserve);
    column += 9;
    put_number(f, r.row, &column, 7, row->moment_nm, 1, PL_ROLE_TEXT);
    if (r.columns >= 60) {
        put_number(f, r.row, &column, 7, row->shear_n, 0, PL_ROLE_TEXT);
        put_number(f, r.row, &column, 7, row->torque_nm, 1, PL_ROLE_TEXT);
        put_number(f, r.row, &column, 7, 1e3 * row->deflection_m, 2, PL_ROLE_TEXT);
        put_number(f, r.row, &column, 6, row->twist_rad * 180 / M_PI, 2, PL_ROLE_TEXT);
    }
}

static void put_headings(struct pl_frame *f, int row, int column, bool all)
{
    static const struct { const char *words; int width; } headings[] = {
        {"reserve", 8}, {"M N m", 7}, {"V N", 7}, {"T N m", 7}, {"up mm", 7}, {"deg", 6},
    };
    for (size_t i = 0; i < (all ? sizeof headings / sizeof *headings : 2); i++) {
        pl_frame_text_right(f, row, column, headings[i].width, PL_ROLE_QUIET, headings[i].words);
        column += headings[i].width + 1;
    }
}

/* The first of the element's cases that is listed: the one in hand stands in the last row or above. */
static size_t first_listed(const struct pl_session *s, const struct pl_verdict *v, size_t room)
{
    size_t at = 0;
    if (s->load_case == PL_NONE || s->load_case >= v->n_cases)
        return 0;
    for (size_t i = 0; i < s->load_case; i++)
        at += shown(s, &v->cases[i]);
    return at >= room ? at - room + 1 : 0;
}

/* As many as fit, and a mark where there are more. */
static void put_cases(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_verdict *v)
{
    size_t room = (size_t)r.rows, first = first_listed(s, v, room), n = 0;
    for (size_t i = 0; i < v->n_cases; i++) {
        if (!shown(s, &v->cases[i]))
            continue;
        if (n >= first && n - first < room)
            put_case(s, f, (struct pl_region){r.row + (int)(n - first), r.column, 1, r.columns}, &v->cases[i], s->load_case == i);
        n++;
    }
    if (n > first + room)
        pl_frame_glyph(f, r.row + r.rows - 1, r.column + 1, PL_ROLE_QUIET, PL_GLYPH_POINT_DOWN);
}

void pl_view_marker_table(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    char place[64];
    if (!v || r.rows < 3)
        return;
    pl_marker_words(s, place, sizeof place);
    int name = r.columns < 60 ? 14 : 20, column = pl_frame_text(f, r.row, r.column + 1, PL_ROLE_MARKER, place);
    pl_frame_text_in(f, r.row, column + 1, r.columns - (column - r.column) - 2, PL_ROLE_TITLE, s->valid ? "what each case does there" : "(old figures)");
    column = r.column + 2 + name;
    put_headings(f, r.row + 1, column, r.columns >= 60);
    pl_region_top(&r, 2);
    put_cases(s, f, r, v);
}

/* ---- the handbook's strike table, beside the moving mass ---- */

static bool on_a_strike(const struct pl_session *s)
{
    char pointer[128];
    struct pl_cursor c = pl_block_cursor(s, 0);
    if (!pl_block_row(s, 0, c.row, pointer, sizeof pointer))
        return false;
    strncat(pointer, "/kind", sizeof pointer - strlen(pointer) - 1);
    pl_node node = pl_document_find(s->document, pointer);
    return node != PL_NO_NODE && !strcmp(pl_node_text(s->document, node), "tip-strike");
}

static int put_strikes(struct pl_frame *f, struct pl_region r)
{
    static const char *const lines[] = {
        "what strikes              mass kg  m/s",
        "cone, marker post         2-4      1-2",
        "turf, gravel edge         5-10     0.5-1.5",
        "kerb, car comes down      40-100   0.4-1.2",
        "wing dropped on floor     half it  2.4",
    };
    int n = (int)(sizeof lines / sizeof *lines);
    if (r.rows < n)
        return 0;
    for (int i = 0; i < n; i++)
        pl_frame_text_in(f, r.row + i, r.column + 1, r.columns - 2, i ? PL_ROLE_TEXT : PL_ROLE_TITLE, lines[i]);
    return n;
}

/* ---- the page ---- */

/* Under the fields: what each case does at the marker, then what is left for a drawing. */
static void put_below(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_place_view place;
    int wanted = pl_view_marker_table_rows(s);
    if (r.columns >= 60 && on_a_strike(s) && r.rows >= 6 + wanted)
        pl_region_top(&r, put_strikes(f, r));
    pl_view_marker_table(s, f, pl_region_top(&r, wanted));
    if (r.rows >= 6)
        pl_view_curve(s, f, r, PL_CURVE_MOMENT);
    else if (r.rows >= 4 && pl_view_place(s, f, r, &place))
        pl_view_plan(s, f, r, &place);
}

static void put_columns(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_place_view place;
    struct pl_region left = pl_region_left(&r, r.columns / 2), line = pl_region_left(&r, 1);
    pl_frame_line(f, line.row, line.column, line.rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    const struct pl_block *here = pl_block_here(s);
    if (!pl_block_is_drawn(here))
        pl_view_blocks(s, f, &left, left.rows >= 44 ? 12 : 0);
    if (here->kind == PL_SETTINGS)
        pl_view_settings(s, f, left);
    else if (here->kind == PL_AIR || left.rows >= 8)
        pl_view_flow(s, f, left);
    if (pl_view_place(s, f, r, &place))
        pl_view_plan(s, f, pl_region_top(&r, r.rows / 3), &place);
    pl_view_marker_table(s, f, pl_region_top(&r, pl_view_marker_table_rows(s) + 1));
    if (on_a_strike(s) && r.rows >= 14)
        pl_region_top(&r, put_strikes(f, r) + 1);
    pl_view_moment(s, f, r);
}

void pl_view_loads(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    if (f->columns >= 110 && f->rows >= 30) {
        put_columns(s, f, r);
        return;
    }
    if (pl_block_is_drawn(pl_block_here(s))) {
        (pl_block_here(s)->kind == PL_AIR ? pl_view_flow : pl_view_settings)(s, f, r);
        return;
    }
    int here = s->blocks[s->page], wanted = pl_view_block_rows(s, here), most = r.rows - (f->columns < 60 ? 6 : 7);
    pl_view_block(s, f, pl_region_top(&r, wanted < most ? wanted : most), here);
    pl_frame_line(f, pl_region_top(&r, 1).row, 0, f->columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    put_below(s, f, r);
}
