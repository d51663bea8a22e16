/* What fails first: closed forms of tubes, and the quick search against all points and plies one by one. */
#include "tubes.h"

#include "plyloft/strength.h"

/* ---- the long way round: every wall point, every ply ---- */

static double flow_at(const struct pl_section *s, const struct pl_wall_run *run, size_t i, const struct pl_internal *f)
{
    return run->flow_torsion * f->torque_nm + s->wall.flow_z[i] * f->shear_z_n + s->wall.flow_x[i] * f->shear_x_n;
}

static double strain_at(const struct pl_strain *e, double x, double z)
{
    return e->at_neutral - e->flap_1_m * z - e->lead_1_m * x;
}

static double least_of_plies(const struct pl_section *s, const struct pl_stack_set *set, const struct pl_stack *stack,
                             size_t i, const struct pl_strain *e, double flow, int criterion)
{
    struct pl_ply plies[64];
    double x = s->wall.x_m[i], z = s->wall.z_m[i], middle = strain_at(e, x, z), least = HUGE_VAL;
    double offset = -0.5 * stack->thickness_m;
    assert_in_range(stack->n_plies, 1, 64);
    pl_stack_plies(set, stack, false, plies);
    for (size_t p = 0; p < stack->n_plies; p++) {
        double out = offset + 0.5 * plies[p].thickness_m, stress[3];
        double strain[3] = {strain_at(e, x + out * s->wall.normal_x[i], z + out * s->wall.normal_z[i]),
                            stack->girth[0] * middle + stack->girth[1] * flow,
                            stack->shear[0] * middle + stack->shear[1] * flow};
        struct pl_ply_strength strength = pl_ply_strength(plies[p].fabric, set->knockdown, set->heat);
        pl_ply_stress(&plies[p], strain, stress);
        least = fmin(least, criterion == PL_TSAI_WU ? pl_reserve_tsai_wu(&strength, stress)
                                                    : pl_reserve_max_stress(&strength, stress));
        offset += plies[p].thickness_m;
    }
    return least;
}

/* Contract, rule 7, word for word: principal compression of (N1, N12) by its angle. */
static double wrinkle_at(const struct pl_stack *stack, double strain, double flow, const struct pl_core *core,
                         double knockdown)
{
    double n1 = stack->e1_n_m * strain + stack->k * flow, least = HUGE_VAL, phi_least = 0;
    double phi = 0.5 * atan2(2 * flow, n1);  /* of one principal stress; the other stands across */
    for (int i = 0; i < 2; i++, phi += M_PI / 2) {
        double c = cos(phi), t = sin(phi), n = n1 * c * c + 2 * flow * c * t;
        if (n < least) {
            least = n;
            phi_least = phi;
        }
    }
    double modulus = pl_stack_face_modulus(stack, cos(2 * phi_least), sin(2 * phi_least));
    double stress = -least / stack->thickness_m;
    return stress > 0 ? 0.5 * cbrt(modulus * core->e_pa * core->g_pa * knockdown) / stress : HUGE_VAL;
}

static double least_of_all(const struct wing *w, const struct pl_place_view *view, const struct pl_internal *on_car,
                           int criterion)
{
    const struct pl_section *s = &view->section;
    const struct pl_core *core = &w->part.cores[0];
    double knockdown = w->part.allowables.core_knockdown, least;
    struct pl_internal f = pl_section_turn(s, on_car);
    struct pl_strain e = pl_section_strain(s, &f);
    least = core->shear_strength_pa * knockdown / fabs(core->g_pa * on_car->shear_z_n / s->shear_stiffness_n);
    for (size_t r = 0; r < s->wall.n_runs; r++) {
        const struct pl_wall_run *run = &s->wall.runs[r];
        const struct pl_stack *stack = &view->stacks->stacks[run->stack];
        for (size_t i = run->first; i < run->first + run->count; i++) {
            double flow = flow_at(s, run, i, &f);
            least = fmin(least, least_of_plies(s, view->stacks, stack, i, &e, flow, criterion));
            if (run->from >= 0.1 - 1e-9)
                least = fmin(least,
                             wrinkle_at(stack, strain_at(&e, s->wall.x_m[i], s->wall.z_m[i]), flow, core, knockdown));
        }
    }
    return least;
}

static struct pl_internal random_forces(uint64_t *seed)
{
    double size = pow(10, chance_between(seed, -1, 2.5));
    struct pl_internal f = {chance_between(seed, -20, 20), chance_between(seed, -20, 20), chance_between(seed, -3, 3),
                            chance_between(seed, -10, 10), chance_between(seed, -3, 3)};
    double *part[5] = {&f.shear_z_n, &f.shear_x_n, &f.moment_flap_nm, &f.moment_lead_nm, &f.torque_nm};
    for (int i = 0; i < 5; i++)
        *part[i] *= chance(seed) < 0.2 ? 0 : size;
    return f;
}

