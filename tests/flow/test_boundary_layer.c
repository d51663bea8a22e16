/* Boundary layers against the flows that have an answer of their own: plate, stagnation point, linearly retarded flow. */
#include "flows.h"

#include "plyloft/boundary_layer.h"

enum { MOST = 4001 };

static double way[MOST], speed[MOST], theta[MOST], shape[MOST];

static struct pl_boundary_layer layer_of(size_t count)
{
    return (struct pl_boundary_layer){.count = count, .way = way, .speed = speed, .theta = theta, .shape = shape};
}

/* A plate of length 1 in air of speed 1, points closer together at its front; the stagnation point of nearly no length. */
static struct pl_boundary_layer plate(size_t count)
{
    way[0] = speed[0] = 0;
    for (size_t i = 1; i < count; i++) {
        double share = (double)i / (double)(count - 1);
        way[i] = share * share * share;
        speed[i] = 1;
    }
    return layer_of(count);
}

static void march(struct pl_boundary_layer *l, double reynolds)
{
    assert_true(pl_boundary_layer_march(l, reynolds, PL_SHAPE_SEPARATES, 4));
}

/* ---- laminar ---- */

static void plate_is_one_per_cent_thicker_than_blasius(void **state)
{
    (void)state;
    /* Thwaites on a level speed: theta = sqrt(0.45 nu x / u) = 0.6708 x / sqrt(Re_x), Blasius 0.6641, 1.0 % less */
    struct pl_boundary_layer l = plate(801);
    march(&l, 9e4);
    assert_int_equal(l.turbulent_from, l.count);
    assert_int_equal(l.separates_at, l.count);
    for (size_t i = 100; i < 801; i += 100) {
        double blasius = 0.66412 * sqrt(way[i] / 9e4);
        assert_close(theta[i], sqrt(0.45 * way[i] / 9e4), 1e-4);
        assert_close(theta[i] / blasius, 1.0101, 1e-3);
        assert_close(shape[i], 2.61, 1e-9);  /* Blasius 2.591 */
    }
}

static void stagnation_flow_keeps_its_thickness(void **state)
{
    (void)state;
    /* u = a s: theta^2 = 0.45 nu a^5 s^6 / 6 / (a s)^6 = 0.075 nu / a at every s; lambda = 0.075 */
    for (size_t i = 0; i < 101; i++) {
        way[i] = 0.01 * (double)i;
        speed[i] = 3 * way[i];
    }
    struct pl_boundary_layer l = layer_of(101);
    march(&l, 1e4);
    for (size_t i = 0; i < 101; i++) {
        assert_close(theta[i] * theta[i], 0.075 / 3e4, 1e-9);
        assert_close(shape[i], 2.61 - 3.75 * 0.075 + 5.24 * 0.075 * 0.075, 1e-9);
    }
}

static void uneven_points_do_not_change_the_thickness_where_speed_is_linear(void **state)
{
    (void)state;
    /* u^5 is integrated exactly, so two points do as well as many: u = 1 + s from a tiny start */
    static const size_t counts[] = {5, 50, 500};
    double last[3];
    for (int k = 0; k < 3; k++) {
        size_t n = counts[k];
        way[0] = speed[0] = 0;
        for (size_t i = 1; i < n; i++) {
            way[i] = 1e-9 + (double)(i - 1) / (double)(n - 2);
            speed[i] = 1 + way[i];
        }
        struct pl_boundary_layer l = layer_of(n);
        march(&l, 1e4);
        last[k] = theta[n - 1];
    }
    /* 0.45 nu (2^6 - 1) / 6 / 2^6 */
    assert_close(last[0], sqrt(0.45e-4 * 63 / 6 / 64), 1e-6);
    assert_close(last[1], last[0], 1e-9);
    assert_close(last[2], last[0], 1e-9);
}

static void set_howarth(size_t count)
{
    way[0] = speed[0] = 0;
    for (size_t i = 1; i < count; i++) {
        way[i] = 1e-9 + 0.5 * (double)(i - 1) / (double)(count - 2);
        speed[i] = 1 - way[i];
    }
}

