/* Unsaved work that is broken, or cannot be kept: what is told, and that nothing destroys what was kept before. */
#include "recoveries.h"

#include <sys/resource.h>

#define HEAD "{\"format\": \"plyloft-recovery\", \"version\": 1, \"path\": null, "
#define BASE "\"base_hash\": \"0123456789abcdef\", "
#define TIMES "\"written_us\": 5, \"process\": 1, \"process_start\": 0, "

static void a_broken_one_is_told_in_a_sentence_and_left_alone(void **state)
{
    (void)state;
    static const struct {
        const char *text, *sentence;
    } table[] = {
        {"", "line 1, column 1: the file is empty"},
        {HEAD BASE TIMES "\"host\": \"a\", \"document\": \"{", "line 1, column 171: the file ends inside a text"},
        {"[]", "must be an object"},
        {"{}", "/format: is missing"},
        {"{\"format\": \"plyloft-part\", \"version\": 1}",
         "/format: must be \"plyloft-recovery\" (found \"plyloft-part\")"},
        {"{\"format\": \"plyloft-recovery\", \"version\": 2}",
         "/version: is not a version that this program knows (found 2)"},
        {HEAD "\"base_hash\": \"0123456789abcdeg\"}",
         "/base_hash: must be 16 hexadecimal digits (found \"0123456789abcdeg\")"},
        {HEAD BASE "\"written_us\": -5}", "/written_us: must be a whole number, not below 0 (found -5)"},
        {HEAD BASE "\"written_us\": 1e300}", "/written_us: must be a whole number, not below 0 (found 1e300)"},
        {HEAD BASE TIMES "\"host\": 3}", "/host: must be a text (found 3)"},
        {HEAD BASE TIMES "\"host\": \"a\"}", "/document: is missing"},
        {"{\"format\": \"plyloft-recovery\", \"version\": 1, \"path\": \"x\", " BASE TIMES
         "\"host\": \"a\", \"document\": \"{}\"}",
         "/path: must begin at the root (found \"x\")"},
        {"{\"format\": \"plyloft-recovery\", \"version\": 1, " BASE TIMES "\"host\": \"a\", \"document\": \"{}\"}",
         "/path: is missing"},
    };
    other_session("wing.json", edited, false);
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        struct pl_problems problems = {0};
        struct pl_recovered_list list;
        const char *name = "state/plyloft/recovery/0123456789abcdef-0123456789abcdef.json";
        char rule[256];
        put(name, table[i].text);
        assert_int_equal(pl_recovery_list(&list, &problems), PL_OK);
        assert_int_equal(list.count, 1); /* the right one */
        pl_recovered_list_free(&list);
        snprintf(rule, sizeof rule, "unsaved work cannot be read, and is left here: %s", table[i].sentence);
        assert_problem(&problems, PL_WARNING, in_folder(name), rule, "");
        assert_file(name, table[i].text);
        assert_found("wing.json", edited); /* and those of other parts are not even looked at */
    }
}

static void a_folder_that_cannot_be_read_is_told(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovered_list list;
    assert_int_equal(mkdir(in_folder("state"), 0700), 0);
    assert_int_equal(mkdir(in_folder("state/plyloft"), 0700), 0);
    put("state/plyloft/recovery", "a file");
    assert_int_equal(pl_recovery_list(&list, &problems), PL_CANNOT_READ);
    assert_problem(&problems, PL_ERROR, in_folder("state/plyloft/recovery"), "cannot be read: Not a directory", "");
    struct pl_recovery kept = {0};
    assert_int_equal(pl_recovery_write(&kept, in_folder("wing.json"), 0, edited, &problems), PL_CANNOT_WRITE);
    assert_int_equal(problems.count, 1);
    assert_non_null(strstr(problems.list[0].rule, "/state/plyloft/recovery: cannot be made: Not a directory"));
    assert_null(kept.file);
    pl_problems_free(&problems);
}

static void without_home_nothing_is_kept_and_the_sentence_says_why(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    struct pl_recovered found;
    const char *why = "nothing can be kept: neither XDG_STATE_HOME nor HOME is set to an absolute path";
    unsetenv("HOME");
    unsetenv("XDG_STATE_HOME");
    assert_int_equal(pl_recovery_write(&kept, in_folder("wing.json"), 0, edited, &problems), PL_CANNOT_WRITE);
    assert_problem(&problems, PL_ERROR, "", why, "");
    assert_int_equal(pl_recovery_find(in_folder("wing.json"), &found, NULL, &problems), PL_CANNOT_READ);
    assert_problem(&problems, PL_ERROR, "", why, "");
}

/* ---- when writing fails ---- */

static void whatever_fails_the_last_good_one_is_still_there(void **state)
{
    (void)state;
    struct pl_recovery kept = {0};
    char rule[256];
    for (int first = 1; first >= 0; first--) {
        for (size_t i = 0; i < N_FAILURES; i++) {
            struct pl_problems problems = {0};
            set_fault(failures[i].call, failures[i].nth, failures[i].error);
            assert_int_equal(
                pl_recovery_write_by(&faulty, &kept, in_folder("wing.json"), hash(saved), edited, &problems),
                PL_CANNOT_WRITE);
            assert_true(fault.seen >= failures[i].nth);
            snprintf(rule, sizeof rule, "unsaved work cannot be kept here: %s", failures[i].sentence);
            assert_int_equal(problems.count, 1);
            assert_string_equal(problems.list[0].rule, rule);
            assert_int_equal(strncmp(problems.list[0].place, in_folder("state/plyloft/recovery/"),
                                     strlen(in_folder("state/plyloft/recovery/"))),
                             0);
            pl_problems_free(&problems);
            assert_int_equal(count_kept(), !first);
            if (first)
                assert_null(kept.file);
            else
                assert_found("wing.json", "{\"plies\": 5}");
        }
        if (first)
            assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 5}"), PL_OK);
    }
    pl_recovery_leave(&kept);
}

