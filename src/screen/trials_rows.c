/* trials_rows.c - the rows of the comparison: verdict, mass, reserves, tips, cloth, and what differs in the part. */
#include "trials.h"

#include "session.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { VERDICT, LOWEST, MASS, FIXED_ROWS };

static const struct pl_state *state_of(const struct pl_session *s, size_t column)
{
    return &s->trials.states[pl_trials_slot(s, column)];
}

/* ---- names that any of the columns has, in the order they come ---- */

typedef const char *name_of(const struct pl_state *state, size_t i);

static const char *case_name(const struct pl_state *state, size_t i)
{
    return i < state->n_cases ? state->cases[i].name : NULL;
}

static const char *cloth_name(const struct pl_state *state, size_t i)
{
    return i < state->n_cloths ? state->cloths[i].name : NULL;
}

static size_t index_in(const struct pl_state *state, name_of *names, const char *name)
{
    for (size_t i = 0; names(state, i); i++)
        if (!strcmp(names(state, i), name))
            return i;
    return PL_NONE;
}

/* The name with this number among all; NULL after the last, *count then being how many there are. */
static const char *union_at(const struct pl_session *s, name_of *names, size_t number, size_t *count)
{
    size_t columns = pl_trials_count(s);
    *count = 0;
    for (size_t c = 0; c < columns; c++)
        for (size_t i = 0; names(state_of(s, c), i); i++) {
            const char *name = names(state_of(s, c), i);
            bool before = false;
            for (size_t k = 0; k < c && !before; k++)
                before = index_in(state_of(s, k), names, name) != PL_NONE;
            if (!before && (*count)++ == number)
                return name;
        }
    return NULL;
}

static size_t count_names(const struct pl_session *s, name_of *names)
{
    size_t n;
    union_at(s, names, PL_NONE, &n);
    return n;
}

/* ---- one row of each group ---- */

static void set_fixed_value(const struct pl_state *state, size_t row, char *out, size_t size, bool *wrong)
{
    const struct pl_lowest *lowest = pl_state_lowest(state);
    snprintf(out, size, "-");
    if (row == VERDICT) {
        *wrong = state->judged && !state->holds;
        snprintf(out, size, "%s", !state->judged ? "unjudged" : state->holds ? "holds" : "SHORT");
    } else if (row == LOWEST && lowest) {
        *wrong = lowest->reserve < 1;
        pl_reserve_words(lowest->reserve, out, size);
    } else if (row == MASS && state->judged) {
        *wrong = !state->mass_holds;
        pl_number_fixed(out, size, state->mass_kg, 3);
    }
}

static void set_fixed(const struct pl_session *s, size_t row, struct pl_trial_row *out)
{
    static const char *const labels[FIXED_ROWS] = {"verdict", "lowest reserve", "mass, kg"};
    snprintf(out->label, sizeof out->label, "%s", labels[row]);
    for (size_t c = 0; c < pl_trials_count(s); c++)
        set_fixed_value(state_of(s, c), row, out->values[c], sizeof out->values[c], &out->wrong[c]);
}

/* The case of that number in a column, for its value; "-" stands where the column has none. */
static const struct pl_state_case *case_in(const struct pl_session *s, size_t c, size_t row, struct pl_trial_row *out)
{
    size_t count;
    const char *name = union_at(s, case_name, row, &count);
    size_t i = index_in(state_of(s, c), case_name, name);
    snprintf(out->label, sizeof out->label, "%s", name);
    snprintf(out->values[c], sizeof out->values[c], "-");
    return i == PL_NONE ? NULL : &state_of(s, c)->cases[i];
}

static void set_reserve(const struct pl_session *s, size_t row, struct pl_trial_row *out)
{
    for (size_t c = 0; c < pl_trials_count(s); c++) {
        const struct pl_state_case *found = case_in(s, c, row, out);
        if (found)
            pl_reserve_words(found->least.reserve, out->values[c], sizeof out->values[c]);
        out->wrong[c] = found && found->least.reserve < 1;
    }
}