static void linearly_retarded_flow_turns_turbulent_where_it_separates(void **state)
{
    (void)state;
    /* u = 1 - x: lambda = -0.075 ((1 - x)^-6 - 1) = -0.09 at (1 - x)^-6 = 2.2, x = 0.1231; Howarth's exact 0.120.  At
     * Re = 1e5 Michel's curve cannot take part: Re_x < 1e5. */
    set_howarth(2001);
    struct pl_boundary_layer l = layer_of(2001);
    march(&l, 1e5);
    assert_near(l.turbulent_way, 1 - pow(2.2, -1.0 / 6), 0.5 / 1999 + 1e-6);
    assert_near(l.turbulent_way, 0.120, 0.004);
    assert_close(shape[l.turbulent_from], 1.4, 1e-12);
    assert_true(shape[l.turbulent_from - 1] > 3.4);  /* 2.088 + 0.0731 / 0.05 = 3.55 */
}

static void laminar_layer_thins_with_the_root_of_the_reynolds_number(void **state)
{
    (void)state;
    static double before[101];
    for (int k = 0; k < 2; k++) {
        for (size_t i = 0; i < 101; i++) {
            way[i] = 0.01 * (double)i;
            speed[i] = sin(2 * way[i]);
        }
        struct pl_boundary_layer l = layer_of(60);
        march(&l, k ? 4e4 : 1e4);
        for (size_t i = 0; i < 60; i++)
            if (k)
                assert_close(theta[i], 0.5 * before[i], 1e-12);
            else
                before[i] = theta[i];
    }
}

static void scale_of_speed_and_reynolds_number_are_one(void **state)
{
    (void)state;
    /* Twice the speed at half the Reynolds number of the onset flow is the same layer, turbulent part and all. */
    struct pl_boundary_layer l = plate(401);
    static double before[401];
    march(&l, 2e7);
    size_t from = l.turbulent_from;
    memcpy(before, theta, sizeof before);
    for (size_t i = 0; i < 401; i++)
        speed[i] *= 2;
    march(&l, 1e7);
    assert_int_equal(l.turbulent_from, from);
    for (size_t i = 0; i < 401; i++)
        assert_close(theta[i], before[i], 1e-10);
}

/* ---- transition ---- */

static double above_michel(double reynolds_x)
{
    return sqrt(0.45 * reynolds_x) - 1.174 * (1 + 22400 / reynolds_x) * pow(reynolds_x, 0.46);
}

static void plate_turns_turbulent_where_michels_curve_is_crossed(void **state)
{
    (void)state;
    /* 0.6708 sqrt(Re_x) = 1.174 (1 + 22400 / Re_x) Re_x^0.46, halved down to one Re_x, 1.67 million */
    double low = 1e5, high = 1e8;
    for (int i = 0; i < 100; i++) {
        double middle = 0.5 * (low + high);
        *(above_michel(middle) < 0 ? &low : &high) = middle;
    }
    assert_between(low, 1.6e6, 1.7e6);
    static const double reynolds[] = {4e6, 1e7, 3e7};
    for (int k = 0; k < 3; k++)
        for (size_t count = 101; count <= 1601; count *= 4) {
            struct pl_boundary_layer l = plate(count);
            march(&l, reynolds[k]);
            assert_close(l.turbulent_way * reynolds[k], low, 2e-3);
            assert_true(way[l.turbulent_from - 1] < l.turbulent_way && l.turbulent_way <= way[l.turbulent_from]);
        }
}

static void plate_below_michels_curve_stays_laminar(void **state)
{
    (void)state;
    struct pl_boundary_layer l = plate(401);
    march(&l, 1.5e6);
    assert_int_equal(l.turbulent_from, 401);
    assert_close(l.turbulent_way, 1, 1e-12);
    assert_close(pl_boundary_layer_drag(&l), 2 * theta[400], 1e-12);  /* u = 1 */
}

/* ---- turbulent ---- */

