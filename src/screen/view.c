#include "view.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- the first row: what is open, and the pages ---- */

/* Where there is little room: the pages of fields and results, the one shown, and the comparison once there is one. */
static bool is_listed(const struct pl_session *s, int page, bool all)
{
    return all || page <= PL_PAGE_STRENGTH || (int)s->page == page || (page == PL_PAGE_TRIALS && pl_trials_count(s) > 1);
}

static void put_pages(const struct pl_session *s, struct pl_frame *f, int column)
{
    bool all = f->columns - column >= 70;
    for (int p = 0; p < PL_PAGES; p++) {
        bool here = (int)s->page == p;
        char name[24];
        int start = column;
        snprintf(name, sizeof name, " %d %s ", p + 1, pl_page_names[p]);
        if (!is_listed(s, p, all))
            continue;
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
        if (is_listed(s, p, all))
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
    const struct pl_part *part = pl_session_part(s);
    if (part->n_elements > 1 && s->element < part->n_elements)
        snprintf(title + strlen(title), sizeof title - strlen(title), " \u00b7 %.60s", part->elements[s->element].name);
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

static void field_help(const struct pl_session *s, char *out, size_t size)
{
    char pointer[256], more[128] = "";
    enum pl_group_id group;
    const struct pl_field *field = pl_block_pointer_here(s, pointer, sizeof pointer) ? pl_field_at(pointer, &group) : NULL;
    if (field)
        pl_cell_more_words(s, pointer, more, sizeof more);
    snprintf(out, size, "%s%s%s", more, more[0] ? ". " : "", field ? field->help : "");
}

/* What does not fit on its row takes the one above as well. */
static void put_foot_text(struct pl_frame *f, int row, enum pl_role role, const char *text)
{
    int width = f->columns - 2, rows = pl_text_columns(text) > width ? 2 : 1;
    if (rows > 1)
        pl_frame_fill(f, row - 1, 0, 1, f->columns, PL_ROLE_TEXT, ' ');
    pl_view_wrapped(f, (struct pl_region){row - rows + 1, 1, rows, width}, 0, role, text);
}

static void put_footer(struct pl_session *s, struct pl_frame *f)
{
    int row = f->rows - 2;
    char held[256], help[512];
    const struct pl_question *q = pl_question_of(s);
    bool told = q && pl_asks_path(q->kind);  /* in their own boxes */
    if (s->message[0] && !told)
        put_foot_text(f, row, PL_ROLE_WARNING, s->message);
    else if (s->held.on) {
        pl_hold_words(s, held, sizeof held);
        put_foot_text(f, row, PL_ROLE_MARKER, held);
    }
    else if (s->typing && pl_text_columns(s->line.text) > 4)
        pl_view_line(&s->line, f, row, 1, f->columns - 2);  /* in full, whatever the cell's width */
    else {
        field_help(s, help, sizeof help);
        pl_frame_text_in(f, row, 1, f->columns - 2, PL_ROLE_QUIET, help);
    }
    pl_view_page_foot(s, f);
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
        [PL_PAGE_LOG] = "what was built, weighed and tested",
    };
    pl_frame_printf(f, r.row + 1, r.column + 2, PL_ROLE_TEXT, "%s is still to come:", pl_page_names[s->page]);
    pl_frame_text_in(f, r.row + 2, r.column + 2, r.columns - 4, PL_ROLE_TEXT, words[s->page]);
    pl_frame_text_in(f, r.row + 4, r.column + 2, r.columns - 4, PL_ROLE_QUIET, "Pages 1 to 7 are here.");
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
    static void (*const pages[PL_PAGES])(struct pl_session *, struct pl_frame *, struct pl_region) = {
        [PL_PAGE_SHAPE] = pl_view_shape, [PL_PAGE_CLOTH] = pl_view_cloth, [PL_PAGE_LOADS] = pl_view_loads,
        [PL_PAGE_STRENGTH] = pl_view_strength, [PL_PAGE_JOINTS] = pl_view_joints, [PL_PAGE_SHOP] = pl_view_shop, [PL_PAGE_TRIALS] = pl_view_trials,
    };
    if (pages[s->page])
        pages[s->page](s, f, r);
    else
        put_to_come(s, f, r);
    put_footer(s, f);
    if (s->n_questions)
        pl_view_question(s, f, row + 1);
}
