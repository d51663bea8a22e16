/* Figures of a verdict in words. */
#include "../support.h"
#include "../part_text.h"

#include "plyloft/words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *place_words(double y_m)
{
    static char words[32];
    pl_place_words(y_m, words, sizeof words);
    return words;
}

static const char *reserve_words(double reserve)
{
    static char words[32];
    pl_reserve_words(reserve, words, sizeof words);
    return words;
}

/* ---- places ---- */

static void a_place_is_said_in_millimetres_and_by_its_side(void **state)
{
    (void)state;
    assert_string_equal(place_words(0.17), "170 right");
    assert_string_equal(place_words(-0.23), "230 left");
    assert_string_equal(place_words(0.6396), "640 right");
    assert_string_equal(place_words(-1.2), "1200 left");
}

static void the_middle_is_the_centre(void **state)
{
    (void)state;
    assert_string_equal(place_words(0), "centre");
    assert_string_equal(place_words(-0.0), "centre");
    assert_string_equal(place_words(1e-9), "centre");
    assert_string_equal(place_words(-4e-4), "centre");
}

static void no_place_is_said_to_be_0_on_a_side(void **state)
{
    (void)state;
    for (int i = -20; i <= 20; i++) {
        const char *words = place_words(1e-4 * i);
        assert_int_not_equal(words[0], '0');
    }
}

/* ---- reserves ---- */

static void a_reserve_has_three_figures(void **state)
{
    (void)state;
    assert_string_equal(reserve_words(1.08), "1.08");
    assert_string_equal(reserve_words(0.314), "0.31");
    assert_string_equal(reserve_words(9.994), "9.99");
    assert_string_equal(reserve_words(9.996), "10.0");
    assert_string_equal(reserve_words(12.34), "12.3");
    assert_string_equal(reserve_words(99.96), "100");
    assert_string_equal(reserve_words(432.1), "432");
}

static void a_reserve_past_telling_is_over_999(void **state)
{
    (void)state;
    assert_string_equal(reserve_words(PL_MOST_RESERVE), "over 999");
    assert_string_equal(reserve_words(1e12), "over 999");
}

static void a_reserve_below_1_never_reads_as_1(void **state)
{
    (void)state;
    static const double reserves[] = {0.9, 0.99, 0.994, 0.995, 0.996, 0.999, 0.9999, 1 - 1e-9};
    for (size_t i = 0; i < sizeof reserves / sizeof *reserves; i++)
        if (!(strtod(reserve_words(reserves[i]), NULL) < 1))
            fail_msg("%.10g reads as %s", reserves[i], reserve_words(reserves[i]));
    assert_true(strtod(reserve_words(1), NULL) >= 1);
    assert_true(strtod(reserve_words(1.004), NULL) >= 1);
}

static void larger_reserves_never_read_smaller(void **state)
{
    (void)state;
    double before = 0;
    for (double reserve = 0.001; reserve < 998; reserve *= 1.0007) {
        double read = strtod(reserve_words(reserve), NULL);
        assert_true(read >= before);
        assert_true(fabs(read - reserve) <= fmax(0.0101, 0.00501 * reserve));
        before = read;
    }
}

/* ---- the lowest, and how it came about ---- */

static void the_lowest_is_said_with_mode_piece_and_place(void **state)
{
    (void)state;
    char words[160];
    struct pl_lowest lowest = {
        .reserve = 1.11, .y_m = -0.19, .mode = PL_MODE_PLY, .item = "first skin", .side = PL_TOP};
    pl_lowest_words(&lowest, words, sizeof words);
    assert_string_equal(words, "ply, first skin, 190 left");
    lowest = (struct pl_lowest){.reserve = 1.11, .y_m = 0.17, .mode = PL_MODE_WRINKLING, .item = "top", .side = PL_TOP};
    pl_lowest_words(&lowest, words, sizeof words);
    assert_string_equal(words, "wrinkling, top, 170 right");
}

static void every_mode_has_its_own_words(void **state)
{
    (void)state;
    static const char *const names[PL_MODES] = {"ply", "wrinkling", "core-shear", "core-crush", "pad-shear", "nose-crush"};
    for (int mode = 0; mode < PL_MODES; mode++) {
        char words[160];
        struct pl_lowest lowest = {.mode = (enum pl_mode)mode, .item = "foam"};
        pl_lowest_words(&lowest, words, sizeof words);
        assert_ptr_equal(strstr(words, names[mode]), words);
        assert_non_null(strstr(words, "foam, centre"));
    }
}

static void words_are_cut_where_there_is_no_room(void **state)
{
    (void)state;
    char words[12];
    memset(words, 'x', sizeof words);
    struct pl_lowest lowest = {.y_m = -0.19, .mode = PL_MODE_WRINKLING, .item = "an item with a long name"};
    pl_lowest_words(&lowest, words, sizeof words);
    assert_int_equal(strlen(words), sizeof words - 1);
}

static void a_solution_names_its_mounts_and_the_pad_counted_from_1(void **state)
{
    (void)state;
    char words[80];
    pl_solution_words(false, PL_VARIANT_NONE, words, sizeof words);
    assert_non_null(strstr(words, "as given"));
    assert_null(strstr(words, "pad"));
    pl_solution_words(true, PL_VARIANT_EVEN, words, sizeof words);
    assert_non_null(strstr(words, "pinned"));
    assert_null(strstr(words, "carries more"));
    pl_solution_words(true, 1, words, sizeof words);
    assert_non_null(strstr(words, "pinned"));
    assert_non_null(strstr(words, "pad 2 carries more"));
    pl_solution_words(false, 0, words, sizeof words);
    assert_non_null(strstr(words, "as given"));
    assert_non_null(strstr(words, "pad 1 carries more"));
}

