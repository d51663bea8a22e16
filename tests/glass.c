#include "glass_inner.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static const struct glass_kind glass_kinds[] = {
    {"xterm", true, "ABCDGHJKLMPSTXZ@bdhlmrt", NULL, NULL, "\033[Z", true},
    {"xterm-256color", true, "ABCDGHJKLMPSTXZ@bdhlmrt", NULL, NULL, "\033[Z", true},
    {"tmux-256color", false, "ABCDGHJKLMPSTZ@dhlmr", "\033[1~", "\033[4~", "\033[Z", true},
    {"screen", false, "ABCDGHJKLMPSTZ@dhlmr", "\033[1~", "\033[4~", "\033[Z", true},
    {"linux", true, "ABCDGHJKLMPX@cdhlmr", "\033[1~", "\033[4~", "\033\t", false},
    {"vt100", false, "ABCDHJKhlmr", NULL, NULL, "\033[Z", true},
};

enum { KINDS = sizeof glass_kinds / sizeof *glass_kinds };

/* ---- cells ---- */

static struct glass_cell blank_cell(const struct glass *g)
{
    struct glass_cell c = {.cell = {.code = ' ', .width = 1}, .look = no_look};
    if (g->kind->wipes_in_colour)
        c.look.background = g->look.background;
    return c;
}

void glass_wipe(struct glass *g, int row, int from, int to)
{
    for (int k = from; k < to; k++)
        if (row >= 0 && row < g->rows && k >= 0 && k < g->columns)
            g->cells[row][k] = blank_cell(g);
}

void glass_wipe_rows(struct glass *g, int from, int to)
{
    for (int row = from; row < to; row++)
        glass_wipe(g, row, 0, g->columns);
}

void glass_start(struct glass *g, int rows, int columns, const char *kind)
{
    memset(g, 0, sizeof *g);
    g->kind = &glass_kinds[0];
    for (int i = 0; i < KINDS; i++)
        if (!strcmp(glass_kinds[i].name, kind))
            g->kind = &glass_kinds[i];
    g->rows = rows < GLASS_ROWS ? rows : GLASS_ROWS;
    g->columns = columns < GLASS_COLUMNS ? columns : GLASS_COLUMNS;
    g->bottom = g->rows - 1;
    g->look = g->kept.look = no_look;
    g->cursor_shown = true;
    glass_wipe_rows(g, 0, g->rows);
}

void glass_place(struct glass *g, int row, int column)
{
    g->row = row < 0 ? 0 : row >= g->rows ? g->rows - 1 : row;
    g->column = column < 0 ? 0 : column >= g->columns ? g->columns - 1 : column;
    g->wrap_next = false;
}

void glass_resize(struct glass *g, int rows, int columns)
{
    int rows_before = g->rows, columns_before = g->columns;
    struct pl_look look = g->look;
    g->look = no_look;
    g->rows = rows < GLASS_ROWS ? rows : GLASS_ROWS;
    g->columns = columns < GLASS_COLUMNS ? columns : GLASS_COLUMNS;
    for (int row = 0; row < rows_before; row++)
        glass_wipe(g, row, columns_before, g->columns);
    glass_wipe_rows(g, rows_before, g->rows);
    g->top = 0;
    g->bottom = g->rows - 1;
    g->look = look;
    glass_place(g, g->row, g->column);
}

void glass_shift_right(struct glass *g, int row, int from, int by)
{
    for (int k = g->columns - 1; k >= from + by; k--)
        g->cells[row][k] = g->cells[row][k - by];
    glass_wipe(g, row, from, from + by);
}

void glass_shift_left(struct glass *g, int row, int from, int by)
{
    for (int k = from; k < g->columns - by; k++)
        g->cells[row][k] = g->cells[row][k + by];
    glass_wipe(g, row, g->columns - by > from ? g->columns - by : from, g->columns);
}

void glass_move_rows(struct glass *g, int from, int by)
{
    int step = by > 0 ? 1 : -1, first = by > 0 ? from : g->bottom, last = by > 0 ? g->bottom : from;
    for (int row = first; row * step <= last * step; row += step) {
        if (row + by >= from && row + by <= g->bottom)
            memcpy(g->cells[row], g->cells[row + by], sizeof g->cells[row]);
        else
            glass_wipe(g, row, 0, g->columns);
    }
}

void glass_line_feed(struct glass *g)
{
    if (g->row == g->bottom)
        glass_move_rows(g, g->top, 1);
    else if (g->row + 1 < g->rows)
        g->row++;
}

void glass_reverse_line_feed(struct glass *g)
{
    if (g->row == g->top)
        glass_move_rows(g, g->top, -1);
    else if (g->row > 0)
        g->row--;
}

/* ---- characters ---- */

static void break_halves(struct glass *g, int row, int column)
{
    struct glass_cell *c = &g->cells[row][column];
    if (c->cell.width == 0 && column > 0)
        c[-1].cell = (struct pl_cell){.code = ' ', .width = 1};
    if (c->cell.width == 2 && column + 1 < g->columns)
        c[1].cell = (struct pl_cell){.code = ' ', .width = 1};
}

