/* What a person sees is the page that was tested: the program on a pseudo-terminal, of several sizes, with and
 * without UTF-8 and colour, shows what `plyloft screen` prints after the same keys. */
#include "seat.h"

#include "sessions.h"

static char *part_text;

static void assert_looks(struct seat *seat, const char *name)
{
    if (!strstr(picture(seat), "WING ") && !strstr(picture(seat), "JUDGED"))
        return;  /* the list of parts has no verdict */
    if (!!glass_coloured(&seat->glass) != !seat->s.no_color)
        fail_msg("%s: %zu cells have a colour, %s", name, glass_coloured(&seat->glass),
                 seat->s.no_color ? "with NO_COLOR" : "of those of the verdict");
    if (is_plain(&seat->s) && seat->glass.beyond_ascii)
        fail_msg("%s: more than ASCII was sent", name);
    if (seat->glass.clears > 1)
        fail_msg("%s: the screen is cleared after the first frame", name);
}

/* told[i] is what is told of row i, asked for where it is not yet known. */
static void walk_through(const struct surroundings *s, char *known[SESSION_ROWS])
{
    static struct seat seat;
    for (int i = 0; i < SESSION_ROWS; i++) {
        const struct session_row *row = &session_rows[i];
        if (i == 0 || !session_rows[i - 1].back) {
            sit(&seat, s, part_text);
            await(&seat, row->name, "WING");  /* it reads keys from now on */
        }
        press(&seat, row->keys);
        if (!known[i])
            known[i] = told(part_text, s, seat.keys.text);
        assert_picture(&seat, row->name, known[i]);
        assert_shown(&seat, row->name, row->shown);
        assert_looks(&seat, row->name);
        if (row->back)
            press(&seat, row->back);
        else
            stand_up(&seat);
    }
    seat_free(&seat);
}

static void assert_sessions_as_told(int columns, int rows, bool utf8)
{
    char *known[SESSION_ROWS] = {NULL};
    struct surroundings s = {.term = "xterm-256color", .locale = utf8 ? seats.utf8 : "C", .columns = columns,
                             .rows = rows};
    if (!s.locale) {
        print_message("there is no locale with UTF-8 here\n");
        skip();
    }
    walk_through(&s, known);
    s.no_color = "1";
    walk_through(&s, known);
    for (int i = 0; i < SESSION_ROWS; i++)
        free(known[i]);
}

static void sessions_are_seen_as_told_on_40_by_20_in_utf8(void **state)
{
    (void)state;
    assert_sessions_as_told(40, 20, true);
}

static void sessions_are_seen_as_told_on_40_by_20_in_ascii(void **state)
{
    (void)state;
    assert_sessions_as_told(40, 20, false);
}

static void sessions_are_seen_as_told_on_80_by_24_in_utf8(void **state)
{
    (void)state;
    assert_sessions_as_told(80, 24, true);
}

static void sessions_are_seen_as_told_on_80_by_24_in_ascii(void **state)
{
    (void)state;
    assert_sessions_as_told(80, 24, false);
}

static void sessions_are_seen_as_told_on_132_by_43_in_utf8(void **state)
{
    (void)state;
    assert_sessions_as_told(132, 43, true);
}

static void sessions_are_seen_as_told_on_132_by_43_in_ascii(void **state)
{
    (void)state;
    assert_sessions_as_told(132, 43, false);
}

static int set_up(void **state)
{
    part_text = read_whole_file(SAMPLE_PART, NULL);
    return seats_set_up(state);
}

static int take_down(void **state)
{
    free(part_text);
    return seats_take_down(state);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sessions_are_seen_as_told_on_40_by_20_in_utf8),
        cmocka_unit_test(sessions_are_seen_as_told_on_40_by_20_in_ascii),
        cmocka_unit_test(sessions_are_seen_as_told_on_80_by_24_in_utf8),
        cmocka_unit_test(sessions_are_seen_as_told_on_80_by_24_in_ascii),
        cmocka_unit_test(sessions_are_seen_as_told_on_132_by_43_in_utf8),
        cmocka_unit_test(sessions_are_seen_as_told_on_132_by_43_in_ascii),
    };
    return cmocka_run_group_tests_name("sessions", tests, set_up, take_down);
}
