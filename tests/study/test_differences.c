/* What makes documents differ, told value by value. */
#include "../short_memory.h"
#include "../part/parts.h"

#include "plyloft/buffer.h"
#include "plyloft/compare.h"

static struct pl_document *documents[6];
static size_t n_documents;

static void open_text(const char *text)
{
    assert_in_range(n_documents, 0, sizeof documents / sizeof *documents - 1);
    documents[n_documents++] = read_text(text);
}

/* In its texts ' stands for ". */
static void open_words(const char *words)
{
    char *text = strdup(words);
    assert_non_null(text);
    for (char *c = text; *c; c++)
        *c = *c == '\'' ? '"' : *c;
    open_text(text);
    free(text);
}

static void open_file(const char *path)
{
    char *text = read_whole_file(path, NULL);
    open_text(text);
    free(text);
}

static void close_all(void)
{
    while (n_documents)
        pl_document_free(documents[--n_documents]);
}

static int close_after(void **state)
{
    (void)state;
    close_all();
    return 0;
}

/* "/name: a | b\n" and so on. */
static char *all_told(void)
{
    struct pl_differences d;
    struct pl_buffer told = {0};
    assert_int_equal(pl_differences_find(&d, documents, n_documents), PL_OK);
    assert_int_equal(d.left_out, 0);
    pl_buffer_text(&told, "");
    for (size_t i = 0; i < d.count; i++) {
        pl_buffer_printf(&told, "%s%s: ", d.list[i].order ? "order of " : "", d.list[i].pointer);
        for (size_t k = 0; k < n_documents; k++)
            pl_buffer_printf(&told, "%s%s", k ? " | " : "", d.list[i].values[k]);
        pl_buffer_text(&told, "\n");
        assert_true(d.list[i].document < n_documents);
    }
    assert_false(told.failed);
    pl_differences_free(&d);
    return told.text;
}

static void assert_told(const char *want)
{
    char *told = all_told();
    assert_string_equal(told, want);
    free(told);
    close_all();
}

/* ---- values ---- */

static void equal_documents_have_no_differences(void **state)
{
    (void)state;
    open_file(SAMPLE_PART);
    open_file(SAMPLE_PART);
    assert_told("");
    open_file(WHOLE_PART);
    open_file(WHOLE_PART);
    assert_told("");
}

static void one_ply_more_is_one_difference(void **state)
{
    (void)state;
    open_file(SAMPLE_PART);
    open_file(SAMPLE_PART);
    set(documents[1], "/elements/0/layup/2/plies", "7");
    assert_told("/elements/0/layup/2/plies: 6 | 7\n");
}

static void spelling_spacing_and_order_of_keys_are_no_difference(void **state)
{
    (void)state;
    open_words("{'a': 1, 'b': 'x', 'c': [1e2, -0]}");
    open_words("{ 'c':[100,\n0.0],'b':'\\u0078', 'a': 1.0 }");
    assert_told("");
}

static void values_of_other_kinds_are_different(void **state)
{
    (void)state;
    open_words("{'a': 1, 'b': true, 'c': null, 'd': 'false'}");
    open_words("{'a': '1', 'b': false, 'c': 0, 'd': false}");
    assert_told("/a: 1 | 1\n/b: true | false\n/c: null | 0\n/d: false | false\n");
}

static void a_number_is_told_as_it_is_spelled(void **state)
{
    (void)state;
    open_words("{'a': 1.50, 'b': 1E2}");
    open_words("{'a': 2.0, 'b': 1E3}");
    assert_told("/a: 1.50 | 2.0\n/b: 1E2 | 1E3\n");
}

static void a_value_that_one_document_lacks_is_a_dash(void **state)
{
    (void)state;
    open_words("{'a': 1, 'b': 2}");
    open_words("{'b': 2, 'c': 3}");
    assert_told("/a: 1 | -\n/c: - | 3\n");
}

