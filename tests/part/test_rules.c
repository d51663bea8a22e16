/* The rules over several fields, each broken once in a part that is otherwise good; those of load cases are in
 * test_rules_cases.c. */
#include "trial.h"

#include "part/rules.h"

/* ---- the part ---- */

static void the_format_is_plyloft_part(void **state)
{
    (void)state;
    try_value("/format", "\"plyloft-check\"");
    assert_only_error(&t, "/format", "must be \"plyloft-part\"", "\"plyloft-check\"");
}

static void names_are_unique_within_each_list(void **state)
{
    (void)state;
    static const struct { const char *list, *name;
    } lists[] = {
        {"/profiles", "main section"}, {"/fabrics", "plain"},
        {"/resins", "slow epoxy"},     {"/cores", "foam"},
        {"/elements", "main"},         {"/load_cases", "main at speed"},
        {"/elements/0/layup", "skin"}, {"/elements/0/mounts", "left"},
    };
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        char first[64], last[64], place[80], found[64];
        size_t n = pl_node_count(t.doc, pl_document_find(t.doc, lists[i].list));
        snprintf(first, sizeof first, "%s/0", lists[i].list);
        snprintf(last, sizeof last, "%s/-", lists[i].list);
        snprintf(place, sizeof place, "%s/%zu/name", lists[i].list, n);
        snprintf(found, sizeof found, "\"%s\"", lists[i].name);
        put_copy(&t, first, last);
        trial_build(&t);
        assert_error(&t, place, "names must be unique in their list", found);
        assert_true(pl_document_undo(t.doc));
    }
}

static void rows_of_different_elements_may_have_one_name(void **state)
{
    (void)state;
    put(&t, "/elements/1/layup/0/name", "\"skin\"");
    put(&t, "/elements/1/mounts/0/name", "\"left\"");
    try_value("/cores/0/name", "\"plain\"");
    assert_int_equal(count_told(&t, PL_ERROR, "/elements/1/layup/0/name", ""), 0);
    assert_int_equal(count_told(&t, PL_ERROR, "/elements/1/mounts/0/name", ""), 0);
    assert_int_equal(count_told(&t, PL_ERROR, "/cores/0/name", ""), 0);
}

/* ---- materials ---- */

static void a_profile_has_either_digits_or_points(void **state)
{
    (void)state;
    try_value("/profiles/0/naca", NULL);
    assert_only_error(&t, "/profiles/0", "needs either naca or points", "");
    try_value("/profiles/0/points", "[[1, 0], [0.5, 0.05], [0, 0], [0.5, -0.05], [1, 0]]");
    assert_taken_silently(&t);
    try_value("/profiles/0/naca", "\"6412\"");
    assert_only_error(&t, "/profiles/0", "needs either naca or points", "");
}

static void poissons_ratio_fits_the_two_moduli(void **state)
{
    (void)state;
    /* nu12^2 < e1 / e2: 0.35^2 = 0.1225 against 8 / 80 = 0.1 */
    put(&t, "/fabrics/1/e1_gpa", "8");
    put(&t, "/fabrics/1/e2_gpa", "80");
    try_value("/fabrics/1/nu12", "0.35");
    assert_only_error(&t, "/fabrics/1/nu12", "must be below the root of e1_gpa over e2_gpa", "0.35");
    try_value("/fabrics/1/nu12", "0.31");
    assert_taken_silently(&t);
}

static void styrene_does_not_go_on_polystyrene(void **state)
{
    (void)state;
    static const char *const kinds[] = {"\"polyester\"", "\"vinylester\""};
    static const char *const cores[] = {"\"polystyrene\"", "\"extruded Polystyrene, blue\""};
    for (int i = 0; i < 4; i++) {
        put(&t, "/resins/0/kind", kinds[i % 2]);
        try_value("/cores/0/kind", cores[i / 2]);
        assert_only_error(&t, "/elements/0/resin", "dissolves the polystyrene core", "\"slow laminating epoxy\"");
    }
    try_value("/cores/0/kind", "\"pvc\"");
    assert_taken_silently(&t);
}

