#include "session.h"

#include "block.h"

#include "plyloft/part_edit.h"
#include "plyloft/part_rows.h"
#include "plyloft/place_words.h"

#include <stdio.h>
#include <string.h>

/* The row in hand and the list it stands in; false where the page has none. */
static bool row_here(struct pl_session *s, char *row, size_t size)
{
    const struct pl_block *b = pl_block_here(s);
    int block = s->blocks[s->page];
    if (!b || (b->kind != PL_TABLE && b->kind != PL_SHEET)) {
        pl_session_say(s, "there are no rows here", NULL);
        return false;
    }
    if (!pl_block_row(s, block, pl_block_cursor(s, block).row, row, size)) {
        pl_session_say(s, "there is no row here; a adds one", NULL);
        return false;
    }
    return true;
}

/* What was done, and that it can be taken back: said ahead of the verdict on it, which keeps to itself then. */
static void say_done(struct pl_session *s, const char *words, const char *back)
{
    char key[64];
    pl_keymap_words(&s->keys, pl_doing_of(PL_DO_UNDO, 0), key, sizeof key);
    snprintf(s->message, sizeof s->message, "%.300s%s%s%s", words, key[0] ? "; " : "", key, key[0] ? back : "");
}

/* Moves the cursor of the table that the row belongs to. */
static void follow(struct pl_session *s, size_t index)
{
    const struct pl_block *b = pl_block_here(s);
    int block = b->kind == PL_SHEET && b->of >= 0 ? b->of : s->blocks[s->page];
    s->cursors[s->page][block].row = index;
}

static bool is_table(const struct pl_session *s)
{
    const struct pl_block *b = pl_block_here(s);
    return b && (b->kind == PL_TABLE || (b->kind == PL_SHEET && b->of >= 0));
}

static void add_tip_limit(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char row[64];
    size_t at = pl_block_cursor(s, s->blocks[s->page]).row;
    if (!at) {
        pl_session_say(s, "go to a load case: a gives its tip a limit, Delete takes it away", NULL);
        return;
    }
    snprintf(row, sizeof row, "/load_cases/%zu", at - 1);
    pl_session_edited(s, pl_row_add_tip_limit(s->document, row, &problems), &problems);
}

/* Of the part as a whole, one that may be left out. */
static bool is_object(const struct pl_block *b)
{
    return b && b->kind == PL_SHEET && pl_groups[b->group].optional && pl_groups[b->group].parent == PL_GROUP_PART && b->group != PL_GROUP_LIMITS;
}

void pl_row_add_here(struct pl_session *s)
{
    struct pl_problems problems = {0};
    const struct pl_block *b = pl_block_here(s);
    char pointer[256];
    size_t index = 0;
    int block = s->blocks[s->page];
    if (b && b->kind == PL_TIPS) {
        add_tip_limit(s);
    } else if (b && b->kind == PL_SHEET && b->group == PL_GROUP_END_PLATES) {
        snprintf(pointer, sizeof pointer, "/elements/%zu", s->element);
        pl_session_edited(s, pl_row_add_end_plates(s->document, pointer, &problems), &problems);
    } else if (is_object(b)) {
        pl_session_edited(s, pl_object_add(s->document, b->group, &problems), &problems);
    } else if (b && b->kind == PL_SHEET && b->group == PL_GROUP_ELEMENT) {
        snprintf(pointer, sizeof pointer, "/elements/%zu", s->element);
        enum pl_status status = pl_row_add(s->document, pointer, &index, &problems);
        pl_session_edited(s, status, &problems);
        if (status == PL_OK && index < pl_session_part(s)->n_elements)
            s->element = index;
    } else if (!is_table(s)) {
        pl_session_say(s, "there are no rows here", NULL);
    } else if (pl_block_row(s, block, pl_block_cursor(s, block).row, pointer, sizeof pointer)
               || pl_block_list(s, block, pointer, sizeof pointer)) {
        enum pl_status status = pl_row_add(s->document, pointer, &index, &problems);
        if (status == PL_OK)
            follow(s, index);
        pl_session_edited(s, status, &problems);
    }
}

void pl_row_copy_here(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char row[256];
    size_t index = 0;
    if (!row_here(s, row, sizeof row))
        return;
    enum pl_status status = pl_row_copy(s->document, row, &index, &problems);
    if (status == PL_OK && is_table(s))
        follow(s, index);
    pl_session_edited(s, status, &problems);
}

static const char brings_back[] = " brings it back", takes_back[] = " takes it back";

/* Leaves a value out that may be. */
static void leave_out(struct pl_session *s, const char *pointer)
{
    struct pl_problems problems = {0};
    char place[200], words[256];
    bool there = pl_document_find(s->document, pointer) != PL_NO_NODE;
    pl_part_place_words(s->document, pointer, place, sizeof place);
    snprintf(words, sizeof words, "left out: %s", place);
    enum pl_status status = pl_part_type(s->document, pointer, "", &problems);
    if (status == PL_OK && there)
        say_done(s, words, brings_back);
    pl_session_edited(s, status, &problems);
}

static void remove_tip_limit(struct pl_session *s)
{
    char pointer[256];
    if (pl_block_pointer_here(s, pointer, sizeof pointer) && pl_document_find(s->document, pointer) != PL_NO_NODE)
        leave_out(s, pointer);
    else
        pl_session_say(s, "there is no limit here", NULL);
}

