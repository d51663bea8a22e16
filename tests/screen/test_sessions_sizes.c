/* Whatever a person is at, the window may change its size and the program may be stopped and go on: the page is the
 * one that the same keys give on a terminal of that size, and nothing typed is lost. */
#include "sessions.h"

static const struct surroundings usual = {.term = "xterm-256color", .columns = 80, .rows = 24};

static void walk_all(void (*body)(FILE *), void (*begin)(struct seat *), row_check *check)
{
    char *known[SESSION_ROWS_MOST] = {NULL};
    for (int i = 0; i < SESSION_LISTS; i++) {
        walk_through(&session_lists[i], &usual, body, begin, check, known);
        free_known(known);
    }
}

/* ---- sizes ---- */

static void change_size(struct seat *seat, const char *name, const char *want)
{
    static const struct { int columns, rows; } sizes[] = {{30, 10}, {132, 43}, {40, 20}};
#if defined(__SANITIZE_ADDRESS__)
    enum { SIZES = 1 };  /* each step takes several times as long there */
#else
    enum { SIZES = 3 };
#endif
    for (int i = 0; i < SIZES; i++) {
        set_size(seat, sizes[i].columns, sizes[i].rows);
        assert_as_told(seat, name);
    }
    set_size(seat, usual.columns, usual.rows);
    assert_picture(seat, name, want);
}

static void a_window_changes_its_size_in_every_session(void **state)
{
    (void)state;
    walk_all(be_program, NULL, change_size);
}

/* ---- stops ---- */

/* A shell with one job: tells when it stops, writes over the picture, and lets it go on. */
static void be_shell(FILE *out)
{
    struct termios found;
    int status = 0;
    tcgetattr(STDIN_FILENO, &found);
    pid_t job = fork();
    if (job == 0) {
        setpgid(0, 0);
        while (tcgetpgrp(STDIN_FILENO) != getpid())
            usleep(1000);
        be_program(out);
    }
    signal(SIGTTOU, SIG_IGN);
    setpgid(job, job);
    fprintf(out, "%d\n", (int)job);
    tcsetpgrp(STDIN_FILENO, job);
    while (waitpid(job, &status, WUNTRACED) == job && WIFSTOPPED(status)) {
        tcsetpgrp(STDIN_FILENO, getpid());
        tcsetattr(STDIN_FILENO, TCSANOW, &found);
        if (write(STDOUT_FILENO, "\033[Hstopped, says the shell\n", 27) != 27)
            _exit(7);
        fprintf(out, "stopped\n");
        tcsetpgrp(STDIN_FILENO, job);
        kill(-job, SIGCONT);
    }
    fclose(out);
    _exit(WIFEXITED(status) ? WEXITSTATUS(status) : 1);
}

static void know_job(struct seat *seat)
{
    seat->program = (pid_t)atoi(report(&seat->p));
    assert_true(seat->program > 1);
}

static void stop_and_go_on(struct seat *seat, const char *name, const char *want)
{
    size_t before = seat->p.output.length;
    type(&seat->p, "\032");  /* Ctrl-Z */
    assert_reports(&seat->p, "stopped");
    while (!strstr(seat->p.output.text + before, "says the shell"))
        if (!look_for(seat, PICTURE_WAIT_MS))
            fail_msg("%s: nothing is seen of the shell", name);
    assert_picture(seat, name, want);
}

static void a_stop_and_going_on_leave_every_session_as_it_was(void **state)
{
    (void)state;
    walk_all(be_shell, know_job, stop_and_go_on);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_window_changes_its_size_in_every_session),
        cmocka_unit_test(a_stop_and_going_on_leave_every_session_as_it_was),
    };
    return cmocka_run_group_tests_name("sizes of sessions", tests, seats_set_up, seats_take_down);
}
