/* Edits as a person means them: typed values, steps, and the words shown for them. */
#include "parts.h"

#include "plyloft/part_edit.h"

static struct trial t;
static char *original;

static int fresh(void **state)
{
    (void)state;
    original = trial_open_sample(&t);
    return original ? 0 : -1;
}

static int release(void **state)
{
    (void)state;
    free(original);
    trial_close(&t);
    return 0;
}

static const char *shown(const char *pointer)
{
    static char words[200];
    pl_part_value_words(t.doc, pointer, words, sizeof words);
    return words;
}

static const char *newest_step(void)
{
    return pl_document_step_name(t.doc, pl_document_steps_done(t.doc) - 1);
}

static void type(const char *pointer, const char *typed)
{
    pl_problems_clear(&t.problems);
    if (pl_part_type(t.doc, pointer, typed, &t.problems) != PL_OK)
        fail_msg("\"%s\" was not taken: %s", typed, t.problems.count ? t.problems.list[0].rule : "");
}

static void step(const char *pointer, int way)
{
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_part_step(t.doc, pointer, way, &t.problems), PL_OK);
}

static void undo_all(void)
{
    while (pl_document_undo(t.doc))
        continue;
    assert_bytes(t.doc, original);
}

/* Not taken, told why with what was typed, and nothing else changed. */
static void refused(const char *pointer, const char *typed, const char *rule)
{
    size_t steps = pl_document_steps(t.doc);
    unsigned long revision = pl_document_revision(t.doc);
    pl_problems_clear(&t.problems);
    if (pl_part_type(t.doc, pointer, typed, &t.problems) != PL_BAD_INPUT)
        fail_msg("\"%s\" was taken for %s", typed, pointer);
    assert_error(&t, pointer, rule, typed);
    assert_int_equal(t.problems.count, 1);
    assert_int_equal(pl_document_steps(t.doc), steps);
    assert_int_equal(pl_document_revision(t.doc), revision);
}

static const char *const chord = "/elements/0/stations/0/chord_mm";
static const char *const top_plies = "/elements/0/layup/2/plies";

/* ---- typed values ---- */

static void numbers_are_typed_with_a_point_or_a_comma(void **state)
{
    (void)state;
    static const struct { const char *typed; double value;
    } good[] = {
        {"280", 280}, {"272.5", 272.5}, {"272,25", 272.25}, {"1e2", 100},
        {"+90", 90},  {"  81 ", 81},    {".5", 0.5},        {"-7", -7},
    };
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        type(chord, good[i].typed);
        assert_close(pl_node_number(t.doc, pl_document_find(t.doc, chord)), good[i].value, 1e-15);
        trial_build(&t);
        assert_int_equal(t.status, good[i].value > 0 ? PL_OK : PL_BAD_INPUT);
    }
    undo_all();
}

static void a_number_may_be_typed_in_a_unit_or_as_a_sum(void **state)
{
    (void)state;
    type(chord, "10 in");
    assert_string_equal(shown(chord), "254");
    type(chord, "2*(100+5)");
    assert_string_equal(shown(chord), "210");
    type("/resins/0/mix_ratio_by_weight", "100:28");
    assert_close(pl_node_number(t.doc, pl_document_find(t.doc, "/resins/0/mix_ratio_by_weight/1")), 28, 0);
    refused(chord, "3 kg", "kg is a mass");
    undo_all();
}

