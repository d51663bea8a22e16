/* Gap and overlap as fields: said, typed and stepped, kept nowhere but in the stations, and taken back to the byte. */
#include "../part/parts.h"

#include "plyloft/gap_edit.h"
#include "plyloft/part_edit.h"

#include <math.h>

#define SLOT_PART "samples/two-element-wing.json"
#define GAP(station) "/elements/1/stations/" #station "/gap_mm"
#define OVERLAP(station) "/elements/1/stations/" #station "/overlap_mm"
#define ALL_GAP "/elements/1/gap_mm"
#define ALL_OVERLAP "/elements/1/overlap_mm"

static struct trial t;
static char *original;

static int fresh(void **state)
{
    (void)state;
    trial_open(&t, SLOT_PART);
    original = strdup(pl_document_bytes(t.doc, NULL));
    return original ? 0 : -1;
}

static int release(void **state)
{
    (void)state;
    free(original);
    trial_close(&t);
    return 0;
}

/* ---- asking and doing ---- */

struct looked { struct pl_arena arena; struct pl_gap_shape *shape; };

static struct looked look(void)
{
    struct looked l = {0};
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(pl_gap_shape_make(&l.shape, &t.part, &l.arena), PL_OK);
    return l;
}

static struct pl_gap slot(size_t station)
{
    struct looked l = look();
    struct pl_gap gap = pl_gap_at(l.shape, 1, t.part.elements[1].stations[station].y_m);
    pl_arena_free(&l.arena);
    return gap;
}

static const char *shown(const char *pointer)
{
    static char words[64];
    struct looked l = look();
    pl_gap_words(l.shape, pointer, words, sizeof words);
    pl_arena_free(&l.arena);
    return words;
}

static const char *more(const char *pointer)
{
    static char words[128];
    struct looked l = look();
    pl_gap_more_words(l.shape, pointer, words, sizeof words);
    pl_arena_free(&l.arena);
    return words;
}

static void type(const char *pointer, const char *typed)
{
    pl_problems_clear(&t.problems);
    if (pl_gap_type(t.doc, pointer, typed, &t.problems) != PL_OK)
        fail_msg("\"%s\" was not taken: %s", typed, t.problems.count ? t.problems.list[0].rule : "");
}

static void step(const char *pointer, int way)
{
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_gap_step(t.doc, pointer, way, &t.problems), PL_OK);
}

static const char *newest_step(void)
{
    return pl_document_step_name(t.doc, pl_document_steps_done(t.doc) - 1);
}

/* Told at a place, with a rule and what was found, and nothing changed. */
static void refused(const char *pointer, const char *typed, const char *place, const char *rule, const char *found)
{
    unsigned long revision = pl_document_revision(t.doc);
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_gap_type(t.doc, pointer, typed, &t.problems), PL_BAD_INPUT);
    assert_int_equal(t.problems.count, 1);
    assert_string_equal(t.problems.list[0].place, place);
    assert_string_equal(t.problems.list[0].rule, rule);
    assert_string_equal(t.problems.list[0].found, found);
    assert_true(pl_document_revision(t.doc) == revision);
}

#define assert_within_a_micron(got_m, want_mm) assert_true(fabs((got_m) - 1e-3 * (want_mm)) < 1e-6)

/* ---- words ---- */

static void they_are_said_in_hundredths_of_a_millimetre_and_of_the_chord(void **state)
{
    (void)state;
    struct pl_gap here = slot(0);
    char want[32];
    assert_int_equal(here.ahead, 0);
    snprintf(want, sizeof want, "%.2f", 1e3 * here.gap_m);
    assert_string_equal(shown(GAP(0)), want);
    snprintf(want, sizeof want, "%.2f %% of the chord of main", 100 * here.gap_m / 0.3);
    assert_string_equal(more(GAP(0)), want);
    snprintf(want, sizeof want, "%.2f %% of the chord of main", 100 * here.overlap_m / 0.3);
    assert_string_equal(more(OVERLAP(1)), want);
}

