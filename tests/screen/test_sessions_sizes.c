/* Whatever a person is at, the window may change its size and the program may be stopped and go on: the page is the
 * one that the same keys give on a terminal of that size, and nothing typed is lost. */
#include "seat.h"

#include "sessions.h"

static const struct surroundings usual = {.term = "xterm-256color", .columns = 80, .rows = 24};
static char *part_text;

/* Does something to the seat at every row of the sessions; the page must be the same as before it. */
static void at_every_row(void (*body)(FILE *), void (*begin)(struct seat *), void (*meanwhile)(struct seat *, const char *name))
{
    static struct seat seat;
    for (int i = 0; i < SESSION_ROWS; i++) {
        const struct session_row *row = &session_rows[i];
        if (i == 0 || !session_rows[i - 1].back) {
            sit_as(&seat, &usual, part_text, body);
            begin(&seat);
            await(&seat, row->name, "WING");
        }
        press(&seat, row->keys);
        char *want = told(part_text, &usual, seat.keys.text);
        assert_picture(&seat, row->name, want);
        meanwhile(&seat, row->name);
        assert_picture(&seat, row->name, want);
        free(want);
        if (row->back)
            press(&seat, row->back);
        else
            stand_up(&seat);
    }
    seat_free(&seat);
}

/* ---- sizes ---- */

static void nothing(struct seat *seat)
{
    (void)seat;
}

static void change_size(struct seat *seat, const char *name)
{
    static const struct { int columns, rows; } sizes[] = {{132, 43}, {40, 20}, {30, 10}, {80, 24}};
    for (int i = 0; i < 4; i++) {
        set_size(seat, sizes[i].columns, sizes[i].rows);
        if (i < 3)
            assert_as_told(seat, name);
    }
}

static void a_window_changes_its_size_in_every_session(void **state)
{
    (void)state;
    at_every_row(be_program, nothing, change_size);
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

static void stop_and_go_on(struct seat *seat, const char *name)
{
    size_t before = seat->p.output.length;
    type(&seat->p, "\032");  /* Ctrl-Z */
    assert_reports(&seat->p, "stopped");
    while (!strstr(seat->p.output.text + before, "says the shell"))
        if (!look_for(seat, PICTURE_WAIT_MS))
            fail_msg("%s: nothing is seen of the shell", name);
}

static void a_stop_and_going_on_leave_every_session_as_it_was(void **state)
{
    (void)state;
    at_every_row(be_shell, know_job, stop_and_go_on);
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
        cmocka_unit_test(a_window_changes_its_size_in_every_session),
        cmocka_unit_test(a_stop_and_going_on_leave_every_session_as_it_was),
    };
    return cmocka_run_group_tests_name("sizes of sessions", tests, set_up, take_down);
}