static void text_that_is_no_number_is_refused(void **state)
{
    (void)state;
    static const char *const bad[] = {"abc", "28O",   "1,2,3", "1.2.3", "1,5.2", "nan", "inf", "-inf",
                                      "0x1F", "1e400", "1e",    "-",     "1/0",   "(2"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        refused(chord, bad[i], "");
    char many[100];
    memset(many, '1', sizeof many - 1);
    many[sizeof many - 1] = '\0';
    assert_int_equal(pl_part_type(t.doc, chord, many, &t.problems), PL_BAD_INPUT);
    assert_bytes(t.doc, original);
}

static void a_value_out_of_range_is_kept_and_the_part_says_why(void **state)
{
    (void)state;
    type(top_plies, "0");
    trial_build(&t);
    assert_only_error(&t, top_plies, "must be from 1 to 500", "0");
    assert_string_equal(shown(top_plies), "0");
    type(top_plies, "501");
    trial_build(&t);
    assert_only_error(&t, top_plies, "must be from 1 to 500", "501");
    undo_all();
    refused(top_plies, "2,5", "must be a whole number");
    refused(top_plies, "1,000", "could be 1 or 1000: type it without the comma");
    refused(top_plies, "1,500", "could be 1.5 or 1500: type it without the comma");
    refused(top_plies, "1,0000,5", "");
    refused(top_plies, "2*12,000", "could be 12 or 12000: type it without the comma");
}

static void an_empty_text_takes_out_what_may_be_left_out(void **state)
{
    (void)state;
    type("/elements/0/layup/2/drop_mm", "");
    assert_int_equal(pl_document_find(t.doc, "/elements/0/layup/2/drop_mm"), PL_NO_NODE);
    assert_string_equal(shown("/elements/0/layup/2/drop_mm"), "0");
    type("/revision", "   ");
    assert_int_equal(pl_document_find(t.doc, "/revision"), PL_NO_NODE);
    type("/fabrics/0/fibre", "");
    assert_string_equal(shown("/fabrics/0/fibre"), "other");
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    undo_all();
}

static void an_empty_text_is_refused_where_a_value_must_be(void **state)
{
    (void)state;
    static const char *const needed[] = {"/elements/0/stations/0/chord_mm", "/elements/0/layup/2/name",
                                         "/elements/0/layup/2/side", "/elements/0/core"};
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        pl_problems_clear(&t.problems);
        assert_int_equal(pl_part_type(t.doc, needed[i], "", &t.problems), PL_BAD_INPUT);
        assert_error(&t, needed[i], "must not be empty", "");
    }
    assert_bytes(t.doc, original);
}

static void the_word_shown_for_a_value_left_out_leaves_it_out(void **state)
{
    (void)state;
    const char *ends = "/elements/0/layup/1/half_length_mm";
    assert_string_equal(shown("/elements/0/layup/0/half_length_mm"), "tip");
    type(ends, "tip");
    assert_int_equal(pl_document_find(t.doc, ends), PL_NO_NODE);
    type("/limits/mass_kg", "-");
    assert_int_equal(pl_document_find(t.doc, "/limits/mass_kg"), PL_NO_NODE);
    type("/elements/0/mounts/0/on", "car");
    assert_int_equal(pl_document_find(t.doc, "/elements/0/mounts/0/on"), PL_NO_NODE);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
}

static void leaving_out_what_is_not_there_changes_nothing(void **state)
{
    (void)state;
    type("/elements/0/layup/0/half_length_mm", "tip");
    type("/elements/0/layup/0/drop_mm", "");
    assert_bytes(t.doc, original);
    assert_false(pl_document_changed(t.doc));
}

static void the_start_of_a_choice_is_enough_when_only_one_begins_so(void **state)
{
    (void)state;
    const char *side = "/elements/0/layup/0/side";
    type(side, "t");
    assert_string_equal(shown(side), "top");
    type(side, "both");
    assert_string_equal(shown(side), "both");
    type(side, "bott");
    assert_string_equal(shown(side), "bottom");
    refused(side, "bo", "fits several choices");
    refused(side, "front", "is not one of the choices");
    refused(side, "bottoms", "is not one of the choices");
    refused(side, "Top", "is not one of the choices");
    undo_all();
}

static void a_flag_is_true_or_false(void **state)
{
    (void)state;
    type("/elements/0/inverted", "false");
    assert_string_equal(shown("/elements/0/inverted"), "false");
    refused("/elements/0/inverted", "yes", "must be true or false");
    undo_all();
}

