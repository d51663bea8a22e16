/* Gap and overlap on the page Shape: columns of the stations of an element behind another, rows of its sheet, and facts. */
#include "pages.h"

#include "screen/block.h"
#include "screen/facts.h"

#define SLOT_PART "samples/two-element-wing.json"
#define SLOT_BEFORE "/elements/1/stations/0/gap_mm"

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SLOT_PART);
    press(&d, "1 e");
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

/* Words of the fact of that label; "" without. */
static const char *fact(const char *label)
{
    static char words[PL_FACT_WORDS];
    struct pl_facts facts = {0};
    pl_facts_of_session(&facts, d.s);
    const char *said = pl_facts_words(&facts, label, 0);
    snprintf(words, sizeof words, "%s", said ? said : "");
    pl_facts_free(&facts);
    return words;
}

static void an_element_behind_another_has_the_columns_and_one_ahead_has_not(void **state)
{
    (void)state;
    draw_usual(&d);
    assert_shown(&d, "station         y chord    x le   z le twist   gap overlap profile");
    assert_shown(&d, "station 1      0   110   294.2   29.4     0  6.05    4.47 flap");
    press(&d, "e");
    draw_usual(&d);
    assert_not_shown(&d, "overlap");
    press(&d, "Tab Tab Tab");
    draw(&d, 132, 43, false);
    assert_not_shown(&d, "Overlap");
}

static void the_columns_fit_at_every_size(void **state)
{
    (void)state;
    draw(&d, 132, 43, false);
    assert_shown(&d, "gap overlap prof");
    draw(&d, 200, 60, false);
    assert_shown(&d, "gap overlap profile");
    press(&d, "Right Right Right Right Right Right");
    draw(&d, 40, 20, true);
    assert_shown(&d, "gap overlap");
    assert_role(&d, "   4.47", PL_ROLE_CHOSEN);
}

static void a_typed_gap_moves_the_leading_edge_and_is_shown(void **state)
{
    (void)state;
    press(&d, "Right Right Right Right Right");
    draw_usual(&d);
    assert_shown(&d, " 2.02 % of the chord of main. Least distance");
    press(&d, "Enter text:1.5% Enter");
    draw_usual(&d);
    assert_shown(&d, "   4.5    4.47 flap");
    assert_shown(&d, " 1.50 % of the chord of main.");
    assert_true(pl_document_changed(d.s->document));
    press(&d, "+");
    draw_usual(&d);
    assert_shown(&d, "     5    4.47 flap");
    press(&d, "u");
    assert_string_equal(pl_document_bytes(d.s->document, NULL), d.bytes);
}

static void the_whole_span_is_in_the_sheet_of_the_element(void **state)
{
    (void)state;
    press(&d, "Tab Tab Tab End Enter text:1% Enter Up Enter 5 Enter");
    draw_usual(&d);
    assert_shown(&d, "Gap, whole span                5 mm");
    assert_shown(&d, "Overlap, whole span            3 mm");
    press(&d, "BackTab BackTab BackTab");
    draw_usual(&d);
    assert_shown(&d, "     5       3 flap");
    press(&d, "u u");
    assert_string_equal(pl_document_bytes(d.s->document, NULL), d.bytes);
}

static void what_cannot_be_is_told_and_stays_to_be_mended(void **state)
{
    (void)state;
    press(&d, "Right Right Right Right Right Right Enter text:-9 Enter");
    draw_usual(&d);
    assert_shown(&d, "not done: must keep the gap, 6.05 mm: there it is at least 9 (found -9)");
    assert_true(d.s->typing);
    press(&d, "Escape");
    press(&d, "1 Tab Tab Tab End Enter text:-9 Enter");  /* of a whole span the station is told */
    draw_usual(&d);
    assert_shown(&d, "not done: station 1 of flap, overlap: must keep the gap");
    press(&d, "Escape");
    assert_string_equal(pl_document_bytes(d.s->document, NULL), d.bytes);
}

static void help_says_that_no_file_has_it(void **state)
{
    (void)state;
    press(&d, "Right Right Right Right Right ?");
    draw_usual(&d);
    assert_shown(&d, "Gap of station 1");
    assert_shown(&d, "In no file: worked out from the stations, and edited through them.");
    assert_shown(&d, "a step is 0.5");
}

static void facts_say_the_field_with_its_unit_and_share(void **state)
{
    (void)state;
    press(&d, "Right Right Right Right Right");
    assert_string_equal(fact("field"), "Gap, 6.05 mm");
    assert_string_equal(fact("field in proportion"), "2.02 % of the chord of main");
    press(&d, "Right +");
    assert_string_equal(fact("field"), "Overlap, 4.97 mm");
    press(&d, "Left Left");
    assert_string_equal(fact("field"), "Twist, 0 deg");
    assert_string_equal(fact("field in proportion"), "");
}

static void without_a_sound_part_there_is_no_figure_and_the_columns_stay(void **state)
{
    (void)state;
    press(&d, "Right Enter 0 Enter");  /* no chord */
    assert_false(d.s->valid);
    draw_usual(&d);
    assert_shown(&d, "station         y chord    x le   z le twist   gap overlap profile");
    assert_shown(&d, "     -       - flap");
    press(&d, "Right Right Right Right");
    assert_string_equal(fact("field"), "Gap, left out");
    press(&d, "Enter 5 Enter");
    draw_usual(&d);
    assert_shown(&d, "not done: cannot be worked out while the part has errors");
    press(&d, "Escape u");
    draw_usual(&d);
    assert_shown(&d, "  6.05    4.47 flap");
}

static void a_part_that_shape_rules_refuse_still_has_its_gap(void **state)
{
    (void)state;
    /* plates that no longer reach over the tip: judged it cannot be, but built it is */
    press(&d, "e Tab Tab Tab Tab Down Enter 100 Enter e BackTab BackTab BackTab BackTab");
    assert_false(d.s->valid);
    draw_usual(&d);
    assert_shown(&d, "  6.05    4.47 flap");
}

static void the_cursor_is_led_to_the_field_of_its_pointer(void **state)
{
    (void)state;
    char here[256];
    press(&d, "2 e");
    assert_true(pl_block_go_to(d.s, SLOT_BEFORE));
    assert_int_equal(d.s->element, 1);
    assert_true(pl_block_pointer_here(d.s, here, sizeof here));
    assert_string_equal(here, SLOT_BEFORE);
}

#define TRIAL(name) cmocka_unit_test_setup_teardown(name, fresh, release)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TRIAL(an_element_behind_another_has_the_columns_and_one_ahead_has_not),
        TRIAL(the_columns_fit_at_every_size),
        TRIAL(a_typed_gap_moves_the_leading_edge_and_is_shown),
        TRIAL(the_whole_span_is_in_the_sheet_of_the_element),
        TRIAL(what_cannot_be_is_told_and_stays_to_be_mended),
        TRIAL(help_says_that_no_file_has_it),
        TRIAL(facts_say_the_field_with_its_unit_and_share),
        TRIAL(without_a_sound_part_there_is_no_figure_and_the_columns_stay),
        TRIAL(a_part_that_shape_rules_refuse_still_has_its_gap),
        TRIAL(the_cursor_is_led_to_the_field_of_its_pointer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
