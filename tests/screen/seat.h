/* seat.h - a seat before the real program: it runs on a pseudo-terminal, named keys are typed as their bytes, and
 * what it sends makes a picture on a glass (../glass.h).
 *
 * The picture is compared with what `plyloft screen` prints of the same part, size and keys: the same pages without
 * a terminal.  Each of the two has folders of its own, so that neither sees what the other saved or kept:
 *
 *     scratch/seat   the part as "part.json", and "points.dat", for the program on the terminal; seat-kept: its HOME
 *     scratch/told   the same, made anew each time, for `plyloft screen`; told-kept
 *
 * A picture is waited for, most generously: no test says how fast it must come.
 */
#ifndef PLYLOFT_TESTS_SEAT_H
#define PLYLOFT_TESTS_SEAT_H

#include "../command/program.h"
#include "../glass.h"
#include "pseudo.h"

#include "plyloft/keys.h"

#include <fcntl.h>
#include <sys/stat.h>

struct seat {
    struct surroundings s;
    struct pseudo p;
    pid_t program;             /* p.child, or the job of a shell that is */
    size_t seen;               /* of p.output, by the glass */
    struct glass glass;
    bool escaped;              /* Escape was the last key typed */
    struct pl_buffer keys;     /* all keys typed, by their names */
    struct pl_buffer picture;  /* of the glass, as text */
    const char *part;          /* the text of its part file */
};

enum { PICTURE_WAIT_MS = 30000, QUIET_MS = 5 };

static struct {
    char *folder, *program, *points;  /* points: of a coordinate file */
    const char *utf8;                 /* a locale that has it; NULL: there is none here */
} seats;

/* ---- the scratch folder ---- */

static inline char *scratch_path(const char *under, const char *name)
{
    char *path = NULL;
    assert_true(asprintf(&path, "%s/%s%s%s", seats.folder, under, name ? "/" : "", name ? name : "") > 0);
    return path;
}

static inline void make_empty(const char *name)
{
    char *path = scratch_path(name, NULL);
    if (!access(path, F_OK))
        remove_folder(strdup(path));
    assert_int_equal(mkdir(path, 0700), 0);
    free(path);
}

static inline void put_file(const char *under, const char *name, const char *text)
{
    char *path = scratch_path(under, name);
    write_whole_file(path, text, strlen(text));
    free(path);
}

static inline void put_files(const char *under, const char *part)
{
    make_empty(under);
    put_file(under, "part.json", part);
    put_file(under, "points.dat", seats.points);
}

/* Where a program keeps what is a person's own. */
static inline void set_home(const char *under)
{
    static const char *const variables[] = {"HOME", "XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_CONFIG_HOME"};
    static const char *const names[] = {NULL, "state", "data", "config"};
    for (int i = 0; i < 4; i++) {
        char *path = scratch_path(under, names[i]);
        setenv(variables[i], path, 1);
        free(path);
    }
}

static inline int seats_set_up(void **state)
{
    (void)state;
    seats.folder = make_folder();
    seats.program = realpath(getenv("PLYLOFT") ? getenv("PLYLOFT") : "build/plyloft", NULL);
    assert_non_null(seats.program);
    setenv("PLYLOFT", seats.program, 1);
    seats.utf8 = setlocale(LC_ALL, "C.UTF-8") ? "C.UTF-8" : setlocale(LC_ALL, "en_US.UTF-8") ? "en_US.UTF-8" : NULL;
    struct run run = RUN("profile", SAMPLE_PART, "--profile", "main", "--count", "61");
    assert_status(&run, 0);
    seats.points = run.out;
    free(run.err);
    return 0;
}

static inline int seats_take_down(void **state)
{
    (void)state;
    remove_folder(seats.folder);
    free(seats.program);
    free(seats.points);
    return 0;
}

/* ---- what is told without a terminal ---- */

/* The list of recent parts is the person's at the terminal. */
static inline void copy_recent(void)
{
    char *from = scratch_path("seat-kept", "state/plyloft/recent.json");
    if (!access(from, F_OK)) {
        char *text = read_whole_file(from, NULL);
        for (int i = 0; i < 2; i++) {
            char *folder = scratch_path("told-kept", i ? "state/plyloft" : "state");
            assert_int_equal(mkdir(folder, 0700), 0);
            free(folder);
        }
        put_file("told-kept", "state/plyloft/recent.json", text);
        free(text);
    }
    free(from);
}

