/* The core's surface between stations: linear in y, mirrored about the middle, turned about the leading edge. */
#include "../part_text.h"
#include "../support.h"

#include "plyloft/loft.h"
#include "plyloft/profile.h"

#include <math.h>

struct lofted {
    struct wing wing;
    struct pl_arena arena;
    struct pl_loft loft;
    double *scratch;
};

static void lofted_make(struct lofted *l, const struct wing_text *text)
{
    wing_build(&l->wing, text);
    l->arena = (struct pl_arena){0};
    assert_true(pl_loft_build(&l->loft, &l->wing.part, &l->wing.part.elements[0], &l->arena));
    l->scratch = pl_arena_take(&l->arena, 4 * l->loft.count, sizeof(double));
    assert_non_null(l->scratch);
}

static void lofted_free(struct lofted *l)
{
    pl_arena_free(&l->arena);
    wing_free(&l->wing);
}

static struct pl_loft_place place_at(struct lofted *l, double y_m)
{
    struct pl_loft_place place;
    pl_loft_at(&l->loft, y_m, l->scratch, &place);
    return place;
}

#define STATION(y, chord, x, z, twist, profile) \
    "{'y_mm': " #y ", 'chord_mm': " #chord ", 'x_le_mm': " #x ", 'z_le_mm': " #z ", 'twist_deg': " #twist "," \
    " 'profile': '" profile "'}"

static const struct wing_text tapered = {
    .profiles = "{'name': 'section', 'naca': '0012'}, {'name': 'thick', 'naca': '0018'}",
    .element = "'incidence_deg': 3",
    .stations = STATION(0, 300, 0, 0, 0, "section") ", " STATION(200, 300, 10, -4, 1, "section") ", "
                STATION(600, 200, 50, 12, -3, "thick"),
    .mounts = "{'name': 'middle', 'y_mm': 0, 'hold': 'clamped'}",
    .cases = "",
};

static void sizes_are_linear_between_stations(void **state)
{
    (void)state;
    struct lofted l;
    lofted_make(&l, &tapered);
    struct pl_loft_place p = place_at(&l, 0.300);  /* a quarter of the way out */
    assert_close(p.chord_m, 0.275, 1e-12);
    assert_close(p.x_le_m, 0.020, 1e-12);
    assert_close(p.z_le_m + 1, 1, 1e-12);
    assert_close(p.nose_up_rad, (3 + 0) * M_PI / 180, 1e-12);
    p = place_at(&l, 0.600);
    assert_close(p.chord_m, 0.200, 1e-12);
    assert_close(p.nose_up_rad + 1, 1, 1e-12);  /* 3 - 3 */
    p = place_at(&l, 0.200);
    assert_close(p.x_le_m, 0.010, 1e-12);
    lofted_free(&l);
}

static void the_left_half_mirrors_the_right(void **state)
{
    (void)state;
    struct lofted l;
    lofted_make(&l, &tapered);
    struct pl_loft_place right = place_at(&l, 0.450), left = place_at(&l, -0.450);
    assert_close(left.chord_m, right.chord_m, 0);
    assert_close(left.x_le_m, right.x_le_m, 0);
    assert_close(left.z_le_m, right.z_le_m, 0);
    assert_close(left.nose_up_rad, right.nose_up_rad, 0);
    assert_close(left.y_m, -0.450, 0);
    lofted_free(&l);
}

static void plan_area_is_that_of_the_trapezia(void **state)
{
    (void)state;
    struct lofted l;
    lofted_make(&l, &tapered);
    /* 2 (0.2 x 0.3 + 0.4 x 0.25) */
    assert_close(l.loft.plan_area_m2, 0.32, 1e-12);
    assert_close(l.loft.semispan_m, 0.6, 1e-12);
    lofted_free(&l);
    lofted_make(&l, &front_wing);
    assert_close(l.loft.plan_area_m2, 0.33085, 1e-12);  /* F4.1 */
    lofted_free(&l);
}

static void half_way_from_0012_to_0018_stands_0015(void **state)
{
    (void)state;
    struct lofted l;
    struct wing_text text = tapered;
    text.profiles = "{'name': 'section', 'naca': '0012'}, {'name': 'thick', 'naca': '0018'}, {'name': 'middle',"
                    " 'naca': '0015'}";
    lofted_make(&l, &text);
    struct pl_loft_place p = place_at(&l, 0.400);
    struct pl_naca naca;
    const char *why;
    pl_naca_parse("0015", &naca, &why);
    for (size_t i = 0; i < l.loft.count; i++) {
        struct pl_point upper, lower;
        pl_naca_point(&naca, l.loft.s[i], &upper, &lower);
        assert_true(fabs(p.top.x[i] - upper.x) < 1e-14 && fabs(p.top.z[i] - upper.z) < 1e-14);
        assert_true(fabs(p.bottom.x[i] - lower.x) < 1e-14 && fabs(p.bottom.z[i] - lower.z) < 1e-14);
    }
    lofted_free(&l);
}

