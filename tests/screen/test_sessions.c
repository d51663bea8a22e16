/* What a person sees is the page that was tested: the program on a pseudo-terminal of several sizes, in colour and
 * without, shows what `plyloft screen` prints after the same keys.  Here in UTF-8, in test_sessions_ascii.c without. */
#include "sessions.h"

static void assert_in_utf8(int columns, int rows)
{
    if (!seats.utf8) {
        print_message("there is no locale with UTF-8 here\n");
        skip();
    }
    assert_sessions_as_told(columns, rows, seats.utf8);
}

static void sessions_are_seen_as_told_on_40_by_20_in_utf8(void **state)
{
    (void)state;
    assert_in_utf8(40, 20);
}

static void sessions_are_seen_as_told_on_80_by_24_in_utf8(void **state)
{
    (void)state;
    assert_in_utf8(80, 24);
}

static void sessions_are_seen_as_told_on_132_by_43_in_utf8(void **state)
{
    (void)state;
    assert_in_utf8(132, 43);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sessions_are_seen_as_told_on_40_by_20_in_utf8),
        cmocka_unit_test(sessions_are_seen_as_told_on_80_by_24_in_utf8),
        cmocka_unit_test(sessions_are_seen_as_told_on_132_by_43_in_utf8),
    };
    return cmocka_run_group_tests_name("sessions", tests, seats_set_up, seats_take_down);
}
