/* Laws that any wing obeys: mirror, linearity, balance, scale, freedom, convergence. */
#include "../structure/tubes.h"

#include <stdio.h>

/* A wing with sweep, dihedral, taper, twist and cloth that couples. */
static struct wing_text odd_wing(const char *cases)
{
    return (struct wing_text){
        .profiles = "{'name': 'section', 'naca': '6412'}, {'name': 'tip', 'naca': '23010'}",
        .element = "'inverted': true, 'incidence_deg': 4",
        .stations = "{'y_mm': 0, 'chord_mm': 290, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'},"
                    "{'y_mm': 200, 'chord_mm': 280, 'x_le_mm': 15, 'z_le_mm': 5, 'twist_deg': 1, 'profile': 'section'},"
                    "{'y_mm': 640, 'chord_mm': 200, 'x_le_mm': 120, 'z_le_mm': 60, 'twist_deg': -3, 'profile': 'tip'}",
        .layup = say("%s, {'name': 'strip', 'fabric': 'uni', 'angle_deg': 25, 'plies': 4, 'side': 'top',"
                     " 'centre_at': 0.3, 'width_mm': 60, 'half_length_mm': 600, 'drop_mm': 90}, {'name': 'patch',"
                     " 'fabric': 'plain', 'angle_deg': 20, 'plies': 2, 'side': 'bottom', 'chord_from': 0.1,"
                     " 'chord_to': 0.7, 'half_length_mm': 300, 'from_mm': 60, 'drop_mm': 15}",
                     say_skin("plain", 30, 2)),
        .cases = cases,
    };
}

static void a_load_mirrored_gives_the_same_mirrored(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text =
        odd_wing(say("%s, %s", say_point("right", 420, 0.1, "up", 80, 1), say_point("left", -420, 0.1, "up", 80, 1)));
    wing_make(&w, &text);
    const struct pl_case_result *right = wing_case(&w, "right"), *left = wing_case(&w, "left");
    assert_close(left->least.reserve, right->least.reserve, 1e-6);
    assert_close(left->least.y_m, -right->least.y_m, 1e-9);
    assert_int_equal(left->least.mode, right->least.mode);
    assert_close(left->given.tip_m, right->given.tip_m, 1e-6);
    assert_close(left->pinned.at_load_m, right->pinned.at_load_m, 1e-6);
    assert_int_equal(left->n_rows, right->n_rows);
    for (size_t i = 0; i < left->n_rows; i++) {
        const struct pl_check_row *l = &left->rows[i], *r = &right->rows[left->n_rows - 1 - i];
        assert_true(l->y_m == -r->y_m);
        assert_true(fabs(l->shear_n + r->shear_n) < 1e-6 && fabs(l->moment_nm - r->moment_nm) < 1e-6);
        assert_true(fabs(l->torque_nm + r->torque_nm) < 1e-6);
        assert_true(fabs(l->deflection_m - r->deflection_m) < 1e-9 && fabs(l->twist_rad - r->twist_rad) < 1e-8);
        assert_close(l->reserve, r->reserve, 1e-5);
    }
    wing_free(&w);
}

static void a_symmetric_load_on_a_wing_that_couples_stays_symmetric(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = odd_wing("{'name': 'air', 'kind': 'downforce', 'element': 'main', 'factor': 2,"
                                     " 'speed_kmh': 180, 'air_density_kgm3': 1.2, 'distribution': 'uniform',"
                                     " 'coefficient': 1, 'acts_at': 0.4}");
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "air");
    for (size_t i = 0; i < c->n_rows; i++) {
        const struct pl_check_row *l = &c->rows[i], *r = &c->rows[c->n_rows - 1 - i];
        assert_true(fabs(l->deflection_m - r->deflection_m) < 1e-10 && fabs(l->moment_nm - r->moment_nm) < 1e-7);
        assert_close(l->reserve, r->reserve, 1e-6);
    }
    assert_true(c->least.y_m >= 0);  /* of equals the right-hand is told */
    /* contract, rule 5: q S C, down, whichever way up it is; S 2 (0.2 x 0.285 + 0.44 x 0.24) */
    assert_close(c->total_force_n, -2 * 0.5 * 1.2 * 2500 * 2 * (0.2 * 0.285 + 0.44 * 0.24), 1e-12);
    wing_free(&w);
}

