/* The section at one place of a wing in the air: its own profile, Reynolds number and incidence, worked out in slices. */
#include "support.h"

#include "part/parts.h"

#include "plyloft/section_air.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct trial t;
static struct pl_solve *solve;
static struct pl_section_air *air;

static int set_up(void **state)
{
    (void)state;
    free(trial_open_sample(&t));
    trial_build(&t);
    solve = pl_solve_new();
    assert_non_null(solve);
    air = pl_section_air_new();
    assert_non_null(air);
    return 0;
}

static int take_down(void **state)
{
    (void)state;
    pl_section_air_free(air);
    pl_solve_free(solve);
    trial_close(&t);
    return 0;
}

static bool aim(double y_m)
{
    struct pl_place_view place;
    assert_int_equal(pl_solve_place(solve, &t.part, 0, y_m, &place, &t.problems), PL_OK);
    return pl_section_air_aim(air, &t.part, 0, &place);
}

static struct pl_section_air_view work_out(double y_m)
{
    int slices = 0;
    aim(y_m);
    while (pl_section_air_step(air))
        assert_true(++slices < 100);
    return pl_section_air_view(air);
}

static void the_sample_s_root_is_a_6412_at_its_own_speed_and_incidence(void **state)
{
    (void)state;
    struct pl_section_air_view v = work_out(0);
    struct pl_polar *polar;
    struct pl_polar_row row;
    struct pl_profile profile = {.name = "", .naca = "6412"};
    /* 1.19 kg/m3 x 205 km/h x 0.275 m / 1.81e-5 Pa s */
    assert_close(v.reynolds, 1.19 * 205 / 3.6 * 0.275 / 1.81e-5, 1e-9);
    assert_close(v.own_alpha_deg, 2, 1e-9);  /* inverted, so nose down on the car */
    assert_false(v.usual_speed);
    assert_int_equal(v.n_rows, PL_AIR_ROWS);
    assert_non_null(v.own);
    assert_int_equal(pl_polar_start(&polar, &profile, v.reynolds, (double)NAN, PL_AIR_PANELS, &t.problems), PL_OK);
    assert_int_equal(pl_polar_row(polar, 2, &row, &t.problems), PL_OK);
    assert_close(v.own->cl_potential, row.cl_potential, 5e-3);
    assert_close(v.own->cm_potential, row.cm_potential, 1e-2);
    assert_close(v.own->cl, row.cl, 3e-2);
    pl_polar_free(polar);
}

static void another_place_is_worked_out_anew_and_the_same_one_is_not(void **state)
{
    (void)state;
    struct pl_section_air_view root = work_out(0);
    double lift = root.own->cl_potential;
    assert_false(aim(0));
    assert_true(aim(0.6));
    assert_null(pl_section_air_view(air).own);  /* nothing of the root is told of the tip */
    struct pl_section_air_view tip = work_out(0.6);
    /* Twisted by -0.915 degrees there. */
    assert_close(tip.own_alpha_deg, 2 - (0.6 - 0.17) / 0.47, 1e-6);
    assert_true(tip.own->cl_potential < lift);
    assert_true(tip.reynolds < root.reynolds);
    assert_true(aim(0));
}

static void pressures_go_with_the_section_s_own_incidence(void **state)
{
    (void)state;
    struct pl_section_air_view v = work_out(0);
    double lift = 0;
    assert_int_equal(v.n_pressures, PL_AIR_PANELS);
    /* Pressure summed along the chord comes to the lift by cos alpha, near enough. */
    for (size_t i = 1; i < v.n_pressures; i++)
        lift += 0.5 * (v.pressures[i].potential + v.pressures[i - 1].potential) * (v.pressures[i].x - v.pressures[i - 1].x);
    assert_close(lift, v.own->cl_potential, 0.02);
    for (size_t i = 0; i < v.n_pressures; i++)
        assert_true(v.pressures[i].potential <= 1 + 1e-9 && v.pressures[i].x >= -1e-3 && v.pressures[i].x <= 1.001);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(the_sample_s_root_is_a_6412_at_its_own_speed_and_incidence),
        TRIAL(another_place_is_worked_out_anew_and_the_same_one_is_not),
        TRIAL(pressures_go_with_the_section_s_own_incidence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
