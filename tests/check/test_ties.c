/* Which of equal reserves is told: the right-hand one, then `even`, then the lower pad number. */
#include "../part_text.h"
#include "../support.h"

#include <math.h>

/* A square pad, in words. */
static const char *pad(double y_mm, double size_mm)
{
    return say("{'y_mm': %.15g, 'acts_at': 0.35, 'length_mm': %.15g, 'width_mm': %.15g}", y_mm, size_mm, size_mm);
}

static const char *jack(const char *pads, double uneven)
{
    return say("{'name': 'jack', 'kind': 'jacking', 'element': 'main', 'factor': 1.5, 'supported_mass_kg': 185,"
               " 'dynamic_factor': 1.3, 'uneven': %.15g, 'pads': [%s]}",
               uneven, pads);
}

static struct wing_text jacked(const char *pads, double uneven)
{
    struct wing_text text = front_wing;
    text.limits = NULL;
    text.cases = jack(pads, uneven);
    return text;
}

static void assert_told(const struct wing_text *text, enum pl_mode mode, double y_m, int variant)
{
    struct wing w;
    wing_make(&w, text);
    const struct pl_case_result *c = wing_case(&w, "jack");
    const struct pl_solution *sets[] = {&c->given, &c->pinned};
    assert_true(c->has_pinned);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(sets[i]->lowest.mode, mode);
        assert_close(sets[i]->lowest.y_m, y_m, 1e-9);
        assert_int_equal(sets[i]->variant, variant);
    }
    assert_int_equal(c->least.mode, mode);
    assert_close(c->least.y_m, y_m, 1e-9);
    assert_int_equal(c->least_variant, variant);
    wing_free(&w);
}

/* ---- pads that crush the core ---- */

static void of_two_pads_that_crush_alike_the_right_hand_one_is_told(void **state)
{
    (void)state;
    struct wing_text left_first = jacked(say("%s, %s", pad(-230, 30), pad(230, 30)), 0);
    struct wing_text right_first = jacked(say("%s, %s", pad(230, 30), pad(-230, 30)), 0);
    assert_told(&left_first, PL_MODE_CORE_CRUSH, 0.23, PL_VARIANT_EVEN);
    assert_told(&right_first, PL_MODE_CORE_CRUSH, 0.23, PL_VARIANT_EVEN);
}

static void of_two_uneven_pads_the_right_hand_one_is_told(void **state)
{
    (void)state;
    struct wing_text left_first = jacked(say("%s, %s", pad(-230, 30), pad(230, 30)), 0.2);
    struct wing_text right_first = jacked(say("%s, %s", pad(230, 30), pad(-230, 30)), 0.2);
    assert_told(&left_first, PL_MODE_CORE_CRUSH, 0.23, 1);
    assert_told(&right_first, PL_MODE_CORE_CRUSH, 0.23, 0);
}

static void of_pads_to_one_side_the_one_farther_right_is_told(void **state)
{
    (void)state;
    static const double places_mm[] = {-40, -200, -120, -80};
    const char *pads = pad(places_mm[0], 30);
    for (int i = 1; i < 4; i++)
        pads = say("%s, %s", pads, pad(places_mm[i], 30));
    struct wing_text text = jacked(pads, 0);
    assert_told(&text, PL_MODE_CORE_CRUSH, -0.04, PL_VARIANT_EVEN);
}

static void a_smaller_pad_is_told_on_whichever_side_it_stands(void **state)
{
    (void)state;
    struct wing_text text = jacked(say("%s, %s", pad(-230, 29), pad(230, 30)), 0);
    assert_told(&text, PL_MODE_CORE_CRUSH, -0.23, PL_VARIANT_EVEN);
}

/* A side longer by a quarter of a millionth makes half a millionth of area, and of reserve. */
static void equal_means_to_one_in_a_million(void **state)
{
    (void)state;
    struct wing_text alike = jacked(say("%s, %s", pad(-230, 30), pad(230, 30 * (1 + 2.5e-7))), 0);
    struct wing_text apart = jacked(say("%s, %s", pad(-230, 30), pad(230, 30 * (1 + 2.5e-6))), 0);
    assert_told(&alike, PL_MODE_CORE_CRUSH, 0.23, PL_VARIANT_EVEN);
    assert_told(&apart, PL_MODE_CORE_CRUSH, -0.23, PL_VARIANT_EVEN);
}

/* ---- variants ---- */

static void even_is_told_before_a_pad(void **state)
{
    (void)state;
    /* two pads on one spot: whichever carries more, the wing feels the same */
    struct wing_text one_spot = jacked(say("%s, %s", pad(230, 120), pad(230, 120)), 0.2);
    struct wing w;
    wing_make(&w, &one_spot);
    const struct pl_case_result *c = wing_case(&w, "jack");
    assert_int_not_equal(c->given.lowest.mode, PL_MODE_CORE_CRUSH);
    assert_int_equal(c->given.variant, PL_VARIANT_EVEN);
    assert_int_equal(c->pinned.variant, PL_VARIANT_EVEN);
    assert_int_equal(c->least_variant, PL_VARIANT_EVEN);
    wing_free(&w);
}

static void the_lower_pad_number_is_told_of_equal_ones(void **state)
{
    (void)state;
    struct wing_text crushing = jacked(say("%s, %s", pad(230, 30), pad(230, 30)), 0.2);
    assert_told(&crushing, PL_MODE_CORE_CRUSH, 0.23, 0);
    /* the first is far from where it fails, the other two are alike */
    struct wing_text three = jacked(say("%s, %s, %s", pad(-230, 200), pad(230, 30), pad(230, 30)), 0.2);
    assert_told(&three, PL_MODE_CORE_CRUSH, 0.23, 1);
}

