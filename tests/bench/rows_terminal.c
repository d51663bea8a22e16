/* Rows of the whole program on a pseudo-terminal: what it writes, and when the last of it is there. */
#include "bench.h"

#include "screen/session.h"
#include "screen/view.h"

#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* A frame goes out in one burst; this long without a byte means that it has all come. */
enum { FIRST_WAIT_MS = 3000, FIRST_QUIET_MS = 40, KEY_WAIT_MS = 1000, KEY_QUIET_MS = 10 };

static bool start(struct bench_wire *w, struct bench_figure *f)
{
    *w = (struct bench_wire){.child = -1, .master = -1};
    const char *part = bench_part_copy(f);
    return part && bench_wire_start(w, part, f) && bench_wire_gather(w, FIRST_WAIT_MS, FIRST_QUIET_MS, f);
}

/* ---- keys ---- */

/* Keys typed first, then two that take turns; the same presses serve a row of bytes and one of times. */
struct trial {
    const char *first;
    const char *turns[2];
    struct bench_samples bytes, times_ms;
};

static bool press(struct bench_wire *w, const char *key, struct bench_figure *f)
{
    return bench_wire_type(w, key, f) && bench_wire_gather(w, KEY_WAIT_MS, KEY_QUIET_MS, f);
}

static bool press_in_turn(struct trial *t, struct bench_figure *f)
{
    enum { WARM_UP = 4, PRESSES = 110 };
    struct bench_wire w;
    bool good = start(&w, f) && (!*t->first || press(&w, t->first, f));
    for (int i = -WARM_UP; i < PRESSES && good; i++) {
        good = press(&w, t->turns[i & 1], f);
        if (good && i >= 0) {
            bench_add(&t->bytes, (double)w.output.length);
            bench_add(&t->times_ms, w.last_ms - w.typed_ms);
        }
    }
    bench_wire_end(&w);
    return good;
}

static void bytes_of(struct trial *t, struct bench_figure *f)
{
    if (t->bytes.count || press_in_turn(t, f))
        bench_set_average(f, &t->bytes, "B");
}

static void times_of(struct trial *t, struct bench_figure *f)
{
    if (t->times_ms.count || press_in_turn(t, f))
        bench_set_median(f, &t->times_ms, "ms");
}

#define DOWN "\033[B"

static struct trial plies = {.first = DOWN DOWN, .turns = {"+", "-"}};
static struct trial skin = {.first = "", .turns = {"+", "-"}};
static struct trial chord = {.first = "\t" DOWN "\033[C", .turns = {"+", "-"}};
static struct trial marker = {.first = "", .turns = {"]", "["}};
static struct trial pages = {.first = "", .turns = {"4", "2"}};

static void plies_bytes(struct bench_figure *f) { bytes_of(&plies, f); }
static void plies_time(struct bench_figure *f) { times_of(&plies, f); }
static void skin_bytes(struct bench_figure *f) { bytes_of(&skin, f); }
static void chord_bytes(struct bench_figure *f) { bytes_of(&chord, f); }
static void chord_time(struct bench_figure *f) { times_of(&chord, f); }
static void marker_bytes(struct bench_figure *f) { bytes_of(&marker, f); }
static void pages_bytes(struct bench_figure *f) { bytes_of(&pages, f); }
static void pages_time(struct bench_figure *f) { times_of(&pages, f); }

/* In and out of a question: the key that opens it, and Escape, which may be the start of another key. */
static void question_bytes(struct bench_figure *f)
{
    static struct trial question = {.first = "", .turns = {"f", "\033"}};
    bytes_of(&question, f);
}

static void escape_time(struct bench_figure *f)
{
    enum { PRESSES = 100 };
    struct bench_samples times_ms = {.count = 0};
    struct bench_wire w;
    bool good = start(&w, f);
    for (int i = 0; i < PRESSES && good; i++) {
        good = press(&w, "f", f) && press(&w, "\033", f);
        if (good)
            bench_add(&times_ms, w.last_ms - w.typed_ms);
    }
    if (good)
        bench_set_median(f, &times_ms, "ms");
    bench_wire_end(&w);
}

