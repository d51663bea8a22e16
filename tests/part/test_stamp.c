/* What another program did to a file since we read or saved it; and what killed saves left in its folder. */
#include "keeping.h"

#include <time.h>

static struct pl_file_stamp read_stamp(const char *name)
{
    struct pl_problems problems = {0};
    struct pl_file_stamp stamp;
    char *bytes;
    size_t length;
    assert_int_equal(pl_file_read_stamped(in_folder(name), &bytes, &length, &stamp, &problems), PL_OK);
    free(bytes);
    return stamp;
}

static void set_age(const char *name, long seconds)
{
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    now.tv_sec -= seconds;
    assert_int_equal(utimensat(AT_FDCWD, in_folder(name), (struct timespec[2]){now, now}, 0), 0);
}

static void the_hash_is_that_of_the_published_tests(void **state)
{
    (void)state;
    /* FNV-1a, 64 bits: the offset basis for no bytes, and the value given for "a" and "foobar" */
    assert_true(pl_file_hash("", 0) == 0xcbf29ce484222325u);
    assert_true(pl_file_hash("a", 1) == 0xaf63dc4c8601ec8cu);
    assert_true(pl_file_hash("foobar", 6) == 0x85944171f73967e8u);
}

static void a_file_left_alone_is_as_it_was(void **state)
{
    (void)state;
    put("part.json", "{}");
    struct pl_file_stamp stamp = read_stamp("part.json");
    assert_true(stamp.exists);
    assert_int_equal(stamp.size, 2);
    assert_true(stamp.hash == pl_file_hash("{}", 2));
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
}

static void a_change_is_noticed_however_alike_the_file_looks(void **state)
{
    (void)state;
    struct stat about;
    put("part.json", "{\"plies\": 4}");
    struct pl_file_stamp stamp = read_stamp("part.json");
    put("part.json", "{\"plies\": 5}"); /* in place: same inode, same size */
    assert_int_equal(stat(in_folder("part.json"), &about), 0);
    assert_int_equal(about.st_ino, stamp.inode);
    /* and the same time, as a clock with coarse steps gives it */
    struct timespec time = {stamp.modified_ns / 1000000000, stamp.modified_ns % 1000000000};
    assert_int_equal(utimensat(AT_FDCWD, in_folder("part.json"), (struct timespec[2]){time, time}, 0), 0);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_CHANGED);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_CHANGED); /* until it is read again */
    stamp = read_stamp("part.json");
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
}

static void a_touched_or_copied_file_is_as_it_was_and_its_stamp_moves_along(void **state)
{
    (void)state;
    put("part.json", "{}");
    struct pl_file_stamp stamp = read_stamp("part.json"), first = stamp;
    set_age("part.json", 100);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
    assert_true(stamp.modified_ns < first.modified_ns);
    put("copy.json", "{}");
    assert_int_equal(rename(in_folder("copy.json"), in_folder("part.json")), 0);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
    assert_true(stamp.inode != first.inode);
}

static void a_file_that_lay_still_is_not_read_again(void **state)
{
    (void)state;
    put("part.json", "{}");
    set_age("part.json", 3);
    struct pl_file_stamp stamp = read_stamp("part.json");
    stamp.hash++; /* would show if it were read */
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
    set_age("part.json", 1);
    stamp = read_stamp("part.json");
    stamp.hash++;
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_CHANGED);
}

static void a_file_that_went_or_came_or_became_a_folder_is_noticed(void **state)
{
    (void)state;
    struct pl_file_stamp none = {0};
    assert_int_equal(pl_file_look(in_folder("part.json"), &none), PL_FILE_AS_IT_WAS);
    put("part.json", "{}");
    assert_int_equal(pl_file_look(in_folder("part.json"), &none), PL_FILE_CHANGED);
    struct pl_file_stamp stamp = read_stamp("part.json");
    assert_int_equal(unlink(in_folder("part.json")), 0);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_GONE);
    assert_int_equal(mkdir(in_folder("part.json"), 0700), 0);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_CHANGED);
    assert_int_equal(pl_file_look("-", &stamp), PL_FILE_AS_IT_WAS);
}

static void a_save_gives_the_stamp_of_what_it_saved(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_file_stamp stamp = {0};
    struct stat about;
    put("part.json", "old");
    assert_int_equal(pl_file_save_stamped(in_folder("part.json"), "newer", 5, &stamp, &problems), PL_OK);
    assert_int_equal(stat(in_folder("part.json"), &about), 0);
    assert_int_equal(stamp.inode, about.st_ino);
    assert_int_equal(stamp.size, 5);
    assert_int_equal(stamp.modified_ns % 1000000000, about.st_mtim.tv_nsec);
    assert_true(stamp.hash == pl_file_hash("newer", 5));
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
}