static void a_whole_span_says_its_one_figure_or_from_where_to_where(void **state)
{
    (void)state;
    type(ALL_GAP, "7");
    assert_string_equal(shown(ALL_GAP), "7");
    type(GAP(1), "8.25");
    assert_string_equal(shown(ALL_GAP), "7 to 8.25");
    assert_string_equal(more(ALL_GAP), "");
}

static void an_element_with_none_ahead_and_another_field_have_no_words(void **state)
{
    (void)state;
    assert_string_equal(shown("/elements/0/stations/0/gap_mm"), "-");
    assert_string_equal(shown("/elements/0/overlap_mm"), "-");
    assert_string_equal(shown("/elements/1/stations/0/chord_mm"), "-");
    assert_string_equal(shown("/elements/7/stations/0/gap_mm"), "-");
    assert_string_equal(more("/elements/0/stations/0/gap_mm"), "");
}

static void sections_that_cross_are_said_to(void **state)
{
    (void)state;
    assert_int_equal(pl_edit_set(t.doc, "/elements/1/stations/0/z_le_mm", "19", &t.problems), PL_OK);
    assert_true(shown(GAP(0))[0] == '-' && shown(GAP(0))[1]);
    assert_non_null(strstr(more(GAP(0)), "of the chord of main, which it crosses"));
}

/* ---- edits ---- */

static void a_typed_gap_is_there_and_the_overlap_stays(void **state)
{
    (void)state;
    struct pl_gap before = slot(1);
    type(GAP(1), "4.8");
    struct pl_gap after = slot(1);
    assert_within_a_micron(after.gap_m, 4.8);
    assert_within_a_micron(after.overlap_m, 1e3 * before.overlap_m);
    assert_string_equal(shown(GAP(1)), "4.8");
    assert_close(slot(0).gap_m, before.gap_m, 1e-12);  /* the other station stays */
}

static void a_typed_overlap_is_there_and_the_gap_stays(void **state)
{
    (void)state;
    struct pl_gap before = slot(0);
    type(OVERLAP(0), "-2.5");
    struct pl_gap after = slot(0);
    assert_within_a_micron(after.overlap_m, -2.5);
    assert_within_a_micron(after.gap_m, 1e3 * before.gap_m);
}

static void only_leading_edges_move(void **state)
{
    (void)state;
    struct pl_station was[2];
    trial_build(&t);
    memcpy(was, t.part.elements[1].stations, sizeof was);
    type(ALL_GAP, "9");
    trial_build(&t);
    for (int i = 0; i < 2; i++) {
        const struct pl_station *now = &t.part.elements[1].stations[i];
        assert_true(now->y_m == was[i].y_m && now->chord_m == was[i].chord_m && now->twist_rad == was[i].twist_rad);
        assert_true(now->z_le_m > was[i].z_le_m + 0.002);
        assert_close(now->z_le_m * 1e6, round(now->z_le_m * 1e6), 1e-12);  /* whole thousandths of a millimetre */
    }
    assert_null(strstr(pl_document_bytes(t.doc, NULL), "gap_mm"));
    assert_null(strstr(pl_document_bytes(t.doc, NULL), "overlap_mm"));
}

static void an_edit_of_the_whole_span_is_one_step_and_is_taken_back_to_the_byte(void **state)
{
    (void)state;
    type(ALL_OVERLAP, "3");
    for (size_t i = 0; i < 2; i++)
        assert_within_a_micron(slot(i).overlap_m, 3);
    assert_int_equal(pl_document_steps(t.doc), 1);
    assert_true(pl_document_undo(t.doc));
    assert_string_equal(pl_document_bytes(t.doc, NULL), original);
    type(GAP(0), "5");
    type(GAP(0), "5.5");
    type(OVERLAP(0), "2");
    assert_int_equal(pl_document_steps(t.doc), 2);  /* edits of one field join */
    assert_string_equal(newest_step(), "station 1: Overlap 4.47 \u2192 2");
    while (pl_document_undo(t.doc))
        continue;
    assert_string_equal(pl_document_bytes(t.doc, NULL), original);
}