static inline const char *locale_of(const struct surroundings *s)
{
    return s->locale ? s->locale : seats.utf8 ? seats.utf8 : "C";
}

static inline bool is_plain(const struct surroundings *s)
{
    return !strcmp(locale_of(s), "C") || !strcmp(s->term, "linux");
}

/* What `plyloft screen` prints; freed by the caller. */
static inline char *told(const char *part, const struct surroundings *s, const char *keys)
{
    char size[32], here[4096];
    const char *words[] = {"screen", "part.json", "--size", size, "--keys", keys, is_plain(s) ? "--plain" : NULL, NULL};
    snprintf(size, sizeof size, "%dx%d", s->columns, s->rows);
    put_files("told", part);
    make_empty("told-kept");
    copy_recent();
    set_home("told-kept");
    char *folder = scratch_path("told", NULL);
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(folder), 0);
    struct run run = run_with(NULL, NULL, words);
    assert_int_equal(chdir(here), 0);
    assert_status(&run, 0);
    free(folder);
    free(run.err);
    return run.out;
}

/* ---- sitting down ---- */

static const struct surroundings *seat_surroundings;  /* of the child about to be made */

static inline void be_program(FILE *out)
{
    char *folder = scratch_path("seat", NULL);
    set_home("seat-kept");
    set_variable("LC_ALL", locale_of(seat_surroundings));
    fcntl(fileno(out), F_SETFD, FD_CLOEXEC);
    if (chdir(folder) == 0)
        execl(seats.program, seats.program, "part.json", (char *)NULL);
    _exit(127);
}

/* The program started anew on the files that are there, with what it kept before. */
static inline void sit_again_as(struct seat *seat, void (*body)(FILE *))
{
    seat_surroundings = &seat->s;
    seat->seen = 0;
    seat->escaped = false;
    pl_buffer_clear(&seat->keys);
    pl_buffer_text(&seat->keys, "");
    start(&seat->p, &seat->s, body);
    seat->program = seat->p.child;
    glass_start(&seat->glass, seat->s.rows, seat->s.columns, seat->s.term);
}

static inline void sit_again(struct seat *seat)
{
    sit_again_as(seat, be_program);
}

/* part, the text of a part file, must live as long as the seat. */
static inline void sit_as(struct seat *seat, const struct surroundings *s, const char *part, void (*body)(FILE *))
{
    seat->s = *s;
    seat->part = part;
    put_files("seat", part);
    make_empty("seat-kept");
    sit_again_as(seat, body);
}

static inline void sit(struct seat *seat, const struct surroundings *s, const char *part)
{
    sit_as(seat, s, part, be_program);
}

static inline void seat_free(struct seat *seat)
{
    forget(&seat->p);
    seat->p = (struct pseudo){.master = -1};
    pl_buffer_free(&seat->keys);
    pl_buffer_free(&seat->picture);
}

/* ---- looking ---- */

/* Takes in what came, or comes within the time; false when nothing does. */
static inline bool look_for(struct seat *seat, int wait_ms)
{
    struct pollfd fd = {.fd = seat->p.master, .events = POLLIN};
    if (seat->seen == seat->p.output.length && (poll(&fd, 1, wait_ms) <= 0 || !take_output(&seat->p)))
        return false;
    glass_read(&seat->glass, seat->p.output.text + seat->seen, seat->p.output.length - seat->seen);
    seat->seen = seat->p.output.length;
    return true;
}

static inline const char *picture(struct seat *seat)
{
    pl_buffer_clear(&seat->picture);
    glass_print(&seat->glass, &seat->picture);
    return seat->picture.text ? seat->picture.text : "";
}

/* Pictures are longer than cmocka's messages can be. */
static inline void show(struct seat *seat, const char *name)
{
    printf("%s, in %dx%d, %s, %s%s, after \"%s\":\n%s\n", name, seat->s.columns, seat->s.rows, seat->s.term,
           is_plain(&seat->s) ? "plain" : "in UTF-8", seat->s.no_color ? ", no colour" : "", seat->keys.text,
           picture(seat));
    fflush(stdout);
}

static inline size_t row_length(const char *text)
{
    return strcspn(text, "\n");
}

