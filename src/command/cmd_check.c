#include "command.h"

/* One case is judged with the mass. */
static bool holds_for(const struct pl_verdict *v, size_t only)
{
    return only == PL_NONE ? v->holds : v->cases[only].holds && v->mass_holds;
}

static int report(struct pl_loaded *l, const char *case_name, bool json)
{
    size_t only = case_name ? pl_find_named(l, PL_GROUP_CASE, case_name) : PL_NONE;
    if (case_name && only == PL_NONE)
        return PL_EXIT_INPUT;
    enum pl_status status = pl_solve_run(l->solve, &l->part, &l->problems);
    if (status != PL_OK)
        return pl_fail(l, status);
    bool holds = holds_for(pl_solve_verdict(l->solve), only);
    struct pl_buffer out = {0};
    if (json)
        pl_check_json(l, only, holds, &out);
    else
        pl_check_text(l, only, holds, &out);
    return pl_print_out(&out, holds ? PL_EXIT_HOLDS : PL_EXIT_SHORT);
}

int pl_command_check(int argc, char **argv)
{
    const char *path = NULL, *case_name = NULL;
    bool json = false;
    const struct pl_option options[] = {{"case", &case_name, NULL, false}, {"json", NULL, &json, false}};
    struct pl_loaded l;
    int status;
    if (!pl_options_read(argc, argv, options, 2, &path, &status))
        return status;
    status = pl_load(&l, path);
    if (status != PL_EXIT_HOLDS)
        return status;
    status = report(&l, case_name, json);
    pl_unload(&l);
    return status;
}