static void set_tip(const struct pl_session *s, size_t row, struct pl_trial_row *out)
{
    for (size_t c = 0; c < pl_trials_count(s); c++) {
        const struct pl_state_case *found = case_in(s, c, row, out);
        if (found)
            pl_number_fixed(out->values[c], sizeof out->values[c], 1e3 * fabs(found->tip_most_m), 1);
        out->wrong[c] = found && pl_given(found->tip_limit_m) && fabs(found->tip_most_m) > found->tip_limit_m;
    }
}

static void set_cloth(const struct pl_session *s, size_t row, struct pl_trial_row *out)
{
    size_t count;
    const char *name = union_at(s, cloth_name, row, &count);
    snprintf(out->label, sizeof out->label, "%s", name);
    for (size_t c = 0; c < pl_trials_count(s); c++) {
        size_t i = index_in(state_of(s, c), cloth_name, name);
        if (i == PL_NONE)
            snprintf(out->values[c], sizeof out->values[c], "-");
        else
            pl_number_fixed(out->values[c], sizeof out->values[c], state_of(s, c)->cloths[i].area_m2, 3);
    }
}

static void set_difference(const struct pl_session *s, size_t row, struct pl_trial_row *out)
{
    struct pl_document *documents[PL_TRIALS_MOST];
    const struct pl_differences *all = &s->trials.differences;
    size_t n = pl_trials_count(s);
    if (row == all->count) {
        snprintf(out->label, sizeof out->label, "and %zu more", all->left_out);
        return;
    }
    for (size_t c = 0; c < n; c++) {
        documents[c] = c ? s->trials.documents[pl_trials_slot(s, c)] : s->document;
        pl_text_safe(out->values[c], sizeof out->values[c], all->list[row].values[c]);
    }
    pl_difference_words(&all->list[row], documents, out->label, sizeof out->label);
}

/* ---- groups of rows ---- */

static size_t count_fixed(const struct pl_session *s)
{
    (void)s;
    return FIXED_ROWS;
}

static size_t count_cases(const struct pl_session *s) { return count_names(s, case_name); }
static size_t count_cloths(const struct pl_session *s) { return count_names(s, cloth_name); }
static size_t count_differences(const struct pl_session *s)
{
    return s->trials.differences.count + (s->trials.differences.left_out > 0);
}

static const struct group {
    const char *heading;  /* NULL: none */
    size_t (*count)(const struct pl_session *s);
    void (*set)(const struct pl_session *s, size_t row, struct pl_trial_row *out);
} groups[] = {
    {NULL, count_fixed, set_fixed},
    {"reserve", count_cases, set_reserve},
    {"what differs in the part", count_differences, set_difference},
    {"tip moves, mm by factor", count_cases, set_tip},
    {"cloth as laid, m2", count_cloths, set_cloth},
};

enum { GROUPS = sizeof groups / sizeof *groups };

size_t pl_trials_rows(const struct pl_session *s)
{
    size_t n = 0;
    for (size_t g = 0; g < GROUPS && pl_trials_count(s) > 1; g++)
        n += (groups[g].heading != NULL) + groups[g].count(s);
    return n;
}

void pl_trials_row(const struct pl_session *s, size_t row, struct pl_trial_row *out)
{
    *out = (struct pl_trial_row){.heading = false};
    for (size_t g = 0; g < GROUPS; g++) {
        size_t heading = groups[g].heading != NULL, n = heading + groups[g].count(s);
        if (row >= n) {
            row -= n;
            continue;
        }
        out->heading = heading && !row;
        if (out->heading)
            snprintf(out->label, sizeof out->label, "%s", groups[g].heading);
        else
            groups[g].set(s, row - heading, out);
        break;
    }
    for (size_t c = 1; c < pl_trials_count(s); c++)
        out->differs[c] = strcmp(out->values[c], out->values[0]) != 0;
}
