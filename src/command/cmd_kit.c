/* cmd_kit.c - what to cut, mix and order: the kit as a table, JSON, CSV, or drawn. */
#include "command.h"
#include "output.h"

#include "plyloft/kit_sheets.h"
#include "plyloft/shop_words.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- JSON ---- */

static void json_piece(struct pl_json_writer *w, const struct pl_part *part, const struct pl_kit_piece *p)
{
    const struct pl_element *e = &part->elements[p->element];
    static const char *const hands[] = {[PL_WHOLE] = "whole", [PL_RIGHT_HAND] = "right", [PL_LEFT_HAND] = "left"};
    pl_json_object(w, NULL);
    pl_json_text(w, "mark", p->mark);
    pl_json_text(w, "element", e->name);
    pl_json_text(w, "item", e->layup[p->item].name);
    pl_json_text(w, "fabric", part->fabrics[p->fabric].name);
    pl_json_number(w, "angle_deg", p->angle_rad * 180 / M_PI);
    pl_json_text(w, "side", p->side == PL_TOP ? "top" : "bottom");
    pl_json_text(w, "hand", hands[p->hand]);
    pl_json_number(w, "from_mm", 1e3 * p->from_m);
    pl_json_number(w, "to_mm", 1e3 * p->to_m);
    pl_json_number(w, "length_mm", 1e3 * p->length_m);
    pl_json_number(w, "width_mm", 1e3 * p->width_m);
    pl_json_number(w, "area_m2", p->area_m2);
    pl_json_number(w, "cut_length_mm", 1e3 * p->cut_length_m);
    pl_json_number(w, "cut_width_mm", 1e3 * p->cut_width_m);
    pl_json_number(w, "order", (double)p->order);
    pl_json_bool(w, "cut_mirrored", p->cut_mirrored);
    pl_json_bool(w, "join_left", p->join_left);
    pl_json_bool(w, "join_right", p->join_right);
    pl_json_bool(w, "laps_the_nose", p->join_nose);
    pl_json_bool(w, "fits", p->fits);
    pl_json_number(w, "dry_kg", p->cloth_kg);
    pl_json_close(w);
}

static void json_cloths(struct pl_json_writer *w, const struct pl_part *part, const struct pl_kit *kit)
{
    pl_json_list(w, "cloth");
    for (size_t i = 0; i < kit->n_cloths; i++) {
        const struct pl_kit_cloth *c = &kit->cloths[i];
        pl_json_object(w, NULL);
        pl_json_text(w, "fabric", part->fabrics[c->fabric].name);
        pl_json_number(w, "area_m2", c->area_m2);
        pl_json_number(w, "cut_area_m2", c->cut_area_m2);
        pl_json_number(w, "roll_length_mm", 1e3 * c->nest.length_m);
        pl_json_number(w, "used_fraction", c->nest.used);
        pl_json_number(w, "dry_kg", c->dry_kg);
        if (pl_given(c->price))
            pl_json_number(w, "price", c->price);
        pl_json_close(w);
    }
    pl_json_close(w);
}

static void json_batches(struct pl_json_writer *w, const struct pl_part *part, const struct pl_kit *kit, const struct pl_resin_plan *plan)
{
    static const char *const kinds[] = {[PL_BATCH_SLURRY] = "slurry", [PL_BATCH_PLIES] = "plies", [PL_BATCH_PEEL_PLY] = "peel ply"};
    pl_json_list(w, "batches");
    for (size_t i = 0; i < plan->n_batches; i++) {
        const struct pl_batch *b = &plan->batches[i];
        pl_json_object(w, NULL);
        pl_json_text(w, "kind", kinds[b->kind]);
        pl_json_text(w, "element", part->elements[b->element].name);
        pl_json_number(w, "mixed_kg", b->mixed_kg);
        pl_json_number(w, "resin_kg", b->resin_kg);
        pl_json_number(w, "hardener_kg", b->hardener_kg);
        pl_json_list(w, "pieces");
        for (size_t k = 0; k < b->count; k++)
            pl_json_text(w, NULL, kit->pieces[b->first + k].mark);
        pl_json_close(w);
        pl_json_number(w, "minutes", b->minutes);
        pl_json_close(w);
    }
    pl_json_close(w);
}