static void one_whose_folder_cannot_be_synced_is_still_its_sessions(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    set_fault(FSYNC, 2, EIO);
    assert_int_equal(pl_recovery_write_by(&faulty, &kept, in_folder("wing.json"), 0, edited, &problems),
                     PL_CANNOT_WRITE);
    assert_non_null(kept.file);
    pl_problems_free(&problems);
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 6}"), PL_OK);
    assert_int_equal(count_kept(), 1);
    assert_int_equal(pl_recovery_discard(&kept, &problems), PL_OK);
    assert_int_equal(count_kept(), 0);
}

static void a_new_name_that_cannot_be_written_leaves_the_old_one(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 5}"), PL_OK);
    set_fault(WRITE, 1, ENOSPC);
    assert_int_equal(pl_recovery_write_by(&faulty, &kept, in_folder("second.json"), 0, edited, &problems),
                     PL_CANNOT_WRITE);
    pl_problems_free(&problems);
    assert_found("wing.json", "{\"plies\": 5}");
    assert_int_equal(pl_recovery_discard(&kept, &problems), PL_OK);
    assert_int_equal(count_kept(), 0);
}

/* The system's own way of saying that no more fits. */
static void a_disk_that_takes_no_more_leaves_the_last_good_one(void **state)
{
    (void)state;
    struct pl_recovery kept = {0};
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 5}"), PL_OK);
    pid_t child = fork();
    if (!child) {
        struct pl_problems problems = {0};
        char large[4096];
        memset(large, ' ', sizeof large);
        memcpy(large + sizeof large - 3, "{}", 3);
        signal(SIGXFSZ, SIG_IGN);
        setrlimit(RLIMIT_FSIZE, &(struct rlimit){1000, 1000});
        bool refused = pl_recovery_write(&kept, in_folder("wing.json"), 0, large, &problems) == PL_CANNOT_WRITE;
        _exit(refused && strstr(problems.list[0].rule, "cannot be saved: File too large") ? 0 : 1);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    assert_found("wing.json", "{\"plies\": 5}");
    assert_int_equal(count_kept(), 1);
    pl_recovery_leave(&kept);
}

static void a_document_that_could_not_be_read_again_is_refused(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    const size_t fits = PL_DOCUMENT_MOST_BYTES - 1000, too_large = PL_DOCUMENT_MOST_BYTES;
    char *bytes = malloc(too_large + 1);
    assert_non_null(bytes);
    memset(bytes, ' ', too_large);
    bytes[fits] = '\0';
    assert_int_equal(keep(&kept, "wing.json", bytes), PL_OK);
    assert_found("wing.json", bytes);
    bytes[fits] = ' ';
    bytes[too_large] = '\0';
    assert_int_equal(pl_recovery_write(&kept, in_folder("wing.json"), 0, bytes, &problems), PL_BAD_INPUT);
    assert_problem(&problems, PL_ERROR, in_folder("wing.json"),
                   "is too large for unsaved work to be kept: save it often", "");
    bytes[fits] = '\0';
    assert_found("wing.json", bytes);
    pl_recovery_leave(&kept);
    free(bytes);
}

static void without_memory_nothing_is_lost(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recovery kept = {0};
    struct pl_recovered found = {0};
    assert_int_equal(keep(&kept, "wing.json", "{\"plies\": 5}"), PL_OK);
    enum pl_status status = PL_NO_MEMORY;
    for (size_t n = 1; status != PL_OK; n++) {
        fail_allocation(n);
        status = pl_recovery_write(&kept, in_folder("wing.json"), 0, "{\"plies\": 6}", &problems);
        assert_true(status != PL_OK || allocations < n);
        fail_allocation(0);
        assert_int_equal(problems.errors, status != PL_OK);
        pl_problems_clear(&problems);
        assert_found("wing.json", status == PL_OK ? "{\"plies\": 6}" : "{\"plies\": 5}");
    }
    for (size_t n = 1; !found.file; n++) {
        fail_allocation(n);
        status = pl_recovery_find(in_folder("wing.json"), &found, NULL, &problems);
        assert_true((status == PL_OK && allocations < n) || problems.count);
        pl_problems_clear(&problems);
    }
    fail_allocation(0);
    pl_recovered_free(&found);
    pl_problems_free(&problems);
    pl_recovery_leave(&kept);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_A_PART(a_broken_one_is_told_in_a_sentence_and_left_alone),
        WITH_A_PART(a_folder_that_cannot_be_read_is_told),
        WITH_A_PART(without_home_nothing_is_kept_and_the_sentence_says_why),
        WITH_A_PART(whatever_fails_the_last_good_one_is_still_there),
        WITH_A_PART(one_whose_folder_cannot_be_synced_is_still_its_sessions),
        WITH_A_PART(a_new_name_that_cannot_be_written_leaves_the_old_one),
        WITH_A_PART(a_disk_that_takes_no_more_leaves_the_last_good_one),
        WITH_A_PART(a_document_that_could_not_be_read_again_is_refused),
        WITH_A_PART(without_memory_nothing_is_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
