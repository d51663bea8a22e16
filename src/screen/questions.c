#include "session.h"

#include "block.h"

#include "plyloft/keys.h"
#include "plyloft/part_edit.h"
#include "plyloft/part_rows.h"
#include "plyloft/text.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static size_t now_of(const struct pl_session *s, const struct pl_question *q)
{
    char now[256], item[256];
    pl_part_value_words(s->document, q->pointer, now, sizeof now);
    for (size_t i = 0; i < pl_question_items(s, q); i++) {
        pl_question_item(s, q, i, item, sizeof item);
        if (!strcmp(item, now))
            return i;
    }
    return 0;
}

static void start_sheet(struct pl_session *s, struct pl_question *q)
{
    char name[512];
    pl_sheets_name(s, q->kind, name, sizeof name);
    pl_line_start(&q->line, name);
}

struct pl_question *pl_ask(struct pl_session *s, enum pl_question_kind kind, const char *pointer)
{
    if (s->n_questions == PL_QUESTIONS_MOST)
        return NULL;
    struct pl_question *q = &s->questions[s->n_questions++];
    *q = (struct pl_question){.kind = kind};
    snprintf(q->pointer, sizeof q->pointer, "%s", pointer);
    if (kind == PL_PICK_VALUE)
        q->chosen = now_of(s, q);
    else if (kind == PL_ASK_PATH)
        pl_line_start(&q->line, strcmp(s->path, "-") ? s->path : "");
    else if (kind == PL_ASK_KIT || kind == PL_ASK_BOOK)
        start_sheet(s, q);
    else if (kind == PL_ASK_PROFILE || kind == PL_FIND_ACTION)
        pl_line_start(&q->line, "");
    else if (kind == PL_PICK_EDIT)
        q->chosen = pl_document_steps_done(s->document);
    else if (kind == PL_PICK_MATERIAL)
        pl_materials_open(s, q);
    return kind == PL_PICK_MATERIAL && !q->pointer[0] ? NULL : q;
}

void pl_question_done(struct pl_session *s)
{
    if (s->n_questions)
        s->n_questions--;
}

/* ---- choices and names for a cell ---- */

static const struct pl_field *field_of(const struct pl_question *q)
{
    enum pl_group_id group;
    return pl_field_at(q->pointer, &group);
}

/* The row that a cell belongs to. */
static void row_of(const char *pointer, char *out, size_t size)
{
    snprintf(out, size, "%s", pointer);
    char *slash = strrchr(out, '/');
    if (slash)
        *slash = '\0';
}

static pl_node named_rows(const struct pl_session *s, const struct pl_field *f)
{
    char list[64];
    snprintf(list, sizeof list, "/%s", pl_groups[f->refers_to].key);
    return pl_document_find(s->document, list);
}

/* What may be left out has a first item that says so. */
static bool has_none(const struct pl_field *f)
{
    return f->optional && f->kind == PL_FIELD_REFERENCE;
}

static const char *text_of(const struct pl_session *s, pl_node row, const char *key)
{
    pl_node node = row == PL_NO_NODE ? PL_NO_NODE : pl_node_member(s->document, row, key);
    return node == PL_NO_NODE ? "" : pl_node_text(s->document, node);
}

/* Text of a key of the row that the cell belongs to, or of the element around it. */
static const char *own_text(const struct pl_session *s, const char *pointer, const char *key)
{
    char row[256];
    row_of(pointer, row, sizeof row);
    return text_of(s, pl_document_find(s->document, row), key);
}

/* Only what can be right is offered: an element does not stand on itself, a case is not pushed by itself, by a jack,
 * or by a case of its own element. */
static bool offered(const struct pl_session *s, const struct pl_question *q, const struct pl_field *f, pl_node row)
{
    char element[64];
    if (!strcmp(f->key, "on")) {
        snprintf(element, sizeof element, "/elements/%zu", s->element);
        return strcmp(text_of(s, row, "name"), text_of(s, pl_document_find(s->document, element), "name"));
    }
    if (f->kind == PL_FIELD_REFERENCES)
        return strcmp(text_of(s, row, "kind"), "jacking") && strcmp(text_of(s, row, "element"), own_text(s, q->pointer, "element"));
    return true;
}

