/* The wing's own mass in a bump: the handbook's worked moment, balance with what the wing weighs, and signs. */
#include "judged.h"

#include "plyloft/beam.h"

#include <math.h>
#include <string.h>

#define BUMP(more) "[{\"name\": \"bump\", \"kind\": \"inertia\", \"element\": \"main\", \"factor\": 1.5, \"acts_at\": 0.4, \"n_g\": 6, " more "}]"

/* F4.9: n 6, m' 2.1875 kg/m, L 0.47, tip 0.25 kg give 21.13 N m. */
static void a_bump_bends_as_f4_9_says(void **state)
{
    (void)state;
    enum { CUTS = 48 };
    double y_m[CUTS], n_m[CUTS], x_m[CUTS] = {0}, zero[5][CUTS] = {{0}};
    struct pl_beam beam = {.count = CUTS, .y_m = y_m};
    struct pl_forces f = {zero[0], zero[1], zero[2], zero[3], zero[4]};
    for (int i = 0; i < CUTS; i++) {
        y_m[i] = 0.47 * i / (CUTS - 1);
        n_m[i] = -6 * 9.80665 * 2.1875;
    }
    pl_load_up(&beam, n_m, x_m, &f);
    assert_close(-f.flap_nm[0] + 6 * 9.80665 * 0.25 * 0.47, 21.13, 1e-3);
    assert_close(f.shear_z_n[0], -6 * 9.80665 * 2.1875 * 0.47, 1e-9);
}

/* Load linear along the span, at a line that sweeps: shear, moment and roll in closed form. */
static void lengths_are_summed_exactly_where_they_are_linear(void **state)
{
    (void)state;
    enum { CUTS = 5 };
    double y_m[CUTS] = {0, 0.1, 0.1, 0.4, 1}, n_m[CUTS], x_m[CUTS], zero[5][CUTS] = {{0}};
    struct pl_beam beam = {.count = CUTS, .y_m = y_m};
    struct pl_forces f = {zero[0], zero[1], zero[2], zero[3], zero[4]};
    for (int i = 0; i < CUTS; i++) {
        n_m[i] = 3 + 2 * y_m[i];
        x_m[i] = 0.7;
    }
    pl_load_up(&beam, n_m, x_m, &f);
    assert_close(f.shear_z_n[0], 4, 1e-12);
    assert_close(f.flap_nm[0], 1.5 + 2.0 / 3, 1e-12);
    assert_close(f.roll_nm[0], -0.7 * 4, 1e-12);
    assert_true(f.shear_z_n[CUTS - 1] == 0 && f.flap_nm[CUTS - 1] == 0);
}

static void the_total_is_what_it_weighs_times_n_and_the_tips(void **state)
{
    (void)state;
    put(&t, "/limits/tip_deflection_mm", NULL);
    put(&t, "/load_cases", BUMP("\"direction\": \"down\", \"tip_mass_kg\": 0.25"));
    const struct pl_case_result *c = judge_case(0);
    double mass_kg = pl_solve_verdict(solve)->mass_kg;
    assert_close(c->total_force_n, -1.5 * 6 * 9.80665 * (mass_kg + 0.5), 1e-3);
    assert_close(c->reactions[0].z_n + c->reactions[1].z_n, c->total_force_n, 1e-9);
    assert_close(c->reactions[0].z_n, c->reactions[1].z_n, 1e-9);
    assert_true(c->given.tip_m < 0);
    double down_n = c->total_force_n, tip_m = c->given.tip_m;
    put(&t, "/load_cases", BUMP("\"direction\": \"up\", \"tip_mass_kg\": 0.25"));
    c = judge_case(0);
    assert_close(c->total_force_n, -down_n, 1e-12);
    assert_close(c->given.tip_m, -tip_m, 1e-9);
    put(&t, "/load_cases", BUMP("\"direction\": \"up\""));
    assert_close(judge_case(0)->total_force_n, 1.5 * 6 * 9.80665 * mass_kg, 1e-3);  /* left out: no tip masses */
}

static void heavier_tips_bring_it_down(void **state)
{
    (void)state;
    double last = 1e9;
    static const char *const bumps[] = {BUMP("\"direction\": \"down\", \"tip_mass_kg\": 0.1"), BUMP("\"direction\": \"down\", \"tip_mass_kg\": 2"),
                                        BUMP("\"direction\": \"down\", \"tip_mass_kg\": 50")};
    put(&t, "/limits/tip_deflection_mm", NULL);
    for (size_t i = 0; i < sizeof bumps / sizeof *bumps; i++) {
        put(&t, "/load_cases", bumps[i]);
        double reserve = judge_case(0)->least.reserve;
        assert_true(reserve < last && reserve > 0);
        last = reserve;
    }
    assert_true(last < 1);  /* 50 kg at either tip at six g is no wing's */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        JUDGED(a_bump_bends_as_f4_9_says),
        JUDGED(lengths_are_summed_exactly_where_they_are_linear),
        JUDGED(the_total_is_what_it_weighs_times_n_and_the_tips),
        JUDGED(heavier_tips_bring_it_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