static void twice_the_factor_halves_the_reserve_and_doubles_the_way(void **state)
{
    (void)state;
    struct wing w[2];
    for (int i = 0; i < 2; i++) {
        double f = i + 1;
        struct wing_text text = odd_wing(say(
            "%s, {'name': 'air', 'kind': 'downforce', 'element': 'main', 'factor': %g, 'speed_kmh': 180,"
            " 'air_density_kgm3': 1.2, 'distribution': 'elliptic', 'coefficient': 1, 'acts_at': 0.4}, {'name': 'jack',"
            " 'kind': 'jacking', 'element': 'main', 'factor': %g, 'supported_mass_kg': 100, 'dynamic_factor': 1.3,"
            " 'uneven': 0.3, 'pads': [{'y_mm': -230, 'acts_at': 0.35, 'length_mm': 100, 'width_mm': 140},"
            " {'y_mm': 230, 'acts_at': 0.35, 'length_mm': 100, 'width_mm': 140}]}",
            say_point("push", 500, 0.3, "down", 100, f), f, f));
        wing_make(&w[i], &text);
    }
    for (size_t c = 0; c < 3; c++) {
        const struct pl_case_result *one = &w[0].verdict->cases[c], *two = &w[1].verdict->cases[c];
        assert_close(two->least.reserve, one->least.reserve / 2, 1e-6);
        assert_close(two->given.tip_m, one->given.tip_m * 2, 1e-9);
        assert_close(two->pinned.largest_m, one->pinned.largest_m * 2, 1e-9);
        assert_close(two->total_force_n, one->total_force_n * 2, 1e-12);
        assert_close(two->tip_most_m, one->tip_most_m, 1e-9);  /* a limit is compared without the factor */
        assert_int_equal(two->given.variant, one->given.variant);
    }
    wing_free(&w[0]);
    wing_free(&w[1]);
}

/* Mounts, the push of the scrutineer, the kerb: of a jump only the greater side is printed. */
static bool jumps_at(double y_m)
{
    static const double places[] = {-0.17, 0.17, -0.6, 0.64};
    for (size_t i = 0; i < 4; i++)
        if (fabs(y_m - places[i]) < 1e-9)
            return true;
    return false;
}

static void moment_falls_by_the_shear(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    for (size_t k = 0; k < w.verdict->n_cases; k++) {
        const struct pl_case_result *c = &w.verdict->cases[k];
        for (size_t i = 0; i + 1 < c->n_rows; i++) {
            const struct pl_check_row *a = &c->rows[i], *b = &c->rows[i + 1];
            if (jumps_at(a->y_m) || jumps_at(b->y_m))
                continue;
            double fall = 0.5 * (a->shear_n + b->shear_n) * (b->y_m - a->y_m);
            /* the trapezium rule misses 2 mN m where an elliptic load starts at the tip */
            assert_true(fabs(a->moment_nm - b->moment_nm - fall) < 2.5e-3 + 1e-3 * fabs(fall));
        }
        assert_true(fabs(c->rows[0].shear_n) < 1e-6 || c->load_case->kind != PL_DOWNFORCE);
    }
    wing_free(&w);
}

static void reactions_carry_the_whole_load(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = odd_wing(say_point("push", -600, 0.3, "down", 200, 1.5));
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "push");
    /* shear is what acts on everything to the right: steps at -600, -170 and 170 mm */
    double left_end = wing_row(c, -0.63)->shear_n, outside = wing_row(c, -0.4)->shear_n,
           between = wing_row(c, 0.1)->shear_n;
    double right_end = wing_row(c, 0.4)->shear_n;
    assert_true(fabs(left_end) < 1e-9 && fabs(right_end) < 1e-9);
    assert_close(left_end - outside, -300, 1e-9);
    double reactions = (outside - between) + (between - right_end);
    assert_close(reactions, 300, 1e-9);
    /* moments about the middle: what the mounts leave in the beam between them is linear */
    double m1 = wing_row(c, -0.16)->moment_nm, m2 = wing_row(c, 0)->moment_nm, m3 = wing_row(c, 0.16)->moment_nm;
    assert_true(fabs(m1 - 2 * m2 + m3) < 1e-9);
    assert_close(m1 - m3, between * 0.32, 1e-6);
    wing_free(&w);
}

