#include "plyloft/kit_sheets.h"

#include "paper.h"

#include "plyloft/shop_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- a roll with its pieces ---- */

struct roll {
    const struct pl_part *part;
    const struct pl_kit *kit;
    const struct pl_kit_cloth *cloth;
};

static struct pl_nest_piece flat_of(const struct pl_kit_piece *p)
{
    return (struct pl_nest_piece){p->cut_length_m, p->cut_width_m, p->thread_rad, p->balanced};
}

/* The arrow that is drawn on a piece, too: along its threads at 0. */
static void draw_arrow(struct pl_drawing *d, double x_mm, double y_mm, double size_mm)
{
    pl_drawing_arrow(d, x_mm - 1.2 * size_mm, y_mm + 1.5 * size_mm, x_mm + 1.2 * size_mm, y_mm + 1.5 * size_mm);
}

/* At a scale of millimetres of paper to a metre of cloth, its upper left corner given; the roll's y runs up the page, so that
 * the outside of every piece looks up. */
static void draw_roll(struct pl_drawing *d, const struct roll *r, double x_mm, double y_mm, double mm_per_m)
{
    double width_m = r->part->fabrics[r->cloth->fabric].roll_width_m, length_m = r->cloth->nest.length_m;
    pl_drawing_rectangle(d, PL_PEN_THIN, PL_FILL_NONE, x_mm, y_mm, length_m * mm_per_m, width_m * mm_per_m);
    for (size_t i = 0; i < r->cloth->nest.count; i++) {
        const struct pl_kit_piece *p = &r->kit->pieces[r->cloth->pieces[i]];
        const struct pl_nest_place *at = &r->cloth->nest.places[i];
        struct pl_nest_piece flat = flat_of(p);
        double x[4], y[4];
        if (!at->fits)
            continue;
        pl_nest_corners(&flat, at, x, y);
        for (int k = 0; k < 4; k++) {
            x[k] = x_mm + x[k] * mm_per_m;
            y[k] = y_mm + (width_m - y[k]) * mm_per_m;
        }
        pl_drawing_shape(d, PL_PEN_LINE, p->cut_mirrored ? PL_FILL_MIDDLE : PL_FILL_LIGHT, true, x, y, 4);
        double size = fmin(mm_per_m >= 999 ? 12 : 2.2, 0.5 * fmin(p->cut_width_m, p->cut_length_m) * mm_per_m);
        double turn = remainder(-at->angle_rad, M_PI), x_middle = x_mm + at->x_m * mm_per_m, y_middle = y_mm + (width_m - at->y_m) * mm_per_m;
        /* The base line half a letter below the middle; never on its head. */
        pl_drawing_text(d, x_middle - 0.5 * size * sin(turn), y_middle + 0.5 * size * cos(turn), size, PL_AT_MIDDLE, turn * 180 / M_PI, p->mark);
        if (mm_per_m * fmin(p->cut_width_m, p->cut_length_m) > 8)
            draw_arrow(d, x_middle, y_middle, size);
    }
}

static void draw_threads(struct pl_drawing *d, double x_mm, double y_mm)
{
    pl_drawing_arrow(d, x_mm, y_mm, x_mm + 20, y_mm);
    pl_drawing_text(d, x_mm + 22, y_mm + 0.9, PAPER_TEXT_MM, PL_AT_START, 0, "along the roll: its threads at 0");
}

static const double roll_most_mm = 92;

static double left_over_m2(const struct roll *r)
{
    return r->cloth->nest.length_m * r->part->fabrics[r->cloth->fabric].roll_width_m * (1 - r->cloth->nest.used);
}

