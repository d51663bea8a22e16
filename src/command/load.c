#include "command.h"

#include "plyloft/file.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int exit_of(enum pl_status status)
{
    switch (status) {
    case PL_OK: return PL_EXIT_HOLDS;
    case PL_BAD_INPUT: return PL_EXIT_INPUT;
    case PL_CANNOT_READ:
    case PL_CANNOT_WRITE: return PL_EXIT_FILE;
    case PL_NO_MEMORY:
    case PL_NOT_CONVERGED: break;
    }
    return PL_EXIT_NO_ANSWER;
}

void pl_say_problems(const struct pl_loaded *l, size_t first, bool warnings)
{
    char sentence[1024];
    for (size_t i = first; i < l->problems.count; i++) {
        const struct pl_problem *p = &l->problems.list[i];
        if (p->severity == PL_WARNING && !warnings)
            continue;
        pl_problem_sentence(p, NULL, sentence, sizeof sentence);
        fprintf(stderr, "%s: %s%s\n", l->path, p->severity == PL_WARNING ? "warning: " : "", sentence);
    }
    if (l->problems.dropped)
        fprintf(stderr, "%s: and %zu more\n", l->path, l->problems.dropped);
}

int pl_fail(const struct pl_loaded *l, enum pl_status status)
{
    pl_say_problems(l, 0, false);
    if (status == PL_NO_MEMORY)
        fprintf(stderr, "%s: not enough memory\n", l->path);
    return exit_of(status);
}

static enum pl_status load(struct pl_loaded *l)
{
    char *bytes;
    size_t length;
    enum pl_status status = pl_file_read(l->path, &bytes, &length, &l->problems);
    if (status != PL_OK)
        return status;
    status = pl_document_read(&l->document, bytes, length, &l->problems);
    free(bytes);
    if (status == PL_OK)
        status = pl_part_build(&l->part, l->document, &l->problems);
    if (status != PL_OK)
        return status;
    l->solve = pl_solve_new();
    return l->solve ? PL_OK : PL_NO_MEMORY;
}

int pl_load(struct pl_loaded *l, const char *path)
{
    *l = (struct pl_loaded){.path = path};
    enum pl_status status = load(l);
    if (status == PL_OK)
        return PL_EXIT_HOLDS;
    int code = pl_fail(l, status);
    pl_unload(l);
    return code;
}

void pl_unload(struct pl_loaded *l)
{
    pl_solve_free(l->solve);
    pl_part_free(&l->part);
    pl_document_free(l->document);
    pl_problems_free(&l->problems);
}

size_t pl_find_named(const struct pl_loaded *l, enum pl_group_id group, const char *name)
{
    const struct pl_group *g = &pl_groups[group];
    const char *rows = *(const char *const *)((const char *)&l->part + g->at);
    size_t count = *(const size_t *)((const char *)&l->part + g->count_at);
    for (size_t i = 0; i < count; i++)
        if (!strcmp(*(const char *const *)(rows + i * g->stride + g->fields[0].at), name))
            return i;
    char safe[128];
    pl_text_safe(safe, sizeof safe, name);
    fprintf(stderr, "%s: /%s: has no %s of that name (found %s)\n", l->path, g->key, g->noun, safe);
    return PL_NONE;
}

int pl_load_place(struct pl_loaded *l, const char *element, double y_mm, struct pl_place_view *view)
{
    size_t e = element ? pl_find_named(l, PL_GROUP_ELEMENT, element) : 0;
    if (e == PL_NONE)
        return PL_EXIT_INPUT;
    double semispan_m = pl_element_semispan_m(&l->part.elements[e]);
    if (fabs(1e-3 * y_mm) > semispan_m + PL_SAME_PLACE_M) {
        fprintf(stderr, "%s: /elements/%zu: the span ends at %.6g mm from the centreline (found %.6g)\n", l->path, e,
                1e3 * semispan_m, y_mm);
        return PL_EXIT_INPUT;
    }
    enum pl_status status = pl_solve_place(l->solve, &l->part, e, 1e-3 * y_mm, view, &l->problems);
    if (status != PL_OK)
        return pl_fail(l, status);
    pl_say_problems(l, 0, true);
    return PL_EXIT_HOLDS;
}

int pl_print_out(struct pl_buffer *out, int status)
{
    bool written = !out->length || fwrite(out->text, 1, out->length, stdout) == out->length;
    bool good = !out->failed && written && !fflush(stdout);
    pl_buffer_free(out);
    if (good)
        return status;
    fputs("plyloft: standard output could not be written\n", stderr);
    return PL_EXIT_FILE;
}

size_t pl_find_downforce(const struct pl_loaded *l, const char *name)
{
    size_t found = pl_find_named(l, PL_GROUP_CASE, name);
    if (found != PL_NONE && l->part.load_cases[found].kind != PL_DOWNFORCE) {
        fprintf(stderr, "%s: /load_cases/%zu/kind: must be downforce for a flow\n", l->path, found);
        return PL_NONE;
    }
    return found;
}
