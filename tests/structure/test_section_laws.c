/* Laws that hold for any section: balance, mirror, turning; and how the wall is cut into runs. */
#include "tubes.h"

#include "plyloft/profile.h"

#include <string.h>

/* Sums over wall pieces by Simpson's rule, which is exact for what is at most cubic along a straight piece. */
static void a_section_strains_so_that_its_own_stress_balances_the_forces(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = front_wing;
    text.core = HOLLOW;
    text.allowables = NULL;
    text.resin = NULL;
    text.layup = say("%s, {'name': 'cap', 'fabric': 'uni', 'angle_deg': 15, 'plies': 4, 'side': 'top',"
                     " 'centre_at': 0.3, 'width_mm': 60}",
                     say_skin("uni", 35, 2));
    const struct pl_section *s = section_of(&w, &text, 0.3, &view);
    struct pl_internal f = {.moment_flap_nm = 80, .moment_lead_nm = -50, .torque_nm = 60};
    struct pl_strain e = pl_section_strain(s, &f);
    double n = 0, flap = 0, lead = 0, size = 0;
    for (size_t r = 0; r < s->wall.n_runs; r++) {
        const struct pl_wall_run *run = &s->wall.runs[r];
        const struct pl_stack *stack = &view.stacks->stacks[run->stack];
        for (size_t i = run->first; i + 1 < run->first + run->count; i++)
            for (int part = 0; part < 3; part++) {
                double x = s->wall.x_m[i] + 0.5 * part * (s->wall.x_m[i + 1] - s->wall.x_m[i]);
                double z = s->wall.z_m[i] + 0.5 * part * (s->wall.z_m[i + 1] - s->wall.z_m[i]);
                double ds = hypot(s->wall.x_m[i + 1] - s->wall.x_m[i], s->wall.z_m[i + 1] - s->wall.z_m[i])
                            * (part == 1 ? 4 : 1) / 6;
                double n1 = stack->e1_n_m * (e.at_neutral - e.flap_1_m * z - e.lead_1_m * x)
                            + stack->k * run->flow_torsion * f.torque_nm;
                n += n1 * ds;
                size += fabs(n1) * ds;
                flap -= n1 * z * ds;
                lead -= n1 * x * ds;
            }
    }
    assert_true(fabs(n) < 1e-6 * size);
    assert_close(flap, f.moment_flap_nm, 1e-6);
    assert_close(lead, f.moment_lead_nm, 1e-6);
    wing_free(&w);
}

/* Sums of a flow round the whole circuit, steps and closure included: forces along z and x, torque about the
 * neutral point, nose up. */
struct resultant { double z_n, x_n, torque_nm; };

static struct resultant sum_flow(const struct pl_wall *wall, const double *flow)
{
    struct resultant sum = {0, 0, 0};
    for (size_t r = 0; r < wall->n_runs; r++) {
        const struct pl_wall_run *run = &wall->runs[r];
        for (size_t i = run->first; i < run->first + run->count; i++) {
            size_t next = i + 1 < wall->count ? i + 1 : 0;
            bool steps = i + 1 == run->first + run->count;  /* a step keeps the flow that reaches it */
            double q = (run->side == PL_TOP ? 1 : -1) * (steps ? flow[i] : 0.5 * (flow[i] + flow[next]));
            double dx = wall->x_m[next] - wall->x_m[i], dz = wall->z_m[next] - wall->z_m[i];
            sum.z_n += q * dz;
            sum.x_n += q * dx;
            sum.torque_nm += q * (wall->z_m[i] * dx - wall->x_m[i] * dz);
        }
    }
    return sum;
}

static void shear_flow_adds_up_to_the_shear_at_the_shear_centre(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = front_wing;
    text.layup = say("%s, {'name': 'cap', 'fabric': 'uni', 'angle_deg': 0, 'plies': 20, 'side': 'top',"
                     " 'centre_at': 0.3, 'width_mm': 60}",
                     say_skin("plain", 45, 2));
    enum { COUNT = 1201 };  /* flow is quadratic along a piece and taken as straight here: many short ones */
    static struct pl_point p[COUNT];
    pl_profile_list(&(struct pl_profile){.naca = "6412"}, COUNT, p);
    wing_build(&w, &text);
    w.part.profiles[0] = (struct pl_profile){.name = "section", .points = p, .n_points = COUNT};
    const struct pl_section *s = wing_section(&w, 0, 0.2, &view);
    struct resultant z = sum_flow(&s->wall, s->wall.flow_z), x = sum_flow(&s->wall, s->wall.flow_x);
    assert_close(z.z_n, 1, 1e-4);
    assert_close(x.x_n, 1, 1e-4);
    assert_true(fabs(z.x_n) < 1e-4 && fabs(x.z_n) < 1e-4);
    /* an upward shear at x turns the nose down, a rearward one at z turns it up */
    assert_true(fabs(z.torque_nm + (s->x_shear_centre_m - s->x_neutral_m)) < 1e-5 * s->chord_m);
    assert_true(fabs(x.torque_nm - (s->z_shear_centre_m - s->z_neutral_m)) < 1e-5 * s->chord_m);
    double torque = 0;
    for (size_t r = 0; r < s->wall.n_runs; r++)
        torque += fabs(s->wall.runs[r].flow_torsion * 2 * s->cell_area_m2 - (s->wall.runs[r].side == PL_TOP ? 1 : -1));
    assert_true(torque < 1e-9);
    wing_free(&w);
}