static void put_roll(struct paper *p, const struct roll *r)
{
    const struct pl_fabric *f = &r->part->fabrics[r->cloth->fabric];
    double length_m = fmax(r->cloth->nest.length_m, 1e-3), mm_per_m = fmin(PAPER_WIDTH_MM / length_m, roll_most_mm / f->roll_width_m);
    char words[256];
    pl_paper_need(p, f->roll_width_m * mm_per_m + 24);
    pl_paper_heading(p, f->name);
    snprintf(words, sizeof words, "roll %.0f mm wide; cut from %.2f m; %.0f %% of it is used, %.2f m2 left over; 1 mm here is %.1f mm", 1e3 * f->roll_width_m,
             r->cloth->nest.length_m, 100 * r->cloth->nest.used, left_over_m2(r), 1e3 / mm_per_m);
    pl_paper_line(p, words);
    draw_threads(p->drawing, PAPER_LEFT_MM, p->y_mm + 4);
    p->y_mm += 7;
    draw_roll(p->drawing, r, PAPER_LEFT_MM, p->y_mm, mm_per_m);
    p->y_mm += f->roll_width_m * mm_per_m;
}

/* ---- the table of pieces ---- */

static const double columns_mm[PL_KIT_CELLS] = {6, 20, 68, 90, 124, 134, 153, 0};

static void put_cells(struct paper *p, const char *const cells[PL_KIT_CELLS])
{
    for (int k = 0; k + 1 < PL_KIT_CELLS; k++) {
        double end = k + 2 < PL_KIT_CELLS ? columns_mm[k + 1] : PAPER_WIDTH_MM;
        pl_drawing_text_in(p->drawing, PAPER_LEFT_MM + columns_mm[k], p->y_mm, 2, end - columns_mm[k] - 1, cells[k]);
    }
}

static void put_piece(struct paper *p, const struct pl_kit_piece *piece)
{
    struct pl_kit_cells c;
    const char *cells[PL_KIT_CELLS];
    pl_kit_cells(p->part, piece, &c);
    for (int k = 0; k < PL_KIT_CELLS; k++)
        cells[k] = c.text[k];
    bool note = *cells[PL_KIT_CELLS - 1];
    pl_paper_need(p, note ? 10 : 6);
    p->y_mm += 5;
    pl_paper_box(p, PAPER_LEFT_MM, p->y_mm - 3.2);
    put_cells(p, cells);
    if (note) {
        p->y_mm += 3.6;
        pl_drawing_text_in(p->drawing, PAPER_LEFT_MM + columns_mm[1], p->y_mm, 1.8, PAPER_WIDTH_MM - columns_mm[1], cells[PL_KIT_CELLS - 1]);
    }
}

static void put_pieces(struct paper *p, const struct pl_shop *shop)
{
    pl_paper_page(p);
    pl_paper_heading(p, "pieces, in laying order");
    p->y_mm += 4;
    put_cells(p, pl_kit_headings);
    for (size_t i = 0; i < shop->kit.n_pieces; i++)
        put_piece(p, &shop->kit.pieces[i]);
    pl_paper_line(p, "Mark every piece with its letters, an arrow along its threads at 0 and the word outside.");
}

/* ---- resin ---- */

static void put_cup(struct paper *p, const struct pl_shop *shop, const struct pl_resin_plan *plan, size_t i)
{
    char words[640], measure[160], what[400];
    pl_measure_batch_words(&p->part->resins[plan->resin], plan->batches[i].mixed_kg, measure, sizeof measure);
    pl_batch_words(p->part, &shop->kit, &plan->batches[i], what, sizeof what);
    snprintf(words, sizeof words, "      %zu   %s, %.0f min", i + 1, measure, plan->batches[i].minutes);
    pl_paper_need(p, 12);
    pl_paper_box(p, PAPER_LEFT_MM, p->y_mm + 1.6);
    pl_paper_line(p, words);
    snprintf(words, sizeof words, "            %s", what);
    pl_paper_line(p, words);
}

