#include "view.h"

#include "verdict_words.h"

#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- the list of load cases ---- */

static void put_case(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_case_result *c, bool here)
{
    char reserve[32], where[256], tip[48], how[64];
    int name = r.columns < 60 ? 14 : 20, column = r.column + 2 + name;
    pl_reserve_words(c->least.reserve, reserve, sizeof reserve);
    pl_lowest_words(&c->least, where, sizeof where);
    pl_number_fixed(tip, sizeof tip, 1e3 * fabs(c->tip_most_m), 1);
    snprintf(how, sizeof how, "pad %d carries more", c->least_variant + 1);
    if (here)
        pl_frame_glyph(f, r.row, r.column, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
    else
        pl_frame_printf(f, r.row, r.column, PL_ROLE_QUIET, "%c", pl_view_case_letter((size_t)(c - pl_session_verdict(s)->cases)));
    pl_frame_text_in(f, r.row, r.column + 2, name, here ? PL_ROLE_TITLE : PL_ROLE_TEXT, c->load_case->name);
    pl_frame_text_right(f, r.row, column, 7, c->least.reserve < 1 ? PL_ROLE_FAILS : PL_ROLE_TEXT, reserve);
    column += 8;
    if (r.columns >= 60) {
        pl_frame_text_right(f, r.row, r.column + r.columns - 13, 9, PL_ROLE_TEXT, tip);
        pl_frame_text(f, r.row, r.column + r.columns - 3, PL_ROLE_QUIET, "mm");
    }
    int width = r.column + r.columns - (r.columns >= 60 ? 14 : 1) - column;
    int end = pl_view_text_and_end(f, r.row, column, width, PL_ROLE_TEXT, where, c->least_pinned ? pl_pinned_end : "");
    if (c->least_variant >= 0 && width - (end - column) > 12)
        pl_frame_text_in(f, r.row, end + 2, width - (end - column) - 2, PL_ROLE_QUIET, how);
}

static void put_all(struct pl_session *s, struct pl_frame *f, struct pl_region r, bool here)
{
    if (here)
        pl_frame_glyph(f, r.row, r.column, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
    pl_frame_text_in(f, r.row, r.column + 2, r.columns - 3, here ? PL_ROLE_TITLE : PL_ROLE_TEXT, "all load cases");
    if (r.columns >= 60)
        pl_frame_text_right(f, r.row, r.column + r.columns - 32, 31, PL_ROLE_QUIET, "greatest tip movement by factor");
    (void)s;
}

static void put_cases(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    size_t room = (size_t)r.rows, first = s->case_row >= room ? s->case_row - room + 1 : 0;
    for (size_t i = 0; i < room && first + i <= v->n_cases; i++) {
        size_t row = first + i;
        struct pl_region at = {r.row + (int)i, r.column, 1, r.columns};
        pl_frame_hit(f, at.row, at.column, 1, at.columns, PL_DO_CHOOSE_CASE, (int)row);
        if (row)
            put_case(s, f, at, &v->cases[row - 1], row == s->case_row);
        else
            put_all(s, f, at, row == s->case_row);
    }
    if (room && first + room <= v->n_cases)
        pl_frame_glyph(f, r.row + r.rows - 1, r.column + 1, PL_ROLE_QUIET, PL_GLYPH_POINT_DOWN);  /* more below */
}

/* ---- what stands at the marker ---- */

/* "moment 127.4 N m, shear 2123 N, ..." */
static void figures_words(const struct pl_check_row *row, char *out, size_t size)
{
    char moment[32], shear[32], torque[32], deflection[32], twist[32];
    pl_number_fixed(moment, sizeof moment, row->moment_nm, 1);
    pl_number_fixed(shear, sizeof shear, row->shear_n, 0);
    pl_number_fixed(torque, sizeof torque, row->torque_nm, 1);
    pl_number_fixed(deflection, sizeof deflection, 1e3 * row->deflection_m, 2);
    pl_number_fixed(twist, sizeof twist, row->twist_rad * 180 / M_PI, 2);
    snprintf(out, size, "moment %s N m, shear %s N, torque %s N m, %s mm, twist %s deg", moment, shear, torque, deflection, twist);
}

/* Where the mounts pinned are worse than what the line and the curves show, that stands before the name. */
static void put_marker(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_case_result *c = pl_view_case_at_marker(s);
    char place[64], reserve[32], figures[256], pinned[160], end[256], line[800];
    pl_marker_words(s, place, sizeof place);
    int column = pl_frame_text(f, r.row, r.column + 1, PL_ROLE_MARKER, place) + 1, width = r.column + r.columns - column;
    if (!c)
        return;
    const struct pl_check_row *row = pl_case_row_at(c, s->marker_m);
    const char *name = c->load_case->name, *mode = pl_mode_name(row->mode);
    pl_reserve_words(row->reserve, reserve, sizeof reserve);
    figures_words(row, figures, sizeof figures);
    pl_view_pinned_words(s, pl_place_words, pinned, sizeof pinned);
    snprintf(end, sizeof end, " %s", r.columns < 60 ? name : mode);
    snprintf(line, sizeof line, "%s", reserve);
    pl_view_add_pinned(s, end, width, line, sizeof line);
    if (r.columns >= 60 && pinned[0])
        snprintf(line + strlen(line), sizeof line - strlen(line), ", %.200s, %s", name, figures);
    else if (r.columns >= 60)
        snprintf(line, sizeof line, "%.200s: %s %s, %s", name, reserve, mode, figures);
    pl_frame_text_in(f, r.row, column, width, PL_ROLE_TEXT, line);
}

/* ---- curves ---- */

static void put_curves(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    if (r.columns >= 120 && r.rows >= 24) {
        struct pl_region top = pl_region_top(&r, r.rows / 2), left = pl_region_left(&top, top.columns / 2);
        struct pl_region below = pl_region_left(&r, r.columns / 2);
        pl_view_curve(s, f, left, PL_CURVE_RESERVE);
        pl_view_moment(s, f, top);
        pl_view_curve(s, f, below, PL_CURVE_DEFLECTION);
        pl_view_curve(s, f, r, PL_CURVE_STRESS);
        return;
    }
    if (r.columns >= 76 && r.rows >= 9) {
        struct pl_region left = pl_region_left(&r, r.columns / 2);
        pl_view_curve(s, f, left, PL_CURVE_RESERVE);
        if (s->curve == PL_CURVE_RESERVE || s->curve == PL_CURVE_MOMENT)
            pl_view_moment(s, f, r);
        else
            pl_view_curve(s, f, r, s->curve);
        return;
    }
    pl_view_curve(s, f, r, s->curve);
}

/* ---- warnings in full ---- */

static void put_warnings(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    size_t first = pl_block_cursor(s, s->blocks[s->page]).row;
    char sentence[640];
    if (!s->problems.count)
        pl_frame_text_in(f, r.row, r.column + 2, r.columns - 3, PL_ROLE_QUIET, "none");
    for (size_t i = first; i < s->problems.count && r.rows > 0; i++) {
        pl_session_problem_words(s, &s->problems.list[i], sentence, sizeof sentence);
        enum pl_role role = s->problems.list[i].severity == PL_ERROR ? PL_ROLE_WARNING : PL_ROLE_TEXT;
        pl_region_top(&r, pl_view_wrapped(f, (struct pl_region){r.row, r.column + 2, r.rows, r.columns - 3}, 2, role, sentence));
    }
}

void pl_view_strength(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    const struct pl_block *b = pl_block_here(s);
    bool results = b->kind == PL_CASES || b->kind == PL_CURVES_OF;
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    int wanted = v ? (int)v->n_cases + 1 : 1, most = r.rows / 2;
    if (!results)
        wanted = pl_view_block_rows(s, s->blocks[s->page]);
    if (b->kind == PL_WARNINGS)
        wanted = most;
    struct pl_region list = pl_region_top(&r, wanted < most ? wanted : most);
    if (b->kind == PL_WARNINGS)
        put_warnings(s, f, list);
    else if (!results)
        pl_view_block(s, f, list, s->blocks[s->page]);
    else if (v)
        put_cases(s, f, list);
    else
        pl_frame_text_in(f, list.row, 1, list.columns - 2, PL_ROLE_QUIET, "nothing to show until the part can be judged");
    if (!v)
        return;
    pl_frame_line(f, r.row, 0, f->columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    pl_region_top(&r, 1);
    put_marker(s, f, pl_region_top(&r, 1));
    put_curves(s, f, r);
}
