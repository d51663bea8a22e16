/* view_shop.c - the page Shop: pieces to cut, the rolls they lie on, resin and mass, and the shed they are laid in. */
#include "view.h"

#include "shop_job.h"

#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Rows of a list that scrolls with the cursor: the first one shown. */
static size_t first_of(size_t row, size_t count, int room)
{
    size_t rows = room > 0 ? (size_t)room : 1;
    if (count <= rows || row < rows)
        return 0;
    return row - rows + 1;
}

static size_t row_here(const struct pl_session *s, enum pl_block_kind kind)
{
    size_t count;
    const struct pl_block *blocks = pl_page_blocks(PL_PAGE_SHOP, &count);
    for (int i = 0; i < (int)count; i++)
        if (blocks[i].kind == kind)
            return pl_block_cursor(s, i).row;
    return 0;
}

static bool is_on(const struct pl_session *s, enum pl_block_kind kind)
{
    return pl_block_here(s)->kind == kind;
}

/* ---- pieces ---- */

enum { MARK, WHAT, SIDE, CLOTH, ANGLE, LAID, CUT, NOTE };

/* Columns by room: what matters at the bench first. */
static size_t choose_columns(int columns, int *chosen)
{
    static const int narrow[] = {MARK, WHAT, CUT}, usual[] = {MARK, WHAT, SIDE, ANGLE, CUT, NOTE}, wide[] = {MARK, WHAT, SIDE, CLOTH, ANGLE, LAID, CUT, NOTE};
    const int *list = columns < 60 ? narrow : columns < 110 ? usual : wide;
    size_t n = columns < 60 ? sizeof narrow / sizeof *narrow : columns < 110 ? sizeof usual / sizeof *usual : sizeof wide / sizeof *wide;
    memcpy(chosen, list, n * sizeof *chosen);
    return n;
}

static void find_widths(const struct pl_shop_page *page, int widths[PL_KIT_CELLS])
{
    for (int k = 0; k < PL_KIT_CELLS; k++) {
        widths[k] = pl_text_columns(pl_kit_headings[k]);
        for (size_t i = 0; i < page->n_pieces; i++)
            widths[k] = pl_text_columns(page->pieces[i].text[k]) > widths[k] ? pl_text_columns(page->pieces[i].text[k]) : widths[k];
    }
}

static void put_cells(struct pl_frame *f, struct pl_region r, const int widths[PL_KIT_CELLS], const char *const cells[PL_KIT_CELLS], enum pl_role role)
{
    int chosen[PL_KIT_CELLS], column = r.column + 1, fixed = 0, end = r.column + r.columns - 1;
    size_t n = choose_columns(r.columns, chosen);
    for (size_t i = 0; i < n; i++)
        fixed += chosen[i] == WHAT || chosen[i] == NOTE ? 0 : widths[chosen[i]] + 1;
    int what = r.columns - 2 - fixed - (n > 3 ? 8 : 0);  /* gives way, so that sizes stay whole */
    for (size_t i = 0; i < n; i++) {
        int width = chosen[i] == WHAT && what < widths[WHAT] ? what : widths[chosen[i]];
        width = width < end - column ? width : end - column;
        if (width < 1)
            break;
        pl_frame_text_in(f, r.row, column, width, role, cells[chosen[i]]);
        column += width + 1;
    }
}

static void put_pieces(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_shop_page *page)
{
    int widths[PL_KIT_CELLS];
    size_t row = row_here(s, PL_SHOP_PIECES);
    const char *cells[PL_KIT_CELLS];
    find_widths(page, widths);
    put_cells(f, pl_region_top(&r, 1), widths, pl_kit_headings, PL_ROLE_QUIET);
    size_t first = first_of(row, page->n_pieces, r.rows);
    for (size_t i = first; i < page->n_pieces && r.rows > 0; i++) {
        for (int k = 0; k < PL_KIT_CELLS; k++)
            cells[k] = page->pieces[i].text[k];
        put_cells(f, pl_region_top(&r, 1), widths, cells, pl_shop_is_old(s) ? PL_ROLE_QUIET : i == row && is_on(s, PL_SHOP_PIECES) ? PL_ROLE_TITLE : PL_ROLE_TEXT);
    }
    if (first + (size_t)r.rows < page->n_pieces && r.rows == 0)
        pl_frame_glyph(f, r.row - 1, r.column, PL_ROLE_QUIET, PL_GLYPH_POINT_DOWN);
}

/* ---- a roll ---- */

static void draw_piece(const struct pl_canvas *c, const struct pl_shop_piece *p, bool here)
{
    double x = 0, y = 0;
    int row, column;
    for (int k = 0; k < 4; k++) {
        pl_canvas_line(c, p->x_m[k], p->y_m[k], p->x_m[(k + 1) % 4], p->y_m[(k + 1) % 4], here ? PL_ROLE_MARKER : PL_ROLE_CLOTH_A);
        x += p->x_m[k] / 4;
        y += p->y_m[k] / 4;
    }
    if (pl_canvas_cell(c, x, y, &row, &column))
        pl_frame_text(c->frame, row, column - pl_text_columns(p->mark) / 2, here ? PL_ROLE_TITLE : PL_ROLE_TEXT, p->mark);
}

