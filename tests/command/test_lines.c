/* The program used by lines through pipes: a conversation, a session that saves, what is left when the input or the
 * output ends, and how --lines is asked for. */
#include "program.h"

#include "plyloft/document.h"

#include <poll.h>

/* A home of its own for recent parts and unsaved work, and a copy of the sample. */
static char *part;

static int make_home(void **state)
{
    size_t length;
    char *bytes = read_whole_file(SAMPLE_PART, &length);
    scratch_make(state);
    setenv("HOME", scratch, 1);
    setenv("XDG_STATE_HOME", scratch, 1);
    setenv("XDG_DATA_HOME", scratch, 1);
    setenv("XDG_CONFIG_HOME", scratch, 1);
    part = in_scratch("part.json");
    write_whole_file(part, bytes, length);
    free(bytes);
    return 0;
}

static int unmake_home(void **state)
{
    free(part);
    return scratch_remove(state);
}

/* The program on lines that stand in a file. */
static struct run run_lines(const char *lines)
{
    char *path = in_scratch("keys");
    write_whole_file(path, lines, strlen(lines));
    struct run run = RUN_ON(path, part, "--lines");
    free(path);
    return run;
}

static size_t kept_aside(void)
{
    char *recovery = in_scratch("plyloft/recovery");
    size_t n = access(recovery, F_OK) ? 0 : count_in_folder(recovery);
    free(recovery);
    return n;
}

static double plies_in(const char *path, int item)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    size_t length;
    char *bytes = read_whole_file(path, &length), pointer[64];
    assert_int_equal(pl_document_read(&doc, bytes, length, &problems), PL_OK);
    snprintf(pointer, sizeof pointer, "/elements/0/layup/%d/plies", item);
    double plies = pl_node_number(doc, pl_document_find(doc, pointer));
    pl_document_free(doc);
    pl_problems_free(&problems);
    free(bytes);
    return plies;
}

/* ---- a conversation ---- */

struct talk {
    pid_t pid;
    int to, from;
    char heard[65536];
    size_t n;
};

static void start_talk(struct talk *t)
{
    const char *program = getenv("PLYLOFT") ? getenv("PLYLOFT") : "build/plyloft";
    const char *words[] = {program, "--lines", part, NULL};
    posix_spawn_file_actions_t files;
    int in[2], out[2];
    *t = (struct talk){0};
    assert_true(!pipe(in) && !pipe(out));
    fcntl(in[1], F_SETFD, FD_CLOEXEC);
    fcntl(out[0], F_SETFD, FD_CLOEXEC);
    assert_int_equal(posix_spawn_file_actions_init(&files), 0);
    posix_spawn_file_actions_adddup2(&files, in[0], 0);
    posix_spawn_file_actions_adddup2(&files, out[1], 1);
    posix_spawn_file_actions_addopen(&files, 2, "/dev/null", O_WRONLY, 0);
    if (posix_spawn(&t->pid, program, &files, NULL, (char *const *)(uintptr_t)words, environ))
        fail_msg("%s cannot be run", program);
    posix_spawn_file_actions_destroy(&files);
    close(in[0]);
    close(out[1]);
    t->to = in[1];
    t->from = out[0];
}

/* Listens until those words are heard, for half a minute at most; what was heard before is forgotten. */
static void assert_hears(struct talk *t, const char *words)
{
    t->n = 0;
    t->heard[0] = '\0';
    while (!strstr(t->heard, words)) {
        struct pollfd fd = {.fd = t->from, .events = POLLIN};
        ssize_t n = poll(&fd, 1, 30000) == 1 ? read(t->from, t->heard + t->n, sizeof t->heard - 1 - t->n) : 0;
        if (n <= 0)
            fail_msg("\"%s\" is not said; heard:\n%s", words, t->heard);
        t->n += (size_t)n;
        t->heard[t->n] = '\0';
    }
}

static void says(struct talk *t, const char *line)
{
    assert_int_equal(write(t->to, line, strlen(line)), strlen(line));
}

