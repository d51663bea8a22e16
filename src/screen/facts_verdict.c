/* Facts of the verdict, of the place the marker stands at, and of each load case. */
#include "facts.h"

#include "verdict_words.h"
#include "view.h"

#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>

static void add_unjudged(struct pl_facts *f, const struct pl_session *s)
{
    char words[PL_FACT_WORDS];
    size_t errors = pl_count_problems(s, PL_ERROR);
    pl_unjudged_words(s, words, sizeof words);
    pl_facts_addf(f, "verdict", NULL, "CANNOT BE JUDGED: %s", words);
    if (errors > 1)
        pl_facts_addf(f, "errors", NULL, "%zu, page 4 has them", errors);
    pl_old_words(s, words, sizeof words);
    pl_facts_add(f, "figures", NULL, words);
}

static void add_before(struct pl_facts *f, const struct pl_session *s)
{
    char words[64];
    pl_before_words(s, true, words, sizeof words);
    if (words[0])
        pl_facts_addf(f, "was", NULL, "reserve %s", words);
}

static void add_forgotten(struct pl_facts *f, const struct pl_session *s)
{
    char reserve[32];
    const char *item = pl_forgotten_words(s, reserve, sizeof reserve);
    if (item)
        pl_facts_addf(f, "one ply forgotten", NULL, "%s, reserve %s", item, reserve);
}

static void add_warnings(struct pl_facts *f, const struct pl_session *s)
{
    size_t n = pl_count_problems(s, PL_WARNING);
    if (n)
        pl_facts_addf(f, "warnings", NULL, "%zu, page 4 has them", n);
    else
        pl_facts_add(f, "warnings", "none", "");
}

static void add_judged(struct pl_facts *f, const struct pl_session *s, const struct pl_verdict *v)
{
    char headline[64], words[400];
    pl_headline_words(v, headline, sizeof headline);
    pl_where_words(s, v, PL_WORDS_LINE, words, sizeof words);
    pl_facts_addf(f, "verdict", NULL, "%s, %s", headline, words);
    add_before(f, s);
    pl_mass_words(s, v, words, sizeof words);
    pl_facts_add(f, "mass", NULL, words);
    pl_limit_words(v, false, words, sizeof words);
    pl_facts_add(f, "deflection", "no limit", words);
    add_forgotten(f, s);
    add_warnings(f, s);
}

/* ---- at the marker ---- */

static void add_figure(struct pl_facts *f, const char *label, double value, int decimals, const char *unit)
{
    char number[48];
    pl_number_fixed(number, sizeof number, value, decimals);
    pl_facts_addf(f, label, NULL, "%s %s", number, unit);
}

static void add_place(struct pl_facts *f, const struct pl_session *s)
{
    const struct pl_case_result *c = pl_view_case_at_marker(s);
    char reserve[32], pinned[160];
    if (!c)
        return;
    const struct pl_check_row *row = pl_case_row_at(c, s->marker_m);
    pl_reserve_words(row->reserve, reserve, sizeof reserve);
    pl_view_pinned_words(s, pl_place_with_unit, pinned, sizeof pinned);
    pl_facts_addf(f, "reserve there", NULL, "%s, %s, %s%s%s", reserve, pl_mode_name(row->mode), c->load_case->name,
                  pinned[0] ? ", " : "", pinned);
    add_figure(f, "moment there", row->moment_nm, 1, "N m");
    add_figure(f, "shear there", row->shear_n, 0, "N");
    add_figure(f, "torque there", row->torque_nm, 1, "N m");
    add_figure(f, "deflection there", 1e3 * row->deflection_m, 2, "mm");
    add_figure(f, "twist there", row->twist_rad * 180 / M_PI, 2, "deg");
}

/* ---- the load cases, on the page of results ---- */

static void add_case(struct pl_facts *f, const struct pl_case_result *c)
{
    char reserve[32], where[256], how[64], tip[96];
    pl_reserve_words(c->least.reserve, reserve, sizeof reserve);
    pl_lowest_with_unit(&c->least, where, sizeof where);
    pl_solution_words(c->least_pinned, c->least_variant, how, sizeof how);
    if (pl_given(c->load_case->tip_limit_m))
        pl_against_limit_words(1e3 * fabs(c->tip_most_m), 1e3 * c->load_case->tip_limit_m, 1, tip, sizeof tip);
    else
        pl_number_fixed(tip, sizeof tip, 1e3 * fabs(c->tip_most_m), 1);
    pl_facts_addf(f, "load case", NULL, "%s: %s, %s, %s, tip moves %s mm", c->load_case->name, reserve, where,
                  how, tip);
}

static void add_cases(struct pl_facts *f, const struct pl_session *s, const struct pl_verdict *v)
{
    char words[400];
    pl_curve_words(s, words, sizeof words);
    pl_facts_add(f, "curve", NULL, words);
    for (size_t i = 0; i < v->n_cases; i++)
        add_case(f, &v->cases[i]);
}

void pl_facts_of_verdict(struct pl_facts *f, const struct pl_session *s)
{
    const struct pl_verdict *v = s->valid ? pl_session_verdict(s) : NULL;
    const struct pl_part *part = pl_session_part(s);
    char words[256];
    if (v)
        add_judged(f, s, v);
    else
        add_unjudged(f, s);
    pl_not_checked_words(s, words, sizeof words);
    pl_facts_add(f, "not checked", NULL, words);
    bool one = s->load_case < part->n_load_cases;
    pl_facts_add(f, "case shown", NULL, one ? part->load_cases[s->load_case].name : "all");
    pl_place_with_unit(s->marker_m, words, sizeof words);
    pl_facts_addf(f, "marker", NULL, "y %s", words);
    if (v)
        add_place(f, s);
    if (v && s->page == PL_PAGE_STRENGTH)
        add_cases(f, s, v);
}