/* ---- cautions: the handbook's sentences, each where it belongs ---- */

static bool has(const struct wing *w, const char *sentence)
{
    const char *list[16];
    size_t n = pl_cautions(&w->part, w->verdict, list, 16);
    for (size_t i = 0; i < n; i++)
        if (strstr(list[i], sentence))
            return true;
    return false;
}

static const char *const under_the_car = "Never go under a car held by a jack or a wing: use stands.";
static const char *const rule_book = "The current rule book and the scrutineer decide; this figure does not.";
static const char *const styrene = "Styrene and peroxide: organic-vapour respirator, goggles, no flame.";

static void every_verdict_says_that_it_is_an_estimate_for_an_engineer_to_check(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text weak = {.layup = "{'name': 'skin', 'fabric': 'plain', 'angle_deg': 45, 'plies': 1, 'side': 'both',"
                                      " 'chord_from': 0, 'chord_to': 1}",
                             .cases = "{'name': 'push', 'kind': 'point', 'element': 'main', 'factor': 2, 'y_mm': 640,"
                                      " 'acts_at': 0.25, 'direction': 'up', 'force_n': 2000}"};
    wing_make(&w, &(struct wing_text){0});
    assert_true(w.verdict->holds);
    assert_true(has(&w, "Estimates from typical values") && has(&w, "qualified engineer"));
    assert_false(has(&w, "falls short"));
    wing_free(&w);
    wing_make(&w, &weak);
    assert_false(w.verdict->holds);
    assert_true(has(&w, "Estimates from typical values") && has(&w, "qualified engineer"));
    assert_true(has(&w, "falls short"));
    wing_free(&w);
}

static void jacking_brings_the_caution_about_stands(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &(struct wing_text){0});
    assert_false(has(&w, under_the_car));
    wing_free(&w);
    wing_make(&w, &front_wing);
    assert_true(has(&w, under_the_car));
    wing_free(&w);
}

static void a_limit_on_deflection_brings_the_rule_book(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &(struct wing_text){0});
    assert_false(has(&w, rule_book));
    wing_free(&w);
    wing_make(&w, &(struct wing_text){.limits = "'tip_deflection_mm': {'push': 50}"});
    assert_true(has(&w, rule_book));
    wing_free(&w);
}

static void a_resin_with_styrene_brings_the_respirator(void **state)
{
    (void)state;
    static const char *const kinds[] = {"epoxy", "polyester", "vinylester"};
    for (int i = 0; i < 3; i++) {
        struct wing w;
        struct wing_text text = {
            .resin = say("'kind': '%s', 'density_kgm3': 1200, 'mix_ratio_by_weight': [100, 2], 'pot_life_min': 20,"
                         " 'pot_life_at_c': 20", kinds[i]),
            .core = "'kind': 'pvc', 'density_kgm3': 60, 'e_mpa': 70, 'g_mpa': 20, 'shear_strength_mpa': 0.8,"
                    " 'compressive_strength_mpa': 0.9"};
        wing_make(&w, &text);
        assert_int_equal(has(&w, styrene), i > 0);
        wing_free(&w);
    }
}

static void no_more_cautions_come_than_there_is_room_for(void **state)
{
    (void)state;
    struct wing w;
    const char *list[16] = {NULL};
    wing_make(&w, &front_wing);
    size_t all = pl_cautions(&w.part, w.verdict, list, 16);
    assert_in_range(all, 3, 15);
    assert_ptr_equal(list[all], NULL);
    for (size_t most = 0; most <= all; most++) {
        const char *fewer[17] = {NULL};
        assert_int_equal(pl_cautions(&w.part, w.verdict, fewer, most), most);
        assert_null(fewer[most]);
        for (size_t i = 0; i < most; i++)
            assert_string_equal(fewer[i], list[i]);
    }
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_place_is_said_in_millimetres_and_by_its_side),
        cmocka_unit_test(the_middle_is_the_centre),
        cmocka_unit_test(no_place_is_said_to_be_0_on_a_side),
        cmocka_unit_test(a_reserve_has_three_figures),
        cmocka_unit_test(a_reserve_past_telling_is_over_999),
        cmocka_unit_test(a_reserve_below_1_never_reads_as_1),
        cmocka_unit_test(larger_reserves_never_read_smaller),
        cmocka_unit_test(the_lowest_is_said_with_mode_piece_and_place),
        cmocka_unit_test(every_mode_has_its_own_words),
        cmocka_unit_test(words_are_cut_where_there_is_no_room),
        cmocka_unit_test(a_solution_names_its_mounts_and_the_pad_counted_from_1),
        cmocka_unit_test(every_verdict_says_that_it_is_an_estimate_for_an_engineer_to_check),
        cmocka_unit_test(jacking_brings_the_caution_about_stands),
        cmocka_unit_test(a_limit_on_deflection_brings_the_rule_book),
        cmocka_unit_test(a_resin_with_styrene_brings_the_respirator),
        cmocka_unit_test(no_more_cautions_come_than_there_is_room_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
