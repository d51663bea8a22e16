/* All of the shop for whole parts: cups that do not outlive their pot, the ply book, and the mass that races. */
#include "../part/trial.h"

#include "plyloft/check.h"
#include "plyloft/shop.h"
#include "plyloft/shop_words.h"

#include <math.h>
#include <string.h>

static struct pl_shop shop;
static struct pl_problems problems;

static int take_down(void **state)
{
    pl_shop_free(&shop);
    pl_problems_free(&problems);
    return release(state);
}

static enum pl_status build(void)
{
    trial_build(&t);
    if (t.status != PL_OK)
        print_problems(&t);
    assert_int_equal(t.status, PL_OK);
    return pl_shop_build(&shop, &t.part, 1.25, &problems);
}

static bool warned(const char *words)
{
    for (size_t i = 0; pl_shop_warning(&shop, i); i++)
        if (strstr(pl_shop_warning(&shop, i), words))
            return true;
    return false;
}

/* Sums of a plan's cups. */
static void check_plan(const struct pl_resin_plan *p)
{
    const struct pl_shed *shed = &t.part.shed;
    const struct pl_resin *r = &t.part.resins[p->resin];
    double mixed = 0, most = 0;
    size_t next = 0;
    bool begun = false;
    for (size_t i = 0; i < p->n_batches; i++) {
        const struct pl_batch *b = &p->batches[i];
        mixed += b->mixed_kg;
        most = fmax(most, b->mixed_kg);
        assert_close(b->resin_kg + b->hardener_kg, b->mixed_kg, 1e-12);
        assert_close(b->hardener_kg / b->resin_kg, r->mix_ratio[1] / r->mix_ratio[0], 1e-9);
        assert_true(b->mixed_kg <= shed->cup_kg * (1 + 1e-6));
        assert_true(60 * b->minutes <= 0.6 * pl_pot_life_s(r, shed->temperature_c) * (1 + 1e-6));
        if (b->kind != PL_BATCH_PLIES || b->cup > 1)
            continue;
        assert_true(!begun || b->first == next || shop.kit.pieces[b->first].element != shop.kit.pieces[next - 1].element);
        begun = true;
        next = b->first + b->count;
    }
    assert_close(mixed, p->mixed_kg, 1e-9);
    assert_close(p->mixed_kg, (p->cloth_kg + p->slurry_kg + p->peel_ply_kg) * (1 + shed->loss), 1e-12);
    assert_close(p->spare_kg, most, 1e-12);
}

static double chance(void)
{
    return rand() / (RAND_MAX + 1.0);
}

static void no_cup_outlives_its_pot_whatever_the_shed(void **state)
{
    (void)state;
    char shed[400];
    srand(5);
    for (int trial = 0; trial < 300; trial++) {
        snprintf(shed, sizeof shed,
                 "{\"temperature_c\": %.1f, \"working_rate_m2min\": %.3f, \"losses\": %.2f, \"cup_kg\": %.3f, \"slurry_gsm\": %.0f, \"peel_ply_gsm\": %.0f}", 5 + 35 * chance(),
                 0.01 + 0.2 * chance(), 0.3 * chance(), 0.02 + 0.5 * chance(), chance() < 0.2 ? 0 : 400 * chance(), chance() < 0.5 ? 0 : 90 * chance());
        put(&t, "/shed", shed);
        assert_int_equal(build(), PL_OK);
        for (size_t i = 0; i < shop.resin.n_plans; i++)
            check_plan(&shop.resin.plans[i]);
    }
}

static void cloth_s_resin_is_what_the_structure_weighs_with_it(void **state)
{
    (void)state;
    assert_int_equal(build(), PL_OK);
    double sum = 0;
    for (size_t i = 0; i < shop.kit.n_cloths; i++) {
        const struct pl_kit_cloth *c = &shop.kit.cloths[i];
        sum += c->area_m2 * pl_cloth_resin_kg_m2(&t.part.fabrics[c->fabric], &t.part.resins[0]);
    }
    assert_close(shop.resin.plans[0].cloth_kg, sum, 1e-9);
    assert_close(shop.resin.plans[0].slurry_kg, 0.2 * shop.kit.core_area_m2[0], 1e-12);
}

