/* Rows from a key to the painted frame, in this process: a session takes the key, the page is drawn anew. */
#include "bench.h"

#include "plyloft/keys.h"

#include "screen/session.h"
#include "screen/view.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

struct screen { struct pl_session *session; struct pl_frame frame; };

/* Keys pressed first, then two that take turns, of which either or both are timed. */
struct turns {
    const char *first;
    int keys[2];
    bool timed[2];
};

static bool paint(struct screen *s, struct bench_figure *f)
{
    if (!pl_frame_resize(&s->frame, BENCH_ROWS, BENCH_COLUMNS)) {
        bench_missing(f, "not enough memory");
        return false;
    }
    pl_view(s->session, &s->frame);
    return true;
}

static void press(struct pl_session *session, const char *keys)
{
    struct pl_keys_reader reader;
    pl_keys_start(&reader, keys);
    for (int key = pl_keys_next(&reader); key != PL_KEY_NONE; key = pl_keys_next(&reader))
        pl_session_key(session, key);
}

static bool open_screen_on(struct screen *s, const char *path, const char *keys, struct bench_figure *f)
{
    struct pl_problems problems = {0};
    *s = (struct screen){0};
    enum pl_status status = path ? pl_session_open(&s->session, path, &problems) : PL_CANNOT_READ;
    if (status != PL_OK)
        bench_missing_status(f, path, status, &problems);
    pl_problems_free(&problems);
    if (status != PL_OK)
        return false;
    press(s->session, keys);
    return paint(s, f);
}

static bool open_screen(struct screen *s, const char *keys, struct bench_figure *f)
{
    return open_screen_on(s, bench_part_copy(f), keys, f);
}

static void close_screen(struct screen *s)
{
    pl_session_close(s->session);
    pl_frame_free(&s->frame);
}

/* Tells frames apart, so that a key which does nothing is not taken for a fast one (FNV-1a). */
static uint64_t looks_of(const struct pl_frame *f)
{
    uint64_t hash = 14695981039346656037u;
    for (size_t i = 0; i < (size_t)f->rows * (size_t)f->columns; i++)
        hash = (hash ^ (f->cells[i].code ^ (uint64_t)f->cells[i].role << 32)) * 1099511628211u;
    return hash;
}

static bool press_timed(struct screen *s, int key, double *took_ms, struct bench_figure *f)
{
    char name[32];
    uint64_t before = looks_of(&s->frame);
    double start_ms = bench_now_ms();
    pl_session_key(s->session, key);
    bool good = paint(s, f);
    *took_ms = bench_now_ms() - start_ms;
    if (!good)
        return false;
    pl_key_name(key, name, sizeof name);
    if (looks_of(&s->frame) == before)
        bench_missing(f, "the key %s changed nothing on the screen", name);
    else if (!s->session->valid)
        bench_missing(f, "after the key %s the part could not be judged", name);
    return !f->missing[0];
}

static void time_turns(struct bench_figure *f, const struct turns *t)
{
    enum { WARM_UP = 6, PRESSES = 150 };
    struct bench_samples samples = {.count = 0};
    struct screen s;
    bool good = open_screen(&s, t->first, f);
    int presses = t->timed[0] && t->timed[1] ? PRESSES : 2 * PRESSES;
    for (int i = -WARM_UP; i < presses && good; i++) {
        double took_ms;
        good = press_timed(&s, t->keys[i & 1], &took_ms, f);
        if (good && i >= 0 && t->timed[i & 1])
            bench_add(&samples, took_ms);
    }
    if (good)
        bench_set_median(f, &samples, "ms");
    close_screen(&s);
}

/* The third ply group is the top cap; without a key pressed Plies is its field. */
static void plies_on_cloth(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down", {'+', '-'}, {true, true}});
}

/* Strength has no fields: the same edit is taken back and made again there. */
static void plies_on_strength(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down + 4", {'u', 'U'}, {true, true}});
}

static void chord(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Tab Down Right", {'+', '-'}, {true, true}});
}

static void span(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Tab End", {'+', '-'}, {true, true}});
}

static void undo(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down +", {'u', 'U'}, {true, false}});
}

static void redo(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down +", {'u', 'U'}, {false, true}});
}

static void help(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"", {'?', PL_KEY_ESCAPE}, {true, false}});
}

static void question(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down +", {'q', PL_KEY_ESCAPE}, {true, false}});
}

static void digit(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down Enter 1", {'2', PL_KEY_BACKSPACE}, {true, true}});
}

static void marker(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"", {']', '['}, {true, true}});
}

/* What every page costs to draw: the marker moves in all its drawings. */
static void marker_on(struct bench_figure *f, const char *page)
{
    time_turns(f, &(struct turns){page, {']', '['}, {true, true}});
}

static void marker_on_shape(struct bench_figure *f) { marker_on(f, "1"); }
static void marker_on_loads(struct bench_figure *f) { marker_on(f, "3"); }
static void marker_on_strength(struct bench_figure *f) { marker_on(f, "4"); }

