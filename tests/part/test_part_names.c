/* Names of rows: who uses them, and new ones that every reference follows. */
#include "rows.h"

static void check_users(const char *row, size_t count, const char *sentence)
{
    char words[256];
    assert_int_equal(pl_row_users(t.doc, row, words, sizeof words), count);
    assert_string_equal(words, sentence);
}

static void what_uses_a_row_is_said_in_a_sentence(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    check_users("/fabrics/1", 2, "top cap and bottom cap use it");
    check_users("/fabrics/0", 3, "first skin, bracket wrap and outer skin use it");
    check_users("/resins/0", 1, "main uses it");
    check_users("/profiles/0", 3, "station 1 of main, station 2 of main and station 3 of main use it");
    check_users("/elements/0", 4, "top speed, pit jack, kerb on tip and scrutineer use it");
    check_users("/load_cases/3", 0, "");
    check_users("/load_cases/0", 0, "");
    check_users("/elements/0/layup/2", 0, "");
    check_users("/fabrics/9", 0, "");
    check_users("/fabrics", 0, "");
    add("/fabrics");
    check_users("/fabrics/2", 0, "");
    for (int i = 0; i < 7; i++)
        copy("/elements/0/layup/2");
    check_users("/fabrics/1", 9, "top cap, top cap 8, top cap 7 and 6 more use it");
    end();
    begin(WHOLE_PART);
    check_users("/fabrics/0", 3, "skin of main, wrap of main and flap skin of flap use it");
    check_users("/elements/0", 8, "left plate of flap, right plate of flap, main at speed and 5 more use it");
    check_users("/load_cases/1", 1, "main at speed uses it");
    end();
}

/* ---- renamed ---- */

static void check_whose(const char *row, const char *want)
{
    char words[96];
    pl_row_whose_words(t.doc, row, words, sizeof words);
    assert_string_equal(words, want);
}

static void whose_a_row_is_is_said_where_it_is_not_plain(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    check_whose("/elements/0/layup/2", "top cap");
    check_whose("/elements/0/stations/1", "station 2 of main");
    check_whose("/load_cases/1/pads/0", "pad 1 of pit jack");
    check_whose("/limits", "limits");
    end();
    begin(WHOLE_PART);
    check_whose("/elements/0/layup/2", "top cap of main");
    check_whose("/elements/0/end_plates", "end plates of main");
    check_whose("/load_cases/2", "jack");
    end();
}

static void rename_each(const char *list, enum pl_group_id group)
{
    static const char fresh[] = "caf\u00e9 \"7/8\" ~ \\ 2";
    if (!has_name(group))
        return;
    for (size_t i = 0, n = count_in(list); i < n; i++) {
        const char *row = say("%s/%zu", list, i);
        char before[256], after[256], *name = strdup(text_at(say("%s/name", row)));
        size_t users = pl_row_users(t.doc, row, before, sizeof before);
        name_it(row, fresh);
        assert_string_equal(newest_step(), say("rename %s: %s \u2192 %s", pl_groups[group].noun, name, fresh));
        assert_int_equal(pl_document_steps(t.doc), 1);
        assert_int_equal(pl_row_users(t.doc, row, after, sizeof after), users);
        assert_string_equal(after, before);
        assert_valid(newest_step()); /* a reference to the old name would be an error */
        undo_all();
        /* Typed, it is the same. */
        pl_problems_clear(&t.problems);
        done(pl_part_type(t.doc, say("%s/name", row), fresh, &t.problems));
        assert_valid(newest_step());
        assert_true(pl_document_undo(t.doc));
        assert_bytes(t.doc, original);
        free(name);
    }
}

static void a_new_name_is_followed_by_every_reference(void **state)
{
    (void)state;
    visit_parts(rename_each);
}

static void references_of_every_kind_follow(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    name_it("/profiles/1", "b");
    assert_string_equal(text_at("/elements/1/stations/1/profile"), "b");
    name_it("/fabrics/0", "b");
    assert_string_equal(text_at("/elements/0/layup/1/fabric"), "b");
    assert_string_equal(text_at("/elements/1/layup/0/fabric"), "b");
    assert_string_equal(text_at("/elements/0/layup/2/fabric"), "uni");
    name_it("/cores/0", "b");
    assert_string_equal(text_at("/elements/1/core"), "b");
    name_it("/resins/0", "b");
    assert_string_equal(text_at("/elements/0/resin"), "b");
    name_it("/elements/0", "b");
    assert_string_equal(text_at("/elements/1/mounts/1/on"), "b");
    assert_string_equal(text_at("/load_cases/4/element"), "b");
    assert_string_equal(text_at("/load_cases/1/element"), "flap");
    name_it("/load_cases/1", "b");
    assert_string_equal(text_at("/load_cases/0/with/0"), "b");
    name_it("/load_cases/3", "a/b");
    assert_close(number_at("/limits/tip_deflection_mm/a~1b"), 20, 0);
    assert_valid("seven new names");
    undo_all();
    end();
}

