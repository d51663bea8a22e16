/* The strict reading of JSON: what is refused and with which sentence, what is kept exactly. */
#include "../support.h"

#include "../../src/part/document_inside.h"

#include "plyloft/document.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static struct pl_document *read_bytes(const char *bytes, size_t length)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    if (pl_document_read(&doc, bytes, length, &problems) != PL_OK)
        fail_msg("%s: %s (%s)", problems.list[0].place, problems.list[0].rule, problems.list[0].found);
    assert_int_equal(problems.count, 0);
    return doc;
}

static struct pl_document *read_text(const char *text)
{
    return read_bytes(text, strlen(text));
}

/* The one sentence that bytes are refused with. */
static void refused(const char *bytes, size_t length, const char *name, char *sentence, size_t size)
{
    struct pl_problems problems = {0};
    struct pl_document *doc = (struct pl_document *)&problems;
    assert_int_equal(pl_document_read(&doc, bytes, length, &problems), PL_BAD_INPUT);
    assert_null(doc);
    assert_int_equal(problems.count, 1);
    assert_int_equal(problems.errors, 1);
    pl_problem_sentence(&problems.list[0], name, sentence, size);
    pl_problems_free(&problems);
}

static double seconds_since(const struct timespec *from)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - from->tv_sec) + 1e-9 * (double)(now.tv_nsec - from->tv_nsec);
}

/* A text of size bytes: before, filling again and again, after. */
static char *filled(const char *before, const char *filling, const char *after, size_t size)
{
    size_t head = strlen(before), tail = strlen(after), step = strlen(filling);
    char *text = malloc(size + 1);
    assert_non_null(text);
    memcpy(text, before, head);
    for (size_t i = head; i < size - tail; i++)
        text[i] = filling[(i - head) % step];
    memcpy(text + size - tail, after, tail + 1);
    return text;
}

/* ---- what is refused ---- */

static void broken_folder(char *path, size_t size)
{
    const char *slash = strrchr(__FILE__, '/');
    snprintf(path, size, "%.*sbroken", slash ? (int)(slash - __FILE__) + 1 : 0, __FILE__);
}

static void every_broken_file_gets_its_sentence(void **state)
{
    (void)state;
    char folder[256], path[512], got[800];
    size_t count = 0;
    broken_folder(folder, sizeof folder);
    snprintf(path, sizeof path, "%s/sentences.txt", folder);
    char *sentences = read_whole_file(path, NULL), *save = NULL;
    for (char *line = strtok_r(sentences, "\n", &save); line; line = strtok_r(NULL, "\n", &save), count++) {
        char name[128];
        size_t length;
        snprintf(name, sizeof name, "%.*s", (int)strcspn(line, ":"), line);
        snprintf(path, sizeof path, "%s/%s", folder, name);
        char *bytes = read_whole_file(path, &length);
        refused(bytes, length, name, got, sizeof got);
        assert_string_equal(got, line);
        free(bytes);
    }
    free(sentences);
    assert_int_equal(count + 1, count_in_folder(folder)); /* every file but the sentences has a line */
}

