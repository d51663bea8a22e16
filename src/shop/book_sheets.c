/* book_sheets.c - the ply book on paper: a box to tick for each cup and piece, and a plan of where each piece goes. */
#include "plyloft/kit_sheets.h"

#include "paper.h"

#include "plyloft/pieces.h"
#include "plyloft/shop_words.h"

#include <math.h>
#include <stdio.h>

/* ---- the plan, seen on the outside: from above, or from below ---- */

enum { PLACES = 25 };  /* along the span */

static const double sketch_mm = 62;

struct plan {
    const struct pl_element *element;
    double x_mm, y_mm, mm_per_m;   /* of the middle of the leading edge at the root */
    double way;                    /* -1: seen from below, the right hand lies on the left */
};

/* Chord and leading edge at a place; straight between stations, as the loft has it. */
static void chord_at(const struct pl_element *e, double y_m, double *chord_m, double *x_le_m)
{
    size_t i = 0;
    double y = fabs(y_m);
    while (i + 2 < e->n_stations && y > e->stations[i + 1].y_m)
        i++;
    const struct pl_station *a = &e->stations[i], *b = &e->stations[i + 1];
    double part = fmin(1, (y - a->y_m) / (b->y_m - a->y_m));
    *chord_m = a->chord_m + part * (b->chord_m - a->chord_m);
    *x_le_m = a->x_le_m + part * (b->x_le_m - a->x_le_m);
}

/* Outline between two places; item PL_NONE: the whole chord. */
static void draw_outline(struct pl_drawing *d, const struct plan *p, size_t item, double from_m, double to_m, enum pl_fill fill)
{
    double x_mm[2 * PLACES], y_mm[2 * PLACES];
    for (int i = 0; i < PLACES; i++) {
        double y_m = from_m + (to_m - from_m) * i / (PLACES - 1), chord_m, x_le_m, from = 0, to = 1;
        chord_at(p->element, y_m, &chord_m, &x_le_m);
        if (item != PL_NONE)
            pl_item_edges(&p->element->layup[item], chord_m, &from, &to, NULL);
        x_mm[i] = x_mm[2 * PLACES - 1 - i] = p->x_mm + p->way * y_m * p->mm_per_m;
        y_mm[i] = p->y_mm + (x_le_m + from * chord_m) * p->mm_per_m;
        y_mm[2 * PLACES - 1 - i] = p->y_mm + (x_le_m + to * chord_m) * p->mm_per_m;
    }
    pl_drawing_shape(d, item == PL_NONE ? PL_PEN_THIN : PL_PEN_LINE, fill, true, x_mm, y_mm, 2 * PLACES);
}

static void draw_thread(struct pl_drawing *d, const struct plan *p, const struct pl_kit_piece *piece)
{
    double middle_m = 0.5 * (piece->from_m + piece->to_m), chord_m, x_le_m, from, to, half_mm = 5;
    chord_at(p->element, middle_m, &chord_m, &x_le_m);
    pl_item_edges(&p->element->layup[piece->item], chord_m, &from, &to, NULL);
    double x = p->x_mm + p->way * middle_m * p->mm_per_m, y = p->y_mm + (x_le_m + 0.5 * (from + to) * chord_m) * p->mm_per_m;
    double dx = p->way * half_mm * cos(piece->angle_rad), dy = half_mm * sin(piece->angle_rad);
    pl_drawing_arrow(d, x - dx, y - dy, x + dx, y + dy);
}

static double sketch_height_mm(const struct pl_element *e)
{
    double deep_m = 0, semispan_m = pl_element_semispan_m(e);
    for (size_t i = 0; i < e->n_stations; i++)
        deep_m = fmax(deep_m, e->stations[i].x_le_m - e->stations[0].x_le_m + e->stations[i].chord_m);
    return fmin(26, deep_m * sketch_mm / (2 * semispan_m));
}

