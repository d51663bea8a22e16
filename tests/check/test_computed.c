/* Loads that the flow says: forces and moments of the beam are those of the strips, and old ones are told as old. */
#include "../part/trial.h"

#include <math.h>
#include <string.h>

#define DOWNFORCE "/load_cases/0"

static struct pl_solve *solve;

static const struct pl_case_result *run(void)
{
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    solve = pl_solve_new();
    assert_non_null(solve);
    t.status = pl_solve_run(solve, &t.part, &t.problems);
    if (t.status != PL_OK)
        print_problems(&t);
    assert_int_equal(t.status, PL_OK);
    return &pl_solve_verdict(solve)->cases[0];
}

static void end_run(void)
{
    pl_solve_free(solve);
    solve = NULL;
}

/* The strips of the case's own element in the flow, right half: force down, its moments about y = 0 and x = 0. */
struct sums { double force_n, flap_nm, roll_nm; };

static struct sums sum_strips(void)
{
    const struct pl_load_case *c = &t.part.load_cases[0];
    struct pl_wing_flow *flow = pl_wing_flow_new();
    struct pl_problems problems = {0};
    struct sums s = {0};
    size_t n;
    assert_int_equal(pl_wing_flow_aim(flow, &t.part, c, &problems), PL_OK);
    while (pl_wing_flow_step(flow))
        ;
    assert_int_equal(pl_wing_flow_status(flow), PL_OK);
    const struct pl_wing_strip *strips = pl_wing_flow_strips(flow, &n);
    double pressure_pa = 0.5 * c->air_density_kg_m3 * c->speed_m_s * c->speed_m_s;
    for (size_t i = 0; i < n; i++) {
        const struct pl_wing_strip *p = &strips[i];
        double force_n = pressure_pa * p->chord_m * p->width_m * p->cl;
        if (p->element != c->element)
            continue;
        s.force_n += force_n;
        s.flap_nm += force_n * p->y_m;
        s.roll_nm += force_n * p->x_le_m + pressure_pa * p->chord_m * p->chord_m * p->width_m * p->moment;
    }
    pl_wing_flow_free(flow);
    return s;
}

/* One clamp in the middle: the forces beside it are those of a half. */
static void clamp_in_the_middle(void)
{
    put(&t, "/elements/0/mounts/1", NULL);
    put(&t, "/elements/0/mounts/0/y_mm", "0");
}

static const struct pl_check_row *beside_the_middle(const struct pl_case_result *c)
{
    size_t i = 0;
    while (c->rows[i].y_m < 1e-9)
        i++;
    return &c->rows[i];
}

static void assert_balance(double factor, double allowance)
{
    const struct pl_case_result *c = run();
    struct sums s = sum_strips();
    const struct pl_check_row *row = beside_the_middle(c), *middle = row - 1;
    double by = factor * allowance;
    struct pl_place_view place;
    assert_int_equal(pl_solve_place(solve, &t.part, 0, 0, &place, &t.problems), PL_OK);
    assert_close(c->total_force_n, -2 * by * s.force_n, 1e-6);
    assert_close(fabs(middle->shear_n), by * s.force_n, 1e-6);
    /* Lines between the strips' middles in place of steps: at most 0.5 % (contract's bound for the agreement). */
    assert_close(middle->moment_nm, -by * s.flap_nm, 5e-3);
    double centre_x_m = place.section.x_shear_centre_m;
    double x_m, z_m;
    pl_section_to_car(&place.section, centre_x_m, place.section.z_shear_centre_m, &x_m, &z_m);
    assert_close(fabs(middle->torque_nm), by * fabs(s.roll_nm - x_m * s.force_n), 1e-2);
    assert_false(c->air_old);
    end_run();
}

static void forces_and_moments_sum_to_the_flow_s_own(void **state)
{
    (void)state;
    clamp_in_the_middle();
    put(&t, DOWNFORCE "/distribution", "\"computed\"");
    put(&t, DOWNFORCE "/ride_height_mm", "150");
    assert_balance(2, 1);
    put(&t, DOWNFORCE "/allowance", "1.3");
    put(&t, "/elements/0/stations/2/x_le_mm", "120");
    assert_balance(2, 1.3);
    put(&t, "/elements/0/end_plates", "{\"height_mm\": 200, \"length_mm\": 320, \"below_mm\": 70, \"thickness_mm\": 3, \"x_le_mm\": 100}");
    put(&t, DOWNFORCE "/factor", "1.5");
    assert_balance(1.5, 1.3);
}

