/* Edits of a document: the bytes they leave, and what is refused. */
#include "documents.h"

struct trial {
    const char *before;
    enum what what;
    const char *pointer, *json;
    size_t to;
    const char *after;
};

/* Each edit leaves these bytes, and undoing it the old ones. */
static void try_all(const struct trial *trials, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct pl_document *doc = read_text(trials[i].before);
        do_edit(doc, trials[i].what, trials[i].pointer, trials[i].json, trials[i].to);
        assert_bytes(doc, trials[i].after);
        assert_int_equal(pl_document_steps(doc), 1);
        assert_string_equal(pl_document_step_name(doc, 0), trials[i].pointer);
        assert_true(pl_document_undo(doc));
        assert_bytes(doc, trials[i].before);
        assert_true(pl_document_redo(doc));
        assert_bytes(doc, trials[i].after);
        pl_document_free(doc);
    }
}

#define TRY(trials) try_all(trials, sizeof trials / sizeof trials[0])

/* ---- what edits leave ---- */

static void set_replaces_only_the_value_named(void **state)
{
    (void)state;
    static const struct trial trials[] = {
        {" {\"a\":  1.50 , \"b\":[ ]}\n", SET, "/a", "2", 0, " {\"a\":  2 , \"b\":[ ]}\n"},
        {"{\"a\": {\"x\": 1e0}}", SET, "/a/x", " \n[1,  2]\t", 0, "{\"a\": {\"x\": [1,  2]}}"},
        {"[1, 2, 3]", SET, "/2", "\"three\"", 0, "[1, 2, \"three\"]"},
        {"\n 1 \n", SET, "", "{}", 0, "\n {} \n"},
        {"{\"a/b\": {\"m~n\": 1}}", SET, "/a~1b/m~0n", "2", 0, "{\"a/b\": {\"m~n\": 2}}"},
        {"{\"a~1b\": 1}", SET, "/a~01b", "2", 0, "{\"a~1b\": 2}"},
        {"{\"\": 1}", SET, "/", "2", 0, "{\"\": 2}"},
        {"{\"\\u0061\": 1}", SET, "/a", "2", 0, "{\"\\u0061\": 2}"},
        {"{\"0\": 1}", SET, "/0", "2", 0, "{\"0\": 2}"},
    };
    TRY(trials);
}

static void a_missing_member_is_added_last_in_the_spacing_of_its_neighbours(void **state)
{
    (void)state;
    static const struct trial trials[] = {
        {"{\"a\": 1}", SET, "/b", "2", 0, "{\"a\": 1, \"b\": 2}"},
        {"{\"a\":1}", SET, "/b", "2", 0, "{\"a\":1,\"b\":2}"},
        {"{ \"a\" : 1 }", SET, "/b", "2", 0, "{ \"a\" : 1, \"b\" : 2 }"},
        {"{\"a\":1,\"b\":2}", SET, "/c", "3", 0, "{\"a\":1,\"b\":2,\"c\":3}"},
        {"{\"a\": 1 , \"b\": 2}", SET, "/c", "3", 0, "{\"a\": 1 , \"b\": 2 , \"c\": 3}"},
        {"{\n  \"a\": 1\n}\n", SET, "/b", "2", 0, "{\n  \"a\": 1,\n  \"b\": 2\n}\n"},
        {"{\r\n\t\"a\": 1,\r\n\t\"b\": 2\r\n}", SET, "/c", "3", 0,
         "{\r\n\t\"a\": 1,\r\n\t\"b\": 2,\r\n\t\"c\": 3\r\n}"},
        /* columns that were lined up by hand are not lined up further */
        {"{\"y_mm\":  0,   \"chord_mm\":   275}", SET, "/twist_deg", "1", 0,
         "{\"y_mm\":  0,   \"chord_mm\":   275, \"twist_deg\": 1}"},
        /* a record over several lines grows on its last line */
        {"[\n  {\"a\": 1, \"b\": 2,\n   \"c\": 3, \"d\": 4}\n]", SET, "/0/e", "5", 0,
         "[\n  {\"a\": 1, \"b\": 2,\n   \"c\": 3, \"d\": 4, \"e\": 5}\n]"},
        {"{}", SET, "/a", "1", 0, "{\"a\": 1}"},
        {"{ }", SET, "/a", "1", 0, "{ \"a\": 1 }"},
        {"{\n}", SET, "/a", "1", 0, "{\n  \"a\": 1\n}"},
        {"{\"a\":{}}", SET, "/a/b", "1", 0, "{\"a\":{\"b\":1}}"},
        {"{}", SET, "/q\"\\~1~0\xc3\xa9\n", "1", 0, "{\"q\\\"\\\\/~\xc3\xa9\\n\": 1}"},
        {"{\"a\": 1}", INSERT, "/b", "2", 0, "{\"a\": 1, \"b\": 2}"},
        {"{\"a\": 1}", SET, "/-", "2", 0, "{\"a\": 1, \"-\": 2}"},
    };
    TRY(trials);
}

