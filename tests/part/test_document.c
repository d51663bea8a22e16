/* Steps of a document: groups, merging, undo and redo, and what counts as changed. */
#include "documents.h"

#include <stdio.h>

/* ---- steps ---- */

static void edits_between_begin_and_end_are_one_step(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"span_mm\": 1280, \"tip_mm\": 640}");
    assert_int_equal(pl_edit_begin(doc, "span 1280 to 1300", NULL), PL_OK);
    set(doc, "/span_mm", "1300");
    set(doc, "/tip_mm", "650");
    assert_false(pl_document_undo(doc)); /* not while it is open */
    assert_int_equal(pl_edit_end(doc), PL_OK);
    assert_int_equal(pl_document_steps(doc), 1);
    assert_string_equal(pl_document_step_name(doc, 0), "span 1280 to 1300");
    assert_string_equal(pl_document_step_name(doc, 1), "");
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "{\"span_mm\": 1280, \"tip_mm\": 640}");
    assert_int_equal(pl_document_steps_done(doc), 0);
    assert_int_equal(pl_document_steps(doc), 1);
    assert_false(pl_document_undo(doc));
    assert_true(pl_document_redo(doc));
    assert_bytes(doc, "{\"span_mm\": 1300, \"tip_mm\": 650}");
    assert_false(pl_document_redo(doc));
    assert_int_equal(pl_edit_end(doc), PL_BAD_INPUT); /* nothing is open */
    pl_document_free(doc);
}

static void a_group_without_edits_leaves_no_step(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1]");
    set(doc, "/0", "2");
    assert_true(pl_document_undo(doc));
    assert_int_equal(pl_edit_begin(doc, "nothing", NULL), PL_OK);
    assert_int_equal(pl_edit_end(doc), PL_OK);
    assert_int_equal(pl_document_steps(doc), 1);
    assert_true(pl_document_redo(doc));
    pl_document_free(doc);
}

static void abandoning_takes_back_what_was_done_since_begin(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1, 2]");
    set(doc, "/0", "10");
    assert_int_equal(pl_edit_begin(doc, "all", NULL), PL_OK);
    set(doc, "/1", "20");
    do_edit(doc, REMOVE, "/0", NULL, 0);
    do_edit(doc, INSERT, "/-", "[3, 4]", 0);
    assert_bytes(doc, "[20, [3, 4]]");
    unsigned long revision = pl_document_revision(doc);
    pl_edit_abandon(doc);
    assert_bytes(doc, "[10, 2]");
    assert_true(pl_document_revision(doc) > revision);
    assert_close(pl_node_number(doc, pl_document_find(doc, "/0")), 10, 0);
    assert_int_equal(pl_document_steps(doc), 1);
    pl_edit_abandon(doc); /* nothing is open: nothing happens */
    assert_bytes(doc, "[10, 2]");
    pl_document_free(doc);
}

static void a_group_inside_a_group_is_part_of_it_and_can_be_abandoned_alone(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1, 2, 3]");
    assert_int_equal(pl_edit_begin(doc, "outer", NULL), PL_OK);
    assert_int_equal(pl_edit_begin(doc, "inner", NULL), PL_OK);
    set(doc, "/0", "10");
    assert_int_equal(pl_edit_end(doc), PL_OK);
    assert_int_equal(pl_edit_begin(doc, "inner", NULL), PL_OK);
    set(doc, "/1", "20");
    set(doc, "/2", "30");
    pl_edit_abandon(doc);
    assert_bytes(doc, "[10, 2, 3]");
    set(doc, "/2", "33");
    assert_int_equal(pl_document_steps(doc), 0);
    assert_int_equal(pl_edit_end(doc), PL_OK);
    assert_int_equal(pl_document_steps(doc), 1);
    assert_string_equal(pl_document_step_name(doc, 0), "outer");
    assert_bytes(doc, "[10, 2, 33]");
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "[1, 2, 3]");
    assert_true(pl_document_redo(doc));
    assert_bytes(doc, "[10, 2, 33]");
    pl_document_free(doc);
}

static void abandoning_the_outer_group_takes_back_the_inner_one_too(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1, 2]");
    assert_int_equal(pl_edit_begin(doc, "outer", NULL), PL_OK);
    assert_int_equal(pl_edit_begin(doc, "inner", NULL), PL_OK);
    set(doc, "/0", "10");
    assert_int_equal(pl_edit_end(doc), PL_OK);
    set(doc, "/1", "20");
    pl_edit_abandon(doc);
    assert_bytes(doc, "[1, 2]");
    assert_int_equal(pl_document_steps(doc), 0);
    pl_document_free(doc);
}

