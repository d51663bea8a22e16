#include "view.h"

#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The case whose tip comes nearest to its limit; PL_NONE when none has one. */
static size_t nearest_limit(const struct pl_verdict *v)
{
    size_t nearest = PL_NONE;
    double most = -1;
    for (size_t i = 0; i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        if (pl_given(c->load_case->tip_limit_m) && fabs(c->tip_most_m) / c->load_case->tip_limit_m > most) {
            most = fabs(c->tip_most_m) / c->load_case->tip_limit_m;
            nearest = i;
        }
    }
    return nearest;
}

static void limit_words(const struct pl_verdict *v, char *out, size_t size)
{
    size_t i = nearest_limit(v);
    out[0] = '\0';
    if (i == PL_NONE)
        return;
    const struct pl_case_result *c = &v->cases[i];
    char moved[32], limit[32];
    pl_number_fixed(moved, sizeof moved, 1e3 * fabs(c->tip_most_m), 1);
    pl_number_digits(limit, sizeof limit, 1e3 * c->load_case->tip_limit_m, 4);
    snprintf(out, size, "%s%s %s of %s mm", fabs(c->tip_most_m) > c->load_case->tip_limit_m ? "TOO FAR " : "",
             c->load_case->name, moved, limit);
}

static void mass_words(const struct pl_session *s, const struct pl_verdict *v, char *out, size_t size)
{
    char mass[32], limit[32];
    pl_number_fixed(mass, sizeof mass, v->mass_kg, 3);
    pl_number_digits(limit, sizeof limit, pl_session_part(s)->limits.mass_kg, 4);
    if (pl_given(pl_session_part(s)->limits.mass_kg))
        snprintf(out, size, "%s%s of %s kg", v->mass_holds ? "" : "TOO HEAVY ", mass, limit);
    else
        snprintf(out, size, "%s kg", mass);
}

static void was_words(const struct pl_session *s, bool wide, char *out, size_t size)
{
    char reserve[32];
    out[0] = '\0';
    if (!s->before.there || !pl_given(s->before.reserve))
        return;
    pl_reserve_words(s->before.reserve, reserve, sizeof reserve);
    snprintf(out, size, "was %s", reserve);
    if (wide && fabs(s->before.mass_kg - s->now.mass_kg) >= 5e-4) {
        pl_number_fixed(reserve, sizeof reserve, s->before.mass_kg, 3);
        snprintf(out + strlen(out), size - strlen(out), ", %s kg", reserve);
    }
}

/* What is not checked, as much as fits: at least that something is not. */
static void put_not_checked(struct pl_frame *f, int row, int column)
{
    char words[256] = "not checked: ";
    for (const char *const *word = pl_check_not_checked(); *word; word++)
        snprintf(words + strlen(words), sizeof words - strlen(words), "%s%s", *word, word[1] ? ", " : "");
    pl_frame_text_in(f, row, column, f->columns - column - 1, PL_ROLE_QUIET, words);
}

static int put_unjudged(const struct pl_session *s, struct pl_frame *f, int row)
{
    const struct pl_problem *p = pl_problems_first_error(&s->problems);
    const struct pl_verdict *v = pl_session_verdict(s);
    char sentence[640] = "no reason was given", old[64] = "no figures yet";
    bool narrow = f->columns < 70;
    if (p)
        pl_problem_sentence(p, NULL, sentence, sizeof sentence);
    if (v && v->worst_case != PL_NONE) {
        char reserve[32];
        pl_reserve_words(v->cases[v->worst_case].least.reserve, reserve, sizeof reserve);
        snprintf(old, sizeof old, "old figures: lowest reserve %s", reserve);
    }
    int column = pl_frame_text(f, row, 1, PL_ROLE_FAILS, "CANNOT BE JUDGED");
    struct pl_region beside = {row, column + 2, 2, f->columns - column - 3}, below = {row + 1, 1, 2, f->columns - 2};
    pl_view_wrapped(f, narrow ? below : beside, 0, PL_ROLE_TEXT, sentence);
    pl_frame_text_in(f, row + (narrow ? 3 : 2), 1, f->columns - 2, PL_ROLE_QUIET, old);
    return row + (narrow ? 4 : 3);
}

/* A reserve of 1 and a limit passed: the figure is not the reason, and is left out. */
static bool falls_by_limit(const struct pl_verdict *v)
{
    return !v->holds && (v->worst_case == PL_NONE || v->cases[v->worst_case].least.reserve >= 1);
}

static int put_headline(struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char reserve[32] = "";
    if (v->worst_case == PL_NONE && v->holds)
        return pl_frame_text(f, row, 1, PL_ROLE_WARNING, " NOTHING JUDGED ");
    if (!falls_by_limit(v))
        pl_reserve_words(v->cases[v->worst_case].least.reserve, reserve, sizeof reserve);
    return pl_frame_printf(f, row, 1, v->holds ? PL_ROLE_HOLDS : PL_ROLE_FAILS, " %s%s%s ",
                           v->holds ? "WING HOLDS" : "WING FALLS SHORT", reserve[0] ? " " : "", reserve);
}

