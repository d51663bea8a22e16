/* Shelves: pieces, longest first, each on the first shelf across the roll with room for it.  Its length is at most 1.7
 * times the shortest possible and one longest piece more (first-fit decreasing height: Coffman, Garey, Johnson & Tarjan
 * 1980, SIAM J. Comput. 9). */
#include "nest_inside.h"

struct shelf {
    double x_m, filled_m;
};

bool pl_nest_shelves(const struct pl_nest_strip *strip, struct pl_nest_spot *spots, double *length_m,
                     struct pl_arena *arena)
{
    size_t n = 0;
    struct shelf *shelves = pl_arena_take_raw(arena, strip->count, sizeof *shelves);
    if (!shelves)
        return false;
    *length_m = 0;
    for (size_t i = 0; i < strip->count; i++) {
        const struct pl_nest_rect *r = &strip->rects[i];
        size_t s = 0;
        while (s < n && shelves[s].filled_m + r->width_m > strip->width_m + PL_NEST_SLACK_M)
            s++;
        if (s == n) {
            shelves[n++] = (struct shelf){.x_m = *length_m};
            *length_m += r->length_m;
        }
        spots[i] = (struct pl_nest_spot){.x_m = shelves[s].x_m, .y_m = shelves[s].filled_m};
        shelves[s].filled_m += r->width_m;
    }
    return true;
}
