#include "session.h"

#include "block.h"

#include "plyloft/part_edit.h"
#include "plyloft/part_rows.h"

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

static void remove_tip_limit(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char pointer[256];
    if (pl_block_pointer_here(s, pointer, sizeof pointer) && pl_document_find(s->document, pointer) != PL_NO_NODE)
        pl_session_edited(s, pl_part_type(s->document, pointer, "", &problems), &problems);
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
    struct pl_problems problems = {0};
    char pointer[256];
    enum pl_group_id group;
    const struct pl_field *f = pl_block_pointer_here(s, pointer, sizeof pointer) ? pl_field_at(pointer, &group) : NULL;
    if (f && f->optional)
        pl_session_edited(s, pl_part_type(s->document, pointer, "", &problems), &problems);
    else
        pl_session_say(s, "this cannot be left out", NULL);
}

void pl_row_remove_here(struct pl_session *s, bool asked)
{
    struct pl_problems problems = {0};
    const struct pl_block *b = pl_block_here(s);
    char row[256];
    if (b && b->kind == PL_TIPS) {
        remove_tip_limit(s);
        return;
    }
    if (!row_here(s, row, sizeof row))
        return;
    if (b->group == PL_GROUP_END_PLATES) {
        snprintf(row, sizeof row, "/elements/%zu", s->element);
        pl_session_edited(s, pl_row_remove_end_plates(s->document, row, &problems), &problems);
        return;
    }
    if (!pl_groups[b->group].list) {
        leave_out_cell(s);
        return;
    }
    if (asked || !should_ask(s, row))
        pl_session_edited(s, pl_row_remove(s->document, row, &problems), &problems);
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

void pl_row_switch_here(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char row[256];
    if (!row_here(s, row, sizeof row))
        return;
    enum pl_group_id group;
    pl_field_at(row, &group);
    pl_node points = PL_NO_NODE;
    if (group == PL_GROUP_PROFILE) {
        char cell[300];
        snprintf(cell, sizeof cell, "%s/points", row);
        points = pl_document_find(s->document, cell);
    }
    enum pl_status status = group == PL_GROUP_PROFILE && points != PL_NO_NODE ? pl_row_set_naca(s->document, row, &problems)
                                                                             : pl_row_switch(s->document, row, &problems);
    pl_session_edited(s, status, &problems);
}