static void short_texts_are_refused_where_they_go_wrong(void **state)
{
    (void)state;
    static const char *const table[][2] = {
        {"]", "line 1, column 1: a value must stand here (found ])"},
        {"[}", "line 1, column 2: a value must stand here (found })"},
        {"[,1]", "line 1, column 2: a value must stand here (found ,)"},
        {"[1,,2]", "line 1, column 4: a value must stand here (found ,)"},
        {"[1 2]", "line 1, column 4: a comma or ] must follow an item (found 2)"},
        {"{,}", "line 1, column 2: a key in double quotes must stand here (found ,)"},
        {"{1:2}", "line 1, column 2: a key in double quotes must stand here (found 1)"},
        {"{\"a\",1}", "line 1, column 5: a colon must follow the key (found ,)"},
        {"{\"a\":]", "line 1, column 6: a value must follow the key (found ])"},
        {"{\"a\":1]", "line 1, column 7: a comma or } must follow a member (found ])"},
        {"{\"a\":1 x", "line 1, column 8: a comma or } must follow a member (found x)"},
        {"1 1", "line 1, column 3: only white space may follow the value (found 1)"},
        {"\"\\", "line 1, column 3: the file ends inside a text"},
        {"\"\\u12", "line 1, column 6: the file ends inside a text"},
        {"\"\\ud800\\u0041\"", "line 1, column 2: half of a surrogate pair must not stand alone (found \\ud800)"},
        {"\"\\ud800\\ud800\"", "line 1, column 2: half of a surrogate pair must not stand alone (found \\ud800)"},
        {"-", "line 1, column 2: the file ends inside a number"},
        {"1e+", "line 1, column 4: the file ends inside a number"},
        {"1e+x", "line 1, column 1: a digit must follow the e of a power of ten (found 1e+x)"},
        {"-01", "line 1, column 1: a number must not begin with a needless 0 (found -01)"},
        {"00", "line 1, column 1: a number must not begin with a needless 0 (found 00)"},
        {"--1", "line 1, column 1: a digit must follow the minus sign (found --1)"},
        {"-1e309", "line 1, column 1: is outside the range of a number (found -1e309)"},
        {"nul", "line 1, column 4: the file ends inside a word"},
        {"nulx", "line 1, column 1: a text must stand in double quotes (found nulx)"},
        {"nan", "line 1, column 1: a number must be finite (found nan)"},
        {"truefalse", "line 1, column 5: only white space may follow the value (found false)"},
        {"\r\n\r\n  x", "line 3, column 3: a text must stand in double quotes (found x)"},
        {"{\"\":1,\"\":2}", "line 1, column 7: key stands twice in one object (found \"\")"},
        {"[{\"b\":1,\"a\":2,\"b\":3,\"a\":4}]", "line 1, column 15: key stands twice in one object (found \"b\")"},
        {"{\"a\":1,\"b\":2,\"a\":3,\"b\":4}", "line 1, column 14: key stands twice in one object (found \"a\")"},
        {"[{\"a\":{\"x\":1,\"x\":2},\"a\":3}]", "line 1, column 14: key stands twice in one object (found \"x\")"},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        char got[800];
        refused(table[i][0], strlen(table[i][0]), NULL, got, sizeof got);
        assert_string_equal(got, table[i][1]);
    }
}

static void found_value_is_cut_and_safe(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_document *doc;
    /* 1 and 400 digits: out of range, and longer than a message has room for */
    char *text = filled("1", "0", "", 401);
    assert_int_equal(pl_document_read(&doc, text, 401, &problems), PL_BAD_INPUT);
    assert_true(strlen(problems.list[0].found) < sizeof problems.list[0].found);
    assert_string_equal(problems.list[0].found + strlen(problems.list[0].found) - 3, "\xe2\x80\xa6");
    free(text);
    pl_problems_clear(&problems);
    assert_int_equal(pl_document_read(&doc, "[\"\xc2\x9b\" \"\xe2\x80\xae\"]", 13, &problems), PL_BAD_INPUT);
    assert_string_equal(problems.list[0].found, "\"\xef\xbf\xbd\"");
    pl_problems_free(&problems);
}

static void nul_in_a_text_is_refused_though_more_follows(void **state)
{
    (void)state;
    char got[800];
    refused("[\"a\0b\"]", 7, NULL, got, sizeof got);
    assert_string_equal(got, "line 1, column 4: a control character in a text must be written with a backslash "
                             "(found U+0000)");
    refused("[1,\0 2]", 7, NULL, got, sizeof got);
    assert_string_equal(got, "line 1, column 4: a value must stand here (found U+0000)");
    refused("{}\0", 3, NULL, got, sizeof got);
    assert_string_equal(got, "line 1, column 3: only white space may follow the value (found U+0000)");
}

/* ---- limits ---- */

static void sixty_four_levels_are_read_and_sixty_five_are_not(void **state)
{
    (void)state;
    char text[200], got[800];
    memset(text, '[', 64);
    memset(text + 64, ']', 64);
    pl_document_free(read_bytes(text, 128));
    memset(text, '[', 65);
    memset(text + 65, ']', 65);
    refused(text, 130, NULL, got, sizeof got);
    assert_string_equal(got, "line 1, column 65: levels of nesting must be at most 64 (found 65)");
}

