#include "command.h"

const struct pl_command pl_commands[] = {
    {"check", "PART [--case NAME] [--json]", "reserve of every load case along the span, and whether the wing holds",
     pl_command_check},
    {"section", "PART --at Y [--element NAME] [--json]", "stiffness, neutral point and shear centre at Y mm from the centreline",
     pl_command_section},
    {"laminate", "PART --at Y --side top|bottom --chord F [--element NAME] [--json]",
     "plies and stiffness of the wall at one place", pl_command_laminate},
    {"profile", "PART --profile NAME [--count N] [--json]", "coordinates, area, thickness and camber of a profile",
     pl_command_profile},
    {"screen", "PART [--size 80x24] [--page NAME] [--keys 'Down +'] [--plain]", "the screen as text after those keys",
     pl_command_screen},
};
const size_t pl_n_commands = sizeof pl_commands / sizeof *pl_commands;