/* The offered row with this number; PL_NO_NODE after the last, *count then being how many there are. */
static pl_node offered_at(const struct pl_session *s, const struct pl_question *q, size_t item, size_t *count)
{
    const struct pl_field *f = field_of(q);
    pl_node rows = named_rows(s, f), row = rows == PL_NO_NODE ? PL_NO_NODE : pl_node_first(s->document, rows);
    *count = 0;
    for (; row != PL_NO_NODE; row = pl_node_next(s->document, row))
        if (offered(s, q, f, row) && (*count)++ == item)
            return row;
    return PL_NO_NODE;
}

size_t pl_question_items(const struct pl_session *s, const struct pl_question *q)
{
    size_t count;
    if (q->kind == PL_PICK_MATERIAL)
        return pl_materials_count(s, q);
    if (q->kind == PL_FIND_ACTION)
        return pl_find_count(q);
    if (q->kind == PL_PICK_EDIT)
        return pl_edits_count(s);
    if (q->kind == PL_PICK_STATE)
        return pl_trials_count(s) - 1;
    if (q->kind != PL_PICK_VALUE)
        return 0;
    const struct pl_field *f = field_of(q);
    if (f->kind == PL_FIELD_CHOICE)
        return f->n_choices;
    offered_at(s, q, SIZE_MAX, &count);
    return count + has_none(f);
}

bool pl_question_ticked(const struct pl_session *s, const struct pl_question *q, const char *item)
{
    pl_node list = pl_document_find(s->document, q->pointer);
    if (q->kind != PL_PICK_VALUE || field_of(q)->kind != PL_FIELD_REFERENCES)
        return false;
    for (pl_node n = pl_node_first(s->document, list); n != PL_NO_NODE; n = pl_node_next(s->document, n))
        if (!strcmp(pl_node_text(s->document, n), item))
            return true;
    return false;
}

void pl_question_item(const struct pl_session *s, const struct pl_question *q, size_t item, char *out, size_t size)
{
    size_t count;
    out[0] = '\0';
    if (q->kind == PL_PICK_MATERIAL) {
        pl_materials_item(s, q, item, out, size);
        return;
    }
    if (q->kind == PL_FIND_ACTION) {
        snprintf(out, size, "%s", pl_doings[pl_find_doing(q, item)].words);
        return;
    }
    if (q->kind == PL_PICK_EDIT) {
        pl_edits_item(s, item, out, size);
        return;
    }
    if (q->kind == PL_PICK_STATE) {
        size_t slot = pl_trials_slot(s, item + 1);
        snprintf(out, size, "%s  %.200s", pl_trials_letter(slot), s->trials.states[slot].name);
        return;
    }
    const struct pl_field *f = field_of(q);
    if (f->kind == PL_FIELD_CHOICE)
        snprintf(out, size, "%s", f->choices[item]);
    else if (has_none(f) && !item)
        snprintf(out, size, "car");
    else
        pl_text_safe(out, size, text_of(s, offered_at(s, q, item - has_none(f), &count), "name"));
}

static bool is_case_kind(const char *pointer)
{
    enum pl_group_id group;
    const struct pl_field *f = pl_field_at(pointer, &group);
    return f && group == PL_GROUP_CASE && !strcmp(f->key, "kind");
}

static enum pl_status set_kind(struct pl_session *s, const char *pointer, const char *kind, struct pl_problems *problems)
{
    char row[256];
    row_of(pointer, row, sizeof row);
    return pl_row_set_kind(s->document, row, kind, problems);
}

/* Takes the name out where it stands in the list, else puts it in. */
static enum pl_status toggle_with(struct pl_session *s, const char *pointer, const char *name, struct pl_problems *problems)
{
    char row[256];
    row_of(pointer, row, sizeof row);
    pl_node list = pl_document_find(s->document, pointer);
    for (pl_node n = pl_node_first(s->document, list); n != PL_NO_NODE; n = pl_node_next(s->document, n))
        if (!strcmp(pl_node_text(s->document, n), name))
            return pl_row_remove_with(s->document, row, name, problems);
    return pl_row_add_with(s->document, row, name, problems);
}

