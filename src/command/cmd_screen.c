#include "command.h"

#include "plyloft/frame.h"
#include "plyloft/keys.h"

#include "screen/bench.h"
#include "screen/lines.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

enum { SIZE_MOST = 1000 };

static bool read_size(const char *text, int *columns, int *rows)
{
    int used = 0;
    bool good = sscanf(text, "%4dx%4d%n", columns, rows, &used) == 2 && !text[used] && *columns >= 1 && *rows >= 1
                && *columns <= SIZE_MOST && *rows <= SIZE_MOST;
    if (!good)
        fprintf(stderr, "plyloft screen: --size: must be columns x rows, each from 1 to %d, such as 80x24 (found %s)\n",
                SIZE_MOST, text);
    return good;
}

static bool read_page(const char *text, enum pl_page *page)
{
    for (int p = 0; p < PL_PAGES; p++)
        if (!strcasecmp(text, pl_page_names[p])) {
            *page = (enum pl_page)p;
            return true;
        }
    fputs("plyloft screen: --page: must be one of", stderr);
    for (int p = 0; p < PL_PAGES; p++)
        fprintf(stderr, "%s %s", p ? "," : "", pl_page_names[p]);
    fprintf(stderr, " (found %s)\n", text);
    return false;
}

/* Where the samples were installed, or where they stand beside a build that was not. */
static const char *samples_folder(void)
{
    return access(PL_SAMPLES, R_OK) ? "samples" : PL_SAMPLES;
}

/* Opens the part; an exit status, with what is wrong said. */
static int open_app(struct pl_app *app, const char *path)
{
    struct pl_loaded l = {.path = path ? path : "plyloft"};
    enum pl_status status = pl_app_open(app, path, &l.problems);
    int code = status == PL_OK ? PL_EXIT_HOLDS : pl_fail(&l, status);
    pl_problems_free(&l.problems);
    return code;
}

/* Draws at every key, as the bench does: what is in sight may depend on the page before. */
static void press(struct pl_app *app, struct pl_frame *f, const char *keys)
{
    struct pl_keys_reader reader;
    pl_keys_start(&reader, keys);
    pl_app_view(app, f);
    for (int key = pl_keys_next(&reader); key != PL_KEY_NONE && !app->leave; key = pl_keys_next(&reader)) {
        pl_app_key(app, key);
        if (!app->leave)
            pl_app_view(app, f);
    }
    while (pl_app_idle(app))  /* nothing to wait for */
        ;
}

static int print_screen(struct pl_app *app, const char *keys, int columns, int rows, bool plain)
{
    struct pl_frame f = {0};
    struct pl_buffer out = {0};
    f.plain = plain;
    if (!pl_frame_resize(&f, rows, columns)) {
        fputs("plyloft screen: not enough memory\n", stderr);
        return PL_EXIT_NO_ANSWER;
    }
    press(app, &f, keys);
    pl_frame_clear(&f);
    if (!app->leave)
        pl_app_view(app, &f);
    pl_frame_print(&f, &out);
    pl_frame_free(&f);
    return pl_print_out(&out, PL_EXIT_HOLDS);
}

int pl_command_screen(int argc, char **argv)
{
    const char *path = NULL, *size = "80x24", *page = NULL, *keys = "";
    bool plain = false;
    const struct pl_option options[] = {{"size", &size, NULL, false}, {"page", &page, NULL, false},
                                        {"keys", &keys, NULL, false}, {"plain", NULL, &plain, false}};
    struct pl_app app = {.samples = samples_folder()};
    enum pl_page first = PL_PAGE_CLOTH;
    int status, columns, rows;
    if (!pl_options_read(argc, argv, options, 4, &path, &status))
        return status;
    if (!read_size(size, &columns, &rows) || (page && !read_page(page, &first)))
        return PL_EXIT_USAGE;
    status = open_app(&app, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    app.session->page = first;
    status = print_screen(&app, keys, columns, rows, plain);
    pl_app_close(&app);
    return status;
}

int pl_command_bench(const char *path)
{
    struct pl_app app = {.samples = samples_folder(), .ask = true};
    struct pl_loaded l = {.path = "plyloft"};  /* what goes wrong now is the terminal's */
    int code = open_app(&app, path);
    if (code != PL_EXIT_HOLDS)
        return code;
    enum pl_status status = pl_bench_run(&app, &l.problems);
    pl_app_close(&app);
    if (status != PL_OK)
        code = pl_fail(&l, status);
    pl_problems_free(&l.problems);
    return code;
}

int pl_command_lines(const char *path)
{
    struct pl_app app = {.samples = samples_folder(), .ask = true};
    struct pl_loaded l = {.path = "plyloft"};
    signal(SIGPIPE, SIG_IGN);  /* output that nobody reads any more is told as an error */
    int code = open_app(&app, path);
    if (code != PL_EXIT_HOLDS)
        return code;
    enum pl_status status = pl_lines_run(&app, stdin, stdout, &l.problems);
    pl_app_close(&app);
    if (status != PL_OK)
        code = pl_fail(&l, status);
    pl_problems_free(&l.problems);
    return code;
}
