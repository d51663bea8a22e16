/* Whole parts: closed forms and the contract's rules of a check. */
#include "../structure/tubes.h"

#include <string.h>


/* ---- closed forms ---- */

static void a_tube_clamped_in_the_middle_is_a_cantilever(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(100, 0.5, 500);
    text.cases = say("%s, %s", say_point("middle", 500, 0.5, "up", 100, 1), say_point("nose", 500, 0, "up", 100, 1));
    wing_make(&w, &text);
    const struct pl_section *s = wing_section(&w, 0, 0.2, &view);
    const struct pl_case_result *c = wing_case(&w, "middle");
    double bending = 100 * 0.125 / (3 * s->ei_flap_nm2), shear = 100 * 0.5 / s->shear_stiffness_n;
    assert_close(c->given.tip_m, bending + shear, 1e-4);
    assert_close(c->given.at_load_m, bending + shear, 1e-4);
    assert_close(c->given.largest_y_m, 0.5, 1e-12);
    assert_close(wing_row(c, 0.3)->moment_nm, 100 * 0.2, 1e-9);
    assert_close(wing_row(c, 0.3)->shear_n, 100, 1e-9);
    assert_true(wing_row(c, -0.3)->moment_nm == 0 && fabs(wing_row(c, -0.5)->deflection_m) < 1e-12);
    assert_false(c->has_pinned);
    /* at the nose: e = 50 mm ahead of the shear centre, twist P e L / GJ nose up, and e of it more at the nose */
    const struct pl_case_result *n = wing_case(&w, "nose");
    double twist = 100 * s->x_shear_centre_m * 0.5 / s->gj_nm2;
    assert_close(wing_row(n, 0.5)->twist_rad, twist, 1e-4);
    assert_close(wing_row(n, 0.3)->torque_nm, 100 * s->x_shear_centre_m, 1e-6);
    assert_close(n->given.nose_m - n->given.tip_m, twist * s->x_shear_centre_m, 1e-4);
    assert_close(n->given.tip_m - n->given.tail_m, twist * (0.1 - s->x_shear_centre_m), 1e-4);
    assert_close(n->given.at_load_m, n->given.nose_m, 1e-12);
    wing_free(&w);
}

static void a_place_of_the_chord_turns_with_the_section(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = oval_text(100, 0.5, 500);
    text.element = "'incidence_deg': 60";
    text.cases = say("%s, %s", say_point("nose", 500, 0, "up", 100, 1), say_point("tail", 500, 1, "up", 100, 1));
    wing_make(&w, &text);
    /* the middle of the chord stands 50 mm x cos 60 behind the nose, as far ahead of the tail */
    assert_close(wing_row(wing_case(&w, "nose"), 0.3)->torque_nm, 100 * 0.025, 1e-3);
    assert_close(wing_row(wing_case(&w, "tail"), 0.3)->torque_nm, -100 * 0.025, 1e-3);
    wing_free(&w);
}

static void the_front_wing_carries_the_loads_of_the_handbook(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    const struct pl_case_result *c = wing_case(&w, "top speed");
    assert_close(c->total_force_n, -1595.8, 5e-5);  /* F4.1 */
    assert_close(wing_row(c, 0.17)->shear_n, -2 * 265.63, 1e-4);  /* F4.3, factor 2 */
    assert_close(wing_row(c, 0.17)->moment_nm, -2 * 51.945, 1e-4);
    assert_close(wing_row(c, -0.17)->shear_n, 2 * 265.63, 1e-4);
    c = wing_case(&w, "pit jack");
    assert_close(c->total_force_n, 1.5 * 185 * 9.80665 * 1.3, 1e-12);
    assert_close(wing_case(&w, "scrutineer")->total_force_n, -300, 1e-12);
    wing_free(&w);
}

