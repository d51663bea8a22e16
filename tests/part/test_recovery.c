/* Unsaved work kept aside: what is found after a session has gone, and what is not. */
#include "recoveries.h"

#include <time.h>

/* ---- kept and found ---- */

static void work_of_a_session_that_is_gone_is_found_byte_for_byte(void **state)
{
    (void)state;
    long gone = other_session("wing.json", edited, false);
    struct pl_recovered found = find("wing.json");
    assert_string_equal(found.part_path, in_folder("wing.json"));
    assert_string_equal(found.bytes, edited);
    assert_int_equal(found.length, strlen(edited));
    assert_true(found.base_hash == hash(saved));
    assert_int_equal(found.process, gone);
    assert_false(found.at_work);
    assert_false(found.part_changed);
    assert_true(llabs(found.written_us / 1000000 - (long long)time(NULL)) < 60);
    pl_recovered_free(&found);
    assert_nothing_found("other.json");
}

static void each_write_replaces_the_last_in_a_folder_for_its_owner_alone(void **state)
{
    (void)state;
    struct stat about;
    struct pl_recovery kept = {0};
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 5}"), PL_OK);
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 6}"), PL_OK);
    assert_int_equal(count_kept(), 1);
    assert_found("wing.json", "{\"plies\": 6}");
    assert_int_equal(stat(in_folder("state/plyloft/recovery"), &about), 0);
    assert_int_equal(about.st_mode & 07777, 0700);
    pl_recovery_leave(&kept);
    assert_int_equal(count_kept(), 1);
}

static void saved_or_given_up_work_is_taken_away(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    assert_int_equal(pl_recovery_discard(&kept, &problems), PL_OK); /* nothing yet */
    assert_int_equal(keep(&kept, "wing.json", edited), PL_OK);
    assert_int_equal(pl_recovery_discard(&kept, &problems), PL_OK);
    assert_null(kept.file);
    assert_int_equal(count_kept(), 0);
    assert_int_equal(keep(&kept, "wing.json", edited), PL_OK);
    assert_int_equal(unlink(kept.file), 0); /* by somebody else */
    assert_int_equal(pl_recovery_discard(&kept, &problems), PL_OK);
    assert_int_equal(problems.count, 0);
    assert_nothing_found("wing.json");
}

static void a_part_under_a_new_name_takes_its_recovery_along(void **state)
{
    (void)state;
    struct pl_recovery kept = {0};
    assert_int_equal(keep(&kept, NULL, "{\"plies\": 5}"), PL_OK);
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 6}"), PL_OK);
    assert_int_equal(count_kept(), 1);
    assert_found("wing.json", "{\"plies\": 6}");
    assert_int_equal(keep(&kept, "second.json", "{\"plies\": 7}"), PL_OK);
    assert_int_equal(count_kept(), 1);
    assert_nothing_found("wing.json");
    assert_found("second.json", "{\"plies\": 7}"); /* there is no such file yet */
    pl_recovery_leave(&kept);
}

static void a_part_is_the_same_by_every_path_to_it(void **state)
{
    (void)state;
    char here[4096];
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(symlink("wing.json", in_folder("link.json")), 0);
    other_session("link.json", edited, false);
    assert_found("wing.json", edited);
    assert_int_equal(mkdir(in_folder("below"), 0700), 0);
    assert_found("below/../wing.json", edited);
    assert_int_equal(chdir(folder), 0);
    struct pl_problems problems = {0};
    struct pl_recovered found;
    assert_int_equal(pl_recovery_find("./wing.json", &found, NULL, &problems), PL_OK);
    assert_int_equal(chdir(here), 0);
    assert_non_null(found.file);
    pl_recovered_free(&found);
}

static void a_name_that_is_not_utf8_is_found_all_the_same(void **state)
{
    (void)state;
    put("w\xffng.json", saved);
    other_session("w\xffng.json", edited, false);
    assert_found("w\xffng.json", edited);
    assert_nothing_found("w\xfeng.json");
    put("w\xffng.json", edited);
    assert_nothing_found("w\xffng.json");
    assert_int_equal(count_kept(), 0);
}