static void a_section_turned_upright_bends_the_other_way_round(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = front_wing;
    double level[6], turned[6], between[6];
    text.layup = say_skin("uni", 20, 2);
    text.element = "'incidence_deg': 0";
    pl_section_compliance(section_of(&w, &text, 0.1, &view), level);
    wing_free(&w);
    text.element = "'incidence_deg': 90";
    pl_section_compliance(section_of(&w, &text, 0.1, &view), turned);
    wing_free(&w);
    /* nose straight up: chord axes x, z lie along -z, x of the car */
    assert_close(turned[0], level[1], 1e-9);
    assert_close(turned[1], level[0], 1e-9);
    assert_close(turned[2], level[2], 1e-9);
    assert_close(turned[3], -level[3], 1e-9);
    assert_close(turned[4], -level[5], 1e-9);
    assert_close(turned[5], level[4], 1e-9);
    text.element = "'incidence_deg': 31";
    pl_section_compliance(section_of(&w, &text, 0.1, &view), between);
    assert_close(between[0] + between[1], level[0] + level[1], 1e-9);
    assert_close(between[0] * between[1] - between[3] * between[3], level[0] * level[1] - level[3] * level[3], 1e-9);
    assert_close(hypot(between[4], between[5]), hypot(level[4], level[5]), 1e-9);
    struct pl_internal car = {
        .shear_z_n = 3, .shear_x_n = -2, .moment_flap_nm = 5, .moment_lead_nm = 7, .torque_nm = 11};
    struct pl_internal own = pl_section_turn(&view.section, &car);
    double c = cos(31 * M_PI / 180), n = sin(31 * M_PI / 180);
    assert_close(own.shear_z_n, 3 * c - 2 * n, 1e-9);
    assert_close(own.shear_x_n, -2 * c - 3 * n, 1e-9);
    assert_close(hypot(own.moment_flap_nm, own.moment_lead_nm), hypot(5, 7), 1e-9);
    assert_close(own.torque_nm, 11, 0);
    /* nose up by 31 degrees: a place of the chord stands lower the farther aft, one above the chord farther aft */
    double x_m, z_m;
    pl_section_to_car(&view.section, 0.1, 0.02, &x_m, &z_m);
    assert_close(x_m - view.section.x_le_m, 0.1 * c + 0.02 * n, 1e-9);
    assert_close(z_m - view.section.z_le_m, -0.1 * n + 0.02 * c, 1e-9);
    wing_free(&w);
}

static void an_inverted_section_is_the_mirror_of_the_upright_one(void **state)
{
    (void)state;
    struct wing up, down;
    struct pl_place_view a, b;
    struct wing_text text = front_wing;
    text.layup = say_skin("plain", 45, 3);
    text.element = "'incidence_deg': 0";
    const struct pl_section *u = section_of(&up, &text, 0.2, &a);
    text.element = "'inverted': true, 'incidence_deg': 0";
    const struct pl_section *d = section_of(&down, &text, 0.2, &b);
    assert_close(d->ei_flap_nm2, u->ei_flap_nm2, 1e-9);
    assert_close(d->ei_coupling_nm2, -u->ei_coupling_nm2, 1e-9);
    assert_close(d->gj_nm2, u->gj_nm2, 1e-9);
    assert_close(d->shear_stiffness_n, u->shear_stiffness_n, 1e-9);
    assert_close(d->z_neutral_m, -u->z_neutral_m, 1e-9);
    assert_close(d->x_shear_centre_m, u->x_shear_centre_m, 1e-9);
    assert_close(d->z_shear_centre_m, -u->z_shear_centre_m, 1e-9);
    wing_free(&up);
    wing_free(&down);
}