static void an_inverted_element_is_mirrored_and_turns_the_other_way(void **state)
{
    (void)state;
    struct lofted upright, inverted;
    struct wing_text text = tapered;
    text.profiles = "{'name': 'section', 'naca': '6412'}, {'name': 'thick', 'naca': '4418'}";
    lofted_make(&upright, &text);
    text.element = "'inverted': true, 'incidence_deg': 3";
    lofted_make(&inverted, &text);
    struct pl_loft_place u = place_at(&upright, 0.3), v = place_at(&inverted, 0.3);
    for (size_t i = 0; i < upright.loft.count; i++) {
        assert_close(v.top.x[i], u.bottom.x[i], 0);
        assert_close(v.top.z[i], -u.bottom.z[i], 0);
        assert_close(v.bottom.z[i], -u.top.z[i], 0);
    }
    assert_close(v.nose_up_rad, -u.nose_up_rad, 0);
    assert_true(u.nose_up_rad > 0);
    assert_close(v.z_le_m, u.z_le_m, 0);
    lofted_free(&upright);
    lofted_free(&inverted);
}

static void corners_of_points_are_nodes(void **state)
{
    (void)state;
    struct lofted l;
    struct wing_text text = tapered;
    text.profiles = "{'name': 'section', 'points': [[1, 0.01], [0.73, 0.05], [0.211, 0.07], [0, 0], [0.4567, -0.02],"
                    " [1, -0.01]]},{'name': 'thick', 'naca': '0018'}";
    lofted_make(&l, &text);
    static const double corners[] = {0.211, 0.4567, 0.73};
    for (size_t c = 0; c < 3; c++) {
        size_t found = 0;
        for (size_t i = 0; i < l.loft.count; i++)
            found += fabs(l.loft.s[i] - corners[c]) < 1e-12;
        assert_int_equal(found, 1);
    }
    for (size_t i = 1; i < l.loft.count; i++)
        assert_true(l.loft.s[i] > l.loft.s[i - 1]);
    assert_true(l.loft.s[0] == 0 && l.loft.s[l.loft.count - 1] == 1);
    lofted_free(&l);
}

static void depth_of_the_core_is_the_thickness_there(void **state)
{
    (void)state;
    struct lofted l;
    lofted_make(&l, &tapered);
    struct pl_loft_place p = place_at(&l, 0);
    /* 0012 at 0.3: 2 x 5 x 0.12 x 0.100031 = 0.120036 chords; straight lines between the nodes lose a little of it */
    assert_close(pl_loft_core_depth(&l.loft, &p, 0.3), 0.120036 * 0.3, 1e-3);
    assert_close(pl_loft_core_depth(&l.loft, &p, 1), 2 * 0.0105 * 0.12 * 0.3, 1e-6);
    assert_true(pl_loft_core_depth(&l.loft, &p, 0) == 0);
    lofted_free(&l);
    lofted_make(&l, &front_wing);
    p = place_at(&l, 0.230);
    assert_close(pl_loft_core_depth(&l.loft, &p, 0.35), 32.06e-3, 1e-3);  /* F4.6 */
    lofted_free(&l);
}

static void a_place_on_the_chord_line_turns_with_the_section(void **state)
{
    (void)state;
    struct lofted l;
    struct wing_text text = tapered;
    text.element = "'incidence_deg': 60";
    lofted_make(&l, &text);
    struct pl_loft_place p = place_at(&l, 0);
    assert_close(pl_loft_chord_x(&p, 0), p.x_le_m, 1e-15);
    assert_close(pl_loft_chord_x(&p, 0.5), 0.5 * 0.3 * 0.5, 1e-12);  /* cos 60 = 1/2 */
    lofted_free(&l);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sizes_are_linear_between_stations),
        cmocka_unit_test(the_left_half_mirrors_the_right),
        cmocka_unit_test(plan_area_is_that_of_the_trapezia),
        cmocka_unit_test(half_way_from_0012_to_0018_stands_0015),
        cmocka_unit_test(an_inverted_element_is_mirrored_and_turns_the_other_way),
        cmocka_unit_test(corners_of_points_are_nodes),
        cmocka_unit_test(depth_of_the_core_is_the_thickness_there),
        cmocka_unit_test(a_place_on_the_chord_line_turns_with_the_section),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