static bool should_ask(struct pl_session *s, const char *row)
{
    char sentence[256];
    if (!pl_row_users(s->document, row, sentence, sizeof sentence) && !pl_row_needed(s->document, row, sentence, sizeof sentence))
        return false;
    struct pl_question *q = pl_ask(s, PL_ASK_REMOVE, row);
    if (q)
        snprintf(q->words, sizeof q->words, "%.200s. The part cannot be judged without.", sentence);
    return q;
}

/* A value that may be left out, of an object that stays. */
static void leave_out_cell(struct pl_session *s)
{
    char pointer[256];
    enum pl_group_id group;
    const struct pl_field *f = pl_block_pointer_here(s, pointer, sizeof pointer) ? pl_field_at(pointer, &group) : NULL;
    if (f && f->optional)
        leave_out(s, pointer);
    else
        pl_session_say(s, "this cannot be left out", NULL);
}

/* A load case's own limit goes with it. */
static bool has_limit(const struct pl_session *s, const char *row)
{
    char name[256], limit[256] = "/limits/tip_deflection_mm";
    snprintf(name, sizeof name, "%s/name", row);
    pl_node node = strncmp(row, "/load_cases/", 12) ? PL_NO_NODE : pl_document_find(s->document, name);
    if (node == PL_NO_NODE)
        return false;
    pl_pointer_append(limit, sizeof limit, pl_node_text(s->document, node));
    return pl_document_find(s->document, limit) != PL_NO_NODE;
}

static void remove_row(struct pl_session *s, const char *row, bool end_plates)
{
    struct pl_problems problems = {0};
    char name[96] = "end plates", words[200];
    if (!end_plates)
        pl_part_row_words(s->document, row, name, sizeof name);
    snprintf(words, sizeof words, "taken away: %s%s", name, has_limit(s, row) ? ", and its limit" : "");
    enum pl_status status = (end_plates ? pl_row_remove_end_plates : pl_row_remove)(s->document, row, &problems);
    if (status == PL_OK)
        say_done(s, words, brings_back);
    pl_session_edited(s, status, &problems);
}

static void remove_object(struct pl_session *s, enum pl_group_id group)
{
    struct pl_problems problems = {0};
    char words[96];
    snprintf(words, sizeof words, "taken away: %s", pl_groups[group].noun);
    enum pl_status status = pl_object_remove(s->document, group, &problems);
    if (status == PL_OK)
        say_done(s, words, brings_back);
    pl_session_edited(s, status, &problems);
}

void pl_row_remove_here(struct pl_session *s, bool asked)
{
    const struct pl_block *b = pl_block_here(s);
    char row[256];
    if (b && b->kind == PL_TIPS) {
        remove_tip_limit(s);
        return;
    }
    if (is_object(b)) {
        remove_object(s, b->group);
        return;
    }
    if (!row_here(s, row, sizeof row))
        return;
    if (b->group == PL_GROUP_END_PLATES) {
        snprintf(row, sizeof row, "/elements/%zu", s->element);
        remove_row(s, row, true);
        return;
    }
    if (!pl_groups[b->group].list) {
        leave_out_cell(s);
        return;
    }
    if (asked || !should_ask(s, row))
        remove_row(s, row, false);
}

void pl_row_move_here(struct pl_session *s, int way)
{
    struct pl_problems problems = {0};
    char row[256];
    size_t index = 0;
    if (!row_here(s, row, sizeof row) || !is_table(s))
        return;
    enum pl_status status = pl_row_move(s->document, row, way, &index, &problems);
    if (status == PL_OK)
        follow(s, index);
    pl_session_edited(s, status, &problems);
}

static bool has(const struct pl_session *s, const char *row, const char *key)
{
    char cell[300];
    snprintf(cell, sizeof cell, "%s/%s", row, key);
    return pl_document_find(s->document, cell) != PL_NO_NODE;
}

/* What saying the row the other way will have done: what is the same, and what is not. */
static const char *switch_words(const struct pl_session *s, enum pl_group_id group, const char *row)
{
    if (group == PL_GROUP_LAYUP && (has(s, row, "centre_at") || has(s, row, "width_mm")))
        return "said by its edges: the same on the mean chord, not elsewhere";
    if (group == PL_GROUP_LAYUP)
        return "said as a strip: the same on the mean chord, not elsewhere";
    if (group == PL_GROUP_CASE)
        return has(s, row, "force_n") ? "said by energy: mass, speed and travel are typical ones, put in your own"
                                      : "said by its force: it is a typical one, put in your own";
    return "said in digits: the shape nearest to its points, not the same";
}

void pl_row_switch_here(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char row[256];
    if (!row_here(s, row, sizeof row))
        return;
    enum pl_group_id group;
    pl_field_at(row, &group);
    const char *words = switch_words(s, group, row);
    bool points = group == PL_GROUP_PROFILE && has(s, row, "points");
    enum pl_status status = (points ? pl_row_set_naca : pl_row_switch)(s->document, row, &problems);
    if (status == PL_OK)
        say_done(s, words, takes_back);
    pl_session_edited(s, status, &problems);
}
