/* The same page on terminals of every kind; names of wide and combining characters; keys typed fast; Escape at once. */
#include "seat.h"

#include "plyloft/text.h"

static const struct surroundings usual = {.term = "xterm-256color", .columns = 80, .rows = 24};
static char *part_text;
static struct seat seat;

static void sit_and_wait(const struct surroundings *s, const char *part)
{
    sit(&seat, s, part);
    await(&seat, "the start", "WING");
}

static void get_up(void)
{
    stand_up(&seat);
    seat_free(&seat);
}

static void press_as_told(const char *name, const char *keys)
{
    press(&seat, keys);
    assert_as_told(&seat, name);
}

/* ---- kinds of terminals ---- */

static void assert_page_and_keys(const char *term)
{
    struct surroundings s = {.term = term, .columns = 80, .rows = 24};
    if (!is_described(term))
        return;
    sit_and_wait(&s, part_text);
    assert_as_told(&seat, "Cloth");
    press_as_told("a cell further on", "Down Down Right Right Left");
    press_as_told("the last row", "End");
    press_as_told("some rows up", "PageUp PageDown PageUp Down");
    press_as_told("a part of the page before", "Home BackTab BackTab Tab");
    press_as_told("typing", "Home Tab Enter 1 2 3 Left Left Delete Backspace");
    press_as_told("typed", "End 4 Enter");
    press_as_told("undone", "u");
    press_as_told("help", "?");
    press_as_told("back", "Escape");
    assert_int_equal(seat.glass.clears, 1);
    get_up();
}

static void terminals_of_every_kind_show_the_page_and_send_their_keys(void **state)
{
    (void)state;
    static const char *const terms[] = {"xterm", "xterm-256color", "tmux-256color", "screen", "linux", "vt100"};
    for (int i = 0; i < 6; i++)
        assert_page_and_keys(terms[i]);
}

/* One sentence, and nothing else: no sequence, no mode changed. */
static void assert_refused(const char *term, const char *words)
{
    struct termios after;
    sit(&seat, &(struct surroundings){.term = term, .columns = 80, .rows = 24}, part_text);
    int status = finish(&seat.p);
    const char *said = output_of(&seat.p);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) > 0);
    assert_int_equal(tcgetattr(seat.p.master, &after), 0);
    assert_true(same_modes(&after, &seat.p.found));
    assert_has(said, words);
    assert_has_not(said, "\033");
    assert_true(strchr(said, '\n') && !strchr(said, '\n')[1]);
    seat_free(&seat);
}

static void a_terminal_that_cannot_show_pages_is_refused_with_one_sentence(void **state)
{
    (void)state;
    assert_refused("dumb", "(found dumb)");
    assert_refused("", "TERM is not set");
}

/* ---- names ---- */

/* Names of the sample in wide and combining characters, as many columns as the sample's own.  Those of load cases are
 * cut where there is little room: a wide character at the end leaves the cut where it was. */
static const struct { const char *plain, *wide; } names[] = {
    {"hill-climb front wing", "hill-climb front 前翼"},
    {"first skin", "一層目の皮"},
    {"top cap", "to\u0301p上帯"},
    {"pit jack", "pi\u0301t\u0302 jack"},
    {"scrutineer", "scrutine役"},
    {"main", "m\u00e4i\u0301n"},
};

enum { NAMES = sizeof names / sizeof *names };

static char *replace_all(const char *text, const char *from, const char *to)
{
    struct pl_buffer out = {0};
    for (const char *at; (at = strstr(text, from)); text = at + strlen(from)) {
        pl_buffer_add(&out, text, (size_t)(at - text));
        pl_buffer_text(&out, to);
    }
    pl_buffer_text(&out, text);
    assert_false(out.failed);
    return out.text;
}

/* Letters that stand alone, so that a name may be cut in two. */
static char *without_combining(const char *text)
{
    static const char *const marks[] = {"\u0301", "\u0302"};
    char *once = replace_all(text, marks[0], ""), *twice = replace_all(once, marks[1], "");
    free(once);
    return twice;
}

static char *with_names(const char *text, bool wide)
{
    char *out = strdup(text);
    for (int i = 0; i < NAMES; i++) {
        assert_int_equal(pl_text_columns(names[i].wide), pl_text_columns(names[i].plain));
        char *next = replace_all(out, wide ? names[i].plain : names[i].wide, wide ? names[i].wide : names[i].plain);
        free(out);
        out = next;
    }
    return out;
}