/* Prandtl and Schlichting for a plate turbulent from its front, less what it would drag more up to a place than it does laminar. */
static double plate_friction(double reynolds, double reynolds_x)
{
    double whole = 0.455 / pow(log10(reynolds), 2.58), front = 0.455 / pow(log10(reynolds_x), 2.58);
    return whole - reynolds_x / reynolds * (front - 2 * sqrt(0.45 / reynolds_x));
}

static void turbulent_plate_is_off_prandtl_and_schlichting_as_power_laws_are(void **state)
{
    (void)state;
    /* The friction of Ludwieg and Tillmann falls as Re_theta^-0.268 at every Re_theta, the measured one ever more slowly: right
     * at 1e7, 3 % low at 2e7, 6 to 7 % at 4e7 and 13 % at 1.6e8 behind the same transition.  Sections of 1e5 to 1e7 lie on
     * the good side. */
    static const struct { double reynolds, off; } measured[] = {{1e7, 0.008}, {2e7, -0.030}, {4e7, -0.065}, {1.6e8, -0.130}};
    for (int k = 0; k < 4; k++) {
        struct pl_boundary_layer l = plate(2001);
        march(&l, measured[k].reynolds);
        double there = plate_friction(measured[k].reynolds, l.turbulent_way * measured[k].reynolds);
        assert_near(2 * theta[2000] / there - 1, measured[k].off, 0.003);
    }
}

static void steps_between_points_do_not_matter_once_there_are_some(void **state)
{
    (void)state;
    static double before;
    for (int steps = 2; steps <= 16; steps *= 2) {
        struct pl_boundary_layer l = plate(201);
        assert_true(pl_boundary_layer_march(&l, 1e7, PL_SHAPE_SEPARATES, steps));
        if (steps > 2)
            assert_close(theta[200], before, 1e-5);
        before = theta[200];
    }
}

static void heads_relations_are_each_others_inverse(void **state)
{
    (void)state;
    for (double h = 1.15; h < 2.95; h += 0.01)
        assert_close(pl_head_shape(pl_head_h1(h)), h, 1e-9);
    /* H = 1.4: 3.3 + 0.8234 x 0.3^-1.287 = 3.3 + 3.8775; H = 2: 3.3 + 1.5501 x 1.3222^-3.064 = 3.3 + 0.6587 */
    assert_close(pl_head_h1(1.4), 7.1775, 1e-3);
    assert_close(pl_head_h1(2.0), 3.9587, 1e-3);
    assert_close(pl_head_shape(3.3), 3, 1e-12);
    assert_close(pl_head_shape(1), 3, 1e-12);
    assert_close(pl_head_h1(1.6 - 1e-9), pl_head_h1(1.6 + 1e-9), 5e-3);  /* two curves of one fit */
}

static void laminar_shape_is_level_and_falls_as_air_speeds_up(void **state)
{
    (void)state;
    assert_close(pl_laminar_shape(0), 2.61, 1e-12);
    assert_close(pl_laminar_shape(-1e-9), 2.6101, 1e-3);  /* 2.088 + 0.0731 / 0.14 = 2.6101 */
    for (double l = -0.09; l < 0.24; l += 0.01)
        assert_true(pl_laminar_shape(l) > pl_laminar_shape(l + 0.01));
    assert_close(pl_laminar_shape(-5), pl_laminar_shape(-0.09), 1e-12);
}

static void turbulent_layer_leaves_where_h_reaches_the_limit(void **state)
{
    (void)state;
    /* Along u = 1 - 0.9 x at Re = 3e6 laminar separation comes first, then H climbs to 2.4 */
    way[0] = speed[0] = 0;
    for (size_t i = 1; i < 2001; i++) {
        way[i] = 1e-9 + (double)(i - 1) / 1999;
        speed[i] = 1 - 0.9 * way[i];
    }
    struct pl_boundary_layer l = layer_of(2001), later = l;
    march(&l, 3e6);
    assert_true(l.separates_at < l.count && l.turbulent_from < l.separates_at);
    assert_true(l.separates_way > way[l.separates_at - 1] && l.separates_way <= way[l.separates_at] + 1e-12);
    assert_between(shape[l.separates_at - 1], 2.3, 2.4);
    /* Squire and Young at the last point before: 2 theta u^((H + 5) / 2) */
    size_t last = l.separates_at - 1;
    assert_close(pl_boundary_layer_drag(&l), 2 * theta[last] * pow(speed[last], 0.5 * (shape[last] + 5)), 1e-12);
    assert_true(pl_boundary_layer_march(&later, 3e6, 2.8, 4));
    assert_true(later.separates_way > l.separates_way);
}

