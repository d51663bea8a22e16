/* The rules over the fields of load cases, each broken once in a part that is otherwise good. */
#include "trial.h"

#include <math.h>

static void a_push_stands_on_the_wing(void **state)
{
    (void)state;
    try_value("/load_cases/3/y_mm", "-640.1");
    assert_only_error(&t, "/load_cases/3/y_mm", "lies past the tip", "-640.1");
    try_value("/load_cases/3/y_mm", NULL);
    assert_only_error(&t, "/load_cases/3/y_mm", "is missing", "");
    put(&t, "/load_cases/3/y_mm", "640");
    try_value("/load_cases/2/y_mm", "700");
    assert_only_error(&t, "/load_cases/2/y_mm", "lies past the tip", "700");
    try_value("/load_cases/2/y_mm", "-640");
    assert_taken_silently(&t);
}

static void a_pad_stands_on_the_wing_with_its_whole_length(void **state)
{
    (void)state;
    try_value("/load_cases/1/pads/1/y_mm", "590.1");
    assert_only_error(&t, "/load_cases/1/pads/1/y_mm", "reaches past the tip", "590.1");
    try_value("/load_cases/1/pads/1/y_mm", "590");
    assert_taken_silently(&t);
    try_value("/load_cases/1/pads/0/length_mm", "821");
    assert_error(&t, "/load_cases/1/pads/0/y_mm", "reaches past the tip", "-230");
}

static void a_point_case_has_a_force(void **state)
{
    (void)state;
    try_value("/load_cases/3/force_n", NULL);
    assert_only_error(&t, "/load_cases/3/force_n", "is missing", "");
}

static void a_strike_has_a_force_or_an_energy(void **state)
{
    (void)state;
    const char *rule = "needs either force_n, or moving_mass_kg and closing_speed_ms";
    try_value("/load_cases/2/closing_speed_ms", NULL);
    assert_only_error(&t, "/load_cases/2", rule, "");
    assert_true(pl_document_undo(t.doc));
    try_value("/load_cases/2/force_n", "300");
    assert_only_error(&t, "/load_cases/2", rule, "");
    put(&t, "/load_cases/2/moving_mass_kg", NULL);
    put(&t, "/load_cases/2/closing_speed_ms", NULL);
    trial_build(&t);
    assert_only_error(&t, "/load_cases/2", rule, "");  /* the travel is left, which a force has no use for */
    try_value("/load_cases/2/travel_mm", NULL);
    assert_taken_silently(&t);
    try_value("/load_cases/2/force_n", NULL);
    assert_only_error(&t, "/load_cases/2", rule, "");
}

static void no_pad_carries_more_than_the_whole(void **state)
{
    (void)state;
    try_value("/load_cases/1/uneven", "1.01");
    assert_error(&t, "/load_cases/1/uneven", "at most the number of pads less 1", "1.01");
    assert_int_equal(t.problems.errors, 1);
    try_value("/load_cases/1/uneven", "1");
    assert_int_equal(t.problems.errors, 0);
}

static void fatigue_of_other_fibres_is_told_to_be_glass_s(void **state)
{
    (void)state;
    try_value("/load_cases/0/cycles", "5000");
    assert_taken_silently(&t);
    try_value("/fabrics/0/fibre", "\"carbon\"");
    assert_taken_silently(&t);
    put(&t, "/fabrics/0/fibre_density_kgm3", "1440");
    try_value("/fabrics/0/fibre", "\"aramid\"");
    assert_only_warning(&t, "/load_cases/0/cycles", "glass stands for the fatigue of other fibres", "5000");
}

