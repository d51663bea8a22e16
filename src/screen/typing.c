#include "session.h"

#include "block.h"

#include "plyloft/keys.h"
#include "plyloft/part_rows.h"

#include <string.h>

/* What a field is typed from: a value left out starts empty. */
static void start_typing(struct pl_session *s, const char *pointer)
{
    char text[1024];
    pl_cell_words(s, pointer, text, sizeof text);
    pl_line_start(&s->line, strcmp(text, "-") ? text : "");
    s->typing = true;
}

static bool is_picked(const struct pl_field *f)
{
    return f && (f->kind == PL_FIELD_CHOICE || f->kind == PL_FIELD_REFERENCE || f->kind == PL_FIELD_REFERENCES);
}

/* What the file is, not what the wing is. */
static bool is_fixed(const struct pl_field *f, enum pl_group_id group)
{
    return f && group == PL_GROUP_PART && (!strcmp(f->key, "format") || !strcmp(f->key, "version"));
}

void pl_cell_enter(struct pl_session *s)
{
    char pointer[256];
    enum pl_group_id group;
    const struct pl_block *b = pl_block_here(s);
    if (!b || !pl_block_pointer_here(s, pointer, sizeof pointer)) {
        if (b && !pl_block_rows(s, s->blocks[s->page]))
            pl_session_say(s, "there is nothing here yet; a adds a row", NULL);
        return;
    }
    const struct pl_field *f = pl_field_at(pointer, &group);
    if (is_fixed(f, group))
        pl_session_say(s, "this is fixed: it says which format the file has", NULL);
    else if (is_picked(f))
        pl_ask(s, PL_PICK_VALUE, pointer);
    else if (f && f->kind == PL_FIELD_POINTS)
        pl_ask(s, PL_ASK_PROFILE, pointer);
    else
        start_typing(s, pointer);
}

/* Takes the typed value over.  A text that is no value stays, to be mended, with the reason. */
static void accept(struct pl_session *s)
{
    char pointer[256];
    struct pl_problems problems = {0};
    if (s->line.untouched || !pl_block_pointer_here(s, pointer, sizeof pointer)) {
        s->typing = false;  /* taken over as it stands */
        return;
    }
    enum pl_status status = pl_cell_type(s, pointer, s->line.text, &problems);
    if (status == PL_OK)
        s->typing = false;
    else if (problems.count && !strcmp(problems.list[0].place, pointer))
        problems.list[0].place[0] = '\0';  /* the cursor stands on the place */
    pl_session_edited(s, status, &problems);
}

void pl_cell_key(struct pl_session *s, int key)
{
    s->message[0] = '\0';
    if (key == PL_KEY_ENTER)
        accept(s);
    else if (key == PL_KEY_ESCAPE)
        s->typing = false;
    else
        pl_line_key(&s->line, key);
}

void pl_cell_step(struct pl_session *s, int way)
{
    char pointer[256];
    struct pl_problems problems = {0};
    if (!pl_block_pointer_here(s, pointer, sizeof pointer))
        return;
    unsigned long before = pl_document_revision(s->document);
    enum pl_status status = pl_cell_step_value(s, pointer, way, &problems);
    if (status == PL_OK && pl_document_revision(s->document) == before)
        pl_session_say(s, "that is as far as it goes; Enter types a value", NULL);
    else
        pl_session_edited(s, status, &problems);
}
