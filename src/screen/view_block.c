#include "view.h"

#include "plyloft/part_edit.h"
#include "plyloft/text.h"
#include "plyloft/units.h"
#include "plyloft/words.h"

#include <stdio.h>
#include <string.h>

enum { HERE = 6, ONE_LESS = 10, SHEET_LABEL = 21 };

static const struct pl_block *block_of(const struct pl_session *s, int block)
{
    return pl_block_of(s, block);
}

static bool is_table(const struct pl_session *s, int block)
{
    return block_of(s, block)->kind == PL_TABLE;
}

static bool is_layup(const struct pl_session *s, int block)
{
    return is_table(s, block) && block_of(s, block)->group == PL_GROUP_LAYUP;
}

static bool is_here(const struct pl_session *s, int block)
{
    return s->blocks[s->page] == block;
}

/* Columns of the lay-up that are figures, not fields: plies at the marker, and the reserve with one forgotten. */
static int figures_width(const struct pl_session *s, int block, int columns)
{
    return !is_layup(s, block) ? 0 : columns < 60 ? HERE : HERE + ONE_LESS;
}

static int name_width(const struct pl_session *s, int block, int columns)
{
    if (!is_table(s, block))
        return columns < 44 ? 16 : SHEET_LABEL;
    return block_of(s, block)->group == PL_GROUP_STATION ? 10 : columns < 60 ? 13 : 18;
}

int pl_view_block_rows(const struct pl_session *s, int block)
{
    int rows = (int)pl_block_rows(s, block);
    return rows ? rows + 1 : 2;
}

/* First row shown: whole pages, so that nothing moves under a finger that chooses another row of this one. */
static size_t first_shown(size_t row, size_t room)
{
    return room ? row / room * room : 0;
}

/* As the session takes it apart. */
static int cell_argument(int block, size_t row, size_t column)
{
    return block * 65536 + (int)(row * 16 + column);
}

static void put_cell(struct pl_session *s, struct pl_frame *f, int block, size_t row, size_t column, bool right,
                     struct pl_region at)
{
    char pointer[256], text[160];
    struct pl_cursor cursor = pl_block_cursor(s, block);
    bool here = is_here(s, block) && cursor.row == row && cursor.column == column;
    if (!pl_block_cell(s, block, row, column, pointer, sizeof pointer))
        return;
    pl_cell_words(s, pointer, text, sizeof text);
    pl_frame_hit(f, at.row, at.column, 1, at.columns, PL_DO_CHOOSE_CELL, cell_argument(block, row, column));
    if (here && s->typing) {
        pl_view_line(&s->line, f, at.row, at.column, at.columns);
        return;
    }
    if (right)
        pl_frame_text_right(f, at.row, at.column, at.columns, PL_ROLE_TEXT, text);
    else
        pl_frame_text_in(f, at.row, at.column, at.columns, PL_ROLE_TEXT, text);
    if (here)
        pl_frame_role(f, at.row, at.column, 1, at.columns, PL_ROLE_CHOSEN);
}

/* Number of plies of a lay-up item at the marker, so that the list speaks of the place. */
static void put_plies_here(struct pl_session *s, struct pl_frame *f, int row, int column, size_t item)
{
    const struct pl_part *part = pl_session_part(s);
    if (!s->valid || s->element >= part->n_elements || item >= part->elements[s->element].n_layup)
        return;
    char text[32];
    snprintf(text, sizeof text, "%zu", pl_solve_item_plies(s->solve, s->marker_m, item));
    pl_frame_text_right(f, row, column, 5, PL_ROLE_MARKER, text);
}

/* Lowest reserve with one ply of the group forgotten. */
static void put_forgotten(struct pl_session *s, struct pl_frame *f, int row, int column, size_t item)
{
    const struct pl_forgotten_ply *p = s->valid ? pl_forgotten_of(s->forgotten, s->element, item) : NULL;
    char text[32] = "bare";
    if (!p)
        return;
    if (!p->bare && pl_given(p->reserve))
        pl_reserve_words(p->reserve, text, sizeof text);
    else if (!p->bare)
        snprintf(text, sizeof text, "-");
    pl_frame_text_right(f, row, column, 8, p->bare || p->reserve < 1 ? PL_ROLE_WARNING : PL_ROLE_QUIET, text);
}

enum { TEXT_LEAST = 6 };

/* Words give way where room is scarce, and in the last column take what is left. */
static int column_width(const struct pl_block *b, size_t column, int left)
{
    const struct pl_block_column *c = &b->columns[column];
    bool last = column + 1 == b->n_columns;
    if (!c->right && left >= TEXT_LEAST && (last || c->width > left))
        return left;
    return c->width <= left ? c->width : 0;
}

