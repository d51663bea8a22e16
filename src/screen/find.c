/* find.c - an action found by what it is called: every word typed must stand in its words, name or key. */
#include "session.h"

#include "plyloft/keys.h"

#include <stdio.h>
#include <string.h>

static bool has_words(const struct pl_doing *doing, const char *typed)
{
    char all[160], one[64];
    snprintf(all, sizeof all, "%s %s %s", doing->words, doing->name, pl_doing_headings[doing->kind]);
    for (const char *at = typed + strspn(typed, " "); *at; at += strspn(at, " ")) {
        size_t n = strcspn(at, " ");
        snprintf(one, sizeof one, "%.*s", (int)(n < 60 ? n : 60), at);
        if (!strcasestr(all, one))
            return false;
        at += n;
    }
    return true;
}

/* The search does not offer itself. */
static bool offered(const struct pl_question *q, size_t doing)
{
    return pl_doings[doing].action != PL_DO_FIND && has_words(&pl_doings[doing], q->line.text);
}

size_t pl_find_count(const struct pl_question *q)
{
    size_t n = 0;
    for (size_t i = 0; i < pl_n_doings; i++)
        n += offered(q, i);
    return n;
}

size_t pl_find_doing(const struct pl_question *q, size_t item)
{
    size_t i = 0;
    for (; i < pl_n_doings; i++)
        if (offered(q, i) && !item--)
            break;
    return i;
}

void pl_find_key(struct pl_session *s, struct pl_question *q, int key)
{
    size_t n = pl_find_count(q), doing = pl_find_doing(q, q->chosen);
    if (key == PL_KEY_ENTER && n) {
        pl_question_done(s);
        pl_session_act(s, (int)pl_doings[doing].action, pl_doings[doing].argument);
    } else if (key != PL_KEY_ENTER && pl_line_key(&q->line, key)) {
        q->chosen = 0;
    }
}
