/* The program killed in the middle of a save: the file is one of those meant, whole, and nothing else is lost.
 *
 * A child saves ever new contents into one part and keeps ever newer unsaved work; it is killed (SIGKILL, which no
 * program can prepare for) at every single system call of a save, and then a thousand times, fewer where that takes
 * long, at a moment of chance. */
#include "keeping.h"

#include "plyloft/file.h"
#include "plyloft/recovery.h"

#include <dirent.h>
#include <signal.h>
#include <sys/wait.h>
#include <time.h>

#if defined __SANITIZE_ADDRESS__
#define SLOW 1
#elif defined __has_feature
#if __has_feature(address_sanitizer)
#define SLOW 1
#endif
#endif
#ifndef SLOW
#define SLOW 0
#endif

#define PART "parts/wing.json"
#define RECOVERIES "state/plyloft/recovery"

/* ---- contents that show whether they are whole ---- */

enum { CONTENT_MOST = 40000 };

/* A length of its own for each number, and the number in every line. */
static size_t content_length(unsigned number)
{
    return 20 + number * 7919u % (CONTENT_MOST - 40);
}

static void write_content(char out[CONTENT_MOST], unsigned number)
{
    char line[32];
    size_t length = content_length(number), n = (size_t)snprintf(line, sizeof line, "%010u\n", number);
    out[0] = '[';
    for (size_t i = 1; i < length; i++)
        out[i] = line[(i - 1) % n];
    out[length] = '\0';
}

/* The number of a whole content; anything else fails. */
static unsigned number_of(const char *bytes, size_t length)
{
    static char want[CONTENT_MOST];
    unsigned number = (unsigned)strtoul(bytes + 1, NULL, 10);
    write_content(want, number);
    assert_int_equal(length, content_length(number));
    assert_memory_equal(bytes, want, length);
    return number;
}

/* ---- the child ---- */

static int calls_left; /* until it kills itself; negative: never */
static bool half_done; /* within the last call rather than before it */

static void die_in_time(void)
{
    if (calls_left >= 0 && calls_left-- == 0)
        kill(getpid(), SIGKILL);
}

static int deadly_open(const char *path, int flags, mode_t mode)
{
    die_in_time();
    return open(path, flags, mode);
}

static ssize_t deadly_write(int fd, const void *from, size_t size)
{
    if (half_done && calls_left == 0 && write(fd, from, size / 2) < 0)
        _exit(3);
    die_in_time();
    return write(fd, from, size);
}

static int deadly_fsync(int fd)
{
    die_in_time();
    return fsync(fd);
}

static int deadly_close(int fd)
{
    die_in_time();
    return close(fd);
}

static int deadly_rename(const char *from, const char *to)
{
    die_in_time();
    return rename(from, to);
}

static const struct pl_file_calls deadly = {deadly_open, read, deadly_write, deadly_fsync, deadly_close, deadly_rename};

/* Saves the contents from first on, each kept as unsaved work before, until it is killed or has done rounds. */
static void save_and_save(unsigned first, unsigned rounds)
{
    static char bytes[CONTENT_MOST];
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    for (unsigned i = first; i < first + rounds; i++) {
        write_content(bytes, i);
        if (pl_recovery_write_by(&deadly, &kept, in_folder(PART), 0, bytes, &problems) != PL_OK ||
            pl_file_save_by(&deadly, in_folder(PART), bytes, strlen(bytes), &problems) != PL_OK)
            _exit(1);
    }
    _exit(0);
}

static pid_t start_child(unsigned first, unsigned rounds)
{
    pid_t child = fork();
    assert_true(child >= 0);
    if (!child)
        save_and_save(first, rounds);
    return child;
}

/* True when it was killed, false when it came to its end; anything else fails. */
static bool was_killed(pid_t child)
{
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    if (WIFSIGNALED(status))
        assert_int_equal(WTERMSIG(status), SIGKILL);
    else
        assert_int_equal(WEXITSTATUS(status), 0);
    return WIFSIGNALED(status);
}

/* ---- what is left ---- */

static unsigned saved_number(void)
{
    size_t length;
    char *bytes = read_whole_file(in_folder(PART), &length);
    unsigned number = number_of(bytes, length);
    free(bytes);
    return number;
}

/* The number of the newest unsaved work that says other than the file, 0 without; all is then taken away. */
static unsigned recovered_number(void)
{
    struct pl_problems problems = {0};
    struct pl_recovered found;
    unsigned number = 0;
    assert_int_equal(pl_recovery_find(in_folder(PART), &found, NULL, &problems), PL_OK);
    assert_int_equal(problems.count, 0); /* none is broken */
    if (found.file) {
        number = number_of(found.bytes, found.length);
        assert_int_equal(pl_recovery_dismiss(found.file, &problems), PL_OK);
        pl_recovered_free(&found);
        assert_int_equal(pl_recovery_find(in_folder(PART), &found, NULL, &problems), PL_OK);
        assert_null(found.file); /* one session keeps one */
    }
    return number;
}