static struct pl_weakest search(const struct wing *w, const struct pl_place_view *view, const struct pl_internal *f,
                                double below)
{
    struct pl_strength_rules rules = pl_strength_rules(&w->part, &w->part.elements[0]);
    struct pl_weakest weakest = {.reserve = below, .mode = PL_MODES};
    pl_section_weakest(&view->section, view->stacks, &rules, f, &weakest);
    return weakest;
}

static void compare_searches(const struct wing_text *text, uint64_t *seed, int criterion)
{
    struct wing w;
    struct pl_place_view view;
    wing_build(&w, text);
    assert_int_equal(w.part.allowables.criterion, criterion);
    static const double places[] = {0, 0.17, 0.31, 0.6};
    for (int place = 0; place < 4; place++) {
        wing_section(&w, 0, places[place], &view);
        for (int i = 0; i < 60; i++) {
            struct pl_internal f = random_forces(seed);
            double all = least_of_all(&w, &view, &f, criterion), below = chance(seed) < 0.5 ? 2 * all + 1 : all * 1.001;
            if (all == HUGE_VAL)
                continue;
            struct pl_weakest found = search(&w, &view, &f, below);
            assert_close(found.reserve, all, 1e-7);
            /* nothing below what is already known: left as it was */
            assert_int_equal(search(&w, &view, &f, all * 0.999999).mode, PL_MODES);
        }
    }
    wing_free(&w);
}

static const char *odd_skin(void)
{
    return say("%s, {'name': 'cap', 'fabric': 'uni', 'angle_deg': -15, 'plies': 4, 'side': 'top', 'centre_at': 0.3,"
               " 'width_mm': 60},{'name': 'over', 'fabric': 'plain', 'angle_deg': 20, 'plies': 2, 'side': 'both',"
               " 'chord_from': 0, 'chord_to': 1}",
               say_skin("uni", 35, 2));
}

static void the_quick_search_never_hides_a_lower_reserve(void **state)
{
    (void)state;
    uint64_t seed = 41;
    struct wing_text text = front_wing;
    compare_searches(&text, &seed, PL_TSAI_WU);
    text.allowables = "'knockdown': 0.6, 'core_knockdown': 0.8, 'criterion': 'max-stress'";
    compare_searches(&text, &seed, PL_MAX_STRESS);
    text.layup = odd_skin();
    compare_searches(&text, &seed, PL_MAX_STRESS);
    text.allowables = "'knockdown': 0.6, 'core_knockdown': 0.8, 'criterion': 'tsai-wu'";
    compare_searches(&text, &seed, PL_TSAI_WU);
    /* foam as stiff as balsa, so that plies fail first */
    text.core = "'kind': 'balsa', 'density_kgm3': 150, 'e_mpa': 3000, 'g_mpa': 150, 'shear_strength_mpa': 2,"
                " 'compressive_strength_mpa': 6";
    compare_searches(&text, &seed, PL_TSAI_WU);
    text.allowables = "'knockdown': 0.6, 'core_knockdown': 0.8, 'criterion': 'max-stress'";
    compare_searches(&text, &seed, PL_MAX_STRESS);
    text.layup = front_wing.layup;
    compare_searches(&text, &seed, PL_MAX_STRESS);
}

static void the_load_twice_leaves_half_the_reserve(void **state)
{
    (void)state;
    uint64_t seed = 43;
    struct wing w;
    struct pl_place_view view;
    wing_build(&w, &front_wing);
    wing_section(&w, 0, 0.2, &view);
    for (int i = 0; i < 100; i++) {
        struct pl_internal f = random_forces(&seed);
        struct pl_internal twice = {2 * f.shear_z_n, 2 * f.shear_x_n, 2 * f.moment_flap_nm, 2 * f.moment_lead_nm,
                                    2 * f.torque_nm};
        struct pl_weakest one = search(&w, &view, &f, 1e9), two = search(&w, &view, &twice, 1e9);
        if (one.mode == PL_MODES)
            continue;
        assert_close(two.reserve, one.reserve / 2, 1e-9);
        assert_int_equal(two.mode, one.mode);
    }
    wing_free(&w);
}

/* ---- tubes ---- */

/* A round tube of radius 50 mm on foam of 14/5 MPa, three plain plies at 45 degrees: wall 0.50267 mm. */
static void round_make(struct wing *w, struct pl_place_view *view, const char *layup, const char *allowables)
{
    struct wing_text text = oval_text(100, 0.5, 500);
    text.core = NULL;
    text.layup = layup;
    text.allowables = allowables;
    wing_build(w, &text);
    wing_section(w, 0, 0.2, view);
}

