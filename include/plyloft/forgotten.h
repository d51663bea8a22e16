/* forgotten.h - what one forgotten ply would do.
 *
 * The most usual mistake at the bench: one ply of a group is not laid.  The longest is
 * taken away, which weakens the wing from root to tip, and the whole part is solved
 * again.  Worked out one group at a time, so that a screen can do it between keys.
 */
#ifndef PLYLOFT_FORGOTTEN_H
#define PLYLOFT_FORGOTTEN_H

#include "plyloft/check.h"

struct pl_forgotten;

struct pl_forgotten_ply {
    bool done;         /* worked out */
    bool bare;         /* without it some of the wall is bare, or the part cannot be judged */
    double reserve;    /* lowest of all cases then; NAN without cases */
    size_t load_case;  /* that it is in */
};

struct pl_forgotten *pl_forgotten_new(void);  /* NULL without memory */
void pl_forgotten_free(struct pl_forgotten *f);

/* Starts over for a part that was just judged; the part must live as long as steps are taken. */
/* Flows of `computed` cases from a store that must outlive it; old ones will do. */
void pl_forgotten_use_air(struct pl_forgotten *forgotten, struct pl_wing_air *air);

void pl_forgotten_start(struct pl_forgotten *f, const struct pl_part *part);

/* Works out one group more; false when all are done. */
bool pl_forgotten_step(struct pl_forgotten *f);

/* Of a lay-up item; NULL when there is none such. */
const struct pl_forgotten_ply *pl_forgotten_of(const struct pl_forgotten *f, size_t element, size_t item);

/* The worst of all that are done and leave a wall: *element and *item; NULL when there is none. */
const struct pl_forgotten_ply *pl_forgotten_worst(const struct pl_forgotten *f, size_t *element, size_t *item);

#endif
