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

/* ---- laws ---- */

static void give(struct wing *w, const char *pointer, const char *json)
{
    put(&w->t, pointer, json);
}

/* A plain wing in free air: no sweep, dihedral or twist. */
static void plain(struct wing *w)
{
    give(w, "/load_cases/0/ride_height_mm", NULL);
    give(w, "/elements/0/stations/2/x_le_mm", "0");
    give(w, "/elements/0/stations/2/z_le_mm", "0");
    give(w, "/elements/0/stations/2/twist_deg", "0");
}

static const char plates[] = "{\"height_mm\": 240, \"length_mm\": 320, \"below_mm\": 100, \"x_le_mm\": -20}";

static void end_plates_add_lift_and_take_drag(void **state)
{
    struct wing *w = *state;
    plain(w);
    struct pl_wing_figures bare = solve(w);
    give(w, "/elements/0/end_plates", plates);
    struct pl_wing_figures with = solve(w);
    assert_true(with.lift > 1.02 * bare.lift);
    assert_true(with.induced_drag / (with.lift * with.lift) < 0.9 * bare.induced_drag / (bare.lift * bare.lift));
}

static void nearer_the_ground_there_is_more_of_it(void **state)
{
    struct wing *w = *state;
    static const char *const heights[] = {"20000", "1000", "400", "200", "100", "50"};
    plain(w);
    struct pl_wing_figures last = solve(w);
    for (size_t i = 0; i < sizeof heights / sizeof *heights; i++) {
        give(w, "/load_cases/0/ride_height_mm", heights[i]);
        struct pl_wing_figures f = solve(w);
        if (i == 0)
            assert_close(f.lift, last.lift, 1e-4);  /* far away the ground is not there */
        else
            assert_true(f.lift > last.lift && f.induced_drag / (f.lift * f.lift) < last.induced_drag / (last.lift * last.lift));
        last = f;
    }
}

static void sweep_and_dihedral_take_lift(void **state)
{
    struct wing *w = *state;
    plain(w);
    double straight = solve(w).lift;
    give(w, "/elements/0/stations/1/x_le_mm", "98");  /* 30 degrees */
    give(w, "/elements/0/stations/2/x_le_mm", "370");
    double swept = solve(w).lift;
    assert_true(swept < 0.98 * straight && swept > 0.8 * straight);
    give(w, "/elements/0/stations/1/x_le_mm", "0");
    give(w, "/elements/0/stations/2/x_le_mm", "0");
    give(w, "/elements/0/stations/1/z_le_mm", "62");  /* 20 degrees */
    give(w, "/elements/0/stations/2/z_le_mm", "233");
    double up = solve(w).lift;
    give(w, "/elements/0/stations/1/z_le_mm", "-62");
    give(w, "/elements/0/stations/2/z_le_mm", "-233");
    assert_true(up < 0.98 * straight && up > 0.8 * straight);
    double down = solve(w).lift;
    give(w, "/elements/0/inverted", "false");  /* the mirror image of the one raised: it lifts as much as that presses */
    assert_close(-solve(w).lift, up, 1e-9);
    assert_true(down < straight && down > 0.8 * straight);
}

static void a_wing_of_twice_the_size_has_the_same_coefficients(void **state)
{
    struct wing *w = *state;
    char value[32];
    struct pl_wing_figures small = solve(w);
    struct pl_element *e = &w->t.part.elements[0];
    for (size_t i = 0; i < e->n_stations; i++) {
        const struct { const char *key; double value; } twice[] = {{"y_mm", e->stations[i].y_m}, {"chord_mm", e->stations[i].chord_m}, {"x_le_mm", e->stations[i].x_le_m}, {"z_le_mm", e->stations[i].z_le_m}};
        for (size_t k = 0; k < 4; k++) {
            char pointer[64];
            snprintf(pointer, sizeof pointer, "/elements/0/stations/%zu/%s", i, twice[k].key);
            snprintf(value, sizeof value, "%.17g", 2e3 * twice[k].value);
            give(w, pointer, value);
        }
    }
    give(w, "/load_cases/0/ride_height_mm", "140");
    struct pl_wing_figures large = solve(w);
    assert_close(large.lift, small.lift, 1e-9);
    assert_close(large.induced_drag, small.induced_drag, 1e-9);
    assert_close(large.centre_m, 2 * small.centre_m, 1e-9);
    assert_close(large.area_m2, 4 * small.area_m2, 1e-12);
}

/* A copy of the wing ten metres above it. */
static void far_elements_take_no_notice_of_each_other(void **state)
{
    struct wing *w = *state;
    plain(w);
    struct pl_wing_figures one = solve(w);
    put_copy(&w->t, "/elements/0", "/elements/1");
    give(w, "/elements/1/name", "\"second\"");
    for (int i = 0; i < 3; i++) {
        char pointer[64];
        snprintf(pointer, sizeof pointer, "/elements/1/stations/%d/z_le_mm", i);
        give(w, pointer, "10000");
    }
    struct pl_wing_figures two = solve(w);
    size_t n;
    const struct pl_wing_strip *s = pl_wing_flow_strips(w->flow, &n);
    assert_int_equal(n, 2 * PL_WINGS_SPANWISE);
    assert_close(two.area_m2, 2 * one.area_m2, 1e-12);
    assert_close(two.lift, one.lift, 0.004);  /* of the coarser lattice */
    for (size_t i = 0; i < n / 2; i++)
        assert_true(fabs(s[i].cl - s[n / 2 + i].cl) < 1e-3);
}

static void whatever_may_be_asked_has_a_finite_answer_or_a_sentence(void **state)
{
    struct wing *w = *state;
    static const struct { const char *pointer, *json; } odd[] = {
        {"/elements/0/incidence_deg", "80"},          {"/elements/0/incidence_deg", "-60"},        {"/elements/0/incidence_deg", "2"},
        {"/load_cases/0/ride_height_mm", "1"},        {"/load_cases/0/ride_height_mm", "1e6"},     {"/elements/0/stations/2/chord_mm", "0.5"},
        {"/elements/0/stations/2/chord_mm", "9000"},  {"/elements/0/stations/2/y_mm", "20000"},    {"/elements/0/stations/2/y_mm", "171"},
        {"/elements/0/stations/2/x_le_mm", "-20000"}, {"/elements/0/stations/2/twist_deg", "-90"}, {"/elements/0/stations/2/z_le_mm", "20000"},
    };
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        give(w, odd[i].pointer, odd[i].json);
        trial_build(&w->t);
        if (w->t.status != PL_OK)
            continue;
        enum pl_status status = pl_wing_flow_aim(w->flow, &w->t.part, &w->t.part.load_cases[0], &w->problems);
        while (status == PL_OK && pl_wing_flow_step(w->flow))
            ;
        if (status == PL_OK)
            status = pl_wing_flow_status(w->flow);
        struct pl_wing_figures f = pl_wing_flow_figures(w->flow);
        assert_true(status == PL_NOT_CONVERGED || status == PL_OK);
        if (status == PL_OK)
            assert_true(isfinite(f.lift) && isfinite(f.induced_drag) && f.induced_drag >= -1e-9);
    }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, set_up, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(end_plates_add_lift_and_take_drag),
        TRIAL(nearer_the_ground_there_is_more_of_it),
        TRIAL(sweep_and_dihedral_take_lift),
        TRIAL(a_wing_of_twice_the_size_has_the_same_coefficients),
        TRIAL(far_elements_take_no_notice_of_each_other),
        TRIAL(whatever_may_be_asked_has_a_finite_answer_or_a_sentence),
        TRIAL(the_front_wing_has_the_contract_s_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
