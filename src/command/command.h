/* command.h - what the subcommands share: exit statuses, options, a part ready to use.
 *
 * Private to the command room.  Results go to standard output, words to standard error.
 */
#ifndef PLYLOFT_COMMAND_H
#define PLYLOFT_COMMAND_H

#include "plyloft/buffer.h"
#include "plyloft/check.h"
#include "plyloft/document.h"
#include "plyloft/field.h"
#include "plyloft/json_writer.h"
#include "plyloft/part.h"
#include "plyloft/problems.h"

enum pl_exit {
    PL_EXIT_HOLDS = 0, PL_EXIT_SHORT = 1, PL_EXIT_USAGE = 2, PL_EXIT_INPUT = 3, PL_EXIT_FILE = 4, PL_EXIT_NO_ANSWER = 5
};

struct pl_command {
    const char *name, *arguments, *summary;
    int (*run)(int argc, char **argv);  /* argv[0] is the command's name */
};

extern const struct pl_command pl_commands[];
extern const size_t pl_n_commands;

int pl_command_check(int argc, char **argv);
int pl_command_section(int argc, char **argv);
int pl_command_laminate(int argc, char **argv);
int pl_command_profile(int argc, char **argv);
int pl_command_polar(int argc, char **argv);
int pl_command_flow(int argc, char **argv);
int pl_command_setting(int argc, char **argv);
int pl_command_kit(int argc, char **argv);
int pl_command_plybook(int argc, char **argv);
int pl_command_screen(int argc, char **argv);
int pl_command_bench(const char *path);  /* on a terminal; NULL: the list of parts */
int pl_command_lines(const char *path);  /* the same by lines of input and output */

/* The command one or two letters away from a word that is none; NULL when there is none such. */
const char *pl_command_near(const char *word);

/* ---- options: "--name VALUE" or "--name=VALUE", flags without a value, -o for "output", and one PART ---- */
struct pl_option {
    const char *name;   /* without the dashes */
    const char **text;  /* where its value goes; NULL for a flag */
    bool *flag;
    bool needed;
};

/* Reads argv into the options and *part.  False when the usage is bad, or help was asked for: *status is then
 * the exit status, and what was wrong has been said. */
bool pl_options_read(int argc, char **argv, const struct pl_option *options, size_t count, const char **part, int *status);

/* Reads a decimal number that is the whole text. */
bool pl_option_number(const char *command, const char *name, const char *text, double *out, int *status);

/* ---- a part, read and built ---- */
struct pl_loaded {
    const char *path;
    struct pl_document *document;
    struct pl_part part;
    struct pl_problems problems;
    struct pl_solve *solve;
};

/* Reads and builds path; on failure says every problem on standard error, frees all and gives the exit status.
 * PL_EXIT_HOLDS when it is there. */
int pl_load(struct pl_loaded *loaded, const char *path);
void pl_unload(struct pl_loaded *loaded);

/* Exit status of a status; says the errors among the problems. */
int pl_fail(const struct pl_loaded *loaded, enum pl_status status);

/* Says the problems from first on, one a line, on standard error; warnings only with `warnings`. */
void pl_say_problems(const struct pl_loaded *loaded, size_t first, bool warnings);

/* Index of a name in one of the part's own lists, or PL_NONE after saying that it has none such. */
size_t pl_find_named(const struct pl_loaded *loaded, enum pl_group_id group, const char *name);

/* The same for a load case that must be of downforce. */
size_t pl_find_downforce(const struct pl_loaded *loaded, const char *name);

/* Said under figures of the flow. */
extern const char pl_flow_caution[];

/* Solves one place of an element for section and laminate; an exit status. */
int pl_load_place(struct pl_loaded *loaded, const char *element, double y_mm, struct pl_place_view *view);

/* Writes all of out to standard output; PL_EXIT_FILE when that fails, else status. Frees out. */
int pl_print_out(struct pl_buffer *out, int status);

/* The check report, as JSON and as a table to be read.  only: index of one case, or PL_NONE for all. */
void pl_check_json(const struct pl_loaded *loaded, size_t only, bool holds, struct pl_buffer *out);
void pl_check_text(const struct pl_loaded *loaded, size_t only, bool holds, struct pl_buffer *out);

#endif
