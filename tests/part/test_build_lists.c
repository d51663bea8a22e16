/* Lists, names and wrong values of every kind in a part file, and that all that is wrong is told at once. */
#include "trial.h"

#include "plyloft/buffer.h"

/* ---- single values ---- */

static void a_whole_number_has_no_fraction(void **state)
{
    (void)state;
    try_value("/elements/0/layup/0/plies", "2.5");
    assert_only_error(&t, "/elements/0/layup/0/plies", "must be a whole number", "2.5");
    try_value("/elements/0/layup/0/plies", "2.0");
    assert_taken_silently(&t);
    try_value("/elements/0/layup/0/plies", "0.2e1");
    assert_taken_silently(&t);
    assert_int_equal(t.part.elements[0].layup[0].plies, 2);
    try_value("/elements/0/layup/0/plies", "1e300");
    assert_only_error(&t, "/elements/0/layup/0/plies", "must be from 1 to 500", "1e300");
    try_value("/version", "2");
    assert_error(&t, "/version", "must be from 1 to 1", "2");
}

static void a_choice_is_spelled_as_in_the_contract(void **state)
{
    (void)state;
    try_value("/resins/0/kind", "\"Epoxy\"");
    assert_only_error(&t, "/resins/0/kind", "must be one of epoxy, polyester, vinylester", "\"Epoxy\"");
    try_value("/resins/0/kind", "\"\"");
    assert_only_error(&t, "/resins/0/kind", "must be one of epoxy, polyester, vinylester", "\"\"");
    try_value("/resins/0/kind", "\"epoxy\"");
    assert_taken_silently(&t);
}

static void a_name_must_not_be_empty_and_a_note_may(void **state)
{
    (void)state;
    try_value("/elements/0/layup/0/name", "\"\"");
    assert_only_error(&t, "/elements/0/layup/0/name", "must not be empty", "\"\"");
    try_value("/elements/0/layup/0/name", "\"skin\"");
    try_value("/notes", "\"\"");
    assert_taken_silently(&t);
    assert_string_equal(t.part.notes, "");
}

/* ---- names of other rows ---- */

static void a_name_that_nothing_has_is_told_with_what_it_should_name(void **state)
{
    (void)state;
    put(&t, "/elements/0/stations/0/profile", "\"gone\"");
    put(&t, "/elements/0/layup/0/fabric", "\"Plain\"");
    put(&t, "/elements/1/core", "\"\"");
    put(&t, "/elements/1/resin", "\"foam\"");
    put(&t, "/elements/1/mounts/0/on", "\"mast\"");
    put(&t, "/load_cases/3/element", "\"nose\"");
    trial_build(&t);
    assert_error(&t, "/elements/0/stations/0/profile", "names no profile of this part", "\"gone\"");
    assert_error(&t, "/elements/0/layup/0/fabric", "names no cloth of this part", "\"Plain\"");
    assert_error(&t, "/elements/1/core", "names no core of this part", "\"\"");
    assert_error(&t, "/elements/1/resin", "names no resin of this part", "\"foam\"");
    assert_error(&t, "/elements/1/mounts/0/on", "names no element of this part", "\"mast\"");
    assert_error(&t, "/load_cases/3/element", "names no element of this part", "\"nose\"");
}

static void a_list_of_names_tells_which_one_is_wrong(void **state)
{
    (void)state;
    try_value("/load_cases/0/with", "[\"flap at speed\", \"nobody\", 3]");
    assert_error(&t, "/load_cases/0/with/1", "names no load case of this part", "\"nobody\"");
    assert_error(&t, "/load_cases/0/with/2", "must be a name", "3");
    assert_int_equal(t.problems.errors, 2);
    try_value("/load_cases/0/with", "\"flap at speed\"");
    assert_only_error(&t, "/load_cases/0/with", "must be a list of names", "\"flap at speed\"");
    try_value("/load_cases/0/with", "[]");
    assert_int_equal(t.status, PL_OK);
}