static inline void show_first_difference(struct seat *seat, const char *want)
{
    const char *got = picture(seat);
    int row = 0;
    while (*got && *want && row_length(got) == row_length(want) && !strncmp(got, want, row_length(got))) {
        got += row_length(got) + (got[row_length(got)] == '\n');
        want += row_length(want) + (want[row_length(want)] == '\n');
        row++;
    }
    printf("row %d is\n%.*s\nnot\n%.*s\n", row, (int)row_length(got), got, (int)row_length(want), want);
}

/* The picture becomes that and stays so. */
static inline void assert_picture(struct seat *seat, const char *name, const char *want)
{
    double end = seconds() + PICTURE_WAIT_MS / 1e3;
    bool same = false;
    while (seconds() < end) {
        bool came = look_for(seat, same ? QUIET_MS : 100);
        if (same && !came)
            break;
        if (came || !same)
            same = !strcmp(picture(seat), want);
    }
    if (seat->glass.unknown[0])
        fail_msg("%s: not understood as %s: %s", name, seat->s.term, seat->glass.unknown);
    if (same)
        return;
    show_first_difference(seat, want);
    show(seat, name);
    fail();
}

/* ... the picture that is told of the keys typed so far. */
static inline void assert_as_told(struct seat *seat, const char *name)
{
    char *want = told(seat->part, &seat->s, seat->keys.text);
    assert_picture(seat, name, want);
    free(want);
}

static inline void assert_shown(struct seat *seat, const char *name, const char *words)
{
    if (strstr(picture(seat), words))
        return;
    printf("\"%s\" is not seen: ", words);
    show(seat, name);
    fail();
}

static inline void await(struct seat *seat, const char *name, const char *words)
{
    double end = seconds() + PICTURE_WAIT_MS / 1e3;
    while (!strstr(picture(seat), words) && seconds() < end)
        look_for(seat, 100);
    assert_shown(seat, name, words);
}

/* ---- typing ---- */

static inline void send(struct seat *seat, struct pl_buffer *bytes)
{
    assert_false(bytes->failed);
    if (bytes->length)
        assert_int_equal(write(seat->p.master, bytes->text, bytes->length), bytes->length);
    pl_buffer_clear(bytes);
}

/* A person takes a breath after Escape: what it does is waited for, if it does anything, and a byte that would make
 * another key of it comes late enough. */
static inline void breathe(struct seat *seat, char next)
{
    enum { ACTS_MS = 300, OTHER_KEY_MS = 200 };
    for (bool came = look_for(seat, ACTS_MS); came;)
        came = look_for(seat, QUIET_MS);
    if (strchr("[O\t", next))
        usleep(1000 * OTHER_KEY_MS);
}

/* Types keys by their names (keys.h). */
static inline void press(struct seat *seat, const char *keys)
{
    struct pl_keys_reader reader;
    struct pl_buffer bytes = {0};
    char one[8];
    pl_keys_start(&reader, keys);
    for (int key = pl_keys_next(&reader); key != PL_KEY_NONE; key = pl_keys_next(&reader)) {
        size_t length = glass_key(&seat->glass, key, one);
        if (seat->escaped) {
            send(seat, &bytes);
            breathe(seat, one[0]);
        }
        pl_buffer_add(&bytes, one, length);
        seat->escaped = key == PL_KEY_ESCAPE;
    }
    send(seat, &bytes);
    pl_buffer_free(&bytes);
    pl_buffer_printf(&seat->keys, "%s%s", *keys ? " " : "", keys);
}

static inline void set_size(struct seat *seat, int columns, int rows)
{
    struct winsize w = {.ws_row = (unsigned short)rows, .ws_col = (unsigned short)columns};
    seat->s.rows = rows;
    seat->s.columns = columns;
    glass_resize(&seat->glass, rows, columns);
    assert_int_equal(ioctl(seat->p.master, TIOCSWINSZ, &w), 0);
}

/* ---- getting up ---- */

/* The program is asked to end, wherever it is, and must leave the terminal as it found it. */
static inline void stand_up(struct seat *seat)
{
    struct termios after;
    kill(seat->program, SIGTERM);
    int status = finish(&seat->p);
    if (!WIFEXITED(status) || WEXITSTATUS(status))
        fail_msg("it ends with %d:\n%s", status, output_of(&seat->p) + seat->seen);
    assert_int_equal(tcgetattr(seat->p.master, &after), 0);
    assert_true(same_modes(&after, &seat->p.found));
    forget(&seat->p);
    seat->p = (struct pseudo){.master = -1};
}

#endif