static void the_core_stands_the_heat_in_use(void **state)
{
    (void)state;
    put(&t, "/resins/0/tg_dry_c", "130");
    put(&t, "/resins/0/tg_wet_c", "120");
    try_value("/allowables/service_c", "71");
    assert_only_error(&t, "/allowables/service_c", "the heat the core stands", "71");
    try_value("/allowables/service_c", "70");
    assert_taken_silently(&t);
    try_value("/cores/0/max_c", NULL);
    assert_only_warning(&t, "/cores/0/max_c", "is left out", "");
}

static void the_heat_in_use_is_below_the_wet_glass_transition(void **state)
{
    (void)state;
    try_value("/allowables/service_c", "65");
    assert_only_error(&t, "/allowables/service_c", "below the resin's wet glass transition", "65");
    try_value("/allowables/service_c", "64.5");
    assert_only_warning(&t, "/allowables/service_c", "is within 20 C of the resin's wet glass transition", "64.5");
    try_value("/allowables/service_c", "45");
    assert_taken_silently(&t);
}

static void the_dry_glass_transition_is_above_23(void **state)
{
    (void)state;
    try_value("/resins/0/tg_dry_c", "23");
    assert_error(&t, "/resins/0/tg_dry_c", "must be above 23", "23");
    assert_int_equal(t.problems.errors, 1);
}

static void a_glass_transition_left_out_is_told(void **state)
{
    (void)state;
    try_value("/resins/0/tg_dry_c", NULL);
    assert_only_warning(&t, "/resins/0/tg_dry_c", "is left out: no strength is reduced for heat", "");
    try_value("/resins/0/tg_dry_c", "75");
    try_value("/resins/0/tg_wet_c", NULL);
    assert_only_warning(&t, "/resins/0/tg_wet_c", "is left out: no strength is reduced for heat", "");
}

/* Contract, rule 7: a T not below tg_wet_c is bad input, and so is a tg_dry_c not above 23, whatever else is known. */
static void one_glass_transition_alone_still_bounds_the_heat(void **state)
{
    (void)state;
    put(&t, "/resins/0/tg_dry_c", NULL);
    try_value("/allowables/service_c", "68");
    assert_error(&t, "/allowables/service_c", "below the resin's wet glass transition", "68");
    put(&t, "/resins/0/tg_wet_c", NULL);
    put(&t, "/resins/0/tg_dry_c", "20");
    try_value("/allowables/service_c", "15");
    assert_error(&t, "/resins/0/tg_dry_c", "must be above 23", "20");
}

static void heat_in_use_left_out_is_told_once(void **state)
{
    (void)state;
    try_value("/allowables/service_c", NULL);
    assert_only_warning(&t, "/allowables/service_c", "is left out", "");
}

static void elements_of_one_core_and_resin_are_told_once(void **state)
{
    (void)state;
    put(&t, "/cores/0/max_c", NULL);
    try_value("/resins/0/tg_wet_c", NULL);
    assert_warning(&t, "/cores/0/max_c", "is left out", "");
    assert_warning(&t, "/resins/0/tg_wet_c", "is left out", "");
    assert_int_equal(t.problems.count, 2);
}

static void the_core_knockdown_is_1_when_left_out_and_that_is_told(void **state)
{
    (void)state;
    try_value("/allowables/core_knockdown", NULL);
    assert_only_warning(&t, "/allowables/core_knockdown", "is left out", "");
    assert_close(t.part.allowables.core_knockdown, 1, 0);
}

/* ---- elements ---- */

static void stations_start_at_0(void **state)
{
    (void)state;
    try_value("/elements/0/stations/0/y_mm", "10");
    assert_only_error(&t, "/elements/0/stations/0/y_mm", "must be 0 for the first station", "10");
}

static void stations_rise(void **state)
{
    (void)state;
    try_value("/elements/0/stations/1/y_mm", "0");
    assert_only_error(&t, "/elements/0/stations/1/y_mm", "must be larger than that of the station before", "0");
    try_value("/elements/0/stations/1/y_mm", "640");
    assert_only_error(&t, "/elements/0/stations/2/y_mm", "must be larger than that of the station before", "640");
}

