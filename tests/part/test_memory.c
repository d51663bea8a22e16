/* Reading, editing and undoing when memory runs out at the n-th allocation, for every n:
 * the call says so, and the document is as before.
 *
 * What src/part takes itself comes from pl_part_memory, which this program puts its own in
 * place of; what cJSON takes, from its hooks. */
#include "../support.h"

#include "../../src/part/json.h"

#include "plyloft/file.h"

#include <cjson/cJSON.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static size_t allocations, failing_at; /* failing_at 0: none fails */

static bool runs_out(void)
{
    return ++allocations == failing_at;
}

void *pl_part_memory(void *old, size_t size)
{
    return runs_out() ? NULL : realloc(old, size);
}

static void *cjson_memory(size_t size)
{
    return runs_out() ? NULL : malloc(size);
}

static void fail_at(size_t n)
{
    allocations = 0;
    failing_at = n;
}

static const char text[] =
    "{\n  \"name\": \"top \\u0063ap\",\n  \"list\": [1, \"two\", [3], {\"four\": null, \"five\": {}}],\n"
    "  \"empty\": []\n}\n";

static struct pl_document *read_or_fail(void)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    assert_int_equal(pl_document_read(&doc, text, strlen(text), &problems), PL_OK);
    return doc;
}

/* Refused with the one sentence for it. */
static void assert_ran_out(enum pl_status status, struct pl_problems *problems)
{
    assert_int_equal(status, PL_NO_MEMORY);
    assert_int_equal(problems->count, 1);
    assert_string_equal(problems->list[0].rule, "there is not enough memory");
    pl_problems_clear(problems);
}

static void reading_without_memory_says_so(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_document *doc = NULL;
    size_t n = 1;
    for (;; n++) {
        fail_at(n);
        enum pl_status status = pl_document_read(&doc, text, strlen(text), &problems);
        bool all = allocations < n;
        if (status == PL_OK) {
            assert_true(all); /* nothing that failed was overlooked */
            break;
        }
        assert_ran_out(status, &problems);
        assert_null(doc);
    }
    assert_true(n > 20); /* texts and keys alone are more */
    fail_at(0);
    assert_string_equal(pl_node_text(doc, pl_document_find(doc, "/name")), "top cap");
    pl_document_free(doc);
    pl_problems_free(&problems);
}

static enum pl_status set_one(struct pl_document *doc, struct pl_problems *problems)
{
    return pl_edit_set(doc, "/list/0", "[1, \"one\"]", problems);
}

static enum pl_status add_one(struct pl_document *doc, struct pl_problems *problems)
{
    return pl_edit_set(doc, "/a~1b", "{\"x\": \"y\"}", problems);
}

static enum pl_status insert_one(struct pl_document *doc, struct pl_problems *problems)
{
    return pl_edit_insert(doc, "/list/-", "5", problems);
}

static enum pl_status remove_one(struct pl_document *doc, struct pl_problems *problems)
{
    return pl_edit_remove(doc, "/list/3", problems);
}

static enum pl_status move_one(struct pl_document *doc, struct pl_problems *problems)
{
    return pl_edit_move(doc, "/list/0", 3, problems);
}

static void an_edit_without_memory_leaves_the_document_as_it_was(void **state)
{
    (void)state;
    static enum pl_status (*const edits[])(struct pl_document *, struct pl_problems *) = {set_one, add_one, insert_one,
                                                                                          remove_one, move_one};
    for (size_t i = 0; i < sizeof edits / sizeof edits[0]; i++) {
        struct pl_problems problems = {0};
        struct pl_document *doc = read_or_fail();
        size_t n = 1;
        for (;; n++) {
            fail_at(n);
            enum pl_status status = edits[i](doc, &problems);
            bool all = allocations < n;
            fail_at(0);
            if (status == PL_OK) {
                assert_true(all);
                break;
            }
            assert_ran_out(status, &problems);
            assert_string_equal(pl_document_bytes(doc, NULL), text);
            assert_string_equal(pl_node_text(doc, pl_document_find(doc, "/list/1")), "two");
            assert_int_equal(pl_document_steps(doc), 0);
            assert_int_equal(pl_document_revision(doc), 0);
        }
        assert_true(n > 20);
        assert_int_equal(pl_document_steps(doc), 1);
        assert_true(pl_document_undo(doc));
        assert_string_equal(pl_document_bytes(doc, NULL), text);
        pl_document_free(doc);
        pl_problems_free(&problems);
    }
}

