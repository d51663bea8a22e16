/* Places of a part in words: by the names of rows and the labels of fields, whether the value is there or not. */
#include "rows.h"

#include "plyloft/place_words.h"

static void check(const char *pointer, const char *want)
{
    char words[128];
    pl_part_place_words(t.doc, pointer, words, sizeof words);
    assert_string_equal(words, want);
}

static void a_place_is_told_by_its_row_and_its_label(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    check("/elements/0/layup/2/drop_mm", "top cap, drop");
    check("/elements/0/stations/1/chord_mm", "station 2 of main, chord");
    check("/load_cases/1/pads/0/y_mm", "pad 1 of pit jack, at");
    check("/limits/tip_deflection_mm/scrutineer", "limits, tip deflection, scrutineer");
    check("/elements/0/mounts", "main, mounts");
    check("/load_cases/2", "kerb on tip");
    check("/notes", "notes");
    check("", "the whole file");
    end();
    begin(WHOLE_PART);
    check("/elements/1/layup/0/plies", "flap skin of flap, plies");
    end();
}

static void a_value_that_is_missing_has_its_place_all_the_same(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    check("/elements/0/layup/2/from_mm", "top cap, starts at");
    check("/resins/0/nonsense", "slow laminating epoxy, nonsense");
    end();
}

static void an_order_is_told_as_one(void **state)
{
    (void)state;
    char words[128], small[8];
    begin(SAMPLE_PART);
    pl_part_order_words(t.doc, "/elements/0/layup", words, sizeof words);
    assert_string_equal(words, "main, order of ply groups");
    pl_part_order_words(t.doc, "/elements/0/layup", small, sizeof small);
    assert_true(strlen(small) < sizeof small);
    end();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_place_is_told_by_its_row_and_its_label),
        cmocka_unit_test(a_value_that_is_missing_has_its_place_all_the_same),
        cmocka_unit_test(an_order_is_told_as_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
