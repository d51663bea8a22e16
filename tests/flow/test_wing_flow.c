/* A whole wing in the air: the contract's front wing, end plates, several elements, and the laws between them. */
#include "support.h"

#include "part/parts.h"

#include "plyloft/wing_flow.h"

#include <math.h>
#include <stdlib.h>

struct wing {
    struct trial t;
    struct pl_wing_flow *flow;
    struct pl_problems problems;
};

static int set_up(void **state)
{
    struct wing *w = calloc(1, sizeof *w);
    assert_non_null(w);
    free(trial_open_sample(&w->t));
    w->flow = pl_wing_flow_new();
    assert_non_null(w->flow);
    *state = w;
    return 0;
}

static int take_down(void **state)
{
    struct wing *w = *state;
    pl_problems_free(&w->problems);
    pl_wing_flow_free(w->flow);
    trial_close(&w->t);
    free(w);
    return 0;
}

static struct pl_wing_figures solve(struct wing *w)
{
    trial_build(&w->t);
    assert_int_equal(pl_wing_flow_aim(w->flow, &w->t.part, &w->t.part.load_cases[0], &w->problems), PL_OK);
    while (pl_wing_flow_step(w->flow))
        ;
    assert_int_equal(pl_wing_flow_status(w->flow), PL_OK);
    return pl_wing_flow_figures(w->flow);
}

static void the_front_wing_has_the_contract_s_figures(void **state)
{
    struct pl_wing_figures f = solve(*state);
    /* The contract's front-wing.flow-expect.json, flow --case "top speed", of the same panels. */
    assert_close(f.lift, 0.87716191, 3e-4);
    assert_close(f.induced_drag, 0.01986795, 1e-3);
    assert_close(f.centre_m / f.root_chord_m, 0.45666051, 1.5e-3);
    size_t n;
    const struct pl_wing_strip *s = pl_wing_flow_strips(((struct wing *)*state)->flow, &n);
    assert_int_equal(n, 32);
    /* The first, the middle and one near the tip: y 15.706386, 418.03062, 607.69804 mm. */
    assert_close(s[0].y_m, 0.015706386, 1e-6);
    assert_close(s[0].cl, 1.075684, 3e-4);
    assert_close(s[14].cl, 0.84050025, 3e-4);
    assert_close(s[25].cl, 0.39784877, 2e-3);
    assert_close(s[14].moment / s[14].cl, 0.4774933, 2e-3);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(the_front_wing_has_the_contract_s_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