static void draw_sketch(struct paper *paper, const struct pl_kit_piece *piece)
{
    const struct pl_element *e = &paper->part->elements[piece->element];
    double semispan_m = pl_element_semispan_m(e), mm_per_m = sketch_mm / (2 * semispan_m), deep_m = sketch_height_mm(e) / mm_per_m;
    struct plan p = {e, PAPER_LEFT_MM + PAPER_WIDTH_MM - 0.5 * sketch_mm - 3, paper->y_mm + 2 - e->stations[0].x_le_m * mm_per_m, mm_per_m, piece->side == PL_TOP ? 1 : -1};
    double end_mm = 0.5 * sketch_mm + 0.5, y_mm = paper->y_mm + 2 + 0.5 * deep_m * mm_per_m;
    draw_outline(paper->drawing, &p, PL_NONE, -semispan_m, semispan_m, PL_FILL_NONE);
    draw_outline(paper->drawing, &p, piece->item, piece->from_m, piece->to_m, PL_FILL_LIGHT);
    draw_thread(paper->drawing, &p, piece);
    pl_drawing_text(paper->drawing, p.x_mm - end_mm, y_mm, 1.8, PL_AT_END, 0, p.way > 0 ? "L" : "R");
    pl_drawing_text(paper->drawing, p.x_mm + end_mm, y_mm, 1.8, PL_AT_START, 0, p.way > 0 ? "R" : "L");
}

/* ---- steps ---- */

static void put_piece(struct paper *p, const struct pl_kit_piece *piece)
{
    struct pl_kit_cells c;
    char words[sizeof c];
    double high_mm = fmax(15, sketch_height_mm(&p->part->elements[piece->element]) + 5), text_mm = PAPER_WIDTH_MM - sketch_mm - 24;
    pl_paper_need(p, high_mm);
    pl_kit_cells(p->part, piece, &c);
    pl_paper_box(p, PAPER_LEFT_MM, p->y_mm + 2);
    pl_drawing_text(p->drawing, PAPER_LEFT_MM + 7, p->y_mm + 5.6, 3, PL_AT_START, 0, c.text[0]);
    snprintf(words, sizeof words, "%s, %s", c.text[1], c.text[2]);
    pl_drawing_text_in(p->drawing, PAPER_LEFT_MM + 22, p->y_mm + 4.6, PAPER_TEXT_MM, text_mm, words);
    snprintf(words, sizeof words, "%s, %s deg, %s mm", c.text[3], c.text[4], c.text[6]);
    pl_drawing_text_in(p->drawing, PAPER_LEFT_MM + 22, p->y_mm + 8.8, 2, text_mm, words);
    pl_drawing_text_in(p->drawing, PAPER_LEFT_MM + 22, p->y_mm + 12.6, 1.8, text_mm, c.text[7]);
    draw_sketch(p, piece);
    p->y_mm += high_mm;
    pl_drawing_line(p->drawing, PL_PEN_THIN, PAPER_LEFT_MM, p->y_mm, PAPER_LEFT_MM + PAPER_WIDTH_MM, p->y_mm);
}

static void put_cup(struct paper *p, const char *words)
{
    char line[sizeof ((struct pl_book_step *)NULL)->words + 24];
    pl_paper_need(p, 30);  /* not without the piece that follows */
    p->y_mm += 2;
    pl_paper_box(p, PAPER_LEFT_MM, p->y_mm + 1.4);
    snprintf(line, sizeof line, "      at ____:____   %s", words);
    pl_paper_line(p, line);
    p->y_mm += 2;
    pl_drawing_line(p->drawing, PL_PEN_LINE, PAPER_LEFT_MM, p->y_mm, PAPER_LEFT_MM + PAPER_WIDTH_MM, p->y_mm);
}

enum pl_status pl_book_pdf(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    struct paper p = {.drawing = pl_drawing_new(), .part = part, .title = "ply book"};
    if (!p.drawing)
        return PL_NO_MEMORY;
    pl_paper_page(&p);
    pl_paper_line(&p, "date ____________   shed _____ C   humidity _____ %   resin batch ____________   hardener batch ____________");
    pl_paper_line(&p, "Sketches are seen on the outside, nose up the page: top from above, bottom from below.  The arrow runs with the threads at 0.");
    for (size_t i = 0; i < pl_book_steps(shop); i++) {
        struct pl_book_step step = pl_book_step(part, shop, i);
        if (step.piece)
            put_piece(&p, step.piece);
        else
            put_cup(&p, step.words);
    }
    pl_paper_heading(&p, "mind");
    for (const char *const *c = pl_shop_cautions(); *c; c++)
        pl_paper_line(&p, *c);
    enum pl_status status = pl_drawing_pdf(p.drawing, part->name, out);
    pl_drawing_free(p.drawing);
    return status;
}
