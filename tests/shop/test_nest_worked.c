/* The handbook's worked nests (F9.1, F9.2), strips against every schedule there is, and what a layout may not do. */
#include "../short_memory.h"

#include "plyloft/nest.h"

#include "support.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { MOST = 24 };

static struct pl_arena arena;

static struct pl_nest lay(const struct pl_nest_piece *pieces, size_t count, double roll_m, double spacing_m)
{
    struct pl_nest nest;
    assert_true(pl_nest_lay(&nest, pieces, count, roll_m, spacing_m, &arena));
    return nest;
}

static int forget(void **state)
{
    (void)state;
    pl_arena_free(&arena);
    return 0;
}

static void bias_piece_needs_length_and_width_by_root_two(void **state)
{
    (void)state;
    /* (1320 + 330) / root 2 = 1166.73 across the roll and as much along it */
    struct pl_nest_piece piece = {1.320, 0.330, M_PI / 4, false};
    assert_true(pl_nest_fits(&piece, 1.1668));
    assert_false(pl_nest_fits(&piece, 1.1667));
    struct pl_nest nest = lay(&piece, 1, 1.270, 0);
    assert_close(nest.length_m, 1.16673, 1e-5);
    assert_close(nest.used, 0.294, 1e-3); /* .4356 / (1.16673 x 1.27) */
    assert_close(nest.least_m, nest.length_m, 1e-12);
}

static void six_bias_pieces_take_3500_mm(void **state)
{
    (void)state;
    struct pl_nest_piece pieces[6];
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        for (int i = 0; i < 6; i++)
            pieces[i] = (struct pl_nest_piece){1.320, 0.330, mirrored ? -M_PI / 4 : M_PI / 4, false};
        /* 1166.73 + 5 x 330 x root 2 = 3500.2; 6 x .4356 / (3.5002 x 1.27) = 58.8 % */
        struct pl_nest nest = lay(pieces, 6, 1.270, 0);
        assert_close(nest.length_m, 3.5002, 1e-5);
        assert_close(nest.used, 0.588, 1e-3);
        /* No nest of them saves more than what is left of the roll's width, 103.3 mm, by cot 45. */
        assert_close(nest.least_m, 3.5002 - 0.10327, 1e-4);
        /* 5 mm between them: each of the five more takes 5 root 2 more */
        assert_close(lay(pieces, 6, 1.270, 0.005).length_m, 3.5002 + 5 * 0.00707107, 1e-5);
    }
}

static void balanced_cloth_nests_both_diagonals_together(void **state)
{
    (void)state;
    struct pl_nest_piece pieces[6];
    for (int i = 0; i < 6; i++)
        pieces[i] = (struct pl_nest_piece){1.320, 0.330, i % 2 ? -M_PI / 4 : M_PI / 4, true};
    struct pl_nest nest = lay(pieces, 6, 1.270, 0);
    assert_close(nest.length_m, 3.5002, 1e-5);
    for (int i = 1; i < 6; i++)
        assert_true(fabs(nest.places[i].angle_rad - nest.places[0].angle_rad) < 1e-9);
    for (int i = 0; i < 6; i++)
        pieces[i].turns = false;
    nest = lay(pieces, 6, 1.270, 0);
    for (int i = 0; i < 6; i++)
        assert_close(nest.places[i].angle_rad, pieces[i].thread_rad, 1e-12);
    assert_true(nest.length_m > 3.51);
}

static void full_wrap_on_the_bias_does_not_fit(void **state)
{
    (void)state;
    /* (1320 + 600) / root 2 = 1357.6 on 1270 */
    struct pl_nest_piece pieces[2] = {{1.320, 0.600, M_PI / 4, true}, {1.320, 0.600, 0, false}};
    assert_false(pl_nest_fits(&pieces[0], 1.270));
    assert_false(pl_nest_fits(&pieces[0], 1.3576));
    assert_true(pl_nest_fits(&pieces[0], 1.3577));
    struct pl_nest nest = lay(pieces, 2, 1.270, 0);
    assert_false(nest.places[0].fits);
    assert_true(nest.places[1].fits);
    assert_close(nest.length_m, 1.320, 1e-12);
    nest = lay(pieces, 1, 1.270, 0);
    assert_true(nest.length_m == 0 && nest.used == 0 && nest.least_m == 0);
}

