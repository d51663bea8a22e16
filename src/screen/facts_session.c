/* Facts of where the person is: the part, the page, the row and the field. */
#include "facts.h"

#include "block.h"
#include "view.h"

#include "plyloft/buffer.h"
#include "plyloft/part_edit.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- the part ---- */

static const char *text_at(const struct pl_session *s, const char *pointer)
{
    pl_node node = pl_document_find(s->document, pointer);
    return node == PL_NO_NODE ? "" : pl_node_text(s->document, node);
}

static void add_part(struct pl_facts *f, const struct pl_session *s)
{
    const char *name = text_at(s, "/name"), *revision = text_at(s, "/revision");
    const struct pl_part *part = pl_session_part(s);
    pl_facts_addf(f, "part", NULL, "%s%s%s", name, revision[0] ? ", revision " : "", revision);
    if (part->n_elements > 1 && s->element < part->n_elements)
        pl_facts_addf(f, "element", NULL, "%s, %zu of %zu", part->elements[s->element].name, s->element + 1,
                      part->n_elements);
    pl_facts_add(f, "file", NULL, s->path);
    pl_facts_add(f, "changes", NULL, pl_document_changed(s->document) ? "not saved" : "none");
}

/* ---- the page ---- */

/* "this ply group: top cap": whose sheet it is. */
static void add_block(struct pl_facts *f, const struct pl_session *s, const struct pl_block *b, size_t count)
{
    char pointer[256], name[96] = "";
    int block = s->blocks[s->page];
    if (b->kind == PL_SHEET && b->of >= 0 && pl_block_list(s, block, pointer, sizeof pointer))
        pl_part_row_words(s->document, pointer, name, sizeof name);
    pl_facts_addf(f, "part of page", NULL, "%s%s%s, %d of %zu", b->title, name[0] ? ": " : "", name, block + 1, count);
    pl_facts_place(f, s->page);
}

/* "reserve, pit jack: now 1.08, A 1.02" */
static void add_trial_row(struct pl_facts *f, const struct pl_session *s, size_t row, const char *group)
{
    struct pl_trial_row t;
    char words[PL_FACT_WORDS];
    pl_trials_row(s, row, &t);
    snprintf(words, sizeof words, "%s%s%s:", group, group[0] ? ", " : "", t.label);
    for (size_t c = 0; c < pl_trials_count(s); c++) {
        size_t used = strlen(words);
        snprintf(words + used, sizeof words - used, " %s %s%s", pl_trials_letter(pl_trials_slot(s, c)), t.values[c], c + 1 < pl_trials_count(s) ? "," : "");
    }
    pl_facts_add(f, "compared", NULL, words);
}

static void add_trials(struct pl_facts *f, const struct pl_session *s)
{
    char group[96] = "";
    size_t n = pl_trials_rows(s), column = s->trials.column;
    if (!n) {
        pl_facts_add(f, "columns", NULL, "nothing is kept yet");
        return;
    }
    size_t slot = pl_trials_slot(s, column);
    pl_facts_addf(f, "column", NULL, "%s, %zu of %zu: %s", pl_trials_letter(slot), column + 1, pl_trials_count(s),
                  slot ? s->trials.states[slot].name : "the part as it is now");
    for (size_t i = 0; i < n; i++) {
        struct pl_trial_row t;
        pl_trials_row(s, i, &t);
        if (t.heading)
            snprintf(group, sizeof group, "%s", t.label);
        else
            add_trial_row(f, s, i, group);
    }
}

static void add_page(struct pl_facts *f, const struct pl_session *s)
{
    const struct pl_block *b = pl_block_here(s);
    size_t count;
    pl_page_blocks(s->page, &count);
    pl_facts_addf(f, "page", NULL, "%s, %d of %d%s", pl_page_names[s->page], (int)s->page + 1, (int)PL_PAGES,
                  b || s->page == PL_PAGE_TRIALS ? "" : ", still to come");
    if (b)
        add_block(f, s, b, count);
    else if (s->page == PL_PAGE_TRIALS)
        add_trials(f, s);
}

/* ---- the row ---- */

/* Tells rows and cells of this page and others apart. */
static size_t place_of(const struct pl_session *s, int block, size_t row, size_t column)
{
    return (((s->element * PL_PAGES + s->page) * PL_BLOCKS_MOST + (size_t)block) * 4096 + row) * 32 + column;
}

static void add_result_row(struct pl_facts *f, const struct pl_session *s)
{
    const struct pl_part *part = pl_session_part(s);
    bool one = s->case_row && s->case_row <= part->n_load_cases;
    pl_facts_addf(f, "row", NULL, "%s, %zu of %zu", one ? part->load_cases[s->case_row - 1].name : "all load cases",
                  s->case_row + 1, part->n_load_cases + 1);
}

