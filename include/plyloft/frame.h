/* frame.h - a screenful of cells, drawn without a terminal.
 *
 * Every page is a function from the session to a frame.  A cell is a base character
 * with up to two combining ones, its width and a role; the right half of a wide
 * character has width 0, and a wide character that would cross an edge becomes a space.
 * Text put here must be safe already (text.h); what slipped through becomes U+FFFD.  Lines
 * and dots are glyph codes, chosen as UTF-8 or plain characters by the frame's `plain`; a
 * plain frame holds ASCII in every cell, whatever is put there.  A hit rectangle carries
 * the action that a click in it means.  Part of the screen, not of the library.
 */
#ifndef PLYLOFT_FRAME_H
#define PLYLOFT_FRAME_H

#include "plyloft/buffer.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum pl_role {
    PL_ROLE_TEXT, PL_ROLE_QUIET, PL_ROLE_TITLE, PL_ROLE_HOLDS, PL_ROLE_FAILS, PL_ROLE_WARNING, PL_ROLE_CHOSEN,
    PL_ROLE_EDIT, PL_ROLE_MARKER, PL_ROLE_LINE, PL_ROLE_CLOTH_A, PL_ROLE_CLOTH_B, PL_ROLE_CLOTH_C, PL_ROLE_LIMIT,
    PL_ROLES
};

enum pl_glyph {
    PL_GLYPH_HORIZONTAL, PL_GLYPH_VERTICAL, PL_GLYPH_CORNER_TL, PL_GLYPH_CORNER_TR, PL_GLYPH_CORNER_BL,
    PL_GLYPH_CORNER_BR, PL_GLYPH_TEE_DOWN, PL_GLYPH_TEE_UP, PL_GLYPH_TEE_LEFT, PL_GLYPH_TEE_RIGHT, PL_GLYPH_CROSS,
    PL_GLYPH_DASHED, PL_GLYPH_POINT_UP, PL_GLYPH_POINT_DOWN, PL_GLYPH_POINT_RIGHT, PL_GLYPH_DIAMOND, PL_GLYPH_STRIKE,
    PL_GLYPH_SHADE_1, PL_GLYPH_SHADE_2, PL_GLYPH_SHADE_3, PL_GLYPH_SHADE_4, PL_GLYPH_ELLIPSIS, PL_GLYPH_DASH,
    PL_GLYPHS
};

struct pl_cell {
    uint32_t code, combining[2];
    uint8_t width;  /* 0: right half of a wide character */
    uint8_t role;   /* enum pl_role */
    uint8_t dots;   /* dots drawn here, as the low byte of a braille pattern; 0: text, or nothing */
};

struct pl_hit {
    int row, column, rows, columns;
    int action;     /* the session's own code */
    int argument;
};

enum { PL_HITS_MOST = 2048 };

struct pl_frame {
    int rows, columns;
    bool plain;               /* ASCII only */
    int cursor_row, cursor_column;  /* -1: hidden */
    struct pl_cell *cells;    /* rows x columns */
    size_t capacity;
    struct pl_hit hits[PL_HITS_MOST];
    size_t n_hits;
};

/* An all-zero frame is valid.  Sets the size and fills with spaces; false without memory. */
bool pl_frame_resize(struct pl_frame *f, int rows, int columns);
void pl_frame_clear(struct pl_frame *f);
void pl_frame_free(struct pl_frame *f);

/* Text from (row, column) on, clipped at the frame's edges; the column after it, on the frame or not.
 * Beyond two combining characters to a cell, and variation selectors, are left out. */
int pl_frame_text(struct pl_frame *f, int row, int column, enum pl_role role, const char *text);
/* At most width columns, and not over the frame's right edge, cut with an ellipsis; never beyond. */
int pl_frame_text_in(struct pl_frame *f, int row, int column, int width, enum pl_role role, const char *text);
/* The same, set flush right in width. */
void pl_frame_text_right(struct pl_frame *f, int row, int column, int width, enum pl_role role, const char *text);
int pl_frame_printf(struct pl_frame *f, int row, int column, enum pl_role role, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
void pl_frame_glyph(struct pl_frame *f, int row, int column, enum pl_role role, enum pl_glyph glyph);
void pl_frame_code(struct pl_frame *f, int row, int column, enum pl_role role, uint32_t code);
/* A row of glyphs; a column of them for the vertical one.  The plain dashed line skips every other cell. */
void pl_frame_line(struct pl_frame *f, int row, int column, int length, enum pl_role role, enum pl_glyph glyph);
void pl_frame_fill(struct pl_frame *f, int row, int column, int rows, int columns, enum pl_role role, char c);
/* Changes the role of cells that stand there already. */
void pl_frame_role(struct pl_frame *f, int row, int column, int rows, int columns, enum pl_role role);

void pl_frame_hit(struct pl_frame *f, int row, int column, int rows, int columns, int action, int argument);
const struct pl_hit *pl_frame_hit_at(const struct pl_frame *f, int row, int column);  /* the last added wins; NULL */

/* The frame as text, one line a row, trailing spaces dropped, no trailing empty lines. */
void pl_frame_print(const struct pl_frame *f, struct pl_buffer *out);

/* ---- characters (glyphs.c) ---- */
uint32_t pl_glyph_code(enum pl_glyph glyph, bool plain);
char pl_code_plain(uint32_t code);       /* one column of ASCII for any character, '?' when there is no fair one */
char pl_dots_plain(unsigned dots);       /* ASCII mark for the low byte of a braille pattern */

/* ---- dots: a drawing with 2 x 4 dots to a cell (braille patterns), or one mark to a cell in plain ----
 * The ends of a range lie in the first and the last dot.  Points that are not finite are ignored.  Dots join
 * those that stand in a cell, and the last one's role is the cell's; text that stands there is kept.  A range
 * of no length has its one value in the middle. */
struct pl_canvas {
    struct pl_frame *frame;
    int row, column, rows, columns;           /* the cells it covers */
    double x_from, x_to, y_from, y_to;        /* y_to is at the top; from may be the greater one */
};

void pl_canvas_dot(const struct pl_canvas *c, double x, double y, enum pl_role role);
/* A straight line, clipped to the canvas. */
void pl_canvas_line(const struct pl_canvas *c, double x1, double y1, double x2, double y2, enum pl_role role);
/* The same, two dots on and two off. */
void pl_canvas_dashed(const struct pl_canvas *c, double x1, double y1, double x2, double y2, enum pl_role role);
/* Cell that a point falls in; false outside.  Up to half a dot outside counts as inside, here and above. */
bool pl_canvas_cell(const struct pl_canvas *c, double x, double y, int *row, int *column);

#endif
