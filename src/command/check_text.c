#include "command.h"

#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- cells of a table, measured in columns ---- */

static void pad(struct pl_buffer *out, int columns)
{
    for (; columns > 0; columns--)
        pl_buffer_text(out, " ");
}

/* A text longer than its column is cut, with a blank before the next. */
static void left(struct pl_buffer *out, int width, const char *text)
{
    int columns = pl_text_columns(text);
    if (columns >= width) {
        size_t n = 0, left_over = strlen(text);
        int used = 0;
        for (uint32_t code; n < left_over; used += pl_code_columns(code)) {
            size_t length = pl_utf8_decode(text + n, left_over - n, &code);
            if (!length || used + pl_code_columns(code) >= width)
                break;
            n += length;
        }
        pl_buffer_add(out, text, n);
        pad(out, width - used);
        return;
    }
    pl_buffer_text(out, text);
    pad(out, width - columns);
}

static void right(struct pl_buffer *out, int width, const char *text)
{
    pad(out, width - pl_text_columns(text));
    pl_buffer_text(out, text);
}

static void right_number(struct pl_buffer *out, int width, double value, int decimals, const char *unit)
{
    char text[64];
    pl_number_fixed(text, sizeof text, value, decimals);
    strncat(text, unit, sizeof text - strlen(text) - 1);
    right(out, width, text);
}

/* ---- the verdict ---- */

static const struct pl_case_result *worst_of(const struct pl_verdict *v, size_t only)
{
    size_t worst = only == PL_NONE ? v->worst_case : only;
    return worst == PL_NONE ? NULL : &v->cases[worst];
}

static void put_verdict(const struct pl_loaded *l, size_t only, bool holds, struct pl_buffer *out)
{
    const struct pl_verdict *v = pl_solve_verdict(l->solve);
    const struct pl_case_result *worst = worst_of(v, only);
    char reserve[32], where[256], how[64];
    pl_buffer_printf(out, "%s%s%s\n", l->part.name, l->part.revision && l->part.revision[0] ? ", revision " : "",
                     l->part.revision ? l->part.revision : "");
    if (!worst) {
        pl_buffer_printf(out, "%s   no load case, so no reserve is known\n", holds ? "NOTHING JUDGED" : "TOO HEAVY");
        return;
    }
    pl_reserve_words(worst->least.reserve, reserve, sizeof reserve);
    pl_lowest_words(&worst->least, where, sizeof where);
    pl_solution_words(worst->least_pinned, worst->least_variant, how, sizeof how);
    pl_buffer_printf(out, "%s   lowest reserve %s: %s (%s; %s)\n", holds ? "WING HOLDS" : "WING FALLS SHORT", reserve, where,
                     worst->load_case->name, how);
}

/* ---- the cases ---- */

enum { NAME = 24, LOAD = 10, RESERVE = 9, MODE = 12, PIECE = 18, PLACE = 11, TIP = 11 };

static void put_solution(const char *name, const struct pl_solution *s, double load_n, struct pl_buffer *out)
{
    char text[64];
    left(out, NAME, name);
    if (pl_given(load_n))
        right_number(out, LOAD, load_n, 0, " N");
    else
        pad(out, LOAD);
    pl_reserve_words(s->lowest.reserve, text, sizeof text);
    right(out, RESERVE, text);
    pl_buffer_text(out, "  ");
    left(out, MODE, pl_mode_name(s->lowest.mode));
    left(out, PIECE, s->lowest.item);
    pl_place_words(s->lowest.y_m, text, sizeof text);
    right(out, PLACE, text);
    right_number(out, TIP, 1e3 * s->tip_m, 2, " mm");
    pl_buffer_text(out, "\n");
}

static void put_cases(const struct pl_verdict *v, size_t only, struct pl_buffer *out)
{
    left(out, NAME, "load case");
    right(out, LOAD, "load");
    right(out, RESERVE, "reserve");
    pl_buffer_text(out, "  ");
    left(out, MODE, "mode");
    left(out, PIECE, "piece");
    right(out, PLACE, "place mm");
    right(out, TIP, "tip");
    pl_buffer_text(out, "\n");
    for (size_t i = 0; i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        if (only != PL_NONE && only != i)
            continue;
        put_solution(c->load_case->name, &c->given, c->total_force_n, out);
        if (c->has_pinned)
            put_solution("  mounts pinned", &c->pinned, PL_NOT_GIVEN, out);
    }
}

