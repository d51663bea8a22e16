/* The ground under a case with a ride height: no element of the wing, nor its end plates, may touch it, whichever
 * element the case is of. */
#include "../part/parts.h"

#include <math.h>

#define HEIGHT "/load_cases/0/ride_height_mm" /* of a case of the main element */
#define FLAP_HEIGHT "/load_cases/1/ride_height_mm"
#define FLAP_ROOT "/elements/1/stations/0/z_le_mm"
#define FLAP_TIP "/elements/1/stations/1/z_le_mm"
#define FLAP_PLATES "/elements/1/end_plates"

static struct trial t;

static int fresh_whole(void **state)
{
    (void)state;
    trial_open(&t, WHOLE_PART);
    return 0;
}

static int release(void **state)
{
    (void)state;
    trial_close(&t);
    return 0;
}

static void put_mm(const char *pointer, double value_mm)
{
    char json[40];
    snprintf(json, sizeof json, "%.15g", value_mm);
    put(&t, pointer, json);
}

static void try_mm(const char *pointer, double value_mm)
{
    put_mm(pointer, value_mm);
    trial_solve(&t);
}

static double number_at(const char *pointer)
{
    return pl_node_number(t.doc, pl_document_find(t.doc, pointer));
}

/* How far the lowest point of a section lies below its leading edge, as placed: a plain sum over the core's outline. */
static double hangs_mm(size_t element, double y_m)
{
    struct pl_solve *solve = pl_solve_new();
    struct pl_problems problems = {0};
    struct pl_place_view view;
    double least_m = HUGE_VAL;
    trial_build(&t);
    assert_non_null(solve);
    assert_int_equal(pl_solve_place(solve, &t.part, element, y_m, &view, &problems), PL_OK);
    double c = cos(view.place.nose_up_rad), s = sin(view.place.nose_up_rad);
    for (size_t i = 0; i < view.n_core; i++)
        least_m = fmin(least_m, fmin(view.core_top_m[i] * c - view.core_x_m[i] * s,
                                     view.core_bottom_m[i] * c - view.core_bottom_x_m[i] * s));
    pl_solve_free(solve);
    pl_problems_free(&problems);
    return -1e3 * least_m;
}

/* The ground below the main element's root at z = 0, in the car's axes. */
static double ground_mm(void)
{
    return -hangs_mm(0, 0) - number_at(HEIGHT);
}

static void put_flap_plates(double below_mm)
{
    char json[160];
    snprintf(json, sizeof json,
             "{\"height_mm\": %.15g, \"length_mm\": 140, \"below_mm\": %.15g, \"x_le_mm\": 270,"
             " \"thickness_mm\": 4}",
             below_mm + 40, below_mm);
    put(&t, FLAP_PLATES, json);
}

static void a_second_element_in_the_ground_is_refused_by_name_and_place(void **state)
{
    (void)state;
    put_mm(FLAP_TIP, -110);
    try_mm(FLAP_ROOT, -110);
    assert_only_error(&t, HEIGHT, "flap touches the ground at y 0 mm", "72");
}

static void a_second_element_whose_tips_hang_into_the_ground_is_refused(void **state)
{
    (void)state;
    try_mm(FLAP_TIP, -100);
    assert_only_error(&t, HEIGHT, "flap touches the ground at y 600 mm", "72");
}

static void a_second_element_may_come_as_near_as_its_lowest_point_allows(void **state)
{
    (void)state;
    double nearest_mm = ground_mm() + hangs_mm(1, 0.6);
    assert_true(nearest_mm < -72 && nearest_mm > -110);
    try_mm(FLAP_TIP, nearest_mm + 0.001);
    assert_int_equal(t.status, PL_OK);
    try_mm(FLAP_TIP, nearest_mm - 0.001);
    assert_only_error(&t, HEIGHT, "flap touches the ground at y 600 mm", "72");
}

static void end_plates_of_a_second_element_in_the_ground_are_refused(void **state)
{
    (void)state;
    put_flap_plates(150);
    trial_solve(&t);
    assert_only_error(&t, HEIGHT, "the end plates touch the ground", "72");
}

static void end_plates_of_a_second_element_may_come_as_near_as_the_ground(void **state)
{
    (void)state;
    double most_mm = number_at(FLAP_TIP) - ground_mm();
    put_flap_plates(most_mm - 0.001);
    trial_solve(&t);
    assert_int_equal(t.status, PL_OK);
    put_flap_plates(most_mm + 0.001);
    trial_solve(&t);
    assert_only_error(&t, HEIGHT, "the end plates touch the ground", "72");
}

static void the_main_element_is_looked_at_under_a_case_of_the_second(void **state)
{
    (void)state;
    put(&t, "/elements/0/end_plates", NULL);
    put(&t, HEIGHT, NULL);
    trial_solve(&t);
    assert_int_equal(t.status, PL_OK);
    /* the flap's lowest point lies 40 mm less its own hang above the main one's leading edge */
    double most_mm = 40 - hangs_mm(1, 0) + hangs_mm(0, 0);
    try_mm(FLAP_HEIGHT, most_mm + 0.001);
    assert_int_equal(t.status, PL_OK);
    try_mm(FLAP_HEIGHT, most_mm - 0.001);
    assert_int_equal(t.problems.errors, 1);
    assert_int_equal(t.status, PL_BAD_INPUT);
    assert_int_equal(count_told(&t, PL_ERROR, FLAP_HEIGHT, "main touches the ground at y 0 mm"), 1);
}

static void every_element_in_the_ground_is_told(void **state)
{
    (void)state;
    put_mm(FLAP_TIP, -100);
    put(&t, "/elements/0/end_plates", NULL);
    try_mm("/elements/0/stations/1/z_le_mm", -100);
    assert_int_equal(t.problems.errors, 2);
    assert_int_equal(count_told(&t, PL_ERROR, HEIGHT, "main touches the ground at y 600 mm"), 1);
    assert_int_equal(count_told(&t, PL_ERROR, HEIGHT, "flap touches the ground at y 600 mm"), 1);
}

static void without_a_ride_height_there_is_no_ground(void **state)
{
    (void)state;
    put(&t, HEIGHT, NULL);
    try_mm(FLAP_TIP, -100);
    assert_int_equal(t.status, PL_OK);
}

int main(void)
{
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        WHOLE(a_second_element_in_the_ground_is_refused_by_name_and_place),
        WHOLE(a_second_element_whose_tips_hang_into_the_ground_is_refused),
        WHOLE(a_second_element_may_come_as_near_as_its_lowest_point_allows),
        WHOLE(end_plates_of_a_second_element_in_the_ground_are_refused),
        WHOLE(end_plates_of_a_second_element_may_come_as_near_as_the_ground),
        WHOLE(the_main_element_is_looked_at_under_a_case_of_the_second),
        WHOLE(every_element_in_the_ground_is_told),
        WHOLE(without_a_ride_height_there_is_no_ground),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