static void put_roll(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_shop_page *page, size_t index)
{
    const struct pl_shop_roll *roll = &page->rolls[index];
    size_t row = row_here(s, PL_SHOP_PIECES);
    const char *mark = row < page->n_pieces && is_on(s, PL_SHOP_PIECES) ? page->pieces[row].text[MARK] : "";
    if (r.rows < 5 || !(roll->length_m > 0))
        return;
    pl_frame_text_in(f, pl_region_top(&r, 1).row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, roll->name);
    pl_frame_text_in(f, pl_region_top(&r, 1).row, r.column + 1, r.columns - 2, PL_ROLE_QUIET, roll->words);
    struct pl_canvas c = {f, r.row, r.column + 1, r.rows - 1, r.columns - 2, 0, roll->length_m, 0, roll->width_m};
    for (int edge = 0; edge < 2; edge++)
        pl_canvas_line(&c, 0, edge * roll->width_m, roll->length_m, edge * roll->width_m, PL_ROLE_LINE);
    /* The one in hand last, over its neighbours. */
    for (int here = 0; here < 2; here++)
        for (size_t i = 0; i < roll->n_pieces; i++)
            if ((strcmp(mark, roll->pieces[i].mark) == 0) == (here == 1))
                draw_piece(&c, &roll->pieces[i], here);
    pl_frame_text_in(f, r.row + r.rows - 1, r.column + 1, r.columns - 2, PL_ROLE_QUIET, "threads at 0 run from left to right, along the roll");
}

/* The roll in hand, or of the piece in hand; the others below where there is room. */
static size_t roll_in_hand(const struct pl_session *s, const struct pl_shop_page *page)
{
    size_t row = row_here(s, PL_SHOP_PIECES), roll = row_here(s, PL_SHOP_ROLLS);
    if (is_on(s, PL_SHOP_PIECES) && row < page->n_pieces)
        for (size_t i = 0; i < page->n_rolls; i++)
            for (size_t k = 0; k < page->rolls[i].n_pieces; k++)
                if (!strcmp(page->rolls[i].pieces[k].mark, page->pieces[row].text[MARK]))
                    return i;
    return roll < page->n_rolls ? roll : 0;
}

static void put_rolls(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_shop_page *page)
{
    enum { ROLL_ROWS = 14 };
    size_t first = roll_in_hand(s, page);
    for (size_t i = 0; i < page->n_rolls && r.rows >= 6; i++) {
        bool more = r.rows >= 2 * ROLL_ROWS && i + 1 < page->n_rolls;
        put_roll(s, f, pl_region_top(&r, more ? ROLL_ROWS : r.rows), page, (first + i) % page->n_rolls);
    }
}

/* ---- resin, mass, what to mind ---- */

static void put_lines(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct pl_shop_page *page)
{
    static const enum pl_role roles[] = {[PL_SHOP_TEXT] = PL_ROLE_TEXT, [PL_SHOP_HEADING] = PL_ROLE_TITLE, [PL_SHOP_QUIET] = PL_ROLE_QUIET, [PL_SHOP_WARNING] = PL_ROLE_WARNING};
    size_t first = is_on(s, PL_SHOP_RESIN) ? row_here(s, PL_SHOP_RESIN) : 0;
    for (size_t i = first; i < page->n_lines && r.rows > 0; i++) {
        enum pl_role role = pl_shop_is_old(s) ? PL_ROLE_QUIET : roles[page->lines[i].kind];
        int taken = pl_view_wrapped(f, r, page->lines[i].kind == PL_SHOP_QUIET ? 7 : 0, role, page->lines[i].text);
        pl_region_top(&r, taken);
    }
}

/* ---- the page ---- */

static const struct pl_shop_page *page_or_why(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_shop_page *page = pl_shop_page(s);
    if (page && !page->failed[0])
        return page;
    if (page)
        pl_view_wrapped(f, r, 1, PL_ROLE_WARNING, page->failed);
    else
        pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_QUIET, s->valid ? "being worked out" : "nothing to cut until the part can be judged");
    return NULL;
}

static void put_block(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    if (!pl_block_is_shop(pl_block_here(s))) {
        pl_view_block(s, f, r, s->blocks[s->page]);
        return;
    }
    const struct pl_shop_page *page = page_or_why(s, f, r);
    if (!page)
        return;
    if (is_on(s, PL_SHOP_PIECES))
        put_pieces(s, f, r, page);
    else if (is_on(s, PL_SHOP_ROLLS))
        put_rolls(s, f, r, page);
    else
        put_lines(s, f, r, page);
}

static void put_wide(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct pl_region left = pl_region_left(&r, r.columns * 9 / 16), line = pl_region_left(&r, 1);
    pl_frame_line(f, line.row, line.column, line.rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    const struct pl_shop_page *page = pl_shop_page(s);
    bool rolls = is_on(s, PL_SHOP_ROLLS), there = page && !page->failed[0];
    if (rolls && there)
        put_pieces(s, f, left, page);
    else
        put_block(s, f, left);
    if (!there)
        return;
    struct pl_region top = pl_region_top(&r, is_on(s, PL_SHOP_RESIN) ? r.rows : r.rows * 11 / 20);
    put_rolls(s, f, top, page);
    if (r.rows > 4)
        put_lines(s, f, r, page);
}

void pl_view_shop(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    pl_view_block_titles(s, f, pl_region_top(&r, 1).row, f->columns);
    if (f->columns >= 110 && f->rows >= 30)
        put_wide(s, f, r);
    else
        put_block(s, f, r);
}