static void add_problem_row(struct pl_facts *f, const struct pl_session *s, size_t row, size_t count)
{
    const struct pl_problem *p = &s->problems.list[row];
    char sentence[640];
    pl_session_problem_words(s, p, sentence, sizeof sentence);
    pl_facts_addf(f, "row", NULL, "%s%s, %zu of %zu", p->severity == PL_ERROR ? "error: " : "", sentence, row + 1,
                  count);
}

static void add_field_row(struct pl_facts *f, const struct pl_session *s, const struct pl_block *b, size_t row,
                          size_t count)
{
    char name[160];
    pl_block_row_words(s, s->blocks[s->page], row, name, sizeof name);
    if (b->kind == PL_SHEET)
        pl_facts_addf(f, "row", NULL, "%zu of %zu", row + 1, count);  /* named by its field, which comes next */
    else
        pl_facts_addf(f, "row", NULL, "%s, %zu of %zu", name, row + 1, count);
}

/* The section at the marker in the air. */
static void add_air(struct pl_facts *f, const struct pl_session *s)
{
    struct pl_section_air_view v = pl_section_air_view(s->air);
    struct pl_polar_doubt doubts[PL_POLAR_DOUBTS];
    char alpha[32], lift[32], potential[32], drag[32];
    if (v.failed || !v.own) {
        pl_facts_addf(f, "row", NULL, "the section alone: %s", v.failed ? v.failed : "being worked out");
        return;
    }
    pl_number_fixed(alpha, sizeof alpha, v.own_alpha_deg, 1);
    pl_number_fixed(lift, sizeof lift, v.own->cl, 2);
    pl_number_fixed(potential, sizeof potential, v.own->cl_potential, 2);
    pl_number_fixed(drag, sizeof drag, v.own->cd, 4);
    pl_facts_addf(f, "row", NULL, "the section alone at %s degrees: lift %s, %s without boundary layers, drag %s", alpha, lift, potential, drag);
    size_t best = pl_polar_greatest(v.rows, v.n_rows), n = pl_polar_doubts(v.own, v.reynolds, (double)NAN, doubts);
    if (best != PL_NONE) {
        pl_number_fixed(lift, sizeof lift, v.rows[best].cl, 2);
        pl_number_fixed(alpha, sizeof alpha, v.rows[best].alpha_deg, 0);
        pl_facts_addf(f, "greatest lift", NULL, "%s at %s degrees", lift, alpha);
    }
    for (size_t i = 0; i < n; i++)
        pl_facts_add(f, "doubt", NULL, doubts[i].sentence);
}

/* The wing in the flow of the load case in hand. */
static void add_flow(struct pl_facts *f, const struct pl_session *s)
{
    struct pl_wing_job_view v = pl_wing_job_view(s);
    char lines[PL_FLOW_LINES][160];
    size_t n = pl_flow_lines(s, lines);
    for (size_t i = 0; i < n; i++)
        pl_facts_add(f, i ? "flow" : "row", NULL, lines[i]);
    for (size_t i = 0; v.rows && i < v.totals.n_doubts; i++)
        pl_facts_add(f, "doubt", NULL, v.totals.doubts[i]);
}

static void add_settings(struct pl_facts *f, const struct pl_session *s)
{
    char words[400];
    const char *doubt;
    for (size_t i = 0; i < pl_settings_words(s, i, words, sizeof words); i++)
        pl_facts_add(f, i ? "setting" : "row", NULL, words);
    for (size_t i = 0; (doubt = pl_driver_doubt(s->driver, i)); i++)
        pl_facts_add(f, "doubt", NULL, doubt);
}

static void add_shop(struct pl_facts *f, const struct pl_session *s, const struct pl_block *b, size_t row)
{
    const struct pl_shop_page *page = pl_shop_page(s);
    if (!page || page->failed[0]) {
        pl_facts_add(f, "row", NULL, page ? page->failed : "being worked out");
    } else if (b->kind == PL_SHOP_PIECES && row < page->n_pieces) {
        const struct pl_kit_cells *c = &page->pieces[row];
        pl_facts_addf(f, "row", NULL, "%s, %s, %s, %s, %s degrees, cut %s%s%s, %zu of %zu", c->text[0], c->text[1], c->text[2], c->text[3], c->text[4], c->text[6],
                      *c->text[7] ? ", " : "", c->text[7], row + 1, page->n_pieces);
    } else if (b->kind == PL_SHOP_ROLLS && row < page->n_rolls) {
        pl_facts_addf(f, "row", NULL, "%s: %s", page->rolls[row].name, page->rolls[row].words);
    } else if (b->kind == PL_SHOP_RESIN && row < page->n_lines) {
        pl_facts_add(f, "row", NULL, page->lines[row].text);
    }
}

