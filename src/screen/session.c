#include "session.h"

#include "block.h"
#include "key_file.h"

#include "plyloft/keys.h"
#include "plyloft/place_words.h"

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

void pl_session_say(struct pl_session *s, const char *words, const char *more)
{
    snprintf(s->message, sizeof s->message, "%s%s%s", words, more ? ": " : "", more ? more : "");
}

void pl_session_say_problem(struct pl_session *s, const char *words, const struct pl_problems *problems)
{
    char sentence[480] = "not enough memory";
    if (problems->count)
        pl_problem_sentence(&problems->list[0], NULL, sentence, sizeof sentence);
    pl_session_say(s, words, sentence);
}

void pl_session_problem_words(const struct pl_session *s, const struct pl_problem *problem, char *out, size_t size)
{
    struct pl_problem told = *problem;
    if (problem->place[0] == '/')
        pl_part_place_words(s->document, problem->place, told.place, sizeof told.place);
    pl_problem_sentence(&told, NULL, out, size);
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

static void keep_figures(struct pl_session *s, bool edited)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    if (edited)
        s->before = s->now;
    s->now = (struct pl_figures){true, v->worst_case == PL_NONE ? PL_NOT_GIVEN : v->cases[v->worst_case].least.reserve, v->mass_kg};
}

/* More cloth and less reserve surprises: where energy sets the force, a stiffer wing is struck harder (handbook
 * F4.7). */
static void explain_strike(struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    if (!s->before.there || v->worst_case == PL_NONE || s->message[0])
        return;
    const struct pl_load_case *c = v->cases[v->worst_case].load_case;
    if (c->kind == PL_TIP_STRIKE && !pl_given(c->force_n) && s->now.reserve < s->before.reserve - 0.005
        && s->now.mass_kg > s->before.mass_kg)
        pl_session_say(s, "a stiffer tip is struck harder, since energy sets the force: see where the wall is thin", NULL);
}

static void judge(struct pl_session *s, bool edited)
{
    pl_wing_job_part_changes(s);
    struct pl_part *next = &s->parts[!s->judged];
    pl_problems_clear(&s->problems);
    enum pl_status status = pl_part_build(next, s->document, &s->problems);
    s->built = !s->judged;
    pl_gaps_look(s, status == PL_OK);
    if (status == PL_OK)
        status = pl_solve_run(s->solve, next, &s->problems);
    s->valid = status == PL_OK;
    if (s->valid) {
        s->judged = s->built;
        keep_figures(s, edited);
        hold_inside(s);
        explain_strike(s);
        pl_forgotten_start(s->forgotten, next);
    } else if (status == PL_NO_MEMORY) {
        pl_problem_add(&s->problems, PL_ERROR, "", "not enough memory", NULL);
    }
    pl_trials_judged(s);
}

void pl_session_judge(struct pl_session *s)
{
    judge(s, true);
}

void pl_session_judge_again(struct pl_session *s)
{
    judge(s, false);
}

/* The air round the section at the marker is worked out where it is shown. */
static bool air_step(struct pl_session *s)
{
    struct pl_problems problems = {0};
    struct pl_place_view place;
    const struct pl_part *part = pl_session_part(s);
    bool work = s->page == PL_PAGE_SHAPE && s->element < part->n_elements
                && pl_solve_place(s->solve, part, s->element, s->marker_m, &place, &problems) == PL_OK
                && pl_section_air_aim(s->air, part, s->element, &place);
    pl_problems_free(&problems);
    return work && pl_section_air_step(s->air);
}

bool pl_session_idle(struct pl_session *s)
{
    return s->valid && (pl_shop_job_step(s) || pl_wing_job_step(s) || pl_forgotten_step(s->forgotten) || air_step(s));
}

void pl_session_edited(struct pl_session *s, enum pl_status status, struct pl_problems *problems)
{
    char sentence[480] = "not enough memory";
    if (status == PL_OK)
        pl_session_judge(s);
    else if (problems->count)
        pl_session_problem_words(s, &problems->list[0], sentence, sizeof sentence);
    if (status != PL_OK)
        pl_session_say(s, "not done", sentence);
    pl_problems_free(problems);
}