static void an_item_is_inserted_in_the_spacing_of_its_neighbours(void **state)
{
    (void)state;
    static const struct trial trials[] = {
        {"[1, 2]", INSERT, "/0", "0", 0, "[0, 1, 2]"},
        {"[1, 2]", INSERT, "/1", "0", 0, "[1, 0, 2]"},
        {"[1, 2]", INSERT, "/2", "0", 0, "[1, 2, 0]"},
        {"[1, 2]", INSERT, "/-", "0", 0, "[1, 2, 0]"},
        {"[1,2]", INSERT, "/-", "0", 0, "[1,2,0]"},
        {"[1]", INSERT, "/-", "0", 0, "[1, 0]"},
        {"[1]", INSERT, "/0", "0", 0, "[0, 1]"},
        {"[]", INSERT, "/-", "0", 0, "[0]"},
        {"[]", INSERT, "/0", "0", 0, "[0]"},
        {"[\n    1,\n    2\n]", INSERT, "/0", "0", 0, "[\n    0,\n    1,\n    2\n]"},
        {"[\n    1,\n    2\n]", INSERT, "/1", "0", 0, "[\n    1,\n    0,\n    2\n]"},
        {"[\n    1,\n    2\n]", INSERT, "/-", "0", 0, "[\n    1,\n    2,\n    0\n]"},
        {"[\n    1\n]", INSERT, "/-", "0", 0, "[\n    1,\n    0\n]"},
        {"[\n    1\n]", INSERT, "/0", "0", 0, "[\n    0,\n    1\n]"},
        /* the first item may share the bracket's line */
        {"[[1, 0],\n [0, 0]]", INSERT, "/-", "[0, 1]", 0, "[[1, 0],\n [0, 0],\n [0, 1]]"},
        {"[[1, 0],\n [0, 0]]", INSERT, "/0", "[2, 0]", 0, "[[2, 0],\n [1, 0],\n [0, 0]]"},
        /* first items of an empty list: one line for plain values, lines of their own for records */
        {"{\n  \"plies\": [],\n  \"x\": 1\n}", INSERT, "/plies/-", "4", 0, "{\n  \"plies\": [4],\n  \"x\": 1\n}"},
        {"{\n  \"layup\": [],\n  \"x\": 1\n}", INSERT, "/layup/-", "{\"name\": \"cap\"}", 0,
         "{\n  \"layup\": [\n    {\"name\": \"cap\"}\n  ],\n  \"x\": 1\n}"},
        {"{\n\t\"e\": [\n\t\t{\n\t\t\t\"layup\": []\n\t\t}\n\t]\n}", INSERT, "/e/0/layup/-", "{}", 0,
         "{\n\t\"e\": [\n\t\t{\n\t\t\t\"layup\": [\n\t\t\t\t{}\n\t\t\t]\n\t\t}\n\t]\n}"},
        {"{\r\n  \"a\": [\r\n  ]\r\n}", INSERT, "/a/-", "1", 0, "{\r\n  \"a\": [\r\n    1\r\n  ]\r\n}"},
        {"{\"a\": 1, \"b\": []}", INSERT, "/b/-", "{}", 0, "{\"a\": 1, \"b\": [{}]}"},
    };
    TRY(trials);
}

