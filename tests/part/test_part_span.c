/* Half the span changed: what ends or stands at the tip goes along, all else stays, in one step of undo. */
#include "parts.h"

#include "plyloft/part_edit.h"

static struct trial t;
static char *original;

static const char *const half_span = "/elements/0/stations/2/y_mm";

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

static double at(const char *pointer)
{
    pl_node node = pl_document_find(t.doc, pointer);
    if (node == PL_NO_NODE || pl_node_kind(t.doc, node) != PL_NODE_NUMBER)
        fail_msg("%s is no number", pointer);
    return pl_node_number(t.doc, node);
}

static bool there(const char *pointer)
{
    return pl_document_find(t.doc, pointer) != PL_NO_NODE;
}

static void type(const char *pointer, const char *typed)
{
    pl_problems_clear(&t.problems);
    assert_int_equal(pl_part_type(t.doc, pointer, typed, &t.problems), PL_OK);
}

/* The flap of the part with every field, on the tips of its main element, as a second element here. */
static void put_flap(void)
{
    struct trial whole;
    trial_open(&whole, WHOLE_PART);
    char *flap = pl_document_copy(whole.doc, "/elements/1"), *profile = pl_document_copy(whole.doc, "/profiles/1");
    trial_close(&whole);
    do_edit(t.doc, INSERT, "/elements/-", flap, 0);
    do_edit(t.doc, INSERT, "/profiles/-", profile, 0);
    put(&t, "/elements/1/mounts/0/y_mm", "-640");
    put(&t, "/elements/1/mounts/1/y_mm", "640");
    put(&t, "/elements/1/stations/1/y_mm", "700");
    put(&t, "/elements/1/core", "\"extruded polystyrene 33\"");
    put(&t, "/elements/1/resin", "\"slow laminating epoxy\"");
    put(&t, "/elements/1/layup/0/fabric", "\"glass plain 163\"");
    free(flap);
    free(profile);
}

static void a_wider_span_is_one_step_that_undo_takes_back_to_the_byte(void **state)
{
    (void)state;
    type(half_span, "660");
    assert_close(at(half_span), 660, 0);
    assert_int_equal(pl_document_steps(t.doc), 1);
    assert_string_equal(pl_document_step_name(t.doc, 0), "main: half span 640 \u2192 660");
    trial_build(&t);
    assert_taken_silently(&t);
    assert_close(pl_element_semispan_m(&t.part.elements[0]), 0.66, 1e-15);
    assert_true(pl_document_undo(t.doc));
    assert_bytes(t.doc, original);
    assert_false(pl_document_changed(t.doc));
    assert_true(pl_document_redo(t.doc));
    assert_close(at(half_span), 660, 0);
}

static void what_stands_at_the_tip_goes_along(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/0/half_length_mm", "640");
    put(&t, "/elements/0/mounts/0/y_mm", "-640");
    put(&t, "/elements/0/mounts/1/y_mm", "640.0");
    put(&t, "/load_cases/2/y_mm", "640");
    put(&t, "/load_cases/3/y_mm", "-640");
    type(half_span, "655,5");
    assert_close(at("/elements/0/layup/0/half_length_mm"), 655.5, 0);
    assert_close(at("/elements/0/mounts/0/y_mm"), -655.5, 0);
    assert_close(at("/elements/0/mounts/1/y_mm"), 655.5, 0);
    assert_close(at("/load_cases/2/y_mm"), 655.5, 0);
    assert_close(at("/load_cases/3/y_mm"), -655.5, 0);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(pl_document_steps(t.doc), 6);
}

static void what_stands_elsewhere_stays(void **state)
{
    (void)state;
    type(half_span, "700");
    assert_close(at("/elements/0/stations/0/y_mm"), 0, 0);
    assert_close(at("/elements/0/stations/1/y_mm"), 170, 0);
    assert_close(at("/elements/0/layup/1/half_length_mm"), 240, 0);
    assert_close(at("/elements/0/layup/1/from_mm"), 100, 0);
    assert_close(at("/elements/0/layup/2/drop_mm"), 70, 0);
    assert_close(at("/elements/0/mounts/0/y_mm"), -170, 0);
    assert_close(at("/load_cases/3/y_mm"), -600, 0);
    assert_close(at("/load_cases/1/pads/1/y_mm"), 230, 0);
    assert_false(there("/elements/0/layup/0/half_length_mm"));
    assert_false(there("/load_cases/2/y_mm"));
}

static void what_belongs_to_another_element_stays(void **state)
{
    (void)state;
    put_flap();
    put(&t, "/elements/1/stations/1/y_mm", "640");
    put(&t, "/elements/1/layup/0/half_length_mm", "640");
    put(&t, "/load_cases/3/element", "\"flap\"");
    put(&t, "/load_cases/3/y_mm", "640");
    type(half_span, "600");
    assert_close(at("/elements/1/stations/1/y_mm"), 640, 0);
    assert_close(at("/elements/1/layup/0/half_length_mm"), 640, 0);
    assert_close(at("/load_cases/3/y_mm"), 640, 0);
}

static void mounts_of_another_element_on_the_tips_go_along(void **state)
{
    (void)state;
    put_flap();
    size_t length;
    char *before = strdup(pl_document_bytes(t.doc, &length));
    type(half_span, "660");
    assert_close(at("/elements/1/mounts/0/y_mm"), -660, 0);
    assert_close(at("/elements/1/mounts/1/y_mm"), 660, 0);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_true(pl_document_undo(t.doc));
    assert_bytes(t.doc, before);
    free(before);
}

