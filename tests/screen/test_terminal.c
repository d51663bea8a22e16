/* The terminal as a real one sees it: opened, painted, waited for, resized, stopped, hung up on, put back. */
#include "teller.h"

#include <fcntl.h>
#include <sys/resource.h>

/* ---- opening ---- */

static void assert_refused(const struct surroundings *s, void (*body)(FILE *), enum pl_status status, const char *words)
{
    struct pseudo p;
    char start_of[32];
    struct termios after;
    start(&p, s, body);
    const char *said = report(&p);
    assert_non_null(said);
    snprintf(start_of, sizeof start_of, "refused %d: ", (int)status);
    assert_memory_equal(said, start_of, strlen(start_of));
    if (!strstr(said, words))
        fail_msg("\"%s\" does not say \"%s\"", said, words);
    assert_int_equal(tcgetattr(p.master, &after), 0);
    assert_true(same_modes(&after, &p.found));
    assert_int_equal(finish(&p), 0);
    assert_string_equal(output_of(&p), "");
    forget(&p);
}

static void a_terminal_that_cannot_show_pages_is_refused_with_a_sentence(void **state)
{
    (void)state;
    assert_refused(&(struct surroundings){.term = "dumb"}, events, PL_CANNOT_WRITE, "(found dumb)");
    assert_refused(&(struct surroundings){.term = NULL}, events, PL_CANNOT_WRITE, "TERM is not set");
    assert_refused(&(struct surroundings){.term = ""}, events, PL_CANNOT_WRITE, "TERM is not set");
    assert_refused(&(struct surroundings){.term = "no-such-terminal"}, events, PL_CANNOT_WRITE,
                   "(found no-such-terminal)");
    assert_refused(&(struct surroundings){.term = "unknown"}, events, PL_CANNOT_WRITE, "(found unknown)");
}

static void events_without_input(FILE *out)
{
    int null = open("/dev/null", O_RDWR);
    dup2(null, STDIN_FILENO);
    events(out);
}

static void events_without_output(FILE *out)
{
    int null = open("/dev/null", O_RDWR);
    dup2(null, STDOUT_FILENO);
    events(out);
}

static void input_or_output_that_is_no_terminal_is_refused(void **state)
{
    (void)state;
    assert_refused(&usual, events_without_input, PL_CANNOT_READ, "standard input");
    assert_refused(&usual, events_without_output, PL_CANNOT_WRITE, "standard output");
}

static void say_caps(FILE *out)
{
    if (!open_or_say(out, false))
        return;
    struct pl_terminal_caps caps = pl_terminal_caps();
    int rows, columns;
    pl_terminal_size(&rows, &columns);
    paint_words("bench");
    pl_terminal_close();
    fprintf(out, "plain %d colour %d mouse %d size %d %d\n", caps.plain, caps.colour, caps.mouse, rows, columns);
}

/* True when the bytes set a colour: ECMA-48's SGR with a parameter 30 to 49 or 90 to 107. */
static bool sets_colour(const char *bytes)
{
    while ((bytes = strstr(bytes, "\033["))) {
        const char *end = bytes += 2;
        while (*end && strchr("0123456789;", *end))
            end++;
        if (*end != 'm')
            continue;
        for (const char *at = bytes; at < end; at++) {
            int value = atoi(at);
            if ((value >= 30 && value <= 49) || (value >= 90 && value <= 107))
                return true;
            while (at < end && *at != ';')
                at++;
        }
    }
    return false;
}

static bool only_ascii(const char *bytes)
{
    while (*bytes && (unsigned char)*bytes < 0x80)
        bytes++;
    return !*bytes;
}

static void assert_caps(const struct surroundings *s, const char *want, bool colour, bool plain)
{
    struct pseudo p;
    start(&p, s, say_caps);
    assert_reports(&p, want);
    assert_int_equal(finish(&p), 0);
    assert_non_null(strstr(output_of(&p), "bench"));
    assert_int_equal(sets_colour(output_of(&p)), colour);
    assert_int_equal(only_ascii(output_of(&p)), plain);
    forget(&p);
}

