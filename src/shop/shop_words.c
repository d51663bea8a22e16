#include "plyloft/shop_words.h"

#include "plyloft/buffer.h"
#include "plyloft/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *const pl_kit_headings[PL_KIT_CELLS] = {"mark", "what", "side", "cloth", "angle", "laid mm", "cut mm", "note"};

static void side_of(const struct pl_kit_piece *p, char *out, size_t size)
{
    static const char *const hands[] = {[PL_WHOLE] = "", [PL_RIGHT_HAND] = ", right", [PL_LEFT_HAND] = ", left"};
    snprintf(out, size, "%s%s", p->side == PL_TOP ? "top" : "bottom", hands[p->hand]);
}

/* A name from the file, cut at a character where it is long. */
enum { NAME_MOST = 72 };
struct name { char text[NAME_MOST]; };

static struct name name_of(const char *name)
{
    struct name n;
    pl_text_safe(n.text, sizeof n.text, name);
    return n;
}

/* Adds words to a list with commas. */
static void add(char *out, size_t size, bool holds, const char *words)
{
    size_t used = strlen(out);
    if (holds)
        snprintf(out + used, size - used, "%s%s", used ? ", " : "", words);
}

static void note_of(const struct pl_kit_piece *p, char *out, size_t size)
{
    out[0] = '\0';
    add(out, size, !p->fits, "does not fit its roll");
    add(out, size, p->cut_mirrored, "cut mirrored");
    add(out, size, p->join_left && p->join_right, "joined left and right");
    add(out, size, p->join_left && !p->join_right, "joined left");
    add(out, size, p->join_right && !p->join_left, "joined right");
    add(out, size, p->join_nose, "laps the nose");
}

void pl_kit_cells(const struct pl_part *part, const struct pl_kit_piece *p, struct pl_kit_cells *out)
{
    const struct pl_element *e = &part->elements[p->element];
    char angle[32];
    size_t size = sizeof *out->text;
    pl_number_digits(angle, sizeof angle, p->angle_rad * 180 / M_PI, 4);
    snprintf(out->text[0], size, "%s", p->mark);
    struct name element = name_of(part->n_elements > 1 ? e->name : ""), item = name_of(e->layup[p->item].name);
    snprintf(out->text[1], size, "%s%s%s, ply %d", element.text, part->n_elements > 1 ? ": " : "", item.text, p->ply + 1);
    side_of(p, out->text[2], size);
    snprintf(out->text[3], size, "%s", name_of(part->fabrics[p->fabric].name).text);
    snprintf(out->text[4], size, "%s", angle);
    snprintf(out->text[5], size, "%.0f x %.0f", 1e3 * p->length_m, 1e3 * p->width_m);
    snprintf(out->text[6], size, "%.0f x %.0f", ceil(1e3 * p->cut_length_m - 1e-6), ceil(1e3 * p->cut_width_m - 1e-6));
    note_of(p, out->text[7], size);
}

void pl_batch_words(const struct pl_part *part, const struct pl_kit *kit, const struct pl_batch *b, char *out, size_t size)
{
    static const char *const kinds[] = {[PL_BATCH_SLURRY] = "slurry", [PL_BATCH_PLIES] = "plies", [PL_BATCH_PEEL_PLY] = "peel ply"};
    size_t used = (size_t)snprintf(out, size, "%s", kinds[b->kind]);
    if (b->kind != PL_BATCH_PLIES)
        used += (size_t)snprintf(out + used, size - used, " on %s", name_of(part->elements[b->element].name).text);
    for (size_t i = 0; i < b->count && used + 20 < size; i++)
        used += (size_t)snprintf(out + used, size - used, " %s", kit->pieces[b->first + i].mark);
    if (b->cups > 1 && used < size)
        snprintf(out + used, size - used, ", cup %d of %d", b->cup, b->cups);
}

void pl_measure_batch_words(const struct pl_resin *r, double mixed_kg, char *out, size_t size)
{
    double resin_kg = mixed_kg / (1 + pl_hardener_by_weight(r)), hardener_kg = mixed_kg - resin_kg;
    double resin_g = round(1e3 * resin_kg), hardener_g = round(1e3 * hardener_kg);  /* so that what is weighed adds up */
    snprintf(out, size, "%.0f g: %.0f g + %.0f g, or %.0f ml + %.0f ml", resin_g + hardener_g, resin_g, hardener_g,
             1e6 * resin_kg / r->liquid_density_kg_m3, 1e6 * hardener_kg / r->hardener_density_kg_m3);
}

bool pl_weigh_line(const struct pl_part *part, const struct pl_kit *kit, const struct pl_resin_kit *resin, size_t i, char *out, size_t size)
{
    if (i < kit->n_cloths) {
        const struct pl_kit_cloth *c = &kit->cloths[i];
        size_t n = 0;
        for (size_t k = 0; k < kit->n_pieces; k++)
            n += kit->pieces[k].fabric == c->fabric;
        snprintf(out, size, "%s, %zu %s as cut: %.0f g", name_of(part->fabrics[c->fabric].name).text, n, n == 1 ? "piece" : "pieces", 1e3 * c->dry_kg);
        return true;
    }
    i -= kit->n_cloths;
    if (i / 2 >= resin->n_plans) {
        snprintf(out, size, "fairing filler: %.0f ml, of which %.0f ml stay", 1e6 * resin->race.filler_mixed_m3, 1e6 * resin->race.filler_m3);
        return i / 2 == resin->n_plans && i % 2 == 0;
    }
    const struct pl_resin_plan *p = &resin->plans[i / 2];
    if (i % 2)
        snprintf(out, size, "one cup more, measured and left unmixed: %.0f g", 1e3 * p->spare_kg);
    else
        snprintf(out, size, "%s: %.0f g resin, %.0f g hardener in %zu %s", name_of(part->resins[p->resin].name).text, 1e3 * p->resin_kg, 1e3 * p->hardener_kg, p->n_batches,
                 p->n_batches == 1 ? "cup" : "cups");
    return true;
}

bool pl_race_line(const struct pl_resin_kit *resin, size_t i, struct pl_race_line *line, char *out, size_t size)
{
    const struct pl_race_mass *m = &resin->race;
    const struct pl_race_line lines[] = {
        {"core and laminate", m->structure_kg}, {"slurry", m->slurry_kg},         {"filler", m->filler_kg}, {"paint", m->paint_kg},
        {"brackets", m->brackets_kg},           {"end plates", m->plates_kg}, {"ready to race", m->sum_kg},
    };
    char number[32];
    if (i >= sizeof lines / sizeof *lines)
        return false;
    pl_number_fixed(number, sizeof number, lines[i].kg, 3);
    if (line)
        *line = lines[i];
    if (out)
        snprintf(out, size, "%-18s %s%s", lines[i].words, pl_given(lines[i].kg) ? number : "not weighed", pl_given(lines[i].kg) ? " kg" : "");
    return true;
}

const char *const *pl_shop_cautions(void)
{
    static const char *const cautions[] = {
        "Epoxy can make you allergic for life: nitrile gloves, sleeves, barrier, no solvent on skin.",
        "Stay within the cup mass; a cup that smokes goes outside on bare ground.",
        "Glass and carbon dust: P3 mask, goggles, wet sanding; carbon dust conducts and shorts electrics.",
        "Rags wet with curing resin, oil or solvent can ignite: spread out or under water in a lidded metal bin outside.",
        "Two-pack paint contains isocyanate: air-fed mask or a professional.",
        NULL,
    };
    return cautions;
}
