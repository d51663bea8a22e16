/* judged.h - one part at a time to try things on (trial.h), and the verdict on it. */
#ifndef PLYLOFT_TESTS_JUDGED_H
#define PLYLOFT_TESTS_JUDGED_H

#include "../part/trial.h"

#include "plyloft/check.h"

static struct pl_solve *solve;

static inline int take_down(void **state)
{
    pl_solve_free(solve);
    solve = NULL;
    return release(state);
}

/* Of the part as it is now. */
static inline const struct pl_verdict *judge(void)
{
    trial_build(&t);
    if (t.status != PL_OK)
        print_problems(&t);
    assert_int_equal(t.status, PL_OK);
    if (!solve)
        solve = pl_solve_new();
    assert_int_equal(pl_solve_run(solve, &t.part, &t.problems), PL_OK);
    return pl_solve_verdict(solve);
}

static inline const struct pl_case_result *judge_case(size_t load_case)
{
    return &judge()->cases[load_case];
}

#define JUDGED(test) cmocka_unit_test_setup_teardown(test, fresh, take_down)

#endif