static void a_limit_belongs_to_a_case_of_the_part(void **state)
{
    (void)state;
    try_value("/limits/tip_deflection_mm", "{\"nobody\": 5, \"knee\": \"5\", \"kerb\": 0, \"cone\": 9}");
    assert_error(&t, "/limits/tip_deflection_mm/nobody", "names no load case of this part", "5");
    assert_error(&t, "/limits/tip_deflection_mm/knee", "must be a number", "\"5\"");
    assert_error(&t, "/limits/tip_deflection_mm/kerb", "must be above 0", "0");
    assert_int_equal(t.problems.errors, 3);
}

static void a_case_of_any_name_can_have_a_limit(void **state)
{
    (void)state;
    put(&t, "/load_cases/5/name", "\"knee/elbow ~ 700 N\"");
    try_value("/limits/tip_deflection_mm", "{\"knee/elbow ~ 700 N\": 12}");
    assert_taken_silently(&t);
    assert_close(t.part.load_cases[5].tip_limit_m, 0.012, 1e-15);
    try_value("/limits/tip_deflection_mm", "{\"knee/elbow ~ 700 N\": -1}");
    assert_only_error(&t, "/limits/tip_deflection_mm/knee~1elbow ~0 700 N", "must be above 0", "-1");
}

/* ---- pairs and points ---- */

static void a_mixing_ratio_is_two_numbers_above_0(void **state)
{
    (void)state;
    try_value("/resins/0/mix_ratio_by_weight", "[100]");
    assert_only_error(&t, "/resins/0/mix_ratio_by_weight", "must be a list of two numbers", "");
    try_value("/resins/0/mix_ratio_by_weight", "[100, 30, 5]");
    assert_only_error(&t, "/resins/0/mix_ratio_by_weight", "must be a list of two numbers", "");
    try_value("/resins/0/mix_ratio_by_weight", "100");
    assert_only_error(&t, "/resins/0/mix_ratio_by_weight", "must be a list of two numbers", "100");
    try_value("/resins/0/mix_ratio_by_weight", "[\"100\", 0]");
    assert_error(&t, "/resins/0/mix_ratio_by_weight/0", "must be a number", "\"100\"");
    assert_error(&t, "/resins/0/mix_ratio_by_weight/1", "must be above 0", "0");
    assert_int_equal(t.problems.errors, 2);
}

static void a_point_is_two_numbers(void **state)
{
    (void)state;
    static const char *const wrong[] = {"[0.3]", "[0.3, 0.09, 0]", "[0.3, \"0.09\"]", "[null, 0.09]", "{}", "0.3"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        try_value("/profiles/1/points/2", wrong[i]);
        assert_error(&t, "/profiles/1/points/2", "must be a pair of numbers", wrong[i][0] == '0' ? "0.3" : "");
        assert_int_equal(t.status, PL_BAD_INPUT);
    }
}

static void a_profile_has_at_most_10000_points(void **state)
{
    (void)state;
    struct pl_buffer list = {0};
    for (int i = 0; i < 10001; i++)
        pl_buffer_printf(&list, "%s[0, 0]", i ? ", " : "[");
    pl_buffer_text(&list, "]");
    try_value("/profiles/1/points", list.text);
    assert_error(&t, "/profiles/1/points", "at most 10000 points", "");
    pl_buffer_free(&list);
}

/* ---- lists and objects ---- */

static void a_list_must_be_a_list_and_an_object_an_object(void **state)
{
    (void)state;
    put(&t, "/elements/0/stations/1", "[0, 640]");
    put(&t, "/elements/0/layup", "{}");
    put(&t, "/elements/1/mounts", "5");
    put(&t, "/allowables", "[]");
    put(&t, "/limits", "null");
    put(&t, "/cores", "\"foam\"");
    trial_build(&t);
    assert_error(&t, "/elements/0/stations/1", "must be an object", "");
    assert_error(&t, "/elements/0/layup", "must be a list", "");
    assert_error(&t, "/elements/1/mounts", "must be a list", "5");
    assert_error(&t, "/allowables", "must be an object", "");
    assert_error(&t, "/limits", "must be an object", "null");
    assert_error(&t, "/cores", "must be a list", "\"foam\"");
}

