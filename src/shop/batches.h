/* batches.h - steps of laying shared out over cups.  Private to the shop room. */
#ifndef PLYLOFT_BATCHES_H
#define PLYLOFT_BATCHES_H

#include <stddef.h>

/* One step: a piece, or a surface. */
struct batch_step { double mixed_kg, seconds; };

/* What a cup may hold. */
struct batch_limit { double mixed_kg, seconds; };

enum { BATCHES_CUPS_MOST = 1000 };

/* A run of steps in one cup, or one step in several; one more than the most stands for any number above. */
struct batch_run { size_t first, count; int cups; };

/* As few cups as the order allows, then as even as they may be; runs has room for one a step.  Their number. */
size_t pl_batches_share(const struct batch_step *steps, size_t count, struct batch_limit limit, struct batch_run *runs);

#endif
