/* Work is never lost: the terminal closed, the program killed, another program at the same file.  What the next
 * session asks, and what comes of every answer, is the page that the same session gives without a terminal. */
#include "sessions.h"

#include <dirent.h>

#include "plyloft/frame.h"
#include "plyloft/recovery.h"

#include "screen/app.h"

static const struct surroundings usual = {.term = "xterm-256color", .columns = 80, .rows = 24};
static struct surroundings now;  /* of the program to be started */
static char *part_text;
static struct seat seat;

static void in_every_way(void (*look)(void))
{
    static const struct { int columns, rows; } sizes[] = {{40, 20}, {80, 24}, {132, 43}};
    for (int i = 0; i < 12; i++) {
        now = usual;
        now.locale = i & 1 ? "C" : NULL;
        now.no_color = i & 2 ? "1" : NULL;
        now.columns = sizes[i / 4].columns;
        now.rows = sizes[i / 4].rows;
        look();
    }
    now = usual;
}

/* ---- what is told without a terminal, with questions asked ---- */

static void press_in(struct pl_app *app, const char *keys)
{
    struct pl_keys_reader reader;
    pl_keys_start(&reader, keys);
    for (int key = pl_keys_next(&reader); key != PL_KEY_NONE; key = pl_keys_next(&reader))
        pl_app_key(app, key);
    while (pl_app_idle(app)) {
    }
}

static char *page_of(struct pl_app *app)
{
    struct pl_frame f = {0};
    struct pl_buffer text = {0};
    f.plain = is_plain(&now);
    assert_true(pl_frame_resize(&f, now.rows, now.columns));
    pl_app_view(app, &f);
    pl_frame_print(&f, &text);
    assert_false(text.failed);
    pl_frame_free(&f);
    return text.text;
}

/* The page after keys, a change of the file by another program (NULL: none), and more keys; freed by the caller. */
static char *drawn(const char *folder, const char *home, bool ask, const char *keys, const char *changed,
                   const char *more)
{
    struct pl_app app = {.samples = "samples", .ask = ask};
    struct pl_problems problems = {0};
    char here[4096], *path = scratch_path(folder, NULL);
    set_home(home);
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(path), 0);
    assert_int_equal(pl_app_open(&app, "part.json", &problems), PL_OK);
    press_in(&app, keys);
    if (changed)
        put_file(folder, "part.json", changed);
    press_in(&app, more);
    char *page = page_of(&app);
    pl_app_close(&app);
    assert_int_equal(chdir(here), 0);
    pl_problems_free(&problems);
    free(path);
    return page;
}

/* ---- recovery ---- */

/* Whole ones: a new file that is still being written does not count. */
static size_t recoveries(void)
{
    char *folder = scratch_path("seat-kept", "state/plyloft/recovery");
    DIR *dir = opendir(folder);
    size_t n = 0;
    for (struct dirent *entry = dir ? readdir(dir) : NULL; entry; entry = readdir(dir)) {
        size_t length = strlen(entry->d_name);
        n += length > 5 && !strcmp(entry->d_name + length - 5, ".json");
    }
    if (dir)
        closedir(dir);
    free(folder);
    return n;
}

static void edit(void (*body)(FILE *))
{
    sit_as(&seat, &now, part_text, body);
    await(&seat, "the edit", "WING");
    press(&seat, "+");
    assert_as_told(&seat, "the edit");
}

static int wait_for_end(void)
{
    int status = wait_for(seat.p.child, PICTURE_WAIT_MS / 1e3);
    close(seat.p.reports);
    forget(&seat.p);
    return status;
}