static void a_file_that_is_no_object_is_no_part(void **state)
{
    (void)state;
    static const char *const texts[] = {"[]", "1", "\"part\"", "null", "true"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        trial_close(&t);
        trial_text(&t, texts[i]);
        trial_build(&t);
        assert_only_error(&t, "", "must be an object", i ? texts[i] : "");
    }
}

static void an_empty_object_is_told_all_that_is_missing(void **state)
{
    (void)state;
    static const char *const missing[] = {"/format", "/version", "/name",     "/profiles",   "/fabrics",
                                          "/resins", "/cores",   "/elements", "/load_cases", "/allowables"};
    trial_close(&t);
    trial_text(&t, "{}");
    trial_build(&t);
    for (size_t i = 0; i < sizeof missing / sizeof *missing; i++)
        assert_error(&t, missing[i], "is missing", "");
    assert_int_equal(t.problems.errors, sizeof missing / sizeof *missing);
}

/* n empty rows. */
static const char *rows_of(int n, struct pl_buffer *list)
{
    pl_buffer_clear(list);
    pl_buffer_text(list, "[");
    for (int i = 0; i < n; i++)
        pl_buffer_text(list, i ? ", {}" : "{}");
    pl_buffer_text(list, "]");
    return list->text;
}

static void lists_have_as_many_rows_as_the_table_allows(void **state)
{
    (void)state;
    static const struct { const char *pointer; enum pl_group_id group; } lists[] = {
        {"/profiles", PL_GROUP_PROFILE}, {"/elements", PL_GROUP_ELEMENT}, {"/elements/0/stations", PL_GROUP_STATION},
        {"/elements/0/layup", PL_GROUP_LAYUP}, {"/elements/0/mounts", PL_GROUP_MOUNT}, {"/load_cases", PL_GROUP_CASE},
        {"/load_cases/2/pads", PL_GROUP_PAD},
    };
    struct pl_buffer list = {0};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        int least = (int)pl_groups[lists[i].group].least, most = (int)pl_groups[lists[i].group].most;
        char words[64];
        snprintf(words, sizeof words, "it has %d)", most + 1);
        try_value(lists[i].pointer, rows_of(most + 1, &list));
        assert_error(&t, lists[i].pointer, words, "");
        try_value(lists[i].pointer, rows_of(most, &list));
        assert_int_equal(count_told(&t, PL_ERROR, lists[i].pointer, "items"), 0);
        if (least > 0)
            try_value(lists[i].pointer, rows_of(least - 1, &list));
        assert_int_equal(count_told(&t, PL_ERROR, lists[i].pointer, "items"), least > 0);
        assert_true(pl_document_undo(t.doc) && pl_document_undo(t.doc));
        if (least > 0)
            assert_true(pl_document_undo(t.doc));
    }
    pl_buffer_free(&list);
}

/* ---- all at once ---- */

