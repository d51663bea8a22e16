/* Resin by weight, by volume and by pot life against the handbook's worked figures, and cups that no order could better. */
#include "../support.h"

#include "plyloft/resin.h"
#include "shop/batches.h"

#include <math.h>
#include <stdlib.h>

/* The handbook's plain glass, uni and slow epoxy (F5.2, F9.3 to F9.6). */
static const struct pl_resin epoxy = {.density_kg_m3 = 1150, .mix_ratio = {100, 30}, .pot_life_s = 2400, .pot_life_at_c = 25,
                                      .liquid_density_kg_m3 = 1160, .hardener_density_kg_m3 = 960};
static const struct pl_fabric plain = {.areal_weight_kg_m2 = 0.163, .fibre_density_kg_m3 = 2560, .fibre_fraction = 0.38};
static const struct pl_fabric uni = {.areal_weight_kg_m2 = 0.310, .fibre_density_kg_m3 = 2560, .fibre_fraction = 0.42};

static void cloth_takes_what_f9_3_says(void **state)
{
    (void)state;
    double plain_kg = 2.24 * pl_cloth_resin_kg_m2(&plain, &epoxy), uni_kg = 0.612 * pl_cloth_resin_kg_m2(&uni, &epoxy), slurry_kg = 0.681 * 0.2;
    assert_close(pl_cloth_resin_kg_m2(&plain, &epoxy), 0.1195, 1e-3);
    assert_close(pl_cloth_resin_kg_m2(&uni, &epoxy), 0.1923, 1e-3);
    assert_close(plain_kg, 0.2676, 1e-3);
    assert_close(uni_kg, 0.1177, 1e-3);
    double mixed_kg = (plain_kg + uni_kg + slurry_kg) * 1.12;
    assert_close(mixed_kg, 0.5841, 1e-3);
    assert_close(mixed_kg / (1 + pl_hardener_by_weight(&epoxy)), 0.4493, 1e-3);
}

static void by_volume_it_is_more_hardener(void **state)
{
    (void)state;
    assert_close(100 * pl_hardener_by_weight(&epoxy), 30, 1e-12);
    assert_close(100 * pl_hardener_by_volume(&epoxy), 36.25, 1e-9);
}

static void pot_life_halves_every_ten_degrees(void **state)
{
    (void)state;
    assert_close(pl_pot_life_s(&epoxy, 25) / 60, 40, 1e-12);
    assert_close(pl_pot_life_s(&epoxy, 18) / 60, 65.0, 1e-3);
    assert_close(pl_pot_life_s(&epoxy, 32) / 60, 24.6, 1e-2);
    assert_close(pl_pot_life_s(&epoxy, 35), 0.5 * pl_pot_life_s(&epoxy, 25), 1e-12);
}

static void a_cup_is_what_is_laid_in_time_or_what_does_not_boil(void **state)
{
    (void)state;
    struct pl_shed shed = {.temperature_c = 18, .rate_m2_s = 0.1 / 60, .cup_kg = 10};
    assert_close(pl_cup_kg(&shed, &epoxy, 0.1195), 0.466, 2e-3);
    shed.cup_kg = 0.3;
    assert_close(pl_cup_kg(&shed, &epoxy, 0.1195), 0.3, 1e-12);
}

static void fairing_is_half_of_step_by_ramp(void **state)
{
    (void)state;
    assert_close(pl_fairing_ramp_m(1.4416e-3), 0.030, 1e-9);  /* 20 steps are 28.8 mm */
    assert_close(1e6 * pl_fairing_m3(1.4416e-3, 0.030, 2 * 1.280), 55.4, 1e-3);
}

/* ---- cups ---- */

static double chance(void)
{
    return rand() / (RAND_MAX + 1.0);
}

/* Fewest cups of all ways to part the order, by trying every one. */
static size_t fewest(const struct batch_step *steps, size_t count, struct batch_limit limit)
{
    size_t best = count;
    for (unsigned ways = 0; ways < 1u << (count - 1); ways++) {
        double kg = 0, seconds = 0;
        size_t n = 1;
        bool good = true;
        for (size_t i = 0; i < count; i++) {
            if (i && ways >> (i - 1) & 1) {
                n++;
                kg = seconds = 0;
            }
            kg += steps[i].mixed_kg;
            seconds += steps[i].seconds;
            good = good && kg <= limit.mixed_kg && seconds <= limit.seconds;
        }
        if (good && n < best)
            best = n;
    }
    return best;
}

static void as_few_cups_as_the_order_allows(void **state)
{
    (void)state;
    srand(7);
    for (int trial = 0; trial < 400; trial++) {
        struct batch_step steps[10];
        struct batch_run runs[10];
        size_t count = 1 + (size_t)(9 * chance());
        struct batch_limit limit = {1, 0.6 + chance()};
        for (size_t i = 0; i < count; i++)
            steps[i] = (struct batch_step){0.05 + 0.6 * chance(), 0.05 + 0.5 * chance()};
        assert_int_equal(pl_batches_share(steps, count, limit, runs), fewest(steps, count, limit));
    }
}

static void no_cup_is_beyond_its_limits_and_every_step_is_in_one(void **state)
{
    (void)state;
    srand(11);
    for (int trial = 0; trial < 2000; trial++) {
        struct batch_step steps[40];
        struct batch_run runs[40];
        size_t count = 1 + (size_t)(39 * chance()), next = 0;
        struct batch_limit limit = {0.1 + chance(), 0.1 + chance()};
        for (size_t i = 0; i < count; i++)
            steps[i] = (struct batch_step){chance() * (chance() < 0.1 ? 9 : 0.5), chance() * (chance() < 0.1 ? 9 : 0.5)};
        size_t n = pl_batches_share(steps, count, limit, runs);
        for (size_t i = 0; i < n; i++) {
            double kg = 0, seconds = 0;
            assert_int_equal(runs[i].first, next);
            for (size_t k = 0; k < runs[i].count; k++) {
                kg += steps[runs[i].first + k].mixed_kg;
                seconds += steps[runs[i].first + k].seconds;
            }
            assert_true(runs[i].cups == 1 || runs[i].count == 1);  /* else it ends on a ply's border */
            assert_true(kg / runs[i].cups <= limit.mixed_kg * (1 + 1e-6) && seconds / runs[i].cups <= limit.seconds * (1 + 1e-6));
            next += runs[i].count;
        }
        assert_int_equal(next, count);
    }
}

static void cups_are_even(void **state)
{
    (void)state;
    /* 584 g in cups of at most 466 and 300 g (F9.6): two of 292 g. */
    struct batch_step steps[8];
    struct batch_run runs[8];
    for (size_t i = 0; i < 8; i++)
        steps[i] = (struct batch_step){0.584 / 8, 60};
    assert_int_equal(pl_batches_share(steps, 8, (struct batch_limit){0.3, 2340}, runs), 2);
    assert_int_equal(runs[0].count, 4);
    assert_int_equal(runs[1].count, 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cloth_takes_what_f9_3_says), cmocka_unit_test(by_volume_it_is_more_hardener),
        cmocka_unit_test(pot_life_halves_every_ten_degrees), cmocka_unit_test(a_cup_is_what_is_laid_in_time_or_what_does_not_boil),
        cmocka_unit_test(fairing_is_half_of_step_by_ramp), cmocka_unit_test(as_few_cups_as_the_order_allows),
        cmocka_unit_test(no_cup_is_beyond_its_limits_and_every_step_is_in_one), cmocka_unit_test(cups_are_even),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