static void any_text_can_be_a_name(void **state)
{
    (void)state;
    type("/elements/0/layup/2/name", "cap \"A\" \\ 72, \u00e9t\u00e9");
    assert_string_equal(shown("/elements/0/layup/2/name"), "cap \"A\" \\ 72, \u00e9t\u00e9");
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_string_equal(t.part.elements[0].layup[2].name, "cap \"A\" \\ 72, \u00e9t\u00e9");
    type("/elements/0/core", "balsa");
    trial_build(&t);
    assert_error(&t, "/elements/0/core", "names no core", "\"balsa\"");
    undo_all();
}

static void what_is_no_single_value_cannot_be_typed(void **state)
{
    (void)state;
    refused("/profiles/0/points", "0.5 0.06", "cannot be typed");
    refused("/limits/tip_deflection_mm", "5", "cannot be typed");
    refused("/elements/0/stations", "5", "cannot be typed");
    refused("/elements/0/colour", "red", "cannot be typed");
    refused("", "5", "cannot be typed");
}

/* ---- steps ---- */

static void a_number_goes_by_the_step_of_its_field(void **state)
{
    (void)state;
    step(chord, 1);
    assert_string_equal(shown(chord), "280");
    step(chord, -1);
    step(chord, -1);
    assert_string_equal(shown(chord), "270");
    step(top_plies, 1);
    assert_string_equal(shown(top_plies), "7");
    step("/elements/0/stations/2/twist_deg", -1);
    assert_string_equal(shown("/elements/0/stations/2/twist_deg"), "-1.5");
    undo_all();
}

static void fractions_step_without_dust(void **state)
{
    (void)state;
    const char *from = "/elements/0/layup/1/chord_from";
    for (int i = 0; i < 5; i++)
        step(from, 1);
    assert_string_equal(shown(from), "0.3");
    for (int i = 0; i < 6; i++)
        step(from, -1);
    assert_string_equal(shown(from), "0");
}

static void steps_are_held_inside_the_hard_range(void **state)
{
    (void)state;
    static const struct { const char *pointer, *value; int way; const char *held; } ends[] = {
        {"/elements/0/layup/2/plies", "1", -1, "1"},          {"/elements/0/layup/2/plies", "500", 1, "500"},
        {"/elements/0/stations/2/twist_deg", "-90", -1, "-90"}, {"/elements/0/stations/2/twist_deg", "89.8", 1, "90"},
        {"/elements/0/layup/2/width_mm", "2", -1, "2"},        {"/elements/0/layup/2/width_mm", "1.5", -1, "1.5"},
        {"/elements/0/layup/2/drop_mm", "3", -1, "0"},         {"/elements/0/layup/2/centre_at", "1", 1, "1"},
        {"/elements/0/stations/0/chord_mm", "10000", 1, "10000"},
    };
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        put(&t, ends[i].pointer, ends[i].value);
        unsigned long revision = pl_document_revision(t.doc);
        step(ends[i].pointer, ends[i].way);
        assert_string_equal(shown(ends[i].pointer), ends[i].held);
        assert_int_equal(pl_document_revision(t.doc) == revision, !strcmp(ends[i].value, ends[i].held));
    }
}

static void a_value_left_out_steps_from_what_it_means(void **state)
{
    (void)state;
    step("/elements/0/layup/0/half_length_mm", -1);
    assert_string_equal(shown("/elements/0/layup/0/half_length_mm"), "630");
    step("/elements/0/layup/0/drop_mm", 1);
    assert_string_equal(shown("/elements/0/layup/0/drop_mm"), "5");
    step("/elements/0/layup/0/from_mm", -1);
    assert_string_equal(shown("/elements/0/layup/0/from_mm"), "0");
    put(&t, "/load_cases/1/uneven", NULL);
    step("/load_cases/1/uneven", 1);
    assert_string_equal(shown("/load_cases/1/uneven"), "0.25");
}