static void more_freedom_gives_more_way(void **state)
{
    (void)state;
    double before = 0;
    static const char *const holds[] = {"'hold': 'clamped'", "'hold': 'clamped', 'stiffness_nm_per_rad': 40000",
                                        "'hold': 'clamped', 'stiffness_nm_per_rad': 1500", "'hold': 'pinned'"};
    for (int i = 0; i < 4; i++) {
        struct wing w;
        struct wing_text text = odd_wing(say_point("push", 640, 0.3, "down", 100, 1));
        text.mounts = say("{'name': 'l', 'y_mm': -170, %s}, {'name': 'r', 'y_mm': 170, %s}", holds[i], holds[i]);
        wing_make(&w, &text);
        const struct pl_case_result *c = wing_case(&w, "push");
        assert_true(fabs(c->given.at_load_m) > before);
        before = fabs(c->given.at_load_m);
        assert_int_equal(c->has_pinned, i == 0);
        if (c->has_pinned)
            assert_true(fabs(c->pinned.at_load_m) > before);
        wing_free(&w);
    }
}

static void thicker_caps_never_lower_the_reserve_under_a_given_force(void **state)
{
    (void)state;
    double before = 0;
    for (int plies = 1; plies <= 14; plies++) {
        struct wing w;
        struct wing_text text = {.layup = say_caps(plies, plies), .cases = say_point("push", 640, 0.3, "up", 300, 1)};
        wing_make(&w, &text);
        double reserve = wing_case(&w, "push")->given.lowest.reserve;
        assert_true(reserve >= before);
        before = reserve;
        wing_free(&w);
    }
}

/* Every length, cloth included, times 2.5 and forces times its square: the same stresses, ways 2.5 times as far. */
static void a_wing_to_scale_has_the_same_reserve(void **state)
{
    (void)state;
    struct wing w[2];
    for (int i = 0; i < 2; i++) {
        double k = i ? 2.5 : 1;
        struct wing_text text = {
            .fabrics = say("{'name': 'plain', 'areal_weight_gsm': %.15g, 'fibre_density_kgm3': 2560,"
                           " 'fibre_volume_fraction': 0.38, 'e1_gpa': 17, 'e2_gpa': 14, 'g12_gpa': 3.2, 'nu12': 0.13,"
                           " 'xt_mpa': 240, 'xc_mpa': 190, 'yt_mpa': 200, 'yc_mpa': 150, 's_mpa': 45,"
                           " 'roll_width_mm': 1270}",
                           163 * k),
            .stations = say("{'y_mm': 0, 'chord_mm': %.15g, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0,"
                            " 'profile': 'section'},{'y_mm': %.15g, 'chord_mm': %.15g, 'x_le_mm': %.15g,"
                            " 'z_le_mm': %.15g, 'twist_deg': 2, 'profile': 'section'}",
                            300 * k, 640 * k, 200 * k, 40 * k, 12 * k),
            .layup = say("%s, {'name': 'strip', 'fabric': 'plain', 'angle_deg': 0, 'plies': 3, 'side': 'both',"
                         " 'centre_at': 0.3, 'width_mm': %.15g, 'half_length_mm': %.15g, 'drop_mm': %.15g}",
                         say_skin("plain", 30, 2), 70 * k, 500 * k, 80 * k),
            .mounts = say("{'name': 'l', 'y_mm': %.15g, 'hold': 'clamped'}, {'name': 'r', 'y_mm': %.15g,"
                          " 'hold': 'clamped'}",
                          -170 * k, 170 * k),
            .cases = say("%s, {'name': 'air', 'kind': 'downforce', 'element': 'main', 'factor': 1, 'speed_kmh': 150,"
                         " 'air_density_kgm3': 1.2, 'distribution': 'elliptic', 'coefficient': 1, 'acts_at': 0.4}",
                         say_point("push", 640 * k, 0.2, "up", 90 * k * k, 1)),
        };
        wing_make(&w[i], &text);
    }
    for (size_t c = 0; c < 2; c++) {
        const struct pl_case_result *small = &w[0].verdict->cases[c], *large = &w[1].verdict->cases[c];
        /* not to the last digit: stations stand 10 mm apart in either */
        assert_close(large->total_force_n, 6.25 * small->total_force_n, 1e-9);
        assert_close(large->given.lowest.reserve, small->given.lowest.reserve, 1e-4);
        assert_close(large->given.lowest.y_m, 2.5 * small->given.lowest.y_m, 1e-9);
        assert_close(large->given.tip_m, 2.5 * small->given.tip_m, 5e-4);
        assert_close(large->pinned.nose_m, 2.5 * small->pinned.nose_m, 5e-4);
    }
    assert_close(w[1].verdict->mass_kg, 2.5 * 2.5 * 2.5 * w[0].verdict->mass_kg, 1e-4);
    wing_free(&w[0]);
    wing_free(&w[1]);
}

