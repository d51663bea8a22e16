/* glass_inner.h - what the two halves of the glass share: glass.c holds the cells, glass_sequences.c reads bytes. */
#ifndef PLYLOFT_TESTS_GLASS_INNER_H
#define PLYLOFT_TESTS_GLASS_INNER_H

#include "glass.h"

/* What each kind's description (terminfo) lets a program send: the last bytes of control sequences, and whether
 * what is wiped out takes the background in hand (bce).  Then what its keys send where not all agree. */
struct glass_kind {
    const char *name;
    bool wipes_in_colour;
    const char *finals;
    const char *home, *end, *backtab;
    bool cursor_keys_change;   /* other sequences while the program asks for them (DECCKM) */
};

static const struct pl_look no_look = {PL_COLOUR_DEFAULT, PL_COLOUR_DEFAULT, 0};

void glass_place(struct glass *g, int row, int column);  /* the cursor, at the nearest cell there is */
void glass_wipe(struct glass *g, int row, int from, int to);
void glass_wipe_rows(struct glass *g, int from, int to);
void glass_shift_right(struct glass *g, int row, int from, int by);
void glass_shift_left(struct glass *g, int row, int from, int by);
/* Rows from one on, down to the scrolling bottom, move up (by > 0) or down; empty ones come in. */
void glass_move_rows(struct glass *g, int from, int by);
void glass_line_feed(struct glass *g);
void glass_reverse_line_feed(struct glass *g);
void glass_write_code(struct glass *g, uint32_t code);

#endif