static void the_intervals_of_a_surface_stand_within_two_thousandths_of_the_limit(void **state)
{
    (void)state;
    enum { COUNT = 1201 };
    static struct pl_point p[COUNT];
    struct pl_profile shape = {.naca = "6412"};
    pl_profile_list(&shape, COUNT, p);
    struct wing coarse, fine;
    struct pl_place_view a, b;
    struct wing_text text = front_wing;
    text.layup = say_skin("plain", 45, 3);
    const struct pl_section *s = section_of(&coarse, &text, 0.2, &a);
    wing_build(&fine, &text);
    fine.part.profiles[0] = (struct pl_profile){.name = "section", .points = p, .n_points = COUNT};
    const struct pl_section *limit = wing_section(&fine, 0, 0.2, &b);
    assert_close(s->ea_n, limit->ea_n, 1e-3);
    assert_close(s->girth_flexibility_m_n, limit->girth_flexibility_m_n, 1e-3);
    assert_close(s->cell_area_m2, limit->cell_area_m2, 1e-3);
    assert_close(s->mass_kg_m, limit->mass_kg_m, 1e-3);
    assert_close(s->ei_lead_nm2, limit->ei_lead_nm2, 1e-3);
    /* depth loses what area loses, and these go with its square */
    assert_close(s->ei_flap_nm2, limit->ei_flap_nm2, 2e-3);
    assert_close(s->gj_nm2, limit->gj_nm2, 2e-3);
    assert_close(s->shear_stiffness_n, limit->shear_stiffness_n, 2e-3);
    double both = sqrt(limit->ei_flap_nm2 * limit->ei_lead_nm2);
    assert_true(fabs(s->ei_coupling_nm2 - limit->ei_coupling_nm2) < 1e-3 * both);
    assert_true(fabs(s->x_shear_centre_m - limit->x_shear_centre_m) < 5e-4 * s->chord_m);
    wing_free(&coarse);
    wing_free(&fine);
}

static void a_bare_wall_is_told_with_its_place(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = {.layup =
                                 "{'name': 'a', 'fabric': 'plain', 'angle_deg': 0, 'plies': 1, 'side': 'top',"
                                 " 'chord_from': 0, 'chord_to': 1},{'name': 'b', 'fabric': 'plain',"
                                 " 'angle_deg': 0, 'plies': 1, 'side': 'bottom', 'chord_from': 0, 'chord_to': 0.8}"};
    wing_build(&w, &text);
    size_t before = w.problems.errors;
    assert_int_equal(pl_solve_place(w.solve, &w.part, 0, 0.1, &view, &w.problems), PL_BAD_INPUT);
    assert_int_equal(w.problems.errors, before + 1);
    const struct pl_problem *p = pl_problems_first_error(&w.problems);
    assert_non_null(strstr(p->rule, "bottom bare from 0.800 to 1.000"));
    assert_int_equal(pl_solve_run(w.solve, &w.part, &w.problems), PL_BAD_INPUT);
    assert_string_equal(w.problems.list[w.problems.count - 1].place, "/elements/0/layup");
    wing_free(&w);
}

static void runs_meet_at_the_edges_of_pieces_and_wrinkle_from_a_tenth_of_the_chord(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    const struct pl_section *s = section_of(&w, &front_wing, 0.17, &view);
    /* skins to the nose, wrap from 0.05, wrinkles from 0.10, cap 0.30 -+ 36/275 */
    static const double edges[] = {0, 0.05, 0.10, 0.30 - 36.0 / 275, 0.30 + 36.0 / 275, 1};
    assert_int_equal(s->wall.n_runs, 10);
    for (size_t r = 0; r < 10; r++) {
        const struct pl_wall_run *run = &s->wall.runs[r];
        size_t i = r < 5 ? 4 - r : r - 5;
        assert_int_equal(run->side, r < 5 ? PL_BOTTOM : PL_TOP);
        assert_true(fabs(run->from - edges[i]) < 1e-9 && fabs(run->to - edges[i + 1]) < 1e-9);
        assert_int_equal(run->wrinkles, i >= 2);
    }
    assert_close(view.stacks->stacks[s->wall.runs[8].stack].thickness_m,
                 5 * 0.163 / (2560 * 0.38) + 6 * 0.310 / (2560 * 0.42), 1e-9);
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_section_strains_so_that_its_own_stress_balances_the_forces),
        cmocka_unit_test(shear_flow_adds_up_to_the_shear_at_the_shear_centre),
        cmocka_unit_test(a_section_turned_upright_bends_the_other_way_round),
        cmocka_unit_test(an_inverted_section_is_the_mirror_of_the_upright_one),
        cmocka_unit_test(the_intervals_of_a_surface_stand_within_two_thousandths_of_the_limit),
        cmocka_unit_test(a_bare_wall_is_told_with_its_place),
        cmocka_unit_test(runs_meet_at_the_edges_of_pieces_and_wrinkle_from_a_tenth_of_the_chord),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