static void take_value(struct pl_session *s, struct pl_question *q)
{
    struct pl_problems problems = {0};
    const struct pl_field *f = field_of(q);
    char item[256], pointer[256];
    pl_question_item(s, q, q->chosen, item, sizeof item);
    snprintf(pointer, sizeof pointer, "%s", q->pointer);
    if (f->kind == PL_FIELD_REFERENCES) {
        /* A list of names: choosing one puts it in or takes it out, and the question stays. */
        pl_session_edited(s, toggle_with(s, pointer, item, &problems), &problems);
        return;
    }
    pl_question_done(s);
    enum pl_status status = is_case_kind(pointer) ? set_kind(s, pointer, item, &problems)
                                                   : pl_part_type(s->document, pointer, item, &problems);
    pl_session_edited(s, status, &problems);
}

/* ---- keys of each question ---- */

enum { HELP_LINES_MOST = 80 };

static void move_choice(struct pl_session *s, struct pl_question *q, int by)
{
    size_t n = q->kind == PL_SHOW_HELP ? HELP_LINES_MOST : pl_question_items(s, q), *at = q->kind == PL_SHOW_HELP ? &q->first : &q->chosen;
    if (!n)
        return;
    if (by < 0)
        *at = *at > (size_t)-by ? *at - (size_t)-by : 0;
    else
        *at = *at + (size_t)by < n ? *at + (size_t)by : n - 1;
}

/* A letter goes to the next item that begins with it. */
static bool go_to_letter(struct pl_session *s, struct pl_question *q, int key)
{
    size_t n = pl_question_items(s, q);
    char item[256];
    for (size_t i = 1; i <= n; i++) {
        pl_question_item(s, q, (q->chosen + i) % n, item, sizeof item);
        if (key < 128 && tolower((unsigned char)item[0]) == tolower(key)) {
            q->chosen = (q->chosen + i) % n;
            return true;
        }
    }
    return false;
}

static bool list_key(struct pl_session *s, struct pl_question *q, int key)
{
    switch (key) {
    case PL_KEY_UP: move_choice(s, q, -1); return true;
    case PL_KEY_DOWN: move_choice(s, q, 1); return true;
    case PL_KEY_PAGE_UP: move_choice(s, q, -8); return true;
    case PL_KEY_PAGE_DOWN: move_choice(s, q, 8); return true;
    case PL_KEY_HOME: move_choice(s, q, -1000000); return true;
    case PL_KEY_END: move_choice(s, q, 1000000); return true;
    default:
        return key > ' ' && key < 127 && (q->kind == PL_PICK_VALUE || q->kind == PL_PICK_MATERIAL || q->kind == PL_PICK_STATE) && go_to_letter(s, q, key);
    }
}

/* The page's own help, then every key, and back. */
static void help_key(struct pl_session *s, struct pl_question *q, int key)
{
    const struct pl_doing *doing = pl_keymap_find(&s->keys, key);
    if (list_key(s, q, key))
        return;
    if (key == '?' || key == PL_KEY_TAB || (doing && doing->action == PL_DO_HELP)) {
        q->chosen = !q->chosen;
        q->first = 0;
        return;
    }
    pl_question_done(s);
    if (key == 'f' || (doing && doing->action == PL_DO_FIND))
        pl_ask(s, PL_FIND_ACTION, "");
}

static void back_key(struct pl_session *s, struct pl_question *q, int key)
{
    size_t chosen = q->chosen;
    bool edits = q->kind == PL_PICK_EDIT;
    if (list_key(s, q, key) || (key != PL_KEY_ENTER && key != PL_KEY_ESCAPE))
        return;
    pl_question_done(s);
    if (key == PL_KEY_ENTER && edits)
        pl_edits_go(s, chosen);
    else if (key == PL_KEY_ENTER)
        pl_trials_bring(s, chosen + 1);
}

