#include "plyloft/theme.h"

/* Of the first eight only green, red and magenta read on black and on white; a pair of both
 * is safe anywhere.  The foregrounds from the 256 have a contrast of 4 or more on either. */
enum { GREY = 243, GREEN = 28, AMBER = 130, VIOLET = 133, TEAL = 30, SLATE = 62, OLIVE = 64, DARK_RED = 124,
       PALE = 231 };

#define NONE PL_COLOUR_DEFAULT, PL_COLOUR_DEFAULT
#define FORE(colour) colour, PL_COLOUR_DEFAULT

static const struct pl_look looks[PL_ROLES][PL_DEPTHS] = {
    [PL_ROLE_TEXT] = {{NONE, 0}, {NONE, 0}, {NONE, 0}},
    [PL_ROLE_QUIET] = {{NONE, PL_DIM}, {NONE, PL_DIM}, {FORE(GREY), 0}},
    [PL_ROLE_TITLE] = {{NONE, PL_BOLD}, {NONE, PL_BOLD}, {NONE, PL_BOLD}},
    [PL_ROLE_HOLDS] = {{NONE, PL_BOLD}, {FORE(PL_COLOUR_GREEN), 0}, {FORE(GREEN), PL_BOLD}},
    [PL_ROLE_FAILS] = {{NONE, PL_BOLD | PL_REVERSE},
                       {PL_COLOUR_WHITE, PL_COLOUR_RED, PL_BOLD},
                       {PALE, DARK_RED, PL_BOLD}},
    [PL_ROLE_WARNING] = {{NONE, PL_BOLD | PL_UNDERLINE}, {FORE(PL_COLOUR_RED), PL_BOLD}, {FORE(AMBER), PL_BOLD}},
    [PL_ROLE_CHOSEN] = {{NONE, PL_REVERSE}, {NONE, PL_REVERSE}, {NONE, PL_REVERSE}},
    [PL_ROLE_EDIT] = {{NONE, PL_UNDERLINE}, {NONE, PL_UNDERLINE | PL_BOLD}, {NONE, PL_UNDERLINE | PL_BOLD}},
    [PL_ROLE_MARKER] = {{NONE, PL_BOLD}, {FORE(PL_COLOUR_MAGENTA), PL_BOLD}, {FORE(VIOLET), PL_BOLD}},
    [PL_ROLE_LINE] = {{NONE, PL_DIM}, {NONE, PL_DIM}, {FORE(GREY), 0}},
    [PL_ROLE_CLOTH_A] = {{NONE, 0}, {NONE, 0}, {FORE(TEAL), 0}},
    [PL_ROLE_CLOTH_B] = {{NONE, PL_DIM}, {FORE(PL_COLOUR_GREEN), 0}, {FORE(SLATE), 0}},
    [PL_ROLE_CLOTH_C] = {{NONE, PL_BOLD}, {FORE(PL_COLOUR_MAGENTA), 0}, {FORE(OLIVE), 0}},
    [PL_ROLE_LIMIT] = {{NONE, PL_BOLD}, {FORE(PL_COLOUR_RED), 0}, {FORE(AMBER), 0}},
};

struct pl_look pl_theme_look(enum pl_role role, enum pl_depth depth)
{
    if ((unsigned)role >= PL_ROLES)
        role = PL_ROLE_TEXT;
    return looks[role][depth];
}

uint32_t pl_colour_rgb(int colour)
{
    static const uint32_t steps[6] = {0, 95, 135, 175, 215, 255};
    if (colour < 16 || colour > 255)
        return 0;
    if (colour >= 232)
        return (uint32_t)(8 + 10 * (colour - 232)) * 0x010101u;
    int i = colour - 16;
    return steps[i / 36] << 16 | steps[i / 6 % 6] << 8 | steps[i % 6];
}