static void what_the_first_has_comes_in_its_order_and_ahead_of_what_it_lacks(void **state)
{
    (void)state;
    open_words("{'z': {'b': 1, 'a': 2}, 'm': 3}");
    open_words("{'m': 4, 'new': 5, 'z': {'a': 6, 'c': 7, 'b': 8}}");
    assert_told("/z/b: 1 | 8\n/z/a: 2 | 6\n/m: 3 | 4\n/z/c: - | 7\n/new: - | 5\n");
}

static void a_list_against_something_else_is_told_whole(void **state)
{
    (void)state;
    open_words("{'a': [1, 2], 'b': {'x': 1}, 'c': 5}");
    open_words("{'a': 3, 'b': [1], 'c': {'y': 2}}");
    assert_told("/a: [1, 2] | 3\n/b: {\"x\": 1} | [1]\n/c: 5 | {\"y\": 2}\n");
}

static void a_list_or_object_without_anything_in_it_is_a_value(void **state)
{
    (void)state;
    open_words("{'a': [], 'b': {}, 'c': [], 'd': {}}");
    open_words("{'a': [], 'c': [7], 'd': {}, 'e': {}}");
    assert_told("/b: {} | -\n/c/0: - | 7\n/e: - | {}\n");
}

static void whole_documents_can_differ(void **state)
{
    (void)state;
    open_words("1");
    open_words("{'a': 1}");
    assert_told(": 1 | {\"a\": 1}\n");
}

static void text_and_keys_are_told_safe_to_print(void **state)
{
    (void)state;
    open_words("{'a/b~c': 'red \\u001b[31m\\nend', 'x\\u001b': 1}");
    open_words("{'a/b~c': 'plain', 'x\\u001b': 2}");
    assert_told("/a~1b~0c: red \xef\xbf\xbd[31m end | plain\n/x\xef\xbf\xbd: 1 | 2\n");
}

static void long_texts_are_told_whole(void **state)
{
    (void)state;
    char text[5000], want[5000];
    snprintf(text, sizeof text, "{'a': '%04000d1'}", 0);
    open_words(text);
    text[strlen(text) - 3] = '2';
    open_words(text);
    char *told = all_told();
    snprintf(want, sizeof want, "%04000d1 | ", 0);
    assert_non_null(strstr(told, want));
    assert_int_equal(strlen(told), strlen("/a: ") + 4001 + strlen(" | ") + 4001 + 1);
    free(told);
}

static void a_key_too_long_to_show_is_cut(void **state)
{
    (void)state;
    char text[5000];
    snprintf(text, sizeof text, "{'%04000d': 1}", 0);
    open_words(text);
    text[strlen(text) - 2] = '2';
    open_words(text);
    char *told = all_told();
    assert_non_null(strstr(told, "000\xe2\x80\xa6: 1 | 2\n"));
    assert_in_range(strlen(told), 500, 1100);
    free(told);
}

static void the_deepest_document_is_walked_to_its_ground(void **state)
{
    (void)state;
    char text[2][2 * PL_DOCUMENT_MOST_DEPTH + 2];
    for (int i = 0; i < 2; i++) {
        memset(text[i], '[', PL_DOCUMENT_MOST_DEPTH);
        text[i][PL_DOCUMENT_MOST_DEPTH] = i ? '8' : '9';
        memset(text[i] + PL_DOCUMENT_MOST_DEPTH + 1, ']', PL_DOCUMENT_MOST_DEPTH);
        text[i][2 * PL_DOCUMENT_MOST_DEPTH + 1] = '\0';
        open_text(text[i]);
    }
    char *told = all_told();
    assert_int_equal(strlen(told), 2 * PL_DOCUMENT_MOST_DEPTH + strlen(": 9 | 8\n"));
    assert_non_null(strstr(told, "/0/0: 9 | 8\n"));
    free(told);
}

/* ---- rows ---- */

#define A "{'name': 'a', 'n': 1}"
#define B "{'name': 'b', 'n': 2}"
#define C "{'name': 'c', 'n': 3}"

static void an_added_row_is_its_values(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B "]}");
    open_words("{'list': [" A ", " B ", " C "]}");
    assert_told("/list/2/name: - | c\n/list/2/n: - | 3\n");
}

