#include "session.h"

#include "plyloft/file.h"
#include "plyloft/keys.h"
#include "plyloft/part_edit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *const pl_page_names[PL_PAGES] = {"Shape", "Cloth", "Loads", "Strength", "Joints", "Shop", "Trials", "Log"};

static const double marker_step_m = 0.010;

double pl_session_semispan_m(const struct pl_session *s)
{
    const struct pl_part *part = pl_session_part(s);
    return s->element < part->n_elements ? pl_element_semispan_m(&part->elements[s->element]) : 0;
}

/* ---- figures ---- */

static void hold_inside(struct pl_session *s)
{
    const struct pl_part *part = pl_session_part(s);
    double semispan_m = pl_session_semispan_m(s);
    if (s->element >= part->n_elements)
        s->element = 0;
    if (s->load_case != PL_NONE && s->load_case >= part->n_load_cases)
        s->load_case = PL_NONE;
    s->marker_m = fmin(semispan_m, fmax(-semispan_m, s->marker_m));
}

static void keep_figures(struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    s->before = s->now;
    s->now = (struct pl_figures){true, v->worst_case == PL_NONE ? PL_NOT_GIVEN : v->cases[v->worst_case].least.reserve, v->mass_kg};
}

void pl_session_judge(struct pl_session *s)
{
    struct pl_part *next = &s->parts[!s->judged];
    pl_problems_clear(&s->problems);
    enum pl_status status = pl_part_build(next, s->document, &s->problems);
    if (status == PL_OK)
        status = pl_solve_run(s->solve, next, &s->problems);
    s->valid = status == PL_OK;
    if (s->valid) {
        s->judged = !s->judged;
        keep_figures(s);
        hold_inside(s);
    } else if (status == PL_NO_MEMORY) {
        pl_problem_add(&s->problems, PL_ERROR, "", "not enough memory", NULL);
    }
}

/* ---- opening and closing ---- */

static enum pl_status open_document(struct pl_session *s, const char *path, struct pl_problems *problems)
{
    char *bytes;
    size_t length;
    enum pl_status status = pl_file_read(path, &bytes, &length, problems);
    if (status != PL_OK)
        return status;
    status = pl_document_read(&s->document, bytes, length, problems);
    free(bytes);
    return status;
}

enum pl_status pl_session_open(struct pl_session **out, const char *path, struct pl_problems *problems)
{
    struct pl_session *s = calloc(1, sizeof *s);
    *out = NULL;
    if (!s)
        return PL_NO_MEMORY;
    s->path = strdup(path);
    s->solve = pl_solve_new();
    s->page = PL_PAGE_CLOTH;
    s->load_case = PL_NONE;
    enum pl_status status = s->path && s->solve ? open_document(s, path, problems) : PL_NO_MEMORY;
    if (status != PL_OK) {
        pl_session_close(s);
        return status;
    }
    pl_session_judge(s);
    s->before.there = false;
    *out = s;
    return PL_OK;
}

void pl_session_close(struct pl_session *s)
{
    if (!s)
        return;
    pl_document_free(s->document);
    pl_solve_free(s->solve);
    pl_part_free(&s->parts[0]);
    pl_part_free(&s->parts[1]);
    pl_problems_free(&s->problems);
    free(s->path);
    free(s);
}

/* ---- actions ---- */

static void say(struct pl_session *s, const char *words, const char *more)
{
    snprintf(s->message, sizeof s->message, "%s%s%s", words, more ? ": " : "", more ? more : "");
}

static bool save(struct pl_session *s)
{
    struct pl_problems problems = {0};
    size_t length;
    const char *bytes = pl_document_bytes(s->document, &length);
    bool good = strcmp(s->path, "-") && pl_file_save(s->path, bytes, length, &problems) == PL_OK;
    if (good) {
        pl_document_saved(s->document);
        say(s, "saved", s->path);
    } else {
        say(s, "not saved", problems.count ? problems.list[0].rule : "it came from standard input, which has no file to save to");
    }
    pl_problems_free(&problems);
    return good;
}