static void quit_key(struct pl_session *s, int key)
{
    if (key == 's' || key == 'd' || key == PL_KEY_ESCAPE)
        pl_question_done(s);
    if (key == 's')
        s->leave = pl_session_save(s, false);
    else if (key == 'd')
        pl_session_drop(s);
    if (!s->leave && key != 'd')
        s->to_start = s->to_start && s->n_questions;
}

/* Another key than the one that asked: held down, that would answer as well. */
static void remove_key(struct pl_session *s, int key)
{
    if (key == PL_KEY_ESCAPE || key == PL_KEY_ENTER)
        pl_question_done(s);
    if (key == PL_KEY_ENTER)
        pl_row_remove_here(s, true);
}

static void path_key(struct pl_session *s, struct pl_question *q, int key)
{
    s->message[0] = '\0';
    if (key == PL_KEY_TAB) {
        size_t n = pl_path_complete(&q->line);
        if (n != 1)
            pl_session_say(s, n ? "several files begin so" : "no file begins so", NULL);
    } else if (key == PL_KEY_ESCAPE) {
        pl_question_done(s);
    } else if (key == PL_KEY_ENTER && q->kind == PL_ASK_PATH) {
        pl_session_save_as(s, q->line.text);
    } else if (key == PL_KEY_ENTER && q->kind != PL_ASK_PROFILE) {
        pl_sheets_write(s, q);
    } else if (key == PL_KEY_ENTER) {
        pl_profile_open(s, q);
    } else {
        pl_line_key(&q->line, key);
    }
}

/* What is dropped is gone for good: no letter of every day does it. */
static void recovery_key(struct pl_session *s, int key)
{
    if (key == 'r' || key == PL_KEY_DELETE || key == PL_KEY_ESCAPE)
        pl_question_done(s);
    if (key == 'r')
        pl_session_recover(s);
    else if (key == PL_KEY_DELETE)
        pl_session_forget_recovery(s);
}

static void overwrite_key(struct pl_session *s, int key)
{
    if (key == 's' || key == PL_KEY_ESCAPE)
        pl_question_done(s);
    if (key == 's')
        pl_session_save(s, true);
    else if (key == 'r') {
        pl_question_done(s);
        pl_session_read_anew(s);
    } else if (key == 'w') {
        pl_question_done(s);
        pl_ask(s, PL_ASK_PATH, "");
    }
}

void pl_question_key(struct pl_session *s, int key)
{
    struct pl_question *q = pl_question_of(s);
    switch (q->kind) {
    case PL_ASK_QUIT: quit_key(s, key); break;
    case PL_SHOW_HELP: help_key(s, q, key); break;
    case PL_FIND_ACTION:
        if (key == PL_KEY_ESCAPE)
            pl_question_done(s);
        else if (key == PL_KEY_HOME || key == PL_KEY_END || !list_key(s, q, key))
            pl_find_key(s, q, key);
        break;
    case PL_PICK_EDIT:
    case PL_PICK_STATE: back_key(s, q, key); break;
    case PL_PICK_VALUE:
    case PL_PICK_MATERIAL:
        if (list_key(s, q, key))
            break;
        if (key == PL_KEY_ESCAPE)
            pl_question_done(s);
        else if (key == PL_KEY_ENTER && pl_question_items(s, q))
            (q->kind == PL_PICK_VALUE ? take_value : pl_materials_take)(s, q);
        break;
    case PL_ASK_REMOVE: remove_key(s, key); break;
    case PL_ASK_PATH:
    case PL_ASK_KIT:
    case PL_ASK_BOOK:
    case PL_ASK_PROFILE: path_key(s, q, key); break;
    case PL_SHOW_PROFILE:
        if (key == PL_KEY_ENTER)
            pl_profile_take(s, q);
        else if (key == PL_KEY_ESCAPE)
            pl_question_done(s);
        break;
    case PL_ASK_RECOVERY: recovery_key(s, key); break;
    case PL_ASK_OVERWRITE: overwrite_key(s, key); break;
    }
}
