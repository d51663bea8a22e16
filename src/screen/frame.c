#include "plyloft/frame.h"

#include "plyloft/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { REPLACEMENT = 0xfffd };

static const struct pl_cell blank = {.code = ' ', .width = 1, .role = PL_ROLE_TEXT};

bool pl_frame_resize(struct pl_frame *f, int rows, int columns)
{
    size_t r = rows > 0 ? (size_t)rows : 0, c = columns > 0 ? (size_t)columns : 0;
    if (c && r > SIZE_MAX / sizeof *f->cells / c)
        return false;
    if (r * c > f->capacity) {
        struct pl_cell *cells = realloc(f->cells, r * c * sizeof *cells);
        if (!cells)
            return false;
        f->cells = cells;
        f->capacity = r * c;
    }
    f->rows = (int)r;
    f->columns = (int)c;
    pl_frame_clear(f);
    return true;
}

void pl_frame_clear(struct pl_frame *f)
{
    size_t count = (size_t)f->rows * (size_t)f->columns;
    for (size_t i = 0; i < count; i++)
        f->cells[i] = blank;
    f->cursor_row = f->cursor_column = -1;
    f->n_hits = 0;
}

void pl_frame_free(struct pl_frame *f)
{
    free(f->cells);
    *f = (struct pl_frame){0};
}

/* ---- cells ---- */

static struct pl_cell *cell_at(const struct pl_frame *f, int row, int column)
{
    if (row < 0 || column < 0 || row >= f->rows || column >= f->columns)
        return NULL;
    return &f->cells[(size_t)row * (size_t)f->columns + (size_t)column];
}

/* Writes a cell.  Half a wide character cannot stand alone: the half that is left becomes a space. */
static void set_cell(struct pl_frame *f, int row, int column, const struct pl_cell *to)
{
    struct pl_cell *cell = cell_at(f, row, column);
    if (!cell)
        return;
    if (cell->width == 0 && column > 0 && cell[-1].width == 2)
        cell[-1] = (struct pl_cell){.code = ' ', .width = 1, .role = cell[-1].role};
    if (cell->width == 2 && column + 1 < f->columns)
        cell[1] = (struct pl_cell){.code = ' ', .width = 1, .role = cell[1].role};
    *cell = *to;
}

static void set_narrow(struct pl_frame *f, int row, int column, enum pl_role role, uint32_t code)
{
    set_cell(f, row, column, &(struct pl_cell){.code = code, .width = 1, .role = (uint8_t)role});
}

static void set_wide(struct pl_frame *f, int row, int column, enum pl_role role, uint32_t code)
{
    if (column < 0 || column + 1 >= f->columns) {  /* crosses an edge */
        set_narrow(f, row, column, role, ' ');
        set_narrow(f, row, column + 1, role, ' ');
        return;
    }
    struct pl_cell cell = {.code = code, .width = 1, .role = (uint8_t)role}, right = {.role = (uint8_t)role};
    set_cell(f, row, column, &cell);
    set_cell(f, row, column + 1, &right);
    cell_at(f, row, column)->width = 2;
}

static bool never_shown(uint32_t code)
{
    return code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff) || pl_code_unsafe(code);
}

/* Puts a base character; the columns it takes. */
static int put(struct pl_frame *f, int row, int column, enum pl_role role, uint32_t code)
{
    if (code < ' ' || (code >= 0x7f && never_shown(code)))
        code = REPLACEMENT;
    int width = code < 0x7f ? 1 : pl_code_columns(code);
    if (f->plain && code >= 0x80) {
        char c = pl_code_plain(code);
        for (int i = 0; i < width; i++)
            set_narrow(f, row, column + i, role, (unsigned char)c);
    } else if (width == 2) {
        set_wide(f, row, column, role, code);
    } else {
        set_narrow(f, row, column, role, code);
    }
    return width;
}

/* Variation selectors and skin tones change how wide some terminals draw a character: left out. */
static bool changes_width(uint32_t code)
{
    return (code >= 0xfe00 && code <= 0xfe0f) || (code >= 0xe0100 && code <= 0xe01ef) ||
           (code >= 0x1f3fb && code <= 0x1f3ff);
}