static void quit(struct pl_session *s)
{
    if (pl_document_changed(s->document))
        s->question = PL_ASK_QUIT;
    else
        s->leave = true;
}

static void undo(struct pl_session *s, bool back)
{
    char name[200] = "";
    size_t done = pl_document_steps_done(s->document), step = back ? done - 1 : done;
    if (back ? done > 0 : done < pl_document_steps(s->document))
        snprintf(name, sizeof name, "%s", pl_document_step_name(s->document, step));
    if (back ? pl_document_undo(s->document) : pl_document_redo(s->document)) {
        pl_session_judge(s);
        say(s, back ? "undone" : "redone", name);
    } else {
        say(s, back ? "nothing to undo" : "nothing to redo", NULL);
    }
}

static bool on_fields(const struct pl_session *s)
{
    return s->page == PL_PAGE_CLOTH && pl_block_rows(s, s->block) > 0;
}

static void step(struct pl_session *s, int way)
{
    char pointer[128];
    struct pl_problems problems = {0};
    struct pl_cursor c = pl_block_cursor(s);
    if (!on_fields(s))
        return;
    pl_block_pointer(s, s->block, c.row, c.column, pointer, sizeof pointer);
    unsigned long before = pl_document_revision(s->document);
    if (pl_part_step(s->document, pointer, way, &problems) != PL_OK)
        say(s, "not changed", problems.count ? problems.list[0].rule : "not enough memory");
    else if (pl_document_revision(s->document) != before)
        pl_session_judge(s);
    else
        say(s, "that is as far as it goes", NULL);
    pl_problems_free(&problems);
}

static size_t moved(size_t at, int by, size_t count)
{
    if (!count)
        return 0;
    if (by < 0)
        return at > (size_t)-by ? at - (size_t)-by : 0;
    return at + (size_t)by < count ? at + (size_t)by : count - 1;
}

static void move_row(struct pl_session *s, int by)
{
    if (s->page == PL_PAGE_CLOTH) {
        struct pl_cursor c = pl_block_cursor(s);
        s->cursors[s->block] = (struct pl_cursor){moved(c.row, by, pl_block_rows(s, s->block)), c.column};
    } else if (s->page == PL_PAGE_STRENGTH) {
        s->case_row = moved(s->case_row, by, pl_session_part(s)->n_load_cases + 1);
        s->load_case = s->case_row ? s->case_row - 1 : PL_NONE;
        if (s->load_case != PL_NONE)
            s->element = pl_session_part(s)->load_cases[s->load_case].element;
        hold_inside(s);
    }
}

static void move_column(struct pl_session *s, int by)
{
    const struct pl_block_column *columns;
    if (s->page == PL_PAGE_CLOTH) {
        struct pl_cursor c = pl_block_cursor(s);
        c.column = moved(c.column, by, pl_block_columns(s->block, c.row, &columns));
        s->cursors[s->block] = c;
    } else if (s->page == PL_PAGE_STRENGTH) {
        s->curve = (enum pl_curve)moved(s->curve, by, PL_CURVES);
    }
}

static void move_marker(struct pl_session *s, int by)
{
    /* Whole steps from the centreline, whatever the marker stood on. */
    double steps = s->marker_m / marker_step_m, to = by > 0 ? floor(steps + 1e-6) + 1 : ceil(steps - 1e-6) - 1;
    s->marker_m = to * marker_step_m;
    hold_inside(s);
}

static void next_block(struct pl_session *s, int by)
{
    if (s->page == PL_PAGE_CLOTH)
        s->block = (enum pl_block)(((int)s->block + PL_BLOCKS + by) % PL_BLOCKS);
    else
        s->strength_block = (enum pl_strength_block)(((int)s->strength_block + PL_STRENGTH_BLOCKS + by) % PL_STRENGTH_BLOCKS);
}

