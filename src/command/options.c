#include "command.h"

#include <stdio.h>
#include <string.h>

static const struct pl_command *command_named(const char *name)
{
    for (size_t i = 0; i < pl_n_commands; i++)
        if (!strcmp(pl_commands[i].name, name))
            return &pl_commands[i];
    return NULL;
}

static void say_usage(FILE *to, const char *name)
{
    const struct pl_command *c = command_named(name);
    if (c)
        fprintf(to, "usage: plyloft %s %s\n", c->name, c->arguments);
}

static const struct pl_option *option_named(const struct pl_option *options, size_t count, const char *word, const char **value)
{
    for (size_t i = 0; i < count; i++) {
        size_t n = strlen(options[i].name);
        if (!strncmp(word, options[i].name, n) && (word[n] == '\0' || word[n] == '=')) {
            *value = word[n] ? word + n + 1 : NULL;
            return &options[i];
        }
    }
    return NULL;
}

static bool bad_usage(const char *command, const char *what, const char *word, int *status)
{
    fprintf(stderr, "plyloft %s: %s%s%s\n", command, word ? word : "", word ? ": " : "", what);
    say_usage(stderr, command);
    *status = PL_EXIT_USAGE;
    return false;
}

static bool needed_are_there(const char *command, const struct pl_option *options, size_t count, const char *part, int *status)
{
    if (!part)
        return bad_usage(command, "needs a part file", NULL, status);
    for (size_t i = 0; i < count; i++)
        if (options[i].needed && !*options[i].text) {
            char word[64];
            snprintf(word, sizeof word, "--%s", options[i].name);
            return bad_usage(command, "is missing", word, status);
        }
    return true;
}

bool pl_options_read(int argc, char **argv, const struct pl_option *options, size_t count, const char **part, int *status)
{
    bool only_files = false;
    for (int i = 1; i < argc; i++) {
        const char *word = argv[i], *value = NULL;
        if (only_files || word[0] != '-' || !word[1]) {
            if (*part)
                return bad_usage(argv[0], "only one part file is taken", word, status);
            *part = word;
            continue;
        }
        if (!strcmp(word, "--help")) {
            say_usage(stdout, argv[0]);
            *status = fflush(stdout) ? PL_EXIT_FILE : PL_EXIT_HOLDS;
            return false;
        }
        if (!strcmp(word, "--")) {
            only_files = true;
            continue;
        }
        const struct pl_option *o = !strcmp(word, "-o") ? option_named(options, count, "output", &value)
                                    : !strncmp(word, "--", 2) ? option_named(options, count, word + 2, &value) : NULL;
        if (!o || (o->flag && value))
            return bad_usage(argv[0], "is not an option", word, status);
        if (o->flag) {
            *o->flag = true;
            continue;
        }
        if (!value && i + 1 >= argc)
            return bad_usage(argv[0], "needs a value", word, status);
        *o->text = value ? value : argv[++i];
    }
    return needed_are_there(argv[0], options, count, *part, status);
}

bool pl_option_number(const char *command, const char *name, const char *text, double *out, int *status)
{
    const char *end;
    *out = pl_number_read(text, &end);
    if (end != text && !*end && *out - *out == 0)  /* and finite */
        return true;
    fprintf(stderr, "plyloft %s: --%s: must be a number (found %s)\n", command, name, text);
    *status = PL_EXIT_USAGE;
    return false;
}
