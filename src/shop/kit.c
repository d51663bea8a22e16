#include "kit_inside.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void pl_kit_free(struct pl_kit *kit)
{
    pl_arena_free(&kit->arena);
    *kit = (struct pl_kit){0};
}

bool pl_fabric_balanced(const struct pl_fabric *f)
{
    return fabs(f->e1_pa - f->e2_pa) <= 0.01 * f->e1_pa;
}

bool pl_kit_add_warning(struct pl_arena *arena, const char **list, size_t *count, const char *format, va_list arguments)
{
    char text[400];
    vsnprintf(text, sizeof text, format, arguments);
    for (size_t i = 0; i < *count; i++)
        if (!strcmp(list[i], text))
            return true;
    if (*count == KIT_WARNINGS)
        return true;
    char *copy = pl_arena_take_raw(arena, strlen(text) + 1, 1);
    if (copy)
        list[(*count)++] = strcpy(copy, text);
    return copy;
}

bool pl_kit_warn(struct pl_kit *kit, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    bool good = pl_kit_add_warning(&kit->arena, kit->warnings, &kit->n_warnings, format, arguments);
    va_end(arguments);
    return good;
}

/* ---- threads ---- */

static bool is_multiple(double angle_rad, double of_rad)
{
    return fabs(remainder(angle_rad, of_rad)) < 1e-6;
}

/* The same in a mirror that stands across the span. */
static bool looks_alike_mirrored(const struct pl_fabric *f, double angle_rad)
{
    return is_multiple(angle_rad, M_PI_2) || (pl_fabric_balanced(f) && is_multiple(angle_rad, M_PI_4));
}

/* A cap: threads along the span, or a strip.  It takes no join. */
static bool is_cap(const struct pl_fabric *f, const struct pl_layup_item *item)
{
    return pl_given(item->centre_at) || (!pl_fabric_balanced(f) && is_multiple(item->angle_rad, M_PI));
}

/* ---- one row ---- */

/* Where the rows of an element go, and what they share. */
struct cutter {
    struct pl_kit *kit;
    struct kit_element *e;
    size_t most, layer, letter;
    size_t joined[2];          /* layers with joins on either side so far */
};

static struct pl_nest_piece nest_piece_of(const struct pl_kit_piece *p)
{
    return (struct pl_nest_piece){p->cut_length_m, p->cut_width_m, p->thread_rad, p->balanced};
}

static void set_cut(const struct cutter *c, struct pl_kit_piece *p, struct kit_size size)
{
    const struct pl_layup_item *item = &c->e->element->layup[p->item];
    const struct pl_shed *shed = &c->e->part->shed;
    const struct pl_resin *resin = &c->e->part->resins[c->e->element->resin];
    const struct pl_fabric *f = &c->e->part->fabrics[p->fabric];
    bool strip = pl_given(item->centre_at);
    p->length_m = p->to_m - p->from_m;
    p->width_m = size.girth_m;
    p->area_m2 = size.area_m2;
    /* Half of a join's overlap lies on either side of where the pieces meet. */
    p->cut_length_m = size.edge_m + (p->join_left ? 0.5 * shed->join_m : shed->trim_m) + (p->join_right ? 0.5 * shed->join_m : shed->trim_m);
    p->cut_width_m = size.girth_m + (!strip && item->chord_from <= 0 ? shed->nose_overlap_m : 0)
                     + (!strip && item->chord_to >= 1 ? shed->tail_overlap_m : 0);
    p->cloth_kg = p->cut_length_m * p->cut_width_m * f->areal_weight_kg_m2;
    p->resin_kg = p->area_m2 * (pl_fabric_ply_kg_m2(f, resin) - f->areal_weight_kg_m2);
}

static struct pl_kit_piece row_of(const struct cutter *c, const struct pl_piece *piece, enum pl_side side, enum pl_hand hand, double from_m, double to_m)
{
    const struct pl_layup_item *item = &c->e->element->layup[piece->item];
    const struct pl_fabric *f = &c->e->part->fabrics[item->fabric];
    bool alike = looks_alike_mirrored(f, item->angle_rad);
    /* As the thread runs on the outside: mirrored on the left hand, and again below. */
    double seen = (hand == PL_LEFT_HAND ? -1 : 1) * (side == PL_TOP ? 1 : -1);
    struct pl_kit_piece p = {.element = c->e->index, .item = piece->item, .fabric = item->fabric, .ply = piece->ply, .side = side, .hand = hand,
                             .join_nose = item->side == PL_BOTH && !pl_given(item->centre_at) && item->chord_from <= 0,
                             .angle_rad = (hand == PL_LEFT_HAND && !alike ? -1 : 1) * item->angle_rad, .thread_rad = seen * item->angle_rad,
                             .from_m = from_m, .to_m = to_m, .balanced = pl_fabric_balanced(f), .cut_mirrored = !alike && seen < 0, .fits = true};
    return p;
}

