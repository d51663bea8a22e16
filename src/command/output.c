#include "output.h"

#include "command.h"

#include "plyloft/file.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- cells ---- */

void pl_print_cell(struct pl_buffer *out, const char *text, int width, bool more)
{
    pl_buffer_text(out, text);
    for (int i = pl_text_columns(text); more && i < width + 1; i++)
        pl_buffer_text(out, " ");
    if (!more)
        pl_buffer_text(out, "\n");
}

void pl_print_number(struct pl_buffer *out, double value, int width, int decimals)
{
    char text[32] = "-";
    if (!isnan(value))
        pl_number_fixed(text, sizeof text, value, decimals);
    pl_buffer_printf(out, "%*s", width, text);
}

void pl_csv_text(struct pl_buffer *out, const char *text, bool last)
{
    bool quoted = strpbrk(text, ",\"\r\n");
    pl_buffer_text(out, quoted ? "\"" : "");
    for (const char *c = text; *c; c++)
        pl_buffer_add(out, *c == '"' ? "\"\"" : c, *c == '"' ? 2 : 1);
    pl_buffer_text(out, quoted ? "\"" : "");
    pl_buffer_text(out, last ? "\r\n" : ",");
}

void pl_csv_number(struct pl_buffer *out, double value, int decimals)
{
    pl_buffer_number(out, value, decimals);
    pl_buffer_text(out, ",");
}

/* ---- where to ---- */

static bool kind_of(const char *command, const char *path, bool svg, enum pl_output *kind)
{
    static const struct { const char *ending; enum pl_output kind; } endings[] = {
        {".txt", PL_OUTPUT_TEXT}, {".json", PL_OUTPUT_JSON}, {".csv", PL_OUTPUT_CSV}, {".pdf", PL_OUTPUT_PDF}, {".svg", PL_OUTPUT_SVG},
    };
    const char *dot = strrchr(path, '.');
    for (size_t i = 0; dot && i < sizeof endings / sizeof *endings; i++)
        if (!strcmp(dot, endings[i].ending) && (svg || endings[i].kind != PL_OUTPUT_SVG)) {
            *kind = endings[i].kind;
            return true;
        }
    fprintf(stderr, "plyloft %s: -o: must end in .txt, .json, .csv%s (found %s)\n", command, svg ? ", .pdf or .svg" : " or .pdf", path);
    return false;
}

static int put_out(const char *path, struct pl_buffer *out)
{
    struct pl_problems problems = {0};
    char sentence[480];
    if (!path)
        return pl_print_out(out, PL_EXIT_HOLDS);
    enum pl_status status = out->failed ? PL_NO_MEMORY : pl_file_save(path, out->text ? out->text : "", out->length, &problems);
    const struct pl_problem *p = pl_problems_first_error(&problems);
    if (status != PL_OK) {
        if (p)
            pl_problem_sentence(p, NULL, sentence, sizeof sentence);
        fprintf(stderr, "%s: %s\n", path, p ? sentence : "out of memory");
    }
    pl_problems_free(&problems);
    pl_buffer_free(out);
    return status == PL_OK ? PL_EXIT_HOLDS : PL_EXIT_FILE;
}

static int work(struct pl_loaded *l, enum pl_output kind, const char *path, pl_shop_writer *write)
{
    struct pl_shop shop = {0};
    struct pl_buffer out = {0};
    enum pl_status status = pl_solve_run(l->solve, &l->part, &l->problems);
    if (status == PL_OK)
        status = pl_shop_build(&shop, &l->part, pl_solve_verdict(l->solve)->mass_kg, &l->problems);
    if (status == PL_OK)
        write(&l->part, &shop, kind, &out, &status);
    int exit_status = status == PL_OK ? put_out(path, &out) : pl_fail(l, status);
    if (status != PL_OK)
        pl_buffer_free(&out);
    pl_shop_free(&shop);
    return exit_status;
}

int pl_shop_command(int argc, char **argv, bool svg, pl_shop_writer *write)
{
    const char *path = NULL, *to = NULL;
    bool json = false, csv = false;
    enum pl_output kind = PL_OUTPUT_TEXT;
    const struct pl_option options[] = {{"json", NULL, &json, false}, {"csv", NULL, &csv, false}, {"output", &to, NULL, false}};
    struct pl_loaded l;
    int status;
    if (!pl_options_read(argc, argv, options, sizeof options / sizeof *options, &path, &status))
        return status;
    if ((json && csv) || (to && (json || csv))) {
        fprintf(stderr, "plyloft %s: --json, --csv and -o: only one of them\n", argv[0]);
        return PL_EXIT_USAGE;
    }
    kind = json ? PL_OUTPUT_JSON : csv ? PL_OUTPUT_CSV : PL_OUTPUT_TEXT;
    if (to && !kind_of(argv[0], to, svg, &kind))
        return PL_EXIT_USAGE;
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    status = work(&l, kind, to, write);
    pl_unload(&l);
    return status;
}
