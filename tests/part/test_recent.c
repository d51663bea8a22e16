/* The list of parts opened last: its order, its length, and what a broken or unwritable list costs. */
#include "keeping.h"

#include "plyloft/recent.h"

#define LIST "state/plyloft/recent.json"

static void add(const char *name)
{
    struct pl_problems problems = {0};
    assert_int_equal(pl_recent_add(in_folder(name), &problems), PL_OK);
    assert_int_equal(problems.count, 0);
}

static struct pl_recent read_list(void)
{
    struct pl_problems problems = {0};
    struct pl_recent recent;
    assert_int_equal(pl_recent_read(&recent, &problems), PL_OK);
    assert_int_equal(problems.count, 0);
    return recent;
}

/* Names in the folder, newest first, separated by blanks. */
static void assert_list(const char *want)
{
    char got[1000] = "";
    struct pl_recent recent = read_list();
    for (size_t i = 0; i < recent.count; i++) {
        size_t n = strlen(got);
        assert_int_equal(strncmp(recent.parts[i].path, folder, strlen(folder)), 0);
        snprintf(got + n, sizeof got - n, "%s%s", i ? " " : "", recent.parts[i].path + strlen(folder) + 1);
    }
    pl_recent_free(&recent);
    assert_string_equal(got, want);
}

static void the_newest_part_stands_first_and_none_twice(void **state)
{
    (void)state;
    assert_list("");
    add("a.json");
    add("b.json");
    add("c.json");
    assert_list("c.json b.json a.json");
    add("a.json");
    assert_list("a.json c.json b.json");
    add("a.json");
    assert_list("a.json c.json b.json");
}

static void paths_are_kept_from_the_root_on(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    char here[4096];
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(mkdir(in_folder("parts"), 0700), 0);
    assert_int_equal(symlink("parts", in_folder("work")), 0);
    add("parts/a.json");
    add("work/../work/a.json");
    assert_list("parts/a.json");
    assert_int_equal(chdir(in_folder("work")), 0);
    assert_int_equal(pl_recent_add("./b.json", &problems), PL_OK);
    assert_int_equal(chdir(here), 0);
    assert_list("parts/b.json parts/a.json");
}

static void a_part_that_is_gone_is_marked(void **state)
{
    (void)state;
    put("a.json", "{}");
    put("b.json", "{}");
    add("a.json");
    add("b.json");
    assert_int_equal(unlink(in_folder("a.json")), 0);
    struct pl_recent recent = read_list();
    assert_int_equal(recent.count, 2);
    assert_true(recent.parts[0].exists);
    assert_false(recent.parts[1].exists);
    pl_recent_free(&recent);
}

static void twenty_parts_are_remembered_and_the_oldest_is_forgotten(void **state)
{
    (void)state;
    char name[32];
    for (int i = 1; i <= PL_RECENT_MOST + 3; i++) {
        snprintf(name, sizeof name, "%d.json", i);
        add(name);
    }
    struct pl_recent recent = read_list();
    assert_int_equal(recent.count, 20);
    assert_string_equal(recent.parts[0].path, in_folder("23.json"));
    assert_string_equal(recent.parts[19].path, in_folder("4.json"));
    pl_recent_free(&recent);
    add("4.json"); /* from the end to the front: nothing else goes */
    recent = read_list();
    assert_string_equal(recent.parts[0].path, in_folder("4.json"));
    assert_string_equal(recent.parts[19].path, in_folder("5.json"));
    pl_recent_free(&recent);
}

static void a_part_can_be_taken_off_the_list(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    add("a.json");
    add("b.json");
    add("c.json");
    assert_int_equal(pl_recent_remove(in_folder("b.json"), &problems), PL_OK);
    assert_list("c.json a.json");
    assert_int_equal(pl_recent_remove(in_folder("b.json"), &problems), PL_OK);
    assert_list("c.json a.json");
    assert_int_equal(problems.count, 0);
}

static void what_has_no_name_to_remember_is_not_remembered(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    assert_int_equal(pl_recent_add("-", &problems), PL_OK);
    assert_int_equal(problems.count, 0);
    assert_int_equal(pl_recent_add(in_folder("w\xffng.json"), &problems), PL_OK);
    assert_int_equal(problems.count, 1);
    assert_int_equal(problems.list[0].severity, PL_WARNING);
    assert_string_equal(problems.list[0].rule, "is not remembered: its name is not UTF-8");
    pl_problems_free(&problems);
    assert_false(is_there(LIST));
}

static void any_utf8_name_comes_back_as_it_was(void **state)
{
    (void)state;
    const char *name = "w\xc3\xb6ng \"\\\n\xe2\x80\xae\xf0\x9f\x9b\xa0.json";
    add(name);
    assert_list(name);
}

static void the_file_is_json_to_be_read_by_anybody(void **state)
{
    (void)state;
    char want[2000];
    add("a.json");
    snprintf(want, sizeof want, "{\n  \"format\": \"plyloft-recent\",\n  \"version\": 1,\n  \"parts\": [\"%s\"]\n}\n",
             in_folder("a.json"));
    assert_file(LIST, want);
    assert_int_equal(count_in_folder(in_folder("state/plyloft")), 1);
}

/* ---- broken lists ---- */

