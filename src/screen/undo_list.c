/* undo_list.c - steps of undo, one at a time or to any of them by the list of their names. */
#include "session.h"

#include "plyloft/text.h"

#include <stdio.h>

void pl_session_undo(struct pl_session *s, bool back)
{
    char name[200] = "";
    size_t done = pl_document_steps_done(s->document), step = back ? done - 1 : done;
    if (back ? done > 0 : done < pl_document_steps(s->document))
        pl_text_safe(name, sizeof name, pl_document_step_name(s->document, step));
    if (back ? pl_document_undo(s->document) : pl_document_redo(s->document)) {
        pl_session_judge(s);
        pl_session_say(s, back ? "undone" : "redone", name);
    } else {
        pl_session_say(s, back ? "nothing to undo" : "nothing to redo", NULL);
    }
}

size_t pl_edits_count(const struct pl_session *s)
{
    return 1 + pl_document_steps(s->document);
}

void pl_edits_item(const struct pl_session *s, size_t item, char *out, size_t size)
{
    char name[200];
    pl_text_safe(name, sizeof name, item ? pl_document_step_name(s->document, item - 1) : "as it was opened");
    snprintf(out, size, "%zu  %s%s", item, name, item > pl_document_steps_done(s->document) ? " (undone)" : "");
}

void pl_edits_go(struct pl_session *s, size_t item)
{
    char words[256];
    bool moved = false;
    while (pl_document_steps_done(s->document) > item && pl_document_undo(s->document))
        moved = true;
    while (pl_document_steps_done(s->document) < item && pl_document_redo(s->document))
        moved = true;
    if (!moved)
        return;
    pl_session_judge(s);
    pl_edits_item(s, pl_document_steps_done(s->document), words, sizeof words);
    pl_session_say(s, "now at", words);
}