static bool grow(struct cutter *c)
{
    struct pl_kit *kit = c->kit;
    struct pl_kit_piece *rows = pl_arena_take_raw(&kit->arena, 2 * c->most, sizeof *rows);
    if (!rows)
        return false;
    memcpy(rows, kit->pieces, kit->n_pieces * sizeof *rows);
    kit->pieces = rows;
    c->most *= 2;
    return true;
}

static bool put_row(struct cutter *c, struct pl_kit_piece *p)
{
    struct pl_kit *kit = c->kit;
    if (kit->n_pieces == c->most && !grow(c))
        return false;
    set_cut(c, p, pl_kit_measure(c->e, p->item, p->side, p->from_m, p->to_m));
    struct pl_nest_piece flat = nest_piece_of(p);
    p->fits = pl_nest_fits(&flat, c->e->part->fabrics[p->fabric].roll_width_m);
    p->order = kit->n_pieces + 1;
    if (c->letter < 26)
        snprintf(p->mark, sizeof p->mark, "%zu%c", c->layer, (char)('A' + c->letter));
    else
        snprintf(p->mark, sizeof p->mark, "%zu%c%c", c->layer, (char)('A' + c->letter / 26 - 1), (char)('A' + c->letter % 26));
    c->letter++;
    kit->pieces[kit->n_pieces++] = *p;
    return true;
}

/* ---- joins ---- */

/* Joins of one layer lie 50 mm from those of the next but one and the next (handbook section 9). */
static double shift_m(size_t layers_before)
{
    static const double shifts_m[] = {0, 0.05, -0.05};
    return shifts_m[layers_before % (sizeof shifts_m / sizeof *shifts_m)];
}

enum { PARTS_MOST = 24 };

/* Into how many a row must be cut along the span to fit its roll; 0: it never does. */
static size_t parts_needed(const struct cutter *c, const struct pl_kit_piece *row)
{
    struct pl_kit_piece p = *row;
    const struct pl_shed *shed = &c->e->part->shed;
    double roll_m = c->e->part->fabrics[p.fabric].roll_width_m, length_m = p.to_m - p.from_m;
    bool join_adds_more = 0.5 * shed->join_m > shed->trim_m;
    const struct kit_size whole = pl_kit_measure(c->e, p.item, p.side, p.from_m, p.to_m);
    for (size_t n = 1; n <= PARTS_MOST; n++) {
        struct kit_size size = whole;
        /* The longest there may be: as one, or with its share and the shift of the joins. */
        size.edge_m *= n == 1 ? 1 : 1 / (double)n + 0.05 / length_m;
        p.join_left = n > 1 ? join_adds_more : row->join_left;
        p.join_right = n > 1 ? join_adds_more : row->join_right;
        set_cut(c, &p, size);
        struct pl_nest_piece flat = nest_piece_of(&p);
        if (pl_nest_fits(&flat, roll_m))
            return n;
    }
    return 0;
}

static bool put_parts(struct cutter *c, const struct pl_kit_piece *row, size_t n)
{
    double length_m = row->to_m - row->from_m, last_m = row->from_m;
    double shift = shift_m(c->joined[row->side == PL_BOTTOM]++);
    shift = copysign(fmin(fabs(shift), 0.25 * length_m / (double)n), shift);
    for (size_t i = 0; i < n; i++) {
        struct pl_kit_piece p = *row;
        p.from_m = last_m;
        p.to_m = i + 1 == n ? row->to_m : row->from_m + length_m * (double)(i + 1) / (double)n + shift;
        p.join_left = i ? true : row->join_left;
        p.join_right = i + 1 < n ? true : row->join_right;
        last_m = p.to_m;
        if (!put_row(c, &p))
            return false;
    }
    return true;
}

static bool put_fitting(struct cutter *c, const struct pl_kit_piece *row)
{
    const struct pl_fabric *f = &c->e->part->fabrics[row->fabric];
    const struct pl_layup_item *item = &c->e->element->layup[row->item];
    struct pl_kit_piece p = *row;
    size_t n = parts_needed(c, row);
    if (n > 1 && !is_cap(f, item)) {
        if (!pl_kit_warn(c->kit, "%s: too long for its roll as its threads lie: cut in %zu, joined with an overlap of %g mm", item->name, n,
                      1e3 * c->e->part->shed.join_m))
            return false;
        return put_parts(c, row, n);
    }
    if (n != 1 && !pl_kit_warn(c->kit, "%s: does not fit its roll of %g mm%s", item->name, 1e3 * f->roll_width_m,
                            n ? ", and a cap takes no join" : "; use a wider roll, or strips side by side"))
        return false;
    return put_row(c, &p);
}

/* ---- a layer ---- */