static void assert_straight(int columns, int rows)
{
    static const char *const pages[] = {"2", "1", "3", "4", "3 Enter", "Escape 2 Down Down Enter"};
    struct surroundings s = {.term = "xterm-256color", .columns = columns, .rows = rows};
    char *wide_part = with_names(part_text, true), keys[64] = "";
    sit_and_wait(&s, wide_part);
    for (int i = 0; i < 6; i++) {
        press_as_told("names", pages[i]);
        strcat(strcat(keys, " "), pages[i]);
        char *usual_page = told(part_text, &s, keys), *named = with_names(picture(&seat), false);
        char *page = without_combining(named);
        if (strcmp(page, usual_page)) {
            printf("%s\nis not, but for names,\n%s\n", page, usual_page);
            fail();
        }
        free(page);
        free(named);
        free(usual_page);
    }
    get_up();
    free(wide_part);
}

static void names_of_wide_and_combining_characters_keep_columns_straight(void **state)
{
    (void)state;
    if (!seats.utf8)
        skip();
    assert_straight(80, 24);
    assert_straight(132, 43);
}

static void they_are_told_in_ascii_where_the_locale_has_no_more(void **state)
{
    (void)state;
    char *wide_part = with_names(part_text, true);
    sit_and_wait(&(struct surroundings){.term = "xterm", .locale = "C", .columns = 80, .rows = 24}, wide_part);
    press_as_told("names", "1");
    press_as_told("names", "3");
    assert_false(seat.glass.beyond_ascii);
    get_up();
    free(wide_part);
}

static void names_are_typed_in_utf8(void **state)
{
    (void)state;
    if (!seats.utf8)
        skip();
    sit_and_wait(&usual, part_text);
    press_as_told("typing", "Tab Tab Enter text:外翼a\u0301b Left Left");
    press_as_told("taken", "Enter");
    assert_shown(&seat, "taken", "外翼a\u0301b");
    get_up();
}

/* ---- time ---- */

static void keys_typed_fast_lead_where_the_same_keys_lead_one_by_one(void **state)
{
    (void)state;
    static const char *const keys[] = {"BackTab", "Up", "2", "Tab"};
    struct surroundings s = {.term = "xterm-256color", .columns = 132, .rows = 43};
    sit_and_wait(&s, part_text);
    for (int i = 0; i < 4; i++) {
        press(&seat, keys[i]);
        while (look_for(&seat, 50)) {
        }
    }
    char *slowly = strdup(picture(&seat));
    stand_up(&seat);
    sit_and_wait(&s, part_text);
    press(&seat, "BackTab Up 2 Tab");
    assert_picture(&seat, "fast", slowly);
    get_up();
    free(slowly);
}

/* Nothing follows: it is not the beginning of another key.  How fast is a matter for make bench; here no more than
 * that it does not wait for anything. */
static void escape_acts_when_nothing_follows(void **state)
{
    (void)state;
    double longest = 0;
    sit_and_wait(&usual, part_text);
    for (int i = 0; i < 5; i++) {
        press_as_told("help", "?");
        double began = seconds();
        type(&seat.p, "\033");
        assert_true(look_for(&seat, PICTURE_WAIT_MS));
        double took = seconds() - began;
        longest = took > longest ? took : longest;
        pl_buffer_text(&seat.keys, " Escape");
        assert_as_told(&seat, "back");
    }
    print_message("Escape acted within %.0f ms\n", 1e3 * longest);
    assert_true(longest < 2);
    get_up();
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
        cmocka_unit_test(terminals_of_every_kind_show_the_page_and_send_their_keys),
        cmocka_unit_test(a_terminal_that_cannot_show_pages_is_refused_with_one_sentence),
        cmocka_unit_test(names_of_wide_and_combining_characters_keep_columns_straight),
        cmocka_unit_test(they_are_told_in_ascii_where_the_locale_has_no_more),
        cmocka_unit_test(names_are_typed_in_utf8),
        cmocka_unit_test(keys_typed_fast_lead_where_the_same_keys_lead_one_by_one),
        cmocka_unit_test(escape_acts_when_nothing_follows),
    };
    return cmocka_run_group_tests_name("terminals of sessions", tests, set_up, take_down);
}