static void whether_the_file_was_changed_since_is_told(void **state)
{
    (void)state;
    other_session("wing.json", edited, false);
    put("wing.json", "{\"plies\": 3}");
    struct pl_recovered found = find("wing.json");
    assert_true(found.part_changed);
    pl_recovered_free(&found);
    assert_int_equal(unlink(in_folder("wing.json")), 0);
    found = find("wing.json");
    assert_true(found.part_changed);
    assert_string_equal(found.bytes, edited);
    pl_recovered_free(&found);
}

static void what_says_the_same_as_the_file_is_of_no_use(void **state)
{
    (void)state;
    pid_t child = other_session("wing.json", edited, true);
    put("wing.json", edited);
    assert_nothing_found("wing.json");
    assert_int_equal(count_kept(), 1); /* it is the session's as long as that runs */
    end_session(child);
    assert_nothing_found("wing.json");
    assert_int_equal(count_kept(), 0);
}

/* ---- several sessions ---- */

static void two_sessions_keep_their_work_apart_and_the_newest_is_found(void **state)
{
    (void)state;
    other_session("wing.json", "{\"plies\": 5}", false);
    other_session("wing.json", "{\"plies\": 6}", false);
    struct pl_recovery mine = {0};
    assert_int_equal(count_kept(), 2);
    assert_found("wing.json", "{\"plies\": 6}");
    assert_int_equal(keep(&mine, "wing.json", "{\"plies\": 7}"), PL_OK);
    assert_int_equal(count_kept(), 3);
    struct pl_problems problems = {0};
    assert_int_equal(pl_recovery_discard(&mine, &problems), PL_OK);
    assert_found("wing.json", "{\"plies\": 6}");
}

static void work_of_a_session_that_runs_is_not_taken_from_it_but_told(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovered found;
    long at_work = 1;
    assert_int_equal(pl_recovery_find(in_folder("wing.json"), &found, &at_work, &problems), PL_OK);
    assert_int_equal(at_work, 0);
    other_session("wing.json", "{\"plies\": 5}", false);
    pid_t child = other_session("wing.json", "{\"plies\": 6}", true);
    assert_int_equal(pl_recovery_find(in_folder("wing.json"), &found, &at_work, &problems), PL_OK);
    assert_int_equal(at_work, child);
    assert_string_equal(found.bytes, "{\"plies\": 5}"); /* older, but left */
    pl_recovered_free(&found);
    end_session(child);
    assert_int_equal(pl_recovery_find(in_folder("wing.json"), &found, &at_work, &problems), PL_OK);
    assert_int_equal(at_work, 0);
    assert_string_equal(found.bytes, "{\"plies\": 6}");
    pl_recovered_free(&found);
}

/* A recovery written by hand for wing.json: of a process, its start and its machine. */
static void put_by_hand(long process, long long start, const char *host)
{
    char name[128], text[1024], path[700];
    snprintf(path, sizeof path, "%s", in_folder("wing.json"));
    snprintf(name, sizeof name, "state/plyloft/recovery/%016llx-00000000000000aa.json", (unsigned long long)hash(path));
    snprintf(text, sizeof text,
             "{\"format\": \"plyloft-recovery\", \"version\": 1, \"path\": \"%s\", \"base_hash\": \"%016llx\","
             " \"written_us\": 5, \"process\": %ld, \"process_start\": %lld, \"host\": \"%s\", \"document\": \"{}\"}",
             path, (unsigned long long)hash(saved), process, start, host);
    put(name, text);
}

static void assert_at_work(bool want)
{
    struct pl_recovered_list list;
    struct pl_problems problems = {0};
    assert_int_equal(pl_recovery_list(&list, &problems), PL_OK);
    assert_int_equal(list.count, 1);
    assert_int_equal(list.items[0].at_work, want);
    pl_recovered_list_free(&list);
}