static void groups_nest_eight_deep_and_no_deeper(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[0]");
    for (int i = 0; i < 8; i++)
        assert_int_equal(pl_edit_begin(doc, "group", NULL), PL_OK);
    assert_int_equal(pl_edit_begin(doc, "group", NULL), PL_BAD_INPUT);
    set(doc, "/0", "1");
    pl_document_free(doc); /* open groups are let go of */
}

static void a_failed_edit_inside_a_group_takes_back_only_itself(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1, 2]");
    struct pl_problems problems = {0};
    assert_int_equal(pl_edit_begin(doc, "group", NULL), PL_OK);
    set(doc, "/0", "10");
    assert_int_equal(pl_edit_set(doc, "/9", "1", &problems), PL_BAD_INPUT);
    set(doc, "/1", "20");
    assert_int_equal(pl_edit_end(doc), PL_OK);
    assert_bytes(doc, "[10, 20]");
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "[1, 2]");
    pl_problems_free(&problems);
    pl_document_free(doc);
}

static void a_new_edit_discards_what_was_undone(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1]");
    set(doc, "/0", "2");
    set(doc, "/0", "3");
    set(doc, "/0", "4");
    assert_true(pl_document_undo(doc) && pl_document_undo(doc));
    assert_bytes(doc, "[2]");
    set(doc, "/0", "5");
    assert_int_equal(pl_document_steps(doc), 2);
    assert_int_equal(pl_document_steps_done(doc), 2);
    assert_false(pl_document_redo(doc));
    assert_true(pl_document_undo(doc) && pl_document_undo(doc));
    assert_bytes(doc, "[1]");
    pl_document_free(doc);
}

/* ---- merging ---- */

static void step_in(struct pl_document *doc, const char *name, const char *key, const char *pointer, const char *json)
{
    assert_int_equal(pl_edit_begin(doc, name, key), PL_OK);
    set(doc, pointer, json);
    assert_int_equal(pl_edit_end(doc), PL_OK);
}

static void steps_of_one_field_merge_and_one_undo_takes_all_back(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"plies\": 9, \"x\": 0}");
    step_in(doc, "9 to 10", "plies", "/plies", "10");
    step_in(doc, "9 to 11", "plies", "/plies", "11");
    step_in(doc, "9 to 8", "plies", "/plies", "8");
    assert_int_equal(pl_document_steps(doc), 1);
    assert_string_equal(pl_document_step_name(doc, 0), "9 to 8");
    assert_bytes(doc, "{\"plies\": 8, \"x\": 0}");
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "{\"plies\": 9, \"x\": 0}");
    assert_true(pl_document_redo(doc));
    assert_bytes(doc, "{\"plies\": 8, \"x\": 0}");
    pl_document_free(doc);
}

static void merged_groups_of_several_changes_are_taken_back_whole(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"span\": 99, \"tip\": 9, \"x\": []}");
    for (int i = 0; i < 5; i++) {
        char number[16];
        assert_int_equal(pl_edit_begin(doc, "span", "span"), PL_OK);
        sprintf(number, "%d", 98 + 2 * i);
        set(doc, "/span", number);
        sprintf(number, "%d", 8 + i);
        set(doc, "/tip", number);
        do_edit(doc, INSERT, "/x/0", number, 0);
        assert_int_equal(pl_edit_end(doc), PL_OK);
    }
    assert_bytes(doc, "{\"span\": 106, \"tip\": 12, \"x\": [12, 11, 10, 9, 8]}");
    assert_int_equal(pl_document_steps(doc), 1);
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "{\"span\": 99, \"tip\": 9, \"x\": []}");
    assert_true(pl_document_redo(doc));
    assert_bytes(doc, "{\"span\": 106, \"tip\": 12, \"x\": [12, 11, 10, 9, 8]}");
    pl_document_free(doc);
}

static void merged_changes_at_one_place_but_of_other_bytes_are_kept_apart(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1, 2, 3]");
    step_in(doc, "first", "key", "/0", "11");
    assert_int_equal(pl_edit_begin(doc, "second", "key"), PL_OK);
    do_edit(doc, REMOVE, "/0", NULL, 0); /* begins where the change before did, and takes more */
    assert_int_equal(pl_edit_end(doc), PL_OK);
    assert_bytes(doc, "[2, 3]");
    assert_int_equal(pl_document_steps(doc), 1);
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "[1, 2, 3]");
    assert_true(pl_document_redo(doc));
    assert_bytes(doc, "[2, 3]");
    pl_document_free(doc);
}

