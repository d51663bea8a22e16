#include "view.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- the first row: what is open, and the pages ---- */

static void put_pages(const struct pl_session *s, struct pl_frame *f, int column)
{
    bool short_form = f->columns - column < 70;
    for (int p = 0; p < PL_PAGES; p++) {
        bool here = (int)s->page == p;
        if (short_form && !here && p > PL_PAGE_STRENGTH)
            continue;
        char name[24];
        snprintf(name, sizeof name, " %d %s ", p + 1, pl_page_names[p]);
        int start = column;
        if (column + pl_text_columns(name) > f->columns)
            break;
        column = pl_frame_text(f, 0, column, here ? PL_ROLE_CHOSEN : PL_ROLE_QUIET, name);
        pl_frame_hit(f, 0, start, 1, column - start, PL_DO_PAGE, p);
    }
}

static int pages_width(const struct pl_session *s, bool all)
{
    int width = 0;
    for (int p = 0; p < PL_PAGES; p++)
        if (all || p <= PL_PAGE_STRENGTH || (int)s->page == p)
            width += (int)strlen(pl_page_names[p]) + 4;
    return width;
}

static void put_title(const struct pl_session *s, struct pl_frame *f)
{
    char name[200], title[260];
    pl_node node = pl_document_find(s->document, "/name"), revision = pl_document_find(s->document, "/revision");
    pl_text_safe(name, sizeof name, node == PL_NO_NODE ? s->path : pl_node_text(s->document, node));
    snprintf(title, sizeof title, "%s", name);
    if (revision != PL_NO_NODE && pl_node_text(s->document, revision)[0]) {
        pl_text_safe(name, sizeof name, pl_node_text(s->document, revision));
        snprintf(title + strlen(title), sizeof title - strlen(title), " \u00b7 %s", name);
    }
    if (pl_document_changed(s->document))
        snprintf(title + strlen(title), sizeof title - strlen(title), " \u00b7 changed");
    int width = pl_text_columns(title), all = pages_width(s, true), some = pages_width(s, false);
    int pages = f->columns - width > all + 2 || f->columns > 110 ? all : f->columns >= 76 ? some : 13;
    pl_frame_text_in(f, 0, 1, f->columns - pages - 2, PL_ROLE_TITLE, title);
    if (f->columns >= 76)
        put_pages(s, f, f->columns - pages);
    else
        pl_frame_printf(f, 0, f->columns - 12, PL_ROLE_CHOSEN, " %d %s ", (int)s->page + 1, pl_page_names[s->page]);
}

/* ---- the last rows: a message, help on the field, keys ---- */

static void put_typing_help(struct pl_frame *f, int row)
{
    pl_frame_text_in(f, row, 1, f->columns - 2, PL_ROLE_QUIET,
                     f->columns < 60 ? "Enter take it  Escape leave it" : "Enter take it   Escape leave it as it was   Left Right Home End   Backspace");
}

static void put_keys(const struct pl_session *s, struct pl_frame *f, int row)
{
    const char *cloth = f->columns < 60 ? "-/+ Enter Tab [ ] t u ^S 4 ? q"
                        : f->columns < 100 ? "\u2212/+ step  Enter type  Tab part  [ ] span  t side  u undo  4 Strength  ? help"
                        : "\u2212/+ step   Enter type a value   Tab next part   [ ] along the span   t top or bottom   u undo   U redo   "
                          "Ctrl-S save   ? help   q leave";
    const char *strength = f->columns < 60 ? "Up Down case  Left Right curve  [ ] ? q"
                           : f->columns < 100 ? "Up Down case  Left Right curve  [ ] span  e element  2 Cloth  ? help  q leave"
                           : "Up Down load case   Left Right curve   [ ] along the span   e element   2 Cloth   Ctrl-S save   ? help   q leave";
    const char *other = "1 to 8 pages   Ctrl-S save   u undo   ? help   q leave";
    pl_frame_text_in(f, row, 1, f->columns - 2, PL_ROLE_QUIET,
                     s->page == PL_PAGE_CLOTH ? cloth : s->page == PL_PAGE_STRENGTH ? strength : other);
}

