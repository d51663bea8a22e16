/* trials.h - the present state beside up to four kept ones: figures, and what differs.
 *
 * The present is column 0; the kept ones are called A to D and keep their letter.  The table is rows of a label and one
 * value a column, made here from kept figures alone; view_trials.c draws it, facts say it.
 */
#ifndef PLYLOFT_TRIALS_H
#define PLYLOFT_TRIALS_H

#include "actions.h"

#include "plyloft/compare.h"
#include "plyloft/document.h"

#include <stdbool.h>
#include <stddef.h>

enum { PL_TRIALS_MOST = 5 };

struct pl_session;

struct pl_trials {
    struct pl_state states[PL_TRIALS_MOST];          /* bytes NULL: no such column */
    struct pl_document *documents[PL_TRIALS_MOST];   /* the present one's is the session's own */
    struct pl_differences differences;               /* between the columns there are */
    size_t column;                                   /* in hand, among those there are */
    size_t first;                                    /* row shown first */
};

/* Columns there are; the number of one among the slots, and its name, "now" or a letter. */
size_t pl_trials_count(const struct pl_session *session);
size_t pl_trials_slot(const struct pl_session *session, size_t column);
const char *pl_trials_letter(size_t slot);

struct pl_trial_row {
    char label[96];
    char values[PL_TRIALS_MOST][64];  /* by column */
    bool differs[PL_TRIALS_MOST];     /* from the present one */
    bool wrong[PL_TRIALS_MOST];       /* falls short, or passes a limit */
    bool heading;                     /* no values, begins a group of rows */
};

size_t pl_trials_rows(const struct pl_session *session);
void pl_trials_row(const struct pl_session *session, size_t row, struct pl_trial_row *out);

void pl_trials_keep(struct pl_session *session);                  /* the present state, as a new column */
void pl_trials_bring(struct pl_session *session, size_t column);  /* back, as one step of undo */
void pl_trials_drop(struct pl_session *session, size_t column);
/* What an action means on the page; false when it is none of the page's own. */
bool pl_trials_act(struct pl_session *session, enum pl_action action, int argument);

/* The part was judged anew. */
void pl_trials_judged(struct pl_session *session);
void pl_trials_free(struct pl_session *session);

#endif