static void json_plan(struct pl_json_writer *w, const struct pl_part *part, const struct pl_kit *kit, const struct pl_resin_plan *p)
{
    pl_json_number(w, "mixed_kg", p->mixed_kg);
    pl_json_number(w, "resin_kg", p->resin_kg);
    pl_json_number(w, "hardener_kg", p->hardener_kg);
    pl_json_number(w, "cloth_kg", p->cloth_kg);
    pl_json_number(w, "slurry_kg", p->slurry_kg);
    pl_json_number(w, "peel_ply_kg", p->peel_ply_kg);
    pl_json_number(w, "loss_kg", p->loss_kg);
    pl_json_number(w, "spare_kg", p->spare_kg);
    pl_json_number(w, "hardener_by_volume", pl_hardener_by_volume(&part->resins[p->resin]));
    pl_json_number(w, "pot_life_min", p->pot_life_min);
    if (pl_given(p->price))
        pl_json_number(w, "price", p->price);
    json_batches(w, part, kit, p);
}

static void json_resin(struct pl_json_writer *w, const struct pl_part *part, const struct pl_shop *shop)
{
    const struct pl_resin_kit *r = &shop->resin;
    double mixed = 0, resin = 0, hardener = 0;
    pl_json_object(w, "resin");
    if (r->n_plans == 1) {
        json_plan(w, part, &shop->kit, &r->plans[0]);
    } else {
        for (size_t i = 0; i < r->n_plans; i++) {
            mixed += r->plans[i].mixed_kg;
            resin += r->plans[i].resin_kg;
            hardener += r->plans[i].hardener_kg;
        }
        pl_json_number(w, "mixed_kg", mixed);
        pl_json_number(w, "resin_kg", resin);
        pl_json_number(w, "hardener_kg", hardener);
    }
    pl_json_close(w);
    if (r->n_plans < 2)
        return;
    pl_json_list(w, "resins");
    for (size_t i = 0; i < r->n_plans; i++) {
        pl_json_object(w, NULL);
        pl_json_text(w, "name", part->resins[r->plans[i].resin].name);
        json_plan(w, part, &shop->kit, &r->plans[i]);
        pl_json_close(w);
    }
    pl_json_close(w);
}

static void json_race(struct pl_json_writer *w, const struct pl_race_mass *m)
{
    pl_json_object(w, "ready_to_race");
    pl_json_number(w, "structure_kg", m->structure_kg);
    pl_json_number(w, "slurry_kg", m->slurry_kg);
    pl_json_number(w, "filler_kg", m->filler_kg);
    pl_json_number(w, "paint_kg", m->paint_kg);
    if (pl_given(m->brackets_kg))
        pl_json_number(w, "brackets_kg", m->brackets_kg);
    if (pl_given(m->plates_kg))
        pl_json_number(w, "plates_kg", m->plates_kg);
    pl_json_number(w, "mass_kg", m->sum_kg);
    pl_json_number(w, "filler_mixed_litres", 1e3 * m->filler_mixed_m3);
    pl_json_close(w);
}

static void print_json(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_list(&w, "pieces");
    for (size_t i = 0; i < shop->kit.n_pieces; i++)
        json_piece(&w, part, &shop->kit.pieces[i]);
    pl_json_close(&w);
    json_cloths(&w, part, &shop->kit);
    json_resin(&w, part, shop);
    json_race(&w, &shop->resin.race);
    pl_json_list(&w, "warnings");
    for (size_t i = 0; pl_shop_warning(shop, i); i++)
        pl_json_text(&w, NULL, pl_shop_warning(shop, i));
    pl_json_end(&w);
}

