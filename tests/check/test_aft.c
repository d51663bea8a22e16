/* Force aft beside a case's own: reactions balance it, a straight tube takes it as any lever would, and none is none. */
#include "judged.h"

#include <math.h>
#include <string.h>

static const char *const pointers[] = {"/load_cases/0/aft_n", "/load_cases/2/aft_n", "/load_cases/3/aft_n"};  /* the second case is jacking */

static void mounts_take_it_all_whatever_the_kind(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof pointers / sizeof *pointers; i++)
        put(&t, pointers[i], "150");
    const struct pl_verdict *v = judge();
    for (size_t i = 0; i < v->n_cases; i++) {
        const struct pl_case_result *c = &v->cases[i];
        double x_n = 0, turn_nm = 0, wanted_n = c->load_case->kind == PL_JACKING ? 0 : 150 * c->load_case->factor;
        for (size_t k = 0; k < c->n_reactions; k++) {
            x_n += c->reactions[k].x_n;
            turn_nm += c->reactions[k].about_z_nm - t.part.elements[0].mounts[k].y_m * c->reactions[k].x_n;
        }
        assert_true(fabs(x_n - wanted_n) < 1e-6 * fmax(1, wanted_n));
        /* M_z = -y F_x of a push at the tip or at -600 mm; of a load that is even to both hands none. */
        double y_m = c->load_case->kind == PL_TIP_STRIKE ? 0.640 : c->load_case->kind == PL_POINT_LOAD ? -0.600 : 0;
        assert_true(fabs(turn_nm + y_m * wanted_n) < 1e-6 * fmax(1, wanted_n));
    }
}

static void aft_and_forward_are_each_other_s_opposite(void **state)
{
    (void)state;
    put(&t, "/load_cases/3/aft_n", "80");
    double aft_nm = judge()->cases[3].reactions[0].about_z_nm;
    put(&t, "/load_cases/3/aft_n", "-80");
    double forward_nm = judge()->cases[3].reactions[0].about_z_nm;
    put(&t, "/load_cases/3/aft_n", "0");
    double none_nm = judge()->cases[3].reactions[0].about_z_nm;
    assert_close(aft_nm - none_nm, -(forward_nm - none_nm), 1e-9);
    assert_true(fabs(aft_nm - none_nm) > 10);
    double with_zero = solve ? pl_solve_verdict(solve)->cases[3].least.reserve : 0;
    put(&t, "/load_cases/3/aft_n", NULL);
    assert_true(judge()->cases[3].least.reserve == with_zero);  /* none is the same as nothing said */
}

/* A push aft bends the wing in its plane: a reserve that had room for it gets less. */
static void much_of_it_breaks_the_wing(void **state)
{
    (void)state;
    double before = judge()->cases[3].least.reserve;
    put(&t, "/load_cases/3/aft_n", "4000");
    assert_true(judge()->cases[3].least.reserve < 0.6 * before);
}

static void a_jack_takes_none(void **state)
{
    (void)state;
    put(&t, "/load_cases/1/aft_n", "100");
    trial_build(&t);
    assert_warning(&t, "/load_cases/1/aft_n", "is not used here", "100");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        JUDGED(mounts_take_it_all_whatever_the_kind), JUDGED(aft_and_forward_are_each_other_s_opposite),
        JUDGED(much_of_it_breaks_the_wing), JUDGED(a_jack_takes_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