static void five_megabytes_of_brackets_are_refused_at_once(void **state)
{
    (void)state;
    char got[800], *text = filled("", "[", "", 5000000);
    struct timespec from;
    clock_gettime(CLOCK_MONOTONIC, &from);
    refused(text, 5000000, NULL, got, sizeof got);
    assert_true(seconds_since(&from) < 30);  /* no hang; how fast it is, the bench tells */
    assert_string_equal(got, "line 1, column 65: levels of nesting must be at most 64 (found 65)");
    free(text);
}

static void sixteen_megabytes_are_read_and_one_byte_more_is_not(void **state)
{
    (void)state;
    enum { MOST = PL_DOCUMENT_MOST_BYTES };
    char got[800], *text = filled("[\"", "wide open wing ", "\"]\n\n", MOST + 1);
    struct pl_document *doc = read_bytes(text, MOST);
    assert_int_equal(pl_node_count(doc, pl_document_root(doc)), 1);
    pl_document_free(doc);
    refused(text, MOST + 1, NULL, got, sizeof got);
    assert_string_equal(got, "line 2, column 1: the file is larger than 16 MB");
    free(text);
}

/* ---- sizes that would show anything quadratic ---- */

/* {"key 0000000":0,...} with the keys in an order of no use to a sort. */
static char *object_of_keys(size_t count)
{
    char *text = malloc(count * 16 + 3), *to = text;
    assert_non_null(text);
    *to++ = '{';
    for (size_t i = 0; i < count; i++) /* 611953 is prime and no divisor of count: every number comes once */
        to += sprintf(to, "%s\"%07zu\":%zu", i ? "," : "", i * 611953 % count, i % 10);
    strcpy(to, "}");
    return text;
}

static void a_million_keys_are_read_and_found(void **state)
{
    (void)state;
    enum { KEYS = 1000000 };
    char *text = object_of_keys(KEYS);
    struct timespec from;
    clock_gettime(CLOCK_MONOTONIC, &from);
    struct pl_document *doc = read_text(text);
    pl_node root = pl_document_root(doc);
    assert_int_equal(pl_node_count(doc, root), KEYS);
    char key[16];
    for (size_t i = 0; i < KEYS; i += 97) {
        sprintf(key, "%07zu", i * 611953 % KEYS);
        pl_node member = pl_node_member(doc, root, key);
        assert_true(member != PL_NO_NODE && pl_node_number(doc, member) == (double)(i % 10));
    }
    assert_true(seconds_since(&from) < 30); /* seconds when sorted, hours when not */
    pl_document_free(doc);
    free(text);
}

static void one_repeated_key_among_many_is_named(void **state)
{
    (void)state;
    enum { KEYS = 100000 };
    char got[800], *text = object_of_keys(KEYS);
    /* the last member, "0000000":0 and the brace after it, takes 12 bytes */
    size_t length = strlen(text);
    memcpy(text + length - 12, "\"0000000\"", 9);
    refused(text, length, NULL, got, sizeof got);
    char want[200];
    sprintf(want, "line 1, column %zu: key stands twice in one object (found \"0000000\")", length - 12 + 1);
    assert_string_equal(got, want);
    free(text);
}

static void a_list_of_a_million_items_is_walked_and_indexed(void **state)
{
    (void)state;
    enum { ITEMS = 1000000 };
    char *text = filled("[1", ",1", "]", 1 + 2 * ITEMS);
    struct pl_document *doc = read_text(text);
    pl_node root = pl_document_root(doc), node = pl_node_first(doc, root);
    assert_int_equal(pl_node_count(doc, root), ITEMS);
    struct timespec from;
    clock_gettime(CLOCK_MONOTONIC, &from);
    for (size_t i = 0; i < ITEMS; i++, node = pl_node_next(doc, node)) {
        char pointer[32];
        sprintf(pointer, "/%zu", i);
        assert_true(pl_document_find(doc, pointer) == node);
    }
    assert_true(node == PL_NO_NODE);
    assert_true(seconds_since(&from) < 30);
    pl_document_free(doc);
    free(text);
}

/* ---- what is kept exactly ---- */