/* ---- words ---- */

static void print_pieces(const struct pl_part *part, const struct pl_kit *kit, struct pl_buffer *out)
{
    int widths[PL_KIT_CELLS];
    struct pl_kit_cells cells;
    for (int k = 0; k < PL_KIT_CELLS; k++)
        widths[k] = pl_text_columns(pl_kit_headings[k]);
    for (size_t i = 0; i < kit->n_pieces; i++) {
        pl_kit_cells(part, &kit->pieces[i], &cells);
        for (int k = 0; k < PL_KIT_CELLS; k++)
            widths[k] = pl_text_columns(cells.text[k]) > widths[k] ? pl_text_columns(cells.text[k]) : widths[k];
    }
    pl_buffer_text(out, "pieces, in laying order\n");
    for (size_t i = 0; i <= kit->n_pieces; i++) {
        if (i)
            pl_kit_cells(part, &kit->pieces[i - 1], &cells);
        for (int k = 0; k < PL_KIT_CELLS; k++)
            pl_print_cell(out, i ? cells.text[k] : pl_kit_headings[k], widths[k], k + 1 < PL_KIT_CELLS);
    }
}

static void print_cloths(const struct pl_part *part, const struct pl_kit *kit, struct pl_buffer *out)
{
    pl_buffer_printf(out, "\n%-28s %9s %9s %9s %6s %8s %8s %8s\n", "cloth", "laid m2", "cut m2", "buy m", "used", "left m2", "dry g", "price");
    for (size_t i = 0; i < kit->n_cloths; i++) {
        const struct pl_kit_cloth *c = &kit->cloths[i];
        const struct { double value; int width, decimals; } figures[] = {
            {c->area_m2, 10, 3}, {c->cut_area_m2, 10, 3}, {ceil(20 * c->nest.length_m - 1e-6) / 20, 10, 2}, {100 * c->nest.used, 6, 0},
        };
        pl_print_cell(out, part->fabrics[c->fabric].name, 27, true);
        for (size_t k = 0; k < sizeof figures / sizeof *figures; k++)
            pl_print_number(out, figures[k].value, figures[k].width, figures[k].decimals);
        pl_buffer_text(out, "%");
        pl_print_number(out, c->nest.length_m * part->fabrics[c->fabric].roll_width_m * (1 - c->nest.used), 9, 2);
        pl_print_number(out, 1e3 * c->dry_kg, 9, 0);
        pl_print_number(out, c->price, 9, 2);
        pl_buffer_text(out, "\n");
    }
}

static void print_resin(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    char words[512];
    for (size_t i = 0; i < shop->resin.n_plans; i++) {
        const struct pl_resin_plan *p = &shop->resin.plans[i];
        const struct pl_resin *r = &part->resins[p->resin];
        pl_buffer_printf(out, "\n%s: cloth %.0f g, slurry %.0f g, peel ply %.0f g, losses %.0f g\n", r->name, 1e3 * p->cloth_kg, 1e3 * p->slurry_kg,
                         1e3 * p->peel_ply_kg, 1e3 * p->loss_kg);
        pl_measure_batch_words(r, p->mixed_kg, words, sizeof words);
        pl_buffer_printf(out, "all %s\nby volume 100 to ", words);
        pl_buffer_number(out, 100 * pl_hardener_by_volume(r), 1);
        pl_buffer_text(out, ", pot life at ");
        pl_buffer_number(out, part->shed.temperature_c, 0);
        pl_buffer_text(out, " C ");
        pl_buffer_number(out, p->pot_life_min, 0);
        pl_buffer_text(out, " min\n");
        for (size_t k = 0; k < p->n_batches; k++) {
            pl_measure_batch_words(r, p->batches[k].mixed_kg, words, sizeof words);
            pl_buffer_printf(out, "cup %2zu  %s, ", k + 1, words);
            pl_buffer_number(out, p->batches[k].minutes, 0);
            pl_batch_words(part, &shop->kit, &p->batches[k], words, sizeof words);
            pl_buffer_printf(out, " min  %s\n", words);
        }
        pl_measure_batch_words(r, p->spare_kg, words, sizeof words);
        pl_buffer_printf(out, "spare   %s, measured and left unmixed\n", words);
        if (pl_given(p->price)) {
            pl_buffer_text(out, "price with the spare ");
            pl_buffer_number(out, p->price, 2);
            pl_buffer_text(out, "\n");
        }
    }
}