static void short_bias_pieces_share_a_lane(void **state)
{
    (void)state;
    /* Four of 500 x 300 with 5 mm between, in two lanes of two.  End to end they need (1005 + 300) / root 2 = 922.8
     * across and a second lane 305 root 2 more: 1354.1.  On a narrower roll the lanes run along the widths: (605 +
     * 500) / root 2 = 781.4 across, and 505 root 2 more: 1495.5; less than four lanes of one, 565.7 + 3 x 305 root 2
     * = 1859.7. */
    struct pl_nest_piece pieces[4];
    for (int i = 0; i < 4; i++)
        pieces[i] = (struct pl_nest_piece){0.500, 0.300, M_PI / 4, false};
    assert_close(lay(pieces, 4, 0.923, 0.005).length_m, 1.35411, 1e-5);
    assert_close(lay(pieces, 4, 0.922, 0.005).length_m, 1.49553, 1e-5);
    assert_close(lay(pieces, 4, 0.781, 0.005).length_m, 1.85969, 1e-5);
}

static void small_pieces_go_into_the_triangles(void **state)
{
    (void)state;
    struct pl_nest_piece pieces[8];
    for (int i = 0; i < 6; i++)
        pieces[i] = (struct pl_nest_piece){1.320, 0.330, M_PI / 4, false};
    pieces[6] = pieces[7] = (struct pl_nest_piece){0.4, 0.3, 0, false};
    assert_close(lay(pieces, 8, 1.270, 0.005).length_m, lay(pieces, 6, 1.270, 0.005).length_m, 1e-12);
}

static void thread_decides_how_a_piece_lies(void **state)
{
    (void)state;
    struct pl_nest_piece across = {1.000, 0.200, M_PI / 2, false}, turned = {1.000, 0.200, 0, true};
    struct pl_nest_piece along = {1.000, 0.200, M_PI, false};
    assert_close(lay(&across, 1, 1.270, 0).length_m, 0.200, 1e-12);
    assert_close(lay(&turned, 1, 1.270, 0).length_m, 0.200, 1e-12);
    assert_close(lay(&along, 1, 1.270, 0).length_m, 1.000, 1e-12);
    assert_close(lay(&turned, 1, 0.900, 0).length_m, 1.000, 1e-12);
    assert_false(pl_nest_fits(&across, 0.900));
}

static void spacing_is_kept_between_pieces_and_not_at_the_edges(void **state)
{
    (void)state;
    struct pl_nest_piece pieces[2] = {{1.000, 0.200, 0, false}, {1.000, 0.200, 0, false}};
    assert_close(lay(pieces, 2, 0.405, 0.005).length_m, 1.000, 1e-12);
    assert_close(lay(pieces, 2, 0.404, 0.005).length_m, 2.005, 1e-12);
}

/* ---- strips of one width ---- */

/* The fullest lane of the best of all schedules; an empty lane is tried once. */
static double best_schedule_m(const double *lengths, size_t count, double *loads, size_t lanes)
{
    double best = HUGE_VAL;
    if (!count) {
        best = 0;
        for (size_t l = 0; l < lanes; l++)
            best = fmax(best, loads[l]);
        return best;
    }
    for (size_t l = 0; l < lanes; l++) {
        bool empty = loads[l] == 0;
        loads[l] += lengths[0];
        best = fmin(best, best_schedule_m(lengths + 1, count - 1, loads, lanes));
        loads[l] = empty ? 0 : loads[l] - lengths[0];
        if (empty)
            break;
    }
    return best;
}

static double every_way_m(const struct pl_nest_piece *pieces, size_t count, double roll_m, double spacing_m)
{
    double lengths[MOST], loads[MOST] = {0};
    for (size_t i = 0; i < count; i++)
        lengths[i] = pieces[i].length_m + spacing_m;
    size_t lanes = (size_t)floor((roll_m + spacing_m + 1e-9) / (pieces[0].width_m + spacing_m));
    return best_schedule_m(lengths, count, loads, lanes < MOST ? lanes : MOST) - spacing_m;
}

