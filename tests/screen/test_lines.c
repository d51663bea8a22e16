/* Line mode as a conversation: lines of keys go in, facts come out, unsaved work is kept aside, every end is told. */
#include "../support.h"

#include "screen/lines.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SAMPLE_PART "samples/front-wing.json"

static char *folder, *path;
static struct talk {
    struct pl_app app;
    char *out;  /* all that was said */
    enum pl_status status;
    struct pl_problems problems;
} t;

/* A home of its own and a copy of the sample in it. */
static int make_home(void **state)
{
    (void)state;
    size_t length;
    char *bytes = read_whole_file(SAMPLE_PART, &length);
    folder = make_folder();
    setenv("HOME", folder, 1);
    setenv("XDG_STATE_HOME", folder, 1);
    setenv("XDG_DATA_HOME", folder, 1);
    setenv("XDG_CONFIG_HOME", folder, 1);
    assert_true(asprintf(&path, "%s/part.json", folder) > 0);
    write_whole_file(path, bytes, length);
    free(bytes);
    return 0;
}

static void end_talk(void)
{
    pl_app_close(&t.app);
    pl_problems_free(&t.problems);
    free(t.out);
    t = (struct talk){0};
}

static int unmake_home(void **state)
{
    (void)state;
    end_talk();
    remove_folder(folder);
    free(path);
    return 0;
}

/* ---- a conversation ---- */

static void open_talk(const char *part)
{
    end_talk();
    t.app = (struct pl_app){.ask = true, .samples = "samples"};
    assert_int_equal(pl_app_open(&t.app, part, &t.problems), PL_OK);
}

static void run_talk(FILE *from, FILE *to)
{
    assert_true(from && to);
    t.status = pl_lines_run(&t.app, from, to, &t.problems);
    fclose(from);
    fclose(to);
}

static FILE *lines_of(const char *in, size_t length)
{
    return length ? fmemopen((void *)(uintptr_t)in, length, "r") : fopen("/dev/null", "r");
}

static void talk_bytes(const char *part, const char *in, size_t length)
{
    size_t out_length;
    open_talk(part);
    run_talk(lines_of(in, length), open_memstream(&t.out, &out_length));
}

static void talk(const char *part, const char *in)
{
    talk_bytes(part, in, strlen(in));
}

static bool has_line(const char *line)
{
    size_t length = strlen(line);
    const char *found = t.out;
    while ((found = strstr(found, line)) && ((found > t.out && found[-1] != '\n') || found[length] != '\n'))
        found++;
    return found;
}

static size_t times(const char *words)
{
    size_t n = 0;
    for (const char *at = t.out; (at = strstr(at, words)); at += strlen(words))
        n++;
    return n;
}

#define assert_said(line)                                   \
    do {                                                    \
        if (!has_line(line))                                \
            fail_msg("\"%s\" is not in:\n%s", line, t.out); \
    } while (0)

static size_t kept_aside(void)
{
    char *recovery = NULL;
    assert_true(asprintf(&recovery, "%s/plyloft/recovery", folder) > 0);
    FILE *there = fopen(recovery, "r");
    size_t n = there ? count_in_folder(recovery) : 0;
    if (there)
        fclose(there);
    free(recovery);
    return n;
}

/* ---- lines in, facts out ---- */

static void the_whole_state_is_said_at_the_start(void **state)
{
    (void)state;
    talk(path, "");
    assert_int_equal(t.status, PL_OK);
    assert_said("part: hill-climb front wing, revision A");
    assert_said("verdict: WING HOLDS 1.08, pit jack: wrinkling, top, 170 mm right");
    assert_int_equal(times("one ply forgotten: "), 1);  /* worked out before it is said */
    assert_said("end: no more input");
}

static void help_is_told_at_the_start_once(void **state)
{
    (void)state;
    talk(path, "Down\n\n");
    assert_int_equal(strncmp(t.out, "keys: ? and Enter gives help; ", 30), 0);
    assert_int_equal(times("keys: "), 1);
    talk(NULL, "");
    assert_int_equal(strncmp(t.out, "keys: in a part ? and Enter gives help; ", 40), 0);
}

/* "nonsense" would move to the next case, open another part, copy a row and move the marker. */
static void a_word_that_is_no_key_is_not_pressed_letter_by_letter(void **state)
{
    (void)state;
    talk(path, "Down nonsense Down\n");
    assert_said("message: \"nonsense\" is no key; text: in front of it types it");
    assert_int_equal(times("message: "), 1);
    assert_said("row: bracket wrap, 2 of 5");
    assert_int_equal(times("row: top cap"), 0);  /* the rest of the line is left out */
    assert_int_equal(times("case shown: "), 1);
    talk(path, "down\nCtrl-7\n12\n\xc3\xa9\xc3\xa9\n");
    assert_int_equal(times(" is no key; text: in front of it types it\n"), 4);
    assert_int_equal(times("changes: "), 1);
    talk(NULL, "Down Down open\n");
    assert_said("message: \"open\" is no key; text: in front of it types it");
    talk(path, "Down Down ++ [[\n");  /* signs are keys, however many */
    assert_int_equal(times(" is no key"), 0);
    assert_said("field: Plies, 8");
}