static void a_broken_list_begins_anew_and_says_so(void **state)
{
    (void)state;
    static const struct {
        const char *text, *sentence;
    } table[] = {
        {"", "line 1, column 1: the file is empty"},
        {"{\"parts\": [", "line 1, column 12: the file ends inside a list"},
        {"[1]", "/format: must be \"plyloft-recent\""},
        {"{\"format\": \"plyloft-part\"}", "/format: must be \"plyloft-recent\""},
        {"{\"format\": \"plyloft-recent\", \"version\": 2}", "/version: is not a version that this program knows"},
        {"{\"format\": \"plyloft-recent\", \"version\": 1, \"parts\": {}}", "/parts: must be a list"},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        struct pl_problems problems = {0};
        struct pl_recent recent;
        char rule[256];
        add("old.json");
        put(LIST, table[i].text);
        snprintf(rule, sizeof rule, "the list of recent parts begins anew: %s", table[i].sentence);
        assert_int_equal(pl_recent_read(&recent, &problems), PL_OK);
        assert_int_equal(recent.count, 0);
        assert_problem(&problems, PL_WARNING, in_folder(LIST), rule, "");
        assert_file(LIST, table[i].text); /* looking changes nothing */
        assert_int_equal(pl_recent_add(in_folder("new.json"), &problems), PL_OK);
        assert_problem(&problems, PL_WARNING, in_folder(LIST), rule, "");
        assert_list("new.json");
    }
}

static void what_is_no_path_in_a_list_is_passed_over(void **state)
{
    (void)state;
    char text[3000];
    add("a.json");
    snprintf(text, sizeof text,
             "{\"format\": \"plyloft-recent\", \"version\": 1, \"later\": [],"
             " \"parts\": [\"%s\", 3, \"relative.json\", \"\", null, \"%s\", \"%s\"]}",
             in_folder("a.json"), in_folder("b.json"), in_folder("a.json"));
    put(LIST, text);
    assert_list("a.json b.json");
}

/* ---- when it cannot be kept ---- */

static void whatever_fails_the_old_list_is_whole(void **state)
{
    (void)state;
    char rule[256];
    for (int exists = 0; exists <= 1; exists++) {
        for (size_t i = 0; i < N_FAILURES; i++) {
            struct pl_problems problems = {0};
            set_fault(failures[i].call, failures[i].nth, failures[i].error);
            assert_int_equal(pl_recent_add_by(&faulty, in_folder("new.json"), &problems), PL_CANNOT_WRITE);
            assert_true(fault.seen >= failures[i].nth);
            snprintf(rule, sizeof rule, "the list of recent parts cannot be kept: %s", failures[i].sentence);
            assert_problem(&problems, PL_ERROR, in_folder(LIST), rule, "");
            assert_int_equal(count_in_folder(in_folder("state/plyloft")), exists);
            assert_list(exists ? "old.json" : "");
        }
        add("old.json");
    }
}

static void without_home_the_sentence_says_why(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_recent recent;
    const char *why = "nothing can be kept: neither XDG_STATE_HOME nor HOME is set to an absolute path";
    unsetenv("HOME");
    unsetenv("XDG_STATE_HOME");
    assert_int_equal(pl_recent_read(&recent, &problems), PL_CANNOT_READ);
    assert_int_equal(recent.count, 0);
    assert_problem(&problems, PL_ERROR, "", why, "");
    assert_int_equal(pl_recent_add(in_folder("a.json"), &problems), PL_CANNOT_WRITE);
    assert_problem(&problems, PL_ERROR, "", why, "");
}

static void a_folder_in_the_way_is_told(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    put("state", "a file");
    assert_int_equal(pl_recent_add(in_folder("a.json"), &problems), PL_CANNOT_WRITE);
    assert_int_equal(problems.count, 1);
    assert_non_null(strstr(problems.list[0].rule, "cannot be kept: "));
    assert_non_null(strstr(problems.list[0].rule, "/state: cannot be made: Not a directory"));
    pl_problems_free(&problems);
}

static void without_memory_the_list_stays_as_it_was(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    add("a.json");
    add("b.json");
    enum pl_status status = PL_NO_MEMORY;
    size_t n = 1;
    for (; status != PL_OK; n++) {
        assert_list("b.json a.json");
        fail_allocation(n);
        status = pl_recent_add(in_folder("c.json"), &problems);
        assert_true(status != PL_OK || allocations < n);
        fail_allocation(0);
        assert_int_equal(problems.errors, status != PL_OK);
        pl_problems_clear(&problems);
    }
    assert_true(n > 10);
    assert_list("c.json b.json a.json");
    pl_problems_free(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_HOME(the_newest_part_stands_first_and_none_twice),
        IN_A_HOME(paths_are_kept_from_the_root_on),
        IN_A_HOME(a_part_that_is_gone_is_marked),
        IN_A_HOME(twenty_parts_are_remembered_and_the_oldest_is_forgotten),
        IN_A_HOME(a_part_can_be_taken_off_the_list),
        IN_A_HOME(what_has_no_name_to_remember_is_not_remembered),
        IN_A_HOME(any_utf8_name_comes_back_as_it_was),
        IN_A_HOME(the_file_is_json_to_be_read_by_anybody),
        IN_A_HOME(a_broken_list_begins_anew_and_says_so),
        IN_A_HOME(what_is_no_path_in_a_list_is_passed_over),
        IN_A_HOME(whatever_fails_the_old_list_is_whole),
        IN_A_HOME(without_home_the_sentence_says_why),
        IN_A_HOME(a_folder_in_the_way_is_told),
        IN_A_HOME(without_memory_the_list_stays_as_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