static void steps_do_not_merge_across_another_key_an_undo_or_a_save(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1, 1]");
    step_in(doc, "a", "a", "/0", "2");
    step_in(doc, "b", "b", "/1", "2");
    assert_int_equal(pl_document_steps(doc), 2);
    step_in(doc, "a", "a", "/0", "3"); /* the newest step has another key */
    assert_int_equal(pl_document_steps(doc), 3);
    step_in(doc, "a", NULL, "/0", "4");
    step_in(doc, "a", NULL, "/0", "5");
    assert_int_equal(pl_document_steps(doc), 5);
    step_in(doc, "a", "a", "/0", "6");
    assert_true(pl_document_undo(doc) && pl_document_redo(doc));
    step_in(doc, "a", "a", "/0", "7"); /* something was undone, though done again */
    assert_int_equal(pl_document_steps(doc), 7);
    pl_document_saved(doc);
    step_in(doc, "a", "a", "/0", "8");
    assert_int_equal(pl_document_steps(doc), 8);
    step_in(doc, "a", "a", "/0", "9");
    assert_int_equal(pl_document_steps(doc), 8);
    assert_true(pl_document_undo(doc));
    assert_false(pl_document_changed(doc)); /* back at what was saved */
    assert_bytes(doc, "[7, 2]");
    step_in(doc, "a", "a", "/0", "10"); /* the newest step left is the saved one */
    assert_int_equal(pl_document_steps(doc), 8);
    pl_document_free(doc);
}

/* ---- saved or changed ---- */

static void changed_means_that_the_bytes_differ_from_those_saved(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1]");
    assert_false(pl_document_changed(doc));
    set(doc, "/0", "2");
    assert_true(pl_document_changed(doc));
    set(doc, "/0", "1");
    assert_false(pl_document_changed(doc));
    set(doc, "/0", "3");
    pl_document_saved(doc);
    assert_false(pl_document_changed(doc));
    assert_true(pl_document_undo(doc));
    assert_true(pl_document_changed(doc));
    assert_true(pl_document_redo(doc));
    assert_false(pl_document_changed(doc));
    assert_true(pl_document_undo(doc));
    set(doc, "/0", "4"); /* as many steps as were saved, but another one */
    assert_true(pl_document_changed(doc));
    pl_document_free(doc);
}

static void a_save_inside_a_group_that_is_abandoned_leaves_the_document_changed(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1]");
    assert_int_equal(pl_edit_begin(doc, "group", NULL), PL_OK);
    set(doc, "/0", "2");
    pl_document_saved(doc);
    set(doc, "/0", "3");
    pl_edit_abandon(doc);
    assert_bytes(doc, "[1]");
    assert_true(pl_document_changed(doc));
    pl_document_saved(doc);
    assert_false(pl_document_changed(doc));
    pl_document_free(doc);
}

static void the_revision_rises_with_every_edit_undo_and_redo(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("[1]");
    unsigned long before = pl_document_revision(doc);
    set(doc, "/0", "2");
    unsigned long edited = pl_document_revision(doc);
    assert_true(pl_document_undo(doc));
    unsigned long undone = pl_document_revision(doc);
    assert_true(pl_document_redo(doc));
    assert_true(before < edited && edited < undone && undone < pl_document_revision(doc));
    pl_document_free(doc);
}

/* ---- random edits ---- */

static unsigned next_random(unsigned long long *seed)
{
    *seed = *seed * 6364136223846793005ull + 1442695040888963407ull;
    return (unsigned)(*seed >> 33);
}

/* The pointer of a value chosen by walking down at random. */
static void random_place(const struct pl_document *doc, unsigned long long *seed, char *pointer, size_t size)
{
    pl_node node = pl_document_root(doc);
    pointer[0] = '\0';
    while (pl_node_count(doc, node) && next_random(seed) % 4) {
        pl_node child = pl_node_first(doc, node);
        size_t index = next_random(seed) % pl_node_count(doc, node);
        for (size_t i = 0; i < index; i++)
            child = pl_node_next(doc, child);
        if (pl_node_key(doc, child))
            pl_pointer_append(pointer, size, pl_node_key(doc, child));
        else
            pl_pointer_append_index(pointer, size, index);
        assert_true(pl_document_find(doc, pointer) == child);
        node = child;
    }
}