static const char *field_help(const struct pl_session *s)
{
    char pointer[128];
    enum pl_group_id group;
    struct pl_cursor c = pl_block_cursor(s);
    if (s->page != PL_PAGE_CLOTH || !pl_block_rows(s, s->block))
        return "";
    pl_block_pointer(s, s->block, c.row, c.column, pointer, sizeof pointer);
    const struct pl_field *field = pl_field_at(pointer, &group);
    return field ? field->help : "";
}

static void put_footer(const struct pl_session *s, struct pl_frame *f)
{
    int row = f->rows - 2;
    if (s->question == PL_ASK_QUIT)
        pl_frame_text_in(f, row, 1, f->columns - 2, PL_ROLE_WARNING,
                         f->columns < 70 ? "Save? s save, d leave, Escape stay"
                                         : "Not saved yet.  s save and leave   d leave without saving   Escape stay");
    else if (s->message[0])
        pl_frame_text_in(f, row, 1, f->columns - 2, PL_ROLE_WARNING, s->message);
    else
        pl_frame_text_in(f, row, 1, f->columns - 2, PL_ROLE_QUIET, field_help(s));
    if (s->typing)
        put_typing_help(f, f->rows - 1);
    else
        put_keys(s, f, f->rows - 1);
}

/* ---- pages ---- */

void pl_marker_words(const struct pl_session *s, char *out, size_t size)
{
    char place[32];
    pl_place_words(s->marker_m, place, sizeof place);
    snprintf(out, size, "y %s", place);
}

bool pl_view_place(struct pl_session *s, struct pl_frame *f, struct pl_region r, struct pl_place_view *place)
{
    struct pl_problems problems = {0};
    const struct pl_part *part = pl_session_part(s);
    bool good = s->element < part->n_elements
                && pl_solve_place(s->solve, part, s->element, s->marker_m, place, &problems) == PL_OK;
    pl_problems_free(&problems);
    if (!good && r.rows > 0)
        pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_QUIET, "nothing to draw until the part can be judged");
    return good;
}

static void put_to_come(const struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    static const char *const words[PL_PAGES] = {
        [PL_PAGE_SHAPE] = "sections in full, drawn; until then stations and profiles are on Cloth",
        [PL_PAGE_LOADS] = "what hits the wing; until then load cases are edited in the part file",
        [PL_PAGE_JOINTS] = "brackets, bonds and end plates",
        [PL_PAGE_SHOP] = "cloth to cut, resin to mix, templates",
        [PL_PAGE_TRIALS] = "states side by side",
        [PL_PAGE_LOG] = "what was built, weighed and tested",
    };
    pl_frame_printf(f, r.row + 1, r.column + 2, PL_ROLE_TEXT, "%s is still to come:", pl_page_names[s->page]);
    pl_frame_text_in(f, r.row + 2, r.column + 2, r.columns - 4, PL_ROLE_TEXT, words[s->page]);
    pl_frame_text_in(f, r.row + 4, r.column + 2, r.columns - 4, PL_ROLE_QUIET, "2 Cloth and 4 Strength are here.");
}

void pl_view(struct pl_session *s, struct pl_frame *f)
{
    pl_frame_clear(f);
    f->cursor_row = f->cursor_column = -1;
    if (f->rows < PL_LEAST_ROWS || f->columns < PL_LEAST_COLUMNS) {
        pl_frame_text_in(f, 0, 0, f->columns, PL_ROLE_TEXT, "plyloft needs 40 x 20; nothing is lost");
        return;
    }
    put_title(s, f);
    int row = pl_view_verdict(s, f, 1);
    pl_frame_line(f, row, 0, f->columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    struct pl_region r = {row + 1, 0, f->rows - row - 3, f->columns};
    if (s->page == PL_PAGE_CLOTH)
        pl_view_cloth(s, f, r);
    else if (s->page == PL_PAGE_STRENGTH)
        pl_view_strength(s, f, r);
    else
        put_to_come(s, f, r);
    put_footer(s, f);
    if (s->question == PL_SHOW_HELP)
        pl_view_help(s, f);
}