static void many_edits_of_one_do_not_wear_the_other(void **state)
{
    (void)state;
    struct pl_gap before = slot(0);
    for (int i = 0; i < 40; i++) {
        char typed[16];
        snprintf(typed, sizeof typed, "%d.%d", 4 + i % 7, i % 10);
        type(GAP(0), typed);
    }
    assert_true(fabs(slot(0).overlap_m - before.overlap_m) < 4e-6);  /* a tenth of a micron an edit */
}

static void a_share_is_one_of_the_chord_ahead_and_inches_are_inches(void **state)
{
    (void)state;
    type(ALL_GAP, "1.5 %");
    assert_string_equal(shown(ALL_GAP), "4.5");  /* of 300 mm */
    type(OVERLAP(0), "1%");
    assert_within_a_micron(slot(0).overlap_m, 3);
    type(GAP(0), "1/4 in");
    assert_within_a_micron(slot(0).gap_m, 6.35);
    type(GAP(0), "2*2,5");
    assert_within_a_micron(slot(0).gap_m, 5);
}

static void a_share_of_each_chord_follows_the_taper(void **state)
{
    (void)state;
    assert_int_equal(pl_edit_set(t.doc, "/elements/0/stations/1/chord_mm", "240", &t.problems), PL_OK);
    type(ALL_OVERLAP, "1 %");
    assert_within_a_micron(slot(0).overlap_m, 3);
    assert_within_a_micron(slot(1).overlap_m, 2.4);
    type(ALL_GAP, "2 %");
    assert_within_a_micron(slot(0).gap_m, 6);
    assert_within_a_micron(slot(1).gap_m, 4.8);
    assert_non_null(strstr(newest_step(), " \u2192 4.8 to 6"));
}

static void a_step_is_half_a_millimetre_from_what_is_shown(void **state)
{
    (void)state;
    type(GAP(0), "5");
    type(GAP(1), "7");
    step(ALL_GAP, 1);
    step(ALL_GAP, 1);
    assert_string_equal(shown(ALL_GAP), "6 to 8");
    assert_string_equal(newest_step(), "flap: Gap, whole span 5 to 7 \u2192 6 to 8");
    assert_int_equal(pl_document_steps(t.doc), 3);
    type(OVERLAP(1), "4");
    step(OVERLAP(1), -1);
    assert_string_equal(shown(OVERLAP(1)), "3.5");
}

static void a_step_stops_ahead_of_no_gap(void **state)
{
    (void)state;
    type(GAP(0), "0.5");
    unsigned long revision = pl_document_revision(t.doc);
    step(GAP(0), -1);
    step(ALL_GAP, -1);
    assert_true(pl_document_revision(t.doc) == revision);
}

static void an_edge_that_stays_keeps_its_spelling(void **state)
{
    (void)state;
    assert_int_equal(pl_edit_set(t.doc, "/elements/1/stations/0/z_le_mm", "2.94e1", &t.problems), PL_OK);
    type(GAP(1), "5");
    assert_non_null(strstr(pl_document_bytes(t.doc, NULL), "2.94e1"));
    size_t steps = pl_document_steps(t.doc);
    type(GAP(1), "5.000");  /* less than a thousandth away */
    assert_true(pl_document_steps(t.doc) <= steps);
}

static void crossing_sections_are_parted_by_a_gap(void **state)
{
    (void)state;
    assert_int_equal(pl_edit_set(t.doc, "/elements/1/stations/0/z_le_mm", "19", &t.problems), PL_OK);
    refused(OVERLAP(0), "3", OVERLAP(0), "needs a gap first: the section crosses that of main", "3");
    type(GAP(0), "6");
    assert_within_a_micron(slot(0).gap_m, 6);
    assert_false(slot(0).crosses);
}

/* ---- refusals ---- */