static void a_row_put_in_between_shifts_none_of_the_others(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B "]}");
    open_words("{'list': [" C ", " A ", {'name': 'b', 'n': 5}]}");
    assert_told("/list/1/n: 2 | 5\n/list/0/name: - | c\n/list/0/n: - | 3\n");
}

static void a_value_only_a_later_row_has_is_found_by_the_pointer_of_its_own_document(void **state)
{
    (void)state;
    open_words("{'list': [" A "]}");
    open_words("{'list': [" C ", {'name': 'a', 'n': 1, 'more': 9}]}");
    assert_told("/list/1/more: - | 9\n/list/0/name: - | c\n/list/0/n: - | 3\n");
}

static void a_removed_row_is_its_values(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B ", " C "]}");
    open_words("{'list': [" A ", " C "]}");
    assert_told("/list/1/name: b | -\n/list/1/n: 2 | -\n");
}

static void a_renamed_row_is_told_on_either_side(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B "]}");
    open_words("{'list': [" A ", {'name': 'd', 'n': 2}]}");
    assert_told("/list/1/name: b | -\n/list/1/n: 2 | -\n/list/1/name: - | d\n/list/1/n: - | 2\n");
}

static void rows_that_changed_places_are_one_difference_of_order(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B ", " C "]}");
    open_words("{'list': [" B ", " A ", " C "]}");
    assert_told("order of /list: a, b, c | b, a, c\n");
}

static void a_row_that_moved_and_changed_is_both(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B ", " C "]}");
    open_words("{'list': [" B ", " C ", {'name': 'a', 'n': 7}]}");
    assert_told("order of /list: a, b, c | b, c, a\n/list/0/n: 1 | 7\n");
}

static void rows_only_one_has_do_not_count_for_the_order(void **state)
{
    (void)state;
    open_words("{'list': [" A ", " B "]}");
    open_words("{'list': [" C ", " B "]}");
    open_words("{'list': [" B ", " C "]}");
    char *told = all_told();
    assert_null(strstr(told, "order"));
    free(told);
}

static void an_order_that_only_later_documents_have_is_told_last(void **state)
{
    (void)state;
    open_words("{'x': 1}");
    open_words("{'list': [" A ", " B "], 'x': 2}");
    open_words("{'list': [" B ", " A "], 'x': 1}");
    assert_told("/x: 1 | 2 | 1\n"
                "order of /list: - | a, b | b, a\n"
                "/list/0/name: - | a | a\n/list/0/n: - | 1 | 1\n/list/1/name: - | b | b\n/list/1/n: - | 2 | 2\n");
}

static void rows_are_matched_by_index_where_a_name_is_missing_or_stands_twice(void **state)
{
    (void)state;
    static const char *const lists[] = {A ", " A, A ", {'n': 2}", A ", {'name': 3}", A ", 5"};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        char text[200];
        snprintf(text, sizeof text, "{'list': [%s]}", lists[i]);
        open_words(text);
        open_words("{'list': [" B ", " A "]}");
        char *told = all_told();
        assert_non_null(strstr(told, "/list/0/name: a | b\n"));
        assert_null(strstr(told, "order"));
        free(told);
        close_all();
    }
}

static void named_rows_inside_named_rows_are_matched_too(void **state)
{
    (void)state;
    open_words("{'out': [{'name': 'p', 'in': [" A ", " B "]}, {'name': 'q', 'in': []}]}");
    open_words("{'out': [{'name': 'o'}, {'name': 'p', 'in': [" B ", " C "]}, {'name': 'q', 'in': [" A "]}]}");
    assert_told("/out/0/in/0/name: a | -\n/out/0/in/0/n: 1 | -\n"
                "/out/1/in/1/name: - | c\n/out/1/in/1/n: - | 3\n"
                "/out/2/in/0/name: - | a\n/out/2/in/0/n: - | 1\n"
                "/out/0/name: - | o\n");
}