static void numbers_keep_every_digit_a_double_has(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double value;
    } table[] = {
        {"0", 0},
        {"-0", 0},
        {"0.1", 0.1},
        {"1E2", 100},
        {"1e+2", 100},
        {"12.5e-1", 1.25},
        {"1.7976931348623157e308", 1.7976931348623157e308},
        {"4.9e-324", 4.9e-324},
        {"1e-400", 0},
        {"123456789012345678", 123456789012345678.0},
        /* 1 + 2^-52 with zeros up to and past the 63rd character, and a power of ten after them */
        {"1.0000000000000002220446049250313080847263336181640625000000000000000000000000000000e0", 1 + 0x1p-52},
        {"100000000000000000000000000000000000000000000000000000000000000000000000000000e-77", 1},
        {"0.0000000000000000000000000000000000000000000000000000000000000000000000000000001e79", 1},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        char text[256];
        sprintf(text, "[%s , \"x\"]", table[i].text);
        struct pl_document *doc = read_text(text);
        pl_node node = pl_node_first(doc, pl_document_root(doc));
        assert_int_equal(pl_node_kind(doc, node), PL_NODE_NUMBER);
        if (pl_node_number(doc, node) != table[i].value)
            fail_msg("%s is read as %.17g", table[i].text, pl_node_number(doc, node));
        char spelling[128];
        pl_node_spelling(doc, node, spelling, sizeof spelling);
        assert_string_equal(spelling, table[i].text);
        assert_string_equal(pl_node_text(doc, pl_node_next(doc, node)), "x");
        pl_document_free(doc);
    }
}

static void a_number_of_a_million_digits_is_a_number(void **state)
{
    (void)state;
    char *text = filled("[0.", "3", "]", 1000000);
    struct pl_document *doc = read_text(text);
    assert_close(pl_node_number(doc, pl_node_first(doc, 0)), 1.0 / 3, 0);
    pl_document_free(doc);
    free(text);
}

static void numbers_are_read_the_same_where_decimals_follow_a_comma(void **state)
{
    (void)state;
    static const char *const places[] = {"de_DE.UTF-8", "de_DE", "fr_FR.UTF-8", "nb_NO.UTF-8"};
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        if (setlocale(LC_NUMERIC, places[i]))
            break;
    struct pl_document *doc = read_text("[0.25, 1.5e3]"); /* without such a locale here it is plain reading */
    assert_close(pl_node_number(doc, 1), 0.25, 0);
    assert_close(pl_node_number(doc, 2), 1500, 0);
    pl_document_free(doc);
    setlocale(LC_NUMERIC, "C");
}

static void texts_and_keys_are_decoded(void **state)
{
    (void)state;
    struct pl_document *doc =
        read_text("{\"\\u006Bey \\\"\\/\\\\\": \"\\b\\f\\n\\r\\t\\u00e9\\u20AC\\ud83d\\ude00 \xc3\xa9\","
                  "\"\": \"\", \"null\": null}");
    pl_node first = pl_node_first(doc, pl_document_root(doc)), second = pl_node_next(doc, first);
    assert_string_equal(pl_node_key(doc, first), "key \"/\\");
    assert_string_equal(pl_node_text(doc, first), "\b\f\n\r\t\xc3\xa9\xe2\x82\xac\xf0\x9f\x98\x80 \xc3\xa9");
    assert_string_equal(pl_node_key(doc, second), "");
    assert_string_equal(pl_node_text(doc, second), "");
    assert_int_equal(pl_node_kind(doc, pl_node_member(doc, 0, "null")), PL_NODE_NULL);
    assert_null(pl_node_key(doc, pl_document_root(doc)));
    pl_document_free(doc);
}

static void keys_differ_by_case_and_by_every_byte(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"a\":1,\"A\":2,\"\xc3\xa9\":3,\"ab\":4,\"e\":5}");
    assert_close(pl_node_number(doc, pl_node_member(doc, 0, "a")), 1, 0);
    assert_close(pl_node_number(doc, pl_node_member(doc, 0, "A")), 2, 0);
    assert_close(pl_node_number(doc, pl_node_member(doc, 0, "\xc3\xa9")), 3, 0);
    assert_close(pl_node_number(doc, pl_node_member(doc, 0, "ab")), 4, 0);
    assert_true(pl_node_member(doc, 0, "b") == PL_NO_NODE);
    assert_true(pl_node_member(doc, 0, "") == PL_NO_NODE);
    pl_document_free(doc);
}

