/* The wing in the flow on the page Loads, and loads that wait for their flow while the structure is painted. */
#include "pages.h"

#include <math.h>

static struct desk d;

static int fresh(void **state)
{
    (void)state;
    desk_open(&d, SAMPLE_PART);
    return 0;
}

static int release(void **state)
{
    (void)state;
    desk_close(&d);
    return 0;
}

static void the_flow_is_worked_out_where_it_is_shown(void **state)
{
    (void)state;
    desk_rest(&d);
    assert_false(d.s->wing_done);  /* another page */
    press(&d, "3 BackTab BackTab BackTab");
    assert_told(&d, "being worked out");
    desk_rest(&d);
    assert_true(d.s->wing_done);
    assert_told(&d, "downforce 525 N (thin lattice 560)");
    assert_told(&d, "allowance 0.94");
    for (size_t i = 0; i < SIZES; i++) {
        const char *page = draw(&d, sizes[i].columns, sizes[i].rows, true);
        assert_non_null(strstr(page, "flow over the wing, top speed"));
        assert_non_null(strstr(page, "thin lattice"));
    }
}

static void a_speed_needs_new_figures_but_no_new_lattice(void **state)
{
    (void)state;
    press(&d, "3 BackTab BackTab BackTab");
    desk_rest(&d);
    /* To the sheet of the case, its speed: 102.5 km/h is half. */
    press(&d, "Tab Tab Tab Tab Home Down Down Down Down Down Down");
    assert_told(&d, "Speed");
    press(&d, "Enter text:102.5 Enter BackTab BackTab BackTab BackTab");
    assert_told(&d, "thin lattice 140 N");  /* a quarter of 560, at once */
    desk_rest(&d);
    assert_told(&d, "(thin lattice 140)");
}

static void the_structure_paints_at_once_with_the_old_flow_told(void **state)
{
    (void)state;
    desk_put(&d, "/load_cases/0/distribution", "\"computed\"");
    const struct pl_verdict *v = pl_session_verdict(d.s);
    assert_true(d.s->valid);
    assert_false(v->cases[0].air_old);  /* the first was worked out */
    double before = v->cases[0].total_force_n;
    assert_close(before, -2 * 559.94, 1e-3);
    press(&d, "1 Tab Tab Tab Home Down Down +");  /* the element's incidence */
    assert_told(&d, "Incidence");
    v = pl_session_verdict(d.s);
    assert_true(v->cases[0].air_old);
    assert_close(v->cases[0].total_force_n, before, 1e-9);
    assert_told(&d, "old flow");
    struct pl_figures was = d.s->before;
    desk_rest(&d);
    v = pl_session_verdict(d.s);
    assert_false(v->cases[0].air_old);
    assert_true(v->cases[0].total_force_n < 1.01 * before);  /* more incidence, more downforce */
    assert_untold(&d, "old flow");
    assert_close(d.s->before.reserve, was.reserve, 1e-12);   /* what was before the edit is still told */
    press(&d, "u");
    assert_false(pl_session_verdict(d.s)->cases[0].air_old);  /* kept from before */
    assert_untold(&d, "old flow");
}

static void edits_amid_the_work_are_safe(void **state)
{
    (void)state;
    press(&d, "3 BackTab BackTab BackTab");
    for (int i = 0; i < 40; i++) {
        for (int k = 0; k < i; k++)
            pl_session_idle(d.s);
        press(&d, i % 2 ? "u" : "1 Tab Tab Tab Home Down Down + 3");
        draw_usual(&d);
    }
    desk_rest(&d);
    press(&d, "3");
    desk_rest(&d);
    assert_true(d.s->valid);
}

static void without_a_downforce_case_it_says_so(void **state)
{
    (void)state;
    desk_put(&d, "/load_cases/0", NULL);
    press(&d, "3 BackTab BackTab BackTab");
    desk_rest(&d);
    assert_told(&d, "no downforce case");
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(the_flow_is_worked_out_where_it_is_shown),
        TRIAL(a_speed_needs_new_figures_but_no_new_lattice),
        TRIAL(the_structure_paints_at_once_with_the_old_flow_told),
        TRIAL(edits_amid_the_work_are_safe),
        TRIAL(without_a_downforce_case_it_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