static void a_skin_wrinkles_in_pure_shear_across_its_threads(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    round_make(&w, &view, say_skin("plain", 45, 3), NULL);
    struct pl_internal f = {.torque_nm = 10};
    struct pl_weakest found = search(&w, &view, &f, 1e6);
    double t = 3 * 0.163 / (2560 * 0.38), stress = 10 / (2 * view.section.cell_area_m2 * t);
    assert_int_equal(found.mode, PL_MODE_WRINKLING);
    assert_close(found.reserve * stress, 53.0e6, 1e-3);  /* F5.9 */
    assert_close(-found.stress_pa, stress, 1e-6);
    /* the other way round the same, threads lying both ways */
    f.torque_nm = -10;
    assert_close(search(&w, &view, &f, 1e6).reserve, found.reserve, 1e-9);
    wing_free(&w);
    /* three quarters of the core's product: the cube root of it */
    round_make(&w, &view, say_skin("plain", 45, 3), "'knockdown': 1, 'core_knockdown': 0.75, 'criterion': 'tsai-wu'");
    assert_close(search(&w, &view, &f, 1e6).reserve, found.reserve * cbrt(0.75), 1e-9);
    wing_free(&w);
}

static void a_skin_wrinkles_on_the_side_that_is_pressed(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    round_make(&w, &view, say_skin("uni", 0, 2), NULL);
    struct pl_internal f = {.moment_flap_nm = 10};
    struct pl_weakest up = search(&w, &view, &f, 1e6);
    f.moment_flap_nm = -10;
    struct pl_weakest down = search(&w, &view, &f, 1e6);
    assert_true(up.mode == PL_MODE_WRINKLING && up.side == PL_TOP && down.mode == PL_MODE_WRINKLING
                && down.side == PL_BOTTOM);
    assert_true(fabs(up.fraction - 0.5) < 0.02 && fabs(down.fraction - 0.5) < 0.02);
    assert_close(up.reserve, down.reserve, 1e-6);
    /* stress M E r / EI on the middle line, against 64.7 MPa of 31 GPa on 14/5 MPa foam (F5.9) */
    double t = 2 * 0.310 / (2560 * 0.42), r = 0.05 + t / 2, stress = 10 * 31e9 * r / view.section.ei_flap_nm2;
    assert_close(up.reserve * stress, 64.7e6, 1e-3);
    wing_free(&w);
}

static void the_nose_does_not_wrinkle(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    round_make(&w, &view, say_skin("uni", 0, 2), NULL);
    struct pl_internal f = {.moment_lead_nm = -10};  /* presses the nose */
    struct pl_weakest nose = search(&w, &view, &f, 1e6);
    f.moment_lead_nm = 10;
    struct pl_weakest tail = search(&w, &view, &f, 1e6);
    assert_close(nose.fraction, 0.1, 1e-6);
    assert_close(tail.fraction, 1, 1e-6);
    /* stress goes with the distance from the middle: 0.4 against 0.5 of the chord */
    assert_close(tail.reserve / nose.reserve, 0.8, 2e-3);
    wing_free(&w);
}

static void a_strong_core_leaves_the_failure_to_the_outermost_ply(void **state)
{
    (void)state;
    struct wing_text text = oval_text(100, 0.5, 500);
    text.core = "'kind': 'balsa', 'density_kgm3': 150, 'e_mpa': 4000, 'g_mpa': 160, 'shear_strength_mpa': 400,"
                " 'compressive_strength_mpa': 400";
    text.layup = "{'name': 'inner', 'fabric': 'uni', 'angle_deg': 0, 'plies': 2, 'side': 'both', 'chord_from': 0,"
                 " 'chord_to': 1},{'name': 'outer', 'fabric': 'uni', 'angle_deg': 0, 'plies': 1, 'side': 'both',"
                 " 'chord_from': 0, 'chord_to': 1}";
    struct wing w;
    struct pl_place_view view;
    text.allowables = "'knockdown': 1, 'core_knockdown': 1, 'criterion': 'max-stress'";
    wing_build(&w, &text);
    wing_section(&w, 0, 0.2, &view);
    struct pl_internal f = {.moment_flap_nm = 100};
    struct pl_weakest found = search(&w, &view, &f, 1e6);
    /* s1 = E1 e on the middle line; the outer ply a ply farther out strains more along alone: Q11 more.  420 MPa */
    double ply = 0.310 / (2560 * 0.42), curvature = 100 / view.section.ei_flap_nm2;
    double stress = curvature * (31e9 * (0.05 + 1.5 * ply) + 31e9 / (1 - 0.28 * 0.28 * 8 / 31) * ply);
    assert_int_equal(found.mode, PL_MODE_PLY);
    assert_string_equal(w.part.elements[0].layup[found.item].name, "outer");
    assert_close(found.reserve, 420e6 / stress, 1e-4);
    assert_close(found.stress_pa, -stress, 1e-4);
    wing_free(&w);
}