/* Overhang 0.47 outside mounts at -+0.17, tip loads on a pair of wings: F7.2 with a tube, where shear is small. */
static void a_clamped_mount_is_as_optimistic_as_the_handbook_says(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = oval_text(60, 0.5, 640);
    text.mounts = "{'name': 'l', 'y_mm': -170, 'hold': 'clamped'}, {'name': 'r', 'y_mm': 170, 'hold': 'clamped'}";
    text.cases = "{'name': 'tips', 'kind': 'jacking', 'element': 'main', 'factor': 1, 'supported_mass_kg': 20,"
                 " 'dynamic_factor': 1, 'uneven': 0, 'pads': [{'y_mm': -639, 'acts_at': 0.5, 'length_mm': 2,"
                 " 'width_mm': 50}, {'y_mm': 639, 'acts_at': 0.5, 'length_mm': 2, 'width_mm': 50}]}";
    wing_make(&w, &text);
    const struct pl_section *s = wing_section(&w, 0, 0.2, &view);
    const struct pl_case_result *c = wing_case(&w, "tips");
    double p = 10 * 9.80665, a = 0.469, m = 0.17, beyond = 0.001, ei = s->ei_flap_nm2,
           sag = p * a / s->shear_stiffness_n;
    double clamped = p * a * a * a / (3 * ei) + p * a * a / (2 * ei) * beyond,
           pinned = clamped + p * a * m / ei * (a + beyond);
    assert_close(c->given.tip_m, clamped + sag, 2e-4);
    assert_close(c->pinned.tip_m, pinned + sag, 2e-4);
    assert_close((c->pinned.tip_m - sag) / (c->given.tip_m - sag), 2.085, 2e-3);  /* there for loads at the very tip */
    wing_free(&w);
}

static void pads_of_a_jack_crush_and_punch_the_core(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = front_wing;
    const char *jack = "{'name': 'pit jack', 'kind': 'jacking', 'element': 'main', 'factor': 1.5,"
                       " 'supported_mass_kg': 185, 'dynamic_factor': 1.3, 'uneven': 0.2, 'pads': [{'y_mm': -230,"
                       " 'acts_at': 0.35, 'length_mm': 30, 'width_mm': 30}, {'y_mm': 230, 'acts_at': 0.35,"
                       " 'length_mm': 30, 'width_mm': 30}]}";
    text.cases = jack;
    text.limits = NULL;
    wing_make(&w, &text);
    const struct pl_lowest *lowest = &wing_case(&w, "pit jack")->least;
    /* F4.6: one pad 2122.6 N; on 30 x 30 mm of 0.75 x 0.28 MPa */
    assert_int_equal(lowest->mode, PL_MODE_CORE_CRUSH);
    assert_close(lowest->reserve, 0.75 * 0.28e6 * 0.0009 / 2122.6, 5e-5);
    assert_close(lowest->y_m, 0.230, 1e-12);
    assert_string_equal(lowest->item, "foam");
    wing_free(&w);
    text.core = "'kind': 'polystyrene', 'density_kgm3': 33, 'e_mpa': 14, 'g_mpa': 5, 'shear_strength_mpa': 0.21,"
                " 'compressive_strength_mpa': 100, 'max_c': 70";
    wing_make(&w, &text);
    lowest = &wing_case(&w, "pit jack")->least;
    assert_int_equal(lowest->mode, PL_MODE_PAD_SHEAR);
    /* 0.75 x 0.21 MPa round 120 mm of 32.06 mm depth */
    assert_close(lowest->reserve, 0.75 * 0.21e6 * 0.120 * 32.06e-3 / 2122.6, 1e-3);
    assert_int_equal(wing_row(wing_case(&w, "pit jack"), 0.240)->mode, PL_MODE_PAD_SHEAR);
    assert_close(wing_row(wing_case(&w, "pit jack"), 0.240)->reserve, lowest->reserve, 1e-12);
    wing_free(&w);
}

/* ---- strikes ---- */

static const char *strike(const char *more, double factor)
{
    return say("{'name': 'strike', 'kind': 'tip-strike', 'element': 'main', 'factor': %g, 'acts_at': 0.2,"
               " 'direction': 'up', %s},{'name': 'probe', 'kind': 'point', 'element': 'main', 'factor': 1,"
               " 'y_mm': 640, 'acts_at': 0.2, 'direction': 'up', 'force_n': 1}", factor, more);
}