static void two_resins_have_a_plan_each(void **state)
{
    (void)state;
    trial_close(&t);
    trial_open(&t, "samples/two-element-wing.json");
    put_copy(&t, "/resins/0", "/resins/1");
    put(&t, "/resins/1/name", "\"quick epoxy\"");
    put(&t, "/resins/1/pot_life_min", "12");
    put(&t, "/elements/1/resin", "\"quick epoxy\"");
    assert_int_equal(build(), PL_OK);
    assert_int_equal(shop.resin.n_plans, 2);
    for (size_t i = 0; i < 2; i++) {
        check_plan(&shop.resin.plans[i]);
        for (size_t b = 0; b < shop.resin.plans[i].n_batches; b++)
            assert_int_equal(shop.resin.plans[i].batches[b].element, i);
    }
    assert_true(shop.resin.plans[1].pot_life_min < 0.5 * shop.resin.plans[0].pot_life_min);
}

static void cups_beyond_counting_are_refused(void **state)
{
    (void)state;
    put(&t, "/shed", "{\"cup_kg\": 0.000001}");
    assert_int_equal(build(), PL_BAD_INPUT);
    assert_int_equal(problems.errors, 1);
    assert_string_equal(problems.list[0].place, "/shed");
    assert_non_null(strstr(problems.list[0].rule, "more than 1000 cups"));
}

static void what_is_odd_of_the_shed_is_told(void **state)
{
    (void)state;
    put(&t, "/shed", "{\"temperature_c\": 10}");
    assert_int_equal(build(), PL_OK);
    assert_true(warned("will not wet") && warned("a guess"));
    put(&t, "/shed", "{\"temperature_c\": 33}");
    assert_int_equal(build(), PL_OK);
    assert_true(warned("small cups") && !warned("a guess"));
    put(&t, "/shed", "{\"temperature_c\": 20, \"brackets_kg\": 0.3}");
    assert_int_equal(build(), PL_OK);
    assert_false(warned("brackets are not weighed") || warned("small cups"));
}

static void the_mass_that_races_is_the_sum_and_held_against_the_limit(void **state)
{
    (void)state;
    put(&t, "/limits/mass_kg", "2.0");
    put(&t, "/shed", "{\"brackets_kg\": 0.3, \"plates_kg\": 0.1}");
    assert_int_equal(build(), PL_OK);
    const struct pl_race_mass *m = &shop.resin.race;
    assert_close(m->sum_kg, 1.25 + m->slurry_kg + m->filler_kg + m->paint_kg + 0.4, 1e-12);
    assert_close(m->paint_kg, 0.2 * shop.kit.core_area_m2[0], 1e-12);
    assert_close(m->filler_mixed_m3, 1.4 * m->filler_m3, 1e-12);
    assert_false(warned("over the limit"));
    put(&t, "/limits/mass_kg", "1.9");
    assert_int_equal(build(), PL_OK);
    assert_true(warned("over the limit of 1.9 kg"));
}

static void the_ply_book_has_every_piece_once_after_the_cup_it_is_laid_with(void **state)
{
    (void)state;
    static const char *const parts[] = {SAMPLE_PART, "samples/two-element-wing.json", "samples/rear-wing.json"};
    for (size_t k = 0; k < sizeof parts / sizeof *parts; k++) {
        trial_close(&t);
        trial_open(&t, parts[k]);
        assert_int_equal(build(), PL_OK);
        size_t next = 0, left = 0;
        for (size_t i = 0; i < pl_book_steps(&shop); i++) {
            struct pl_book_step step = pl_book_step(&t.part, &shop, i);
            assert_true(!step.piece != !step.batch);
            assert_true(step.words[0]);
            if (step.batch) {
                assert_int_equal(left, 0);
                left = step.batch->cup == 1 ? step.batch->count : 0;
            } else {
                assert_ptr_equal(step.piece, &shop.kit.pieces[next]);
                assert_true(left > 0);
                next++;
                left--;
            }
        }
        assert_int_equal(next, shop.kit.n_pieces);
    }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(no_cup_outlives_its_pot_whatever_the_shed),
        TRIAL(cloth_s_resin_is_what_the_structure_weighs_with_it),
        TRIAL(two_resins_have_a_plan_each),
        TRIAL(cups_beyond_counting_are_refused),
        TRIAL(what_is_odd_of_the_shed_is_told),
        TRIAL(the_mass_that_races_is_the_sum_and_held_against_the_limit),
        TRIAL(the_ply_book_has_every_piece_once_after_the_cup_it_is_laid_with),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
