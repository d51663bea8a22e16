/* Facts of what is asked: a question on the bench, the list of parts, and what is being typed. */
#include "facts.h"

#include "view.h"

#include "plyloft/keys.h"

#include <stdio.h>
#include <string.h>

static const char typing_ended[] = "ended", question_ended[] = "closed";

static void add_typing(struct pl_facts *f, const struct pl_line *line)
{
    size_t length = line ? strlen(line->text) : 0;
    if (!line)
        pl_facts_add(f, "typing", typing_ended, "");
    else if (!length)
        pl_facts_add(f, "typing", typing_ended, "nothing yet");
    else if (line->untouched)
        pl_facts_addf(f, "typing", typing_ended, "%s, selected", line->text);
    else if (!line->at)
        pl_facts_addf(f, "typing", typing_ended, "%s, cursor at its start", line->text);
    else if (line->at < length)
        pl_facts_addf(f, "typing", typing_ended, "%s, cursor after %.*s", line->text, (int)line->at, line->text);
    else
        pl_facts_add(f, "typing", typing_ended, line->text);
}

/* Keys stand two or more blanks apart where there are pages; here commas part them. */
static void add_answers(struct pl_facts *f, const char *keys)
{
    char words[PL_FACT_WORDS];
    size_t n = 0;
    for (const char *at = keys; *at && n + 3 < sizeof words; at++) {
        if (at[0] == ' ' && at[1] == ' ') {
            while (at[1] == ' ')
                at++;
            words[n++] = ',';
        }
        words[n++] = *at;
    }
    words[n] = '\0';
    pl_facts_add(f, "answers", NULL, words);
}

/* ---- questions ---- */

static const struct pl_question *newest(const struct pl_session *s)
{
    return s->n_questions ? &s->questions[s->n_questions - 1] : NULL;
}

static bool is_typed(const struct pl_question *q)
{
    return q->kind == PL_ASK_PATH || q->kind == PL_ASK_PROFILE || q->line.text[0];
}

static void add_items(struct pl_facts *f, const struct pl_session *s, const struct pl_question *q)
{
    size_t n = pl_question_items(s, q);
    char item[256];
    for (size_t i = 0; i < n; i++) {
        pl_question_item(s, q, i, item, sizeof item);
        pl_facts_addf(f, "item", NULL, "%zu of %zu, %s%s", i + 1, n, item,
                      pl_question_ticked(s, q, item) ? ", chosen" : "");
    }
}

/* Help is a list of keys. */
static void add_keys(struct pl_facts *f)
{
    for (size_t i = 0; i < pl_n_bindings; i++) {
        char key[32];
        pl_key_name(pl_bindings[i].key, key, sizeof key);
        pl_facts_addf(f, "item", NULL, "%s, %s", key, pl_bindings[i].words);
    }
}

static void add_choice(struct pl_facts *f, const struct pl_session *s, const struct pl_question *q)
{
    size_t n = pl_question_items(s, q);
    char item[256];
    if (!n) {
        bool list = q->kind == PL_PICK_VALUE || q->kind == PL_PICK_MATERIAL;
        pl_facts_add(f, "choice", NULL, list ? "nothing to choose from" : "");
        return;
    }
    pl_question_item(s, q, q->chosen, item, sizeof item);
    pl_facts_addf(f, "choice", NULL, "%s, %zu of %zu", item, q->chosen + 1, n);
}

void pl_facts_of_question(struct pl_facts *f, const struct pl_session *s)
{
    const struct pl_question *q = newest(s);
    if (!q) {
        pl_facts_add(f, "question", question_ended, "");
        add_typing(f, s->typing ? &s->line : NULL);
        return;
    }
    const char *title = pl_question_title(s, q), *words = pl_question_words(q);
    pl_facts_add(f, "question", question_ended, title);
    pl_facts_add(f, "about", NULL, words == title ? "" : words);
    add_typing(f, is_typed(q) ? &q->line : NULL);
    add_choice(f, s, q);
    add_answers(f, pl_question_answers(q));
    if (q->kind == PL_SHOW_HELP)
        add_keys(f);
    else
        add_items(f, s, q);
}

/* ---- the list of parts ---- */

void pl_facts_of_start(struct pl_facts *f, const struct pl_start *start)
{
    size_t n = pl_start_count(start);
    char item[PL_FACT_WORDS];
    pl_facts_add(f, "message", NULL, start->message);
    pl_facts_add(f, "page", NULL, "which part?");
    add_typing(f, start->typing ? &start->line : NULL);
    pl_start_item(start, start->chosen, item, sizeof item);
    pl_facts_addf(f, "choice", NULL, "%s, %zu of %zu", item, start->chosen + 1, n);
    add_answers(f, pl_start_answers(start));
    for (size_t i = 0; i < n; i++) {
        pl_start_item(start, i, item, sizeof item);
        pl_facts_addf(f, "item", NULL, "%zu of %zu, %s", i + 1, n, item);
    }
}