static void removing_takes_one_comma_and_the_white_space_of_the_item(void **state)
{
    (void)state;
    static const struct trial trials[] = {
        {"[1, 2, 3]", REMOVE, "/0", NULL, 0, "[2, 3]"},
        {"[1, 2, 3]", REMOVE, "/1", NULL, 0, "[1, 3]"},
        {"[1, 2, 3]", REMOVE, "/2", NULL, 0, "[1, 2]"},
        {"[ 1 ]", REMOVE, "/0", NULL, 0, "[]"},
        {"{\"a\":1,\"b\":2}", REMOVE, "/b", NULL, 0, "{\"a\":1}"},
        {"{\n  \"a\": 1,\n  \"b\": [\n  ],\n  \"c\": 3\n}\n", REMOVE, "/a", NULL, 0,
         "{\n  \"b\": [\n  ],\n  \"c\": 3\n}\n"},
        {"{\n  \"a\": 1,\n  \"b\": 2,\n  \"c\": 3\n}\n", REMOVE, "/b", NULL, 0, "{\n  \"a\": 1,\n  \"c\": 3\n}\n"},
        {"{\n  \"a\": 1,\n  \"b\": 2,\n  \"c\": 3\n}\n", REMOVE, "/c", NULL, 0, "{\n  \"a\": 1,\n  \"b\": 2\n}\n"},
        {"{\n  \"a\": 1\n}\n", REMOVE, "/a", NULL, 0, "{}\n"},
        /* of several on a line, those on the other lines stay where they are */
        {"{\"a\": 1, \"b\": 2,\n \"c\": 3, \"d\": 4}", REMOVE, "/b", NULL, 0, "{\"a\": 1,\n \"c\": 3, \"d\": 4}"},
        {"{\"a\": 1, \"b\": 2,\n \"c\": 3, \"d\": 4}", REMOVE, "/c", NULL, 0, "{\"a\": 1, \"b\": 2,\n \"d\": 4}"},
        {"{\"a\": 1, \"b\": 2,\n \"c\": 3, \"d\": 4}", REMOVE, "/d", NULL, 0, "{\"a\": 1, \"b\": 2,\n \"c\": 3}"},
    };
    TRY(trials);
}

static void moving_keeps_the_bytes_of_the_items_and_the_gaps_between(void **state)
{
    (void)state;
    static const struct trial trials[] = {
        {"[1, 2,  3,\n 4]", MOVE, "/0", NULL, 3, "[2, 3,  4,\n 1]"},
        {"[1, 2,  3,\n 4]", MOVE, "/3", NULL, 0, "[4, 1,  2,\n 3]"},
        {"[1, 2,  3,\n 4]", MOVE, "/1", NULL, 2, "[1, 3,  2,\n 4]"},
        {"[1, 2,  3,\n 4]", MOVE, "/2", NULL, 1, "[1, 3,  2,\n 4]"},
        {"{\"l\": [\n {\"a\":  1.0},\n [ ] , \"x\"\n]}", MOVE, "/l/0", NULL, 1,
         "{\"l\": [\n [ ],\n {\"a\":  1.0} , \"x\"\n]}"},
    };
    TRY(trials);
}

static void an_edit_that_changes_nothing_leaves_no_step(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"a\": [1, 2]}");
    unsigned long revision = pl_document_revision(doc);
    set(doc, "/a/0", "1");
    do_edit(doc, MOVE, "/a/1", NULL, 1);
    assert_int_equal(pl_document_steps(doc), 0);
    assert_int_equal(pl_document_revision(doc), revision);
    set(doc, "/a/0", "1.0"); /* another spelling is another text */
    assert_int_equal(pl_document_steps(doc), 1);
    assert_true(pl_document_revision(doc) > revision);
    pl_document_free(doc);
}

