/* bench.h - times and sizes, in a table to be read.
 *
 * A row says what it is about, the target where the design names one, and the function that measures it.
 * Nothing here passes or fails: what cannot be measured says why in its row.  Times are of the wall's clock
 * on a machine that does other things too, so medians come with the 99th percentile.
 */
#ifndef PLYLOFT_BENCH_H
#define PLYLOFT_BENCH_H

#include "plyloft/buffer.h"
#include "plyloft/check.h"
#include "plyloft/document.h"
#include "plyloft/part.h"
#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#define BENCH_SAMPLE "samples/front-wing.json"

enum { BENCH_ROWS = 60, BENCH_COLUMNS = 200 };  /* of the large terminal */

struct bench_figure {
    double typical, high;  /* high NAN: none that would mean anything */
    const char *unit;
    char note[128];
    char missing[256];     /* why there is no figure; "" when there is one */
};

struct bench_row {
    const char *what, *target;  /* target "-": none is named */
    void (*measure)(struct bench_figure *f);
};

struct bench_group {
    const char *heading;
    const struct bench_row *rows;
    size_t count;
};

extern const struct bench_group bench_engine, bench_flow, bench_wings, bench_screen, bench_terminal, bench_process, bench_large;

/* ---- figures (measure.c) ---- */
enum { BENCH_SAMPLES_MOST = 1000 };

struct bench_samples {
    double values[BENCH_SAMPLES_MOST];
    size_t count;
};

double bench_now_ms(void);
void bench_add(struct bench_samples *s, double value);  /* ignored once full */
void bench_set(struct bench_figure *f, double value, const char *unit);
/* Median and, from a hundred on, the 99th percentile; or average and greatest. */
void bench_set_median(struct bench_figure *f, struct bench_samples *s, const char *unit);
void bench_set_average(struct bench_figure *f, const struct bench_samples *s, const char *unit);
void bench_note(struct bench_figure *f, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* There is no figure; the first reason given stays. */
void bench_missing(struct bench_figure *f, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* For what failed with a status; file is the one it was about, or NULL. */
void bench_missing_status(struct bench_figure *f, const char *file, enum pl_status status,
                          const struct pl_problems *problems);

/* Runs body a few times to warm up, then count times, each timed.  False in body ends it: the body has said why. */
typedef bool bench_body(void *context, struct bench_figure *f);
void bench_time(struct bench_figure *f, int count, bench_body *body, void *context);

/* ---- calls for memory, of the whole process (allocations.c) ---- */
bool bench_counts_allocations(void);
unsigned long bench_allocations(void);

/* ---- parts to measure with (parts.c) ---- */
struct bench_wing {
    struct pl_document *document;
    struct pl_part part;
    struct pl_problems problems;
    struct pl_solve *solve;
};

/* False, with the reason in f, when there is no such part or it is none; close it all the same. */
bool bench_wing_open(struct bench_wing *w, const char *path, struct bench_figure *f);
bool bench_wing_check(struct bench_wing *w, struct bench_figure *f);
void bench_wing_close(struct bench_wing *w);
size_t bench_wing_pieces(const struct bench_wing *w);

/* Files made from the sample in the scratch folder; NULL, with the reason in f, when that failed. */
const char *bench_part_copy(struct bench_figure *f);      /* as it is, to be edited and saved */
const char *bench_part_one_case(struct bench_figure *f);  /* one uniform downforce on sprung mounts: one solution */
const char *bench_part_nine_cases(struct bench_figure *f); /* the same nine times */
const char *bench_part_short(struct bench_figure *f);     /* the same once, on the wing between the brackets */
const char *bench_part_computed(struct bench_figure *f);  /* as it is, its downforce computed from the flow */
const char *bench_part_large(struct bench_figure *f);     /* 100 ply groups of 100 plies */

/* ---- the scratch folder (folder.c) ---- */
/* What the program keeps of parts (XDG_STATE_HOME) goes there too. */
bool bench_folder_make(void);
void bench_folder_remove(void);
const char *bench_folder(void);
void bench_folder_path(char *out, size_t size, const char *name);

/* ---- the program from outside (program.c, wire.c) ---- */
const char *bench_program(struct bench_figure *f);  /* its path; NULL, with the reason in f, when it cannot be run */
/* Resident memory of a process, all and what is its own, in MB; false where the system does not say. */
bool bench_resident_mb(pid_t process, double *all_mb, double *own_mb);

/* The program on a pseudo-terminal of the large size. */
struct bench_wire {
    pid_t child;
    int master;
    double started_ms, typed_ms, last_ms;  /* when it was started, last typed to, and last written by */
    struct pl_buffer output;               /* of the last gathering */
};

bool bench_wire_start(struct bench_wire *w, const char *part, struct bench_figure *f);
/* Gathers what is written until nothing more comes for quiet_ms; at most wait_ms for the first of it. */
bool bench_wire_gather(struct bench_wire *w, int wait_ms, int quiet_ms, struct bench_figure *f);
bool bench_wire_type(struct bench_wire *w, const char *keys, struct bench_figure *f);
/* Leaves the program, or makes it. */
void bench_wire_end(struct bench_wire *w);

#endif