static void put_race(struct paper *p, const struct pl_shop *shop)
{
    struct pl_race_line line;
    char number[32];
    for (size_t i = 0; pl_race_line(&shop->resin, i, &line, NULL, 0); i++) {
        pl_paper_line(p, line.words);
        pl_number_fixed(number, sizeof number, line.kg, 3);
        strcat(number, " kg");
        pl_drawing_text(p->drawing, PAPER_LEFT_MM + 62, p->y_mm, PAPER_TEXT_MM, PL_AT_END, 0, pl_given(line.kg) ? number : "not weighed");
    }
}

static void put_resin(struct paper *p, const struct pl_shop *shop)
{
    char words[320], line[256];
    pl_paper_page(p);
    for (size_t i = 0; i < shop->resin.n_plans; i++) {
        const struct pl_resin_plan *plan = &shop->resin.plans[i];
        const struct pl_resin *r = &p->part->resins[plan->resin];
        pl_paper_heading(p, r->name);
        pl_measure_batch_words(r, plan->mixed_kg, line, sizeof line);
        snprintf(words, sizeof words, "all %s; by volume 100 to %.1f; pot life %.0f min at %g C", line, 100 * pl_hardener_by_volume(r), plan->pot_life_min,
                 p->part->shed.temperature_c);
        pl_paper_line(p, words);
        pl_paper_line(p, "cups, each with its box:");
        for (size_t k = 0; k < plan->n_batches; k++)
            put_cup(p, shop, plan, k);
        pl_measure_batch_words(r, plan->spare_kg, line, sizeof line);
        snprintf(words, sizeof words, "one more, measured and left unmixed: %s", line);
        pl_paper_line(p, words);
    }
    pl_paper_heading(p, "weigh before starting");
    for (size_t i = 0; pl_weigh_line(p->part, &shop->kit, &shop->resin, i, line, sizeof line); i++)
        pl_paper_line(p, line);
    pl_paper_heading(p, "mass");
    put_race(p, shop);
    pl_paper_heading(p, "mind");
    for (size_t i = 0; pl_shop_warning(shop, i); i++)
        pl_paper_line(p, pl_shop_warning(shop, i));
    for (const char *const *c = pl_shop_cautions(); *c; c++)
        pl_paper_line(p, *c);
}

enum pl_status pl_kit_pdf(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    struct paper p = {.drawing = pl_drawing_new(), .part = part, .title = "kit"};
    if (!p.drawing)
        return PL_NO_MEMORY;
    pl_paper_page(&p);
    for (size_t i = 0; i < shop->kit.n_cloths; i++) {
        struct roll r = {part, &shop->kit, &shop->kit.cloths[i]};
        put_roll(&p, &r);
    }
    put_pieces(&p, shop);
    put_resin(&p, shop);
    enum pl_status status = pl_drawing_pdf(p.drawing, part->name, out);
    pl_drawing_free(p.drawing);
    return status;
}

enum pl_status pl_kit_svg(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    struct pl_drawing *d = pl_drawing_new();
    double length_m = 0.1, width_m = 0, y_mm = 0;
    if (!d)
        return PL_NO_MEMORY;
    for (size_t i = 0; i < shop->kit.n_cloths; i++) {
        length_m = fmax(length_m, shop->kit.cloths[i].nest.length_m);
        width_m += part->fabrics[shop->kit.cloths[i].fabric].roll_width_m + 0.05;
    }
    pl_drawing_page(d, 1e3 * length_m, 1e3 * width_m);
    for (size_t i = 0; i < shop->kit.n_cloths; i++) {
        struct roll r = {part, &shop->kit, &shop->kit.cloths[i]};
        const struct pl_fabric *f = &part->fabrics[r.cloth->fabric];
        pl_drawing_group(d, f->name);
        draw_roll(d, &r, 0, y_mm, 1e3);
        y_mm += 1e3 * f->roll_width_m;
        pl_drawing_text(d, 0, y_mm + 30, 20, PL_AT_START, 0, f->name);
        y_mm += 50;
    }
    enum pl_status status = pl_drawing_svg(d, 0, part->name, out);
    pl_drawing_free(d);
    return status;
}