/* ---- leaving ---- */

static void leave(struct pl_session *s, bool to_start)
{
    s->to_start = to_start;
    if (pl_document_changed(s->document))
        pl_ask(s, PL_ASK_QUIT, "");
    else
        s->leave = true;
}

/* ---- moving about ---- */

static size_t moved(size_t at, int by, size_t count)
{
    if (!count)
        return 0;
    if (by < 0)
        return at > (size_t)-by ? at - (size_t)-by : 0;
    return at + (size_t)by < count ? at + (size_t)by : count - 1;
}

static void choose_case(struct pl_session *s, size_t row)
{
    s->case_row = row;
    s->load_case = row ? row - 1 : PL_NONE;
    if (row && row <= pl_session_part(s)->n_load_cases)
        s->element = pl_session_part(s)->load_cases[row - 1].element;
    hold_inside(s);
}

static void move_row(struct pl_session *s, int by)
{
    const struct pl_block *b = pl_block_here(s);
    int block = s->blocks[s->page];
    if (!b)
        return;
    if (b->kind == PL_CASES || b->kind == PL_CURVES_OF) {
        choose_case(s, moved(s->case_row, by, pl_session_part(s)->n_load_cases + 1));
        return;
    }
    if (pl_block_is_shop(b) && !pl_shop_page(s))
        pl_shop_job_step(s);  /* a row can be chosen once there are any */
    struct pl_cursor c = pl_block_cursor(s, block);
    c.row = moved(c.row, by, pl_block_rows(s, block));
    s->cursors[s->page][block] = c;
    if (s->page == PL_PAGE_LOADS && block == 0)
        choose_case(s, c.row + 1);  /* the drawings speak of the load case in hand */
}

static void move_column(struct pl_session *s, int by)
{
    const struct pl_block *b = pl_block_here(s);
    int block = s->blocks[s->page];
    if (!b)
        return;
    if (b->kind == PL_CASES || b->kind == PL_CURVES_OF) {
        s->curve = (enum pl_curve)moved(s->curve, by, PL_CURVES);
        return;
    }
    if (b->kind == PL_SETTINGS) {
        s->over = (enum pl_over)moved(s->over, by, PL_OVERS);
        return;
    }
    struct pl_cursor c = pl_block_cursor(s, block);
    c.column = moved(c.column, by, pl_block_columns(s, block));
    s->cursors[s->page][block] = c;
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
    size_t count;
    pl_page_blocks(s->page, &count);
    if (count)
        s->blocks[s->page] = (s->blocks[s->page] + (int)count + by) % (int)count;
}

static void next_element(struct pl_session *s)
{
    size_t n = pl_session_part(s)->n_elements;
    s->element = n ? (s->element + 1) % n : 0;
    hold_inside(s);
}

/* All cases of the element, then each of them. */
static void next_case(struct pl_session *s)
{
    const struct pl_part *part = pl_session_part(s);
    size_t i = s->load_case == PL_NONE ? 0 : s->load_case + 1;
    while (i < part->n_load_cases && part->load_cases[i].element != s->element)
        i++;
    choose_case(s, i < part->n_load_cases ? i + 1 : 0);
    pl_session_say(s, "drawings show", s->load_case == PL_NONE ? "all load cases" : part->load_cases[s->load_case].name);
}

/* To the field that keeps the part from being judged. */
static void go_to_error(struct pl_session *s, const struct pl_problem *p)
{
    char sentence[480];
    pl_session_problem_words(s, p, sentence, sizeof sentence);
    pl_session_say(s, pl_block_go_to(s, p->place) ? "this is why" : "no page has the field", sentence);
}