/* The same wing with a station every 4 mm, so that cuts stand 4 mm apart and not 10. */
static void finer_stations_change_little(void **state)
{
    (void)state;
    enum { STATIONS = 99 };
    struct wing coarse, fine;
    struct wing_text text = front_wing;
    wing_make(&coarse, &text);
    static char list[32 * 1024];
    int at = 0;
    for (int i = 0; i <= STATIONS - 1; i++) {
        double y = i < 26 ? 170.0 * i / 26 : 170 + 470.0 * (i - 26) / (STATIONS - 27), part = fmax(0, (y - 170) / 470);
        at += snprintf(list + at, sizeof list - (size_t)at,
                       "%s{'y_mm': %.12g, 'chord_mm': %.12g, 'x_le_mm': %.12g,"
                       " 'z_le_mm': %.12g, 'twist_deg': %.12g,"
                       " 'profile': 'section'}",
                       i ? "," : "", y, 275 - 45 * part, 12 * part, 6 * part, -part);
    }
    text.stations = list;
    wing_make(&fine, &text);
    assert_close(fine.verdict->mass_kg, coarse.verdict->mass_kg, 1e-5);
    for (size_t c = 0; c < 4; c++) {
        const struct pl_case_result *a = &coarse.verdict->cases[c], *b = &fine.verdict->cases[c];
        assert_true(b->n_rows > a->n_rows + 60);
        assert_close(a->least.reserve, b->least.reserve, 5e-4);
        assert_close(a->given.tip_m, b->given.tip_m, 1e-3);
        assert_close(a->pinned.tip_m, b->pinned.tip_m, 1e-3);
    }
    wing_free(&coarse);
    wing_free(&fine);
}

/* Maxwell: a push at A moves B as a push at B moves A, each at its own chord fraction. */
static void two_places_give_to_each_other_alike(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text =
        odd_wing(say("%s, %s", say_point("a", 540, 0.5, "up", 100, 1), say_point("b", -400, 0.5, "up", 100, 1)));
    text.mounts = "{'name': 'l', 'y_mm': -170, 'hold': 'pinned'}, {'name': 'r', 'y_mm': 100, 'hold': 'clamped',"
                  " 'stiffness_nm_per_rad': 2500}";
    /* a straight wing, so that rows, which tell the way of the shear centre, say where the half chord went */
    text.stations = "{'y_mm': 0, 'chord_mm': 280, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'},"
                    "{'y_mm': 640, 'chord_mm': 280, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'}";
    text.element = "'incidence_deg': 0";
    wing_make(&w, &text);
    struct pl_place_view view;
    double moved[2];
    static const double other[] = {-0.4, 0.54};
    for (int i = 0; i < 2; i++) {
        const struct pl_check_row *row = wing_row(&w.verdict->cases[i], other[i]);
        assert_close(row->y_m, other[i], 1e-9);
        double behind = 0.14 - wing_section(&w, 0, other[i], &view)->x_shear_centre_m;
        moved[i] = row->deflection_m - row->twist_rad * behind;
    }
    assert_true(fabs(moved[0]) > 1e-5);
    assert_close(moved[0], moved[1], 1e-3);
    wing_free(&w);
}

static const char *const flap =
    "{'name': 'flap', 'incidence_deg': 0, 'stations': [{'y_mm': 0, 'chord_mm': 100, 'x_le_mm': 250, 'z_le_mm': 30,"
    " 'twist_deg': 0, 'profile': 'section'}, {'y_mm': 640, 'chord_mm': 100, 'x_le_mm': 250, 'z_le_mm': 30,"
    " 'twist_deg': 0, 'profile': 'section'}], 'core': 'foam', 'resin': 'resin', 'layup': [{'name': 'skin',"
    " 'fabric': 'plain', 'angle_deg': 45, 'plies': 3, 'side': 'both', 'chord_from': 0, 'chord_to': 1}],"
    " 'mounts': [{'name': 'l', 'y_mm': -640, 'hold': 'pinned', 'on': 'main', 'at': 0.9}, {'name': 'r', 'y_mm': 640,"
    " 'hold': 'pinned', 'on': 'main', 'at': 0.9}]}";