static void where_words(const struct pl_session *s, const struct pl_verdict *v, char *out, size_t size)
{
    char where[256];
    if (falls_by_limit(v)) {
        char limit[160], reserve[32] = "unknown";
        if (v->mass_holds)
            limit_words(v, limit, sizeof limit);
        else
            mass_words(s, v, limit, sizeof limit);
        if (v->worst_case != PL_NONE)
            pl_reserve_words(v->cases[v->worst_case].least.reserve, reserve, sizeof reserve);
        snprintf(out, size, "reserve %s but %s", reserve, limit);
        return;
    }
    if (v->worst_case == PL_NONE) {
        snprintf(out, size, "there is no load case; 3 Loads has them");
        return;
    }
    const struct pl_case_result *c = &v->cases[v->worst_case];
    pl_lowest_words(&c->least, where, sizeof where);
    snprintf(out, size, "%s: %s%s", c->load_case->name, where, c->least_pinned ? " (pinned)" : "");
}

/* "2 warnings, page 4" */
static void warning_words(const struct pl_session *s, char *out, size_t size)
{
    size_t n = 0;
    for (size_t i = 0; i < s->problems.count; i++)
        n += s->problems.list[i].severity == PL_WARNING;
    snprintf(out, size, "%s", "");
    if (n)
        snprintf(out, size, "%zu warning%s, page 4", n, n == 1 ? "" : "s");
}

static int put_narrow(const struct pl_session *s, struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char where[320], mass[96], limit[160], was[64], line[400];
    where_words(s, v, where, sizeof where);
    mass_words(s, v, mass, sizeof mass);
    limit_words(v, limit, sizeof limit);
    was_words(s, f->columns >= 110, was, sizeof was);
    int column = put_headline(f, row, v);
    pl_frame_text_in(f, row, column + 1, f->columns - column - 2, PL_ROLE_QUIET, was);
    pl_frame_text_in(f, row + 1, 1, f->columns - 2, PL_ROLE_TEXT, where);
    snprintf(line, sizeof line, "%s  %s", mass, limit);
    pl_frame_text_in(f, row + 2, 1, f->columns - 2, PL_ROLE_TEXT, line);
    warning_words(s, line, sizeof line);
    column = pl_frame_text(f, row + 3, 1, PL_ROLE_WARNING, line);
    put_not_checked(f, row + 3, line[0] ? column + 2 : 1);
    return row + 4;
}

/* "one top cap ply forgotten: 1.04", as soon as it is worked out. */
static void forgotten_words(const struct pl_session *s, char *out, size_t size)
{
    size_t element, item;
    const struct pl_forgotten_ply *p = pl_forgotten_worst(s->forgotten, &element, &item);
    char reserve[32];
    out[0] = '\0';
    if (!p || !pl_given(p->reserve))
        return;
    pl_reserve_words(p->reserve, reserve, sizeof reserve);
    snprintf(out, size, "one %s ply forgotten: %s", pl_session_part(s)->elements[element].layup[item].name, reserve);
}

static int put_wide(const struct pl_session *s, struct pl_frame *f, int row, const struct pl_verdict *v)
{
    char where[320], mass[96], limit[160], was[64];
    where_words(s, v, where, sizeof where);
    mass_words(s, v, mass, sizeof mass);
    limit_words(v, limit, sizeof limit);
    was_words(s, f->columns >= 110, was, sizeof was);
    int column = put_headline(f, row, v) + 1, was_at = f->columns - pl_text_columns(was) - 1;
    pl_frame_text_in(f, row, column, was_at - column - 1, PL_ROLE_TEXT, where);
    pl_frame_text(f, row, was_at, PL_ROLE_QUIET, was);
    column = pl_frame_text(f, row + 1, 1, v->mass_holds ? PL_ROLE_TEXT : PL_ROLE_WARNING, mass);
    if (limit[0])
        column = pl_frame_text_in(f, row + 1, column + 3, f->columns / 2, PL_ROLE_TEXT, limit);
    forgotten_words(s, where, sizeof where);
    if (where[0])
        column = pl_frame_text_in(f, row + 1, column + 3, f->columns / 2, PL_ROLE_TEXT, where);
    bool below = f->columns < 110;
    warning_words(s, where, sizeof where);
    if (below)
        column = -2;
    column = pl_frame_text(f, below ? row + 2 : row + 1, column + 3, PL_ROLE_WARNING, where) - (where[0] ? 0 : 3);
    put_not_checked(f, below ? row + 2 : row + 1, column + 3);
    return below ? row + 3 : row + 2;
}

int pl_view_verdict(const struct pl_session *s, struct pl_frame *f, int row)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    if (!s->valid || !v)
        return put_unjudged(s, f, row);
    return f->columns < 70 ? put_narrow(s, f, row, v) : put_wide(s, f, row, v);
}