static void caps_of_the_handbook_take_the_least_there_is(void **state)
{
    (void)state;
    struct pl_nest_piece caps[9];
    for (int i = 0; i < 5; i++)
        caps[i] = (struct pl_nest_piece){1.280 - 2 * 0.085 * i, 0.072, 0, false};
    for (int i = 0; i < 4; i++)
        caps[5 + i] = (struct pl_nest_piece){1.280 - 2 * 0.110 * i, 0.072, 0, false};
    struct pl_nest nest = lay(caps, 9, 0.500, 0);
    /* On shelves 1280 + 770 = 2050.  Six lanes: 1280, 1280, 1110, 1060 + 600, 940 + 620, 840 + 770. */
    assert_true(nest.length_m <= 2.050 + 1e-9);
    assert_close(nest.length_m, 1.660, 1e-9);
    assert_close(every_way_m(caps, 9, 0.500, 0), 1.660, 1e-9);
    assert_close(nest.least_m, 1.660, 1e-9);
    assert_close(nest.used, 8.500 * 0.072 / (1.660 * 0.500), 1e-9);
}

static void strips_of_one_width_are_laid_in_the_best_of_all_ways(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int kit = 0; kit < 200; kit++) {
        struct pl_nest_piece strips[9];
        size_t random[13];
        for (size_t i = 0; i < 13; i++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            random[i] = (size_t)(seed >> 33);
        }
        size_t count = 1 + random[9] % 9;
        double width_m = 0.04 + 0.001 * (double)(random[10] % 160), spacing_m = kit % 2 ? 0.005 : 0;
        double roll_m = 0.3 + 0.001 * (double)(random[11] % 500);
        for (size_t i = 0; i < count; i++)
            strips[i] = (struct pl_nest_piece){0.2 + 0.001 * (double)(random[i] % 1300), width_m, 0, false};
        struct pl_nest nest = lay(strips, count, roll_m, spacing_m);
        assert_close(nest.length_m, every_way_m(strips, count, roll_m, spacing_m), 1e-9);
        assert_close(nest.least_m, nest.length_m, 1e-9);
        pl_arena_reset(&arena);
    }
}

/* ---- ends ---- */

static void nothing_takes_nothing(void **state)
{
    (void)state;
    struct pl_nest nest = lay(NULL, 0, 1.270, 0.005);
    assert_true(nest.count == 0 && nest.length_m == 0 && nest.used == 0 && nest.least_m == 0);
    struct pl_nest_piece none[3] = {{0, 0.2, 0, false}, {1, -1, 0, true}, {(double)NAN, 1, 0, true}};
    nest = lay(none, 3, 1.270, 0.005);
    assert_true(nest.length_m == 0 && !nest.places[0].fits && !nest.places[1].fits && !nest.places[2].fits);
    assert_false(lay(none, 3, (double)NAN, 0.005).places[0].fits);
}

static void without_memory_it_says_so(void **state)
{
    (void)state;
    if (!counts() || !can_fail())
        skip();
    struct pl_nest_piece pieces[MOST];
    for (int i = 0; i < MOST; i++)
        pieces[i] = (struct pl_nest_piece){0.5 + 0.01 * i, 0.1 + 0.005 * (i % 7), i % 3 ? 0 : M_PI / 4, i % 2};
    bool laid = false;
    for (long n = 0; !laid && n < 100; n++) {
        struct pl_arena scarce = {0};
        struct pl_nest nest;
        fail_in = n;
        laid = pl_nest_lay(&nest, pieces, MOST, 1.0, 0.005, &scarce);
        fail_in = -1;
        assert_int_equal(laid, !scarce.failed);
        assert_true(n > 0 || !laid);
        pl_arena_free(&scarce);
    }
    assert_true(laid);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(bias_piece_needs_length_and_width_by_root_two, forget),
        cmocka_unit_test_teardown(six_bias_pieces_take_3500_mm, forget),
        cmocka_unit_test_teardown(balanced_cloth_nests_both_diagonals_together, forget),
        cmocka_unit_test_teardown(full_wrap_on_the_bias_does_not_fit, forget),
        cmocka_unit_test_teardown(short_bias_pieces_share_a_lane, forget),
        cmocka_unit_test_teardown(small_pieces_go_into_the_triangles, forget),
        cmocka_unit_test_teardown(thread_decides_how_a_piece_lies, forget),
        cmocka_unit_test_teardown(spacing_is_kept_between_pieces_and_not_at_the_edges, forget),
        cmocka_unit_test_teardown(caps_of_the_handbook_take_the_least_there_is, forget),
        cmocka_unit_test_teardown(strips_of_one_width_are_laid_in_the_best_of_all_ways, forget),
        cmocka_unit_test_teardown(nothing_takes_nothing, forget),
        cmocka_unit_test(without_memory_it_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