static bool put_hands(struct cutter *c, const struct pl_piece *piece, enum pl_side side)
{
    const struct pl_layup_item *item = &c->e->element->layup[piece->item];
    bool pair = piece->from_m > 0, alike = looks_alike_mirrored(&c->e->part->fabrics[item->fabric], item->angle_rad);
    if (!pair && alike) {
        struct pl_kit_piece p = row_of(c, piece, side, PL_WHOLE, -piece->to_m, piece->to_m);
        return put_fitting(c, &p);
    }
    /* Hands that meet at the centreline, their joins not one on the other. */
    double meet_m = pair ? 0 : shift_m(c->joined[side == PL_BOTTOM]++);
    if (fabs(meet_m) > 0.5 * piece->to_m)
        meet_m = 0;
    struct pl_kit_piece left = row_of(c, piece, side, PL_LEFT_HAND, -piece->to_m, pair ? -piece->from_m : meet_m);
    struct pl_kit_piece right = row_of(c, piece, side, PL_RIGHT_HAND, pair ? piece->from_m : meet_m, piece->to_m);
    left.join_right = right.join_left = !pair;
    return put_fitting(c, &left) && put_fitting(c, &right);
}

static bool put_layer(struct cutter *c, const struct pl_piece *piece)
{
    const struct pl_layup_item *item = &c->e->element->layup[piece->item];
    c->letter = 0;
    c->layer++;
    return (!pl_item_on_side(item, PL_BOTTOM) || put_hands(c, piece, PL_BOTTOM)) && (!pl_item_on_side(item, PL_TOP) || put_hands(c, piece, PL_TOP));
}

/* ---- each cloth ---- */

static bool lay_on_roll(struct pl_kit *kit, const struct pl_part *part, struct pl_kit_cloth *cloth)
{
    const struct pl_fabric *f = &part->fabrics[cloth->fabric];
    size_t n = 0;
    struct pl_nest_piece *flat = pl_arena_take(&kit->arena, kit->n_pieces, sizeof *flat);
    cloth->pieces = pl_arena_take(&kit->arena, kit->n_pieces, sizeof *cloth->pieces);
    if (!flat || !cloth->pieces)
        return false;
    for (size_t i = 0; i < kit->n_pieces; i++) {
        const struct pl_kit_piece *p = &kit->pieces[i];
        if (p->fabric != cloth->fabric)
            continue;
        cloth->pieces[n] = i;
        flat[n++] = nest_piece_of(p);
        cloth->area_m2 += p->area_m2;
        cloth->cut_area_m2 += p->cut_length_m * p->cut_width_m;
        cloth->dry_kg += p->cloth_kg;
    }
    if (!pl_nest_lay(&cloth->nest, flat, n, f->roll_width_m, part->shed.spacing_m, &kit->arena))
        return false;
    cloth->price = cloth->nest.length_m * f->price_per_m;  /* NAN without a price */
    return true;
}

static bool is_cut_from(const struct pl_kit *kit, size_t fabric)
{
    for (size_t i = 0; i < kit->n_pieces; i++)
        if (kit->pieces[i].fabric == fabric)
            return true;
    return false;
}

static bool lay_cloths(struct pl_kit *kit, const struct pl_part *part)
{
    kit->cloths = pl_arena_take(&kit->arena, part->n_fabrics, sizeof *kit->cloths);
    if (!kit->cloths)
        return false;
    for (size_t f = 0; f < part->n_fabrics; f++)
        if (is_cut_from(kit, f)) {
            kit->cloths[kit->n_cloths].fabric = f;
            if (!lay_on_roll(kit, part, &kit->cloths[kit->n_cloths++]))
                return false;
        }
    return true;
}

/* ---- all of it ---- */

static bool cut_element(struct cutter *c, const struct pl_part *part, size_t index)
{
    struct kit_element e;
    if (!pl_kit_element_start(&e, part, index, &c->kit->arena))
        return false;
    c->e = &e;
    c->joined[0] = c->joined[1] = 0;
    for (size_t i = 0; i < e.cloth.count; i++)
        if (!put_layer(c, &e.cloth.pieces[i]))
            return false;
    c->kit->core_area_m2[index] = pl_kit_core_area_m2(&e);
    return pl_kit_add_drape(c->kit, &e);
}

enum pl_status pl_kit_build(struct pl_kit *kit, const struct pl_part *part)
{
    struct pl_arena arena = kit->arena;
    pl_arena_reset(&arena);
    *kit = (struct pl_kit){.arena = arena};
    struct cutter c = {.kit = kit, .most = 64};
    kit->pieces = pl_arena_take(&kit->arena, c.most, sizeof *kit->pieces);
    kit->warnings = pl_arena_take(&kit->arena, KIT_WARNINGS, sizeof *kit->warnings);
    kit->core_area_m2 = pl_arena_take(&kit->arena, part->n_elements, sizeof *kit->core_area_m2);
    if (!kit->pieces || !kit->warnings || !kit->core_area_m2)
        return PL_NO_MEMORY;
    for (size_t i = 0; i < part->n_elements; i++)
        if (!cut_element(&c, part, i))
            return PL_NO_MEMORY;
    return lay_cloths(kit, part) ? PL_OK : PL_NO_MEMORY;
}
