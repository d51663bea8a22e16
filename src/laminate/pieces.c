#include "plyloft/pieces.h"

#include <math.h>

double pl_item_half_length_m(const struct pl_layup_item *item, double semispan_m)
{
    return pl_given(item->half_length_m) ? item->half_length_m : semispan_m;
}

static void make_pieces(const struct pl_layup_item *item, size_t index, double semispan_m, struct pl_piece *out)
{
    for (int ply = 0; ply < item->plies; ply++) {
        double shorter = (item->plies - 1 - ply) * item->drop_m;
        out[ply] = (struct pl_piece){
            .item = index,
            .ply = ply,
            .from_m = item->from_m > 0 ? item->from_m + shorter : 0,
            .to_m = pl_item_half_length_m(item, semispan_m) - shorter,
        };
    }
}

bool pl_cloth_build(struct pl_cloth *cloth, const struct pl_element *element, struct pl_arena *arena)
{
    *cloth = (struct pl_cloth){.element = element, .semispan_m = pl_element_semispan_m(element)};
    cloth->first = pl_arena_take_raw(arena, element->n_layup + 1, sizeof *cloth->first);
    if (!cloth->first)
        return false;
    for (size_t i = 0; i < element->n_layup; i++) {
        cloth->first[i] = cloth->count;
        cloth->count += (size_t)element->layup[i].plies;
    }
    cloth->first[element->n_layup] = cloth->count;
    cloth->pieces = pl_arena_take_raw(arena, cloth->count, sizeof *cloth->pieces);
    if (!cloth->pieces)
        return false;
    for (size_t i = 0; i < element->n_layup; i++)
        make_pieces(&element->layup[i], i, cloth->semispan_m, cloth->pieces + cloth->first[i]);
    return true;
}

static bool covers(const struct pl_piece *piece, double distance_m, enum pl_limit limit)
{
    double from = limit == PL_INBOARD ? PL_SAME_PLACE_M : -PL_SAME_PLACE_M;
    double to = limit == PL_OUTBOARD ? -PL_SAME_PLACE_M : PL_SAME_PLACE_M;
    return distance_m <= piece->to_m + to && (piece->from_m <= 0 || distance_m >= piece->from_m + from);
}

size_t pl_cloth_plies_at(const struct pl_cloth *cloth, size_t item, double distance_m, enum pl_limit limit)
{
    size_t n = 0;
    /* Longest first: below the first that does not reach, none does. */
    for (size_t p = cloth->first[item + 1]; p-- > cloth->first[item] && covers(&cloth->pieces[p], distance_m, limit);)
        n++;
    return n;
}

void pl_item_edges(const struct pl_layup_item *item, double chord_m, double *from, double *to, bool *clipped)
{
    bool strip = pl_given(item->centre_at);
    double half = strip ? 0.5 * item->width_m / chord_m : 0;
    *from = strip ? item->centre_at - half : item->chord_from;
    *to = strip ? item->centre_at + half : item->chord_to;
    if (clipped)
        *clipped = *from < -1e-9 || *to > 1 + 1e-9;
    *from = fmax(0, *from);
    *to = fmin(1, *to);
}
