/* Elements that stand on one another: circles are refused with the element, whatever stands are taken, and neither
 * takes long however many brackets there are.  An alarm ends the program when it does. */
#include "parts.h"

#include "plyloft/buffer.h"

#include <unistd.h>

enum { ELEMENTS = 60, MOUNTS = 16, MOST_SECONDS = 5 };

static struct trial t;

static int fresh_whole(void **state)
{
    (void)state;
    trial_open(&t, WHOLE_PART);
    alarm(MOST_SECONDS);
    return 0;
}

static int release(void **state)
{
    (void)state;
    alarm(0);
    trial_close(&t);
    return 0;
}

/* ---- a few elements, by name: the flap stands on the main one, copies of the flap on what a test says ---- */

static void add_element(const char *name, const char *on)
{
    char pointer[48], text[64];
    size_t n = pl_node_count(t.doc, pl_document_find(t.doc, "/elements"));
    put_copy(&t, "/elements/1", "/elements/-");
    snprintf(pointer, sizeof pointer, "/elements/%zu/name", n);
    snprintf(text, sizeof text, "\"%s\"", name);
    put(&t, pointer, text);
    snprintf(text, sizeof text, "\"%s\"", on);
    for (int i = 0; i < 2; i++) {
        snprintf(pointer, sizeof pointer, "/elements/%zu/mounts/%d/on", n, i);
        put(&t, pointer, text);
    }
}

/* Cases are left as they were, whose elements may no longer stand where `with` needs them. */
static void build_without_with(void)
{
    if (pl_document_find(t.doc, "/load_cases/0/with") != PL_NO_NODE)
        put(&t, "/load_cases/0/with", NULL);
    trial_build(&t);
}

static void two_that_stand_on_each_other_are_refused(void **state)
{
    (void)state;
    put(&t, "/elements/0/mounts/1/on", "\"flap\"");
    build_without_with();
    assert_only_error(&t, "/elements/0/mounts", "stands, over others, on itself", "");
    put(&t, "/elements/0/mounts/1/on", NULL);
    build_without_with();
    assert_int_equal(t.status, PL_OK);
}

static void a_circle_that_the_main_element_has_no_part_in_is_told_where_it_begins(void **state)
{
    (void)state;
    add_element("third", "flap");
    put(&t, "/elements/1/mounts/0/on", "\"third\"");
    build_without_with();
    assert_only_error(&t, "/elements/1/mounts", "stands, over others, on itself", "");
}

static void one_mount_on_itself_is_enough(void **state)
{
    (void)state;
    add_element("third", "flap");
    put(&t, "/elements/2/mounts/1/on", "\"third\"");
    build_without_with();
    assert_only_error(&t, "/elements/2/mounts", "stands, over others, on itself", "");
}

static void a_circle_of_five_is_refused_and_taken_once_it_is_opened(void **state)
{
    (void)state;
    static const char *const names[] = {"third", "fourth", "fifth", "sixth"};
    const char *below = "flap";
    for (int i = 0; i < 4; i++) {
        add_element(names[i], below);
        below = names[i];
    }
    put(&t, "/elements/1/mounts/1/on", "\"sixth\"");
    build_without_with();
    assert_only_error(&t, "/elements/1/mounts", "stands, over others, on itself", "");
    put(&t, "/elements/1/mounts/1/on", "\"main\"");
    build_without_with();
    assert_int_equal(t.status, PL_OK);
}

/* Two ways up from one element to another are no circle. */
static void standing_on_two_that_stand_on_one_is_taken(void **state)
{
    (void)state;
    add_element("left post", "main");
    add_element("right post", "main");
    put(&t, "/elements/1/mounts/0/on", "\"left post\"");
    put(&t, "/elements/1/mounts/1/on", "\"right post\"");
    build_without_with();
    assert_int_equal(t.status, PL_OK);
}

/* ---- many elements with many mounts ---- */

