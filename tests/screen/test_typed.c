/* Keys and clicks as a real terminal sends them, byte by byte. */
#include "teller.h"

static void keys_arrive_by_name(void **state)
{
    (void)state;
    static const char *const pairs[][2] = {
        {"a", "a"},           {"+", "+"},          {" ", "Space"},        {"\r", "Enter"},      {"\n", "Enter"},
        {"\t", "Tab"},        {"\033[Z", "BackTab"}, {"\177", "Backspace"}, {"\b", "Backspace"}, {"\033[3~", "Delete"},
        {"\033OA", "Up"},     {"\033OB", "Down"},  {"\033OC", "Right"},   {"\033OD", "Left"},   {"\033[A", "Up"},
        {"\033[D", "Left"},   {"\033OH", "Home"},  {"\033[F", "End"},     {"\033[1~", "Home"},  {"\033[4~", "End"},
        {"\033[5~", "PageUp"}, {"\033[6~", "PageDown"}, {"\033Op", "0"},  {"\033Ow", "7"},
        {"\033On", "."},      {"\033OM", "Enter"},
        {"é", "é"},           {"翼", "翼"},
    };
    static const char *const terms[] = {"xterm", "xterm-256color", "screen", "vt100"};
    struct pseudo p;
    for (size_t t = 0; t < sizeof terms / sizeof terms[0]; t++) {
        begin(&p, &(struct surroundings){.term = terms[t]}, events);
        for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
            assert_typed(&p, pairs[i][0], pairs[i][1]);
        end_with_q(&p);
    }
}

static void control_letters_are_keys_and_none_of_them_kills_or_holds_the_screen(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events);
    for (int byte = 1; byte <= 26; byte++) {
        static const char as_others[] = "\b\t\n\r\032";  /* other keys' bytes, and Ctrl-Z, which stops */
        char bytes[2] = {(char)byte}, name[16];
        snprintf(name, sizeof name, "Ctrl-%c", 'A' + byte - 1);
        if (!strchr(as_others, byte))
            assert_typed(&p, bytes, name);
    }
    type(&p, "\034\035");  /* Ctrl-\ and Ctrl-] mean nothing, and end nothing */
    end_with_q(&p);
}

static void keys_typed_in_one_burst_arrive_in_order(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events);
    type(&p, "5\033OB\003\033x\r\033\033OA");
    static const char *const want[] = {"key 5", "key Down", "key Ctrl-C", "key Escape", "key x", "key Enter",
                                       "key Escape", "key Up"};
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
        assert_reports(&p, want[i]);
    end_with_q(&p);
}

static void keys_the_description_does_not_name_do_nothing(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &(struct surroundings){.term = "vt100"}, events);
    type(&p, "\033[1;5C\033[24~\033[200~x\033[?1;2c");
    assert_reports(&p, "key x");
    /* what only begins like one is its keys */
    type(&p, "\033[x");
    assert_reports(&p, "key Escape");
    assert_reports(&p, "key [");
    assert_reports(&p, "key x");
    type(&p, "\033[1");
    assert_reports(&p, "key Escape");
    assert_reports(&p, "key [");
    assert_reports(&p, "key 1");
    end_with_q(&p);
}

static void a_character_may_come_in_pieces_and_a_broken_one_swallows_nothing(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events);
    type(&p, "\xe7\xbf");
    usleep(50000);
    type(&p, "\xbc");
    assert_reports(&p, "key 翼");
    type(&p, "\xe9q\xffw\xc3\033OA");  /* Latin-1, no UTF-8 at all, cut short */
    assert_reports(&p, "key q");
    assert_int_equal(finish(&p), 0);
    forget(&p);
    begin(&p, &usual, events);
    type(&p, "\xe9x\xffw\xc3\033OA\xc3\xc3\xa9");
    assert_reports(&p, "key x");
    assert_reports(&p, "key w");
    assert_reports(&p, "key Up");
    assert_reports(&p, "key é");
    end_with_q(&p);
}

static void bytes_above_ascii_do_no_harm_where_the_locale_has_none(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &(struct surroundings){.term = "xterm", .locale = "C"}, events);
    type(&p, "é翼x");
    assert_reports(&p, "key x");
    end_with_q(&p);
}

static double escape_takes(const struct surroundings *s)
{
    struct pseudo p;
    begin(&p, s, events);
    double started = seconds();
    type(&p, "\033");
    assert_reports(&p, "key Escape");
    double took = seconds() - started;
    end_with_q(&p);
    return took;
}

static void escape_acts_at_once_unless_the_user_set_another_delay(void **state)
{
    (void)state;
    double fastest = 1;
    for (int i = 0; i < 5; i++) {  /* the fastest of five: a busy machine delays any one of them */
        double took = escape_takes(&usual);
        fastest = took < fastest ? took : fastest;
    }
    assert_true(fastest >= 0.02 && fastest < 0.2);
    assert_true(escape_takes(&(struct surroundings){.term = "xterm", .escdelay = "400"}) >= 0.39);
}

static void clicks_arrive_only_when_asked_for(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events_with_mouse);
    assert_non_null(strstr(output_of(&p), "1000h"));
    /* button 1 down and up at the 12th column of the 5th row, counted from 1, then the wheel */
    type(&p, "\033[<0;12;5M\033[<0;12;5m\033[<64;12;5M");
    assert_reports(&p, "click 4 11");
    double fastest = 1;
    for (int i = 0; i < 5; i++) {  /* a press alone acts at once */
        double started = seconds();
        type(&p, "\033[<0;1;1M");
        assert_reports(&p, "click 0 0");
        double took = seconds() - started;
        fastest = took < fastest ? took : fastest;
        type(&p, "\033[<0;1;1m");
    }
    assert_true(fastest < 0.1);
    type(&p, "q");
    assert_reports(&p, "key q");
    assert_int_equal(finish(&p), 0);
    assert_non_null(strstr(output_of(&p), "1000l"));
    forget(&p);
    begin(&p, &usual, events);
    assert_null(strstr(output_of(&p), "1000h"));
    end_with_q(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_arrive_by_name),
        cmocka_unit_test(control_letters_are_keys_and_none_of_them_kills_or_holds_the_screen),
        cmocka_unit_test(keys_typed_in_one_burst_arrive_in_order),
        cmocka_unit_test(keys_the_description_does_not_name_do_nothing),
        cmocka_unit_test(a_character_may_come_in_pieces_and_a_broken_one_swallows_nothing),
        cmocka_unit_test(bytes_above_ascii_do_no_harm_where_the_locale_has_none),
        cmocka_unit_test(escape_acts_at_once_unless_the_user_set_another_delay),
        cmocka_unit_test(clicks_arrive_only_when_asked_for),
    };
    return cmocka_run_group_tests_name("typed", tests, NULL, NULL);
}