static void a_computed_load_low_over_the_ground_wants_an_allowance(void **state)
{
    (void)state;
    /* Half the root's chord of 275 mm: 137.5 mm. */
    try_value("/load_cases/0/ride_height_mm", "137");
    assert_taken_silently(&t);  /* a given distribution has none of it */
    put(&t, "/load_cases/0/coefficient", NULL);
    put(&t, "/load_cases/0/acts_at", NULL);
    try_value("/load_cases/0/distribution", "\"computed\"");
    assert_warning(&t, "/load_cases/0/allowance", "below half a chord above the ground", "");
    assert_int_equal(t.problems.errors, 0);
    try_value("/load_cases/0/ride_height_mm", "138");
    assert_taken_silently(&t);
    put(&t, "/load_cases/0/ride_height_mm", "80");
    try_value("/load_cases/0/allowance", "1.2");
    assert_taken_silently(&t);
}

static void with_names_cases_of_elements_that_stand_on_this_one(void **state)
{
    (void)state;
    try_value("/load_cases/0/with", "[\"knee\"]");
    assert_error(&t, "/load_cases/0/with/0", "does not stand on this one", "\"knee\"");
    try_value("/load_cases/0/with", "[\"main at speed\"]");
    assert_error(&t, "/load_cases/0/with/0", "does not stand on this one", "\"main at speed\"");
    try_value("/load_cases/0/with", "[\"flap at speed\", \"flap at speed\"]");
    assert_only_error(&t, "/load_cases/0/with/1", "is named twice", "\"flap at speed\"");
    put(&t, "/load_cases/2/element", "\"flap\"");
    try_value("/load_cases/0/with", "[\"flap at speed\", \"jack\"]");
    assert_only_error(&t, "/load_cases/0/with/1", "is a jacking case", "\"jack\"");
}

static void a_case_above_that_no_case_below_names_is_told(void **state)
{
    (void)state;
    try_value("/load_cases/0/with", NULL);
    assert_only_warning(&t, "/load_cases/1/name", "no case there names it in `with`", "\"flap at speed\"");
    put(&t, "/load_cases/2/element", "\"flap\"");  /* jacking aside */
    trial_build(&t);
    assert_only_warning(&t, "/load_cases/1/name", "no case there names it in `with`", "\"flap at speed\"");
}

static void tip_limits_belong_to_their_load_cases(void **state)
{
    (void)state;
    trial_build(&t);
    for (size_t i = 0; i < t.part.n_load_cases; i++) {
        const struct pl_load_case *c = &t.part.load_cases[i];
        double want = !strcmp(c->name, "knee") ? 0.012 : !strcmp(c->name, "kerb") ? 0.020 : (double)NAN;
        if (pl_given(want))
            assert_close(c->tip_limit_m, want, 1e-15);
        else
            assert_false(pl_given(c->tip_limit_m));
    }
}

static void an_element_without_a_load_case_is_told(void **state)
{
    (void)state;
    put(&t, "/load_cases/0/with", NULL);
    put(&t, "/load_cases/1", NULL);
    trial_build(&t);
    assert_only_warning(&t, "/elements/1/name", "has no load case", "\"flap\"");
}

static void a_load_and_a_strength_in_full_are_told(void **state)
{
    (void)state;
    put(&t, "/load_cases/3/factor", "1");
    trial_build(&t);
    assert_taken_silently(&t);
    try_value("/allowables/knockdown", "1");
    assert_warning(&t, "/load_cases/3/factor", "nothing covers scatter", "1");
    assert_warning(&t, "/allowables/knockdown", "is unusual", "1");
    assert_int_equal(t.problems.count, 2);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(a_push_stands_on_the_wing),
        TRIAL(a_pad_stands_on_the_wing_with_its_whole_length),
        TRIAL(a_point_case_has_a_force),
        TRIAL(a_strike_has_a_force_or_an_energy),
        TRIAL(fatigue_of_other_fibres_is_told_to_be_glass_s),
        TRIAL(no_pad_carries_more_than_the_whole),
        TRIAL(a_computed_load_low_over_the_ground_wants_an_allowance),
        WHOLE(with_names_cases_of_elements_that_stand_on_this_one),
        WHOLE(a_case_above_that_no_case_below_names_is_told),
        WHOLE(tip_limits_belong_to_their_load_cases),
        WHOLE(an_element_without_a_load_case_is_told),
        TRIAL(a_load_and_a_strength_in_full_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