static void put_limits(const struct pl_loaded *l, size_t only, struct pl_buffer *out)
{
    const struct pl_verdict *v = pl_solve_verdict(l->solve);
    for (size_t i = 0; i < v->n_elements; i++) {
        const struct pl_element_result *e = &v->elements[i];
        char span[32], area[32], mass[32];
        pl_number_digits(span, sizeof span, 1e3 * e->span_m, 6);
        pl_number_fixed(area, sizeof area, e->area_m2, 4);
        pl_number_fixed(mass, sizeof mass, e->mass_kg, 3);
        pl_buffer_printf(out, "element %s: span %s mm, plan area %s m2, mass %s kg\n", e->element->name, span, area, mass);
    }
    if (pl_given(l->part.limits.mass_kg)) {
        pl_buffer_text(out, "mass ");
        pl_buffer_number(out, v->mass_kg, 3);
        pl_buffer_text(out, " of ");
        pl_buffer_number(out, l->part.limits.mass_kg, 3);
        pl_buffer_text(out, v->mass_holds ? " kg allowed\n" : " kg allowed: TOO HEAVY\n");
    }
    for (size_t i = 0; i < v->n_cases; i++) {
        const struct pl_load_case *c = v->cases[i].load_case;
        if ((only != PL_NONE && only != i) || !pl_given(c->tip_limit_m))
            continue;
        double most = fabs(v->cases[i].tip_most_m);
        pl_buffer_printf(out, "%s: tip moves ", c->name);
        pl_buffer_number(out, 1e3 * most, 2);
        pl_buffer_text(out, " of ");
        pl_buffer_number(out, 1e3 * c->tip_limit_m, 2);
        pl_buffer_text(out, most <= c->tip_limit_m ? " mm allowed (without factor)\n" : " mm allowed (without factor): TOO FAR\n");
    }
}

/* ---- reserve along the span ---- */

enum { PLOT_COLUMNS = 65, PLOT_ROWS = 8 };
static const double plot_top = 4;  /* reserves above stand on the top row */

static void plot_lowest(const struct pl_case_result *cases, size_t n_cases, size_t element, size_t only, double semispan_m,
                        double lowest[PLOT_COLUMNS])
{
    for (int i = 0; i < PLOT_COLUMNS; i++)
        lowest[i] = PL_MOST_RESERVE;
    for (size_t c = 0; c < n_cases; c++)
        for (size_t k = 0; k < cases[c].n_rows; k++) {
            const struct pl_check_row *row = &cases[c].rows[k];
            int at = (int)lround((row->y_m / semispan_m + 1) / 2 * (PLOT_COLUMNS - 1));
            if (cases[c].load_case->element == element && (only == PL_NONE || only == c) && row->reserve < lowest[at])
                lowest[at] = row->reserve;
        }
}

static void plot_row(const double lowest[PLOT_COLUMNS], int row, struct pl_buffer *out)
{
    double from = plot_top * row / PLOT_ROWS, to = plot_top * (row + 1) / PLOT_ROWS;
    bool top = row == PLOT_ROWS - 1, holds_line = from == 1;
    char line[PLOT_COLUMNS + 1];
    for (int i = 0; i < PLOT_COLUMNS; i++) {
        bool here = lowest[i] >= from && (top || lowest[i] < to);
        line[i] = here ? (lowest[i] < 1 ? 'x' : '*') : holds_line ? '-' : ' ';
    }
    line[PLOT_COLUMNS] = '\0';
    if (holds_line || top || row == 0) {
        right_number(out, 6, from, 1, "");
        pl_buffer_text(out, top ? "+" : " ");
    } else {
        pad(out, 7);
    }
    pl_buffer_printf(out, "|%s|%s\n", line, holds_line ? " holds above" : "");
}

static void put_plot(const struct pl_verdict *v, size_t element, size_t only, struct pl_buffer *out)
{
    const struct pl_element_result *e = &v->elements[element];
    double lowest[PLOT_COLUMNS];
    bool any = false;
    for (size_t i = 0; i < v->n_cases; i++)
        any = any || (v->cases[i].load_case->element == element && (only == PL_NONE || only == i));
    if (!any)
        return;
    plot_lowest(v->cases, v->n_cases, element, only, 0.5 * e->span_m, lowest);
    pl_buffer_printf(out, "\nlowest reserve along the span, element %s, mounts as given\n", e->element->name);
    for (int row = PLOT_ROWS - 1; row >= 0; row--)
        plot_row(lowest, row, out);
    char tip[32];
    pl_number_digits(tip, sizeof tip, 500 * e->span_m, 6);
    pad(out, 8);
    left(out, PLOT_COLUMNS / 2 - 3, tip);
    left(out, PLOT_COLUMNS / 2 - 1, "centre");
    right(out, 6, tip);
    pl_buffer_text(out, " mm\n");
}

/* ---- words ---- */

static void put_words(const struct pl_loaded *l, struct pl_buffer *out)
{
    const char *cautions[8];
    char sentence[1024];
    pl_buffer_text(out, "\nnot checked: ");
    for (const char *const *word = pl_check_not_checked(&l->part); *word; word++)
        pl_buffer_printf(out, "%s%s", *word, word[1] ? ", " : "\n");
    for (size_t i = 0; i < l->problems.count; i++) {
        pl_problem_sentence(&l->problems.list[i], NULL, sentence, sizeof sentence);
        pl_buffer_printf(out, "warning: %s\n", sentence);
    }
    size_t n = pl_cautions(&l->part, pl_solve_verdict(l->solve), cautions, 8);
    for (size_t i = 0; i < n; i++)
        pl_buffer_printf(out, "caution: %s\n", cautions[i]);
}

void pl_check_text(const struct pl_loaded *l, size_t only, bool holds, struct pl_buffer *out)
{
    const struct pl_verdict *v = pl_solve_verdict(l->solve);
    put_verdict(l, only, holds, out);
    pl_buffer_text(out, "\n");
    put_cases(v, only, out);
    pl_buffer_text(out, "\n");
    put_limits(l, only, out);
    for (size_t e = 0; e < v->n_elements; e++)
        put_plot(v, e, only, out);
    put_words(l, out);
}
