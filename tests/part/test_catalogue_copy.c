/* Rows on their way from the catalogue into a part. */
#include "catalogues.h"
#include "documents.h"

#include "plyloft/part.h"

static void assert_text(const struct pl_document *doc, const char *pointer, const char *want)
{
    assert_string_equal(pl_node_text(doc, pl_document_find(doc, pointer)), want);
}

static size_t count_at(const struct pl_document *doc, const char *pointer)
{
    return pl_node_count(doc, pl_document_find(doc, pointer));
}

static void assert_builds(const struct pl_document *doc)
{
    struct pl_problems problems = {0};
    struct pl_part part = {0};
    assert_int_equal(pl_part_build(&part, doc, &problems), PL_OK);
    pl_part_free(&part);
    pl_problems_free(&problems);
}

static void a_row_goes_to_the_end_of_the_list_in_one_named_step(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    char *before = strdup(pl_document_bytes(doc, NULL));
    assert_int_equal(copy(c, doc, FABRICS, "carbon plain 200"), 2);
    assert_text(doc, "/fabrics/2/name", "carbon plain 200");
    char *there = pl_document_copy(doc, "/fabrics/2"),
         *row = pl_catalogue_row(c, FABRICS, row_of(c, FABRICS, "carbon plain 200"));
    assert_string_equal(there, row);
    assert_builds(doc);
    assert_int_equal(pl_document_steps(doc), 1);
    assert_string_equal(pl_document_step_name(doc, 0), "carbon plain 200: from the catalogue");
    assert_int_equal(copy(c, doc, PL_CATALOGUE_RESINS, "slow epoxy, post-cured"), 1);
    assert_int_equal(copy(c, doc, PL_CATALOGUE_CORES, "PVC 60"), 1);
    assert_builds(doc);
    for (int i = 0; i < 3; i++)
        assert_true(pl_document_undo(doc));
    assert_string_equal(pl_document_bytes(doc, NULL), before);
    free(row);
    free(there);
    free(before);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void all_typical_rows_together_make_a_part_without_error(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    for (enum pl_catalogue_group g = 0; g < PL_CATALOGUE_METALS; g++)
        for (size_t i = 0; i < pl_catalogue_count(c, g); i++)
            copy(c, doc, g, pl_catalogue_name(c, g, i));
    assert_int_equal(count_at(doc, "/fabrics"), 20); /* 2 + 19, of which glass plain 163 was there */
    assert_builds(doc);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_name_that_is_taken_gets_a_number(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    /* the sample's is another uni of that weight */
    assert_int_equal(copy(c, doc, FABRICS, "glass uni 310"), 2);
    assert_text(doc, "/fabrics/2/name", "glass uni 310 2");
    assert_string_equal(pl_document_step_name(doc, 0), "glass uni 310 2: from the catalogue");
    set(doc, "/fabrics/2/xt_mpa", "600");
    assert_int_equal(copy(c, doc, FABRICS, "glass uni 310"), 3);
    assert_text(doc, "/fabrics/3/name", "glass uni 310 3");
    assert_builds(doc);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_row_that_is_there_already_is_not_added_again(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    struct pl_document *doc = sample();
    /* the very values, in other spelling */
    assert_int_equal(copy(c, doc, FABRICS, "glass plain 163"), 0);
    set(doc, "/fabrics/0/e1_gpa", "1.70e1");
    assert_int_equal(copy(c, doc, FABRICS, "glass plain 163"), 0);
    assert_int_equal(pl_document_steps(doc), 1);
    assert_int_equal(count_at(doc, "/fabrics"), 2);
    copy(c, doc, FABRICS, "glass uni 310");
    assert_int_equal(copy(c, doc, FABRICS, "glass uni 310"), 2); /* under its number */
    assert_int_equal(copy(c, doc, PL_CATALOGUE_RESINS, "fast epoxy, room cure"), 1);
    assert_int_equal(copy(c, doc, PL_CATALOGUE_RESINS, "fast epoxy, room cure"), 1);
    set(doc, "/resins/1/mix_ratio_by_weight/1", "31");
    assert_int_equal(copy(c, doc, PL_CATALOGUE_RESINS, "fast epoxy, room cure"), 2);
    set(doc, "/resins/2/price", "3");
    assert_int_equal(copy(c, doc, PL_CATALOGUE_RESINS, "fast epoxy, room cure"), 3);
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void a_part_without_the_list_gets_one(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    struct pl_document *doc = read_text("{}");
    assert_int_equal(copy(c, doc, FABRICS, "glass plain 200"), 0);
    assert_text(doc, "/fabrics/0/name", "glass plain 200");
    assert_int_equal(pl_document_steps(doc), 1);
    assert_true(pl_document_undo(doc));
    assert_bytes(doc, "{}");
    pl_document_free(doc);
    pl_catalogue_free(c);
}

static void what_cannot_be_copied_is_told_and_changes_nothing(void **state)
{
    (void)state;
    static const char *const texts[] = {"[]", "{\"fabrics\": 3}", "7"};
    struct pl_problems problems = {0};
    struct pl_catalogue *c = load();
    for (size_t i = 0; i < 3; i++) {
        struct pl_document *doc = read_text(texts[i]);
        assert_int_equal(pl_catalogue_copy(c, doc, FABRICS, 0, NULL, &problems), PL_BAD_INPUT);
        assert_problem(&problems, PL_ERROR, i == 1 ? "/fabrics/-" : "/fabrics", "there is no such place", "");
        assert_bytes(doc, texts[i]);
        assert_int_equal(pl_document_steps(doc), 0);
        assert_int_equal(pl_catalogue_copy(c, doc, PL_CATALOGUE_METALS, 0, NULL, &problems), PL_BAD_INPUT);
        assert_problem(&problems, PL_ERROR, "", "a part has no list of metals", "");
        pl_document_free(doc);
    }
    pl_catalogue_free(c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_HOME(a_row_goes_to_the_end_of_the_list_in_one_named_step),
        IN_A_HOME(all_typical_rows_together_make_a_part_without_error),
        IN_A_HOME(a_name_that_is_taken_gets_a_number),
        IN_A_HOME(a_row_that_is_there_already_is_not_added_again),
        IN_A_HOME(a_part_without_the_list_gets_one),
        IN_A_HOME(what_cannot_be_copied_is_told_and_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