/* Where the lowest reserve is: of the case shown, or of all. */
static void go_to_weakest(struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    const struct pl_problem *error = pl_problems_first_error(&s->problems);
    if (!s->valid && error) {
        go_to_error(s, error);
        return;
    }
    size_t worst = !s->valid || !v ? PL_NONE : s->load_case != PL_NONE ? s->load_case : v->worst_case;
    if (worst == PL_NONE) {
        pl_session_say(s, "nothing has been judged", NULL);
        return;
    }
    const struct pl_case_result *c = &v->cases[worst];
    s->element = c->load_case->element;
    s->marker_m = c->least.y_m;
    if (c->least.mode == PL_MODE_PLY || c->least.mode == PL_MODE_WRINKLING)
        s->side = c->least.side;
    if (c->least_pinned)
        pl_session_say(s, "that is with the mounts pinned; drawings show them as given", NULL);
    hold_inside(s);
}

enum { MARKER_PARTS_A_M = 10000 };

static void put_marker(struct pl_session *s, int argument)
{
    double y_m = (double)argument / MARKER_PARTS_A_M;
    if (s->held.on)
        pl_hold_move_to(s, y_m);
    else
        s->marker_m = y_m;
    hold_inside(s);
}

int pl_marker_argument(double y_m)
{
    return (int)round(y_m * MARKER_PARTS_A_M);
}

/* A cell, or a row in the column that the cursor stands in. */
static void choose_cell(struct pl_session *s, int argument, bool row)
{
    int block = argument / 65536;
    struct pl_cursor *cursor = &s->cursors[s->page][block];
    s->blocks[s->page] = block;
    cursor->row = (size_t)argument % 65536 / 16;
    cursor->column = row ? cursor->column : (size_t)argument % 16;
    if (s->page == PL_PAGE_LOADS && block == 0)
        choose_case(s, cursor->row + 1);  /* the drawings speak of the load case in hand */
}

enum { MANY_ROWS = 8, ALL_ROWS = 1000000 };

static bool move(struct pl_session *s, enum pl_action action, int argument)
{
    switch (action) {
    case PL_DO_UP: move_row(s, -1); return true;
    case PL_DO_DOWN: move_row(s, 1); return true;
    case PL_DO_LEFT: move_column(s, -1); return true;
    case PL_DO_RIGHT: move_column(s, 1); return true;
    case PL_DO_PAGE_UP: move_row(s, -MANY_ROWS); return true;
    case PL_DO_PAGE_DOWN: move_row(s, MANY_ROWS); return true;
    case PL_DO_HOME: move_row(s, -ALL_ROWS); return true;
    case PL_DO_END: move_row(s, ALL_ROWS); return true;
    case PL_DO_NEXT_BLOCK: next_block(s, 1); return true;
    case PL_DO_BLOCK_BEFORE: next_block(s, -1); return true;
    case PL_DO_PAGE: s->page = (enum pl_page)argument; return true;
    case PL_DO_MARKER_LEFT: move_marker(s, -1); return true;
    case PL_DO_MARKER_RIGHT: move_marker(s, 1); return true;
    case PL_DO_MARKER_AT: put_marker(s, argument); return true;
    case PL_DO_WEAKEST: go_to_weakest(s); return true;
    case PL_DO_NEXT_CASE: next_case(s); return true;
    case PL_DO_SIDE: s->side = s->side == PL_TOP ? PL_BOTTOM : PL_TOP; return true;
    case PL_DO_ELEMENT: next_element(s); return true;
    case PL_DO_CHOOSE_CELL: choose_cell(s, argument, false); return true;
    case PL_DO_CHOOSE_ROW: choose_cell(s, argument, true); return true;
    case PL_DO_CHOOSE_CASE: choose_case(s, (size_t)argument); return true;
    case PL_DO_CHOOSE_BLOCK: s->blocks[s->page] = argument; return true;
    default: return false;
    }
}

static void switch_mouse(struct pl_session *s)
{
    s->mouse = !s->mouse;
    pl_session_say(s, s->mouse ? "mouse on: click what is to be chosen" : "mouse off", NULL);
}

static void ask_state(struct pl_session *s)
{
    if (pl_trials_count(s) > 1)
        pl_ask(s, PL_PICK_STATE, "");
    else
        pl_trials_bring(s, 0);
}