static void combine(struct pl_frame *f, int row, int column, uint32_t code)
{
    struct pl_cell *cell = cell_at(f, row, column);
    if (!cell || f->plain || changes_width(code))
        return;
    if (!cell->combining[0])
        cell->combining[0] = code;
    else if (!cell->combining[1])
        cell->combining[1] = code;
}

/* ---- text ---- */

static uint32_t next_code(const char **text, size_t *left)
{
    uint32_t code = REPLACEMENT;
    size_t length = pl_utf8_decode(*text, *left, &code);
    if (!length)
        length = 1;
    *text += length;
    *left -= length;
    return code;
}

static int put_bytes(struct pl_frame *f, int row, int column, enum pl_role role, const char *text, size_t left)
{
    int base = -1;  /* column of the character before, which combining ones join */
    while (left) {
        uint32_t code = next_code(&text, &left);
        if (code >= 0x300 && pl_code_columns(code) == 0) {
            combine(f, row, base, code);
            continue;
        }
        int width = put(f, row, column, role, code);
        /* A wide character that became a space at the edge takes no accents. */
        const struct pl_cell *cell = cell_at(f, row, column);
        base = cell && cell->width == width ? column : -1;
        column += width;
    }
    return column;
}

int pl_frame_text(struct pl_frame *f, int row, int column, enum pl_role role, const char *text)
{
    return put_bytes(f, row, column, role, text, strlen(text));
}

/* Bytes of text that take at most width columns; combining characters stay with their base. */
static size_t bytes_within(const char *text, int width)
{
    const char *at = text, *fits = text;
    size_t left = strlen(text);
    for (int columns = 0; left; fits = at) {
        columns += pl_code_columns(next_code(&at, &left));
        if (columns > width)
            break;
    }
    return (size_t)(fits - text);
}

int pl_frame_text_in(struct pl_frame *f, int row, int column, int width, enum pl_role role, const char *text)
{
    if (column < f->columns && width > f->columns - column)
        width = f->columns - column;
    if (width <= 0 || column >= f->columns)
        return column;
    if (pl_text_columns(text) <= width)
        return pl_frame_text(f, row, column, role, text);
    column = put_bytes(f, row, column, role, text, bytes_within(text, width - 1));
    pl_frame_glyph(f, row, column, role, PL_GLYPH_ELLIPSIS);
    return column + 1;
}

void pl_frame_text_right(struct pl_frame *f, int row, int column, int width, enum pl_role role, const char *text)
{
    int columns = pl_text_columns(text);
    if (columns <= width)
        pl_frame_text(f, row, column + width - columns, role, text);
    else
        pl_frame_text_in(f, row, column, width, role, text);
}

int pl_frame_printf(struct pl_frame *f, int row, int column, enum pl_role role, const char *format, ...)
{
    char small[512], *text = small;
    va_list args;
    va_start(args, format);
    int need = vsnprintf(small, sizeof small, format, args);
    va_end(args);
    if (need >= (int)sizeof small && (text = malloc((size_t)need + 1))) {
        va_start(args, format);
        vsnprintf(text, (size_t)need + 1, format, args);
        va_end(args);
    }
    if (need >= 0)
        column = pl_frame_text(f, row, column, role, text ? text : small);  /* without memory, what fits */
    if (text != small)
        free(text);
    return column;
}

/* ---- single characters and areas ---- */

void pl_frame_code(struct pl_frame *f, int row, int column, enum pl_role role, uint32_t code)
{
    if (code >= 0x300 && pl_code_columns(code) == 0)
        return;
    put(f, row, column, role, code);
    struct pl_cell *cell = code >= 0x2800 && code <= 0x28ff ? cell_at(f, row, column) : NULL;
    if (cell)
        cell->dots = (uint8_t)(code & 0xff);
}

void pl_frame_glyph(struct pl_frame *f, int row, int column, enum pl_role role, enum pl_glyph glyph)
{
    set_narrow(f, row, column, role, pl_glyph_code(glyph, f->plain));
}

