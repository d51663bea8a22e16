#include "command.h"

#include <string.h>

const struct pl_command pl_commands[] = {
    {"check", "PART [--case NAME] [--json]", "reserve of every load case along the span, and whether the wing holds",
     pl_command_check},
    {"section", "PART --at Y [--element NAME] [--json]", "stiffness, neutral point and shear centre at Y mm from the centreline",
     pl_command_section},
    {"laminate", "PART --at Y --side top|bottom --chord F [--element NAME] [--json]",
     "plies and stiffness of the wall at one place", pl_command_laminate},
    {"profile", "PART --profile NAME [--count N] [--json]", "coordinates, area, thickness and camber of a profile",
     pl_command_profile},
    {"polar", "PART --profile NAME --reynolds R --from A --to B --step S [--height H] [--json]",
     "lift, moment and drag of a profile over its incidence", pl_command_polar},
    {"flow", "PART --case NAME [--json]", "lift, drag and their places of the whole wing in a downforce case", pl_command_flow},
    {"setting", "PART --case NAME [--speed LIST] [--height LIST] [--incidence LIST] [--json]",
     "downforce, drag and axle loads as set otherwise, and how to set it so", pl_command_setting},
    {"kit", "PART [--json|--csv] [-o FILE]", "cloth to cut, on its roll, and resin to mix, cup by cup", pl_command_kit},
    {"plybook", "PART [--json|--csv] [-o FILE]", "the laying order, with boxes to tick", pl_command_plybook},
    {"screen", "PART [--size 80x24] [--page NAME] [--keys 'Down +'] [--plain]", "the screen as text after those keys",
     pl_command_screen},
};
const size_t pl_n_commands = sizeof pl_commands / sizeof *pl_commands;

enum { WORD_MOST = 16, LETTERS_MOST = 2 };

static size_t least_of(size_t a, size_t b, size_t c)
{
    size_t least = a < b ? a : b;
    return least < c ? least : c;
}

/* Letters to be put in, taken out or changed to make b of a, by rows of the usual table (Levenshtein 1966). */
static size_t letters_between(const char *a, const char *b)
{
    size_t row[WORD_MOST + 1], length = strlen(b);
    for (size_t j = 0; j <= length; j++)
        row[j] = j;
    for (size_t i = 0; a[i]; i++) {
        size_t before = row[0];
        row[0] = i + 1;
        for (size_t j = 0; j < length; j++) {
            size_t above = row[j + 1];
            row[j + 1] = least_of(above + 1, row[j] + 1, before + (a[i] != b[j]));
            before = above;
        }
    }
    return row[length];
}

const char *pl_command_near(const char *word)
{
    const char *near = NULL;
    size_t least = LETTERS_MOST + 1;
    for (size_t i = 0; i < pl_n_commands && strlen(word) <= WORD_MOST; i++) {
        const char *name = pl_commands[i].name;
        size_t letters = strlen(name) <= WORD_MOST ? letters_between(word, name) : least;
        if (letters < least) {
            least = letters;
            near = name;
        }
    }
    return near;
}
