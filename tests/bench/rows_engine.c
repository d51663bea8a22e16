/* Rows of the library: checking, building, reading. */
#include "bench.h"

#include "plyloft/shop.h"

#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

static bool check(void *context, struct bench_figure *f)
{
    return bench_wing_check(context, f);
}

static bool read_again(void *context, struct bench_figure *f)
{
    struct bench_wing *w = context;
    struct pl_document *doc;
    size_t length;
    const char *bytes = pl_document_bytes(w->document, &length);
    enum pl_status status = pl_document_read(&doc, bytes, length, &w->problems);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &w->problems);
    pl_document_free(doc);
    return status == PL_OK;
}

static bool build_again(void *context, struct bench_figure *f)
{
    struct bench_wing *w = context;
    pl_problems_clear(&w->problems);
    enum pl_status status = pl_part_build(&w->part, w->document, &w->problems);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &w->problems);
    return status == PL_OK;
}

static void time_wing(struct bench_figure *f, const char *path, int count, bench_body *body)
{
    struct bench_wing w;
    if (!path)
        return;
    if (bench_wing_open(&w, path, f))
        bench_time(f, count, body, &w);
    bench_wing_close(&w);
}

/* Pieces, rolls and cups. */
static bool kit_again(void *context, struct bench_figure *f)
{
    struct bench_wing *w = context;
    struct pl_shop shop = {0};
    enum pl_status status = pl_shop_build(&shop, &w->part, 1, &w->problems);
    if (status != PL_OK)
        bench_missing_status(f, NULL, status, &w->problems);
    bench_note(f, "%zu pieces", shop.kit.n_pieces);
    pl_shop_free(&shop);
    return status == PL_OK;
}

static void kit(struct bench_figure *f) { time_wing(f, BENCH_SAMPLE, 30, kit_again); }
static void full_check(struct bench_figure *f) { time_wing(f, BENCH_SAMPLE, 400, check); }
static void one_case(struct bench_figure *f) { time_wing(f, bench_part_one_case(f), 500, check); }
static void document_read(struct bench_figure *f) { time_wing(f, BENCH_SAMPLE, 500, read_again); }
static void part_build(struct bench_figure *f) { time_wing(f, BENCH_SAMPLE, 500, build_again); }

/* What a case adds to the sections that all cases share: eight more against one. */
static void each_further_case(struct bench_figure *f)
{
    struct bench_figure nine = {.unit = ""};
    one_case(f);
    time_wing(&nine, bench_part_nine_cases(&nine), 200, check);
    if (nine.missing[0])
        bench_missing(f, "%s", nine.missing);
    bench_set(f, (nine.typical - f->typical) / 8, "ms");
    f->high = (double)NAN;
}

/* The arenas are at their size after two runs, since result sets take turns. */
static void count_in_checks(struct bench_wing *w, struct bench_figure *f)
{
    enum { WARM_UP = 4, RUNS = 20 };
    unsigned long before = 0;
    for (int i = -WARM_UP; i < RUNS; i++) {
        if (i == 0)
            before = bench_allocations();
        if (!bench_wing_check(w, f))
            return;
    }
    bench_set(f, (double)(bench_allocations() - before) / RUNS, "");
}

static void allocations(struct bench_figure *f)
{
    struct bench_wing w;
    if (!bench_counts_allocations()) {
        bench_missing(f, "calls for memory cannot be counted in this build");
        return;
    }
    if (bench_wing_open(&w, BENCH_SAMPLE, f))
        count_in_checks(&w, f);
    bench_wing_close(&w);
}

static const struct bench_row rows[] = {
    {"full check of the sample, warm", "under 1.8 ms", full_check},
    {"one linear case in one solution, warm", "under 0.3 ms", one_case},
    {"each further one of the same part", "-", each_further_case},
    {"allocations in a warm check", "0", allocations},
    {"document read", "-", document_read},
    {"part built from the document, warm", "-", part_build},
    {"kit of the front wing", "-", kit},
};

const struct bench_group bench_engine = {"engine", rows, COUNT(rows)};