static void the_terminal_and_the_surroundings_decide_colour_and_characters(void **state)
{
    (void)state;
    assert_caps(&usual, "plain 0 colour 1 mouse 0 size 24 80", true, false);
    assert_caps(&(struct surroundings){.term = "xterm-256color", .rows = 61, .columns = 203},
                "plain 0 colour 1 mouse 0 size 61 203", true, false);
    assert_caps(&(struct surroundings){.term = "xterm", .no_color = "1"}, "plain 0 colour 0 mouse 0 size 24 80", false,
                false);
    assert_caps(&(struct surroundings){.term = "xterm", .no_color = ""}, "plain 0 colour 1 mouse 0 size 24 80", true,
                false);
    assert_caps(&(struct surroundings){.term = "xterm", .locale = "C"}, "plain 1 colour 1 mouse 0 size 24 80", true,
                true);
    assert_caps(&(struct surroundings){.term = "vt100"}, "plain 0 colour 0 mouse 0 size 24 80", false, false);
    assert_caps(&(struct surroundings){.term = "linux"}, "plain 1 colour 1 mouse 0 size 24 80", true, true);
}

static void paint_unplain(FILE *out)
{
    struct pl_frame f = {0};
    if (!open_or_say(out, false) || !pl_frame_resize(&f, 2, 20))
        return;
    pl_frame_text(&f, 0, 0, PL_ROLE_TEXT, "a翼–e\u0301");
    pl_terminal_paint(&f);
    pl_terminal_close();
    pl_frame_free(&f);
}

static void a_frame_that_is_not_plain_is_spelled_in_ascii_where_the_locale_has_no_more(void **state)
{
    (void)state;
    struct pseudo p;
    start(&p, &(struct surroundings){.term = "xterm", .locale = "C"}, paint_unplain);
    assert_int_equal(finish(&p), 0);
    assert_true(only_ascii(output_of(&p)));
    assert_non_null(strstr(output_of(&p), "a?\?-e"));
    forget(&p);
}

/* ---- waiting ---- */

static void time_out_once(FILE *out)
{
    struct pl_event e;
    if (!open_or_say(out, false))
        return;
    double started = seconds();
    pl_terminal_wait(&e, 80);
    double took = seconds() - started;
    say(out, &e);
    fprintf(out, "%s\n", took >= 0.08 && took < 2 ? "in time" : "out of time");
    pl_terminal_wait(&e, 0);
    say(out, &e);
    pl_terminal_close();
    pl_terminal_wait(&e, 0);
    say(out, &e);
}

static void waiting_ends_when_the_time_is_over(void **state)
{
    (void)state;
    struct pseudo p;
    start(&p, &usual, time_out_once);
    assert_reports(&p, "timeout");
    assert_reports(&p, "in time");
    assert_reports(&p, "timeout");
    assert_reports(&p, "hangup");  /* a closed terminal has no more to say */
    assert_int_equal(finish(&p), 0);
    forget(&p);
}

/* ---- signals and ends ---- */

static void a_resize_is_told_and_painted_whole(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events);
    struct winsize w = {.ws_row = 30, .ws_col = 100};
    assert_int_equal(ioctl(p.master, TIOCSWINSZ, &w), 0);
    kill(p.child, SIGWINCH);
    const char *said;
    while (strcmp(said = report(&p), "size 30 100") != 0)  /* the system's own signal may come a moment before */
        assert_string_equal(said, "size 24 80");
    type(&p, "x");
    while (strcmp(said = report(&p), "key x") != 0)
        assert_string_equal(said, "size 30 100");
    const char *resized = strstr(output_of(&p), "resized"), *first = strstr(output_of(&p), "\033[2J");
    assert_non_null(resized);
    assert_non_null(first);
    assert_non_null(strstr(first + 1, "\033[2J"));
    end_with_q(&p);
}

static void signals_become_events(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events);
    kill(p.child, SIGINT);
    assert_reports(&p, "key Ctrl-C");
    kill(p.child, SIGTERM);
    assert_reports(&p, "terminate");
    assert_int_equal(finish(&p), 0);
    assert_non_null(strstr(output_of(&p), "\033[?1049l"));
    forget(&p);
}