static void what_a_row_has_in_one_document_only_is_its_values(void **state)
{
    (void)state;
    open_file(WHOLE_PART);
    open_file(WHOLE_PART);
    do_edit(documents[1], REMOVE, "/elements/0/end_plates", NULL, 0);
    assert_told("/elements/0/end_plates/height_mm: 200 | -\n/elements/0/end_plates/length_mm: 320 | -\n"
                "/elements/0/end_plates/below_mm: 80 | -\n/elements/0/end_plates/x_le_mm: -10 | -\n"
                "/elements/0/end_plates/thickness_mm: 5 | -\n");
}

/* ---- many ---- */

static void five_documents_are_compared_at_once(void **state)
{
    (void)state;
    static const char *const plies[] = {"6", "5", "6.0", "4", "6"};
    for (int i = 0; i < 5; i++) {
        open_file(SAMPLE_PART);
        set(documents[i], "/elements/0/layup/2/plies", plies[i]);
    }
    set(documents[4], "/limits/mass_kg", "1.2");
    do_edit(documents[3], REMOVE, "/elements/0/layup/1", NULL, 0);
    do_edit(documents[2], REMOVE, "/limits/tip_deflection_mm", NULL, 0);
    set(documents[2], "/elements/0/inverted", "false");
    assert_told("/elements/0/inverted: true | true | false | true | true\n"
                "/elements/0/layup/1/name: bracket wrap | bracket wrap | bracket wrap | - | bracket wrap\n"
                "/elements/0/layup/1/fabric: glass plain 163 | glass plain 163 | glass plain 163 | -"
                " | glass plain 163\n"
                "/elements/0/layup/1/angle_deg: 45 | 45 | 45 | - | 45\n"
                "/elements/0/layup/1/plies: 2 | 2 | 2 | - | 2\n"
                "/elements/0/layup/1/side: both | both | both | - | both\n"
                "/elements/0/layup/1/chord_from: 0.05 | 0.05 | 0.05 | - | 0.05\n"
                "/elements/0/layup/1/chord_to: 1 | 1 | 1 | - | 1\n"
                "/elements/0/layup/1/half_length_mm: 240 | 240 | 240 | - | 240\n"
                "/elements/0/layup/1/drop_mm: 15 | 15 | 15 | - | 15\n"
                "/elements/0/layup/1/from_mm: 100 | 100 | 100 | - | 100\n"
                "/elements/0/layup/2/plies: 6 | 5 | 6.0 | 4 | 6\n"
                "/limits/tip_deflection_mm/scrutineer: 10 | 10 | - | 10 | 10\n"
                "/limits/mass_kg: 1.3 | 1.3 | 1.3 | 1.3 | 1.2\n");
}

static void the_document_a_pointer_belongs_to_is_the_first_that_has_the_value(void **state)
{
    (void)state;
    struct pl_differences d;
    open_words("{'a': 1}");
    open_words("{'a': 2}");
    open_words("{'a': 1, 'b': 3}");
    assert_int_equal(pl_differences_find(&d, documents, n_documents), PL_OK);
    assert_int_equal(d.count, 2);
    assert_int_equal(d.list[0].document, 0);
    assert_int_equal(d.list[1].document, 2);
    pl_differences_free(&d);
}

static void one_document_or_none_has_no_differences(void **state)
{
    (void)state;
    struct pl_differences d;
    open_file(SAMPLE_PART);
    for (size_t n = 0; n < 2; n++) {
        assert_int_equal(pl_differences_find(&d, documents, n), PL_OK);
        assert_int_equal(d.count, 0);
        pl_differences_free(&d);
    }
}

/* A list of so many numbers, each of them this one. */
static void open_numbers(size_t count, int number)
{
    struct pl_buffer text = {0};
    for (size_t i = 0; i < count; i++)
        pl_buffer_printf(&text, "%s%d", i ? ", " : "[", number);
    pl_buffer_text(&text, "]");
    assert_false(text.failed);
    open_text(text.text);
    pl_buffer_free(&text);
}

