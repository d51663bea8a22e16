#include "view.h"

#include "plyloft/part_edit.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

/* The wing block has the rows' labels and one wide value; the others have columns. */
static int name_width(enum pl_block block, int columns)
{
    if (block == PL_BLOCK_STATIONS)
        return 10;
    return columns < 60 ? 13 : block == PL_BLOCK_WING ? 22 : 18;
}

int pl_view_block_rows(const struct pl_session *s, enum pl_block block)
{
    return (int)pl_block_rows(s, block) + 1;
}

/* First row shown, so that the cursor stays inside. */
static size_t first_shown(size_t row, size_t rows, size_t room)
{
    if (rows <= room || row < room / 2)
        return 0;
    return row - room / 2 + room > rows ? rows - room : row - room / 2;
}

static void put_typed(const struct pl_session *s, struct pl_frame *f, int row, int column, int width)
{
    /* What stands before the cursor must show: drop characters from the front. */
    const char *text = s->typed;
    char before[200];
    snprintf(before, sizeof before, "%.*s", (int)s->typed_at, text);
    size_t skip = 0;
    while (pl_text_columns(before + skip) >= width) {
        uint32_t code;
        size_t n = pl_utf8_decode(before + skip, strlen(before + skip), &code);
        skip += n ? n : 1;
    }
    pl_frame_fill(f, row, column, 1, width, PL_ROLE_EDIT, ' ');
    pl_frame_text_in(f, row, column, width, s->untouched ? PL_ROLE_CHOSEN : PL_ROLE_EDIT, text + skip);
    f->cursor_row = row;
    f->cursor_column = column + pl_text_columns(before + skip);
}

static void put_cell(struct pl_session *s, struct pl_frame *f, enum pl_block block, size_t row, size_t column,
                     const struct pl_block_column *c, struct pl_region at)
{
    char pointer[128], text[128];
    struct pl_cursor cursor = pl_block_cursor(s);
    bool here = s->block == block && cursor.row == row && cursor.column == column;
    pl_block_pointer(s, block, row, column, pointer, sizeof pointer);
    pl_part_value_words(s->document, pointer, text, sizeof text);
    pl_frame_hit(f, at.row, at.column, 1, at.columns, PL_DO_CHOOSE_ROW, (int)(row * 16 + column));
    if (here && s->typing)
        put_typed(s, f, at.row, at.column, at.columns);
    else if (c->right)
        pl_frame_text_right(f, at.row, at.column, at.columns, here ? PL_ROLE_CHOSEN : PL_ROLE_TEXT, text);
    else
        pl_frame_text_in(f, at.row, at.column, at.columns, here ? PL_ROLE_CHOSEN : PL_ROLE_TEXT, text);
    if (here && !s->typing)
        pl_frame_role(f, at.row, at.column, 1, at.columns, PL_ROLE_CHOSEN);
}

/* Number of plies of a lay-up item at the marker, so that the list speaks of the place. */
static void put_here(struct pl_session *s, struct pl_frame *f, int row, int column, size_t item)
{
    const struct pl_part *part = pl_session_part(s);
    if (!s->valid || s->element >= part->n_elements || item >= part->elements[s->element].n_layup)
        return;
    char text[32];
    snprintf(text, sizeof text, "%zu", pl_solve_item_plies(s->solve, s->marker_m, item));
    pl_frame_text_right(f, row, column, 5, PL_ROLE_MARKER, text);
}

enum { HERE = 6 };  /* columns that the plies at the marker take */

/* First column shown: the cursor's own must fit in. */
static size_t first_column(const struct pl_session *s, enum pl_block block, int room)
{
    const struct pl_block_column *c;
    size_t n = pl_block_columns(block, 0, &c), cursor = s->block == block ? pl_block_cursor(s).column : 0, first = 0;
    for (; first < cursor; first++) {
        int used = 0;
        for (size_t i = first; i <= cursor && i < n; i++)
            used += c[i].width + 1;
        if (used <= room)
            break;
    }
    return first;
}

static int column_width(const struct pl_block_column *c, enum pl_block block, int left)
{
    int width = block == PL_BLOCK_WING ? 26 : c->width;
    return width <= left ? width : !c->right && left >= 6 ? left : 0;
}

static void put_row(struct pl_session *s, struct pl_frame *f, struct pl_region r, enum pl_block block, size_t row, size_t first)
{
    const struct pl_block_column *c;
    char name[96];
    size_t n = pl_block_columns(block, row, &c);
    int width = name_width(block, r.columns), column = r.column + width + 3, end = r.column + r.columns;
    bool here = s->block == block && pl_block_cursor(s).row == row;
    pl_block_row_words(s, block, row, name, sizeof name);
    if (here)
        pl_frame_glyph(f, r.row, r.column, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
    pl_frame_text_in(f, r.row, r.column + 2, width, here ? PL_ROLE_TITLE : PL_ROLE_TEXT, name);
    if (block == PL_BLOCK_LAYUP) {
        put_here(s, f, r.row, column - 1, row);
        column += HERE;
    }
    for (size_t i = first; i < n; i++) {
        int wide = column_width(&c[i], block, end - column);
        if (!wide)
            break;
        put_cell(s, f, block, row, i, &c[i], (struct pl_region){r.row, column, 1, wide});
        column += wide + 1;
    }
}

static void put_heading(struct pl_session *s, struct pl_frame *f, struct pl_region r, enum pl_block block, size_t first)
{
    const struct pl_block_column *c;
    size_t n = pl_block_columns(block, 0, &c);
    int width = name_width(block, r.columns), column = r.column + width + 3, end = r.column + r.columns;
    pl_frame_text_in(f, r.row, r.column + 1, block == PL_BLOCK_WING ? r.columns - 2 : width + 1,
                     s->block == block ? PL_ROLE_TITLE : PL_ROLE_QUIET, pl_block_name(block));
    if (block == PL_BLOCK_LAYUP) {
        pl_frame_text_right(f, r.row, column - 1, 5, PL_ROLE_QUIET, "here");
        column += HERE;
    }
    for (size_t i = first; i < n && block != PL_BLOCK_WING; i++) {
        int wide = column_width(&c[i], block, end - column);
        if (!wide)
            break;
        if (c[i].right)
            pl_frame_text_right(f, r.row, column, wide, PL_ROLE_QUIET, c[i].heading);
        else
            pl_frame_text_in(f, r.row, column, wide, PL_ROLE_QUIET, c[i].heading);
        column += wide + 1;
    }
}

void pl_view_block(struct pl_session *s, struct pl_frame *f, struct pl_region r, enum pl_block block)
{
    if (r.rows < 1)
        return;
    size_t rows = pl_block_rows(s, block), room = (size_t)(r.rows - 1), row = s->block == block ? pl_block_cursor(s).row : 0;
    int taken = name_width(block, r.columns) + 3 + (block == PL_BLOCK_LAYUP ? HERE : 0);
    size_t first = first_shown(row, rows, room), column = first_column(s, block, r.columns - taken);
    put_heading(s, f, r, block, column);
    for (size_t i = 0; i < room && first + i < rows; i++)
        put_row(s, f, (struct pl_region){r.row + 1 + (int)i, r.column, 1, r.columns}, block, first + i, column);
    if (rows > room && r.rows > 1 && first + room < rows)
        pl_frame_printf(f, r.row + r.rows - 1, r.column + r.columns - 9, PL_ROLE_QUIET, "%zu more", rows - first - room);
}
