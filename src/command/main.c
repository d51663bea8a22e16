/* main - picks the command; the only place that sets the locale and GSL's error handler. */
#include "command.h"

#include <gsl/gsl_errno.h>
#include <locale.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static void print_help(void)
{
    printf("plyloft - design and structural sizing of small composite wings\n\n"
           "usage: plyloft                      list of recent parts and samples to open\n"
           "       plyloft PART                 open the bench (without a terminal: print the strength report)\n"
           "       plyloft [PART] --lines       the same by lines: keys in, what changed out\n");
    for (size_t i = 0; i < pl_n_commands; i++)
        printf("       plyloft %s %s\n           %s\n", pl_commands[i].name, pl_commands[i].arguments, pl_commands[i].summary);
    printf("       plyloft --help | --version\n\n"
           "PART is a part file, or - for standard input.  --json prints one JSON object instead of a table.\n"
           "exit status: 0 holds, 1 falls short, 2 bad usage, 3 bad input, 4 cannot read or write, 5 no answer\n\n"
           "Results are planning figures: the rule book, the scrutineer and a qualified engineer have the last word.\n");
}

/* `plyloft --lines`, `plyloft PART --lines`, `plyloft --lines PART`. */
static bool wants_lines(int argc, char **argv)
{
    bool part = argv[1][0] != '-' || !argv[1][1];
    return !strcmp(argv[1], "--lines") || (part && argc > 2 && !strcmp(argv[2], "--lines"));
}

static int run_lines(int argc, char **argv)
{
    const char *part = argc < 3 ? NULL : strcmp(argv[1], "--lines") ? argv[1] : argv[2], *wrong = NULL;
    if (argc > 3)
        wrong = "takes one part file, or none";
    else if (part && !strcmp(part, "-"))
        wrong = "reads keys from standard input, so the part must be a file";
    if (wrong)
        fprintf(stderr, "plyloft: --lines %s; plyloft --help lists the commands\n", wrong);
    else if (part && part[0] == '-')
        fprintf(stderr, "plyloft: %s is not an option; plyloft --help lists them\n", part);
    else
        return pl_command_lines(part);
    return PL_EXIT_USAGE;
}

/* A mistyped command is no part file: where there is none of that name, the command is named. */
static bool is_mistyped(const char *word)
{
    const char *meant = strpbrk(word, "/.") || !access(word, F_OK) ? NULL : pl_command_near(word);
    if (meant)
        fprintf(stderr, "plyloft: %s is neither a file nor a command; did you mean %s?\n", word, meant);
    return meant;
}

static int open_part(char *path)
{
    char *arguments[] = {"check", path, NULL};
    if (is_mistyped(path))
        return PL_EXIT_USAGE;
    if (isatty(STDIN_FILENO) && isatty(STDOUT_FILENO) && strcmp(path, "-"))
        return pl_command_bench(path);
    return pl_command_check(2, arguments);
}

int main(int argc, char **argv)
{
    gsl_set_error_handler_off();
    setlocale(LC_ALL, "");
    setlocale(LC_NUMERIC, "C");
    if (argc < 2 && isatty(STDIN_FILENO) && isatty(STDOUT_FILENO))
        return pl_command_bench(NULL);
    if (argc < 2) {
        fputs("plyloft: needs a part file or a command; plyloft --help lists them\n", stderr);
        return PL_EXIT_USAGE;
    }
    if (!strcmp(argv[1], "--help") || !strcmp(argv[1], "-h")) {
        print_help();
        return fflush(stdout) ? PL_EXIT_FILE : PL_EXIT_HOLDS;
    }
    if (!strcmp(argv[1], "--version")) {
        puts("plyloft " PL_VERSION);
        return fflush(stdout) ? PL_EXIT_FILE : PL_EXIT_HOLDS;
    }
    for (size_t i = 0; i < pl_n_commands; i++)
        if (!strcmp(argv[1], pl_commands[i].name))
            return pl_commands[i].run(argc - 1, argv + 1);
    if (wants_lines(argc, argv))
        return run_lines(argc, argv);
    if (argc == 2 && (argv[1][0] != '-' || !argv[1][1]))
        return open_part(argv[1]);
    if (argv[1][0] == '-')
        fprintf(stderr, "plyloft: %s is not an option; plyloft --help lists them\n", argv[1]);
    else
        fprintf(stderr, "plyloft: %s is not a command, and a part file stands alone; plyloft --help lists the commands\n",
                argv[1]);
    return PL_EXIT_USAGE;
}
