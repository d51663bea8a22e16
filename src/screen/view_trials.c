/* view_trials.c - states side by side: a table of figures and differences, and bars of the reserves. */
#include "view.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* On a narrow screen a value has five columns and its star, and the label what is left. */
static int label_width(const struct pl_session *s, const struct pl_frame *f)
{
    int left = f->columns - 1 - 6 * (int)pl_trials_count(s);
    return f->columns < 60 ? (left < 9 ? 9 : left) : f->columns < 110 ? 28 : 40;
}

static int value_width(const struct pl_session *s, struct pl_region r, int label)
{
    int width = (r.columns - label - 1) / (int)pl_trials_count(s);
    return width > 16 ? 16 : width;
}

static void put_headings(const struct pl_session *s, struct pl_frame *f, struct pl_region r, int label, int width)
{
    for (size_t c = 0; c < pl_trials_count(s); c++) {
        int column = r.column + label + (int)c * width;
        bool here = c == s->trials.column;
        const char *letter = pl_trials_letter(pl_trials_slot(s, c));
        pl_frame_text_right(f, r.row, column, width - 1, PL_ROLE_TITLE, letter);
        if (here)
            pl_frame_role(f, r.row, column, 1, width - 1, PL_ROLE_CHOSEN);
        if (here)
            pl_frame_glyph(f, r.row, column + width - 2 - (int)strlen(letter), PL_ROLE_CHOSEN, PL_GLYPH_POINT_DOWN);
        pl_frame_hit(f, r.row, column, r.rows, width, PL_DO_CHOOSE_STATE, (int)c);
    }
    pl_frame_text_in(f, r.row, r.column + 1, label - 2, PL_ROLE_QUIET, "* differs");
}

/* The star behind a value that differs from the present one has a column of its own, so that figures stay in line. */
static void put_row(const struct pl_session *s, struct pl_frame *f, struct pl_region r, size_t row, int label, int width)
{
    struct pl_trial_row t;
    pl_trials_row(s, row, &t);
    int indent = t.heading || label < 12 ? 1 : 2;
    pl_frame_text_in(f, r.row, r.column + indent, t.heading ? r.columns - 2 : label - 1 - indent, t.heading ? PL_ROLE_TITLE : PL_ROLE_TEXT, t.label);
    for (size_t c = 0; c < pl_trials_count(s) && !t.heading; c++) {
        int column = r.column + label + (int)c * width;
        pl_frame_text_right(f, r.row, column, width - 1, t.wrong[c] ? PL_ROLE_WARNING : PL_ROLE_TEXT, t.values[c]);
        if (t.differs[c])
            pl_frame_text(f, r.row, column + width - 1, PL_ROLE_MARKER, "*");
    }
}

static void put_table(const struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    int label = label_width(s, f), width = value_width(s, r, label);
    size_t n = pl_trials_rows(s), room = r.rows > 1 ? (size_t)r.rows - 1 : 0;
    /* Down past the last rows shows them, no blank below. */
    size_t last = n > room ? n - room : 0, first = s->trials.first < last ? s->trials.first : last;
    for (size_t i = 0; i < room && first + i < n; i++)
        put_row(s, f, (struct pl_region){r.row + 1 + (int)i, r.column, 1, r.columns}, first + i, label, width);
    put_headings(s, f, (struct pl_region){r.row, r.column, r.rows, r.columns}, label, width);
    if (first + room < n)
        pl_frame_glyph(f, r.row + r.rows - 1, r.column, PL_ROLE_QUIET, PL_GLYPH_POINT_DOWN);
}

/* ---- what each column is, and bars ---- */

static void put_names(const struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    for (size_t c = 0; c < pl_trials_count(s) && (int)c < r.rows; c++) {
        size_t slot = pl_trials_slot(s, c);
        char words[280];
        snprintf(words, sizeof words, "%-3s  %.200s", pl_trials_letter(slot), slot ? s->trials.states[slot].name : "the part as it is now");
        pl_frame_text_in(f, r.row + (int)c, r.column + 1, r.columns - 2, c == s->trials.column ? PL_ROLE_TITLE : PL_ROLE_TEXT, words);
    }
}

/* What bars show of a load case: a value, the limit it is held against (NAN: none), and what fills the row. */
struct measure {
    const char *title;
    double (*value)(const struct pl_state_case *c);
    double (*limit)(const struct pl_state_case *c);
    bool (*good)(double value, double limit);
    int decimals;
    double top;
};

static double reserve_of(const struct pl_state_case *c) { return c->least.reserve; }
static double one(const struct pl_state_case *c) { (void)c; return 1; }
static bool not_below(double value, double limit) { return value >= limit; }
static double tip_mm(const struct pl_state_case *c) { return 1e3 * fabs(c->tip_most_m); }
static double tip_limit_mm(const struct pl_state_case *c) { return 1e3 * c->tip_limit_m; }
static bool not_above(double value, double limit) { return !(value > limit); }

static const struct pl_state_case *case_of(const struct pl_state *state, const char *name)
{
    for (size_t i = 0; i < state->n_cases; i++)
        if (!strcmp(state->cases[i].name, name))
            return &state->cases[i];
    return NULL;
}

/* Cells of a bar: one that reaches its limit touches the mark, one that passes a most goes over it, and one below it
 * ends before. */
