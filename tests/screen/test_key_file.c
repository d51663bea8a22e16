/* The file of keys: written with every action as a remark, read over the usual keys, wrong lines told and left out. */
#include "support.h"

#include "screen/app.h"
#include "screen/key_file.h"

#include "plyloft/keys.h"
#include "plyloft/problems.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void take(struct pl_keymap *map, const char *text, const char *sentence)
{
    struct pl_problems problems = {0};
    char found[480] = "";
    pl_key_file_take(map, text, &problems);
    if (problems.count)
        pl_problem_sentence(&problems.list[0], NULL, found, sizeof found);
    assert_string_equal(found, sentence);
    pl_problems_free(&problems);
}

static int key_of(const struct pl_keymap *map, enum pl_action action)
{
    return pl_keymap_key(map, action, 0);
}

static void a_line_gives_an_action_other_keys_and_takes_them_from_who_had_them(void **state)
{
    (void)state;
    struct pl_keymap map;
    take(&map, "# mine\nundo z Ctrl-Z\n  redo\tZ\r\nstep-up + k\n", "");
    assert_int_equal(pl_keymap_find(&map, 'z')->action, PL_DO_UNDO);
    assert_int_equal(pl_keymap_find(&map, PL_KEY_CTRL('Z'))->action, PL_DO_UNDO);
    assert_int_equal(pl_keymap_find(&map, 'Z')->action, PL_DO_REDO);
    assert_null(pl_keymap_find(&map, 'u'));
    assert_null(pl_keymap_find(&map, '='));
    assert_int_equal(pl_keymap_find(&map, 'k')->action, PL_DO_STEP_UP);
    assert_int_equal(key_of(&map, PL_DO_KEEP_STATE), 0);
    assert_int_equal(key_of(&map, PL_DO_SAVE), PL_KEY_CTRL('S'));
}

static void an_action_may_have_no_key(void **state)
{
    (void)state;
    struct pl_keymap map;
    take(&map, "row-remove", "");
    assert_null(pl_keymap_find(&map, PL_KEY_DELETE));
}

static void wrong_lines_are_told_with_their_number_and_left_out(void **state)
{
    (void)state;
    struct pl_keymap map;
    take(&map, "\nsaves s\nundo z", "keys, line 2: there is no action of that name (found saves)");
    assert_int_equal(pl_keymap_find(&map, 'z')->action, PL_DO_UNDO);
    take(&map, "undo zz", "keys, line 1: this is no key (found zz)");
    assert_int_equal(pl_keymap_find(&map, 'u')->action, PL_DO_UNDO);
    take(&map, "undo z\nredo z", "keys, line 2: a line above has this key (found z)");
    take(&map, "undo z\nundo y", "keys, line 2: a line above names this action (found undo)");
    take(&map, "undo 1 2 3 4 5", "keys, line 1: an action has at most four keys (found 5)");
    take(&map, "undo \033[31m", "keys, line 1: this is no key (found \xef\xbf\xbd[31m)");
}

static void nobody_is_locked_in(void **state)
{
    (void)state;
    struct pl_keymap map;
    take(&map, "undo q Ctrl-C\n", "keys: leave needs a key, and keeps its usual one");
    assert_int_equal(pl_keymap_find(&map, 'q')->action, PL_DO_QUIT);
    take(&map, "help\n", "keys: help needs a key, and keeps its usual one");
    assert_int_equal(pl_keymap_find(&map, '?')->action, PL_DO_HELP);
    take(&map, "find F\n", "");
    assert_int_equal(pl_keymap_find(&map, 'F')->action, PL_DO_FIND);
}

static void the_written_file_names_every_action_and_means_the_usual_keys(void **state)
{
    (void)state;
    struct pl_keymap usual, read;
    char *text = pl_key_file_text(), *at;
    assert_non_null(text);
    pl_keymap_usual(&usual);
    take(&read, text, "");
    assert_memory_equal(&read, &usual, sizeof usual);
    /* With the remark marks of its lines taken away it means the same: names and keys are spelled right. */
    for (size_t i = 0; i < pl_n_doings; i++) {
        char line[64];
        snprintf(line, sizeof line, "\n#%s ", pl_doings[i].name);
        at = strstr(text, line);
        if (!at)
            fail_msg("%s is not in the file", pl_doings[i].name);
        at[1] = ' ';
    }
    take(&read, text, "");
    assert_memory_equal(&read, &usual, sizeof usual);
    free(text);
}

static void the_bench_reads_the_file_and_writes_it_only_where_there_is_none(void **state)
{
    (void)state;
    char *folder = make_folder(), *path, *written, *bytes;
    struct pl_problems problems = {0};
    bool fresh;
    setenv("XDG_CONFIG_HOME", folder, 1);
    setenv("XDG_STATE_HOME", folder, 1);
    assert_int_equal(pl_key_file_write(&written, &fresh, &problems), PL_OK);
    assert_true(fresh);
    assert_true(asprintf(&path, "%s/plyloft/keys", folder) > 0);
    assert_string_equal(written, path);
    free(written);
    write_whole_file(path, "undo z\nsomething s\n", 19);
    assert_int_equal(pl_key_file_write(&written, &fresh, &problems), PL_OK);
    assert_false(fresh);
    free(written);
    bytes = read_whole_file(path, NULL);
    assert_string_equal(bytes, "undo z\nsomething s\n");
    struct pl_app app = {.ask = true};
    assert_int_equal(pl_app_open(&app, "samples/front-wing.json", &problems), PL_OK);
    assert_int_equal(pl_keymap_find(&app.session->keys, 'z')->action, PL_DO_UNDO);
    assert_string_equal(app.session->message, "keys, line 2: there is no action of that name (found something)");
    pl_app_close(&app);
    app = (struct pl_app){0};  /* `plyloft screen` has the usual keys, whoever runs it */
    assert_int_equal(pl_app_open(&app, "samples/front-wing.json", &problems), PL_OK);
    assert_null(pl_keymap_find(&app.session->keys, 'z'));
    pl_app_close(&app);
    free(bytes);
    free(path);
    remove_folder(folder);
}

static void a_place_that_cannot_be_written_is_told(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    char *path;
    bool fresh;
    setenv("XDG_CONFIG_HOME", "/dev/null/nowhere", 1);
    assert_int_not_equal(pl_key_file_write(&path, &fresh, &problems), PL_OK);
    assert_null(path);
    assert_int_equal(problems.errors, 1);
    pl_problems_free(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_line_gives_an_action_other_keys_and_takes_them_from_who_had_them),
        cmocka_unit_test(an_action_may_have_no_key),
        cmocka_unit_test(wrong_lines_are_told_with_their_number_and_left_out),
        cmocka_unit_test(nobody_is_locked_in),
        cmocka_unit_test(the_written_file_names_every_action_and_means_the_usual_keys),
        cmocka_unit_test(the_bench_reads_the_file_and_writes_it_only_where_there_is_none),
        cmocka_unit_test(a_place_that_cannot_be_written_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