static void a_strike_brings_the_force_of_its_energy(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = front_wing;
    text.limits = NULL;
    text.cases = strike("'moving_mass_kg': 6, 'closing_speed_ms': 1.1", 1.25);
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "strike"), *probe = wing_case(&w, "probe");
    /* F4.7: F = v sqrt(k m), k of the mounts in hand, before the factor */
    double force = 1.1 * sqrt(6 / probe->given.at_load_m), force_pinned = 1.1 * sqrt(6 / probe->pinned.at_load_m);
    assert_close(c->given.total_force_n, 1.25 * force, 1e-9);
    assert_close(c->pinned.total_force_n, 1.25 * force_pinned, 1e-9);
    assert_close(c->total_force_n, c->given.total_force_n, 0);
    assert_close(c->given.at_load_m, 1.25 * 1.1 * sqrt(6 * probe->given.at_load_m), 1e-9);
    assert_true(force_pinned < force);
    wing_free(&w);
    /* more speed than the obstacle can push: k x travel, so the point moves by travel x factor on either mounts */
    text.cases = strike("'moving_mass_kg': 60, 'closing_speed_ms': 0.8, 'travel_mm': 10", 1.25);
    wing_make(&w, &text);
    c = wing_case(&w, "strike");
    assert_close(c->given.at_load_m, 12.5e-3, 1e-9);
    assert_close(c->pinned.at_load_m, 12.5e-3, 1e-9);
    wing_free(&w);
    /* a force that is given is the force */
    text.cases = strike("'force_n': 345", 1.25);
    wing_make(&w, &text);
    assert_close(wing_case(&w, "strike")->total_force_n, 1.25 * 345, 1e-12);
    wing_free(&w);
}

static void a_stiffer_wing_is_struck_harder(void **state)
{
    (void)state;
    double before = 0;
    for (int plies = 1; plies <= 9; plies += 2) {
        struct wing w;
        struct wing_text text = {.layup = say_caps(plies, plies), .cases = strike("'moving_mass_kg': 6,"
                                                                                  " 'closing_speed_ms': 1.1", 1)};
        wing_make(&w, &text);
        double force = wing_case(&w, "strike")->total_force_n;
        assert_true(force > before);
        before = force;
        wing_free(&w);
    }
}

/* ---- what a check says ---- */

static const char *jack_on(const char *pads, double uneven)
{
    return say("{'name': 'jack', 'kind': 'jacking', 'element': 'main', 'factor': 1.5, 'supported_mass_kg': 120,"
               " 'dynamic_factor': 1.2, 'uneven': %g, 'pads': [%s]}", uneven, pads);
}

#define PAD(y) "{'y_mm': " #y ", 'acts_at': 0.35, 'length_mm': 80, 'width_mm': 90}"

static void a_pad_that_carries_more_leaves_less_to_the_others(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = {.mounts = "{'name': 'middle', 'y_mm': 0, 'hold': 'clamped'}"};
    text.cases = jack_on(PAD(200) "," PAD(400), 0.3);
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "jack");
    /* the outer pad has the longer arm: at 1.3/2 of the whole its root moment is W (0.65 x 0.4 + 0.35 x 0.2) */
    double whole = 1.5 * 120 * 9.80665 * 1.2;
    assert_int_equal(c->given.variant, 1);
    assert_close(c->total_force_n, whole, 1e-12);
    assert_close(wing_row(c, 0)->moment_nm, whole * (0.65 * 0.4 + 0.35 * 0.2), 1e-9);
    assert_close(wing_row(c, 0.3)->shear_n, whole * 0.65, 1e-9);
    wing_free(&w);
    text.cases = jack_on(PAD(150) "," PAD(300) "," PAD(450), 0.6);
    wing_make(&w, &text);
    c = wing_case(&w, "jack");
    /* 1.6/3, the others (1 - 1.6/3)/2 each */
    assert_int_equal(c->given.variant, 2);
    assert_close(wing_row(c, 0)->moment_nm, whole * (1.6 / 3 * 0.45 + (1 - 1.6 / 3) / 2 * 0.45), 1e-9);
    wing_free(&w);
}