/* A group of three edits, each of which changes something each time, ended however many of them succeed. */
static size_t edit_in_group(struct pl_document *doc, const char *key, struct pl_problems *problems)
{
    size_t done = 0;
    if (pl_edit_begin(doc, "group", key) != PL_OK)
        return 0;
    done += move_one(doc, problems) == PL_OK;
    done += insert_one(doc, problems) == PL_OK;
    done += pl_edit_insert(doc, "/empty/0", "[\"x\"]", problems) == PL_OK;
    assert_int_equal(pl_edit_end(doc), PL_OK);
    return done;
}

static void a_group_ends_without_memory_and_can_be_undone(void **state)
{
    (void)state;
    bool all = false;
    for (size_t n = 1; !all; n++) {
        struct pl_problems problems = {0};
        struct pl_document *doc = read_or_fail();
        assert_int_equal(edit_in_group(doc, "key", &problems), 3);
        char *once = strdup(pl_document_bytes(doc, NULL));
        assert_int_equal(pl_edit_set(doc, "/list/0", "0", &problems), PL_OK);
        assert_true(pl_document_undo(doc));
        assert_int_equal(pl_edit_set(doc, "/name", "0", &problems), PL_OK);
        fail_at(n);
        size_t done = edit_in_group(doc, "key", &problems);
        all = allocations < n;
        fail_at(0);
        assert_int_equal(pl_document_steps(doc), done ? 3 : 2);
        while (pl_document_undo(doc))
            continue;
        assert_string_equal(pl_document_bytes(doc, NULL), text);
        assert_true(pl_document_redo(doc));
        assert_string_equal(pl_document_bytes(doc, NULL), once);
        free(once);
        pl_document_free(doc);
        pl_problems_free(&problems);
    }
}

static void a_step_that_cannot_be_merged_for_want_of_memory_stands_alone(void **state)
{
    (void)state;
    bool all = false;
    size_t alone = 0;
    for (size_t n = 1; !all; n++) {
        struct pl_problems problems = {0};
        struct pl_document *doc = read_or_fail();
        assert_int_equal(edit_in_group(doc, "key", &problems), 3);
        fail_at(n);
        size_t done = edit_in_group(doc, "key", &problems);
        all = allocations < n;
        fail_at(0);
        alone += done == 3 && pl_document_steps(doc) == 2;
        char *last = strdup(pl_document_bytes(doc, NULL));
        while (pl_document_undo(doc))
            continue;
        assert_string_equal(pl_document_bytes(doc, NULL), text);
        while (pl_document_redo(doc))
            continue;
        assert_string_equal(pl_document_bytes(doc, NULL), last);
        free(last);
        pl_document_free(doc);
        pl_problems_free(&problems);
    }
    assert_int_equal(alone, 1); /* the one allocation that merging needs and an end does not */
}