static void write_keys(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char *path;
    bool written;
    if (pl_key_file_write(&path, &written, &problems) == PL_OK)
        pl_session_say(s, written ? "written, to be changed and read at the next start" : "there already, read at the start", path);
    else
        pl_session_say_problem(s, "not written", &problems);
    free(path);
    pl_problems_free(&problems);
}

static void change(struct pl_session *s, enum pl_action action)
{
    switch (action) {
    case PL_DO_ENTER: pl_cell_enter(s); break;
    case PL_DO_STEP_UP: pl_cell_step(s, 1); break;
    case PL_DO_STEP_DOWN: pl_cell_step(s, -1); break;
    case PL_DO_HOLD_END: pl_hold_start(s); break;
    case PL_DO_UNDO: pl_session_undo(s, true); break;
    case PL_DO_REDO: pl_session_undo(s, false); break;
    case PL_DO_EDITS: pl_ask(s, PL_PICK_EDIT, ""); break;
    case PL_DO_KEEP_STATE: pl_trials_keep(s); break;
    case PL_DO_BRING_BACK: ask_state(s); break;
    case PL_DO_FIND: pl_ask(s, PL_FIND_ACTION, ""); break;
    case PL_DO_MOUSE: switch_mouse(s); break;
    case PL_DO_WRITE_KEYS: write_keys(s); break;
    case PL_DO_SAVE: pl_session_save(s, false); break;
    case PL_DO_SAVE_AS: pl_ask(s, PL_ASK_PATH, ""); break;
    case PL_DO_WRITE_KIT: pl_ask(s, PL_ASK_KIT, ""); break;
    case PL_DO_WRITE_BOOK: pl_ask(s, PL_ASK_BOOK, ""); break;
    case PL_DO_START: leave(s, true); break;
    case PL_DO_QUIT: leave(s, false); break;
    case PL_DO_HELP: pl_ask(s, PL_SHOW_HELP, ""); break;
    case PL_DO_ADD: pl_row_add_here(s); break;
    case PL_DO_COPY: pl_row_copy_here(s); break;
    case PL_DO_REMOVE: pl_row_remove_here(s, false); break;
    case PL_DO_ROW_UP: pl_row_move_here(s, -1); break;
    case PL_DO_ROW_DOWN: pl_row_move_here(s, 1); break;
    case PL_DO_SWITCH: pl_row_switch_here(s); break;
    case PL_DO_MATERIAL: pl_ask(s, PL_PICK_MATERIAL, ""); break;
    case PL_DO_KEEP_OWN: pl_materials_keep(s); break;
    case PL_DO_PROFILE: pl_ask(s, PL_ASK_PROFILE, ""); break;
    default: break;
    }
}

void pl_session_act(struct pl_session *s, int action, int argument)
{
    s->message[0] = '\0';
    if (s->page == PL_PAGE_TRIALS && pl_trials_act(s, (enum pl_action)action, argument))
        return;
    if (!move(s, (enum pl_action)action, argument))
        change(s, (enum pl_action)action);
}

void pl_session_click(struct pl_session *s, int action, int argument)
{
    struct pl_question *q = pl_question_of(s);
    if (action == PL_DO_PRESS) {
        pl_session_key(s, argument);
    } else if (q) {
        if (action != PL_DO_CHOOSE_ITEM)
            return;
        q->chosen = (size_t)argument;
        pl_question_key(s, PL_KEY_ENTER);
    } else if (!s->typing && (!s->held.on || action == PL_DO_MARKER_AT)) {
        pl_session_act(s, action, argument);
    }
}

void pl_session_key(struct pl_session *s, int key)
{
    const struct pl_doing *doing = pl_keymap_find(&s->keys, key);
    if (s->n_questions)
        pl_question_key(s, key);
    else if (s->typing)
        pl_cell_key(s, key);
    else if (s->held.on)
        pl_hold_key(s, key);
    else if (doing)
        pl_session_act(s, (int)doing->action, doing->argument);
}