static void a_hang_up_signal_is_told_and_the_terminal_put_back(void **state)
{
    (void)state;
    struct pseudo p;
    struct termios after;
    begin(&p, &usual, events);
    kill(p.child, SIGHUP);
    assert_reports(&p, "hangup");
    assert_int_equal(finish(&p), 0);
    assert_int_equal(tcgetattr(p.master, &after), 0);
    assert_true(same_modes(&after, &p.found));
    assert_non_null(strstr(output_of(&p), "\033[?1049l"));
    forget(&p);
}

static void events_under_nohup(FILE *out)
{
    signal(SIGHUP, SIG_IGN);
    events(out);
}

static void assert_hangs_up(void (*body)(FILE *))
{
    struct pseudo p;
    begin(&p, &usual, body);
    close(p.master);
    p.master = -1;
    assert_reports(&p, "hangup");
    assert_null(report(&p));
    assert_int_equal(finish(&p), 0);
    forget(&p);
}

static void a_hang_up_signal_that_was_ignored_at_the_start_stays_so(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, events_under_nohup);
    kill(p.child, SIGHUP);
    assert_typed(&p, "x", "x");
    end_with_q(&p);
}

static void a_terminal_that_goes_away_is_a_hang_up_signal_or_not(void **state)
{
    (void)state;
    assert_hangs_up(events);
    assert_hangs_up(events_under_nohup);
}

/* A shell with one job: tells when it stops and how it left the terminal, and lets it go on. */
static void shell_with_one_job(FILE *out)
{
    struct termios found, now;
    int status;
    tcgetattr(STDIN_FILENO, &found);
    pid_t job = fork();
    if (job == 0) {
        setpgid(0, 0);
        while (tcgetpgrp(STDIN_FILENO) != getpid())
            usleep(1000);
        events(out);
        fclose(out);
        _exit(0);
    }
    signal(SIGTTOU, SIG_IGN);
    setpgid(job, job);
    tcsetpgrp(STDIN_FILENO, job);
    while (waitpid(job, &status, WUNTRACED) == job && WIFSTOPPED(status)) {
        tcgetattr(STDIN_FILENO, &now);
        fprintf(out, "stopped by %s, modes %s\n", WSTOPSIG(status) == SIGTSTP ? "SIGTSTP" : "SIGSTOP",
                same_modes(&found, &now) ? "as found" : "left changed");
        tcsetattr(STDIN_FILENO, TCSANOW, &found);
        kill(-job, SIGCONT);
    }
    tcgetattr(STDIN_FILENO, &now);
    fprintf(out, "modes %s\n", same_modes(&found, &now) ? "as found" : "left changed");
}

static size_t count(const char *text, const char *what)
{
    size_t n = 0;
    for (; (text = strstr(text, what)); text++)
        n++;
    return n;
}

static void ctrl_z_gives_the_terminal_back_and_going_on_takes_it_again(void **state)
{
    (void)state;
    struct pseudo p;
    begin(&p, &usual, shell_with_one_job);
    type(&p, "\032");
    assert_reports(&p, "stopped by SIGTSTP, modes as found");
    assert_reports(&p, "size 24 80");
    type(&p, "\023x");  /* Ctrl-S is a key again */
    assert_reports(&p, "key Ctrl-S");
    assert_reports(&p, "key x");
    assert_int_equal(count(output_of(&p), "\033[?1049h"), 2);
    assert_int_equal(count(output_of(&p), "\033[?1049l"), 1);
    assert_int_equal(count(output_of(&p), "resized"), 1);
    type(&p, "q");
    assert_reports(&p, "key q");
    assert_reports(&p, "modes as found");
    assert_int_equal(finish(&p), 0);
    forget(&p);
}

static void say_pid_then_events(FILE *out)
{
    fprintf(out, "%d\n", (int)getpid());
    events(out);
}

