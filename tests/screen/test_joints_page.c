/* The page Joints: what the wing puts on its mounts, case by case. */
#include "pages.h"

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    press(&d, "5");
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

static void every_mount_has_a_row_a_case_as_given_and_pinned(void **state)
{
    (void)state;
    assert_int_equal(pl_reaction_rows(d.s), 16);  /* two mounts, four cases, twice */
    assert_told(&d, "left bracket     top speed");
    assert_told(&d, "top speed pinned");
    char words[400];
    assert_true(pl_reaction_words(d.s, 9, words, sizeof words));
    assert_string_equal(words, "right bracket, kerb on tip: 559 N up, 0 N aft, 262.7 N m about x, 8.9 about y, 0.0 about z");
    assert_false(pl_reaction_words(d.s, 16, words, sizeof words));
    press(&d, "End");
    assert_told(&d, "scrutineer pinned");
}

static void n_chooses_the_case(void **state)
{
    (void)state;
    press(&d, "n n");
    assert_int_equal(pl_reaction_rows(d.s), 4);
    assert_told(&d, "pit jack");
    assert_untold(&d, "scrutineer pinned");
    for (size_t i = 0; i < SIZES; i++)
        assert_non_null(strstr(draw(&d, sizes[i].columns, sizes[i].rows, true), "pit j"));
}

static void without_a_case_there_is_nothing_to_feel(void **state)
{
    (void)state;
    desk_put(&d, "/limits", "{}");
    desk_put(&d, "/load_cases", "[]");
    assert_int_equal(pl_reaction_rows(d.s), 0);
    assert_told(&d, "no load case loads this element");
    press(&d, "Down End Home");  /* and no key breaks on it */
}

int main(void)
{
#define DESK(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        DESK(every_mount_has_a_row_a_case_as_given_and_pinned), DESK(n_chooses_the_case), DESK(without_a_case_there_is_nothing_to_feel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