static void close_terminal(void)
{
    close(seat.p.master);
    seat.p.master = -1;
    int status = wait_for_end();
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

/* A recovery that is whole, and not a file that is still being written. */
static bool is_kept(void)
{
    struct pl_recovered_list list = {0};
    struct pl_problems problems = {0};
    set_home("seat-kept");
    pl_recovery_list(&list, &problems);
    bool any = list.count;
    pl_recovered_list_free(&list);
    pl_problems_free(&problems);
    return any;
}

static void kill_once_kept(void)
{
    double end = seconds() + PICTURE_WAIT_MS / 1e3;
    while (!is_kept() && seconds() < end)
        look_for(&seat, 50);
    kill(seat.p.child, SIGKILL);
    int status = wait_for_end();
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
}

static void assert_asks(void)
{
    assert_int_equal(recoveries(), 1);
    char *want = drawn("seat", "seat-kept", true, "", NULL, "");
    assert_has(want, "Work that was not saved");
    seat.s = now;
    sit_again(&seat);
    assert_picture(&seat, "the next start", want);
    check_looks(&seat, "the next start", want);
    free(want);
}

static void assert_starts_as_ever(void)
{
    char *path = scratch_path("seat", "part.json"), *text = read_whole_file(path, NULL);
    char *want = told(text, &now, "");
    sit_again(&seat);
    assert_picture(&seat, "the start after it", want);
    stand_up(&seat);
    free(want);
    free(text);
    free(path);
}

/* One answer after the other: later, taken up and saved. */
static void assert_taken_up(void)
{
    assert_asks();
    press(&seat, "Escape");
    stand_up(&seat);
    assert_asks();
    press(&seat, "r");
    char *want = told(part_text, &now, "+");
    assert_picture(&seat, "taken up", want);
    free(want);
    press(&seat, "Ctrl-S");
    await(&seat, "saved", "saved");
    assert_int_equal(recoveries(), 0);
    stand_up(&seat);
    assert_starts_as_ever();
    seat_free(&seat);
}

static void a_closed_terminal_leaves_the_edits_to_be_taken_up(void **state)
{
    (void)state;
    edit(be_program);
    close_terminal();
    assert_taken_up();
}

static void be_program_under_nohup(FILE *out)
{
    signal(SIGHUP, SIG_IGN);
    be_program(out);
}

static void so_does_one_closed_on_a_program_that_heeds_no_hang_up(void **state)
{
    (void)state;
    edit(be_program_under_nohup);
    close_terminal();
    assert_taken_up();
}

static void a_killed_program_leaves_the_edits_of_more_than_a_second_ago(void **state)
{
    (void)state;
    edit(be_program);
    kill_once_kept();
    assert_taken_up();
}

static void a_program_asked_to_end_leaves_them_too_and_they_may_be_dropped(void **state)
{
    (void)state;
    edit(be_program);
    stand_up(&seat);
    assert_asks();
    press(&seat, "d Delete");  /* a key of every day drops nothing; behind an answer Delete would take a row away */
    char *want = told(part_text, &now, "");
    assert_picture(&seat, "dropped", want);
    free(want);
    assert_int_equal(recoveries(), 0);
    stand_up(&seat);
    assert_starts_as_ever();
    seat_free(&seat);
}

static void ask_and_leave(void)
{
    assert_asks();
    press(&seat, "Escape");
    stand_up(&seat);
}

static void the_question_about_them_is_seen_as_told_in_every_way(void **state)
{
    (void)state;
    edit(be_program);
    close_terminal();
    in_every_way(ask_and_leave);
    seat_free(&seat);
}

/* A value half typed is no edit yet. */
static void a_value_half_typed_when_the_terminal_closes_is_not_kept(void **state)
{
    (void)state;
    sit(&seat, &now, part_text);
    await(&seat, "the start", "WING");
    press(&seat, "Enter 7");
    assert_as_told(&seat, "typing");
    close_terminal();
    assert_int_equal(recoveries(), 0);
    assert_starts_as_ever();
    seat_free(&seat);
}

/* ---- another program at the same file ---- */

/* The sample, renamed by somebody else. */
static char *other_text(void)
{
    char *text = strdup(part_text);
    assert_non_null(text);
    char *name = strstr(text, "hill-climb");
    assert_non_null(name);
    memcpy(name, "valleyside", 10);
    return text;
}

/* An edit, another program at the file meanwhile, and those keys; the page must say the words. */
static void assert_comes_of(const char *keys, const char *words)
{
    char *other = other_text();
    edit(be_program);
    put_file("seat", "part.json", other);
    press(&seat, keys);
    put_files("told", part_text);
    char *want = drawn("told", "told-kept", false, "+", other, keys);
    assert_has(want, words);
    assert_picture(&seat, keys, want);
    check_looks(&seat, keys, want);
    stand_up(&seat);
    seat_free(&seat);
    free(want);
    free(other);
}

static void save_over_it(void)
{
    assert_comes_of("Ctrl-S", "Changed by another program");
}

static void a_file_changed_by_another_program_is_asked_about(void **state)
{
    (void)state;
    in_every_way(save_over_it);
    assert_comes_of("Ctrl-S Escape", "hill-climb front wing");
    assert_comes_of("Ctrl-S s", "saved: part.json");
    assert_comes_of("Ctrl-S r", "valleyside front wing");
    assert_comes_of("Ctrl-S w", "Save under another name");
}

static int set_up(void **state)
{
    part_text = read_whole_file(SAMPLE_PART, NULL);
    now = usual;
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
        cmocka_unit_test(a_closed_terminal_leaves_the_edits_to_be_taken_up),
        cmocka_unit_test(so_does_one_closed_on_a_program_that_heeds_no_hang_up),
        cmocka_unit_test(a_killed_program_leaves_the_edits_of_more_than_a_second_ago),
        cmocka_unit_test(a_program_asked_to_end_leaves_them_too_and_they_may_be_dropped),
        cmocka_unit_test(the_question_about_them_is_seen_as_told_in_every_way),
        cmocka_unit_test(a_value_half_typed_when_the_terminal_closes_is_not_kept),
        cmocka_unit_test(a_file_changed_by_another_program_is_asked_about),
    };
    return cmocka_run_group_tests_name("sessions kept", tests, set_up, take_down);
}