static void each_line_is_answered_before_the_next_is_sent(void **state)
{
    (void)state;
    static struct talk t;
    start_talk(&t);
    assert_hears(&t, "twist there: ");
    says(&t, "Down Down\n");
    assert_hears(&t, "row: top cap, 3 of 5\n");
    says(&t, "+\n");
    assert_hears(&t, "verdict: WING HOLDS 1.09, ");
    says(&t, "u\n");
    assert_hears(&t, "changes: none\n");
    says(&t, "q\n");
    assert_hears(&t, "end: left\n");
    close(t.to);
    int status = wait_for(t.pid, 60);
    close(t.from);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
}

static void a_killed_conversation_leaves_its_work_aside(void **state)
{
    (void)state;
    static const int signals[] = {SIGTERM, SIGHUP, SIGINT, SIGKILL};
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++) {
        static struct talk t;
        start_talk(&t);
        assert_hears(&t, "twist there: ");
        says(&t, i ? "Escape +\n" : "+\n");  /* later than the offer of what the one before left */
        assert_hears(&t, "field: Plies, 3\n");
        assert_int_equal(kept_aside(), i + 1);
        kill(t.pid, signals[i]);
        wait_for(t.pid, 60);
        close(t.to);
        close(t.from);
        assert_int_equal(kept_aside(), i + 1);
    }
}

/* ---- whole sessions ---- */

static void a_ply_is_added_and_saved_under_a_new_name(void **state)
{
    (void)state;
    char *lines = NULL, *made = in_scratch("made.json"), *saved = NULL;
    assert_true(asprintf(&lines, "Down Down\n+\nw\ntext:%s Enter\nq\n", made) > 0);
    assert_true(asprintf(&saved, "message: saved: %s\n", made) > 0);
    double before = plies_in(part, 2);
    struct run run = run_lines(lines);
    assert_status(&run, 0);
    assert_string_equal(run.err, "");
    assert_has(run.out, "field: Plies, 7\n");
    assert_has(run.out, "question: Save under another name\n");
    assert_has(run.out, saved);
    assert_has(run.out, "changes: none\n");
    assert_has(run.out, "end: left\n");
    assert_close(plies_in(made, 2), before + 1, 0);
    assert_close(plies_in(part, 2), before, 0);
    assert_int_equal(kept_aside(), 0);
    run_free(&run);
    free(saved);
    free(lines);
    free(made);
}

static void unsaved_work_at_the_end_of_input_is_offered_by_the_next_run(void **state)
{
    (void)state;
    struct run run = run_lines("Down Down\n+\n");
    assert_status(&run, 0);
    assert_has(run.out, "end: no more input; unsaved work is kept aside");
    run_free(&run);
    assert_close(plies_in(part, 2), 6, 0);
    assert_int_equal(kept_aside(), 1);
    run = run_lines("r\nCtrl-S\n");
    assert_status(&run, 0);
    assert_has(run.out, "question: Work that was not saved\n");
    assert_has(run.out, "message: saved: ");
    assert_has(run.out, "end: no more input\n");
    run_free(&run);
    assert_close(plies_in(part, 2), 7, 0);
    assert_int_equal(kept_aside(), 0);
}

static void no_line_holds_a_control_byte(void **state)
{
    (void)state;
    struct run run = run_lines("1\n2\n3\n4\n5\n?\nEscape\nm\nEscape\n2 Enter\nx\nEnter\nEscape\n\nq\n");
    assert_status(&run, 0);
    for (const char *c = run.out; *c; c++)
        assert_true((unsigned char)*c >= ' ' || *c == '\n');
    run_free(&run);
}

static void a_part_that_cannot_be_judged_is_opened_to_be_mended(void **state)
{
    (void)state;
    char *text = read_whole_file(part, NULL), *plies = strstr(text, "\"plies\": 2");
    assert_non_null(plies);
    plies[9] = '0';
    write_whole_file(part, text, strlen(text));
    struct run run = run_lines("+\n");
    assert_status(&run, 0);
    assert_has(run.out, "verdict: CANNOT BE JUDGED: first skin, plies: must be ");
    assert_has(run.out, "figures: no figures yet\n");
    assert_has(run.out, "verdict: WING FALLS SHORT ");
    run_free(&run);
    free(text);
}

