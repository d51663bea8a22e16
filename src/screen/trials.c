#include "trials.h"

#include "session.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- columns ---- */

static bool is_there(const struct pl_session *s, size_t slot)
{
    return slot == 0 || s->trials.documents[slot];
}

size_t pl_trials_count(const struct pl_session *s)
{
    size_t n = 0;
    for (size_t i = 0; i < PL_TRIALS_MOST; i++)
        n += is_there(s, i);
    return n;
}

size_t pl_trials_slot(const struct pl_session *s, size_t column)
{
    size_t slot = 0;
    while (slot + 1 < PL_TRIALS_MOST && !(is_there(s, slot) && !column--))
        slot++;
    return slot;
}

const char *pl_trials_letter(size_t slot)
{
    static const char *const letters[PL_TRIALS_MOST] = {"now", "A", "B", "C", "D"};
    return letters[slot];
}

/* ---- figures of the present, and what differs ---- */

static void no_memory(struct pl_session *s)
{
    pl_session_say(s, "not enough memory to compare", NULL);
}

static void compare(struct pl_session *s)
{
    struct pl_trials *t = &s->trials;
    struct pl_document *documents[PL_TRIALS_MOST];
    size_t n = pl_trials_count(s);
    pl_differences_free(&t->differences);
    for (size_t i = 0; i < n; i++)
        documents[i] = i ? t->documents[pl_trials_slot(s, i)] : s->document;
    if (n > 1 && pl_differences_find(&t->differences, documents, n) != PL_OK)
        no_memory(s);
}

static enum pl_status take_state(struct pl_session *s, struct pl_state *out, const char *name)
{
    size_t length;
    const char *bytes = pl_document_bytes(s->document, &length);
    return pl_state_take(out, name, bytes, length, pl_session_part(s), s->valid ? pl_session_verdict(s) : NULL);
}

void pl_trials_judged(struct pl_session *s)
{
    if (pl_trials_count(s) < 2)
        return;  /* nothing to stand beside */
    pl_state_free(&s->trials.states[0]);
    if (take_state(s, &s->trials.states[0], "now") != PL_OK)
        no_memory(s);
    compare(s);
}

void pl_trials_free(struct pl_session *s)
{
    pl_differences_free(&s->trials.differences);
    for (size_t i = 0; i < PL_TRIALS_MOST; i++) {
        pl_state_free(&s->trials.states[i]);
        pl_document_free(s->trials.documents[i]);
        s->trials.documents[i] = NULL;
    }
}

/* ---- keeping, bringing back, dropping ---- */

/* What the state is called in the list: the edit that led to it. */
static void state_name(const struct pl_session *s, char *out, size_t size)
{
    size_t done = pl_document_steps_done(s->document);
    snprintf(out, size, "%s", done ? pl_document_step_name(s->document, done - 1) : "as it was opened");
}

static size_t kept_already(const struct pl_session *s)
{
    size_t length;
    const char *bytes = pl_document_bytes(s->document, &length);
    for (size_t i = 1; i < PL_TRIALS_MOST; i++)
        if (is_there(s, i) && s->trials.states[i].length == length && !memcmp(s->trials.states[i].bytes, bytes, length))
            return i;
    return PL_TRIALS_MOST;
}

void pl_trials_keep(struct pl_session *s)
{
    struct pl_trials *t = &s->trials;
    struct pl_problems problems = {0};
    char name[200], words[280];
    size_t slot = kept_already(s), length;
    if (slot < PL_TRIALS_MOST) {
        pl_session_say(s, "this state is kept already, as", pl_trials_letter(slot));
        return;
    }
    for (slot = 1; slot < PL_TRIALS_MOST && is_there(s, slot);)
        slot++;
    if (slot == PL_TRIALS_MOST) {
        pl_session_say(s, "four states are kept: drop one on 7 Trials first", NULL);
        return;
    }
    state_name(s, name, sizeof name);
    const char *bytes = pl_document_bytes(s->document, &length);
    if (pl_document_read(&t->documents[slot], bytes, length, &problems) != PL_OK || take_state(s, &t->states[slot], name) != PL_OK) {
        pl_document_free(t->documents[slot]);
        t->documents[slot] = NULL;
        no_memory(s);
    } else {
        snprintf(words, sizeof words, "%s, %.150s; go on editing, 7 Trials compares", pl_trials_letter(slot), t->states[slot].name);
        pl_session_say(s, "kept as", words);
        pl_edit_stand_alone(s->document);  /* the next edit leads from here, and is called so */
        pl_trials_judged(s);
    }
    pl_problems_free(&problems);
}

void pl_trials_bring(struct pl_session *s, size_t column)
{
    char words[280];
    size_t slot = pl_trials_slot(s, column);
    if (!slot) {
        pl_session_say(s, pl_trials_count(s) > 1 ? "this is the present state: Right goes to a kept one" : "nothing is kept yet: k keeps this state", NULL);
        return;
    }
    if (kept_already(s) == slot) {
        pl_session_say(s, "the part is as it was kept, as", pl_trials_letter(slot));
        return;
    }
    snprintf(words, sizeof words, "brought back %s: %.200s", pl_trials_letter(slot), s->trials.states[slot].name);
    if (pl_session_replace(s, words, s->trials.states[slot].bytes) == PL_OK)
        pl_session_say(s, words, NULL);
}

void pl_trials_drop(struct pl_session *s, size_t column)
{
    struct pl_trials *t = &s->trials;
    size_t slot = pl_trials_slot(s, column);
    if (!slot) {
        pl_session_say(s, "the present state is not dropped; Right goes to a kept one", NULL);
        return;
    }
    pl_state_free(&t->states[slot]);
    pl_document_free(t->documents[slot]);
    t->documents[slot] = NULL;
    t->column = t->column < pl_trials_count(s) ? t->column : pl_trials_count(s) - 1;
    pl_session_say(s, "dropped", pl_trials_letter(slot));
    compare(s);
}

enum { MANY_ROWS = 8 };

static void scroll(struct pl_session *s, int by)
{
    size_t n = pl_trials_rows(s), back = by < 0 ? (size_t)-by : 0;
    size_t first = s->trials.first > back ? s->trials.first - back : 0;
    if (by > 0)
        first = s->trials.first + (size_t)by < n ? s->trials.first + (size_t)by : n ? n - 1 : 0;
    s->trials.first = first;
}

bool pl_trials_act(struct pl_session *s, enum pl_action action, int argument)
{
    struct pl_trials *t = &s->trials;
    size_t n = pl_trials_count(s);
    switch (action) {
    case PL_DO_LEFT: t->column = t->column ? t->column - 1 : 0; return true;
    case PL_DO_RIGHT: t->column = t->column + 1 < n ? t->column + 1 : n - 1; return true;
    case PL_DO_UP: scroll(s, -1); return true;
    case PL_DO_DOWN: scroll(s, 1); return true;
    case PL_DO_PAGE_UP: scroll(s, -MANY_ROWS); return true;
    case PL_DO_PAGE_DOWN: scroll(s, MANY_ROWS); return true;
    case PL_DO_HOME: t->first = 0; return true;
    case PL_DO_END: scroll(s, (int)pl_trials_rows(s)); return true;
    case PL_DO_CHOOSE_STATE: t->column = (size_t)argument < n ? (size_t)argument : n - 1; return true;
    case PL_DO_ENTER: pl_trials_bring(s, t->column); return true;
    case PL_DO_REMOVE: pl_trials_drop(s, t->column); return true;
    default: return false;
    }
}