static void choices_go_round(void **state)
{
    (void)state;
    const char *side = "/elements/0/layup/2/side";
    static const char *const up[] = {"bottom", "both", "top"}, *const down[] = {"both", "bottom", "top"};
    for (int i = 0; i < 3; i++) {
        step(side, 1);
        assert_string_equal(shown(side), up[i]);
    }
    for (int i = 0; i < 3; i++) {
        step(side, -1);
        assert_string_equal(shown(side), down[i]);
    }
    put(&t, "/fabrics/0/fibre", NULL);
    step("/fabrics/0/fibre", 1);
    assert_string_equal(shown("/fabrics/0/fibre"), "glass");  /* behind `other`, the last */
}

static void a_flag_turns_over(void **state)
{
    (void)state;
    step("/elements/0/inverted", 1);
    assert_string_equal(shown("/elements/0/inverted"), "false");
    step("/elements/0/inverted", 1);
    assert_string_equal(shown("/elements/0/inverted"), "true");
}

static void references_go_round_the_names_of_their_list(void **state)
{
    (void)state;
    const char *fabric = "/elements/0/layup/0/fabric";
    do_edit(t.doc, INSERT, "/fabrics/-", "{\"name\": \"carbon twill\"}", 0);
    static const char *const up[] = {"glass uni 310", "carbon twill", "glass plain 163"};
    for (int i = 0; i < 3; i++) {
        step(fabric, 1);
        assert_string_equal(shown(fabric), up[i]);
    }
    step(fabric, -1);
    assert_string_equal(shown(fabric), "carbon twill");
}

static void the_only_name_of_a_list_stays(void **state)
{
    (void)state;
    step("/elements/0/core", 1);
    step("/elements/0/resin", -1);
    assert_bytes(t.doc, original);
    assert_int_equal(pl_document_steps(t.doc), 0);
}

static void lists_and_texts_do_not_step(void **state)
{
    (void)state;
    step("/name", 1);
    step("/resins/0/mix_ratio_by_weight", 1);
    step("/elements/0/stations", 1);
    step("/nothing/at/all", -1);
    assert_bytes(t.doc, original);
    assert_int_equal(pl_document_steps(t.doc), 0);
}

/* ---- undo ---- */

static void a_step_of_undo_says_what_it_did(void **state)
{
    (void)state;
    step(top_plies, -1);
    assert_string_equal(newest_step(), "top cap: Plies 6 \u2192 5");
    type(chord, "280");
    assert_string_equal(newest_step(), "station 1: Chord 275 \u2192 280");
    type("/allowables/knockdown", "0,7");
    assert_string_equal(newest_step(), "allowables: Ply knockdown 0.75 \u2192 0.7");
    type("/elements/0/layup/0/side", "top");
    assert_string_equal(newest_step(), "first skin: Side both \u2192 top");
    type("/elements/0/layup/1/half_length_mm", "tip");
    assert_string_equal(newest_step(), "bracket wrap: Ends at 240 \u2192 tip");
    assert_int_equal(pl_document_steps(t.doc), 5);
    undo_all();
}

static void steps_in_one_field_are_one_step_of_undo(void **state)
{
    (void)state;
    step(top_plies, 1);
    step(top_plies, 1);
    type(top_plies, "12");
    assert_int_equal(pl_document_steps(t.doc), 1);
    assert_true(pl_document_undo(t.doc));
    assert_bytes(t.doc, original);
}

static void a_merged_step_is_named_from_the_first_value_to_the_last(void **state)
{
    (void)state;
    step(top_plies, 1);
    step(top_plies, 1);
    assert_string_equal(newest_step(), "top cap: Plies 6 \u2192 8");
    type(top_plies, "12");
    assert_string_equal(newest_step(), "top cap: Plies 6 \u2192 12");
}

static void steps_in_another_field_or_after_an_undo_stand_alone(void **state)
{
    (void)state;
    step(top_plies, 1);
    step("/elements/0/layup/3/plies", 1);
    step(top_plies, 1);
    assert_int_equal(pl_document_steps(t.doc), 3);
    assert_true(pl_document_undo(t.doc));
    assert_true(pl_document_undo(t.doc));
    step(top_plies, 1);
    assert_int_equal(pl_document_steps(t.doc), 2);
    undo_all();
}

/* ---- words ---- */