static void a_word_is_typed_while_something_is(void **state)
{
    (void)state;
    talk(path, "Down Down Enter 12 Enter\nf und Escape\nw new.json Escape\ntext:+\n");
    assert_int_equal(times(" is no key"), 0);
    assert_said("field: Plies, 12");
    assert_said("field: Plies, 13");
    talk(NULL, "Up Up Up Up Up Up Up Up Up Up Enter some.json\n");
    assert_int_equal(times(" is no key"), 0);
    assert_said("typing: some.json");
}

static void the_keys_of_a_line_are_taken_together(void **state)
{
    (void)state;
    talk(path, "Down Down + +\n");
    assert_said("row: top cap, 3 of 5");
    assert_said("field: Plies, 8");
    assert_int_equal(times("field: Plies, 7\n"), 0);
    assert_int_equal(times("row: "), 2);
}

static void a_line_that_changes_nothing_says_nothing(void **state)
{
    (void)state;
    talk(path, "");
    char *first = strdup(t.out);
    talk(path, "Down Up\n[ ]\n1 2\n");
    assert_string_equal(t.out, first);
    free(first);
}

static void an_empty_line_says_everything_once_more(void **state)
{
    (void)state;
    talk(path, "");
    char *twice = NULL, *end = strstr(t.out, "end: "), *state_at = strchr(t.out, '\n') + 1;  /* behind "keys: " */
    assert_true(asprintf(&twice, "%.*s%s", (int)(end - t.out), t.out, state_at) > 0);
    talk(path, "\n");
    assert_string_equal(t.out, twice);
    talk(path, " \t \n");
    assert_string_equal(t.out, twice);
    free(twice);
}

static void a_value_is_typed_over_several_lines(void **state)
{
    (void)state;
    talk(path, "Right Enter\n3\n0\nEnter\n");
    assert_said("typing: 45, selected");
    assert_said("typing: 3");
    assert_said("typing: 30");
    assert_said("typing: ended");
    assert_said("field: Angle, 30 deg");
}

static void ends_of_lines_are_those_of_any_system(void **state)
{
    (void)state;
    talk(path, "Down\r\n+\r\n");
    assert_said("row: bracket wrap, 2 of 5");
    assert_said("field: Plies, 3");
    talk(path, "Escape Down\nDown");  /* the last without one */
    assert_said("row: top cap, 3 of 5");
    talk_bytes(path, "Escape Down\0Down\n", 17);
    assert_said("row: top cap, 3 of 5");
}

static void a_line_too_long_is_refused_and_the_next_one_taken(void **state)
{
    (void)state;
    char *in = NULL;
    assert_true(asprintf(&in, "%070000d\nDown\n", 0) > 0);
    talk(path, in);
    assert_said("message: not taken: a line holds at most 65536 bytes");
    assert_said("row: bracket wrap, 2 of 5");
    assert_said("changes: none");
    free(in);
}

/* ---- messages ---- */

static void a_message_is_said_though_the_next_key_takes_it_away(void **state)
{
    (void)state;
    talk(path, "Home + + u Down\n");
    assert_int_equal(times("message: undone: first skin: Plies"), 1);
    assert_int_equal(times("message: "), 1);
}

static void the_same_message_is_said_anew_in_another_line(void **state)
{
    (void)state;
    talk(path, "- - -\n-\n");
    assert_int_equal(times("message: that is as far as it goes"), 2);
}

static void a_file_changed_by_another_program_is_told_once(void **state)
{
    (void)state;
    static const char in[] = "Down\nDown\nUp\n";
    size_t length;
    open_talk(path);
    write_whole_file(path, "{}", 2);
    run_talk(lines_of(in, strlen(in)), open_memstream(&t.out, &length));
    assert_int_equal(times("message: another program changed the file"), 1);
}

/* ---- unsaved work ---- */

static void unsaved_work_at_the_end_of_input_is_kept_aside_and_offered(void **state)
{
    (void)state;
    talk(path, "+\n");
    assert_int_equal(t.status, PL_OK);
    assert_said("end: no more input; unsaved work is kept aside, and offered when the part is opened again");
    pl_app_close(&t.app);
    t.app = (struct pl_app){0};
    assert_int_equal(kept_aside(), 1);
    talk(path, "r\n");
    assert_said("question: Work that was not saved");
    assert_said("answers: r take up, Delete drop, Escape later");
    assert_int_equal(times("about: Edits of this part were not saved last time, kept 20"), 1);
    assert_said("question: closed");
    assert_said("field: Plies, 3");
}

