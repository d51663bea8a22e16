/* Loads that come again and again: what fatigue leaves of the plies, and of nothing else. */
#include "judged.h"

#include "plyloft/strength.h"

#include <math.h>
#include <string.h>

static void what_is_kept_is_the_handbook_s(void **state)
{
    (void)state;
    assert_close(pl_fatigue_keeps(PL_GLASS, 1e5), 0.50, 1e-12);
    assert_close(pl_fatigue_keeps(PL_CARBON, 1e5), 0.75, 1e-12);
    assert_close(pl_fatigue_keeps(PL_GLASS, 216000), 0.467, 1e-3);
    assert_close(pl_fatigue_keeps(PL_FLAX, 1e5), 0.50, 1e-12);  /* as glass */
    assert_close(pl_fatigue_keeps(PL_CARBON, 1), 1, 1e-12);
}

/* Stiff foam and little else: plies govern. */
static void let_plies_govern(void)
{
    put(&t, "/cores/0/e_mpa", "20000");
    put(&t, "/cores/0/g_mpa", "5000");
    put(&t, "/cores/0/shear_strength_mpa", "500");
    put(&t, "/cores/0/compressive_strength_mpa", "500");
    for (int i = 0; i < 2; i++) {  /* so that every ply is far from what its foam carries */
        static const char *const weak[] = {"xt_mpa", "xc_mpa", "yt_mpa", "yc_mpa", "s_mpa"};
        for (size_t k = 0; k < sizeof weak / sizeof *weak; k++) {
            char pointer[64];
            snprintf(pointer, sizeof pointer, "/fabrics/%d/%s", i, weak[k]);
            put(&t, pointer, "1");
        }
    }
}

static void glass_plies_lose_by_the_logarithm(void **state)
{
    (void)state;
    static const struct { const char *cycles; double kept; } trials[] = {{"1", 1}, {"1000", 0.7}, {"100000", 0.5}, {"1e9", 0.1}};
    static const char *const criteria[] = {"\"tsai-wu\"", "\"max-stress\""};
    let_plies_govern();
    for (size_t k = 0; k < 2; k++) {
        put(&t, "/allowables/criterion", criteria[k]);
        put(&t, "/load_cases/0/cycles", "1");
        double once = judge_case(0)->least.reserve;
        assert_int_equal(judge_case(0)->least.mode, PL_MODE_PLY);
        for (size_t i = 0; i < sizeof trials / sizeof *trials; i++) {
            put(&t, "/load_cases/0/cycles", trials[i].cycles);
            assert_close(judge_case(0)->least.reserve, once * trials[i].kept, 1e-9);
        }
    }
}

static void each_cloth_loses_its_own_share_and_the_weakest_is_found_anew(void **state)
{
    (void)state;
    let_plies_govern();
    double once = judge_case(0)->least.reserve;
    const char *item = judge_case(0)->least.item;
    put(&t, "/load_cases/0/cycles", "100000");
    double glass = judge_case(0)->least.reserve;
    for (int i = 0; i < 2; i++) {
        char pointer[32];
        snprintf(pointer, sizeof pointer, "/fabrics/%d/fibre", i);
        put(&t, pointer, "\"carbon\"");
    }
    assert_close(judge_case(0)->least.reserve, 0.75 * once, 1e-9);
    assert_close(glass, 0.50 * once, 1e-9);
    assert_string_equal(judge_case(0)->least.item, item);
    /* The one that governed is carbon now, the other glass: whichever is lower by its own share. */
    put(&t, "/fabrics/0/fibre", "\"glass\"");
    double mixed = judge_case(0)->least.reserve;
    assert_true(mixed >= 0.5 * once - 1e-9 && mixed <= 0.75 * once + 1e-9);
}

static void foam_and_single_strikes_know_no_cycles(void **state)
{
    (void)state;
    judge();
    const struct pl_verdict *v = pl_solve_verdict(solve);
    enum pl_mode mode = v->cases[0].least.mode;
    double reserve = v->cases[0].least.reserve, strike = v->cases[2].least.reserve, jack = v->cases[1].least.reserve;
    assert_int_equal(mode, PL_MODE_WRINKLING);
    put(&t, "/load_cases/0/cycles", "10");
    judge();
    v = pl_solve_verdict(solve);
    assert_true(v->cases[0].least.reserve == reserve);  /* a skin wrinkles over its foam as before */
    assert_true(v->cases[1].least.reserve == jack && v->cases[2].least.reserve == strike);
    put(&t, "/load_cases/2/cycles", "1000");
    trial_build(&t);
    assert_warning(&t, "/load_cases/2/cycles", "is not used here", "1000");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        JUDGED(what_is_kept_is_the_handbook_s), JUDGED(glass_plies_lose_by_the_logarithm),
        JUDGED(each_cloth_loses_its_own_share_and_the_weakest_is_found_anew), JUDGED(foam_and_single_strikes_know_no_cycles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
