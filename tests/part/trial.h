/* trial.h - one part at a time to try things on: the sample, or the part that holds every field, made anew for each
 * test and taken away behind it. */
#ifndef PLYLOFT_TESTS_TRIAL_H
#define PLYLOFT_TESTS_TRIAL_H

#include "parts.h"

static struct trial t;

static inline int fresh(void **state)
{
    (void)state;
    trial_open(&t, SAMPLE_PART);
    return 0;
}

static inline int fresh_whole(void **state)
{
    (void)state;
    trial_open(&t, WHOLE_PART);
    return 0;
}

static inline int release(void **state)
{
    (void)state;
    trial_close(&t);
    return 0;
}

/* Builds with one value in the place of another; NULL: without it. */
static inline void try_value(const char *pointer, const char *json)
{
    put(&t, pointer, json);
    trial_build(&t);
}

#endif