static void a_ply_group_has_two_edges_or_a_middle_and_a_width(void **state)
{
    (void)state;
    const char *rule = "needs either chord_from and chord_to, or centre_at and width_mm";
    static const struct { const char *pointer, *json, *place; } wrong[] = {
        {"/elements/0/layup/0/chord_to", NULL, "/elements/0/layup/0"},
        {"/elements/0/layup/0/chord_from", NULL, "/elements/0/layup/0"},
        {"/elements/0/layup/2/width_mm", NULL, "/elements/0/layup/2"},
        {"/elements/0/layup/2/centre_at", NULL, "/elements/0/layup/2"},
        {"/elements/0/layup/0/width_mm", "50", "/elements/0/layup/0"},
        {"/elements/0/layup/2/chord_to", "1", "/elements/0/layup/2"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        try_value(wrong[i].pointer, wrong[i].json);
        assert_only_error(&t, wrong[i].place, rule, "");
        assert_true(pl_document_undo(t.doc));
    }
    put(&t, "/elements/0/layup/2/centre_at", NULL);
    try_value("/elements/0/layup/2/width_mm", NULL);
    assert_only_error(&t, "/elements/0/layup/2", rule, "");
}

static void a_ply_group_ends_aft_of_where_it_starts(void **state)
{
    (void)state;
    try_value("/elements/0/layup/1/chord_to", "0.05");
    assert_only_error(&t, "/elements/0/layup/1/chord_to", "must be larger than chord_from", "0.05");
    try_value("/elements/0/layup/1/chord_to", "0.06");
    assert_taken_silently(&t);
}

static void a_ply_group_ends_inside_the_span(void **state)
{
    (void)state;
    try_value("/elements/0/layup/1/half_length_mm", "640.5");
    assert_only_error(&t, "/elements/0/layup/1/half_length_mm", "half the span", "640.5");
    try_value("/elements/0/layup/1/half_length_mm", "640");
    assert_taken_silently(&t);
    try_value("/elements/0/layup/1/from_mm", "640");
    assert_only_error(&t, "/elements/0/layup/1/from_mm", "must be smaller than where the piece ends", "640");
    try_value("/elements/0/layup/0/from_mm", "700");
    assert_error(&t, "/elements/0/layup/0/from_mm", "must be smaller than where the piece ends", "700");
}

static void no_ply_vanishes(void **state)
{
    (void)state;
    /* Six plies: the first is 5 x 128 = 640 mm shorter at either end than the longest, which ends at 640. */
    try_value("/elements/0/layup/2/drop_mm", "128");
    assert_only_error(&t, "/elements/0/layup/2/drop_mm", "so large that the first ply would vanish", "128");
    try_value("/elements/0/layup/2/drop_mm", "127.9");
    assert_taken_silently(&t);
    /* A pair from 100 to 240 of two plies: shorter at both ends, 240 - 70 = 100 + 70. */
    try_value("/elements/0/layup/1/drop_mm", "70");
    assert_only_error(&t, "/elements/0/layup/1/drop_mm", "so large that the first ply would vanish", "70");
    try_value("/elements/0/layup/1/drop_mm", "69.9");
    assert_taken_silently(&t);
    put(&t, "/elements/0/layup/1/plies", "1");
    try_value("/elements/0/layup/1/drop_mm", "1000");  /* one ply drops nowhere */
    assert_taken_silently(&t);
}

static void a_mount_stands_inside_the_span(void **state)
{
    (void)state;
    try_value("/elements/0/mounts/1/y_mm", "640.1");
    assert_only_error(&t, "/elements/0/mounts/1/y_mm", "stands past the tip", "640.1");
    try_value("/elements/0/mounts/0/y_mm", "-641");
    assert_error(&t, "/elements/0/mounts/0/y_mm", "stands past the tip", "-641");
    put(&t, "/elements/0/mounts/0/y_mm", "-640");
    try_value("/elements/0/mounts/1/y_mm", "640");
    assert_taken_silently(&t);
}

static void a_mount_stands_inside_the_span_of_what_carries_it(void **state)
{
    (void)state;
    put(&t, "/elements/1/stations/1/y_mm", "700");
    try_value("/elements/1/mounts/1/y_mm", "650");
    assert_only_error(&t, "/elements/1/mounts/1/y_mm", "past the tip of the element that carries it", "650");
}

static void no_two_mounts_stand_at_one_place(void **state)
{
    (void)state;
    try_value("/elements/0/mounts/1/y_mm", "-170");
    assert_only_error(&t, "/elements/0/mounts/1/y_mm", "no two mounts may stand at one place", "-170");
}

static void where_on_a_carrier_is_told_when_the_mount_stands_on_the_car(void **state)
{
    (void)state;
    try_value("/elements/0/mounts/1/at", "0.7");
    assert_only_warning(&t, "/elements/0/mounts/1/at", "is not used", "0.7");
}

static void an_element_has_one_clamped_mount_or_two_mounts(void **state)
{
    (void)state;
    put(&t, "/elements/0/mounts/0", NULL);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    try_value("/elements/0/mounts/0/hold", "\"pinned\"");
    assert_only_error(&t, "/elements/0/mounts", "needs one clamped mount or two mounts", "");
}

static void no_element_stands_on_itself(void **state)
{
    (void)state;
    try_value("/elements/0/mounts/0/on", "\"main\"");
    assert_error(&t, "/elements/0/mounts", "on itself", "");
    try_value("/elements/0/mounts/0/on", "\"flap\"");
    assert_error(&t, "/elements/0/mounts", "on itself", "");
    assert_int_equal(t.problems.errors, 1);
    try_value("/elements/0/mounts/0/on", NULL);
    assert_taken_silently(&t);
}

/* ---- the tables themselves ---- */

/* A rule that is added to a table needs its trial, above or in test_rules_cases.c, and its name here. */
static const char *const tried[] = {
    "a profile has either naca or points",
    "Poisson's ratio fits the two moduli",
    "no styrene resin on a polystyrene core",
    "the service temperature is below the wet Tg and the core's limit",
    "the core knockdown is 1, with a warning, when left out",
    "stations start at 0 and their y rises",
    "a ply group lies on the chord and inside the span, and no ply of it vanishes",
    "mounts hold the element, stand inside the span and apart",
    "no element stands on itself",
    "places lie on the wing, pushes and strikes have what they need",
    "`with` names cases of elements that stand on this one",
    "tip limits belong to load cases",
    "every element has a load case",
    "factor and knockdown are not both 1",
};

static size_t count_tried(const struct rule *list, size_t n)
{
    size_t found = 0;
    for (size_t i = 0; i < n; i++) {
        bool here = false;
        for (size_t k = 0; k < sizeof tried / sizeof *tried; k++)
            here = here || !strcmp(list[i].name, tried[k]);
        if (!here)
            fail_msg("the rule \"%s\" has no trial", list[i].name);
        found++;
    }
    return found;
}

static void every_rule_of_the_table_has_its_trial(void **state)
{
    (void)state;
    size_t n = count_tried(pl_material_rules, pl_n_material_rules) + count_tried(pl_element_rules, pl_n_element_rules)
               + count_tried(pl_case_rules, pl_n_case_rules);
    assert_int_equal(n, sizeof tried / sizeof *tried);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(the_format_is_plyloft_part),
        WHOLE(names_are_unique_within_each_list),
        WHOLE(rows_of_different_elements_may_have_one_name),
        TRIAL(a_profile_has_either_digits_or_points),
        TRIAL(poissons_ratio_fits_the_two_moduli),
        TRIAL(styrene_does_not_go_on_polystyrene),
        TRIAL(the_core_stands_the_heat_in_use),
        TRIAL(the_heat_in_use_is_below_the_wet_glass_transition),
        TRIAL(the_dry_glass_transition_is_above_23),
        TRIAL(a_glass_transition_left_out_is_told),
        TRIAL(one_glass_transition_alone_still_bounds_the_heat),
        TRIAL(heat_in_use_left_out_is_told_once),
        WHOLE(elements_of_one_core_and_resin_are_told_once),
        TRIAL(the_core_knockdown_is_1_when_left_out_and_that_is_told),
        TRIAL(stations_start_at_0),
        TRIAL(stations_rise),
        TRIAL(a_ply_group_has_two_edges_or_a_middle_and_a_width),
        TRIAL(a_ply_group_ends_aft_of_where_it_starts),
        TRIAL(a_ply_group_ends_inside_the_span),
        TRIAL(no_ply_vanishes),
        TRIAL(a_mount_stands_inside_the_span),
        WHOLE(a_mount_stands_inside_the_span_of_what_carries_it),
        TRIAL(no_two_mounts_stand_at_one_place),
        TRIAL(where_on_a_carrier_is_told_when_the_mount_stands_on_the_car),
        TRIAL(an_element_has_one_clamped_mount_or_two_mounts),
        WHOLE(no_element_stands_on_itself),
        cmocka_unit_test(every_rule_of_the_table_has_its_trial),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
