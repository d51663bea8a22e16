/* JSON as it is written for programs: whole, valid, and laid out in lines. */
#include "documents.h"

#include "plyloft/json_writer.h"

#include <math.h>

static void a_result_reads_as_lines(void **state)
{
    (void)state;
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    pl_json_start(&w, &out, false);
    pl_json_object(&w, NULL);
    pl_json_text(&w, "part", "sprint wing");
    pl_json_whole(&w, "version", 1);
    pl_json_list(&w, "warnings");
    pl_json_close(&w);
    pl_json_list(&w, "cases");
    for (int i = 0; i < 2; i++) {
        pl_json_object(&w, NULL);
        pl_json_text(&w, "name", i ? "kerb" : "jack");
        pl_json_object(&w, "lowest");
        pl_json_number(&w, "reserve", 1.25);
        pl_json_null(&w, "item");
        pl_json_close(&w);
        pl_json_list(&w, "matrix");
        for (int row = 0; row < 2 * i; row++) {
            pl_json_list(&w, NULL);
            pl_json_number(&w, NULL, row);
            pl_json_number(&w, NULL, -0.5);
            pl_json_close(&w);
        }
        pl_json_close(&w);
        pl_json_close(&w);
    }
    pl_json_close(&w);
    pl_json_bool(&w, "holds", true);
    assert_true(pl_json_end(&w));
    assert_string_equal(out.text,
                        "{\n"
                        "  \"part\": \"sprint wing\",\n"
                        "  \"version\": 1,\n"
                        "  \"warnings\": [],\n"
                        "  \"cases\": [\n"
                        "    {\"name\": \"jack\", \"lowest\": {\"reserve\": 1.25, \"item\": null}, \"matrix\": []},\n"
                        "    {\"name\": \"kerb\", \"lowest\": {\"reserve\": 1.25, \"item\": null}, \"matrix\": [\n"
                        "        [0, -0.5],\n"
                        "        [1, -0.5]\n"
                        "      ]}\n"
                        "  ],\n"
                        "  \"holds\": true\n"
                        "}\n");
    pl_buffer_free(&out);
}

static void one_line_holds_no_line_end_but_its_own(void **state)
{
    (void)state;
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    for (int i = 0; i < 2; i++) {
        pl_json_start(&w, &out, true);
        pl_json_object(&w, NULL);
        pl_json_object(&w, "values");
        pl_json_number(&w, "/a", i);
        pl_json_close(&w);
        pl_json_list(&w, "rows");
        pl_json_list(&w, NULL);
        assert_true(pl_json_end(&w)); /* closes all three */
    }
    assert_string_equal(out.text,
                        "{\"values\": {\"/a\": 0}, \"rows\": [[]]}\n{\"values\": {\"/a\": 1}, \"rows\": [[]]}\n");
    pl_buffer_free(&out);
}

static void written_number(double value, const char *want)
{
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    pl_json_start(&w, &out, true);
    pl_json_number(&w, NULL, value);
    assert_true(pl_json_end(&w));
    out.text[out.length - 1] = '\0'; /* the line end */
    assert_string_equal(out.text, want);
    pl_buffer_free(&out);
}

static void numbers_have_ten_digits_and_are_finite(void **state)
{
    (void)state;
    written_number(0, "0");
    written_number(-0.0, "0");
    written_number(-12.5, "-12.5");
    written_number(1.0 / 3, "0.3333333333");
    written_number(1234567890123.0, "1.23456789e+12");
    written_number(2e-300, "2e-300");
    written_number((double)NAN, "null");
    written_number((double)INFINITY, "null");
    written_number(-(double)INFINITY, "null");
}

static void whole_numbers_have_all_their_digits(void **state)
{
    (void)state;
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    pl_json_start(&w, &out, true);
    pl_json_list(&w, NULL);
    pl_json_whole(&w, NULL, INT64_MIN);
    pl_json_whole(&w, NULL, INT64_MAX);
    assert_true(pl_json_end(&w));
    assert_string_equal(out.text, "[-9223372036854775808, 9223372036854775807]\n");
    pl_buffer_free(&out);
}