static bool column_fits(const struct pl_block *b, size_t first, size_t column, int room)
{
    for (size_t i = first; i <= column; i++) {
        int wide = column_width(b, i, room);
        if (!wide)
            return false;
        room -= wide + 1;
    }
    return true;
}

/* First column shown: the cursor's own must fit in. */
static size_t first_column(const struct pl_session *s, int block, int room)
{
    size_t cursor = is_here(s, block) ? pl_block_cursor(s, block).column : 0, first = 0;
    while (first < cursor && !column_fits(block_of(s, block), first, cursor, room))
        first++;
    return first;
}

static void put_table_row(struct pl_session *s, struct pl_frame *f, struct pl_region r, int block, size_t row, size_t first)
{
    const struct pl_block *b = block_of(s, block);
    int column = r.column + name_width(s, block, r.columns) + 3, end = r.column + r.columns;
    if (is_layup(s, block))
        put_plies_here(s, f, r.row, column - 1, row);
    if (is_layup(s, block) && r.columns >= 60)
        put_forgotten(s, f, r.row, column + HERE - 1, row);
    column += figures_width(s, block, r.columns);
    for (size_t i = first; i < b->n_columns; i++) {
        int wide = column_width(b, i, end - column);
        if (!wide)
            break;
        put_cell(s, f, block, row, i, b->columns[i].right, (struct pl_region){r.row, column, 1, wide});
        column += wide + 1;
    }
}

static void put_sheet_row(struct pl_session *s, struct pl_frame *f, struct pl_region r, int block, size_t row)
{
    char pointer[256];
    enum pl_group_id group;
    int column = r.column + name_width(s, block, r.columns) + 3, room = r.columns - (column - r.column);
    const struct pl_field *field = pl_block_cell(s, block, row, 0, pointer, sizeof pointer) ? pl_field_at(pointer, &group) : NULL;
    bool number = field && (field->kind == PL_FIELD_NUMBER || field->kind == PL_FIELD_WHOLE || field->kind == PL_FIELD_MAP);
    int wide = number ? 10 : room - 1;
    if (block_of(s, block)->kind == PL_TIPS)
        wide = 10;
    put_cell(s, f, block, row, 0, number || block_of(s, block)->kind == PL_TIPS, (struct pl_region){r.row, column, 1, wide});
    if (block_of(s, block)->kind == PL_TIPS)
        pl_frame_text(f, r.row, column + wide + 1, PL_ROLE_QUIET, row ? "mm, tip" : "kg");
    else if (number && pl_cell_there(s, pointer))
        pl_frame_text(f, r.row, column + wide + 1, PL_ROLE_QUIET, pl_unit_name(field->unit));
}