static void differences_past_the_most_are_counted(void **state)
{
    (void)state;
    struct pl_differences d;
    for (size_t more = 0; more < 8; more += 7) {
        open_numbers(PL_DIFFERENCES_MOST + more, 1);
        open_numbers(PL_DIFFERENCES_MOST + more, 2);
        assert_int_equal(pl_differences_find(&d, documents, 2), PL_OK);
        assert_int_equal(d.count, PL_DIFFERENCES_MOST);
        assert_int_equal(d.left_out, more);
        assert_string_equal(d.list[PL_DIFFERENCES_MOST - 1].pointer, "/499");
        pl_differences_free(&d);
        close_all();
    }
}

/* Named rows of a long note each, so that memory is taken in many blocks. */
static void open_rows(int first)
{
    struct pl_buffer text = {0};
    for (int i = 0; i < 400; i++)
        pl_buffer_printf(&text, "%s{\"name\": \"row %d\", \"note\": \"%0500d\"}", i ? ", " : "[", (first + i) % 400,
                         first);
    pl_buffer_text(&text, "]");
    assert_false(text.failed);
    open_text(text.text);
    pl_buffer_free(&text);
}

static void without_memory_there_is_no_list(void **state)
{
    (void)state;
    if (!counts() || !can_fail())
        skip();
    open_rows(0);
    open_rows(1);
    long tries = 0;
    for (enum pl_status status = PL_NO_MEMORY; status != PL_OK; tries++) {
        struct pl_differences d;
        fail_in = tries;
        status = pl_differences_find(&d, documents, 2);
        fail_in = -1;
        assert_int_equal(status, d.list ? PL_OK : PL_NO_MEMORY);
        assert_int_equal(d.count, d.list ? 401 : 0);  /* every note, and the order */
        assert_true(d.list || !d.arena.blocks);
        pl_differences_free(&d);
    }
    assert_true(tries > 5);
}

/* ---- words ---- */

static void assert_words(size_t document, const char *pointer, bool order, const char *want)
{
    char words[200];
    struct pl_difference d = {.pointer = pointer, .document = document, .order = order};
    pl_difference_words(&d, documents, words, sizeof words);
    assert_string_equal(words, want);
}

static void the_place_of_a_difference_is_said_in_words(void **state)
{
    (void)state;
    open_file(SAMPLE_PART);
    assert_words(0, "/elements/0/layup/2/plies", false, "top cap, plies");
    assert_words(0, "/elements/0/layup/0/half_length_mm", false, "first skin, ends at");
    assert_words(0, "/elements/0/layup", true, "main, order of ply groups");
    assert_words(0, "/elements/0/layup", false, "main, ply groups");
    assert_words(0, "/elements/0/stations/1/chord_mm", false, "station 2 of main, chord");
    assert_words(0, "/load_cases/1/pads/0/y_mm", false, "pad 1 of pit jack, at");
    assert_words(0, "/load_cases", true, "order of load cases");
    assert_words(0, "/fabrics/1/e1_gpa", false, "glass uni 310, E along");
    assert_words(0, "/fabrics/1/nu12", false, "glass uni 310, Poisson's ratio");
    assert_words(0, "/resins/0/tg_wet_c", false, "slow laminating epoxy, Tg wet");
    assert_words(0, "/resins/0/mix_ratio_by_weight/1", false, "slow laminating epoxy, mix by weight 2");
    assert_words(0, "/profiles/0/naca", false, "main, NACA digits");
    assert_words(0, "/profiles/0/points/3/1", false, "main, points 4, z");
    assert_words(0, "/profiles/0/points/0/0", false, "main, points 1, x");
    assert_words(0, "/load_cases/0/with/0", false, "top speed, together with 1");
    assert_words(0, "/allowables/knockdown", false, "allowables, ply knockdown");
    assert_words(0, "/limits/tip_deflection_mm/pit~1~0jack", false, "limits, tip deflection, pit/~jack");
    assert_words(0, "/notes", false, "notes");
    assert_words(0, "/load_cases/2", false, "kerb on tip");
    assert_words(0, "", false, "the whole file");
}