static int bar_cells(const struct measure *m, double value, double limit, int length, int mark)
{
    int filled = (int)floor(fmin(value, m->top) / m->top * length);
    int least = m->good(value, limit) ? mark : mark + 2;
    if (mark < 0)
        return filled;
    if (value >= limit)
        return filled > least ? filled : least;
    return filled < mark ? filled : mark - 1;
}

/* One bar; its figure stands behind it, and behind the mark of the limit. */
static void put_bar(struct pl_frame *f, struct pl_region r, const struct measure *m, const struct pl_state_case *c)
{
    int length = r.columns - 14;
    double value = m->value(c), limit = m->limit(c);
    int mark = pl_given(limit) && limit <= m->top ? (int)round(limit / m->top * length) : -1;
    int filled = bar_cells(m, value, limit, length, mark);
    char figure[32];
    for (int i = 0; i < filled; i++)
        pl_frame_glyph(f, r.row, r.column + 6 + i, m->good(value, limit) ? PL_ROLE_CLOTH_A : PL_ROLE_WARNING, PL_GLYPH_SHADE_3);
    if (mark >= 0)
        pl_frame_glyph(f, r.row, r.column + 6 + mark, PL_ROLE_LIMIT, PL_GLYPH_VERTICAL);
    if (m->value == reserve_of)
        pl_reserve_words(value, figure, sizeof figure);
    else
        pl_number_fixed(figure, sizeof figure, value, m->decimals);
    pl_frame_text(f, r.row, r.column + 8 + (filled > mark ? filled : mark), PL_ROLE_TEXT, figure);
}

/* Every load case of the present state with a bar a column; the rows that are left. */
static struct pl_region put_bars(const struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct measure *m)
{
    const struct pl_state *now = &s->trials.states[0];
    size_t columns = pl_trials_count(s);
    if (r.rows < (int)columns + 2 || r.columns < 30)
        return (struct pl_region){0};
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 2, PL_ROLE_TITLE, m->title);
    pl_region_top(&r, 1);
    for (size_t i = 0; i < now->n_cases && r.rows > (int)columns; i++) {
        struct pl_region name = pl_region_top(&r, 1);
        pl_frame_text_in(f, name.row, name.column + 1, name.columns - 2, PL_ROLE_TEXT, now->cases[i].name);
        for (size_t c = 0; c < columns; c++) {
            size_t slot = pl_trials_slot(s, c);
            struct pl_region row = pl_region_top(&r, 1);
            const struct pl_state_case *found = case_of(&s->trials.states[slot], now->cases[i].name);
            pl_frame_text(f, row.row, row.column + 2, PL_ROLE_QUIET, pl_trials_letter(slot));
            if (found)
                put_bar(f, row, m, found);
        }
    }
    return r;
}

static double farthest_tip_mm(const struct pl_session *s)
{
    double most = 0;
    for (size_t c = 0; c < pl_trials_count(s); c++) {
        const struct pl_state *state = &s->trials.states[pl_trials_slot(s, c)];
        for (size_t i = 0; i < state->n_cases; i++)
            most = fmax(most, fmax(tip_mm(&state->cases[i]), pl_given(state->cases[i].tip_limit_m) ? tip_limit_mm(&state->cases[i]) : 0));
    }
    return most > 0 ? pl_view_round_out(most) : 1;
}

static void put_all_bars(const struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    struct measure reserves = {"reserve of each load case, 1 just holds", reserve_of, one, not_below, 2, 4};
    struct measure tips = {"how far the tip moves, mm by factor, and its limit", tip_mm, tip_limit_mm, not_above, 1, farthest_tip_mm(s)};
    r = put_bars(s, f, r, &reserves);
    if (r.rows > 1)
        pl_region_top(&r, 1);
    put_bars(s, f, r, &tips);
}

static void put_nothing_kept(const struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    char key[32], words[400];
    pl_keymap_words(&s->keys, pl_doing_of(PL_DO_KEEP_STATE, 0), key, sizeof key);
    snprintf(words, sizeof words, "Nothing is kept yet.  %s keeps the present state as a column, on any page; then go on editing, and this page "
             "shows mass, cloth, reserves and movements of both, and what differs.  Four states can be kept.", key[0] ? key : "An action");
    pl_view_wrapped(f, (struct pl_region){r.row + 1, r.column + 2, r.rows - 1, r.columns - 4 > 90 ? 90 : r.columns - 4}, 0, PL_ROLE_TEXT, words);
}

void pl_view_trials(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    if (pl_trials_count(s) < 2) {
        put_nothing_kept(s, f, r);
        return;
    }
    bool beside = r.columns >= 110;
    if (!beside && r.rows >= 16 && r.columns >= 60) {
        struct pl_region names = {r.row + r.rows - (int)pl_trials_count(s), r.column, (int)pl_trials_count(s), r.columns};
        r.rows -= names.rows;
        put_names(s, f, names);
    }
    struct pl_region left = beside ? pl_region_left(&r, r.columns * 3 / 5) : r;
    put_table(s, f, left);
    if (!beside)
        return;
    struct pl_region line = pl_region_left(&r, 1);
    pl_frame_line(f, line.row, line.column, line.rows, PL_ROLE_LINE, PL_GLYPH_VERTICAL);
    put_names(s, f, pl_region_top(&r, (int)pl_trials_count(s) + 1));
    put_all_bars(s, f, r);
}
