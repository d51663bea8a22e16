/* Bounds against every layout there is, of a few pieces on a coarse grid. */
#include "plyloft/nest.h"

#include "support.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>

#ifdef __SANITIZE_ADDRESS__
enum { MOST = 4, KITS = 200 };  /* they look at memory, not at bounds */
#else
enum { MOST = 4, KITS = 2000 };
#endif

static const double UNIT_M = 0.05;

/* In units of the grid, and where it lies. */
struct tile {
    int length, width, x, y;
    bool turns;
};

struct kit {
    struct tile tiles[MOST];
    int count, roll;
    uint64_t sums; /* of sizes: bit n for n units */
};

static int draw(uint64_t *seed, int from, int to)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return from + (int)((*seed >> 33) % (uint64_t)(to - from + 1));
}

static struct kit draw_kit(uint64_t *seed)
{
    struct kit kit = {.count = draw(seed, 2, MOST), .roll = draw(seed, 5, 12)};
    bool may_turn = draw(seed, 0, 1);
    for (int i = 0; i < kit.count; i++) {
        struct tile *t = &kit.tiles[i];
        *t = (struct tile){.length = draw(seed, 1, 12), .width = draw(seed, 1, kit.roll), .turns = may_turn};
        if (i && draw(seed, 0, 2) == 0)
            *t = kit.tiles[i - 1];
    }
    return kit;
}

static bool free_at(const struct kit *kit, int n, const struct tile *t)
{
    for (int i = 0; i < n; i++) {
        const struct tile *o = &kit->tiles[i];
        if (t->x < o->x + o->length && o->x < t->x + t->length && t->y < o->y + o->width && o->y < t->y + t->width)
            return false;
    }
    return true;
}

/* Sums of sizes are all the places there are: in any layout each tile can be pushed to the roll's start and edge
 * until it meets another. */
static void find_sums(struct kit *kit)
{
    kit->sums = 1;
    for (int i = 0; i < kit->count; i++) {
        const struct tile *t = &kit->tiles[i];
        kit->sums |= kit->sums << t->length | kit->sums << t->width;
    }
}

/* Whether tiles from n on can join those before on so much of the roll. */
static bool can_lay(struct kit *kit, int n, int length)
{
    if (n == kit->count)
        return true;
    struct tile *t = &kit->tiles[n], as_given = *t;
    for (int way = 0; way < (as_given.turns ? 2 : 1); way++) {
        t->length = way ? as_given.width : as_given.length;
        t->width = way ? as_given.length : as_given.width;
        for (t->x = 0; t->x + t->length <= length; t->x++)
            for (t->y = 0; t->y + t->width <= kit->roll; t->y++)
                if ((kit->sums >> t->x & kit->sums >> t->y & 1) && free_at(kit, n, t) && can_lay(kit, n + 1, length)) {
                    *t = as_given;
                    return true;
                }
    }
    *t = as_given;
    return false;
}

static int least_units(struct kit *kit)
{
    int length = 0, area = 0;
    find_sums(kit);
    for (int i = 0; i < kit->count; i++)
        area += kit->tiles[i].length * kit->tiles[i].width;
    while (length * kit->roll < area || !can_lay(kit, 0, length))
        length++;
    return length;
}

static void no_layout_of_all_is_shorter_than_the_bound(void **state)
{
    (void)state;
    struct pl_arena arena = {0};
    uint64_t seed = 6;
    int reached = 0, proved = 0;
    for (int i = 0; i < KITS; i++) {
        struct kit kit = draw_kit(&seed);
        struct pl_nest_piece pieces[MOST];
        struct pl_nest nest;
        for (int k = 0; k < kit.count; k++)
            pieces[k] = (struct pl_nest_piece){kit.tiles[k].length * UNIT_M, kit.tiles[k].width * UNIT_M, 0,
                                               kit.tiles[k].turns};
        assert_true(pl_nest_lay(&nest, pieces, (size_t)kit.count, kit.roll * UNIT_M, 0, &arena));
        double best_m = least_units(&kit) * UNIT_M;
        if (nest.least_m > best_m + 1e-9 || nest.length_m < best_m - 1e-9)
            fail_msg("kit %d: bound %.4f m, %.4f m laid, %.4f m is the best", i, nest.least_m, nest.length_m, best_m);
        reached += nest.length_m < best_m + 1e-9;
        proved += nest.least_m > best_m - 1e-3;
        pl_arena_reset(&arena);
    }
    print_message("of %d kits of up to %d pieces %d laid in the shortest way there is, %d with a bound as long\n", KITS,
                  MOST, reached, proved);
    assert_true(reached >= KITS * 99 / 100);
    pl_arena_free(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_layout_of_all_is_shorter_than_the_bound),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
