/* facts.h - what the bench has to say, one fact a line and no picture: for screen readers, logs and pipes.
 *
 * The facts follow from the session, or from the list of parts, alone, in a fixed order; a fact is known by its label
 * and, among facts of one label, by its number.  What changed is found by comparing two lists.  All words are made
 * safe here (text.h), so nothing that a file holds can steer a terminal.  Knows no stream and no terminal; figures
 * come from the check room.
 */
#ifndef PLYLOFT_FACTS_H
#define PLYLOFT_FACTS_H

#include "plyloft/buffer.h"

#include "session.h"
#include "start.h"

enum { PL_FACT_WORDS = 704 };

struct pl_fact {
    const char *label;
    const char *none;           /* said when the words went and nothing came instead; NULL: that is not worth a line */
    size_t place;               /* of another place it is another fact, though the words be the same */
    char words[PL_FACT_WORDS];  /* "": nothing to say */
};

/* Grows; all zeros is an empty one.  failed: memory ran out, and facts are missing. */
struct pl_facts {
    struct pl_fact *list;
    size_t count, capacity;
    bool failed;
};

void pl_facts_free(struct pl_facts *f);
void pl_facts_clear(struct pl_facts *f);  /* keeps the memory */

/* Adds a fact.  label and none must outlive it; words are copied, made safe and cut at a character. */
void pl_facts_add(struct pl_facts *f, const char *label, const char *none, const char *words);
void pl_facts_addf(struct pl_facts *f, const char *label, const char *none, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Says that the fact added last is of that place; 0 before. */
void pl_facts_place(struct pl_facts *f, size_t place);

/* The words of the fact of that label and number from 0; NULL when there is none. */
const char *pl_facts_words(const struct pl_facts *f, const char *label, size_t number);

/* Puts other words in the first fact of that label, or adds it. */
void pl_facts_put(struct pl_facts *f, const char *label, const char *words);

/* A line "label: words" for each fact that was not said, or said in other words.  What went is said where the fact has
 * words for it.  Against an empty list that is the whole state. */
void pl_facts_changed(const struct pl_facts *now, const struct pl_facts *said, struct pl_buffer *out);

/* ---- what is said ---- */

void pl_facts_of_session(struct pl_facts *f, const struct pl_session *session);
void pl_facts_of_start(struct pl_facts *f, const struct pl_start *start);

/* What is asked, or being typed: a part of the session's facts. */
void pl_facts_of_question(struct pl_facts *f, const struct pl_session *session);
/* The verdict and what stands at the marker. */
void pl_facts_of_verdict(struct pl_facts *f, const struct pl_session *session);

#endif