static void the_core_shears_with_the_section(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(100, 0.5, 500);
    text.core = "'kind': 'foam', 'density_kgm3': 30, 'e_mpa': 14, 'g_mpa': 5, 'shear_strength_mpa': 0.02,"
                " 'compressive_strength_mpa': 1";
    text.allowables = "'knockdown': 1, 'core_knockdown': 0.5, 'criterion': 'tsai-wu'";
    wing_build(&w, &text);
    wing_section(&w, 0, 0.2, &view);
    struct pl_internal f = {.shear_z_n = -1000};
    struct pl_weakest found = search(&w, &view, &f, 1e6);
    double stress = 5e6 * 1000 / view.section.shear_stiffness_n;  /* G V / S */
    assert_int_equal(found.mode, PL_MODE_CORE_SHEAR);
    assert_close(found.reserve, 0.5 * 0.02e6 / stress, 1e-9);
    assert_close(found.stress_pa, stress, 1e-9);
    assert_true(isnan(found.fraction));
    wing_free(&w);
}

/* ---- pads ---- */

static struct pl_weakest pad_of(double knockdown, double length_m, double width_m, double force_n, double depth_m)
{
    struct pl_strength_rules rules = {.core_shear_pa = 0.21e6 * knockdown, .core_crush_pa = 0.28e6 * knockdown};
    struct pl_pad pad = {.acts_at = 0.35, .length_m = length_m, .width_m = width_m};
    struct pl_weakest weakest = {.reserve = 999, .mode = PL_MODES};
    pl_pad_weakest(&rules, &pad, force_n, depth_m, &weakest);
    return weakest;
}

static void pads_crush_the_core_as_the_handbook_says(void **state)
{
    (void)state;
    double pad_n = 190 * 9.80665 * 1.4 / 2;
    assert_close(pad_n, 1304.3, 1e-4);  /* F4.6 */
    struct pl_weakest crushed = pad_of(1, 0.060, 0.090, 1.5 * pad_n, 1);
    assert_int_equal(crushed.mode, PL_MODE_CORE_CRUSH);
    assert_close(crushed.reserve, 0.773, 1e-3);
    assert_close(crushed.stress_pa, 0.3623e6, 1e-4);
    assert_close(pad_of(1, 0.060, 0.117, 1.5 * pad_n, 1).reserve, 1.005, 1e-3);
    assert_close(pad_of(0.75, 0.060, 0.090, 1.2 * 1.5 * pad_n, 1).reserve, 0.483, 1e-3);
    struct pl_weakest punched = pad_of(0.75, 0.100, 0.140, 2122.6, 32.06e-3);
    assert_int_equal(punched.mode, PL_MODE_PAD_SHEAR);
    assert_close(punched.reserve, 1.142, 3e-4);
    assert_close(punched.reserve * 2122.6, 2423.5, 2e-4);
}

static void a_pad_that_holds_longer_than_what_is_known_changes_nothing(void **state)
{
    (void)state;
    struct pl_strength_rules rules = {.core_shear_pa = 0.21e6, .core_crush_pa = 0.28e6};
    struct pl_pad pad = {.length_m = 0.1, .width_m = 0.1};
    struct pl_weakest weakest = {.reserve = 0.5, .mode = PL_MODE_PLY, .item = 3};
    pl_pad_weakest(&rules, &pad, 1, 0.03, &weakest);
    assert_true(weakest.reserve == 0.5 && weakest.mode == PL_MODE_PLY && weakest.item == 3);
}

static void modes_have_the_names_of_the_contract(void **state)
{
    (void)state;
    static const char *const names[] = {"ply", "wrinkling", "core-shear", "core-crush", "pad-shear", "nose-crush"};
    for (int m = 0; m < PL_MODES; m++)
        assert_string_equal(pl_mode_name((enum pl_mode)m), names[m]);
    assert_int_equal(PL_MODES, 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_quick_search_never_hides_a_lower_reserve),
        cmocka_unit_test(the_load_twice_leaves_half_the_reserve),
        cmocka_unit_test(a_skin_wrinkles_in_pure_shear_across_its_threads),
        cmocka_unit_test(a_skin_wrinkles_on_the_side_that_is_pressed),
        cmocka_unit_test(the_nose_does_not_wrinkle),
        cmocka_unit_test(a_strong_core_leaves_the_failure_to_the_outermost_ply),
        cmocka_unit_test(the_core_shears_with_the_section),
        cmocka_unit_test(pads_crush_the_core_as_the_handbook_says),
        cmocka_unit_test(a_pad_that_holds_longer_than_what_is_known_changes_nothing),
        cmocka_unit_test(modes_have_the_names_of_the_contract),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