/* A flap hung on the tips, pressed evenly at x = 300 mm, loads them as two pushes there would. */
static void what_stands_on_an_element_leans_on_it_with_its_reactions(void **state)
{
    (void)state;
    struct wing w;
    double total = -0.5 * 1.2 * 2500 * 1.28 * 0.1;
    struct wing_text text = {.more_elements = flap, .cases = say(
        "{'name': 'both', 'kind': 'point', 'element': 'main', 'factor': 1, 'y_mm': 0, 'acts_at': 0.5,"
        " 'direction': 'up', 'force_n': 1e-9, 'with': ['flap air']}, {'name': 'flap air', 'kind': 'downforce',"
        " 'element': 'flap', 'factor': 1.5, 'speed_kmh': 180, 'air_density_kgm3': 1.2, 'distribution': 'uniform',"
        " 'coefficient': 1, 'acts_at': 0.5}, %s",
        say_point("tip", 640, 1, "down", -0.5 * total, 1.5))};
    wing_make(&w, &text);
    const struct pl_case_result *both = wing_case(&w, "both"), *tip = wing_case(&w, "tip");
    assert_close(wing_case(&w, "flap air")->total_force_n, 1.5 * total, 1e-9);
    assert_close(both->total_force_n, 1.5 * total, 1e-9);
    for (double y = -0.62; y < 0.63; y += 0.05) {
        const struct pl_check_row *b = wing_row(both, y), *r = wing_row(tip, b->y_m), *l = wing_row(tip, -b->y_m);
        if (fabs(fabs(b->y_m) - 0.17) < 1e-9)
            continue;
        assert_true(fabs(b->deflection_m - (r->deflection_m + l->deflection_m)) < 1e-8);
        assert_true(fabs(b->moment_nm - (r->moment_nm + l->moment_nm)) < 1e-6);
        assert_true(fabs(b->torque_nm - (r->torque_nm - l->torque_nm)) < 1e-6);
    }
    assert_true(fabs(wing_row(both, 0.4)->moment_nm) > 1);
    wing_free(&w);
}

/* A push on the flap right over its bracket goes straight into it, and from there into the element below. */
static void a_push_over_a_bracket_goes_into_the_bracket(void **state)
{
    (void)state;
    struct wing w;
    const char *over = "{'name': 'over', 'kind': 'point', 'element': 'flap', 'factor': 1.5, 'y_mm': 640,"
                       " 'acts_at': 0.5, 'direction': 'down', 'force_n': 60}, {'name': 'below', 'kind': 'point',"
                       " 'element': 'main', 'factor': 1, 'y_mm': 0, 'acts_at': 0.5, 'direction': 'up', 'force_n': 1e-9,"
                       " 'with': ['over']}";
    struct wing_text text = {.more_elements = flap,
                             .cases = say("%s, %s", over, say_point("tip", 640, 1, "down", 60, 1.5))};
    wing_make(&w, &text);
    const struct pl_case_result *below = wing_case(&w, "below"), *tip = wing_case(&w, "tip");
    assert_close(below->total_force_n, -90, 1e-9);
    assert_close(below->given.tip_m, tip->given.tip_m, 1e-6);
    assert_close(wing_row(below, 0.4)->moment_nm, wing_row(tip, 0.4)->moment_nm, 1e-9);
    assert_close(wing_row(below, 0.4)->torque_nm, wing_row(tip, 0.4)->torque_nm, 1e-6);
    assert_true(fabs(wing_row(below, -0.4)->moment_nm) < 1e-9);
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_load_mirrored_gives_the_same_mirrored),
        cmocka_unit_test(a_symmetric_load_on_a_wing_that_couples_stays_symmetric),
        cmocka_unit_test(twice_the_factor_halves_the_reserve_and_doubles_the_way),
        cmocka_unit_test(moment_falls_by_the_shear),
        cmocka_unit_test(reactions_carry_the_whole_load),
        cmocka_unit_test(more_freedom_gives_more_way),
        cmocka_unit_test(thicker_caps_never_lower_the_reserve_under_a_given_force),
        cmocka_unit_test(a_wing_to_scale_has_the_same_reserve),
        cmocka_unit_test(finer_stations_change_little),
        cmocka_unit_test(two_places_give_to_each_other_alike),
        cmocka_unit_test(what_stands_on_an_element_leans_on_it_with_its_reactions),
        cmocka_unit_test(a_push_over_a_bracket_goes_into_the_bracket),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