static void print_text(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    char line[256];
    print_pieces(part, &shop->kit, out);
    print_cloths(part, &shop->kit, out);
    print_resin(part, shop, out);
    pl_buffer_text(out, "\nweigh before starting\n");
    for (size_t i = 0; pl_weigh_line(part, &shop->kit, &shop->resin, i, line, sizeof line); i++)
        pl_buffer_printf(out, "  %s\n", line);
    pl_buffer_text(out, "\nmass\n");
    for (size_t i = 0; pl_race_line(&shop->resin, i, NULL, line, sizeof line); i++)
        pl_buffer_printf(out, "  %s\n", line);
    pl_buffer_text(out, "\n");
    for (size_t i = 0; pl_shop_warning(shop, i); i++)
        pl_buffer_printf(out, "warning: %s\n", pl_shop_warning(shop, i));
    for (const char *const *c = pl_shop_cautions(); *c; c++)
        pl_buffer_printf(out, "caution: %s\n", *c);
}

static void print_csv(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out)
{
    static const char *const keys[] = {"mark", "element", "item", "fabric", "angle_deg", "side", "hand", "length_mm", "width_mm", "area_m2", "cut_length_mm", "cut_width_mm", "note"};
    for (size_t k = 0; k < sizeof keys / sizeof *keys; k++)
        pl_csv_text(out, keys[k], k + 1 == sizeof keys / sizeof *keys);
    for (size_t i = 0; i < shop->kit.n_pieces; i++) {
        const struct pl_kit_piece *p = &shop->kit.pieces[i];
        const double sizes[] = {1e3 * p->length_m, 1e3 * p->width_m, p->area_m2, 1e3 * p->cut_length_m, 1e3 * p->cut_width_m};
        struct pl_kit_cells cells;
        pl_kit_cells(part, p, &cells);
        pl_csv_text(out, p->mark, false);
        pl_csv_text(out, part->elements[p->element].name, false);
        pl_csv_text(out, part->elements[p->element].layup[p->item].name, false);
        pl_csv_text(out, part->fabrics[p->fabric].name, false);
        pl_csv_number(out, p->angle_rad * 180 / M_PI, 3);
        pl_csv_text(out, p->side == PL_TOP ? "top" : "bottom", false);
        pl_csv_text(out, p->hand == PL_WHOLE ? "whole" : p->hand == PL_RIGHT_HAND ? "right" : "left", false);
        for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++)
            pl_csv_number(out, sizes[k], k == 2 ? 6 : 1);
        pl_csv_text(out, cells.text[PL_KIT_CELLS - 1], true);
    }
}

/* ---- the command ---- */

static void write_out(const struct pl_part *part, const struct pl_shop *shop, enum pl_output kind, struct pl_buffer *out, enum pl_status *status)
{
    switch (kind) {
    case PL_OUTPUT_JSON: print_json(part, shop, out); break;
    case PL_OUTPUT_CSV: print_csv(part, shop, out); break;
    case PL_OUTPUT_PDF: *status = pl_kit_pdf(part, shop, out); break;
    case PL_OUTPUT_SVG: *status = pl_kit_svg(part, shop, out); break;
    default: print_text(part, shop, out); break;
    }
}

int pl_command_kit(int argc, char **argv)
{
    return pl_shop_command(argc, argv, true, write_out);
}
