/* draw_outline.c - the wing from above and from the front: what the stations make of it. */
#include "view.h"

#include "plyloft/buffer.h"

#include <math.h>
#include <stdio.h>

enum { PLACES_MOST = 66 };

/* Both ends of the chord line at a station, on the car. */
struct place { double y_m, nose_x_m, nose_z_m, tail_x_m, tail_z_m; };

struct outline { struct place places[PLACES_MOST]; size_t n; };

static bool find_places(struct pl_session *s, const struct pl_element *e, struct outline *o)
{
    struct pl_problems problems = {0};
    struct pl_place_view view;
    bool good = true;
    o->n = 0;
    for (size_t i = 0; i < e->n_stations && o->n < PLACES_MOST && good; i++) {
        struct place *p = &o->places[o->n++];
        p->y_m = e->stations[i].y_m;
        good = pl_solve_place(s->solve, pl_session_part(s), s->element, p->y_m, &view, &problems) == PL_OK;
        if (!good)
            break;
        pl_section_to_car(&view.section, 0, 0, &p->nose_x_m, &p->nose_z_m);
        pl_section_to_car(&view.section, view.section.chord_m, 0, &p->tail_x_m, &p->tail_z_m);
    }
    pl_problems_free(&problems);
    return good;
}

static void widen(double value, double *low, double *high)
{
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

/* Pitch of the dots alike both ways, as far as the rows allow; up is stretched or pressed to fit. */
static double stretch_of(const struct pl_canvas *c)
{
    double along_m = (c->x_to - c->x_from) / (2.0 * c->columns), up_m = fabs(c->y_to - c->y_from) / (4.0 * c->rows);
    return up_m > 0 ? along_m / up_m : 1;
}

static void draw_halves(const struct pl_canvas *c, const struct place *a, const struct place *b, bool above)
{
    for (int side = -1; side <= 1; side += 2) {
        double ya = side * a->y_m, yb = side * b->y_m;
        pl_canvas_line(c, ya, above ? a->nose_x_m : a->nose_z_m, yb, above ? b->nose_x_m : b->nose_z_m, PL_ROLE_TEXT);
        pl_canvas_line(c, ya, above ? a->tail_x_m : a->tail_z_m, yb, above ? b->tail_x_m : b->tail_z_m, PL_ROLE_QUIET);
    }
}

static void draw_station(const struct pl_canvas *c, const struct place *p, bool above, bool tip)
{
    void (*line)(const struct pl_canvas *, double, double, double, double, enum pl_role) = tip ? pl_canvas_line : pl_canvas_dashed;
    for (int side = -1; side <= 1; side += 2)
        line(c, side * p->y_m, above ? p->nose_x_m : p->nose_z_m, side * p->y_m, above ? p->tail_x_m : p->tail_z_m,
             tip ? PL_ROLE_TEXT : PL_ROLE_LINE);
}

static void put_title(struct pl_frame *f, struct pl_region r, const struct pl_canvas *c, const char *from, const char *what)
{
    char stretch[32], title[120];
    pl_number_digits(stretch, sizeof stretch, stretch_of(c), 2);
    snprintf(title, sizeof title, "%s, %s x %s", from, what, stretch);
    pl_frame_text_in(f, r.row, r.column + 1, r.columns - 14, PL_ROLE_TITLE, title);
}

static void put_below(struct pl_session *s, struct pl_frame *f, const struct pl_canvas *c)
{
    struct pl_mark marks[PL_MARKS_MOST];
    double span_m = 2 * pl_session_semispan_m(s);
    size_t n = pl_view_marks(s, marks);
    int row, column;
    char words[48], mm[32];
    for (size_t i = 0; i < n; i++)
        if (marks[i].glyph == PL_GLYPH_POINT_UP && pl_canvas_cell(c, marks[i].y_m, c->y_from, &row, &column))
            pl_frame_glyph(f, c->row + c->rows, column, PL_ROLE_TITLE, marks[i].glyph);
    if (pl_canvas_cell(c, s->marker_m, c->y_from, &row, &column))
        pl_frame_glyph(f, c->row + c->rows, column, PL_ROLE_MARKER, PL_GLYPH_VERTICAL);
    pl_number_digits(mm, sizeof mm, 1e3 * span_m, 6);
    snprintf(words, sizeof words, "span %s mm", mm);
    pl_frame_text_right(f, c->row + c->rows, c->column + c->columns - 14, 14, PL_ROLE_QUIET, words);
    for (int i = 0; i < c->columns; i++)
        pl_frame_hit(f, c->row, c->column + i, c->rows + 1, 1, PL_DO_MARKER_AT,
                     pl_marker_argument(c->x_from + (c->x_to - c->x_from) * (i + 0.5) / c->columns));
}

static void view_from(struct pl_session *s, struct pl_frame *f, struct pl_region r, const struct outline *o, bool above)
{
    double semispan_m = pl_session_semispan_m(s), low = HUGE_VAL, high = -HUGE_VAL;
    struct pl_canvas c = {f, r.row + 1, r.column + 1, r.rows - 2, r.columns - 2, -semispan_m, semispan_m, 0, 1};
    for (size_t i = 0; i < o->n; i++) {
        widen(above ? o->places[i].nose_x_m : o->places[i].nose_z_m, &low, &high);
        widen(above ? o->places[i].tail_x_m : o->places[i].tail_z_m, &low, &high);
    }
    double margin = 0.02 * (high - low) + 1e-3;
    c.y_from = above ? high + margin : low - margin;  /* from above, the nose is at the top */
    c.y_to = above ? low - margin : high + margin;
    put_title(f, r, &c, above ? "from above" : "from the front, nose in full", above ? "chord" : "height");
    for (size_t i = 0; i < o->n; i++)
        draw_station(&c, &o->places[i], above, i + 1 == o->n);
    for (size_t i = 1; i < o->n; i++)
        draw_halves(&c, &o->places[i - 1], &o->places[i], above);
    pl_canvas_dashed(&c, s->marker_m, c.y_from, s->marker_m, c.y_to, PL_ROLE_MARKER);
    put_below(s, f, &c);
}

void pl_view_outline(struct pl_session *s, struct pl_frame *f, struct pl_region r)
{
    const struct pl_part *part = pl_session_part(s);
    struct outline o;
    char words[64];
    if (r.rows < 4 || r.columns < 24 || s->element >= part->n_elements || !find_places(s, &part->elements[s->element], &o))
        return;
    pl_marker_words(s, words, sizeof words);
    pl_frame_text_right(f, r.row, r.column + r.columns - 13, 12, PL_ROLE_MARKER, words);
    if (r.rows < 11) {
        view_from(s, f, r, &o, true);
        return;
    }
    struct pl_region top = pl_region_top(&r, r.rows * 3 / 5);
    view_from(s, f, top, &o, true);
    view_from(s, f, r, &o, false);
}