static void a_process_number_given_again_is_not_taken_for_the_session(void **state)
{
    (void)state;
    struct pl_recovery kept = {0};
    char host[256] = "";
    assert_int_equal(gethostname(host, sizeof host - 1), 0);
    assert_int_equal(keep(&kept, "second.json", edited), PL_OK);
    assert_int_equal(unlink(kept.file), 0);
    pl_recovery_leave(&kept);
    pid_t child = fork();
    if (!child) {
        pause();
        _exit(0);
    }
    put_by_hand(child, 0, host); /* where the start cannot be told */
    assert_at_work(true);
    put_by_hand(child, 0, "elsewhere");
    assert_at_work(false);
    if (access("/proc/self/stat", R_OK) == 0) {
        put_by_hand(child, 1, host);
        assert_at_work(false);
    }
    end_session(child);
    put_by_hand(child, 0, host);
    assert_at_work(false);
    put_by_hand(getpid(), 0, host); /* we are no other session */
    assert_at_work(false);
    put_by_hand(0, 0, host);
    assert_at_work(false);
}

/* ---- all of them ---- */

static void the_list_holds_all_newest_first_and_their_bytes_can_be_asked_for(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovered_list list;
    struct pl_recovered one;
    struct pl_recovery unnamed = {0};
    assert_int_equal(pl_recovery_list(&list, &problems), PL_OK); /* no folder yet */
    assert_int_equal(list.count, 0);
    other_session("wing.json", "{\"plies\": 5}", false);
    pid_t child = other_session("second.json", "{\"plies\": 6}", true);
    assert_int_equal(pl_recovery_write(&unnamed, "-", 0, "{\"plies\": 7}", &problems), PL_OK);
    put("state/plyloft/recovery/notes.txt", "mine");
    put("state/plyloft/recovery/.plyloft-0123456789abcdef", "{");
    assert_int_equal(pl_recovery_list(&list, &problems), PL_OK);
    assert_int_equal(problems.count, 0);
    assert_int_equal(list.count, 3);
    assert_null(list.items[0].part_path);
    assert_false(list.items[0].part_changed);
    assert_string_equal(list.items[1].part_path, in_folder("second.json"));
    assert_true(list.items[1].at_work);
    assert_string_equal(list.items[2].part_path, in_folder("wing.json"));
    assert_null(list.items[2].bytes);
    assert_int_equal(pl_recovery_read(list.items[2].file, &one, &problems), PL_OK);
    assert_string_equal(one.bytes, "{\"plies\": 5}");
    pl_recovered_free(&one);
    assert_int_equal(pl_recovery_dismiss(list.items[2].file, &problems), PL_OK);
    assert_int_equal(pl_recovery_dismiss(list.items[2].file, &problems), PL_OK);
    assert_nothing_found("wing.json");
    pl_recovered_list_free(&list);
    pl_recovery_leave(&unnamed);
    end_session(child);
}

static void what_cannot_be_removed_is_told(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    assert_int_equal(mkdir(in_folder("x"), 0700), 0);
    put("x/y", "");
    assert_int_equal(pl_recovery_dismiss(in_folder("x/y/z"), &problems), PL_CANNOT_WRITE);
    assert_problem(&problems, PL_ERROR, in_folder("x/y/z"), "cannot be removed: Not a directory", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_A_PART(work_of_a_session_that_is_gone_is_found_byte_for_byte),
        WITH_A_PART(each_write_replaces_the_last_in_a_folder_for_its_owner_alone),
        WITH_A_PART(saved_or_given_up_work_is_taken_away),
        WITH_A_PART(a_part_under_a_new_name_takes_its_recovery_along),
        WITH_A_PART(a_part_is_the_same_by_every_path_to_it),
        WITH_A_PART(a_name_that_is_not_utf8_is_found_all_the_same),
        WITH_A_PART(whether_the_file_was_changed_since_is_told),
        WITH_A_PART(what_says_the_same_as_the_file_is_of_no_use),
        WITH_A_PART(two_sessions_keep_their_work_apart_and_the_newest_is_found),
        WITH_A_PART(work_of_a_session_that_runs_is_not_taken_from_it_but_told),
        WITH_A_PART(a_process_number_given_again_is_not_taken_for_the_session),
        WITH_A_PART(the_list_holds_all_newest_first_and_their_bytes_can_be_asked_for),
        WITH_A_PART(what_cannot_be_removed_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