static void plies_on_trials(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down k + k + k 7", {'u', 'U'}, {true, true}});
}

static void end_moved(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"Down Down d", {PL_KEY_LEFT, PL_KEY_RIGHT}, {true, true}});
}

static void search_typed(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"f", {'r', PL_KEY_BACKSPACE}, {true, true}});
}

static void list_moved(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"m", {PL_KEY_DOWN, PL_KEY_UP}, {true, true}});
}

static void path_typed(struct bench_figure *f)
{
    time_turns(f, &(struct turns){"w", {'r', PL_KEY_BACKSPACE}, {true, true}});
}

/* ---- a computed load ---- */

static bool flow_is_old(const struct screen *s)
{
    const struct pl_verdict *v = pl_session_verdict(s->session);
    for (size_t i = 0; v && i < v->n_cases; i++)
        if (v->cases[i].air_old)
            return true;
    return false;
}

/* Slices until the loads are those of the new shape, each with its place among the keys; then the frame. */
static bool wait_for_flow(struct screen *s, double *slice_ms, struct bench_figure *f)
{
    while (flow_is_old(s)) {
        double start_ms = bench_now_ms();
        pl_session_idle(s->session);
        double took_ms = bench_now_ms() - start_ms;
        *slice_ms = took_ms > *slice_ms ? took_ms : *slice_ms;
    }
    return paint(s, f);
}

/* Incidence half a degree up at a time, as a flow that was had before is kept. */
static void time_flow(struct bench_figure *f, bool at_once)
{
    enum { PRESSES = 24 };
    struct bench_samples samples = {.count = 0};
    struct screen s;
    double slice_ms = 0;
    bool good = open_screen_on(&s, bench_part_computed(f), "1 Tab Tab Tab Home Down Down", f);
    for (int i = 0; i < PRESSES && good; i++) {
        double took_ms, start_ms = bench_now_ms();
        good = press_timed(&s, '+', &took_ms, f);
        if (good && !flow_is_old(&s))
            bench_missing(f, "the key left the flow as it was");
        good = good && wait_for_flow(&s, &slice_ms, f);
        if (good)
            bench_add(&samples, at_once ? took_ms : bench_now_ms() - start_ms);
    }
    if (good)
        bench_set_median(f, &samples, "ms");
    if (good && !at_once)
        bench_note(f, "longest slice %.1f ms", slice_ms);
    close_screen(&s);
}

static void structure_at_once(struct bench_figure *f) { time_flow(f, true); }
static void new_flow(struct bench_figure *f) { time_flow(f, false); }

static void count_presses(struct screen *s, struct bench_figure *f)
{
    enum { WARM_UP = 6, PRESSES = 40 };
    unsigned long before = 0;
    double took_ms;
    for (int i = -WARM_UP; i < PRESSES; i++) {
        if (i == 0)
            before = bench_allocations();
        if (!press_timed(s, i & 1 ? '-' : '+', &took_ms, f))
            return;
    }
    bench_set(f, (double)(bench_allocations() - before) / PRESSES, "");
}

static void allocations(struct bench_figure *f)
{
    struct screen s;
    if (!bench_counts_allocations()) {
        bench_missing(f, "calls for memory cannot be counted in this build");
        return;
    }
    if (open_screen(&s, "Down Down", f))
        count_presses(&s, f);
    close_screen(&s);
}

static const struct bench_row rows[] = {
    {"plies of a cap one up or down, page Cloth", "99 % under 10 ms", plies_on_cloth},
    {"the same edit, page Strength", "99 % under 10 ms", plies_on_strength},
    {"chord of a station", "99 % under 10 ms", chord},
    {"span, with all that ends at the tip", "99 % under 10 ms", span},
    {"incidence, load computed: the structure at once", "under 10 ms", structure_at_once},
    {"the same, until its new flow is painted", "under 100 ms", new_flow},
    {"undo", "-", undo},
    {"redo", "-", redo},
    {"end of a cap moved along the span", "99 % under 10 ms", end_moved},
    {"undo and redo beside three kept states, page Trials", "99 % under 10 ms", plies_on_trials},
    {"help opened", "-", help},
    {"letter typed into the search for an action", "-", search_typed},
    {"choice moved in the list of cloths", "-", list_moved},
    {"letter typed into the name to save under", "-", path_typed},
    {"question opened", "-", question},
    {"digit typed into a value", "-", digit},
    {"span marker moved, page Shape", "-", marker_on_shape},
    {"span marker moved, page Cloth", "-", marker},
    {"span marker moved, page Loads", "-", marker_on_loads},
    {"span marker moved, page Strength", "-", marker_on_strength},
    {"allocations a key, plies one up or down", "-", allocations},
};

const struct bench_group bench_screen = {"from a key to the drawn frame, no terminal", rows, COUNT(rows)};