static void all_that_is_wrong_is_told_and_not_only_the_first(void **state)
{
    (void)state;
    put(&t, "/name", "7");
    put(&t, "/fabrics/0/e1_gpa", "0");
    put(&t, "/fabrics/1/nu12", "0.99");
    put(&t, "/resins/0/pot_life_min", "\"forty\"");
    put(&t, "/elements/0/stations/0/chord_mm", "-300");
    put(&t, "/elements/0/stations/1/chord_mm", "99999");
    put(&t, "/elements/0/layup/2/side", "\"front\"");
    put(&t, "/elements/1/mounts/1/hold", NULL);
    put(&t, "/load_cases/2/pads/1/length_mm", "0");
    put(&t, "/load_cases/5/acts_at", "1.2");
    put(&t, "/allowables/criterion", "1");
    put(&t, "/limits/mass_kg", "0");
    put(&t, "/elements/0/incidence_deg", "45");
    trial_build(&t);
    assert_error(&t, "/name", "must be a text", "7");
    assert_error(&t, "/fabrics/0/e1_gpa", "must be above 0", "0");
    assert_error(&t, "/fabrics/1/nu12", "must be from 0 to 0.95", "0.99");
    assert_error(&t, "/resins/0/pot_life_min", "must be a number", "\"forty\"");
    assert_error(&t, "/elements/0/stations/0/chord_mm", "must be above 0", "-300");
    assert_error(&t, "/elements/0/stations/1/chord_mm", "10000", "99999");
    assert_error(&t, "/elements/0/layup/2/side", "must be one of top, bottom, both", "\"front\"");
    assert_error(&t, "/elements/1/mounts/1/hold", "is missing", "");
    assert_error(&t, "/load_cases/2/pads/1/length_mm", "must be above 0", "0");
    assert_error(&t, "/load_cases/5/acts_at", "must be from 0 to 1", "1.2");
    assert_error(&t, "/allowables/criterion", "must be one of tsai-wu, max-stress", "1");
    assert_error(&t, "/limits/mass_kg", "must be above 0", "0");
    assert_warning(&t, "/elements/0/incidence_deg", "is unusual: -5 to 25 is typical", "45");
    assert_int_equal(t.problems.errors, 12);
    assert_int_equal(t.problems.count, 13);
    assert_string_equal(pl_problems_first_error(&t.problems)->place, "/name");
}

static void rules_that_need_no_broken_field_speak_beside_broken_fields(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/0/plies", "0");
    put(&t, "/elements/0/layup/1/name", "\"skin\"");
    put(&t, "/elements/0/stations/1/y_mm", "0");
    trial_build(&t);
    assert_error(&t, "/elements/0/layup/0/plies", "must be from 1 to 500", "0");
    assert_error(&t, "/elements/0/layup/1/name", "unique", "\"skin\"");
    assert_error(&t, "/elements/0/stations/1/y_mm", "larger", "0");
}

static void more_problems_than_the_list_holds_are_counted(void **state)
{
    (void)state;
    struct pl_buffer list = {0};
    try_value("/elements/0/layup", rows_of(200, &list));
    /* Five fields of a ply group may not be left out. */
    assert_int_equal(t.problems.errors, 1000);
    assert_int_equal(t.problems.count, PL_PROBLEMS_MOST);
    assert_int_equal(t.problems.dropped, 1000 - PL_PROBLEMS_MOST);
    assert_int_equal(t.status, PL_BAD_INPUT);
    pl_buffer_free(&list);
}

static void warnings_alone_do_not_refuse_a_part(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/0/plies", "30");
    try_value("/elements/1/incidence_deg", "-12");
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(t.problems.errors, 0);
    assert_warning(&t, "/elements/0/layup/0/plies", "is unusual: 1 to 24 is typical", "30");
    assert_warning(&t, "/elements/1/incidence_deg", "is unusual", "-12");
    assert_null(pl_problems_first_error(&t.problems));
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(a_whole_number_has_no_fraction),
        TRIAL(a_choice_is_spelled_as_in_the_contract),
        TRIAL(a_name_must_not_be_empty_and_a_note_may),
        TRIAL(a_name_that_nothing_has_is_told_with_what_it_should_name),
        TRIAL(a_list_of_names_tells_which_one_is_wrong),
        TRIAL(a_limit_belongs_to_a_case_of_the_part),
        TRIAL(a_case_of_any_name_can_have_a_limit),
        TRIAL(a_mixing_ratio_is_two_numbers_above_0),
        TRIAL(a_point_is_two_numbers),
        TRIAL(a_profile_has_at_most_10000_points),
        TRIAL(a_list_must_be_a_list_and_an_object_an_object),
        TRIAL(a_file_that_is_no_object_is_no_part),
        TRIAL(an_empty_object_is_told_all_that_is_missing),
        TRIAL(lists_have_as_many_rows_as_the_table_allows),
        TRIAL(all_that_is_wrong_is_told_and_not_only_the_first),
        TRIAL(rules_that_need_no_broken_field_speak_beside_broken_fields),
        TRIAL(more_problems_than_the_list_holds_are_counted),
        TRIAL(warnings_alone_do_not_refuse_a_part),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