static void a_name_that_another_row_has_is_refused(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_refused(pl_row_rename(t.doc, "/fabrics/1", "glass plain 163", &t.problems), "/fabrics/1/name",
                   "another cloth");
    assert_refused(pl_part_type(t.doc, "/elements/0/layup/0/name", "top cap", &t.problems), "/elements/0/layup/0/name",
                   "another ply group");
    assert_refused(pl_row_rename(t.doc, "/fabrics/1", "", &t.problems), "/fabrics/1/name", "must not be empty");
    assert_refused(pl_row_rename(t.doc, "/elements/0/stations/0", "x", &t.problems), "/elements/0/stations/0",
                   "has no name");
    assert_refused(pl_row_rename(t.doc, "/fabrics", "x", &t.problems), "/fabrics", "has no name");
    assert_refused(pl_row_rename(t.doc, "/fabrics/7", "x", &t.problems), "/fabrics/7", "has no name");
    name_it("/fabrics/1", "glass uni 310"); /* its own */
    assert_int_equal(pl_document_steps(t.doc), 0);
    name_it("/elements/0", "top cap"); /* names count within their list */
    assert_valid("an element named like a ply group");
    end();
}

static void new_names_in_a_row_are_one_step(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    name_it("/fabrics/1", "x");
    name_it("/fabrics/1", "uni cloth of some weight");
    assert_int_equal(pl_document_steps(t.doc), 1);
    assert_string_equal(newest_step(), "rename cloth: glass uni 310 \u2192 uni cloth of some weight");
    name_it("/fabrics/0", "y");
    assert_int_equal(pl_document_steps(t.doc), 2);
    assert_true(pl_document_undo(t.doc));
    assert_true(pl_document_undo(t.doc));
    assert_bytes(t.doc, original);
    end();
}

static void of_two_rows_with_one_name_the_first_is_meant(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/fabrics/1/name", "\"glass plain 163\"");
    put(&t, "/elements/0/layup/2/fabric", "\"glass plain 163\"");
    check_users("/fabrics/1", 0, "");
    name_it("/fabrics/1", "second");
    assert_string_equal(text_at("/elements/0/layup/2/fabric"), "glass plain 163");
    put(&t, "/fabrics/1/name", "\"glass plain 163\"");
    name_it("/fabrics/0", "first");
    assert_string_equal(text_at("/elements/0/layup/2/fabric"), "first");
    end();
}

/* The part knows names as they are safe to print, and so a tab and a blank are one. */
static void names_are_alike_as_the_part_sees_them(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/cores/0/name", "\"foam\\t33\"");
    put(&t, "/elements/0/core", "\"foam 33\"");
    assert_valid("a tab in a name");
    check_users("/cores/0", 1, "main uses it");
    name_it("/cores/0", "foam");
    assert_string_equal(text_at("/elements/0/core"), "foam");
    put(&t, "/cores/0/name", "\"foam\\u0001\"");
    put(&t, "/elements/0/core", "\"foam\\u200e\"");
    assert_valid("characters that are shown alike");
    name_it("/cores/0", "foam");
    assert_string_equal(text_at("/elements/0/core"), "foam");
    put(&t, "/elements/0/core", "\"foam\u00e9\"");
    check_users("/cores/0", 0, "");
    end();
}

static void a_row_without_a_name_can_get_one(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/elements/0/layup/2/name", NULL);
    name_it("/elements/0/layup/2", "cap");
    assert_string_equal(newest_step(), "rename ply group: ply group 3 \u2192 cap");
    put(&t, "/elements/0/layup/2/name", "5");
    name_it("/elements/0/layup/2", "cap");
    assert_string_equal(text_at("/elements/0/layup/2/name"), "cap");
    assert_valid("a name");
    end();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_uses_a_row_is_said_in_a_sentence),
        cmocka_unit_test(whose_a_row_is_is_said_where_it_is_not_plain),
        cmocka_unit_test(a_new_name_is_followed_by_every_reference),
        cmocka_unit_test(references_of_every_kind_follow),
        cmocka_unit_test(a_name_that_another_row_has_is_refused),
        cmocka_unit_test(new_names_in_a_row_are_one_step),
        cmocka_unit_test(of_two_rows_with_one_name_the_first_is_meant),
        cmocka_unit_test(names_are_alike_as_the_part_sees_them),
        cmocka_unit_test(a_row_without_a_name_can_get_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