static void mounts_of_another_element_elsewhere_stay(void **state)
{
    (void)state;
    put_flap();
    put(&t, "/elements/1/mounts/0/y_mm", "-500");
    put(&t, "/elements/1/mounts/1/on", NULL);  /* on the car, though below the tip */
    type(half_span, "660");
    assert_close(at("/elements/1/mounts/0/y_mm"), -500, 0);
    assert_close(at("/elements/1/mounts/1/y_mm"), 640, 0);
}

static void the_upper_elements_own_span_moves_its_own_tip_alone(void **state)
{
    (void)state;
    put_flap();
    put(&t, "/elements/1/stations/1/y_mm", "640");
    type("/elements/1/stations/1/y_mm", "620");
    assert_close(at("/elements/1/stations/1/y_mm"), 620, 0);
    assert_close(at("/elements/1/mounts/1/y_mm"), 620, 0);
    assert_close(at(half_span), 640, 0);
}

static void steps_of_the_span_go_along_too_and_are_one_step_of_undo(void **state)
{
    (void)state;
    put(&t, "/load_cases/3/y_mm", "640");
    size_t steps = pl_document_steps(t.doc);
    for (int i = 0; i < 3; i++)
        assert_int_equal(pl_part_step(t.doc, half_span, 1, &t.problems), PL_OK);
    assert_close(at(half_span), 670, 0);
    assert_close(at("/load_cases/3/y_mm"), 670, 0);
    assert_int_equal(pl_document_steps(t.doc), steps + 1);
    assert_true(pl_document_undo(t.doc));
    assert_close(at("/load_cases/3/y_mm"), 640, 0);
}

static void only_the_last_station_is_the_half_span(void **state)
{
    (void)state;
    size_t element = 7;
    assert_true(pl_part_is_half_span(t.doc, half_span, &element));
    assert_int_equal(element, 0);
    assert_false(pl_part_is_half_span(t.doc, "/elements/0/stations/1/y_mm", &element));
    assert_false(pl_part_is_half_span(t.doc, "/elements/0/stations/2/chord_mm", &element));
    assert_false(pl_part_is_half_span(t.doc, "/elements/0/mounts/1/y_mm", &element));
    assert_false(pl_part_is_half_span(t.doc, "/load_cases/2/y_mm", &element));
    assert_false(pl_part_is_half_span(t.doc, "/elements/5/stations/0/y_mm", &element));
}

static void another_station_moves_alone(void **state)
{
    (void)state;
    type("/elements/0/stations/1/y_mm", "180");
    assert_close(at("/elements/0/stations/1/y_mm"), 180, 0);
    assert_close(at("/elements/0/mounts/1/y_mm"), 170, 0);
    assert_close(at(half_span), 640, 0);
}

static void a_span_that_makes_no_wing_is_kept_and_undo_brings_the_old_one(void **state)
{
    (void)state;
    type(half_span, "120");
    trial_build(&t);
    assert_int_equal(t.status, PL_BAD_INPUT);
    assert_error(&t, half_span, "larger than that of the station before", "120");
    assert_true(pl_document_undo(t.doc));
    assert_bytes(t.doc, original);
}

static void the_first_station_never_goes_along(void **state)
{
    (void)state;
    put(&t, "/load_cases/3/y_mm", "0");
    type(half_span, "0");
    type(half_span, "640");
    assert_close(at("/elements/0/stations/0/y_mm"), 0, 0);
    assert_close(at("/load_cases/3/y_mm"), 0, 0);
    assert_close(at(half_span), 640, 0);
}

static void there_and_back_over_a_mount_is_no_change(void **state)
{
    (void)state;
    type(half_span, "170");  /* where the brackets and a station stand */
    type(half_span, "640");
    assert_close(at("/elements/0/stations/1/y_mm"), 170, 0);
    assert_close(at("/elements/0/mounts/0/y_mm"), -170, 0);
    assert_close(at("/elements/0/mounts/1/y_mm"), 170, 0);
    assert_close(at(half_span), 640, 0);
}

static void a_half_span_that_is_no_number_is_mended_by_typing_one(void **state)
{
    (void)state;
    put(&t, half_span, "\"640\"");
    type(half_span, "650");
    assert_close(at(half_span), 650, 0);
    assert_close(at("/elements/0/stations/0/y_mm"), 0, 0);
}

static void a_half_span_left_out_of_the_file_can_be_typed(void **state)
{
    (void)state;
    put(&t, half_span, NULL);
    type(half_span, "650");
    assert_close(at(half_span), 650, 0);
    assert_close(at("/elements/0/stations/0/y_mm"), 0, 0);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(a_wider_span_is_one_step_that_undo_takes_back_to_the_byte),
        TRIAL(what_stands_at_the_tip_goes_along),
        TRIAL(what_stands_elsewhere_stays),
        TRIAL(what_belongs_to_another_element_stays),
        TRIAL(mounts_of_another_element_on_the_tips_go_along),
        TRIAL(mounts_of_another_element_elsewhere_stay),
        TRIAL(the_upper_elements_own_span_moves_its_own_tip_alone),
        TRIAL(steps_of_the_span_go_along_too_and_are_one_step_of_undo),
        TRIAL(only_the_last_station_is_the_half_span),
        TRIAL(another_station_moves_alone),
        TRIAL(a_span_that_makes_no_wing_is_kept_and_undo_brings_the_old_one),
        TRIAL(the_first_station_never_goes_along),
        TRIAL(there_and_back_over_a_mount_is_no_change),
        TRIAL(a_half_span_that_is_no_number_is_mended_by_typing_one),
        TRIAL(a_half_span_left_out_of_the_file_can_be_typed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
