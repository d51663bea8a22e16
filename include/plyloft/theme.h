/* theme.h - how each role looks.
 *
 * A role is looked up by what the terminal can show: no colour, the 8 colours every
 * colour terminal has, or the 256 of which those from 16 on are fixed.  The background
 * is the terminal's own and may be light or dark, so foregrounds must read on both.
 * Colour only repeats what words and marks say.  Part of the screen; knows no terminal.
 */
#ifndef PLYLOFT_THEME_H
#define PLYLOFT_THEME_H

#include "plyloft/frame.h"

enum pl_depth { PL_DEPTH_MONO, PL_DEPTH_8, PL_DEPTH_256, PL_DEPTHS };

/* ECMA-48's order of the first eight. */
enum pl_colour {
    PL_COLOUR_DEFAULT = -1, PL_COLOUR_BLACK, PL_COLOUR_RED, PL_COLOUR_GREEN, PL_COLOUR_YELLOW, PL_COLOUR_BLUE,
    PL_COLOUR_MAGENTA, PL_COLOUR_CYAN, PL_COLOUR_WHITE
};

enum { PL_BOLD = 1, PL_DIM = 2, PL_UNDERLINE = 4, PL_REVERSE = 8 };

struct pl_look {
    short foreground, background;  /* enum pl_colour, or 16 to 255 */
    unsigned attributes;
};

struct pl_look pl_theme_look(enum pl_role role, enum pl_depth depth);

/* 0xrrggbb of a fixed colour, 16 to 255: a cube of six steps a side, then greys. */
uint32_t pl_colour_rgb(int colour);

#endif