static void coefficient_and_acts_at_are_not_read(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/distribution", "\"computed\"");
    double first = run()->total_force_n;
    end_run();
    put(&t, DOWNFORCE "/coefficient", "0.3");
    put(&t, DOWNFORCE "/acts_at", "0.9");
    assert_close(run()->total_force_n, first, 1e-12);
    end_run();
}

static void an_upright_wing_lifts(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/distribution", "\"computed\"");
    put(&t, "/elements/0/inverted", "false");
    assert_true(run()->total_force_n > 100);
    end_run();
}

static void a_wing_without_lift_is_not_scaled_to_nonsense(void **state)
{
    (void)state;
    put(&t, DOWNFORCE "/distribution", "\"computed\"");
    put(&t, "/profiles/0/naca", "\"0012\"");
    put(&t, "/elements/0/incidence_deg", "0");
    put(&t, "/elements/0/stations/2/twist_deg", "0");
    put(&t, DOWNFORCE "/ride_height_mm", NULL);
    const struct pl_case_result *c = run();
    assert_true(fabs(c->total_force_n) < 1e-6);
    assert_true(isfinite(c->least.reserve) && c->least.reserve > 100);
    end_run();
}

/* ---- a store that has an earlier shape ---- */

static void an_old_flow_will_do_when_it_may_and_is_told(void **state)
{
    (void)state;
    struct pl_wing_air *air = pl_wing_air_new();
    put(&t, DOWNFORCE "/distribution", "\"computed\"");
    trial_build(&t);
    solve = pl_solve_new();
    pl_solve_use_air(solve, air, true);
    assert_int_equal(pl_solve_run(solve, &t.part, &t.problems), PL_OK);  /* none yet: worked out at once */
    assert_false(pl_solve_verdict(solve)->cases[0].air_old);
    double before = pl_solve_verdict(solve)->cases[0].total_force_n;
    put(&t, "/elements/0/incidence_deg", "4");
    trial_build(&t);
    assert_int_equal(pl_solve_run(solve, &t.part, &t.problems), PL_OK);
    assert_true(pl_solve_verdict(solve)->cases[0].air_old);
    assert_close(pl_solve_verdict(solve)->cases[0].total_force_n, before, 1e-9);
    while (pl_wing_air_step(air, &t.part, &t.part.load_cases[0]))
        ;
    assert_int_equal(pl_solve_run(solve, &t.part, &t.problems), PL_OK);
    assert_false(pl_solve_verdict(solve)->cases[0].air_old);
    assert_true(pl_solve_verdict(solve)->cases[0].total_force_n < 1.1 * before);
    put(&t, "/elements/0/incidence_deg", "2");  /* back: it is still there */
    trial_build(&t);
    assert_int_equal(pl_solve_run(solve, &t.part, &t.problems), PL_OK);
    assert_false(pl_solve_verdict(solve)->cases[0].air_old);
    assert_close(pl_solve_verdict(solve)->cases[0].total_force_n, before, 1e-9);
    end_run();
    pl_wing_air_free(air);
}

static void speed_and_cloth_need_no_new_flow(void **state)
{
    (void)state;
    uint64_t key;
    trial_build(&t);
    key = pl_wing_flow_key(&t.part, &t.part.load_cases[0]);
    put(&t, DOWNFORCE "/speed_kmh", "90");
    put(&t, "/elements/0/layup/2/plies", "4");
    trial_build(&t);
    assert_true(key == pl_wing_flow_key(&t.part, &t.part.load_cases[0]));
    put(&t, DOWNFORCE "/ride_height_mm", "71");
    trial_build(&t);
    assert_false(key == pl_wing_flow_key(&t.part, &t.part.load_cases[0]));
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(forces_and_moments_sum_to_the_flow_s_own),
        TRIAL(coefficient_and_acts_at_are_not_read),
        TRIAL(an_upright_wing_lifts),
        TRIAL(a_wing_without_lift_is_not_scaled_to_nonsense),
        TRIAL(an_old_flow_will_do_when_it_may_and_is_told),
        TRIAL(speed_and_cloth_need_no_new_flow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