static void the_stamp_follows_the_file_and_not_the_status(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    put("part.json", "old");
    struct pl_file_stamp stamp = read_stamp("part.json"), before = stamp;
    set_fault(FSYNC, 1, EIO); /* the new file is not even put in place */
    assert_int_equal(pl_file_save_stamped_by(&faulty, in_folder("part.json"), "new", 3, &stamp, &problems),
                     PL_CANNOT_WRITE);
    assert_true(stamp.hash == before.hash && stamp.inode == before.inode && stamp.modified_ns == before.modified_ns);
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
    set_fault(FSYNC, 2, EIO); /* it is in place, but its folder fails */
    assert_int_equal(pl_file_save_stamped_by(&faulty, in_folder("part.json"), "new", 3, &stamp, &problems),
                     PL_CANNOT_WRITE);
    assert_true(stamp.hash == pl_file_hash("new", 3));
    assert_int_equal(pl_file_look(in_folder("part.json"), &stamp), PL_FILE_AS_IT_WAS);
    pl_problems_free(&problems);
}

/* ---- left behind ---- */

static void save_part(void)
{
    struct pl_problems problems = {0};
    assert_int_equal(pl_file_save(in_folder("part.json"), "{}", 2, &problems), PL_OK);
    assert_int_equal(problems.count, 0);
}

static void a_save_takes_away_what_killed_ones_left_an_hour_ago(void **state)
{
    (void)state;
    put(".plyloft-0123456789abcdef", "half a pa");
    put(".plyloft-fedcba9876543210", "half a pa");
    set_age(".plyloft-0123456789abcdef", 3700);
    set_age(".plyloft-fedcba9876543210", 3500);
    save_part();
    assert_false(is_there(".plyloft-0123456789abcdef"));
    assert_true(is_there(".plyloft-fedcba9876543210")); /* its save may be under way */
    assert_int_equal(count_in_folder(folder), 2);
}

static void a_save_takes_nothing_away_that_is_not_surely_ours(void **state)
{
    (void)state;
    static const char *const names[] = {".plyloft-0123456789abcde",
                                        ".plyloft-0123456789abcdef0",
                                        ".plyloft-0123456789abcdeg",
                                        "plyloft-0123456789abcdef",
                                        "other.json",
                                        ".plyloft-0123456789abcd.f"};
    enum { COUNT = sizeof names / sizeof *names };
    for (size_t i = 0; i < COUNT; i++) {
        put(names[i], "kept");
        set_age(names[i], 100000);
    }
    assert_int_equal(mkdir(in_folder(".plyloft-00000000000000aa"), 0700), 0);
    assert_int_equal(symlink("other.json", in_folder(".plyloft-00000000000000bb")), 0);
    save_part();
    assert_int_equal(count_in_folder(folder), COUNT + 3);
    for (size_t i = 0; i < COUNT; i++)
        assert_file(names[i], "kept");
}

static void a_strangers_leftover_stays(void **state)
{
    (void)state;
    if (geteuid() != 0)
        skip();
    put(".plyloft-0123456789abcdef", "not ours");
    assert_int_equal(chown(in_folder(".plyloft-0123456789abcdef"), 12, 34), 0);
    set_age(".plyloft-0123456789abcdef", 100000);
    save_part();
    assert_file(".plyloft-0123456789abcdef", "not ours");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_hash_is_that_of_the_published_tests),
        IN_A_HOME(a_file_left_alone_is_as_it_was),
        IN_A_HOME(a_change_is_noticed_however_alike_the_file_looks),
        IN_A_HOME(a_touched_or_copied_file_is_as_it_was_and_its_stamp_moves_along),
        IN_A_HOME(a_file_that_lay_still_is_not_read_again),
        IN_A_HOME(a_file_that_went_or_came_or_became_a_folder_is_noticed),
        IN_A_HOME(a_save_gives_the_stamp_of_what_it_saved),
        IN_A_HOME(the_stamp_follows_the_file_and_not_the_status),
        IN_A_HOME(a_save_takes_away_what_killed_ones_left_an_hour_ago),
        IN_A_HOME(a_save_takes_nothing_away_that_is_not_surely_ours),
        IN_A_HOME(a_strangers_leftover_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