static void unsaved_work_that_cannot_be_kept_is_told_so(void **state)
{
    (void)state;
    unsetenv("HOME");
    unsetenv("XDG_STATE_HOME");
    talk(path, "+\n");
    assert_int_equal(times("message: unsaved work is not kept aside: "), 1);
    assert_said("end: no more input; unsaved work could not be kept aside and is lost");
}

static void leaving_asks_saves_and_says_so(void **state)
{
    (void)state;
    char *want = NULL;
    assert_true(asprintf(&want, "message: saved: %s", path) > 0);
    talk(path, "+\nq\ns\nDown\n");
    assert_said("question: Not saved");
    assert_said("answers: s save, d leave without, Escape stay");
    assert_said(want);
    assert_said("end: left");
    assert_int_equal(times("row: "), 1);  /* nothing is taken any more */
    assert_int_equal(kept_aside(), 0);
    talk(path, "");
    assert_said("field: Plies, 3");
    free(want);
}

/* ---- the list of parts ---- */

static void the_list_of_parts_is_chosen_from_and_left(void **state)
{
    (void)state;
    talk(NULL, "Down\nUp\nq\n");
    assert_said("page: which part?");
    assert_said("choice: type a path, 1 of 7");
    assert_said("item: 2 of 7, sample, samples/cantilever.json");
    assert_said("choice: sample, samples/cantilever.json, 2 of 7");
    assert_int_equal(times("item: 1 of 7"), 1);
    assert_said("end: left");
}

static void a_part_is_opened_from_the_list_and_left_for_it(void **state)
{
    (void)state;
    char *in = NULL, *recent = NULL;
    assert_true(asprintf(&in, "Enter\ntext:%s.no Enter\nBackspace Backspace Backspace Enter\no\n", path) > 0);
    talk(NULL, in);
    assert_said("typing: nothing yet");
    assert_int_equal(times("message: not opened: "), 1);
    assert_said("verdict: WING HOLDS 1.08, pit jack: wrinkling, top, 170 mm right");
    assert_true(asprintf(&recent, "item: 2 of 8, recent, %s", path) > 0);
    assert_said(recent);
    free(recent);
    free(in);
}

/* ---- ends that are failures ---- */

static void output_that_fails_is_told_and_unsaved_work_kept(void **state)
{
    (void)state;
    static const char in[] = "+\nDown\n";
    talk(path, "");
    size_t room = (size_t)(strstr(t.out, "end: ") - t.out) + 1;  /* for what is said at the start */
    char *held = malloc(room);
    open_talk(path);
    run_talk(lines_of(in, strlen(in)), fmemopen(held, room, "w"));
    free(held);
    assert_int_equal(t.status, PL_CANNOT_WRITE);
    assert_int_equal(t.problems.errors, 1);
    assert_string_equal(t.problems.list[0].rule, "standard output could not be written");
    assert_int_equal(kept_aside(), 1);
}

static void input_that_cannot_be_read_is_told(void **state)
{
    (void)state;
    open_talk(path);
    run_talk(fopen(folder, "r"), fopen("/dev/null", "w"));
    assert_int_equal(t.status, PL_CANNOT_READ);
    assert_string_equal(t.problems.list[0].rule, "standard input could not be read");
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, make_home, unmake_home)
    const struct CMUnitTest tests[] = {
        TRIAL(the_whole_state_is_said_at_the_start),
        TRIAL(help_is_told_at_the_start_once),
        TRIAL(a_word_that_is_no_key_is_not_pressed_letter_by_letter),
        TRIAL(a_word_is_typed_while_something_is),
        TRIAL(the_keys_of_a_line_are_taken_together),
        TRIAL(a_line_that_changes_nothing_says_nothing),
        TRIAL(an_empty_line_says_everything_once_more),
        TRIAL(a_value_is_typed_over_several_lines),
        TRIAL(ends_of_lines_are_those_of_any_system),
        TRIAL(a_line_too_long_is_refused_and_the_next_one_taken),
        TRIAL(a_message_is_said_though_the_next_key_takes_it_away),
        TRIAL(the_same_message_is_said_anew_in_another_line),
        TRIAL(a_file_changed_by_another_program_is_told_once),
        TRIAL(unsaved_work_at_the_end_of_input_is_kept_aside_and_offered),
        TRIAL(unsaved_work_that_cannot_be_kept_is_told_so),
        TRIAL(leaving_asks_saves_and_says_so),
        TRIAL(the_list_of_parts_is_chosen_from_and_left),
        TRIAL(a_part_is_opened_from_the_list_and_left_for_it),
        TRIAL(output_that_fails_is_told_and_unsaved_work_kept),
        TRIAL(input_that_cannot_be_read_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
