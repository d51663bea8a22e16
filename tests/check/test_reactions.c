/* What the wing puts on its mounts: in balance with what loads it, for every case of every sample. */
#include "judged.h"

#include <math.h>
#include <string.h>

static const struct pl_verdict *judge_file(const char *path)
{
    trial_close(&t);
    trial_open(&t, path);
    return judge();
}

struct sums { double x_n, z_n, about_x_nm, about_y_nm, about_z_nm; };

/* About the origin of the car's axes. */
static struct sums sum_of(const struct pl_element *e, const struct pl_reaction *r, size_t n)
{
    struct sums s = {0};
    for (size_t i = 0; i < n; i++) {
        double y_m = e->mounts[r[i].mount].y_m;
        assert_int_equal(r[i].mount, i);
        s.x_n += r[i].x_n;
        s.z_n += r[i].z_n;
        s.about_x_nm += r[i].about_x_nm + y_m * r[i].z_n;
        s.about_y_nm += r[i].about_y_nm + r[i].at_z_m * r[i].x_n - r[i].at_x_m * r[i].z_n;
        s.about_z_nm += r[i].about_z_nm - y_m * r[i].x_n;
    }
    return s;
}

static const char *const samples[] = {"samples/front-wing.json", "samples/rear-wing.json", "samples/narrow-wing.json", "samples/cantilever.json",
                                      "samples/two-element-wing.json"};

static void forces_sum_to_the_load_and_both_sets_have_the_same_moments(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof samples / sizeof *samples; i++) {
        const struct pl_verdict *v = judge_file(samples[i]);
        for (size_t k = 0; k < v->n_cases; k++) {
            const struct pl_case_result *c = &v->cases[k];
            const struct pl_element *e = &t.part.elements[c->load_case->element];
            double size = fmax(1, fabs(c->total_force_n));
            assert_int_equal(c->n_reactions, e->n_mounts);
            struct sums given = sum_of(e, c->reactions, c->n_reactions);
            assert_true(fabs(given.z_n - c->total_force_n) < 1e-6 * size);
            assert_true(fabs(given.x_n) < 1e-6 * size && fabs(given.about_z_nm) < 1e-6 * size);
            assert_int_equal(c->pinned_reactions != NULL, c->has_pinned);
            /* A strike by energy is another one on softer mounts. */
            if (!c->has_pinned || c->given.variant != c->pinned.variant || c->given.total_force_n != c->pinned.total_force_n)
                continue;
            struct sums pinned = sum_of(e, c->pinned_reactions, c->n_reactions);
            assert_true(fabs(given.z_n - pinned.z_n) < 1e-6 * size);
            assert_true(fabs(given.about_x_nm - pinned.about_x_nm) < 1e-6 * size && fabs(given.about_y_nm - pinned.about_y_nm) < 1e-6 * size);
        }
    }
}

static void a_strike_on_the_tip_is_the_outer_bracket_s_alone(void **state)
{
    (void)state;
    const struct pl_case_result *c = &judge_file(SAMPLE_PART)->cases[2];
    double force_n = c->total_force_n;
    assert_true(force_n > 0);
    /* 558.94 N up at the right tip, 470 mm outside the right bracket (F4.7 by the contract's k). */
    assert_close(c->reactions[1].z_n, force_n, 1e-9);
    assert_close(c->reactions[1].about_x_nm, 0.470 * force_n, 1e-9);
    assert_true(fabs(c->reactions[0].z_n) < 1e-6 && fabs(c->reactions[0].about_x_nm) < 1e-6);
    /* Pinned they share it by levers: 810 and 470 over 340 mm. */
    assert_close(c->pinned_reactions[1].z_n / c->pinned.total_force_n, 810.0 / 340, 1e-9);
    assert_close(c->pinned_reactions[0].z_n / c->pinned.total_force_n, -470.0 / 340, 1e-9);
    for (int i = 0; i < 2; i++)
        assert_true(fabs(c->pinned_reactions[i].about_x_nm) < 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        JUDGED(forces_sum_to_the_load_and_both_sets_have_the_same_moments),
        JUDGED(a_strike_on_the_tip_is_the_outer_bracket_s_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