static void every_kind_of_white_space_is_allowed_and_no_other(void **state)
{
    (void)state;
    struct pl_document *doc = read_text(" \t\r\n[ \t\r\n1 \t\r\n, \t\r\n{ \t\r\n} \t\r\n] \t\r\n");
    assert_int_equal(pl_node_count(doc, 0), 2);
    pl_document_free(doc);
    char got[800];
    refused("\f1", 2, NULL, got, sizeof got);
    assert_string_equal(got, "line 1, column 1: a value must stand here (found U+000C)");
    refused("[\v]", 3, NULL, got, sizeof got);
    assert_string_equal(got, "line 1, column 2: a value must stand here (found U+000B)");
}

static void nodes_are_linked_as_the_text_nests(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"b\": [1, [2, 3], {}], \"a\": {\"x\": []}, \"c\": true}");
    pl_node b = pl_node_member(doc, 0, "b"), a = pl_node_member(doc, 0, "a"), c = pl_node_member(doc, 0, "c");
    assert_true(pl_node_first(doc, 0) == b && pl_node_next(doc, b) == a && pl_node_next(doc, a) == c);
    assert_true(pl_node_next(doc, c) == PL_NO_NODE && pl_node_next(doc, 0) == PL_NO_NODE);
    pl_node one = pl_node_first(doc, b), pair = pl_node_next(doc, one), empty = pl_node_next(doc, pair);
    assert_true(pl_node_next(doc, empty) == PL_NO_NODE && pl_node_first(doc, empty) == PL_NO_NODE);
    assert_int_equal(pl_node_count(doc, b), 3);
    assert_int_equal(pl_node_count(doc, pair), 2);
    assert_int_equal(pl_node_kind(doc, empty), PL_NODE_OBJECT);
    assert_int_equal(pl_node_kind(doc, pl_node_first(doc, a)), PL_NODE_LIST);
    assert_true(pl_node_first(doc, pl_node_first(doc, a)) == PL_NO_NODE);
    char spelling[64];
    pl_node_spelling(doc, b, spelling, sizeof spelling);
    assert_string_equal(spelling, "[1, [2, 3], {}]");
    pl_node_spelling(doc, b, spelling, 10);
    assert_string_equal(spelling, "[1, [2\xe2\x80\xa6");
    pl_document_free(doc);
}

static void asking_nothing_of_no_node_gives_nothing(void **state)
{
    (void)state;
    struct pl_document *doc = read_text("{\"a\": 1}");
    char spelling[8] = "x";
    assert_int_equal(pl_node_kind(doc, PL_NO_NODE), PL_NODE_NULL);
    assert_close(pl_node_number(doc, PL_NO_NODE), 0, 0);
    assert_string_equal(pl_node_text(doc, PL_NO_NODE), "");
    assert_null(pl_node_key(doc, PL_NO_NODE));
    assert_int_equal(pl_node_count(doc, PL_NO_NODE), 0);
    assert_true(pl_node_first(doc, PL_NO_NODE) == PL_NO_NODE && pl_node_next(doc, PL_NO_NODE) == PL_NO_NODE);
    assert_true(pl_node_member(doc, PL_NO_NODE, "a") == PL_NO_NODE);
    pl_node_spelling(doc, PL_NO_NODE, spelling, sizeof spelling);
    assert_string_equal(spelling, "");
    pl_document_free(doc);
}

/* ---- random texts ---- */

static unsigned next_random(unsigned long long *seed)
{
    *seed = *seed * 6364136223846793005ull + 1442695040888963407ull;
    return (unsigned)(*seed >> 33);
}