static void texts_are_escaped_and_always_utf8(void **state)
{
    (void)state;
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    pl_json_start(&w, &out, true);
    pl_json_list(&w, NULL);
    pl_json_text(&w, NULL, "a\"b\\c/\n\t\r\b\f\x01\x1b[31m");
    pl_json_text(&w, NULL, "\xc3\xa9 \xc2\x9b \xe2\x80\xae \xf3\xa0\x80\x81");
    pl_json_text(&w, NULL, "\xff\xc3");
    pl_json_text(&w, NULL, "");
    pl_json_text(&w, NULL, NULL);
    assert_true(pl_json_end(&w));
    assert_string_equal(out.text, "[\"a\\\"b\\\\c/\\n\\t\\r\\b\\f\\u0001\\u001b[31m\", "
                                  "\"\xc3\xa9 \\u009b \\u202e \\udb40\\udc01\", "
                                  "\"\xef\xbf\xbd\xef\xbf\xbd\", \"\", null]\n");
    pl_buffer_free(&out);
}

/* Writes value as JSON through every call of the writer that fits it. */
static void write_node(struct pl_json_writer *w, const struct pl_document *doc, pl_node node)
{
    const char *key = pl_node_key(doc, node);
    switch (pl_node_kind(doc, node)) {
    case PL_NODE_NULL:
        pl_json_null(w, key);
        break;
    case PL_NODE_FALSE:
    case PL_NODE_TRUE:
        pl_json_bool(w, key, pl_node_kind(doc, node) == PL_NODE_TRUE);
        break;
    case PL_NODE_NUMBER:
        pl_json_number(w, key, pl_node_number(doc, node));
        break;
    case PL_NODE_TEXT:
        pl_json_text(w, key, pl_node_text(doc, node));
        break;
    default:
        if (pl_node_kind(doc, node) == PL_NODE_LIST)
            pl_json_list(w, key);
        else
            pl_json_object(w, key);
        for (pl_node n = pl_node_first(doc, node); n != PL_NO_NODE; n = pl_node_next(doc, n))
            write_node(w, doc, n);
        pl_json_close(w);
    }
}

static char *written(const char *text, bool one_line)
{
    struct pl_document *doc = read_text(text);
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    pl_json_start(&w, &out, one_line);
    write_node(&w, doc, pl_document_root(doc));
    assert_true(pl_json_end(&w));
    pl_document_free(doc);
    return out.text;
}

static void what_is_written_reads_back_the_same(void **state)
{
    (void)state;
    static const char text[] =
        "{\"a/b\\n\": [1, [2.5, []], {\"\": {\"c\": [{}, {\"d\": null}, true]}}], \"\\u202e\": \"\\\"\"}";
    char *one = written(text, true), *lines = written(text, false);
    char *lines_of_one = written(one, false), *one_of_lines = written(lines, true);
    assert_string_equal(one, one_of_lines);
    assert_string_equal(lines, lines_of_one);
    assert_string_not_equal(one, lines);
    free(one), free(lines), free(lines_of_one), free(one_of_lines);
}

static void nesting_too_deep_is_not_silently_cut(void **state)
{
    (void)state;
    struct pl_buffer out = {0};
    struct pl_json_writer w;
    pl_json_start(&w, &out, true);
    for (int i = 0; i < PL_JSON_MOST_DEPTH; i++)
        pl_json_list(&w, NULL);
    assert_false(out.failed);
    pl_json_list(&w, NULL);
    assert_false(pl_json_end(&w));
    pl_buffer_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_result_reads_as_lines),
        cmocka_unit_test(one_line_holds_no_line_end_but_its_own),
        cmocka_unit_test(numbers_have_ten_digits_and_are_finite),
        cmocka_unit_test(whole_numbers_have_all_their_digits),
        cmocka_unit_test(texts_are_escaped_and_always_utf8),
        cmocka_unit_test(what_is_written_reads_back_the_same),
        cmocka_unit_test(nesting_too_deep_is_not_silently_cut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