static void a_copy_has_the_bytes_of_the_value(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"a\": [1,  2e0 ], \"b\": 1}");
    char *copy = pl_document_copy(doc, "/a");
    assert_string_equal(copy, "[1,  2e0 ]");
    assert_null(pl_document_copy(doc, "/c"));
    do_edit(doc, INSERT, "/c", copy, 0);
    assert_bytes(doc, "{\"a\": [1,  2e0 ], \"b\": 1, \"c\": [1,  2e0 ]}");
    free(copy);
    pl_document_free(doc);
}

static void bytes_of_the_document_itself_may_be_put_elsewhere_in_it(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"to\": \"[7]\", \"/to\": 0}");
    /* pointer and value both live in the tree that the edit replaces */
    set(doc, pl_node_key(doc, pl_node_member(doc, 0, "/to")), pl_node_text(doc, pl_node_member(doc, 0, "to")));
    assert_bytes(doc, "{\"to\": [7], \"/to\": 0}");
    assert_string_equal(pl_document_step_name(doc, 0), "/to");
    pl_document_free(doc);
}

/* ---- what is refused ---- */

static void a_refused_edit_leaves_everything_as_it_was(void **state)
{
    (void)state;
    static const char text[] = "{\"a\": [1, 2], \"b\": {\"c\": 3}}";
    static const struct {
        enum what what;
        const char *pointer, *json;
        size_t to;
        const char *sentence;
    } table[] = {
        {SET, "/a/2", "1", 0, "/a/2: there is no such place"},
        {SET, "/a/-", "1", 0, "/a/-: there is no such place"},
        {SET, "/a/00", "1", 0, "/a/00: there is no such place"},
        {SET, "/a/+1", "1", 0, "/a/+1: there is no such place"},
        {SET, "/a/99999999999999999999", "1", 0, "/a/99999999999999999999: there is no such place"},
        {SET, "/a/0/x", "1", 0, "/a/0/x: there is no such place"},
        {SET, "/x/y", "1", 0, "/x/y: there is no such place"},
        {SET, "a", "1", 0, "a: there is no such place"},
        {SET, "/b/~2", "1", 0, "/b/~2: there is no such place"},
        {SET, "/b/~", "1", 0, "/b/~: there is no such place"},
        {SET, "/b/c", "", 0, "/b/c: the value is empty"},
        {SET, "/b/c", " ", 0, "/b/c: the value is empty"},
        {SET, "/b/c", "1, \"d\": 2", 0, "/b/c: only white space may follow the value (found ,)"},
        {SET, "/b/c", "4}, {\"d\": 5", 0, "/b/c: only white space may follow the value (found })"},
        {SET, "/b/c", "\"abc", 0, "/b/c: the value ends inside a text"},
        {SET, "/b/c", "[1", 0, "/b/c: the value ends inside a list"},
        {SET, "/b/c", "01", 0, "/b/c: a number must not begin with a needless 0 (found 01)"},
        {SET, "/b/c", "1e999", 0, "/b/c: is outside the range of a number (found 1e999)"},
        {SET, "/b/c", "nan", 0, "/b/c: a number must be finite (found nan)"},
        {SET, "/b/c", "{\"x\": 1, \"x\": 2}", 0, "/b/c: key stands twice in one object (found \"x\")"},
        {INSERT, "", "1", 0, ": there is no such place"},
        {INSERT, "/a/3", "1", 0, "/a/3: there is no such place"},
        {INSERT, "/b/c", "1", 0, "/b/c: stands there already"},
        {INSERT, "/b/c/d", "1", 0, "/b/c/d: there is no such place"},
        {INSERT, "/b/d", "x", 0, "/b/d: a text must stand in double quotes (found x)"},
        {REMOVE, "", NULL, 0, ": the whole document cannot be removed"},
        {REMOVE, "/a/-", NULL, 0, "/a/-: there is no such place"},
        {REMOVE, "/c", NULL, 0, "/c: there is no such place"},
        {MOVE, "/a/2", NULL, 0, "/a/2: there is no such place"},
        {MOVE, "/a/0", NULL, 2, "/a/0: the list ends before the place to move to"},
        {MOVE, "/b/c", NULL, 0, "/b/c: only an item of a list can be moved"},
        {MOVE, "", NULL, 0, ": only an item of a list can be moved"},
    };
    struct pl_document *doc = read_text(text);
    set(doc, "/b/c", "4");
    assert_true(pl_document_undo(doc));
    unsigned long revision = pl_document_revision(doc);
    const char *bytes = pl_document_bytes(doc, NULL);
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        struct pl_problems problems = {0};
        char got[800], *want = NULL;
        assert_int_equal(edit(doc, table[i].what, table[i].pointer, table[i].json, table[i].to, &problems),
                         PL_BAD_INPUT);
        assert_int_equal(problems.count, 1);
        pl_problem_sentence(&problems.list[0], NULL, got, sizeof got);
        want = strdup(table[i].sentence + (table[i].sentence[0] == ':' ? 2 : 0));
        assert_string_equal(got, want);
        free(want);
        pl_problems_free(&problems);
    }
    assert_bytes(doc, text);
    assert_ptr_equal(pl_document_bytes(doc, NULL), bytes);
    assert_int_equal(pl_document_revision(doc), revision);
    assert_int_equal(pl_document_steps(doc), 1); /* the undone step can still be done again */
    assert_true(pl_document_redo(doc));
    pl_document_free(doc);
}