static void what_cannot_be_is_refused_with_place_rule_and_value(void **state)
{
    (void)state;
    refused(GAP(0), "0", GAP(0), "must be above 0, at most 2000", "0");
    refused(ALL_GAP, "-1", GAP(0), "must be above 0, at most 2000", "-1");
    refused(OVERLAP(0), "3000", OVERLAP(0), "must be from -2000 to 2000", "3000");
    refused(GAP(0), "", GAP(0), "must not be empty", "");
    refused(OVERLAP(1), "-9", OVERLAP(1), "must keep the gap, 6.05 mm: there it is at least 9", "-9");
    type(OVERLAP(1), "-5");
    refused(GAP(1), "4", GAP(1), "must be at least 5 mm while the overlap is -5", "4");
    refused(ALL_GAP, "4", GAP(1), "must be at least 5 mm while the overlap is -5", "4");
    refused("/elements/0/stations/0/gap_mm", "5", "/elements/0/stations/0/gap_mm", "has no element ahead of it", "");
    refused("/elements/0/gap_mm", "5", "/elements/0/gap_mm", "has no element ahead of it", "");
    refused("/elements/1/stations/9/gap_mm", "5", "/elements/1/stations/9/gap_mm", "has no element ahead of it", "");
    refused("/elements/1/stations/0/chord_mm", "5", "/elements/1/stations/0/chord_mm", "cannot be typed", "5");
}

static void no_number_is_refused_and_a_part_with_errors(void **state)
{
    (void)state;
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_gap_type(t.doc, GAP(0), "wide", &t.problems), PL_BAD_INPUT);
    assert_true(!strncmp(t.problems.list[0].rule, "must be a number: ", 18));
    assert_int_equal(pl_edit_set(t.doc, "/elements/0/stations/0/chord_mm", "-1", &t.problems), PL_OK);
    refused(GAP(0), "5", GAP(0), "cannot be worked out while the part has errors", "");
    pl_document_undo(t.doc);
    assert_int_equal(pl_edit_set(t.doc, "/profiles/0/naca", "\"99x\"", &t.problems), PL_OK);
    refused(GAP(0), "5", GAP(0), "cannot be worked out while the part has errors", "");
}

static void the_edits_of_fields_leave_them_alone(void **state)
{
    (void)state;
    unsigned long revision = pl_document_revision(t.doc);
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_part_type(t.doc, GAP(0), "5", &t.problems), PL_BAD_INPUT);
    assert_int_equal(pl_part_step(t.doc, GAP(0), 1, &t.problems), PL_OK);
    assert_int_equal(pl_gap_step(t.doc, "/elements/1/stations/0/chord_mm", 1, &t.problems), PL_OK);
    assert_true(pl_document_revision(t.doc) == revision);
}

static void in_a_file_they_are_unknown_keys(void **state)
{
    (void)state;
    assert_int_equal(pl_edit_set(t.doc, GAP(0), "5", &t.problems), PL_OK);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(t.problems.count, 1);
    assert_int_equal(t.problems.list[0].severity, PL_WARNING);
    assert_string_equal(t.problems.list[0].place, GAP(0));
}

#define TRIAL(name) cmocka_unit_test_setup_teardown(name, fresh, release)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TRIAL(they_are_said_in_hundredths_of_a_millimetre_and_of_the_chord),
        TRIAL(a_whole_span_says_its_one_figure_or_from_where_to_where),
        TRIAL(an_element_with_none_ahead_and_another_field_have_no_words),
        TRIAL(sections_that_cross_are_said_to),
        TRIAL(a_typed_gap_is_there_and_the_overlap_stays),
        TRIAL(a_typed_overlap_is_there_and_the_gap_stays),
        TRIAL(only_leading_edges_move),
        TRIAL(an_edit_of_the_whole_span_is_one_step_and_is_taken_back_to_the_byte),
        TRIAL(many_edits_of_one_do_not_wear_the_other),
        TRIAL(a_share_is_one_of_the_chord_ahead_and_inches_are_inches),
        TRIAL(a_share_of_each_chord_follows_the_taper),
        TRIAL(a_step_is_half_a_millimetre_from_what_is_shown),
        TRIAL(a_step_stops_ahead_of_no_gap),
        TRIAL(an_edge_that_stays_keeps_its_spelling),
        TRIAL(crossing_sections_are_parted_by_a_gap),
        TRIAL(what_cannot_be_is_refused_with_place_rule_and_value),
        TRIAL(no_number_is_refused_and_a_part_with_errors),
        TRIAL(the_edits_of_fields_leave_them_alone),
        TRIAL(in_a_file_they_are_unknown_keys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
