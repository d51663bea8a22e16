/* Clock, samples and what a row says of them. */
#include "bench.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { WARM_UP = 5, ENOUGH_FOR_99 = 100 };

double bench_now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

void bench_add(struct bench_samples *s, double value)
{
    if (s->count < BENCH_SAMPLES_MOST)
        s->values[s->count++] = value;
}

void bench_set(struct bench_figure *f, double value, const char *unit)
{
    f->typical = value;
    f->unit = unit;
}

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

void bench_set_median(struct bench_figure *f, struct bench_samples *s, const char *unit)
{
    if (!s->count) {
        bench_missing(f, "nothing came to be timed");
        return;
    }
    qsort(s->values, s->count, sizeof *s->values, by_value);
    bench_set(f, 0.5 * (s->values[(s->count - 1) / 2] + s->values[s->count / 2]), unit);
    if (s->count >= ENOUGH_FOR_99)
        f->high = s->values[(99 * s->count + 99) / 100 - 1];  /* nearest rank */
}

void bench_set_average(struct bench_figure *f, const struct bench_samples *s, const char *unit)
{
    double sum = 0;
    if (!s->count) {
        bench_missing(f, "nothing came to be counted");
        return;
    }
    f->high = s->values[0];
    for (size_t i = 0; i < s->count; i++) {
        sum += s->values[i];
        f->high = fmax(f->high, s->values[i]);
    }
    bench_set(f, sum / (double)s->count, unit);
}

void bench_note(struct bench_figure *f, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(f->note, sizeof f->note, format, arguments);
    va_end(arguments);
}

void bench_missing(struct bench_figure *f, const char *format, ...)
{
    va_list arguments;
    if (f->missing[0])
        return;
    va_start(arguments, format);
    vsnprintf(f->missing, sizeof f->missing, format, arguments);
    va_end(arguments);
}

void bench_missing_status(struct bench_figure *f, const char *file, enum pl_status status,
                          const struct pl_problems *problems)
{
    char sentence[sizeof f->missing];
    const struct pl_problem *first = pl_problems_first_error(problems);
    if (first) {
        pl_problem_sentence(first, file, sentence, sizeof sentence);
        bench_missing(f, "%s", sentence);
    } else {
        bench_missing(f, status == PL_NO_MEMORY ? "not enough memory" : "it failed without a word");
    }
}

void bench_time(struct bench_figure *f, int count, bench_body *body, void *context)
{
    struct bench_samples s = {.count = 0};
    for (int i = -WARM_UP; i < count; i++) {
        double start_ms = bench_now_ms();
        bool good = body(context, f);
        double end_ms = bench_now_ms();
        if (!good) {
            bench_missing(f, "it failed without a word");
            return;
        }
        if (i >= 0)
            bench_add(&s, end_ms - start_ms);
    }
    bench_set_median(f, &s, "ms");
}
