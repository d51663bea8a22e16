/* Rows of a part with 10,000 pieces, and of files. */
#include "bench.h"

#include "plyloft/file.h"

#include <stdint.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

struct large { const char *path; struct bench_wing wing; };

/* ---- loading ---- */

static bool load(void *context, struct bench_figure *f)
{
    struct bench_wing w;
    bool good = bench_wing_open(&w, context, f);
    bench_wing_close(&w);
    return good;
}

static void load_large(struct bench_figure *f)
{
    const char *path = bench_part_large(f);
    if (path)
        bench_time(f, 100, load, (void *)(uintptr_t)path);
}

/* ---- saving ---- */

static bool save(void *context, struct bench_figure *f)
{
    struct large *l = context;
    size_t length;
    const char *bytes = pl_document_bytes(l->wing.document, &length);
    enum pl_status status = pl_file_save(l->path, bytes, length, &l->wing.problems);
    if (status != PL_OK)
        bench_missing_status(f, l->path, status, &l->wing.problems);
    return status == PL_OK;
}

static void time_saving(struct bench_figure *f, const char *path)
{
    struct large l = {.path = path};
    size_t length;
    if (!path)
        return;
    if (bench_wing_open(&l.wing, path, f)) {
        pl_document_bytes(l.wing.document, &length);
        bench_note(f, "%.1f kB, synced to the disk", 1e-3 * (double)length);
        bench_time(f, 40, save, &l);
    }
    bench_wing_close(&l.wing);
}

static void save_large(struct bench_figure *f) { time_saving(f, bench_part_large(f)); }
static void save_sample(struct bench_figure *f) { time_saving(f, bench_part_copy(f)); }

/* ---- checking ---- */

static void check_large(struct bench_figure *f)
{
    struct bench_wing w;
    const char *path = bench_part_large(f);
    if (!path)
        return;
    if (bench_wing_open(&w, path, f)) {
        double start_ms = bench_now_ms();
        if (bench_wing_check(&w, f)) {
            bench_set(f, bench_now_ms() - start_ms, "ms");
            bench_note(f, "%zu pieces, %zu stations a case", bench_wing_pieces(&w),
                       pl_solve_verdict(w.solve)->cases[0].n_rows);
        }
    }
    bench_wing_close(&w);
}

static const struct bench_row rows[] = {
    {"sample saved", "-", save_sample},
    {"10,000 pieces: read and built", "-", load_large},
    {"10,000 pieces: saved", "-", save_large},
    {"10,000 pieces: full check, once, from cold", "-", check_large},
};

const struct bench_group bench_large = {"files, and a part of 10,000 pieces", rows, COUNT(rows)};