static void keys_that_the_table_does_not_know_are_said_as_they_are(void **state)
{
    (void)state;
    open_file(SAMPLE_PART);
    assert_words(0, "/colour", false, "colour");
    assert_words(0, "/paint/coats/1/hue", false, "paint, coats 2, hue");
    assert_words(0, "/elements/0/layup/2/colour", false, "top cap, colour");
    assert_words(0, "/paint/coats", true, "order of paint, coats");
}

static void the_row_is_that_of_the_document_the_pointer_is_of(void **state)
{
    (void)state;
    open_file(SAMPLE_PART);
    open_file(WHOLE_PART);
    assert_words(0, "/elements/0/layup/1/plies", false, "bracket wrap, plies");
    assert_words(1, "/elements/0/layup/1/plies", false, "wrap of main, plies");
}

static void every_difference_of_two_parts_has_words(void **state)
{
    (void)state;
    struct pl_differences d;
    char words[200], small[8];
    open_file(SAMPLE_PART);
    open_file(WHOLE_PART);
    assert_int_equal(pl_differences_find(&d, documents, 2), PL_OK);
    assert_true(d.count > 200);
    for (size_t i = 0; i < d.count; i++) {
        pl_difference_words(&d.list[i], documents, words, sizeof words);
        assert_true(words[0] && !strchr(words, '_'));  /* no key of the file is left in them */
        assert_int_not_equal(pl_document_find(documents[d.list[i].document], d.list[i].pointer), PL_NO_NODE);
        pl_difference_words(&d.list[i], documents, small, sizeof small);
        assert_true(strlen(small) < sizeof small);
    }
    pl_differences_free(&d);
}

#define TOLD(test) cmocka_unit_test_teardown(test, close_after)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TOLD(equal_documents_have_no_differences),
        TOLD(one_ply_more_is_one_difference),
        TOLD(spelling_spacing_and_order_of_keys_are_no_difference),
        TOLD(values_of_other_kinds_are_different),
        TOLD(a_number_is_told_as_it_is_spelled),
        TOLD(a_value_that_one_document_lacks_is_a_dash),
        TOLD(what_the_first_has_comes_in_its_order_and_ahead_of_what_it_lacks),
        TOLD(a_list_against_something_else_is_told_whole),
        TOLD(a_list_or_object_without_anything_in_it_is_a_value),
        TOLD(whole_documents_can_differ),
        TOLD(text_and_keys_are_told_safe_to_print),
        TOLD(long_texts_are_told_whole),
        TOLD(a_key_too_long_to_show_is_cut),
        TOLD(the_deepest_document_is_walked_to_its_ground),
        TOLD(an_added_row_is_its_values),
        TOLD(a_row_put_in_between_shifts_none_of_the_others),
        TOLD(a_value_only_a_later_row_has_is_found_by_the_pointer_of_its_own_document),
        TOLD(a_removed_row_is_its_values),
        TOLD(a_renamed_row_is_told_on_either_side),
        TOLD(rows_that_changed_places_are_one_difference_of_order),
        TOLD(a_row_that_moved_and_changed_is_both),
        TOLD(rows_only_one_has_do_not_count_for_the_order),
        TOLD(an_order_that_only_later_documents_have_is_told_last),
        TOLD(rows_are_matched_by_index_where_a_name_is_missing_or_stands_twice),
        TOLD(named_rows_inside_named_rows_are_matched_too),
        TOLD(what_a_row_has_in_one_document_only_is_its_values),
        TOLD(five_documents_are_compared_at_once),
        TOLD(the_document_a_pointer_belongs_to_is_the_first_that_has_the_value),
        TOLD(one_document_or_none_has_no_differences),
        TOLD(differences_past_the_most_are_counted),
        TOLD(without_memory_there_is_no_list),
        TOLD(the_place_of_a_difference_is_said_in_words),
        TOLD(keys_that_the_table_does_not_know_are_said_as_they_are),
        TOLD(the_row_is_that_of_the_document_the_pointer_is_of),
        TOLD(every_difference_of_two_parts_has_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