static void merging_without_memory_keeps_both_changes(void **state)
{
    (void)state;
    bool all = false;
    for (size_t n = 1; !all; n++) {
        struct pl_problems problems = {0};
        struct pl_document *doc = read_or_fail();
        for (int round = 0; round < 2; round++) {
            fail_at(round ? n : 0);
            if (pl_edit_begin(doc, "name", "name") == PL_OK) {
                enum pl_status status = pl_edit_set(doc, "/name", round ? "2" : "1", &problems);
                assert_true(status == PL_OK || (round && status == PL_NO_MEMORY));
                assert_int_equal(pl_edit_end(doc), PL_OK);
            }
            all = allocations < n;
            fail_at(0);
        }
        char *last = strdup(pl_document_bytes(doc, NULL));
        assert_true(pl_document_steps(doc) == 1 || pl_document_steps(doc) == 2); /* joined or not */
        while (pl_document_undo(doc))
            continue;
        assert_string_equal(pl_document_bytes(doc, NULL), text);
        while (pl_document_redo(doc))
            continue;
        assert_string_equal(pl_document_bytes(doc, NULL), last);
        free(last);
        pl_document_free(doc);
        pl_problems_free(&problems);
    }
}

static void abandoning_needs_no_memory(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_document *doc = read_or_fail();
    assert_int_equal(pl_edit_begin(doc, "group", NULL), PL_OK);
    assert_int_equal(set_one(doc, &problems), PL_OK);
    assert_int_equal(move_one(doc, &problems), PL_OK);
    fail_at(1);
    pl_edit_abandon(doc);
    assert_int_equal(allocations, 0);
    fail_at(0);
    assert_string_equal(pl_document_bytes(doc, NULL), text);
    pl_document_free(doc);
}

static void undo_and_redo_without_memory_change_nothing(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_document *doc = read_or_fail();
    assert_int_equal(edit_in_group(doc, NULL, &problems), 3);
    char *last = strdup(pl_document_bytes(doc, NULL));
    for (int back = 1; back >= 0; back--) {
        const char *here = back ? last : text, *there = back ? text : last;
        size_t n = 1;
        for (;; n++) {
            fail_at(n);
            bool gone = back ? pl_document_undo(doc) : pl_document_redo(doc);
            fail_at(0);
            if (gone)
                break;
            assert_string_equal(pl_document_bytes(doc, NULL), here);
            assert_int_equal(pl_document_steps_done(doc), back);
        }
        assert_true(n > 20);
        assert_string_equal(pl_document_bytes(doc, NULL), there);
        assert_int_equal(pl_document_steps_done(doc), !back);
    }
    free(last);
    pl_document_free(doc);
}

static void files_without_memory_are_neither_read_nor_written(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    char *folder = make_folder(), path[600], *bytes;
    size_t length;
    snprintf(path, sizeof path, "%s/part.json", folder);
    write_whole_file(path, text, strlen(text));
    fail_at(1);
    assert_ran_out(pl_file_read(path, &bytes, &length, &problems), &problems);
    assert_null(bytes);
    for (size_t n = 1;; n++) {
        fail_at(n);
        enum pl_status status = pl_file_save(path, "new", 3, &problems);
        fail_at(0);
        if (status == PL_OK)
            break;
        assert_int_equal(status, PL_CANNOT_WRITE);
        assert_int_equal(pl_file_read(path, &bytes, &length, &problems), PL_OK);
        assert_string_equal(bytes, text);
        assert_int_equal(count_in_folder(folder), 1);
        free(bytes);
    }
    remove_folder(folder);
    pl_problems_free(&problems);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reading_without_memory_says_so),
        cmocka_unit_test(an_edit_without_memory_leaves_the_document_as_it_was),
        cmocka_unit_test(a_group_ends_without_memory_and_can_be_undone),
        cmocka_unit_test(a_step_that_cannot_be_merged_for_want_of_memory_stands_alone),
        cmocka_unit_test(merging_without_memory_keeps_both_changes),
        cmocka_unit_test(abandoning_needs_no_memory),
        cmocka_unit_test(undo_and_redo_without_memory_change_nothing),
        cmocka_unit_test(files_without_memory_are_neither_read_nor_written),
    };
    cJSON_InitHooks(&(cJSON_Hooks){cjson_memory, free});
    return cmocka_run_group_tests(tests, NULL, NULL);
}
