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

static void add_answers(struct pl_facts *f, const struct pl_foot *feet, size_t count)
{
    char words[PL_FACT_WORDS] = "", key[32], other[32];
    for (size_t i = 0; i < count; i++) {
        pl_key_name(feet[i].key, key, sizeof key);
        pl_key_name(feet[i].other, other, sizeof other);
        size_t n = strlen(words);
        snprintf(words + n, sizeof words - n, "%s%s%s%s%s%s", n ? ", " : "", key, other[0] ? " " : "", other,
                 feet[i].words[0] ? " " : "", feet[i].words);
    }
    pl_facts_add(f, "answers", NULL, words);
}

/* ---- questions ---- */

static const struct pl_question *newest(const struct pl_session *s)
{
    return s->n_questions ? &s->questions[s->n_questions - 1] : NULL;
}

static bool is_typed(const struct pl_question *q)
{
    return pl_asks_path(q->kind) || q->kind == PL_FIND_ACTION || q->line.text[0];
}

/* The text of an item; of an action with its keys. */
static void item_words(const struct pl_session *s, const struct pl_question *q, size_t item, char *out, size_t size)
{
    char text[256], keys[64] = "";
    pl_question_item(s, q, item, text, sizeof text);
    if (q->kind == PL_FIND_ACTION)
        pl_keymap_words(&s->keys, pl_find_doing(q, item), keys, sizeof keys);
    snprintf(out, size, "%s%s%s", text, keys[0] ? ", " : "", keys);
}

static void add_items(struct pl_facts *f, const struct pl_session *s, const struct pl_question *q)
{
    size_t n = pl_question_items(s, q);
    char item[400], text[256];
    for (size_t i = 0; i < n; i++) {
        item_words(s, q, i, item, sizeof item);
        pl_question_item(s, q, i, text, sizeof text);
        pl_facts_addf(f, "item", NULL, "%zu of %zu, %s%s", i + 1, n, item,
                      pl_question_ticked(s, q, text) ? ", chosen" : "");
    }
}

static void add_key(struct pl_facts *f, const struct pl_session *s, size_t doing)
{
    char keys[64];
    pl_keymap_words(&s->keys, doing, keys, sizeof keys);
    pl_facts_addf(f, "item", NULL, "%s, %s", keys[0] ? keys : "through f", pl_doings[doing].words);
}

/* Help is a list of keys: those that matter on the page, or all. */
static void add_help(struct pl_facts *f, const struct pl_session *s, const struct pl_question *q)
{
    enum pl_action actions[48];
    size_t n = pl_view_page_actions(s, actions, sizeof actions / sizeof *actions);
    for (size_t i = 0; q->chosen && i < pl_n_doings; i++)
        add_key(f, s, i);
    for (size_t i = 0; !q->chosen && i < n; i++)
        add_key(f, s, pl_doing_of(actions[i], 0));
}

static void add_choice(struct pl_facts *f, const struct pl_session *s, const struct pl_question *q)
{
    size_t n = pl_question_items(s, q);
    char item[400];
    bool list = q->kind == PL_PICK_VALUE || q->kind == PL_PICK_MATERIAL || q->kind == PL_FIND_ACTION;
    if (n) {
        item_words(s, q, q->chosen, item, sizeof item);
        pl_facts_addf(f, "choice", NULL, "%s, %zu of %zu", item, q->chosen + 1, n);
    } else {
        pl_facts_add(f, "choice", NULL, list ? "nothing to choose from" : "");
    }
}

/* No question: a value may be typed, or an end of a ply group stand ready to be moved. */
static void add_hands(struct pl_facts *f, const struct pl_session *s)
{
    char words[200] = "";
    size_t n;
    const struct pl_foot *feet = pl_hold_feet(&n);
    pl_facts_add(f, "question", question_ended, "");
    add_typing(f, s->typing ? &s->line : NULL);
    if (s->held.on)
        pl_hold_words(s, words, sizeof words);
    pl_facts_add(f, "in hand", "put down", words);
    if (s->held.on)
        add_answers(f, feet, n);
}

void pl_facts_of_question(struct pl_facts *f, const struct pl_session *s)
{
    const struct pl_question *q = newest(s);
    size_t n;
    char title[256];
    if (!q) {
        add_hands(f, s);
        return;
    }
    pl_question_title(s, q, title, sizeof title);
    pl_facts_add(f, "question", question_ended, title);
    pl_facts_add(f, "about", NULL, pl_question_words(s, q));
    add_typing(f, is_typed(q) ? &q->line : NULL);
    add_choice(f, s, q);
    const struct pl_foot *feet = pl_question_feet(q, &n);
    add_answers(f, feet, n);
    if (q->kind == PL_SHOW_HELP)
        add_help(f, s, q);
    else
        add_items(f, s, q);
}

/* ---- the list of parts ---- */

void pl_facts_of_start(struct pl_facts *f, const struct pl_start *start)
{
    size_t n = pl_start_count(start), n_feet;
    char item[PL_FACT_WORDS];
    pl_facts_add(f, "message", NULL, start->message);
    pl_facts_add(f, "page", NULL, "which part?");
    add_typing(f, start->typing ? &start->line : NULL);
    pl_start_item(start, start->chosen, item, sizeof item);
    pl_facts_addf(f, "choice", NULL, "%s, %zu of %zu", item, start->chosen + 1, n);
    const struct pl_foot *feet = pl_start_feet(start, &n_feet);
    add_answers(f, feet, n_feet);
    for (size_t i = 0; i < n; i++) {
        pl_start_item(start, i, item, sizeof item);
        pl_facts_addf(f, "item", NULL, "%zu of %zu, %s", i + 1, n, item);
    }
}
