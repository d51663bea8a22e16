/* Splices of the text, gathered into steps that can be taken back.
 *
 * A step holds the bytes that its changes replaced and those they put in their place; no
 * more.  While a group is open the content at its begin is held too, so that abandoning it
 * needs no memory; and what pl_edit_end needs is set aside by pl_edit_begin. */
#include "document_inside.h"

#include <stdlib.h>
#include <string.h>

/* ---- steps ---- */

static void free_changes(struct pl_step *step, size_t from)
{
    for (size_t i = from; i < step->count; i++)
        free(step->changes[i].bytes);
    step->count = from;
}

static void free_step(struct pl_step *step)
{
    free_changes(step, 0);
    free(step->changes);
    free(step->name);
    free(step->merge_key);
    *step = (struct pl_step){0};
}

void pl_steps_free(struct pl_document *doc)
{
    while (doc->depth)
        pl_edit_abandon(doc);
    while (doc->n_steps)
        free_step(&doc->steps[--doc->n_steps]);
    free(doc->steps);
}

static bool reserve_changes(struct pl_step *step, size_t more)
{
    size_t capacity = step->capacity ? step->capacity : 1;
    while (capacity < step->count + more)
        capacity *= 2;
    if (capacity == step->capacity)
        return true;
    struct pl_change *changes = pl_part_memory(step->changes, capacity * sizeof *changes);
    if (!changes)
        return false;
    step->changes = changes;
    step->capacity = capacity;
    return true;
}

static bool record(struct pl_document *doc, size_t at, size_t old_length, const char *with, size_t new_length)
{
    struct pl_change change = {.at = at, .old_length = old_length, .new_length = new_length};
    if (!reserve_changes(&doc->open, 1) || !(change.bytes = pl_part_memory(NULL, old_length + new_length + 1)))
        return false;
    memcpy(change.bytes, doc->now.text->bytes + at, old_length);
    memcpy(change.bytes + old_length, with, new_length);
    doc->open.changes[doc->open.count++] = change;
    return true;
}

/* ---- splices ---- */

static struct pl_text *spliced(const struct pl_text *text, size_t at, size_t old_length, const char *with,
                               size_t new_length)
{
    struct pl_text *out = pl_text_make(text->length - old_length + new_length);
    if (!out)
        return NULL;
    memcpy(out->bytes, text->bytes, at);
    memcpy(out->bytes + at, with, new_length);
    memcpy(out->bytes + at + new_length, text->bytes + at + old_length, text->length - at - old_length);
    return out;
}

static void enter(struct pl_document *doc, const struct pl_content *next)
{
    struct pl_group *group = &doc->groups[doc->depth - 1];
    if (group->before.text)
        pl_content_drop(&doc->now);
    else
        group->before = doc->now;
    doc->now = *next;
    doc->revision++;
}

enum pl_status pl_document_splice(struct pl_document *doc, size_t at, size_t old_length, const char *with,
                                  size_t new_length, struct pl_json_error *error)
{
    struct pl_content next;
    struct pl_text *text = spliced(doc->now.text, at, old_length, with, new_length);
    if (!text)
        return PL_NO_MEMORY;
    enum pl_status status = pl_content_make(&next, text, "the file", error);
    if (status != PL_OK) {
        pl_text_drop(text);
        return status;
    }
    if (!record(doc, at, old_length, with, new_length)) {
        pl_content_drop(&next);
        return PL_NO_MEMORY;
    }
    enter(doc, &next);
    return PL_OK;
}

/* ---- groups ---- */

static char *copy_of(const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = pl_part_memory(NULL, size);
    return copy ? memcpy(copy, text, size) : NULL;
}

static bool reserve_step(struct pl_document *doc)
{
    if (doc->n_steps < doc->capacity)
        return true;
    size_t capacity = doc->capacity ? 2 * doc->capacity : 16;
    struct pl_step *steps = pl_part_memory(doc->steps, capacity * sizeof *steps);
    if (!steps)
        return false;
    doc->steps = steps;
    doc->capacity = capacity;
    return true;
}

enum pl_status pl_edit_begin(struct pl_document *doc, const char *name, const char *merge_key)
{
    if (doc->depth == PL_GROUPS_DEEP)
        return PL_BAD_INPUT;
    if (!doc->depth) {
        doc->open = (struct pl_step){.name = copy_of(name), .merge_key = merge_key ? copy_of(merge_key) : NULL};
        if (!reserve_step(doc) || !doc->open.name || (merge_key && !doc->open.merge_key)) {
            free_step(&doc->open);
            return PL_NO_MEMORY;
        }
    }
    doc->groups[doc->depth++] = (struct pl_group){.changes = doc->open.count};
    return PL_OK;
}

void pl_edit_abandon(struct pl_document *doc)
{
    if (!doc->depth)
        return;
    struct pl_group *group = &doc->groups[--doc->depth];
    if (group->before.text) {
        pl_content_drop(&doc->now);
        doc->now = group->before;
        doc->revision++;
    }
    free_changes(&doc->open, group->changes);
    if (!doc->depth)
        free_step(&doc->open);
}

