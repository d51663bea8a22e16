#include "batches.h"

#include <math.h>
#include <stdbool.h>

static const double hair = 1e-9;  /* of a limit */

static bool fits(double mixed_kg, double seconds, struct batch_limit limit)
{
    return mixed_kg <= limit.mixed_kg * (1 + hair) && seconds <= limit.seconds * (1 + hair);
}

/* Cups that one step takes alone. */
static int cups_of(const struct batch_step *s, struct batch_limit limit)
{
    double cups = ceil(fmax(s->mixed_kg / limit.mixed_kg, s->seconds / limit.seconds) * (1 - hair));
    return cups < 1 ? 1 : cups <= BATCHES_CUPS_MOST ? (int)cups : BATCHES_CUPS_MOST + 1;
}

/* One after another as long as they fit: no order has fewer cups.  What a cup may hold at most is `limit`; whether a step
 * needs several depends on `whole`. */
static size_t fill(const struct batch_step *steps, size_t count, struct batch_limit limit, struct batch_limit whole, struct batch_run *runs)
{
    size_t n = 0;
    for (size_t i = 0; i < count;) {
        struct batch_run run = {i, 1, cups_of(&steps[i], whole)};
        double mixed_kg = steps[i].mixed_kg, seconds = steps[i].seconds;
        for (i++; run.cups == 1 && i < count && fits(mixed_kg + steps[i].mixed_kg, seconds + steps[i].seconds, limit); i++) {
            mixed_kg += steps[i].mixed_kg;
            seconds += steps[i].seconds;
            run.count++;
        }
        if (runs)
            runs[n] = run;
        n++;
    }
    return n;
}

size_t pl_batches_share(const struct batch_step *steps, size_t count, struct batch_limit limit, struct batch_run *runs)
{
    size_t n = fill(steps, count, limit, limit, NULL);
    /* The least share of the limit that still does with as many cups makes them even. */
    double low = 0, high = 1;
    for (int i = 0; i < 40; i++) {
        double middle = 0.5 * (low + high);
        struct batch_limit less = {middle * limit.mixed_kg, middle * limit.seconds};
        if (fill(steps, count, less, limit, NULL) <= n)
            high = middle;
        else
            low = middle;
    }
    return fill(steps, count, (struct batch_limit){high * limit.mixed_kg, high * limit.seconds}, limit, runs);
}