static void a_stop_that_cannot_be_caught_is_made_good_on_going_on(void **state)
{
    (void)state;
    struct pseudo p;
    start(&p, &usual, say_pid_then_events);
    report(&p);
    assert_reports(&p, "ready");
    kill(p.child, SIGSTOP);
    int status;
    assert_int_equal(waitpid(p.child, &status, WUNTRACED), p.child);
    assert_true(WIFSTOPPED(status));
    assert_int_equal(tcsetattr(p.master, TCSANOW, &p.found), 0);  /* as a shell would */
    kill(p.child, SIGCONT);
    assert_reports(&p, "size 24 80");
    type(&p, "\023");
    assert_reports(&p, "key Ctrl-S");
    end_with_q(&p);
}

static void leave_by_exit(FILE *out)
{
    if (!open_or_say(out, false))
        return;
    paint_words("bench");
    exit(3);
}

static void leave_by_abort(FILE *out)
{
    setrlimit(RLIMIT_CORE, &(struct rlimit){0, 0});
    if (!open_or_say(out, true))
        return;
    paint_words("bench");
    abort();
}

static void leave_by_kill(FILE *out)
{
    setrlimit(RLIMIT_CORE, &(struct rlimit){0, 0});
    signal(SIGSEGV, SIG_DFL);  /* a sanitizer's own handler would end otherwise */
    if (!open_or_say(out, false))
        return;
    paint_words("bench");
    raise(SIGSEGV);
}

static int leaves_restored(void (*body)(FILE *))
{
    struct pseudo p;
    struct termios after;
    start(&p, &usual, body);
    int status = finish(&p);
    assert_int_equal(tcgetattr(p.master, &after), 0);
    assert_true(same_modes(&after, &p.found));
    assert_non_null(strstr(output_of(&p), "bench"));
    assert_non_null(strstr(output_of(&p), "\033[?1049l"));
    assert_non_null(strstr(output_of(&p), "\033[?25h"));
    forget(&p);
    return status;
}

static void the_terminal_is_put_back_at_exit_and_in_a_crash(void **state)
{
    (void)state;
    int status = leaves_restored(leave_by_exit);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 3);
    status = leaves_restored(leave_by_abort);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGABRT);
    status = leaves_restored(leave_by_kill);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGSEGV);
}

static void open_twice(FILE *out)
{
    for (int i = 0; i < 2; i++) {
        if (!open_or_say(out, false))
            return;
        paint_words("bench");
        pl_terminal_close();
    }
    fprintf(out, "done\n");
}

static void a_closed_terminal_can_be_opened_again(void **state)
{
    (void)state;
    struct pseudo p;
    start(&p, &usual, open_twice);
    assert_reports(&p, "done");
    assert_int_equal(finish(&p), 0);
    assert_int_equal(count(output_of(&p), "bench"), 2);
    forget(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_terminal_that_cannot_show_pages_is_refused_with_a_sentence),
        cmocka_unit_test(input_or_output_that_is_no_terminal_is_refused),
        cmocka_unit_test(the_terminal_and_the_surroundings_decide_colour_and_characters),
        cmocka_unit_test(a_frame_that_is_not_plain_is_spelled_in_ascii_where_the_locale_has_no_more),
        cmocka_unit_test(waiting_ends_when_the_time_is_over),
        cmocka_unit_test(a_resize_is_told_and_painted_whole),
        cmocka_unit_test(signals_become_events),
        cmocka_unit_test(a_hang_up_signal_is_told_and_the_terminal_put_back),
        cmocka_unit_test(a_hang_up_signal_that_was_ignored_at_the_start_stays_so),
        cmocka_unit_test(a_terminal_that_goes_away_is_a_hang_up_signal_or_not),
        cmocka_unit_test(ctrl_z_gives_the_terminal_back_and_going_on_takes_it_again),
        cmocka_unit_test(a_stop_that_cannot_be_caught_is_made_good_on_going_on),
        cmocka_unit_test(the_terminal_is_put_back_at_exit_and_in_a_crash),
        cmocka_unit_test(a_closed_terminal_can_be_opened_again),
    };
    return cmocka_run_group_tests_name("terminal", tests, NULL, NULL);
}