/* As a held key sends them, some at a time. */
static void memory_after_edits(struct bench_figure *f)
{
    enum { EDITS = 10000, BURST = 50 };
    struct bench_wire w;
    double before_mb, all_mb, own_mb;
    char keys[BURST + 1] = "";
    for (int i = 0; i < BURST; i++)
        keys[i] = i & 1 ? '-' : '+';
    bool good = start(&w, f) && press(&w, DOWN DOWN, f);
    good = good && bench_resident_mb(w.child, &before_mb, &own_mb);
    for (int i = 0; i < EDITS / BURST && good; i++)
        good = press(&w, keys, f);
    if (good && bench_resident_mb(w.child, &all_mb, &own_mb)) {
        bench_set(f, all_mb, "MB");
        bench_note(f, "%.1f MB before them", before_mb);
    } else {
        bench_missing(f, "this system has no /proc that says it");
    }
    bench_wire_end(&w);
}

/* ---- starting ---- */

/* What a first frame ends with: the last word of the lowest row that has any, drawn here from the same part. */
static bool last_word(const char *part, char *out, size_t size, struct bench_figure *f)
{
    struct pl_session *session = NULL;
    struct pl_problems problems = {0};
    struct pl_frame frame = {0};
    struct pl_buffer text = {0};
    enum pl_status status = pl_session_open(&session, part, &problems);
    if (status == PL_OK && pl_frame_resize(&frame, BENCH_ROWS, BENCH_COLUMNS)) {
        pl_view(session, &frame);
        pl_frame_print(&frame, &text);
    }
    while (text.length && strchr("\n ", text.text[text.length - 1]))
        text.text[--text.length] = '\0';
    const char *space = text.length ? strrchr(text.text, ' ') : NULL;
    snprintf(out, size, "%s", space ? space + 1 : "");
    if (!*out)
        bench_missing(f, "the first frame could not be drawn to know its end");
    pl_session_close(session);
    pl_problems_free(&problems);
    pl_frame_free(&frame);
    pl_buffer_free(&text);
    return *out;
}

/* From the fork to the last byte; false unless the frame came whole. */
static bool start_once(const char *part, const char *last, struct bench_samples *times_ms, struct bench_figure *f)
{
    struct bench_wire w;
    bool good = bench_wire_start(&w, part, f) && bench_wire_gather(&w, FIRST_WAIT_MS, FIRST_QUIET_MS, f);
    if (good && !strstr(w.output.text, last)) {
        bench_missing(f, "the last row of the first frame never came");
        good = false;
    }
    if (good) {
        bench_add(times_ms, w.last_ms - w.started_ms);
        bench_note(f, "%zu B", w.output.length);
    }
    bench_wire_end(&w);
    return good;
}

static void first_frame(struct bench_figure *f)
{
    enum { STARTS = 15 };
    char last[128];
    struct bench_samples times_ms = {.count = 0};
    const char *part = bench_part_copy(f);
    bool good = part && last_word(part, last, sizeof last, f);
    for (int i = 0; i < STARTS && good; i++)
        good = start_once(part, last, &times_ms, f);
    if (good)
        bench_set_median(f, &times_ms, "ms");
}

static void memory_after_start(struct bench_figure *f)
{
    struct bench_wire w;
    double all_mb, own_mb;
    if (start(&w, f)) {
        if (bench_resident_mb(w.child, &all_mb, &own_mb)) {
            bench_set(f, all_mb, "MB");
            bench_note(f, "%.1f MB of it not shared with files", own_mb);
        } else {
            bench_missing(f, "this system has no /proc that says it");
        }
    }
    bench_wire_end(&w);
}

static const struct bench_row rows[] = {
    {"start to first frame, median", "under 50 ms", first_frame},
    {"resident memory after the start", "under 20 MB", memory_after_start},
    {"resident memory after 10,000 edits", "under 20 MB", memory_after_edits},
    {"Escape out of a question, key to last byte", "under 50 ms", escape_time},
    {"a question opened and left, bytes a key", "-", question_bytes},
    {"plies of a cap, key to last byte", "99 % under 10 ms", plies_time},
    {"plies of a cap, bytes a key, average and greatest", "under 4 kB", plies_bytes},
    {"plies of a skin, bytes a key, average and greatest", "under 4 kB", skin_bytes},
    {"chord of a station, key to last byte", "99 % under 10 ms", chord_time},
    {"chord of a station, bytes a key, average and greatest", "under 4 kB", chord_bytes},
    {"span marker, bytes a key, average and greatest", "-", marker_bytes},
    {"pages Cloth and Strength in turn, key to last byte", "-", pages_time},
    {"the same, bytes a key, average and greatest", "-", pages_bytes},
};

const struct bench_group bench_terminal = {"the program on a pseudo-terminal: xterm-256color, UTF-8", rows,
                                           COUNT(rows)};