/* The tree against the text: spans nest, stand in order, and read alone give the same value. */
static void check_tree(const struct pl_document *doc)
{
    const struct pl_json_tree *tree = &doc->now.tree;
    for (size_t i = 0; i < tree->count; i++) {
        const struct pl_json_node *node = &tree->nodes[i];
        assert_true(node->start < node->end && node->end <= doc->now.text->length);
        assert_true((node->key != NULL) == (node->key_end != 0));
        if (i) {
            const struct pl_json_node *parent = &tree->nodes[node->parent];
            assert_true(node->parent < i && node->start > parent->start && node->end < parent->end);
            assert_true(node->after <= parent->after);
        }
        size_t count = 0;
        for (pl_node child = pl_node_first(doc, i); child != PL_NO_NODE; child = pl_node_next(doc, child), count++)
            assert_true(tree->nodes[child].parent == i);
        assert_int_equal(count, node->count);
        if (node->kind == PL_NODE_OBJECT)
            for (pl_node child = pl_node_first(doc, i); child != PL_NO_NODE; child = pl_node_next(doc, child))
                assert_true(pl_node_member(doc, i, pl_node_key(doc, child)) == child);
    }
}

static void damaged_texts_are_read_rightly_or_refused_with_one_sentence(void **state)
{
    (void)state;
    static const char whole[] =
        "{\"a\\u00e9\": [1, -2.5e3, true, null, \"x\\n\\ud83d\\ude00\", {\"b\": [], \"c\": {}}],\n"
        " \"d\": {\"e\": \"\xc3\xa9\", \"f\": [[1, 2], [3, 4]]}, \"g\": false}";
    static const char alphabet[] = "{}[],:\"\\0123456789.eE+-truefalsn u\xc3\xa9\xff\n/'";
    unsigned long long seed = 20;
    size_t accepted = 0, tries = 40000;
    for (size_t i = 0; i < tries; i++) {
        char text[sizeof whole + 8];
        size_t length = sizeof whole - 1;
        memcpy(text, whole, sizeof whole);
        for (unsigned n = 1 + next_random(&seed) % 3; n; n--) {
            size_t at = next_random(&seed) % length;
            if (next_random(&seed) % 3) {
                text[at] = alphabet[next_random(&seed) % (sizeof alphabet - 1)];
            } else {
                memmove(text + at, text + at + 1, length - at);
                length--;
            }
        }
        struct pl_problems problems = {0};
        struct pl_document *doc;
        enum pl_status status = pl_document_read(&doc, text, length, &problems);
        assert_true(status == PL_OK || status == PL_BAD_INPUT);
        assert_int_equal(problems.count, status == PL_BAD_INPUT);
        if (status == PL_OK) {
            accepted++;
            check_tree(doc);
        }
        pl_document_free(doc);
        pl_problems_free(&problems);
    }
    assert_true(accepted > tries / 50 && accepted < tries);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_broken_file_gets_its_sentence),
        cmocka_unit_test(short_texts_are_refused_where_they_go_wrong),
        cmocka_unit_test(found_value_is_cut_and_safe),
        cmocka_unit_test(nul_in_a_text_is_refused_though_more_follows),
        cmocka_unit_test(sixty_four_levels_are_read_and_sixty_five_are_not),
        cmocka_unit_test(five_megabytes_of_brackets_are_refused_at_once),
        cmocka_unit_test(sixteen_megabytes_are_read_and_one_byte_more_is_not),
        cmocka_unit_test(a_million_keys_are_read_and_found),
        cmocka_unit_test(one_repeated_key_among_many_is_named),
        cmocka_unit_test(a_list_of_a_million_items_is_walked_and_indexed),
        cmocka_unit_test(numbers_keep_every_digit_a_double_has),
        cmocka_unit_test(a_number_of_a_million_digits_is_a_number),
        cmocka_unit_test(numbers_are_read_the_same_where_decimals_follow_a_comma),
        cmocka_unit_test(texts_and_keys_are_decoded),
        cmocka_unit_test(keys_differ_by_case_and_by_every_byte),
        cmocka_unit_test(every_kind_of_white_space_is_allowed_and_no_other),
        cmocka_unit_test(nodes_are_linked_as_the_text_nests),
        cmocka_unit_test(asking_nothing_of_no_node_gives_nothing),
        cmocka_unit_test(damaged_texts_are_read_rightly_or_refused_with_one_sentence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
