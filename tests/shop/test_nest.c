/* Pieces on a roll: the handbook's worked cases, and a true optimum found by trying every way. */
#include "../support.h"

#include "plyloft/nest.h"

#include <math.h>
#include <string.h>

static struct pl_arena arena;

static int take_down(void **state)
{
    (void)state;
    pl_arena_free(&arena);
    return 0;
}

static struct pl_nest lay(const struct pl_nest_piece *pieces, size_t n, double roll_m, double spacing_m)
{
    struct pl_nest nest;
    assert_true(pl_nest_lay(&nest, pieces, n, roll_m, spacing_m, &arena));
    assert_int_equal(nest.count, n);
    return nest;
}

static const struct pl_nest_piece bias = {1.320, 0.330, M_PI_4, false};

static void a_bias_piece_takes_what_f9_1_says(void **state)
{
    (void)state;
    assert_true(pl_nest_fits(&bias, 1.270));
    assert_true(pl_nest_fits(&bias, 1.1668));   /* (1320 + 330) / sqrt 2 = 1166.7 */
    assert_false(pl_nest_fits(&bias, 1.1666));
    struct pl_nest one = lay(&bias, 1, 1.270, 0);
    assert_close(one.length_m, 1.1667, 1e-4);
    assert_close(one.used, 0.294, 2e-3);
    struct pl_nest_piece wrap = {1.320, 0.600, M_PI_4, false};
    assert_false(pl_nest_fits(&wrap, 1.270));   /* needs 1357.6 */
    assert_true(pl_nest_fits(&wrap, 1.358));
    assert_false(lay(&wrap, 1, 1.270, 0).places[0].fits);
}

static void six_of_them_lie_side_by_side(void **state)
{
    (void)state;
    struct pl_nest_piece six[6];
    for (int i = 0; i < 6; i++)
        six[i] = bias;
    struct pl_nest nest = lay(six, 6, 1.270, 0);
    assert_close(nest.length_m, 3.500, 1e-4);
    assert_close(nest.used, 0.588, 2e-3);
}

/* Nine strips of 72 mm, six side by side on 500: 5 plies with drops of 85 and 4 with drops of 110 mm (F9.2). */
enum { STRIPS = 9, LANES = 6 };

static void caps_of_f9_2(struct pl_nest_piece strips[STRIPS])
{
    for (int i = 0; i < 5; i++)
        strips[i] = (struct pl_nest_piece){1.280 - 2 * 0.085 * i, 0.072, 0, false};
    for (int i = 0; i < 4; i++)
        strips[5 + i] = (struct pl_nest_piece){1.280 - 2 * 0.110 * i, 0.072, 0, false};
}

/* Shortest of all ways to share strips out over lanes. */
static double best_of_all(const struct pl_nest_piece *strips, int i, double lanes[LANES], double best)
{
    double most = 0;
    for (int k = 0; k < LANES; k++)
        most = fmax(most, lanes[k]);
    if (most >= best || i == STRIPS)
        return fmin(most, best);
    for (int k = 0; k < LANES; k++) {
        lanes[k] += strips[i].length_m;
        best = best_of_all(strips, i + 1, lanes, best);
        lanes[k] -= strips[i].length_m;
        if (lanes[k] < 1e-12)
            break;  /* other empty lanes are the same */
    }
    return best;
}

static void caps_take_no_more_than_f9_2_and_no_more_than_they_must(void **state)
{
    (void)state;
    struct pl_nest_piece strips[STRIPS];
    double lanes[LANES] = {0};
    caps_of_f9_2(strips);
    struct pl_nest nest = lay(strips, STRIPS, 0.500, 0);
    assert_true(nest.length_m <= 2.050 + 1e-9);
    assert_close(nest.length_m, best_of_all(strips, 0, lanes, 1e9), 1e-9);
    assert_true(nest.least_m <= nest.length_m + 1e-9);
}

static void cloth_that_may_turn_is_turned_where_that_is_shorter(void **state)
{
    (void)state;
    struct pl_nest_piece across = {0.900, 0.200, 0, true};
    struct pl_nest nest = lay(&across, 1, 1.000, 0);
    assert_close(nest.length_m, 0.200, 1e-9);
    across.turns = false;
    nest = lay(&across, 1, 1.000, 0);
    assert_close(nest.length_m, 0.900, 1e-9);
    struct pl_nest_piece upright = {0.900, 0.200, M_PI_2, false};  /* its threads run across it: it must lie so */
    nest = lay(&upright, 1, 1.000, 0);
    assert_close(nest.length_m, 0.200, 1e-9);
    assert_false(pl_nest_fits(&upright, 0.899));
}

static void of_nothing_there_is_none(void **state)
{
    (void)state;
    struct pl_nest nest;
    assert_true(pl_nest_lay(&nest, NULL, 0, 1, 0, &arena));
    assert_true(nest.count == 0 && nest.length_m == 0 && nest.used == 0);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_teardown(test, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(a_bias_piece_takes_what_f9_1_says), TRIAL(six_of_them_lie_side_by_side),
        TRIAL(caps_take_no_more_than_f9_2_and_no_more_than_they_must), TRIAL(cloth_that_may_turn_is_turned_where_that_is_shorter),
        TRIAL(of_nothing_there_is_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