static void random_edit(struct pl_document *doc, unsigned long long *seed)
{
    static const char *const values[] = {
        "1",   "-2.50", "\"t\\u00e9xt\"", "[]",  "{}", "[1, [2],\n 3]", "{\"k/~\": {\"\": 0}}",
        "[ ]", "true",  "null",           "{\n}"};
    static const char *const keys[] = {"a", "b/c", "d~e", "", "\xc3\xa9", "k/~", "-", "0"};
    char pointer[1000];
    struct pl_problems problems = {0};
    const char *value = values[next_random(seed) % (sizeof values / sizeof values[0])];
    enum what what = (enum what)(next_random(seed) % 4);
    random_place(doc, seed, pointer, sizeof pointer);
    pl_node node = pl_document_find(doc, pointer);
    if (what == INSERT && pl_node_kind(doc, node) == PL_NODE_LIST)
        pl_pointer_append_index(pointer, sizeof pointer, next_random(seed) % (pl_node_count(doc, node) + 1));
    else if (what <= INSERT && pl_node_kind(doc, node) == PL_NODE_OBJECT)
        pl_pointer_append(pointer, sizeof pointer, keys[next_random(seed) % (sizeof keys / sizeof keys[0])]);
    size_t length;
    const char *bytes = pl_document_bytes(doc, &length);
    char *before = strdup(bytes);
    if (edit(doc, what, pointer, value, next_random(seed) % 3, &problems) != PL_OK)
        assert_string_equal(pl_document_bytes(doc, NULL), before);
    free(before);
    pl_problems_free(&problems);
}

/* As an edit, a group of edits, one abandoned, or steps back and forth. */
static void random_act(struct pl_document *doc, unsigned long long *seed)
{
    unsigned act = next_random(seed) % 12;
    if (act == 0) {
        pl_document_undo(doc);
    } else if (act == 1) {
        pl_document_redo(doc);
    } else if (act < 6) {
        char *before = strdup(pl_document_bytes(doc, NULL));
        assert_int_equal(pl_edit_begin(doc, "group", next_random(seed) % 2 ? "key" : NULL), PL_OK);
        for (unsigned n = next_random(seed) % 4; n; n--)
            random_edit(doc, seed);
        if (act == 2) {
            pl_edit_abandon(doc);
            assert_string_equal(pl_document_bytes(doc, NULL), before);
        } else {
            assert_int_equal(pl_edit_end(doc), PL_OK);
        }
        free(before);
    } else {
        random_edit(doc, seed);
    }
}

static void undoing_random_edits_gives_the_first_bytes_and_redoing_the_last(void **state)
{
    (void)state;
    static const char first[] =
        "{\n  \"a\": [1, 2, {\"b/c\": \"x\"}],\n  \"d~e\": {\"f\": [], \"g\": [[1, 0],\n  [0, 1]]}\n}\n";
    size_t steps = 0;
    for (unsigned long long trial = 1; trial <= 150; trial++) {
        unsigned long long seed = trial;
        struct pl_document *doc = read_text(first);
        for (int i = 0; i < 60; i++)
            random_act(doc, &seed);
        while (pl_document_redo(doc))
            continue;
        char *last = strdup(pl_document_bytes(doc, NULL));
        steps += pl_document_steps(doc);
        while (pl_document_undo(doc))
            continue;
        assert_bytes(doc, first);
        assert_false(pl_document_changed(doc));
        while (pl_document_redo(doc))
            continue;
        assert_bytes(doc, last);
        assert_int_equal(pl_document_steps_done(doc), pl_document_steps(doc));
        free(last);
        pl_document_free(doc);
    }
    assert_true(steps > 150 * 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(edits_between_begin_and_end_are_one_step),
        cmocka_unit_test(a_group_without_edits_leaves_no_step),
        cmocka_unit_test(abandoning_takes_back_what_was_done_since_begin),
        cmocka_unit_test(a_group_inside_a_group_is_part_of_it_and_can_be_abandoned_alone),
        cmocka_unit_test(abandoning_the_outer_group_takes_back_the_inner_one_too),
        cmocka_unit_test(groups_nest_eight_deep_and_no_deeper),
        cmocka_unit_test(a_failed_edit_inside_a_group_takes_back_only_itself),
        cmocka_unit_test(a_new_edit_discards_what_was_undone),
        cmocka_unit_test(steps_of_one_field_merge_and_one_undo_takes_all_back),
        cmocka_unit_test(merged_groups_of_several_changes_are_taken_back_whole),
        cmocka_unit_test(merged_changes_at_one_place_but_of_other_bytes_are_kept_apart),
        cmocka_unit_test(steps_do_not_merge_across_another_key_an_undo_or_a_save),
        cmocka_unit_test(changed_means_that_the_bytes_differ_from_those_saved),
        cmocka_unit_test(a_save_inside_a_group_that_is_abandoned_leaves_the_document_changed),
        cmocka_unit_test(the_revision_rises_with_every_edit_undo_and_redo),
        cmocka_unit_test(undoing_random_edits_gives_the_first_bytes_and_redoing_the_last),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