static void equal_shares_and_a_single_pad_are_even(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = {.cases = jack_on(PAD(-300) "," PAD(300), 0)};
    wing_make(&w, &text);
    assert_int_equal(wing_case(&w, "jack")->given.variant, PL_VARIANT_EVEN);
    assert_int_equal(wing_case(&w, "jack")->pinned.variant, PL_VARIANT_EVEN);
    assert_true(wing_case(&w, "jack")->least.y_m > 0);
    wing_free(&w);
    text.cases = jack_on(PAD(-300), 0.2);
    wing_make(&w, &text);
    assert_int_equal(wing_case(&w, "jack")->given.variant, PL_VARIANT_EVEN);
    wing_free(&w);
    /* of two pads alike the right one is told, being farther right */
    text.cases = jack_on(PAD(-300) "," PAD(300), 0.2);
    wing_make(&w, &text);
    assert_int_equal(wing_case(&w, "jack")->given.variant, 1);
    assert_true(wing_case(&w, "jack")->given.lowest.y_m > 0);
    wing_free(&w);
}

static void the_least_is_that_of_every_solution(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    double worst = HUGE_VAL;
    for (size_t i = 0; i < w.verdict->n_cases; i++) {
        const struct pl_case_result *c = &w.verdict->cases[i];
        assert_true(c->has_pinned);
        double least = fmin(c->given.lowest.reserve, c->pinned.lowest.reserve);
        assert_close(c->least.reserve, least, 2e-6);
        assert_int_equal(c->least_pinned, c->pinned.lowest.reserve < c->given.lowest.reserve * (1 - 1e-6));
        double row = HUGE_VAL;
        for (size_t k = 0; k < c->n_rows; k++)
            row = fmin(row, c->rows[k].reserve);
        assert_close(row, c->given.lowest.reserve, 2e-6);
        worst = fmin(worst, c->least.reserve);
    }
    assert_close(w.verdict->cases[w.verdict->worst_case].least.reserve, worst, 2e-6);
    wing_free(&w);
}

static void limits_are_judged_by_the_greatest_way_without_the_factor(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = {.cases = say_point("push", 600, 0.2, "up", 100, 2)};
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "push");
    const struct pl_solution *p = &c->pinned;
    double most = 0.5 * fmax(fmax(fabs(p->tip_m), fabs(p->nose_m)), fmax(fabs(p->tail_m), fabs(p->at_load_m)));
    double mass = w.verdict->mass_kg, reserve = c->least.reserve;
    assert_true(most > fabs(c->given.nose_m) / 2);
    assert_close(fabs(c->tip_most_m), most, 1e-12);
    assert_true(c->holds && w.verdict->holds && w.verdict->mass_holds);
    wing_free(&w);
    for (int i = 0; i < 3; i++) {
        double tip_mm = 1e3 * most * (i == 1 ? 0.9999 : 1.0001), mass_kg = mass * (i == 2 ? 0.9999 : 1.0001);
        text.limits = say("'tip_deflection_mm': {'push': %.15g}, 'mass_kg': %.15g", tip_mm, mass_kg);
        wing_make(&w, &text);
        assert_int_equal(wing_case(&w, "push")->holds, i == 0 || i == 2);
        assert_int_equal(w.verdict->mass_holds, i != 2);
        assert_int_equal(w.verdict->holds, i == 0);
        wing_free(&w);
    }
    /* without any limit: a reserve of just above and just below 1 */
    text.limits = NULL;
    for (int i = 0; i < 2; i++) {
        text.cases = say_point("push", 600, 0.2, "up", 100 * reserve * (i ? 1.0001 : 0.9999), 2);
        wing_make(&w, &text);
        assert_int_equal(wing_case(&w, "push")->holds, i == 0);
        assert_int_equal(w.verdict->holds, i == 0);
        wing_free(&w);
    }
}

static void stations_run_from_tip_to_tip_and_stand_wherever_something_does(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    /* kinks, piece ends, mounts, pad edges and middles, the push; their mirrors too */
    static const double places[] = {0,    0.17,  0.64, 0.29,  0.36, 0.43,  0.50, 0.57, 0.30, 0.385,
                                    0.47, 0.555, 0.24, 0.225, 0.1,  0.115, 0.18, 0.23, 0.28, 0.60};
    for (size_t k = 0; k < w.verdict->n_cases; k++) {
        const struct pl_case_result *c = &w.verdict->cases[k];
        assert_true(c->rows[0].y_m == -0.64 && c->rows[c->n_rows - 1].y_m == 0.64);
        for (size_t i = 1; i < c->n_rows; i++)
            assert_true(c->rows[i].y_m > c->rows[i - 1].y_m && c->rows[i].y_m < c->rows[i - 1].y_m + 0.010 + 1e-9);
        for (size_t i = 0; i < sizeof places / sizeof *places; i++)
            assert_true(fabs(wing_row(c, places[i])->y_m - places[i]) < 1e-9
                        && fabs(wing_row(c, -places[i])->y_m + places[i]) < 1e-9);
    }
    wing_free(&w);
}

