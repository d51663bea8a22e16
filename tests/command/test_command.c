/* The commands as a person or a script runs them: results, exit statuses, and where words go. */
#include "program.h"

/* Done, with nothing to say beside the result. */
static void assert_quiet(const struct run *run, int status)
{
    assert_status(run, status);
    assert_string_equal(run->err, "");
    assert_true(run->out[0]);
    assert_int_equal(run->out[strlen(run->out) - 1], '\n');
}

/* Bad usage: nothing on standard output, a word on what was wrong. */
static void assert_usage(const char *words, const char *const *arguments)
{
    struct run run = run_with(NULL, NULL, arguments);
    assert_status(&run, 2);
    assert_string_equal(run.out, "");
    assert_has(run.err, words);
    run_free(&run);
}

#define USAGE(words, ...) assert_usage(words, (const char *const[]){__VA_ARGS__, NULL})

/* ---- check ---- */

static void check_prints_the_verdict_and_what_it_rests_on(void **state)
{
    (void)state;
    struct run run = RUN("check", SAMPLE_PART);
    assert_quiet(&run, 0);
    static const char *const words[] = {"hill-climb front wing",
                                        "HOLDS",
                                        "lowest reserve",
                                        "top speed",
                                        "pit jack",
                                        "kerb on tip",
                                        "scrutineer",
                                        "span 1280 mm",
                                        "kg allowed",
                                        "mm allowed",
                                        "not checked",
                                        "brackets",
                                        "Never go under a car held by a jack",
                                        "qualified engineer"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        assert_has(run.out, words[i]);
    assert_has_not(run.out, "FALLS SHORT");
    run_free(&run);
}

static void check_of_an_underbuilt_wing_is_1_and_says_what_falls_short(void **state)
{
    (void)state;
    struct run run = RUN("check", WEAK_PART);
    assert_quiet(&run, 1);
    assert_has(run.out, "FALLS SHORT");
    assert_has(run.out, "It falls short: do not use it so.");
    run_free(&run);
    run = RUN("check", WEAK_PART, "--json");
    assert_quiet(&run, 1);
    assert_has(run.out, "\"holds\": false");
    run_free(&run);
}

static void check_of_one_case_judges_that_case_and_the_mass(void **state)
{
    (void)state;
    struct run run = RUN("check", WEAK_PART, "--case", "top speed");
    assert_quiet(&run, 0);
    assert_has(run.out, "top speed");
    assert_has_not(run.out, "kerb on tip");
    run_free(&run);
    run = RUN("check", WEAK_PART, "--case=kerb on tip");
    assert_quiet(&run, 1);
    assert_has_not(run.out, "top speed");
    run_free(&run);
}

static void warnings_are_told_in_the_report(void **state)
{
    (void)state;
    char *path = in_scratch("part.json"), *text = read_whole_file(SAMPLE_PART, NULL);
    char *at = strstr(text, "\"revision\"");
    memcpy(at, "\"Revision\"", 10);
    write_whole_file(path, text, strlen(text));
    struct run run = RUN("check", path);
    assert_status(&run, 0);
    assert_has(run.out, "warning: /Revision: is not a key that this version knows");
    run_free(&run);
    free(text);
    free(path);
}

/* ---- the other commands, as text ---- */

static void section_prints_its_thirteen_figures(void **state)
{
    (void)state;
    struct run run = RUN("section", SAMPLE_PART, "--at", "170");
    assert_quiet(&run, 0);
    static const char *const words[] = {"chord",     "EA",           "flapwise",
                                        "chordwise", "GJ",           "shear stiffness",
                                        "neutral",   "shear centre", "area inside the wall",
                                        "kg/m",      "N m2",         "275.00 mm"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        assert_has(run.out, words[i]);
    run_free(&run);
}

static void laminate_lists_the_plies_from_the_core_outward(void **state)
{
    (void)state;
    struct run run = RUN("laminate", SAMPLE_PART, "--at", "0", "--side", "top", "--chord", "0.3");
    assert_quiet(&run, 0);
    const char *first = strstr(run.out, "first skin"), *cap = strstr(run.out, "top cap"),
               *outer = strstr(run.out, "outer skin");
    assert_true(first && cap && outer && first < cap && cap < outer);
    assert_has_not(run.out, "bottom cap");
    assert_has(run.out, "glass uni 310");
    assert_has(run.out, "Poisson's ratio");
    run_free(&run);
}

static void profile_prints_its_points_and_figures(void **state)
{
    (void)state;
    struct run run = RUN("profile", SAMPLE_PART, "--profile", "main", "--count", "21");
    assert_quiet(&run, 0);
    assert_has(run.out, "thickness 0.1200");
    assert_has(run.out, "camber 0.06000");
    size_t lines = 0;
    for (const char *c = run.out; *c; c++)
        lines += *c == '\n';
    assert_int_equal(lines, 22);
    run_free(&run);
}

/* ---- screen ---- */

static size_t columns_of(const char *line, size_t length)
{
    size_t n = 0;
    for (size_t i = 0; i < length; i++)
        n += ((unsigned char)line[i] & 0xc0) != 0x80;
    return n;
}

static void assert_fits(const char *text, size_t columns, size_t rows)
{
    size_t lines = 0;
    for (const char *line = text; *line; lines++) {
        size_t length = strcspn(line, "\n");
        assert_in_range(columns_of(line, length), 0, columns);
        line += length + (line[length] == '\n');
    }
    assert_in_range(lines, 1, rows);
}

static void screen_prints_a_page_that_fits(void **state)
{
    (void)state;
    struct run run = RUN("screen", SAMPLE_PART);
    assert_quiet(&run, 0);
    assert_fits(run.out, 80, 24);
    assert_has(run.out, "HOLDS");
    run_free(&run);
    run = RUN("screen", WEAK_PART, "--size", "200x60", "--page", "strength", "--plain");
    assert_quiet(&run, 0);
    assert_fits(run.out, 200, 60);
    assert_has(run.out, "FALLS SHORT");
    for (const char *c = run.out; *c; c++)
        assert_in_range((unsigned char)*c, '\n', '~');
    run_free(&run);
}

static void screen_takes_keys(void **state)
{
    (void)state;
    struct run run = RUN("screen", SAMPLE_PART, "--keys", "Down Down +", "--size", "100x30");
    assert_quiet(&run, 0);
    assert_has(run.out, "changed");
    assert_has(run.out, "was ");
    run_free(&run);
    run = RUN("screen", SAMPLE_PART, "--keys", "4");
    assert_has(run.out, "all load cases");
    run_free(&run);
}

static void screen_saves_when_its_keys_say_so_and_only_then(void **state)
{
    (void)state;
    char *path = in_scratch("part.json"), *before = read_whole_file(SAMPLE_PART, NULL), *after;
    write_whole_file(path, before, strlen(before));
    struct run run = RUN("screen", path, "--keys", "Enter 3 Enter");
    assert_quiet(&run, 0);
    run_free(&run);
    after = read_whole_file(path, NULL);
    assert_string_equal(after, before);
    free(after);
    run = RUN("screen", path, "--keys", "Enter 3 Enter Ctrl-S");
    assert_quiet(&run, 0);
    assert_has(run.out, "saved");
    run_free(&run);
    after = read_whole_file(path, NULL);
    assert_non_null(strstr(after, "\"angle_deg\": 45, \"plies\": 3, \"side\": \"both\",   \"chord_from\": 0,"));
    assert_int_equal(strlen(after), strlen(before));
    assert_int_equal(count_in_folder(scratch), 1);
    free(after);
    free(before);
    free(path);
}

static void screen_shows_a_part_that_cannot_be_judged(void **state)
{
    (void)state;
    char *path = in_scratch("part.json"), *text = read_whole_file(SAMPLE_PART, NULL);
    memcpy(strstr(text, "\"chord_mm\": 230"), "\"chord_mm\": -23", 15);
    write_whole_file(path, text, strlen(text));
    struct run run = RUN("screen", path);
    assert_status(&run, 0);
    assert_has(run.out, "CANNOT BE JUDGED");
    assert_has(run.out, "station 3 of main, chord: must be above 0");
    run_free(&run);
    free(text);
    free(path);
}

/* ---- without a command ---- */

static void a_part_alone_without_a_terminal_prints_what_check_prints(void **state)
{
    (void)state;
    static const char *const parts[] = {SAMPLE_PART, WEAK_PART};
    for (int i = 0; i < 2; i++) {
        struct run alone = RUN(parts[i]), check = RUN("check", parts[i]);
        assert_quiet(&alone, i);
        assert_status(&check, i);
        assert_string_equal(alone.out, check.out);
        run_free(&alone);
        run_free(&check);
    }
}

static void a_dash_is_standard_input(void **state)
{
    (void)state;
    struct run named = RUN("check", SAMPLE_PART, "--json"), read = RUN_ON(SAMPLE_PART, "check", "-", "--json");
    assert_quiet(&read, 0);
    assert_string_equal(read.out, named.out);
    run_free(&named);
    run_free(&read);
    named = RUN("section", SAMPLE_PART, "--at", "0");
    read = RUN_ON(SAMPLE_PART, "section", "-", "--at=0");
    assert_string_equal(read.out, named.out);
    run_free(&named);
    run_free(&read);
    read = RUN_ON(WEAK_PART, "-");
    assert_quiet(&read, 1);
    run_free(&read);
    read = RUN_ON(SAMPLE_PART, "screen", "-", "--keys", "+ Ctrl-S");
    assert_status(&read, 0);
    assert_has(read.out, "standard input");  /* has no file to save to */
    run_free(&read);
}

static void help_lists_every_command_and_version_says_which(void **state)
{
    (void)state;
    static const char *const words[] = {
        "check PART",  "section PART --at Y", "laminate PART", "profile PART --profile NAME",
        "screen PART", "exit status",         "--json",        "qualified engineer"};
    struct run run = RUN("--help");
    assert_quiet(&run, 0);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        assert_has(run.out, words[i]);
    run_free(&run);
    run = RUN("--version");
    assert_quiet(&run, 0);
    assert_string_equal(run.out, "plyloft " PL_VERSION "\n");
    run_free(&run);
    run = RUN("laminate", "--help");
    assert_quiet(&run, 0);
    assert_has(run.out, "--side top|bottom");
    run_free(&run);
}

/* ---- bad usage ---- */

static void what_is_no_command_or_option_is_bad_usage(void **state)
{
    (void)state;
    USAGE("needs a part file or a command", NULL);
    USAGE("--colour", "--colour");
    USAGE("weigh", "weigh", SAMPLE_PART);
    USAGE("--colour", "check", SAMPLE_PART, "--colour");
    USAGE("-j", "check", SAMPLE_PART, "-j");
    USAGE("only one part file", "check", SAMPLE_PART, WEAK_PART);
    USAGE("needs a part file", "check");
    USAGE("needs a value", "check", SAMPLE_PART, "--case");
    USAGE("--json=yes", "check", SAMPLE_PART, "--json=yes");
    USAGE("usage: plyloft check", "check", SAMPLE_PART, "--cases", "pit jack");
}

static void what_a_command_needs_and_does_not_get_is_bad_usage(void **state)
{
    (void)state;
    USAGE("--at", "section", SAMPLE_PART);
    USAGE("--side", "laminate", SAMPLE_PART, "--at", "0", "--chord", "0.3");
    USAGE("--chord", "laminate", SAMPLE_PART, "--at", "0", "--side", "top");
    USAGE("--profile", "profile", SAMPLE_PART);
    USAGE("must be a number (found ten)", "section", SAMPLE_PART, "--at", "ten");
    USAGE("must be a number (found 10mm)", "section", SAMPLE_PART, "--at", "10mm");
    USAGE("must be a number (found nan)", "section", SAMPLE_PART, "--at", "nan");
    USAGE("must be a number (found 1e999)", "section", SAMPLE_PART, "--at", "1e999");
    USAGE("must be top or bottom (found both)", "laminate", SAMPLE_PART, "--at", "0", "--side", "both", "--chord",
          "0.3");
    USAGE("whole number from 5 to 2001 (found 4)", "profile", SAMPLE_PART, "--profile", "main", "--count", "4");
    USAGE("whole number from 5 to 2001 (found 10.5)", "profile", SAMPLE_PART, "--profile", "main", "--count", "10.5");
    USAGE("--size", "screen", SAMPLE_PART, "--size", "80");
    USAGE("--size", "screen", SAMPLE_PART, "--size", "0x24");
    USAGE("--size", "screen", SAMPLE_PART, "--size", "80x2400");
    USAGE("--size", "screen", SAMPLE_PART, "--size", "80x24x2");
    USAGE("must be one of Shape, Cloth, Loads", "screen", SAMPLE_PART, "--page", "Kitchen");
}

static void a_file_named_like_an_option_can_follow_two_dashes(void **state)
{
    (void)state;
    struct run run = RUN("check", "--", "--json");
    assert_status(&run, 4);
    assert_has(run.err, "--json: ");
    run_free(&run);
}

/* ---- output that cannot be written ---- */

static void a_full_device_is_4(void **state)
{
    (void)state;
    if (access("/dev/full", W_OK))
        skip();
    static const char *const commands[][8] = {
        {"check", SAMPLE_PART},
        {"check", SAMPLE_PART, "--json"},
        {"section", SAMPLE_PART, "--at", "0"},
        {"profile", SAMPLE_PART, "--profile", "main"},
        {"screen", SAMPLE_PART},
        {"--help"},
        {"--version"},
        {SAMPLE_PART},
    };
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        struct run run = run_with(NULL, "/dev/full", commands[i]);
        assert_status(&run, 4);
        run_free(&run);
    }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
    const struct CMUnitTest tests[] = {
        TRIAL(check_prints_the_verdict_and_what_it_rests_on),
        TRIAL(check_of_an_underbuilt_wing_is_1_and_says_what_falls_short),
        TRIAL(check_of_one_case_judges_that_case_and_the_mass),
        TRIAL(warnings_are_told_in_the_report),
        TRIAL(section_prints_its_thirteen_figures),
        TRIAL(laminate_lists_the_plies_from_the_core_outward),
        TRIAL(profile_prints_its_points_and_figures),
        TRIAL(screen_prints_a_page_that_fits),
        TRIAL(screen_takes_keys),
        TRIAL(screen_saves_when_its_keys_say_so_and_only_then),
        TRIAL(screen_shows_a_part_that_cannot_be_judged),
        TRIAL(a_part_alone_without_a_terminal_prints_what_check_prints),
        TRIAL(a_dash_is_standard_input),
        TRIAL(help_lists_every_command_and_version_says_which),
        TRIAL(what_is_no_command_or_option_is_bad_usage),
        TRIAL(what_a_command_needs_and_does_not_get_is_bad_usage),
        TRIAL(a_file_named_like_an_option_can_follow_two_dashes),
        TRIAL(a_full_device_is_4),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