static void what_cannot_be_opened_is_refused_as_elsewhere(void **state)
{
    (void)state;
    char *nowhere = in_scratch("nowhere.json");
    struct run run = RUN(nowhere, "--lines");
    assert_status(&run, 4);
    assert_has(run.err, "cannot be opened");
    assert_string_equal(run.out, "");
    run_free(&run);
    write_whole_file(nowhere, "{\"a\": }", 7);
    run = RUN("--lines", nowhere);
    assert_status(&run, 3);
    assert_has(run.err, "line 1, column ");
    run_free(&run);
    free(nowhere);
}

static void without_a_part_there_is_the_list(void **state)
{
    (void)state;
    struct run run = RUN("--lines");
    assert_status(&run, 0);
    assert_has(run.out, "page: which part?\n");
    assert_has(run.out, "choice: type a path, 1 of ");
    assert_has(run.out, "end: no more input\n");
    run_free(&run);
}

/* ---- output that nobody takes ---- */

static void output_that_cannot_be_written_is_4(void **state)
{
    (void)state;
    struct run run = run_with(NULL, "/dev/full", (const char *const[]){part, "--lines", NULL});
    assert_status(&run, 4);
    assert_string_equal(run.err, "plyloft: standard output could not be written\n");
    run_free(&run);
}

/* A pipe closed in the middle of a session: told as an error, not by a signal, and the work is kept. */
static void a_closed_pipe_is_4_and_keeps_unsaved_work(void **state)
{
    (void)state;
    static struct talk t;
    start_talk(&t);
    assert_hears(&t, "twist there: ");
    close(t.from);
    says(&t, "+\n");
    int status = wait_for(t.pid, 60);
    close(t.to);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 4);
    assert_int_equal(kept_aside(), 1);
}

/* ---- how it is asked for ---- */

static void assert_usage(const char *words, const char *const *arguments)
{
    struct run run = run_with(NULL, NULL, arguments);
    assert_status(&run, 2);
    assert_string_equal(run.out, "");
    assert_has(run.err, words);
    run_free(&run);
}

#define USAGE(words, ...) assert_usage(words, (const char *const[]){__VA_ARGS__, NULL})

static void lines_takes_one_part_or_none(void **state)
{
    (void)state;
    USAGE("--lines takes one part file, or none", part, "--lines", "extra");
    USAGE("--lines takes one part file, or none", "--lines", part, "extra");
    USAGE("a part file stands alone", part, "extra", "--lines");
    USAGE("--wide is not an option", "--lines", "--wide");
    USAGE("--wide is not an option", "--wide", "--lines");
    USAGE("--lines reads keys from standard input, so the part must be a file", "-", "--lines");
    USAGE("--lines reads keys from standard input, so the part must be a file", "--lines", "-");
    USAGE("--lines: is not an option", "check", "--lines", part);
}

static void help_names_line_mode(void **state)
{
    (void)state;
    struct run run = RUN("--help");
    assert_status(&run, 0);
    assert_has(run.out, "plyloft [PART] --lines");
    run_free(&run);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, make_home, unmake_home)
    const struct CMUnitTest tests[] = {
        TRIAL(each_line_is_answered_before_the_next_is_sent),
        TRIAL(a_killed_conversation_leaves_its_work_aside),
        TRIAL(a_ply_is_added_and_saved_under_a_new_name),
        TRIAL(unsaved_work_at_the_end_of_input_is_offered_by_the_next_run),
        TRIAL(no_line_holds_a_control_byte),
        TRIAL(a_part_that_cannot_be_judged_is_opened_to_be_mended),
        TRIAL(what_cannot_be_opened_is_refused_as_elsewhere),
        TRIAL(without_a_part_there_is_the_list),
        TRIAL(output_that_cannot_be_written_is_4),
        TRIAL(a_closed_pipe_is_4_and_keeps_unsaved_work),
        TRIAL(lines_takes_one_part_or_none),
        TRIAL(help_names_line_mode),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