static void turbulent_layer_leaves_later_at_a_higher_reynolds_number(void **state)
{
    (void)state;
    double before = 0;
    for (double reynolds = 1e6; reynolds < 1e9; reynolds *= 4) {
        way[0] = speed[0] = 0;
        for (size_t i = 1; i < 1001; i++) {
            way[i] = 1e-9 + (double)(i - 1) / 999;
            speed[i] = way[i] < 0.2 ? 1 : 1 - 0.8 * (way[i] - 0.2);
        }
        struct pl_boundary_layer l = layer_of(1001);
        march(&l, reynolds);
        assert_true(l.separates_way > before || reynolds < 4e6);
        before = l.separates_way;
    }
}

/* ---- refusals ---- */

static void what_cannot_be_marched_on_is_refused(void **state)
{
    (void)state;
    struct pl_boundary_layer l = plate(2);
    assert_false(pl_boundary_layer_march(&l, 1e6, PL_SHAPE_SEPARATES, 4));
    l = plate(100);
    speed[1] = 0;
    assert_false(pl_boundary_layer_march(&l, 1e6, PL_SHAPE_SEPARATES, 4));
    l = plate(100);
    speed[1] = (double)NAN;
    assert_false(pl_boundary_layer_march(&l, 1e6, PL_SHAPE_SEPARATES, 4));
    l = plate(100);
    way[1] = 0;
    assert_false(pl_boundary_layer_march(&l, 1e6, PL_SHAPE_SEPARATES, 4));
    l = plate(100);
    speed[2] = -1;
    assert_false(pl_boundary_layer_march(&l, 1e6, PL_SHAPE_SEPARATES, 4));
}

static void air_that_stands_still_ends_the_march(void **state)
{
    (void)state;
    struct pl_boundary_layer l = plate(200);
    speed[150] = 0;
    march(&l, 1e6);
    assert_int_equal(l.separates_at, 150);
    assert_close(l.separates_way, way[150], 1e-12);
    assert_close(pl_boundary_layer_drag(&l), 2 * theta[149], 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plate_is_one_per_cent_thicker_than_blasius),
        cmocka_unit_test(stagnation_flow_keeps_its_thickness),
        cmocka_unit_test(uneven_points_do_not_change_the_thickness_where_speed_is_linear),
        cmocka_unit_test(linearly_retarded_flow_turns_turbulent_where_it_separates),
        cmocka_unit_test(laminar_layer_thins_with_the_root_of_the_reynolds_number),
        cmocka_unit_test(scale_of_speed_and_reynolds_number_are_one),
        cmocka_unit_test(plate_turns_turbulent_where_michels_curve_is_crossed),
        cmocka_unit_test(plate_below_michels_curve_stays_laminar),
        cmocka_unit_test(turbulent_plate_is_off_prandtl_and_schlichting_as_power_laws_are),
        cmocka_unit_test(steps_between_points_do_not_matter_once_there_are_some),
        cmocka_unit_test(heads_relations_are_each_others_inverse),
        cmocka_unit_test(laminar_shape_is_level_and_falls_as_air_speeds_up),
        cmocka_unit_test(turbulent_layer_leaves_where_h_reaches_the_limit),
        cmocka_unit_test(turbulent_layer_leaves_later_at_a_higher_reynolds_number),
        cmocka_unit_test(what_cannot_be_marched_on_is_refused),
        cmocka_unit_test(air_that_stands_still_ends_the_march),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