static void put_row(struct pl_session *s, struct pl_frame *f, struct pl_region r, int block, size_t row, size_t first)
{
    char name[96];
    bool here = is_here(s, block) && pl_block_cursor(s, block).row == row;
    pl_block_row_words(s, block, row, name, sizeof name);
    pl_frame_hit(f, r.row, r.column, 1, r.columns, PL_DO_CHOOSE_ROW, cell_argument(block, row, 0));
    if (here)
        pl_frame_glyph(f, r.row, r.column, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
    pl_frame_text_in(f, r.row, r.column + 2, name_width(s, block, r.columns), here ? PL_ROLE_TITLE : PL_ROLE_TEXT, name);
    if (is_table(s, block))
        put_table_row(s, f, r, block, row, first);
    else
        put_sheet_row(s, f, r, block, row);
}

/* "this load case: kerb on tip": whose sheet it is. */
static void sheet_title(const struct pl_session *s, int block, char *out, size_t size)
{
    const struct pl_block *b = block_of(s, block);
    char pointer[256], name[96];
    snprintf(out, size, "%s", b->title);
    if (b->kind != PL_SHEET || b->of < 0 || !pl_block_list(s, block, pointer, sizeof pointer))
        return;
    pl_part_row_words(s->document, pointer, name, sizeof name);
    snprintf(out, size, "%s: %s", b->title, name);
}

static void put_heading(struct pl_session *s, struct pl_frame *f, struct pl_region r, int block, size_t first)
{
    const struct pl_block *b = block_of(s, block);
    int width = name_width(s, block, r.columns), column = r.column + width + 3, end = r.column + r.columns;
    char title[160];
    sheet_title(s, block, title, sizeof title);
    pl_frame_text_in(f, r.row, r.column + 1, is_table(s, block) ? width + 1 : r.columns - 2,
                     is_here(s, block) ? PL_ROLE_TITLE : PL_ROLE_QUIET, is_table(s, block) ? pl_groups[b->group].noun : title);
    pl_frame_hit(f, r.row, r.column, 1, width, PL_DO_CHOOSE_BLOCK, block);
    if (is_layup(s, block))
        pl_frame_text_right(f, r.row, column - 1, 5, PL_ROLE_QUIET, "here");
    if (is_layup(s, block) && r.columns >= 60)
        pl_frame_text_right(f, r.row, column + HERE - 1, 8, PL_ROLE_QUIET, "one less");
    column += figures_width(s, block, r.columns);
    for (size_t i = first; i < b->n_columns && is_table(s, block); i++) {
        int wide = column_width(b, i, end - column);
        if (!wide)
            break;
        if (b->columns[i].right)
            pl_frame_text_right(f, r.row, column, wide, PL_ROLE_QUIET, b->columns[i].heading);
        else
            pl_frame_text_in(f, r.row, column, wide, PL_ROLE_QUIET, b->columns[i].heading);
        column += wide + 1;
    }
}

void pl_view_block(struct pl_session *s, struct pl_frame *f, struct pl_region r, int block)
{
    if (r.rows < 1)
        return;
    size_t rows = pl_block_rows(s, block), room = (size_t)(r.rows - 1);
    size_t row = is_here(s, block) ? pl_block_cursor(s, block).row : 0;
    int taken = name_width(s, block, r.columns) + 3 + figures_width(s, block, r.columns);
    size_t first = first_shown(row, room), column = first_column(s, block, r.columns - taken);
    put_heading(s, f, r, block, column);
    if (!rows && room)
        pl_frame_text_in(f, r.row + 1, r.column + 2, r.columns - 3, PL_ROLE_QUIET,
                         pl_block_is_drawn(block_of(s, block)) ? "drawn beside" : "none; a adds");
    for (size_t i = 0; i < room && first + i < rows; i++)
        put_row(s, f, (struct pl_region){r.row + 1 + (int)i, r.column, 1, r.columns}, block, first + i, column);
    if (rows > room && r.rows > 1 && first + room < rows)
        pl_frame_glyph(f, r.row + r.rows - 1, r.column + 1, PL_ROLE_QUIET, PL_GLYPH_POINT_DOWN);  /* more below */
}

void pl_view_block_titles(struct pl_session *s, struct pl_frame *f, int row, int columns)
{
    size_t count;
    const struct pl_block *blocks = pl_page_blocks(s->page, &count);
    int total = 0, column = 1, here = s->blocks[s->page];
    for (size_t i = 0; i < count; i++)
        total += pl_text_columns(blocks[i].title) + 3;
    /* Where they do not all fit, start a little before the one in hand. */
    size_t first = total < columns || here < 2 ? 0 : (size_t)here - 1;
    for (size_t i = first; i < count; i++) {
        int width = pl_text_columns(blocks[i].title);
        if (column + width > columns - 2) {
            pl_frame_glyph(f, row, columns - 2, PL_ROLE_QUIET, PL_GLYPH_ELLIPSIS);
            break;
        }
        pl_frame_text(f, row, column, (int)i == here ? PL_ROLE_TITLE : PL_ROLE_QUIET, blocks[i].title);
        pl_frame_hit(f, row, column, 1, width, PL_DO_CHOOSE_BLOCK, (int)i);
        column += width + 3;
    }
}

/* Rows for as many blocks as fit, `first` before all others; a row between. */
static void share_rows(const struct pl_session *s, size_t count, int first, int left, int rows[PL_BLOCKS_MOST])
{
    for (int i = 0; i < (int)count; i++)
        rows[i] = 0;
    for (int i = -1; i < (int)count; i++) {
        int block = i < 0 ? first : i;
        bool none = block < 0 || rows[block] || (i >= 0 && pl_block_is_drawn(block_of(s, block)));  /* drawn beside */
        int wanted = none ? 0 : pl_view_block_rows(s, block) + 1;
        if (wanted && (wanted <= left || i < 0)) {
            rows[block] = wanted < left ? wanted : left;
            left -= rows[block];
        }
    }
}

void pl_view_blocks(struct pl_session *s, struct pl_frame *f, struct pl_region *r, int keep_rows)
{
    size_t count;
    int here = s->blocks[s->page], rows[PL_BLOCKS_MOST];
    pl_page_blocks(s->page, &count);
    /* The same blocks as long as the one in hand is among them, so that nothing moves under a finger. */
    share_rows(s, count, s->brought_up[s->page] - 1, r->rows - keep_rows, rows);
    if (!rows[here]) {
        s->brought_up[s->page] = here + 1;
        share_rows(s, count, here, r->rows - keep_rows, rows);
    }
    for (int i = 0; i < (int)count; i++)
        if (rows[i]) {
            struct pl_region at = pl_region_top(r, rows[i]);
            at.rows -= at.rows > pl_view_block_rows(s, i);
            pl_view_block(s, f, at, i);
        }
}