/* A list of elements, each like the flap with MOUNTS mounts on the one that carrier names for it. */
static void put_stack(int carrier(int element))
{
    struct pl_buffer text = {0};
    char *flap = pl_document_copy(t.doc, "/elements/1/stations");
    assert_non_null(flap);
    pl_buffer_printf(&text, "[");
    for (int e = 0; e < ELEMENTS; e++) {
        pl_buffer_printf(
            &text,
            "%s{\"name\": \"e%d\", \"incidence_deg\": 0, \"stations\": %s, \"core\": \"foam\","
            " \"resin\": \"slow epoxy\", \"layup\": [{\"name\": \"skin\", \"fabric\": \"plain\", \"angle_deg\": 45,"
            " \"plies\": 2, \"side\": \"both\", \"chord_from\": 0, \"chord_to\": 1}], \"mounts\": [",
            e ? ", " : "", e, flap);
        for (int m = 0; m < MOUNTS; m++) {
            pl_buffer_printf(&text, "%s{\"name\": \"m%d\", \"y_mm\": %d, \"hold\": \"pinned\"", m ? ", " : "", m,
                             70 * m - 525);
            if (carrier(e) >= 0)
                pl_buffer_printf(&text, ", \"on\": \"e%d\", \"at\": 0.9", carrier(e));
            pl_buffer_printf(&text, "}");
        }
        pl_buffer_printf(&text, "]}");
    }
    pl_buffer_printf(&text, "]");
    assert_false(text.failed);
    put(&t, "/elements", text.text);
    put(&t, "/load_cases",
        "[{\"name\": \"push\", \"kind\": \"point\", \"element\": \"e0\", \"factor\": 1.5, \"y_mm\": 0,"
        " \"acts_at\": 0.5, \"direction\": \"up\", \"force_n\": 10}]");
    put(&t, "/limits/tip_deflection_mm", "{}");
    pl_buffer_free(&text);
    free(flap);
    trial_build(&t);
}

static int on_the_one_before(int e)
{
    return e - 1;
}
static int on_the_one_behind(int e)
{
    return e + 1 < ELEMENTS ? e + 1 : -1;
}
static int round_and_round(int e)
{
    return e ? e - 1 : ELEMENTS - 1;
}
static int round_from_the_seventh(int e)
{
    return e == 7 ? ELEMENTS - 1 : e - 1;
}
static int the_top_on_itself(int e)
{
    return e == ELEMENTS - 1 ? e : e - 1;
}

static void a_long_chain_is_taken(void **state)
{
    (void)state;
    put_stack(on_the_one_before);
    assert_int_equal(t.problems.errors, 0);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(t.part.n_elements, ELEMENTS);
    assert_int_equal(t.part.elements[ELEMENTS - 1].mounts[MOUNTS - 1].on, ELEMENTS - 2);
}

static void a_long_chain_is_taken_in_whatever_order_it_is_listed(void **state)
{
    (void)state;
    put_stack(on_the_one_behind);
    assert_int_equal(t.problems.errors, 0);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(t.part.elements[0].mounts[0].on, 1);
}

static void a_long_circle_is_refused(void **state)
{
    (void)state;
    put_stack(round_and_round);
    assert_only_error(&t, "/elements/0/mounts", "stands, over others, on itself", "");
}

static void a_long_circle_above_others_is_told_where_it_begins(void **state)
{
    (void)state;
    put_stack(round_from_the_seventh);
    assert_only_error(&t, "/elements/7/mounts", "stands, over others, on itself", "");
}

static void the_last_of_a_long_chain_on_itself_is_told(void **state)
{
    (void)state;
    put_stack(the_top_on_itself);
    assert_only_error(&t, "/elements/59/mounts", "stands, over others, on itself", "");
}

int main(void)
{
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        WHOLE(two_that_stand_on_each_other_are_refused),
        WHOLE(a_circle_that_the_main_element_has_no_part_in_is_told_where_it_begins),
        WHOLE(one_mount_on_itself_is_enough),
        WHOLE(a_circle_of_five_is_refused_and_taken_once_it_is_opened),
        WHOLE(standing_on_two_that_stand_on_one_is_taken),
        WHOLE(a_long_chain_is_taken),
        WHOLE(a_long_chain_is_taken_in_whatever_order_it_is_listed),
        WHOLE(a_long_circle_is_refused),
        WHOLE(a_long_circle_above_others_is_told_where_it_begins),
        WHOLE(the_last_of_a_long_chain_on_itself_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