static void add_row(struct pl_facts *f, const struct pl_session *s, const struct pl_block *b)
{
    int block = s->blocks[s->page];
    size_t count = pl_block_rows(s, block), row = pl_block_cursor(s, block).row;
    if (b->kind == PL_CASES || b->kind == PL_CURVES_OF)
        add_result_row(f, s);
    else if (b->kind == PL_AIR && s->page == PL_PAGE_LOADS)
        add_flow(f, s);
    else if (b->kind == PL_SETTINGS)
        add_settings(f, s);
    else if (pl_block_is_shop(b))
        add_shop(f, s, b, row);
    else if (b->kind == PL_AIR)
        add_air(f, s);
    else if (!count)
        pl_facts_add(f, "row", NULL, b->kind == PL_WARNINGS ? "none" : "none; a adds");
    else if (b->kind == PL_WARNINGS)
        add_problem_row(f, s, row, count);
    else
        add_field_row(f, s, b, row, count);
    pl_facts_place(f, place_of(s, block, 0, 0));
}

/* ---- the field ---- */

static void add_field(struct pl_facts *f, const struct pl_session *s)
{
    char pointer[256], value[400];
    enum pl_group_id group;
    int block = s->blocks[s->page];
    if (!pl_block_pointer_here(s, pointer, sizeof pointer))
        return;
    struct pl_cursor c = pl_block_cursor(s, block);
    const struct pl_field *field = pl_field_at(pointer, &group);
    pl_cell_words(s, pointer, value, sizeof value);
    bool unit = field && field->unit != PL_NO_UNIT && pl_cell_there(s, pointer);
    pl_facts_addf(f, "field", NULL, "%s, %s%s%s", field ? field->label : "value",
                  strcmp(value, "-") ? value : "left out", unit ? " " : "", unit ? pl_unit_name(field->unit) : "");
    pl_facts_place(f, place_of(s, block, c.row, c.column));
    pl_cell_more_words(s, pointer, value, sizeof value);
    pl_facts_add(f, "field in proportion", NULL, value);
    pl_facts_add(f, "help", NULL, field ? field->help : "");
}

/* ---- the ply group in hand, as the list of the lay-up has it beside the fields ---- */

static bool group_here(const struct pl_session *s, size_t *item)
{
    const struct pl_block *b = pl_block_here(s);
    const struct pl_part *part = pl_session_part(s);
    if (!s->valid || !b || b->group != PL_GROUP_LAYUP || s->element >= part->n_elements)
        return false;
    *item = pl_block_cursor(s, b->kind == PL_SHEET ? b->of : s->blocks[s->page]).row;
    return *item < part->elements[s->element].n_layup;
}

static bool plies_here(const struct pl_session *s, size_t item, size_t *plies)
{
    struct pl_problems problems = {0};
    struct pl_place_view place;
    bool good = pl_solve_place(s->solve, pl_session_part(s), s->element, s->marker_m, &place, &problems) == PL_OK;
    if (good)
        *plies = pl_solve_item_plies(s->solve, s->marker_m, item);
    pl_problems_free(&problems);
    return good;
}

static void add_group(struct pl_facts *f, const struct pl_session *s)
{
    size_t item, plies;
    char reserve[32];
    if (!group_here(s, &item))
        return;
    if (plies_here(s, item, &plies)) {
        pl_facts_addf(f, "plies at marker", NULL, "%zu", plies);
        pl_facts_place(f, item);
    }
    const struct pl_forgotten_ply *p = pl_forgotten_of(s->forgotten, s->element, item);
    if (!p || (!p->bare && !pl_given(p->reserve)))
        return;
    if (!p->bare)
        pl_reserve_words(p->reserve, reserve, sizeof reserve);
    pl_facts_addf(f, "one ply less", NULL, "%s%s", p->bare ? "bare wall" : "reserve ", p->bare ? "" : reserve);
    pl_facts_place(f, item);
}

void pl_facts_of_session(struct pl_facts *f, const struct pl_session *s)
{
    pl_facts_add(f, "message", NULL, s->message);
    pl_facts_of_question(f, s);
    add_part(f, s);
    add_page(f, s);
    if (pl_block_here(s))
        add_row(f, s, pl_block_here(s));
    add_field(f, s);
    add_group(f, s);
    pl_facts_of_verdict(f, s);
}