static void a_value_is_shown_as_spelled(void **state)
{
    (void)state;
    assert_string_equal(shown("/elements/0/stations/2/twist_deg"), "-1.0");
    assert_string_equal(shown("/elements/0/layup/2/centre_at"), "0.30");
    assert_string_equal(shown("/elements/0/layup/2/fabric"), "glass uni 310");
    assert_string_equal(shown("/elements/0/inverted"), "true");
    put(&t, "/revision", "\"B\\u001b[2J\\n2\"");
    assert_string_equal(shown("/revision"), "B\uFFFD[2J 2");
}

static void a_value_left_out_is_shown_as_what_it_means(void **state)
{
    (void)state;
    put(&t, "/elements/0/inverted", NULL);
    put(&t, "/revision", NULL);
    assert_string_equal(shown("/elements/0/layup/0/half_length_mm"), "tip");
    assert_string_equal(shown("/elements/0/layup/0/drop_mm"), "0");
    assert_string_equal(shown("/elements/0/layup/0/width_mm"), "-");
    assert_string_equal(shown("/elements/0/mounts/0/on"), "car");
    assert_string_equal(shown("/elements/0/inverted"), "false");
    assert_string_equal(shown("/revision"), "-");
    assert_string_equal(shown("/elements/0/nothing"), "-");
}

static void a_row_is_called_by_its_name_or_counted_from_1(void **state)
{
    (void)state;
    static const struct { const char *pointer, *words;
    } rows[] = {
        {"/elements/0/layup/2", "top cap"},
        {"/elements/0/stations/1", "station 2"},
        {"/load_cases/1/pads/0", "pad 1"},
        {"/elements/0", "main"},
        {"/allowables", "allowables"},
        {"/elements/0/end_plates", "end plates"},
        {"/limits", "limits"},
        {"", "hill-climb front wing"},
    };
    char words[80];
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        pl_part_row_words(t.doc, rows[i].pointer, words, sizeof words);
        assert_string_equal(words, rows[i].words);
    }
    put(&t, "/elements/0/layup/2/name", "\"\"");
    pl_part_row_words(t.doc, "/elements/0/layup/2", words, sizeof words);
    assert_string_equal(words, "ply group 3");
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(numbers_are_typed_with_a_point_or_a_comma),
        TRIAL(a_number_may_be_typed_in_a_unit_or_as_a_sum),
        TRIAL(text_that_is_no_number_is_refused),
        TRIAL(a_value_out_of_range_is_kept_and_the_part_says_why),
        TRIAL(an_empty_text_takes_out_what_may_be_left_out),
        TRIAL(an_empty_text_is_refused_where_a_value_must_be),
        TRIAL(the_word_shown_for_a_value_left_out_leaves_it_out),
        TRIAL(leaving_out_what_is_not_there_changes_nothing),
        TRIAL(the_start_of_a_choice_is_enough_when_only_one_begins_so),
        TRIAL(a_flag_is_true_or_false),
        TRIAL(any_text_can_be_a_name),
        TRIAL(what_is_no_single_value_cannot_be_typed),
        TRIAL(a_number_goes_by_the_step_of_its_field),
        TRIAL(fractions_step_without_dust),
        TRIAL(steps_are_held_inside_the_hard_range),
        TRIAL(a_value_left_out_steps_from_what_it_means),
        TRIAL(choices_go_round),
        TRIAL(a_flag_turns_over),
        TRIAL(references_go_round_the_names_of_their_list),
        TRIAL(the_only_name_of_a_list_stays),
        TRIAL(lists_and_texts_do_not_step),
        TRIAL(a_step_of_undo_says_what_it_did),
        TRIAL(steps_in_one_field_are_one_step_of_undo),
        TRIAL(a_merged_step_is_named_from_the_first_value_to_the_last),
        TRIAL(steps_in_another_field_or_after_an_undo_stand_alone),
        TRIAL(a_value_is_shown_as_spelled),
        TRIAL(a_value_left_out_is_shown_as_what_it_means),
        TRIAL(a_row_is_called_by_its_name_or_counted_from_1),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
