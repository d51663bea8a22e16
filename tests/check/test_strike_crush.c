/* Foam crushed where a strike lands: pressure over the area that touches, in the verdict only where that is said. */
#include "judged.h"

#include <math.h>
#include <string.h>

#define KERB "/load_cases/2"

static bool not_checked(const char *word)
{
    for (const char *const *w = pl_check_not_checked(&t.part); *w; w++)
        if (!strcmp(*w, word))
            return true;
    return false;
}

static void pressure_over_the_contact_is_held_against_the_foam(void **state)
{
    (void)state;
    double bare = judge_case(2)->least.reserve;
    assert_true(not_checked("strike crushing"));
    put(&t, KERB "/contact_length_mm", "40");
    put(&t, KERB "/contact_width_mm", "25");
    const struct pl_case_result *c = judge_case(2);
    /* 0.28 MPa of foam, knocked down by 0.75, on 1000 mm2: 210 N, against the strike's own force on these mounts. */
    double given = 210 / c->given.total_force_n;
    assert_int_equal(c->given.lowest.mode, PL_MODE_NOSE_CRUSH);
    assert_close(c->given.lowest.reserve, given, 1e-9);
    assert_close(c->given.lowest.y_m, 0.640, 1e-9);
    assert_close(c->given.lowest.fraction, 0.20, 1e-12);
    assert_close(c->least.reserve, fmin(given, 210 / c->pinned.total_force_n), 1e-9);
    assert_false(c->holds);
    assert_false(not_checked("strike crushing"));
    assert_true(c->rows[c->n_rows - 1].mode == PL_MODE_NOSE_CRUSH && c->rows[c->n_rows / 2].mode != PL_MODE_NOSE_CRUSH);
    put(&t, KERB "/contact_length_mm", "400");
    put(&t, KERB "/contact_width_mm", "200");
    assert_close(judge_case(2)->least.reserve, bare, 1e-12);  /* spread wide it governs no more */
}

static void one_without_the_other_is_refused(void **state)
{
    (void)state;
    try_value(KERB "/contact_length_mm", "40");
    assert_error(&t, KERB, "needs both contact_length_mm and contact_width_mm", "");
    put(&t, KERB "/contact_length_mm", NULL);
    try_value(KERB "/contact_width_mm", "40");
    assert_error(&t, KERB, "needs both contact_length_mm and contact_width_mm", "");
}

static void every_strike_must_say_it_before_it_counts_as_checked(void **state)
{
    (void)state;
    trial_close(&t);
    trial_open(&t, WHOLE_PART);
    trial_build(&t);
    assert_true(not_checked("strike crushing"));  /* the cone does not say */
    put(&t, "/load_cases/4/contact_length_mm", "60");
    put(&t, "/load_cases/4/contact_width_mm", "60");
    trial_build(&t);
    assert_false(not_checked("strike crushing"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        JUDGED(pressure_over_the_contact_is_held_against_the_foam), JUDGED(one_without_the_other_is_refused),
        JUDGED(every_strike_must_say_it_before_it_counts_as_checked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