static void next_element(struct pl_session *s)
{
    size_t n = pl_session_part(s)->n_elements;
    s->element = n ? (s->element + 1) % n : 0;
    hold_inside(s);
}

enum { MANY_ROWS = 8, ALL_ROWS = 1000000 };

void pl_session_act(struct pl_session *s, int action, int argument)
{
    s->message[0] = '\0';
    switch ((enum pl_action)action) {
    case PL_DO_NOTHING: break;
    case PL_DO_UP: move_row(s, -1); break;
    case PL_DO_DOWN: move_row(s, 1); break;
    case PL_DO_LEFT: move_column(s, -1); break;
    case PL_DO_RIGHT: move_column(s, 1); break;
    case PL_DO_PAGE_UP: move_row(s, -MANY_ROWS); break;
    case PL_DO_PAGE_DOWN: move_row(s, MANY_ROWS); break;
    case PL_DO_HOME: move_row(s, -ALL_ROWS); break;
    case PL_DO_END: move_row(s, ALL_ROWS); break;
    case PL_DO_NEXT_BLOCK: next_block(s, 1); break;
    case PL_DO_BLOCK_BEFORE: next_block(s, -1); break;
    case PL_DO_PAGE: s->page = (enum pl_page)argument; break;
    case PL_DO_TYPE:
        if (on_fields(s))
            pl_typing_start(s);
        break;
    case PL_DO_BACK: break;
    case PL_DO_STEP_UP: step(s, 1); break;
    case PL_DO_STEP_DOWN: step(s, -1); break;
    case PL_DO_MARKER_LEFT: move_marker(s, -1); break;
    case PL_DO_MARKER_RIGHT: move_marker(s, 1); break;
    case PL_DO_UNDO: undo(s, true); break;
    case PL_DO_REDO: undo(s, false); break;
    case PL_DO_SAVE: save(s); break;
    case PL_DO_QUIT: quit(s); break;
    case PL_DO_HELP:
        s->question = PL_SHOW_HELP;
        s->help_row = 0;
        break;
    case PL_DO_SIDE: s->side = s->side == PL_TOP ? PL_BOTTOM : PL_TOP; break;
    case PL_DO_ELEMENT: next_element(s); break;
    case PL_DO_CHOOSE_ROW:
        if (s->page == PL_PAGE_CLOTH)
            s->cursors[s->block] = (struct pl_cursor){(size_t)argument / 16, (size_t)argument % 16};
        break;
    case PL_DO_CHOOSE_CASE:
        s->case_row = 0;
        move_row(s, argument);
        break;
    }
}

static void answer(struct pl_session *s, int key)
{
    if (s->question == PL_SHOW_HELP) {
        if (key == PL_KEY_DOWN || key == PL_KEY_PAGE_DOWN)
            s->help_row = (int)moved((size_t)s->help_row, key == PL_KEY_DOWN ? 1 : MANY_ROWS, pl_n_bindings);
        else if (key == PL_KEY_UP || key == PL_KEY_PAGE_UP)
            s->help_row = (int)moved((size_t)s->help_row, key == PL_KEY_UP ? -1 : -MANY_ROWS, pl_n_bindings);
        else
            s->question = PL_NO_QUESTION;
        return;
    }
    if (key == 's')
        s->leave = save(s);
    else if (key == 'd')
        s->leave = true;
    if (key == 's' || key == PL_KEY_ESCAPE)
        s->question = PL_NO_QUESTION;
}

void pl_session_key(struct pl_session *s, int key)
{
    const struct pl_binding *binding = pl_binding_of(key);
    if (s->question != PL_NO_QUESTION)
        answer(s, key);
    else if (s->typing)
        pl_typing_key(s, key);
    else if (binding)
        pl_session_act(s, binding->action, binding->argument);
}