/* A change of just what the one before put there makes one change of both. */
static bool combine(struct pl_change *first, const struct pl_change *second)
{
    if (first->at != second->at || first->new_length != second->old_length)
        return false;
    char *bytes = pl_part_memory(NULL, first->old_length + second->new_length + 1);
    if (!bytes)
        return false;
    memcpy(bytes, first->bytes, first->old_length);
    memcpy(bytes + first->old_length, second->bytes + second->old_length, second->new_length);
    free(first->bytes);
    first->bytes = bytes;
    first->new_length = second->new_length;
    return true;
}

static struct pl_step *joined(const struct pl_document *doc, const char *merge_key)
{
    struct pl_step *newest = doc->done ? &doc->steps[doc->done - 1] : NULL;
    bool joins = newest && doc->may_merge && merge_key && newest->merge_key && !strcmp(merge_key, newest->merge_key);
    return joins ? newest : NULL;
}

/* Adds the open step to the newest; false when they do not belong together, or without memory. */
static bool join(struct pl_document *doc)
{
    struct pl_step *open = &doc->open, *newest = joined(doc, open->merge_key);
    if (!newest || !reserve_changes(newest, open->count))
        return false;
    for (size_t i = 0; i < open->count; i++) {
        if (combine(&newest->changes[newest->count - 1], &open->changes[i]))
            free(open->changes[i].bytes);
        else
            newest->changes[newest->count++] = open->changes[i];
    }
    open->count = 0;
    free(newest->name);
    newest->name = open->name;
    open->name = NULL;
    return true;
}

static void keep_step(struct pl_document *doc)
{
    if (join(doc)) {
        free_step(&doc->open);
        return;
    }
    while (doc->n_steps > doc->done)
        free_step(&doc->steps[--doc->n_steps]);
    doc->steps[doc->n_steps++] = doc->open;
    doc->done = doc->n_steps;
    doc->open = (struct pl_step){0};
    doc->may_merge = true;
}

const char *pl_edit_joins(const struct pl_document *doc, const char *merge_key)
{
    const struct pl_step *newest = joined(doc, merge_key);
    return newest ? newest->name : NULL;
}

void pl_edit_stand_alone(struct pl_document *doc)
{
    doc->may_merge = false;
}

enum pl_status pl_edit_end(struct pl_document *doc)
{
    if (!doc->depth)
        return PL_BAD_INPUT;
    struct pl_content before = doc->groups[--doc->depth].before;
    struct pl_group *outer = doc->depth ? &doc->groups[doc->depth - 1] : NULL;
    if (outer && !outer->before.text)
        outer->before = before;
    else
        pl_content_drop(&before);
    if (!outer && doc->open.count)
        keep_step(doc);
    else if (!outer)
        free_step(&doc->open);
    return PL_OK;
}

/* ---- undo and redo ---- */

static size_t longest(size_t length, const struct pl_step *step, bool back)
{
    size_t most = length;
    for (size_t i = 0; i < step->count; i++) {
        const struct pl_change *c = &step->changes[back ? step->count - 1 - i : i];
        length = back ? length - c->new_length + c->old_length : length - c->old_length + c->new_length;
        most = length > most ? length : most;
    }
    return most;
}

static void retrace(struct pl_text *text, const struct pl_change *c, bool back)
{
    size_t out = back ? c->new_length : c->old_length, in = back ? c->old_length : c->new_length;
    char *at = text->bytes + c->at;
    memmove(at + in, at + out, text->length - c->at - out + 1);
    memcpy(at, c->bytes + (back ? 0 : c->old_length), in);
    text->length = text->length - out + in;
}

static bool go(struct pl_document *doc, const struct pl_step *step, bool back)
{
    struct pl_json_error error = {0};
    struct pl_content next;
    const struct pl_text *now = doc->now.text;
    struct pl_text *text = pl_text_make(longest(now->length, step, back));
    if (!text)
        return false;
    memcpy(text->bytes, now->bytes, now->length + 1);
    text->length = now->length;
    for (size_t i = 0; i < step->count; i++)
        retrace(text, &step->changes[back ? step->count - 1 - i : i], back);
    if (pl_content_make(&next, text, "the file", &error) != PL_OK) { /* read before: no memory */
        pl_text_drop(text);
        return false;
    }
    pl_content_drop(&doc->now);
    doc->now = next;
    doc->revision++;
    doc->may_merge = false;
    return true;
}

bool pl_document_undo(struct pl_document *doc)
{
    if (doc->depth || !doc->done || !go(doc, &doc->steps[doc->done - 1], true))
        return false;
    doc->done--;
    return true;
}

bool pl_document_redo(struct pl_document *doc)
{
    if (doc->depth || doc->done == doc->n_steps || !go(doc, &doc->steps[doc->done], false))
        return false;
    doc->done++;
    return true;
}

size_t pl_document_steps(const struct pl_document *doc)
{
    return doc->n_steps;
}

size_t pl_document_steps_done(const struct pl_document *doc)
{
    return doc->done;
}

const char *pl_document_step_name(const struct pl_document *doc, size_t step)
{
    return step < doc->n_steps ? doc->steps[step].name : "";
}