static void a_pit_jack_is_told_with_more_on_its_right_pad(void **state)
{
    (void)state;
    for (int right = 0; right < 2; right++) {
        double first_mm = right ? -230 : 230;
        struct wing w;
        struct wing_text text = jacked(say("%s, %s", pad(first_mm, 120), pad(-first_mm, 120)), 0.2);
        wing_make(&w, &text);
        const struct pl_case_result *c = wing_case(&w, "jack");
        assert_int_equal(c->given.lowest.mode, PL_MODE_WRINKLING);
        assert_int_equal(c->given.variant, right);
        assert_int_equal(c->pinned.variant, right);
        assert_int_equal(c->least_variant, right);
        assert_true(c->given.lowest.y_m > 0 && c->pinned.lowest.y_m > 0 && c->least.y_m > 0);
        assert_close(c->total_force_n, 1.5 * 185 * 9.80665 * 1.3, 1e-12);
        wing_free(&w);
    }
}

/* ---- both halves alike ---- */

/* The same wing as its own mirror image: what fails does so on both sides. */
static void of_two_halves_alike_the_right_hand_one_is_told(void **state)
{
    (void)state;
    static const char *const spreads[] = {"uniform", "elliptic"};
    for (int k = 0; k < 4; k++) {
        struct wing w;
        struct wing_text text = front_wing;
        text.limits = NULL;
        text.mounts =
            k / 2 ? "{'name': 'r', 'y_mm': 170, 'hold': 'pinned'}, {'name': 'l', 'y_mm': -170, 'hold': 'pinned'}"
                  : NULL;
        text.cases = say("{'name': 'air', 'kind': 'downforce', 'element': 'main', 'factor': 2, 'speed_kmh': 205,"
                         " 'air_density_kgm3': 1.19, 'distribution': '%s', 'coefficient': 1.25, 'acts_at': 0.42}",
                         spreads[k % 2]);
        wing_make(&w, &text);
        const struct pl_case_result *c = wing_case(&w, "air");
        double y_m = c->given.lowest.y_m;
        assert_true(y_m > 0.01 && c->least.y_m > 0.01);
        assert_close(wing_row(c, -y_m)->y_m, -y_m, 1e-9);
        assert_close(wing_row(c, -y_m)->reserve, c->given.lowest.reserve, 1e-6);
        wing_free(&w);
    }
}

/* Pads at like arms outside two pins load both overhangs alike, also where the pins are off the centre and the wing is
 * not its own mirror image. */
static void of_two_overhangs_loaded_alike_the_right_hand_one_is_told(void **state)
{
    (void)state;
    static const double pins_mm[][2] = {{-300, 100}, {-170, 170}, {-40, 360}};
    for (int k = 0; k < 3; k++) {
        struct wing w;
        double left_mm = pins_mm[k][0], right_mm = pins_mm[k][1];
        struct wing_text text = {
            .mounts = say("{'name': 'l', 'y_mm': %g, 'hold': 'pinned'}, {'name': 'r', 'y_mm': %g, 'hold': 'pinned'}",
                          left_mm, right_mm),
            .cases = jack(say("%s, %s", pad(left_mm - 200, 100), pad(right_mm + 200, 100)), 0),
        };
        wing_make(&w, &text);
        const struct pl_case_result *c = wing_case(&w, "jack");
        assert_int_equal(c->given.lowest.mode, PL_MODE_WRINKLING);
        assert_close(wing_row(c, 1e-3 * left_mm)->reserve, c->given.lowest.reserve, 1e-6);
        assert_close(c->given.lowest.y_m, 1e-3 * right_mm, 1e-9);
        wing_free(&w);
    }
}

/* Pushed on the left alone, the left is told: nothing is equal. */
static void a_lower_reserve_on_the_left_is_told_there(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = front_wing;
    text.limits = NULL;
    text.cases =
        say("%s, %s", say_point("left", -600, 0.35, "down", 200, 1), say_point("right", 600, 0.35, "down", 200, 1));
    wing_make(&w, &text);
    assert_true(wing_case(&w, "left")->least.y_m < -0.1);
    assert_close(wing_case(&w, "left")->least.y_m, -wing_case(&w, "right")->least.y_m, 1e-9);
    assert_close(wing_case(&w, "left")->least.reserve, wing_case(&w, "right")->least.reserve, 1e-6);
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(of_two_pads_that_crush_alike_the_right_hand_one_is_told),
        cmocka_unit_test(of_two_uneven_pads_the_right_hand_one_is_told),
        cmocka_unit_test(of_pads_to_one_side_the_one_farther_right_is_told),
        cmocka_unit_test(a_smaller_pad_is_told_on_whichever_side_it_stands),
        cmocka_unit_test(equal_means_to_one_in_a_million),
        cmocka_unit_test(even_is_told_before_a_pad),
        cmocka_unit_test(the_lower_pad_number_is_told_of_equal_ones),
        cmocka_unit_test(a_pit_jack_is_told_with_more_on_its_right_pad),
        cmocka_unit_test(of_two_halves_alike_the_right_hand_one_is_told),
        cmocka_unit_test(of_two_overhangs_loaded_alike_the_right_hand_one_is_told),
        cmocka_unit_test(a_lower_reserve_on_the_left_is_told_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
