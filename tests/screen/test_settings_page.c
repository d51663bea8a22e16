/* The wing as set otherwise, on the page Loads: worked out between keys, told old, and the car that gives it axles. */
#include "pages.h"

#include <math.h>

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    press(&d, "3 BackTab BackTab");
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

/* Until so many rows are there and are of the shape as it is: all of them take half a second. */
static void rest_until(size_t rows)
{
    struct pl_settings_view v;
    do
        v = pl_settings_view(d.s);
    while ((v.n < rows || v.old) && pl_session_idle(d.s));
}

static void a_row_a_setting_and_the_own_one_among_them(void **state)
{
    (void)state;
    assert_told(&d, "over ride height: top speed");
    assert_told(&d, "being worked out");
    desk_rest(&d);
    struct pl_settings_view v = pl_settings_view(d.s);
    assert_int_equal(v.n, v.wanted);
    assert_false(v.old);
    size_t own = 0;
    for (size_t i = 0; i < v.n; i++) {
        own += v.rows[i].at.ride_height_m == 0.070 && lround(v.rows[i].force_n) == 525;  /* as the block before says */
        if (i)
            assert_true(v.rows[i].thin_force_n < v.rows[i - 1].thin_force_n);  /* higher up the ground helps less */
    }
    assert_int_equal(own, 1);
    assert_told(&d, "525    17.2   30.5");
    for (size_t i = 0; i < SIZES; i++)
        assert_non_null(strstr(draw(&d, sizes[i].columns, sizes[i].rows, true), "over ride height"));
}

static void keys_change_what_varies(void **state)
{
    (void)state;
    press(&d, "Right");
    rest_until(1);
    assert_told(&d, "over incidence: top speed");
    assert_told(&d, "setting sheet");
    press(&d, "Left Left");
    rest_until(1);
    assert_told(&d, "over speed: top speed");
    press(&d, "Left");
    assert_told(&d, "over speed: top speed");  /* the first */
}

/* On a small screen the sheet begins with the row in hand, so that all of it can be read. */
static void the_sheet_of_every_row_is_reached_on_the_smallest_screen(void **state)
{
    (void)state;
    press(&d, "Right");
    desk_rest(&d);
    size_t n = pl_settings_view(d.s).n;
    for (size_t i = 0; i < n; i++) {
        struct pl_bracket_setting rows[8];
        struct pl_setting at = pl_settings_view(d.s).rows[i].at;
        char words[32];
        assert_int_equal(pl_setting_sheet(pl_session_part(d.s), pl_wing_job_case(d.s), &at, rows), PL_OK);
        pl_number_fixed(words, sizeof words, 1e3 * rows[0].tail_m, 1);
        if (!strstr(draw(&d, 40, 20, true), words))
            fail_msg("%s of row %zu is not on\n%s", words, i, draw(&d, 40, 20, true));
        press(&d, "Down");
    }
}

static void figures_of_an_earlier_shape_are_told_old(void **state)
{
    (void)state;
    rest_until(4);
    press(&d, "1 Tab Tab Tab Home Down Down + 3");
    assert_told(&d, "over ride height: top speed, old");
    rest_until(4);
    const char *page = draw_usual(&d);
    assert_null(strstr(page, ", old"));
    assert_null(strstr(page, "525    17.2   30.5"));
    press(&d, "u");
    rest_until(4);
    assert_told(&d, "525    17.2   30.5");
}

/* Edits at every stage of the work: it must never read a part that is gone (the sanitizers look on). */
static void an_edit_in_the_middle_of_it_starts_it_anew(void **state)
{
    (void)state;
    for (int i = 0; i < 12; i++) {
        for (int k = 0; k < 1 + i * 9; k++)
            pl_session_idle(d.s);
        press(&d, i % 2 ? "u" : "1 Tab Tab Tab Home Down Down + 3");
    }
    rest_until(4);
    assert_told(&d, "525    17.2   30.5");
}

static void a_car_gives_loads_of_its_axles(void **state)
{
    (void)state;
    press(&d, "Tab");
    assert_told(&d, "none; a adds");
    press(&d, "a");
    assert_told(&d, "Wheelbase");
    press(&d, "BackTab");
    rest_until(1);
    const struct pl_driver_row *row = pl_settings_view(d.s).rows;
    assert_close(row->front_n + row->rear_n, row->force_n, 1e-12);
    assert_non_null(strstr(draw(&d, 80, 24, true), "front N"));
    press(&d, "Tab Delete");
    assert_told(&d, "taken away: car");
    press(&d, "BackTab");
    assert_null(strstr(draw(&d, 80, 24, true), "front N"));
    rest_until(1);
    assert_true(isnan(pl_settings_view(d.s).rows->front_n));
}

static void in_free_air_there_are_no_heights(void **state)
{
    (void)state;
    desk_put(&d, "/load_cases/0/ride_height_mm", NULL);
    rest_until(1);
    assert_told(&d, "free air");
    press(&d, "Right");
    rest_until(1);
    assert_told(&d, "over the root's lowest point");
}

int main(void)
{
#define DESK(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        DESK(a_row_a_setting_and_the_own_one_among_them), DESK(keys_change_what_varies), DESK(the_sheet_of_every_row_is_reached_on_the_smallest_screen), DESK(figures_of_an_earlier_shape_are_told_old),
        DESK(an_edit_in_the_middle_of_it_starts_it_anew), DESK(a_car_gives_loads_of_its_axles), DESK(in_free_air_there_are_no_heights),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