void pl_frame_line(struct pl_frame *f, int row, int column, int length, enum pl_role role, enum pl_glyph glyph)
{
    int step = f->plain && glyph == PL_GLYPH_DASHED ? 2 : 1, down = glyph == PL_GLYPH_VERTICAL;
    for (int i = 0; i < length; i += step)
        pl_frame_glyph(f, down ? row + i : row, down ? column : column + i, role, glyph);
}

struct area {
    int top, left, bottom, right;  /* the last two are not in it */
};

/* Sums in long: a size given as "all that is left" may be large. */
static struct area on_frame(const struct pl_frame *f, int row, int column, int rows, int columns)
{
    long bottom = (long)row + (rows > 0 ? rows : 0), right = (long)column + (columns > 0 ? columns : 0);
    return (struct area){
        .top = row > 0 ? row : 0,
        .left = column > 0 ? column : 0,
        .bottom = bottom < f->rows ? (int)bottom : f->rows,
        .right = right < f->columns ? (int)right : f->columns,
    };
}

void pl_frame_fill(struct pl_frame *f, int row, int column, int rows, int columns, enum pl_role role, char c)
{
    struct area a = on_frame(f, row, column, rows, columns);
    for (int r = a.top; r < a.bottom; r++)
        for (int k = a.left; k < a.right; k++)
            set_narrow(f, r, k, role, (unsigned char)pl_code_plain((unsigned char)c));
}

void pl_frame_role(struct pl_frame *f, int row, int column, int rows, int columns, enum pl_role role)
{
    struct area a = on_frame(f, row, column, rows, columns);
    for (int r = a.top; r < a.bottom; r++)
        for (int k = a.left; k < a.right; k++) {
            struct pl_cell *cell = cell_at(f, r, k);
            if (cell->width == 0)  /* follows its left half */
                continue;
            cell->role = (uint8_t)role;
            if (cell->width == 2)
                cell[1].role = (uint8_t)role;
        }
}

/* ---- hits and print ---- */

void pl_frame_hit(struct pl_frame *f, int row, int column, int rows, int columns, int action, int argument)
{
    struct area a = on_frame(f, row, column, rows, columns);
    if (a.top >= a.bottom || a.left >= a.right || f->n_hits >= PL_HITS_MOST)
        return;
    f->hits[f->n_hits++] = (struct pl_hit){a.top, a.left, a.bottom - a.top, a.right - a.left, action, argument};
}

const struct pl_hit *pl_frame_hit_at(const struct pl_frame *f, int row, int column)
{
    for (size_t i = f->n_hits; i-- > 0;) {
        const struct pl_hit *h = &f->hits[i];
        if (row >= h->row && row < h->row + h->rows && column >= h->column && column < h->column + h->columns)
            return h;
    }
    return NULL;
}

static bool is_space(const struct pl_cell *cell)
{
    return cell->code == ' ' && !cell->combining[0];
}

static void print_code(struct pl_buffer *out, uint32_t code)
{
    char bytes[4];
    pl_buffer_add(out, bytes, pl_utf8_encode(code, bytes));
}

static int used_columns(const struct pl_frame *f, int row)
{
    int used = f->columns;
    while (used > 0 && is_space(cell_at(f, row, used - 1)))
        used--;
    return used;
}

static void print_row(const struct pl_frame *f, int row, struct pl_buffer *out)
{
    int used = used_columns(f, row);
    for (int column = 0; column < used; column++) {
        const struct pl_cell *cell = cell_at(f, row, column);
        if (cell->width == 0)
            continue;
        print_code(out, cell->code);
        for (int i = 0; i < 2 && cell->combining[i]; i++)
            print_code(out, cell->combining[i]);
    }
    pl_buffer_text(out, "\n");
}

void pl_frame_print(const struct pl_frame *f, struct pl_buffer *out)
{
    int rows = f->rows;
    while (rows > 0 && used_columns(f, rows - 1) == 0)
        rows--;
    for (int row = 0; row < rows; row++)
        print_row(f, row, out);
}
