/* JSON Pointers and quoted texts. */
#include "documents.h"

static void pointers_find_what_they_name(void **state)
{
    (void)state;
    /* the examples of RFC 6901, section 5 */
    struct pl_document *doc =
        read_text("{\"foo\": [\"bar\", \"baz\"], \"\": 0, \"a/b\": 1, \"c%d\": 2, \"e^f\": 3, \"g|h\": 4, "
                  "\"i\\\\j\": 5, \"k\\\"l\": 6, \" \": 7, \"m~n\": 8}");
    static const char *const numbered[] = {"/", "/a~1b", "/c%d", "/e^f", "/g|h", "/i\\j", "/k\"l", "/ ", "/m~0n"};
    assert_true(pl_document_find(doc, "") == pl_document_root(doc));
    assert_string_equal(pl_node_text(doc, pl_document_find(doc, "/foo/0")), "bar");
    assert_string_equal(pl_node_text(doc, pl_document_find(doc, "/foo/1")), "baz");
    for (size_t i = 0; i < sizeof numbered / sizeof numbered[0]; i++)
        assert_close(pl_node_number(doc, pl_document_find(doc, numbered[i])), (double)i, 0);
    static const char *const nowhere[] = {"foo",     "/fo",    "/fooo",   "/foo/",          "/foo/2",
                                          "/foo/01", "/foo/-", "/foo/-1", "/foo/0/0",       "//",
                                          "/m~n",    "/m~2n",  "/a/b",    "/foo/4294967296"};
    for (size_t i = 0; i < sizeof nowhere / sizeof nowhere[0]; i++)
        assert_true(pl_document_find(doc, nowhere[i]) == PL_NO_NODE);
    pl_document_free(doc);
}

static void pointers_are_built_from_tokens(void **state)
{
    (void)state;
    char pointer[64] = "";
    pl_pointer_append(pointer, sizeof pointer, "a/b");
    assert_string_equal(pointer, "/a~1b");
    pl_pointer_append_index(pointer, sizeof pointer, 12);
    pl_pointer_append(pointer, sizeof pointer, "~1");
    pl_pointer_append(pointer, sizeof pointer, "");
    assert_string_equal(pointer, "/a~1b/12/~01/");
}

static void a_pointer_too_long_is_cut_at_a_character_and_marked(void **state)
{
    (void)state;
    char pointer[12] = "/0";
    pl_pointer_append(pointer, sizeof pointer, "\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9");
    assert_string_equal(pointer, "/0/\xc3\xa9\xc3\xa9\xe2\x80\xa6"); /* 12 bytes hold 11 and the NUL */
    pl_pointer_append_index(pointer, sizeof pointer, 1);             /* nothing may follow the mark */
    assert_string_equal(pointer, "/0/\xc3\xa9\xc3\xa9\xe2\x80\xa6");
    char small[3] = "";
    pl_pointer_append(small, sizeof small, "abc");
    assert_string_equal(small, "");
}

static void a_quoted_text_reads_back_as_itself(void **state)
{
    (void)state;
    static const char *const texts[] = {"",
                                        "top cap",
                                        "q\" b\\ s/",
                                        "\b\f\n\r\t\x01\x1f\x7f",
                                        "\xc3\xa9 \xe2\x82\xac \xf0\x9f\x98\x80",
                                        "\xe2\x80\xae\xc2\x9b",
                                        "\xf3\xa0\x80\x81"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char *quoted = pl_json_quote(texts[i]);
        struct pl_document *doc = read_text(quoted);
        assert_string_equal(pl_node_text(doc, pl_document_root(doc)), texts[i]);
        pl_document_free(doc);
        free(quoted);
    }
    char *broken = pl_json_quote("a\xff\xc3");
    assert_string_equal(broken, "\"a\xef\xbf\xbd\xef\xbf\xbd\"");
    free(broken);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pointers_find_what_they_name),
        cmocka_unit_test(pointers_are_built_from_tokens),
        cmocka_unit_test(a_pointer_too_long_is_cut_at_a_character_and_marked),
        cmocka_unit_test(a_quoted_text_reads_back_as_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