/* Names in a folder that begin so; with age, each is made older by two hours. */
static size_t count_named(const char *folder_name, const char *start, bool age)
{
    DIR *dir = opendir(in_folder(folder_name));
    size_t count = 0;
    if (!dir)
        return 0;
    for (const struct dirent *entry; (entry = readdir(dir));) {
        if (strncmp(entry->d_name, start, strlen(start)))
            continue;
        struct timespec old = {time(NULL) - 7200, 0};
        if (age)
            assert_int_equal(utimensat(dirfd(dir), entry->d_name, (struct timespec[2]){old, old}, 0), 0);
        count++;
    }
    closedir(dir);
    return count;
}

static int make_part(void **state)
{
    static char bytes[CONTENT_MOST];
    make_home(state);
    assert_int_equal(mkdir(in_folder("parts"), 0700), 0);
    write_content(bytes, 1);
    put(PART, bytes);
    calls_left = -1;
    half_done = false;
    return 0;
}

#define WITH_A_PART(name) cmocka_unit_test_setup_teardown(name, make_part, unmake_home)

/* Nothing but the part, and what the next saves take away. */
static void assert_only_harmless_leftovers(size_t killed)
{
    size_t in_parts = count_named("parts", ".plyloft-", true), in_state = count_named(RECOVERIES, ".plyloft-", true);
    assert_true(in_parts + in_state <= killed);
    assert_int_equal(count_in_folder(in_folder("parts")), 1 + in_parts);
    if (is_there(RECOVERIES))
        assert_int_equal(count_in_folder(in_folder(RECOVERIES)), in_state);
    calls_left = -1;
    assert_false(was_killed(start_child(2, 1)));
    assert_int_equal(recovered_number(), 0);
    assert_int_equal(saved_number(), 2);
    assert_int_equal(count_in_folder(in_folder("parts")), 1);
    assert_int_equal(count_in_folder(in_folder(RECOVERIES)), 0);
}

/* ---- killed ---- */

/* Unsaved work is kept, then saved: once the one is in place, the file has it or the recovery does. */
static void killed_before_any_call_the_file_is_old_or_new(void **state)
{
    (void)state;
    unsigned saved = 1;
    size_t killed = 0;
    bool went_on = true;
    for (int call = 0; went_on; call++) {
        for (int half = 0; half < 2; half++) {
            calls_left = call;
            half_done = half;
            unsigned next = saved + 1;
            went_on = was_killed(start_child(next, 1));
            killed += went_on;
            unsigned now = saved_number(), recovered = recovered_number();
            assert_true(now == saved || now == next);
            assert_true(recovered == 0 || (recovered == next && now == saved));
            assert_true(went_on || now == next);
            saved = now;
        }
    }
    /* open the folder, the file, write, fsync, close, rename, fsync, close: twice, each in both ways */
    assert_int_equal(killed, 2 * 2 * 8);
    assert_only_harmless_leftovers(killed);
}

static void wait_ns(long ns)
{
    nanosleep(&(struct timespec){ns / 1000000000, ns % 1000000000}, NULL);
}

/* The same sequence in every run. */
static unsigned chance(unsigned below)
{
    static uint64_t state = 20;
    state = state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(state >> 33) % below;
}

static double now_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* How long a child takes to keep and save once: disks differ. */
static double round_s(void)
{
    double start = now_s();
    assert_false(was_killed(start_child(1, 1)));
    return now_s() - start;
}

static void killed_at_any_moment_the_file_is_whole_and_no_older_than_it_was(void **state)
{
    (void)state;
    const unsigned most_rounds = SLOW ? 200 : 1000, least_rounds = 100, most_saves = 50;
    const double longest_s = 1.6 * round_s(), enough_s = now_s() + 8;
    unsigned saved = 1, changed = 0, recoveries = 0, rounds = 0;
    size_t killed = 0;
    assert_int_equal(recovered_number(), 0);
    for (; rounds < most_rounds && (rounds < least_rounds || now_s() < enough_s); rounds++) {
        pid_t child = start_child(saved + 1, most_saves);
        wait_ns((long)(1e9 * longest_s * chance(1000) / 1000));
        kill(child, SIGKILL);
        killed += was_killed(child);
        unsigned now = saved_number(), recovered = recovered_number();
        assert_true(now >= saved && now <= saved + most_saves);
        assert_true(recovered == 0 || recovered == now + 1);
        changed += now != saved;
        recoveries += recovered != 0;
        saved = now;
    }
    /* Chance hit what it was meant to. */
    assert_true(killed > rounds / 2);
    assert_true(changed > 0 && recoveries > 0);
    assert_only_harmless_leftovers(killed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_A_PART(killed_before_any_call_the_file_is_old_or_new),
        WITH_A_PART(killed_at_any_moment_the_file_is_whole_and_no_older_than_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
