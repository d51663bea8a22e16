/* glass.h - a small terminal of our own, for tests of what a person would see.
 *
 * Takes the bytes a program sends, in pieces cut anywhere, and holds the cells they make: ECMA-48, what the VT100
 * did, and what the descriptions of the terminals in `glass_kinds` (glass.c) name beside it.  A sequence that the
 * terminal of that kind does not know is an error, told in `unknown`, and so are bytes that are no UTF-8.  Knows
 * nothing of the program that sends them; a frame's cell and look serve as its own.
 */
#ifndef PLYLOFT_TESTS_GLASS_H
#define PLYLOFT_TESTS_GLASS_H

#include "plyloft/buffer.h"
#include "plyloft/theme.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { GLASS_ROWS = 80, GLASS_COLUMNS = 250, GLASS_PARAMETERS = 16 };  /* the most there can be */

struct glass_cell {
    struct pl_cell cell;       /* its role is not used */
    struct pl_look look;
};

struct glass_pen {             /* what the terminal keeps and brings back with the cursor */
    int row, column;
    struct pl_look look;
    bool drawing[2];           /* G0 and G1 hold the line drawing set */
    int shift;                 /* which of them letters are taken from */
};

struct glass {
    const struct glass_kind *kind;
    int rows, columns;
    struct glass_cell cells[GLASS_ROWS][GLASS_COLUMNS];
    int row, column, top, bottom;    /* scrolling goes on from top to bottom */
    bool wrap_next, no_wrap, insert, cursor_shown, application_keys;
    struct pl_look look;
    bool drawing[2];
    int shift;
    struct glass_pen kept;
    uint32_t last;             /* for repeats */
    unsigned clears;           /* how often the whole picture was wiped out in one go */
    bool beyond_ascii;         /* a byte above 127 came */
    char unknown[64];          /* the first sequence it did not understand */
    /* the sequence or character that has begun */
    enum { GLASS_TEXT, GLASS_ESCAPE, GLASS_CONTROL, GLASS_SET, GLASS_STRING, GLASS_STRING_ESCAPE } state;
    char prefix;               /* '?' or '>' of a control sequence; '(' or ')' of a set */
    int parameters[GLASS_PARAMETERS], n_parameters;
    bool parameter_open;
    char half_read[4];
    size_t n_half_read;
};

/* Switched on: blank, without a look.  A kind that is not in the list is taken for xterm. */
void glass_start(struct glass *g, int rows, int columns, const char *kind);
/* What fits of the picture stays where it is, as on a window whose corner is dragged. */
void glass_resize(struct glass *g, int rows, int columns);
void glass_read(struct glass *g, const char *bytes, size_t length);

/* The picture as text, as pl_frame_print gives a frame. */
void glass_print(const struct glass *g, struct pl_buffer *out);
size_t glass_coloured(const struct glass *g);  /* cells that have a colour of their own */

/* The bytes a terminal of this kind, as it is set now, sends for a key (keys.h); their number, 0 for none. */
size_t glass_key(const struct glass *g, int key, char out[8]);

#endif
