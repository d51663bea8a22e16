#include "facts.h"

#include "plyloft/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void pl_facts_free(struct pl_facts *f)
{
    free(f->list);
    *f = (struct pl_facts){0};
}

void pl_facts_clear(struct pl_facts *f)
{
    f->count = 0;
    f->failed = false;
}

static bool make_room(struct pl_facts *f)
{
    if (f->count < f->capacity)
        return true;
    size_t capacity = f->capacity ? 2 * f->capacity : 64;
    struct pl_fact *list = realloc(f->list, capacity * sizeof *list);
    if (!list) {
        f->failed = true;
        return false;
    }
    f->list = list;
    f->capacity = capacity;
    return true;
}

void pl_facts_add(struct pl_facts *f, const char *label, const char *none, const char *words)
{
    if (!make_room(f))
        return;
    struct pl_fact *fact = &f->list[f->count++];
    fact->label = label;
    fact->none = none;
    fact->place = 0;
    pl_text_safe(fact->words, sizeof fact->words, words);
}

void pl_facts_addf(struct pl_facts *f, const char *label, const char *none, const char *format, ...)
{
    char words[2 * PL_FACT_WORDS];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    pl_facts_add(f, label, none, words);
}

void pl_facts_place(struct pl_facts *f, size_t place)
{
    if (f->count)
        f->list[f->count - 1].place = place;
}

static struct pl_fact *find(const struct pl_facts *f, const char *label, size_t number)
{
    for (size_t i = 0; i < f->count; i++)
        if (!strcmp(f->list[i].label, label) && !number--)
            return &f->list[i];
    return NULL;
}

const char *pl_facts_words(const struct pl_facts *f, const char *label, size_t number)
{
    const struct pl_fact *fact = find(f, label, number);
    return fact ? fact->words : NULL;
}

void pl_facts_put(struct pl_facts *f, const char *label, const char *words)
{
    struct pl_fact *fact = find(f, label, 0);
    if (fact)
        pl_text_safe(fact->words, sizeof fact->words, words);
    else
        pl_facts_add(f, label, NULL, words);
}

/* Facts of one label stand together. */
static size_t number_of(const struct pl_facts *f, size_t i)
{
    size_t first = i;
    while (first && !strcmp(f->list[first - 1].label, f->list[i].label))
        first--;
    return i - first;
}

void pl_facts_changed(const struct pl_facts *now, const struct pl_facts *said, struct pl_buffer *out)
{
    for (size_t i = 0; i < now->count; i++) {
        const struct pl_fact *fact = &now->list[i], *before = find(said, fact->label, number_of(now, i));
        const char *words = fact->words[0] ? fact->words : before ? fact->none : NULL;
        bool same = before && before->place == fact->place && !strcmp(before->words, fact->words);
        if (words && !same)
            pl_buffer_printf(out, "%s: %s\n", fact->label, words);
    }
}