static void combine(struct glass *g, uint32_t code)
{
    int column = g->wrap_next ? g->column : g->column - 1;
    if (column > 0 && g->cells[g->row][column].cell.width == 0)
        column--;
    struct pl_cell *cell = &g->cells[g->row][column < 0 ? 0 : column].cell;
    cell->combining[cell->combining[0] ? 1 : 0] = code;
}

/* The VT100's second set: lines and a few signs in the place of '`' to '~'. */
static uint32_t drawn(uint32_t code)
{
    static const uint16_t set[] = {
        0x25c6, 0x2592, 0x2409, 0x240c, 0x240d, 0x240a, 0xb0, 0xb1, 0x2424, 0x240b, 0x2518, 0x2510, 0x250c, 0x2514,
        0x253c, 0x23ba, 0x23bb, 0x2500, 0x23bc, 0x23bd, 0x251c, 0x2524, 0x2534, 0x252c, 0x2502, 0x2264, 0x2265, 0x3c0,
        0x2260, 0xa3, 0xb7,
    };
    return code >= '`' && code <= '~' ? set[code - '`'] : code;
}

void glass_write_code(struct glass *g, uint32_t code)
{
    if (g->drawing[g->shift])
        code = drawn(code);
    int width = pl_code_columns(code);
    if (width == 0) {
        combine(g, code);
        return;
    }
    if (g->wrap_next && !g->no_wrap) {
        g->column = 0;
        glass_line_feed(g);
    }
    g->wrap_next = false;
    if (g->insert)
        glass_shift_right(g, g->row, g->column, width);
    for (int i = 0; i < width && g->column + i < g->columns; i++) {
        break_halves(g, g->row, g->column + i);
        g->cells[g->row][g->column + i] = (struct glass_cell){
            .cell = {.code = i ? 0 : code, .width = (uint8_t)(i ? 0 : width)}, .look = g->look};
    }
    g->last = code;
    g->column += width;
    if (g->column >= g->columns) {
        g->column = g->columns - 1;
        g->wrap_next = true;
    }
}

/* ---- the picture ---- */

static bool is_space(const struct glass_cell *c)
{
    return c->cell.code == ' ' && !c->cell.combining[0];
}

static int used_columns(const struct glass *g, int row)
{
    int used = g->columns;
    while (used > 0 && is_space(&g->cells[row][used - 1]))
        used--;
    return used;
}

static void print_code(struct pl_buffer *out, uint32_t code)
{
    char bytes[4];
    pl_buffer_add(out, bytes, pl_utf8_encode(code, bytes));
}

void glass_print(const struct glass *g, struct pl_buffer *out)
{
    int rows = g->rows;
    while (rows > 0 && !used_columns(g, rows - 1))
        rows--;
    for (int row = 0; row < rows; row++) {
        for (int column = 0, used = used_columns(g, row); column < used; column++) {
            const struct pl_cell *cell = &g->cells[row][column].cell;
            for (int i = -1; i < 2 && cell->width > 0 && (i < 0 || cell->combining[i]); i++)
                print_code(out, i < 0 ? cell->code : cell->combining[i]);
        }
        pl_buffer_text(out, "\n");
    }
}

size_t glass_coloured(const struct glass *g)
{
    size_t n = 0;
    for (int row = 0; row < g->rows; row++)
        for (int column = 0; column < g->columns; column++) {
            struct pl_look look = g->cells[row][column].look;
            n += look.foreground != PL_COLOUR_DEFAULT || look.background != PL_COLOUR_DEFAULT;
        }
    return n;
}

/* ---- keys ---- */

size_t glass_key(const struct glass *g, int key, char out[8])
{
    bool other = g->kind->cursor_keys_change && g->application_keys;
    const char *home = g->kind->home ? g->kind->home : other ? "\033OH" : "\033[H";
    const char *end = g->kind->end ? g->kind->end : other ? "\033OF" : "\033[F";
    const struct { int key; const char *bytes; } keys[] = {
        {PL_KEY_UP, other ? "\033OA" : "\033[A"}, {PL_KEY_DOWN, other ? "\033OB" : "\033[B"},
        {PL_KEY_RIGHT, other ? "\033OC" : "\033[C"}, {PL_KEY_LEFT, other ? "\033OD" : "\033[D"},
        {PL_KEY_HOME, home}, {PL_KEY_END, end}, {PL_KEY_PAGE_UP, "\033[5~"}, {PL_KEY_PAGE_DOWN, "\033[6~"},
        {PL_KEY_DELETE, "\033[3~"}, {PL_KEY_TAB, "\t"}, {PL_KEY_BACKTAB, g->kind->backtab}, {PL_KEY_ENTER, "\r"},
        {PL_KEY_ESCAPE, "\033"}, {PL_KEY_BACKSPACE, "\177"},
    };
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
        if (keys[i].key == key)
            return (size_t)snprintf(out, 8, "%s", keys[i].bytes);
    if (key >= PL_KEY_CTRL_A && key <= PL_KEY_CTRL_Z) {
        out[0] = (char)(key - PL_KEY_CTRL_A + 1);
        return 1;
    }
    return key >= ' ' && key <= 0x10ffff ? pl_utf8_encode((uint32_t)key, out) : 0;
}
