/* view_marks.c - what drawings along the span have in common: mounts, pads, pushes, and the case they speak of. */
#include "view.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"
#include "plyloft/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

size_t pl_view_marks(const struct pl_session *s, struct pl_mark out[PL_MARKS_MOST])
{
    const struct pl_part *part = pl_session_part(s);
    const struct pl_element *e = &part->elements[s->element];
    double semispan_m = pl_session_semispan_m(s);
    size_t n = 0;
    for (size_t i = 0; i < part->n_load_cases; i++) {
        const struct pl_load_case *c = &part->load_cases[i];
        if (c->element != s->element || (s->load_case != PL_NONE && s->load_case != i))
            continue;
        for (size_t k = 0; c->kind == PL_JACKING && k < c->n_pads && n < PL_MARKS_MOST; k++)
            out[n++] = (struct pl_mark){c->pads[k].y_m, PL_GLYPH_DIAMOND};
        if ((c->kind == PL_TIP_STRIKE || c->kind == PL_POINT_LOAD) && n < PL_MARKS_MOST)
            out[n++] = (struct pl_mark){pl_given(c->y_m) ? c->y_m : semispan_m, PL_GLYPH_STRIKE};
    }
    for (size_t i = 0; i < e->n_mounts && n < PL_MARKS_MOST; i++)
        out[n++] = (struct pl_mark){e->mounts[i].y_m, PL_GLYPH_POINT_UP};
    return n;
}

const struct pl_case_result *pl_view_weakest_case(const struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    size_t i = s->load_case != PL_NONE ? s->load_case : v ? v->worst_case : PL_NONE;
    return v && s->valid && i < v->n_cases ? &v->cases[i] : NULL;
}

const struct pl_case_result *pl_view_case_at_marker(const struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    const struct pl_case_result *lowest = NULL;
    for (size_t i = 0; v && i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        if (c->load_case->element != s->element || (s->load_case != PL_NONE && s->load_case != i))
            continue;
        if (!lowest || pl_case_row_at(c, s->marker_m)->reserve < pl_case_row_at(lowest, s->marker_m)->reserve)
            lowest = c;
    }
    return lowest;
}

/* The case that those words are of: the one the drawings speak of, else the weakest of this element. */
static const struct pl_case_result *pinned_case(const struct pl_session *s)
{
    const struct pl_case_result *here = pl_view_case_at_marker(s), *weakest = pl_view_weakest_case(s);
    if (here && here->least_pinned)
        return here;
    return weakest && weakest->least_pinned && weakest->load_case->element == s->element ? weakest : NULL;
}

void pl_view_pinned_words(const struct pl_session *s, pl_place_in_words *place, char *out, size_t size)
{
    const struct pl_case_result *c = s->valid ? pinned_case(s) : NULL;
    char reserve[32], at[48] = "";
    out[0] = '\0';
    if (!c)
        return;
    pl_reserve_words(c->least.reserve, reserve, sizeof reserve);
    if (place)
        place(c->least.y_m, at, sizeof at);
    bool other = c != pl_view_case_at_marker(s);
    snprintf(out, size, "as given; %.60s%spinned %s%s%s", other ? c->load_case->name : "", other ? " " : "", reserve,
             place ? " at " : "", place ? at : "");
}

void pl_view_add_pinned(const struct pl_session *s, const char *end, int width, char *text, size_t size)
{
    char pinned[160];
    size_t used = strlen(text);
    pl_view_pinned_words(s, pl_place_words, pinned, sizeof pinned);
    snprintf(text + used, size - used, "%s%s%s", end, pinned[0] ? ", " : "", pinned);
    if (!pinned[0] || pl_text_columns(text) <= width)
        return;
    snprintf(text + used, size - used, " %s", pinned);
    if (pl_text_columns(text) <= width)
        return;
    pl_view_pinned_words(s, NULL, pinned, sizeof pinned);
    snprintf(text + used, size - used, " %s", pinned);
}

char pl_view_case_letter(size_t load_case)
{
    return (char)('a' + load_case % 26);
}

void pl_view_label(struct pl_frame *f, const struct pl_canvas *c, double value, int decimals)
{
    char text[32];
    int row, column;
    pl_number_fixed(text, sizeof text, value, decimals);
    if (pl_canvas_cell(c, c->x_from, value, &row, &column))
        pl_frame_text_right(f, row, c->column - PL_LABEL_COLUMNS, PL_LABEL_COLUMNS - 1, PL_ROLE_QUIET, text);
}

double pl_view_round_out(double value)
{
    static const double rounds[] = {1, 1.5, 2, 3, 4, 5, 6, 8, 10};
    if (value == 0 || !isfinite(value))
        return value;
    double size = fabs(value), decade = pow(10, floor(log10(size)));
    size_t i = 0;
    while (i + 1 < sizeof rounds / sizeof *rounds && rounds[i] * decade < size * (1 - 1e-9))
        i++;
    return copysign(rounds[i] * decade, value);
}