static void a_wing_without_load_to_speak_of_has_the_most_reserve(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = {.cases = say_point("breath", 0, 0.3, "up", 1e-9, 1)};
    wing_make(&w, &text);
    assert_true(wing_case(&w, "breath")->least.reserve == PL_MOST_RESERVE);
    assert_true(wing_row(wing_case(&w, "breath"), 0.5)->reserve == PL_MOST_RESERVE);
    wing_free(&w);
    text.cases = "";
    wing_make(&w, &text);
    assert_true(w.verdict->worst_case == PL_NONE && w.verdict->holds && w.verdict->n_cases == 0);
    wing_free(&w);
}

static void heat_lowers_what_the_resin_carries(void **state)
{
    (void)state;
    double reserve[2];
    for (int i = 0; i < 2; i++) {
        struct wing w;
        struct wing_text text = {
            /* foam that neither wrinkles nor shears, so that compression of the cloth governs: F5.10, factor .760 */
            .core = "'kind': 'balsa', 'density_kgm3': 150, 'e_mpa': 4000, 'g_mpa': 400, 'shear_strength_mpa': 90,"
                    " 'compressive_strength_mpa': 90, 'max_c': 90",
            .resin = "'kind': 'epoxy', 'density_kgm3': 1150, 'mix_ratio_by_weight': [100, 30], 'pot_life_min': 40,"
                     " 'pot_life_at_c': 25, 'tg_dry_c': 75, 'tg_wet_c': 65",
            .allowables =
                say("'knockdown': 1, 'core_knockdown': 1, 'service_c': %d, 'criterion': 'max-stress'", i ? 35 : 10),
            .layup = say_skin("plain", 0, 3),
            .cases = say_point("push", 640, 0.2, "up", 100, 1)};
        wing_make(&w, &text);
        assert_int_equal(wing_case(&w, "push")->given.lowest.mode, PL_MODE_PLY);
        reserve[i] = wing_case(&w, "push")->given.lowest.reserve;
        wing_free(&w);
    }
    assert_close(reserve[1] / reserve[0], sqrt(30.0 / 52), 1e-9);
}

static void what_is_not_checked_is_said(void **state)
{
    (void)state;
    static const char *const least[] = {"brackets", "bonds", "end plates"};  /* contract */
    for (size_t i = 0; i < 3; i++) {
        size_t found = 0;
        for (const char *const *word = pl_check_not_checked(&(struct pl_part){0}); *word; word++)
            found += !strcmp(*word, least[i]);
        assert_int_equal(found, 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tube_clamped_in_the_middle_is_a_cantilever),
        cmocka_unit_test(a_place_of_the_chord_turns_with_the_section),
        cmocka_unit_test(the_front_wing_carries_the_loads_of_the_handbook),
        cmocka_unit_test(a_clamped_mount_is_as_optimistic_as_the_handbook_says),
        cmocka_unit_test(pads_of_a_jack_crush_and_punch_the_core),
        cmocka_unit_test(a_strike_brings_the_force_of_its_energy),
        cmocka_unit_test(a_stiffer_wing_is_struck_harder),
        cmocka_unit_test(a_pad_that_carries_more_leaves_less_to_the_others),
        cmocka_unit_test(equal_shares_and_a_single_pad_are_even),
        cmocka_unit_test(the_least_is_that_of_every_solution),
        cmocka_unit_test(limits_are_judged_by_the_greatest_way_without_the_factor),
        cmocka_unit_test(stations_run_from_tip_to_tip_and_stand_wherever_something_does),
        cmocka_unit_test(a_wing_without_load_to_speak_of_has_the_most_reserve),
        cmocka_unit_test(heat_lowers_what_the_resin_carries),
        cmocka_unit_test(what_is_not_checked_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