static void an_edit_cannot_nest_deeper_than_a_file_may(void **state)
{
    (void)state;
    char text[200] = "", pointer[200] = "";
    for (int i = 0; i < 63; i++)
        strcat(text, "["), strcat(pointer, "/0");
    strcat(text, "0");
    for (int i = 0; i < 63; i++)
        strcat(text, "]");
    struct pl_document *doc = read_text(text);
    struct pl_problems problems = {0};
    set(doc, pointer, "[0]");
    strcat(pointer, "/0");
    assert_int_equal(pl_edit_set(doc, pointer, "[0]", &problems), PL_BAD_INPUT);
    assert_string_equal(problems.list[0].rule, "levels of nesting must be at most 64");
    assert_string_equal(problems.list[0].place, pointer);
    assert_int_equal(pl_document_steps(doc), 1);
    pl_problems_free(&problems);
    pl_document_free(doc);
}

static void an_edit_cannot_make_the_file_larger_than_it_may_be(void **state)
{
    (void)state;
    size_t half = PL_DOCUMENT_MOST_BYTES / 2;
    char *value = malloc(half + 1);
    assert_non_null(value);
    memset(value, 'x', half);
    value[0] = value[half - 1] = '"';
    value[half] = '\0';
    struct pl_document *doc = read_text("[]");
    struct pl_problems problems = {0};
    do_edit(doc, INSERT, "/-", value, 0);
    assert_int_equal(pl_edit_insert(doc, "/-", value, &problems), PL_BAD_INPUT);
    assert_string_equal(problems.list[0].rule, "the file is larger than 16 MB");
    assert_int_equal(pl_node_count(doc, 0), 1);
    pl_problems_free(&problems);
    pl_document_free(doc);
    free(value);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(set_replaces_only_the_value_named),
        cmocka_unit_test(a_missing_member_is_added_last_in_the_spacing_of_its_neighbours),
        cmocka_unit_test(an_item_is_inserted_in_the_spacing_of_its_neighbours),
        cmocka_unit_test(removing_takes_one_comma_and_the_white_space_of_the_item),
        cmocka_unit_test(moving_keeps_the_bytes_of_the_items_and_the_gaps_between),
        cmocka_unit_test(an_edit_that_changes_nothing_leaves_no_step),
        cmocka_unit_test(a_copy_has_the_bytes_of_the_value),
        cmocka_unit_test(bytes_of_the_document_itself_may_be_put_elsewhere_in_it),
        cmocka_unit_test(a_refused_edit_leaves_everything_as_it_was),
        cmocka_unit_test(an_edit_cannot_nest_deeper_than_a_file_may),
        cmocka_unit_test(an_edit_cannot_make_the_file_larger_than_it_may_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
