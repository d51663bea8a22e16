/* The sessions of test_sessions.c in a locale that has no more than ASCII: not a byte beyond it is sent. */
#include "sessions.h"

static void sessions_are_seen_as_told_on_40_by_20_in_ascii(void **state)
{
    (void)state;
    assert_sessions_as_told(40, 20, "C");
}

static void sessions_are_seen_as_told_on_80_by_24_in_ascii(void **state)
{
    (void)state;
    assert_sessions_as_told(80, 24, "C");
}

static void sessions_are_seen_as_told_on_132_by_43_in_ascii(void **state)
{
    (void)state;
    assert_sessions_as_told(132, 43, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sessions_are_seen_as_told_on_40_by_20_in_ascii),
        cmocka_unit_test(sessions_are_seen_as_told_on_80_by_24_in_ascii),
        cmocka_unit_test(sessions_are_seen_as_told_on_132_by_43_in_ascii),
    };
    return cmocka_run_group_tests_name("sessions in ASCII", tests, seats_set_up, seats_take_down);
}
