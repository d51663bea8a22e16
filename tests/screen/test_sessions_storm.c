/* Any keys whatever: after a storm of them the real program shows what it shows without a terminal. */
#include "seat.h"

static uint32_t seed;

static int chance(int below)
{
    seed = seed * 1664525u + 1013904223u;
    return (int)((seed >> 8) % (uint32_t)below);
}

/* Keys that leave, that say where a person's own files are, and the mouse are not among them. */
static const char *some_key(void)
{
    static const char *const keys[] = {
        "Up", "Down", "Left", "Right", "Home", "End", "PageUp", "PageDown", "Tab", "BackTab", "Enter", "Enter",
        "Escape", "Escape", "Backspace", "Delete", "Space", "Ctrl-S", "1", "2", "3", "4", "5", "7", "+", "-", "a",
        "b", "c", "d", "e", "f", "g", "j", "k", "m", "n", "p", "t", "u", "U", "w", "x", "(", ")", "[", "]", "?", ".",
    };
    return keys[chance(sizeof keys / sizeof *keys)];
}

static void blow(struct seat *seat, const struct surroundings *s, const char *part, uint32_t number)
{
    enum { KEYS = 25 };
    seed = number;
    sit(seat, s, part);
    await(seat, "the start", "WING");
    for (int i = 0; i < KEYS; i++)
        press(seat, some_key());
    assert_as_told(seat, "the storm");
    assert_int_equal(seat->glass.clears, 1);
    stand_up(seat);
}

static void assert_weathers(const struct surroundings *s, uint32_t first)
{
    enum { STORMS = 8 };
    static struct seat seat;
    char *sample = read_whole_file(SAMPLE_PART, NULL), *whole = read_whole_file(WHOLE_PART, NULL);
    for (uint32_t i = 0; i < STORMS; i++)
        blow(&seat, s, i & 1 ? whole : sample, first + i);
    seat_free(&seat);
    free(whole);
    free(sample);
}

static void a_storm_of_keys_is_weathered_as_without_a_terminal(void **state)
{
    (void)state;
    assert_weathers(&(struct surroundings){.term = "xterm-256color", .columns = 80, .rows = 24}, 100);
    assert_weathers(&(struct surroundings){.term = "xterm", .locale = "C", .columns = 40, .rows = 20}, 200);
    if (is_described("screen"))
        assert_weathers(&(struct surroundings){.term = "screen", .columns = 40, .rows = 20}, 300);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_storm_of_keys_is_weathered_as_without_a_terminal)};
    return cmocka_run_group_tests_name("sessions in a storm", tests, seats_set_up, seats_take_down);
}
