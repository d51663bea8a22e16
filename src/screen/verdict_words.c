#include "verdict_words.h"

#include "plyloft/buffer.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char pl_pinned_end[] = ", pinned";

/* ---- whether it holds ---- */

/* A reserve of 1 and a limit passed: the figure is not the reason, and is left out. */
static bool falls_by_limit(const struct pl_verdict *v)
{
    return !v->holds && (v->worst_case == PL_NONE || v->cases[v->worst_case].least.reserve >= 1);
}

void pl_headline_words(const struct pl_verdict *v, char *out, size_t size)
{
    char reserve[32] = "";
    if (v->worst_case == PL_NONE && v->holds) {
        snprintf(out, size, "NOTHING JUDGED");
        return;
    }
    if (!falls_by_limit(v))
        pl_reserve_words(v->cases[v->worst_case].least.reserve, reserve, sizeof reserve);
    bool old = false;
    for (size_t i = 0; i < v->n_cases; i++)
        old = old || v->cases[i].air_old;
    snprintf(out, size, "%s%s%s%s", v->holds ? "WING HOLDS" : "WING FALLS SHORT", reserve[0] ? " " : "", reserve, old ? ", old flow" : "");
}

void pl_place_with_unit(double y_m, char *out, size_t size)
{
    char place[32];
    pl_place_words(y_m, place, sizeof place);
    const char *side = strchr(place, ' ');  /* none in the middle */
    snprintf(out, size, "%.*s%s%s", (int)strcspn(place, " "), place, side ? " mm" : "", side ? side : "");
}

void pl_lowest_with_unit(const struct pl_lowest *lowest, char *out, size_t size)
{
    char place[48];
    pl_place_with_unit(lowest->y_m, place, sizeof place);
    snprintf(out, size, "%s, %s, %s", pl_mode_name(lowest->mode), lowest->item, place);
}

static void limit_is_why(const struct pl_session *s, const struct pl_verdict *v, bool figures_first, char *out, size_t size)
{
    char limit[160], reserve[32] = "unknown";
    if (v->mass_holds)
        pl_limit_words(v, figures_first, limit, sizeof limit);
    else
        pl_mass_words(s, v, limit, sizeof limit);
    if (v->worst_case != PL_NONE)
        pl_reserve_words(v->cases[v->worst_case].least.reserve, reserve, sizeof reserve);
    snprintf(out, size, "reserve %s but %s", reserve, limit);
}

void pl_where_words(const struct pl_session *s, const struct pl_verdict *v, enum pl_words_for to, char *out, size_t size)
{
    char where[256];
    if (falls_by_limit(v)) {
        limit_is_why(s, v, to == PL_WORDS_NARROW, out, size);
        return;
    }
    if (v->worst_case == PL_NONE) {
        snprintf(out, size, "there is no load case; 3 Loads has them");
        return;
    }
    const struct pl_case_result *c = &v->cases[v->worst_case];
    (to == PL_WORDS_LINE ? pl_lowest_with_unit : pl_lowest_words)(&c->least, where, sizeof where);
    snprintf(out, size, "%s: %s%s", c->load_case->name, where, c->least_pinned ? pl_pinned_end : "");
}

void pl_unjudged_words(const struct pl_session *s, char *out, size_t size)
{
    const struct pl_problem *p = pl_problems_first_error(&s->problems);
    snprintf(out, size, "no reason was given");
    if (p)
        pl_session_problem_words(s, p, out, size);
}

void pl_old_words(const struct pl_session *s, char *out, size_t size)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    char reserve[32];
    snprintf(out, size, "no figures yet");
    if (!v || v->worst_case == PL_NONE)
        return;
    pl_reserve_words(v->cases[v->worst_case].least.reserve, reserve, sizeof reserve);
    snprintf(out, size, "old figures: lowest reserve %s", reserve);
}

/* ---- limits ---- */

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

void pl_against_limit_words(double value, double limit, int decimals, char *out, size_t size)
{
    char number[48], most[48];
    const char *end;
    double unit = pow(10, -decimals);
    pl_number_fixed(number, sizeof number, value, decimals);
    pl_number_digits(most, sizeof most, limit, 8);
    bool seems_above = pl_number_read(number, &end) > pl_number_read(most, &end);
    if (seems_above != (value > limit))
        pl_number_fixed(number, sizeof number, unit * (seems_above ? floor(value / unit) : floor(value / unit) + 1), decimals);
    snprintf(out, size, "%s of %s", number, most);
}

void pl_limit_words(const struct pl_verdict *v, bool figures_first, char *out, size_t size)
{
    size_t i = nearest_limit(v);
    out[0] = '\0';
    if (i == PL_NONE)
        return;
    const struct pl_case_result *c = &v->cases[i];
    const char *name = c->load_case->name, *far = fabs(c->tip_most_m) > c->load_case->tip_limit_m ? "TOO FAR " : "";
    char figures[96];
    pl_against_limit_words(1e3 * fabs(c->tip_most_m), 1e3 * c->load_case->tip_limit_m, 1, figures, sizeof figures);
    if (figures_first)
        snprintf(out, size, "%s%s mm %s", far, figures, name);
    else
        snprintf(out, size, "%s%s %s mm", far, name, figures);
}

void pl_mass_words(const struct pl_session *s, const struct pl_verdict *v, char *out, size_t size)
{
    double limit_kg = pl_session_part(s)->limits.mass_kg;
    char figures[96];
    pl_number_fixed(figures, sizeof figures, v->mass_kg, 3);
    if (pl_given(limit_kg))
        pl_against_limit_words(v->mass_kg, limit_kg, 3, figures, sizeof figures);
    snprintf(out, size, "%s%s kg", v->mass_holds ? "" : "TOO HEAVY ", figures);
}

/* ---- what stands beside the verdict ---- */

void pl_before_words(const struct pl_session *s, bool mass, char *out, size_t size)
{
    char number[32];
    out[0] = '\0';
    if (!s->before.there || !pl_given(s->before.reserve))
        return;
    pl_reserve_words(s->before.reserve, out, size);
    if (mass && fabs(s->before.mass_kg - s->now.mass_kg) >= 5e-4) {
        pl_number_fixed(number, sizeof number, s->before.mass_kg, 3);
        snprintf(out + strlen(out), size - strlen(out), ", %s kg", number);
    }
}

void pl_not_checked_words(const struct pl_session *s, char *out, size_t size)
{
    out[0] = '\0';
    for (const char *const *word = pl_check_not_checked(pl_session_part(s)); *word; word++)
        snprintf(out + strlen(out), size - strlen(out), "%s%s", *word, word[1] ? ", " : "");
}

const char *pl_forgotten_words(const struct pl_session *s, char *reserve, size_t size)
{
    size_t element, item;
    const struct pl_forgotten_ply *p = pl_forgotten_worst(s->forgotten, &element, &item);
    if (!p || !pl_given(p->reserve))
        return NULL;
    pl_reserve_words(p->reserve, reserve, size);
    return pl_session_part(s)->elements[element].layup[item].name;
}

size_t pl_count_problems(const struct pl_session *s, enum pl_severity severity)
{
    size_t n = 0;
    for (size_t i = 0; i < s->problems.count; i++)
        n += s->problems.list[i].severity == severity;
    return n;
}
