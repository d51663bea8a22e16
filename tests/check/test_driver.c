/* What a driver asks: the wing set otherwise, its figures, the load on either axle, and the sheet to set it by. */
#include "../part/trial.h"

#include "plyloft/driver.h"
#include "plyloft/wing_sections.h"

#include <math.h>
#include <string.h>

#define DOWNFORCE "/load_cases/0"

static const struct pl_load_case *first_case(void)
{
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    return &t.part.load_cases[0];
}

static struct pl_setting own(void)
{
    return pl_setting_of(&t.part, &t.part.load_cases[0]);
}

/* One row, worked out by a driver of its own. */
static struct pl_driver_row row_of(struct pl_setting setting, char doubt[256])
{
    struct pl_driver *d = pl_driver_new();
    size_t n;
    assert_non_null(d);
    assert_int_equal(pl_driver_aim(d, &t.part, &t.part.load_cases[0], &setting, 1), PL_OK);
    while (pl_driver_step(d))
        ;
    struct pl_driver_row row = pl_driver_rows(d, &n)[0];
    assert_int_equal(n, 1);
    if (doubt)
        snprintf(doubt, 256, "%s", pl_driver_doubt(d, 0) ? pl_driver_doubt(d, 0) : "");
    pl_driver_free(d);
    return row;
}

static void as_it_is_it_says_what_the_flow_says(void **state)
{
    (void)state;
    const struct pl_load_case *c = first_case();
    struct pl_wing_sections *sections = pl_wing_sections_new();
    struct pl_wing_air *air = pl_wing_air_new();
    struct pl_driver_row row = row_of(own(), NULL);
    assert_int_equal(pl_wing_sections_all(sections, air, &t.part, c, &t.problems), PL_OK);
    struct pl_wing_totals totals = pl_wing_sections_totals(sections);
    assert_true(row.answered);
    assert_true(row.force_n == totals.force_limited_n && row.drag_n == totals.drag_limited_n && row.centre_m == totals.centre_limited_m);
    assert_true(row.thin_force_n == totals.force_n && row.thin_drag_n == totals.drag_n);
    assert_close(row.pitch_nm, row.force_n * (row.centre_m - 0.25 * t.part.elements[0].stations[0].chord_m), 1e-12);
    assert_true(isnan(row.front_n) && isnan(row.rear_n));  /* no car */
    pl_wing_air_free(air);
    pl_wing_sections_free(sections);
}

static void an_unswept_wing_turned_is_the_one_of_another_incidence(void **state)
{
    (void)state;
    put(&t, "/elements/0/stations/1/x_le_mm", "0");
    put(&t, "/elements/0/stations/2/x_le_mm", "0");
    put(&t, "/elements/0/stations/2/z_le_mm", "0");
    first_case();
    struct pl_setting to = own();
    to.incidence_rad += 3 * M_PI / 180;
    struct pl_driver_row turned = row_of(to, NULL);
    put(&t, "/elements/0/incidence_deg", "5");
    first_case();
    struct pl_driver_row typed = row_of(own(), NULL);
    assert_close(turned.force_n, typed.force_n, 1e-9);
    assert_close(turned.drag_n, typed.drag_n, 1e-9);
}

/* Distance between two leading edges of two elements, and the slope of either to the line between. */
static void elements_keep_their_place_to_each_other(void **state)
{
    (void)state;
    const struct pl_load_case *c = first_case();
    struct pl_turned turned = {0};
    struct pl_setting to = own();
    to.incidence_rad += 7 * M_PI / 180;
    assert_true(t.part.n_elements > 1);
    assert_int_equal(pl_turned_make(&turned, &t.part, c, &to), PL_OK);
    for (size_t e = 0; e < t.part.n_elements; e++)
        for (size_t i = 0; i < t.part.elements[e].n_stations; i++) {
            const struct pl_station *a = &t.part.elements[c->element].stations[0], *b = &t.part.elements[e].stations[i];
            const struct pl_station *p = &turned.part.elements[c->element].stations[0], *q = &turned.part.elements[e].stations[i];
            assert_close(hypot(q->x_le_m - p->x_le_m, q->z_le_m - p->z_le_m), hypot(b->x_le_m - a->x_le_m, b->z_le_m - a->z_le_m), 1e-12);
        }
    double own_way = t.part.elements[c->element].inverted ? 1 : -1;
    for (size_t e = 0; e < t.part.n_elements; e++) {
        double way = t.part.elements[e].inverted ? 1 : -1;
        assert_close(turned.part.elements[e].incidence_rad, t.part.elements[e].incidence_rad + way * own_way * 7 * M_PI / 180, 1e-12);
    }
    /* And back again. */
    struct pl_turned back = {0};
    struct pl_setting from = own();
    assert_int_equal(pl_turned_make(&back, &turned.part, &turned.load_case, &from), PL_OK);
    for (size_t e = 0; e < t.part.n_elements; e++)
        for (size_t i = 0; i < t.part.elements[e].n_stations; i++) {
            assert_true(fabs(back.part.elements[e].stations[i].x_le_m - t.part.elements[e].stations[i].x_le_m) < 1e-12);
            assert_true(fabs(back.part.elements[e].stations[i].z_le_m - t.part.elements[e].stations[i].z_le_m) < 1e-12);
        }
    pl_turned_free(&turned);
    pl_turned_free(&back);
}

/* ---- axles ---- */

static void put_car(double wheelbase_mm, double front_x_mm)
{
    char json[96];
    snprintf(json, sizeof json, "{\"wheelbase_mm\": %.17g, \"front_axle_x_mm\": %.17g}", wheelbase_mm, front_x_mm);
    put(&t, "/car", json);
}

static void a_downforce_at_an_axle_is_all_its_own(void **state)
{
    (void)state;
    char doubt[256];
    put(&t, DOWNFORCE "/ride_height_mm", NULL);
    first_case();
    struct pl_driver_row bare = row_of(own(), NULL);
    put_car(2000, 1e3 * bare.centre_m);
    first_case();
    struct pl_driver_row front = row_of(own(), doubt);
    assert_close(front.front_n, front.force_n, 1e-9);
    assert_true(fabs(front.rear_n) < 1e-9 * front.force_n);
    assert_non_null(strstr(doubt, "without a ride height"));
    put_car(2000, 1e3 * bare.centre_m - 2000);
    first_case();
    struct pl_driver_row rear = row_of(own(), NULL);
    assert_close(rear.rear_n, rear.force_n, 1e-9);
}

static void drag_takes_load_from_the_front(void **state)
{
    (void)state;
    put_car(2300, 650);
    first_case();
    struct pl_driver_row row = row_of(own(), NULL);
    double downforce_alone_n = row.force_n * (650e-3 + 2300e-3 - row.centre_m) / 2300e-3;
    /* The wing's middle lies about 0.1 m up: between its lowest point at 70 mm and its highest. */
    double height_m = (downforce_alone_n - row.front_n) * 2.3 / row.drag_n;
    assert_true(height_m > 0.07 && height_m < 0.13);
    assert_close(row.front_n + row.rear_n, row.force_n, 1e-12);
    struct pl_setting higher = own();
    higher.ride_height_m += 0.5;
    struct pl_driver_row up = row_of(higher, NULL);
    double higher_m = (up.force_n * (650e-3 + 2300e-3 - up.centre_m) / 2300e-3 - up.front_n) * 2.3 / up.drag_n;
    assert_close(higher_m - height_m, 0.5, 1e-9);
}

/* ---- the sheet ---- */

static void heights_and_blocks_of_a_plain_wing_are_those_of_a_triangle(void **state)
{
    (void)state;
    static const double turns_deg[] = {-6, 0, 2, 11};
    struct pl_bracket_setting rows[8];
    const struct pl_load_case *c = first_case();
    double chord_m = t.part.elements[0].stations[0].chord_m;
    size_t n = pl_brackets_count(&t.part);
    assert_int_equal(n, 2);
    for (size_t i = 0; i < sizeof turns_deg / sizeof *turns_deg; i++) {
        struct pl_setting to = own();
        to.incidence_rad = turns_deg[i] * M_PI / 180;
        assert_int_equal(pl_setting_sheet(&t.part, c, &to, rows), PL_OK);
        /* Between its first two stations, where the brackets stand, the sample has one chord and no twist. */
        assert_true(fabs(rows[0].block_m - chord_m * sin(to.incidence_rad)) < 1e-12);
        assert_true(fabs(rows[0].tail_m - rows[0].nose_m - rows[0].block_m) < 1e-12);
        assert_close(rows[0].nose_m, rows[1].nose_m, 1e-12);  /* both hands */
        assert_true(fabs(rows[0].shim_per_m - tan((turns_deg[i] - 2) * M_PI / 180)) < 1e-12);  /* the file's is 2 degrees */
        assert_true(fmin(rows[0].nose_m, rows[0].tail_m) > c->ride_height_m);
    }
    struct pl_setting higher = own();
    struct pl_bracket_setting low[8];
    assert_int_equal(pl_setting_sheet(&t.part, c, &higher, low), PL_OK);
    higher.ride_height_m += 0.025;
    assert_int_equal(pl_setting_sheet(&t.part, c, &higher, rows), PL_OK);
    assert_close(rows[0].nose_m - low[0].nose_m, 0.025, 1e-9);
    assert_close(rows[0].tail_m - low[0].tail_m, 0.025, 1e-9);
}

static void an_upright_wing_is_packed_up_in_front(void **state)
{
    (void)state;
    struct pl_bracket_setting rows[8];
    put(&t, "/elements/0/inverted", "false");
    const struct pl_load_case *c = first_case();
    struct pl_setting to = own();
    to.incidence_rad += 0.1;
    assert_int_equal(pl_setting_sheet(&t.part, c, &to, rows), PL_OK);
    assert_close(rows[0].shim_per_m, -tan(0.1), 1e-12);
    assert_true(rows[0].block_m < 0);
}

/* ---- what has no answer, and what is in doubt ---- */

static void what_cannot_be_is_a_row_without_figures(void **state)
{
    (void)state;
    char doubt[256];
    put_car(2300, 650);
    first_case();
    struct pl_setting steep = own(), low = own();
    steep.incidence_rad = 92 * M_PI / 180;
    struct pl_driver_row row = row_of(steep, doubt);
    assert_false(row.answered);
    assert_true(isnan(row.force_n) && isnan(row.drag_n) && isnan(row.front_n));
    assert_non_null(strstr(doubt, "steeper than 90"));
    low.ride_height_m = 0.02;
    put(&t, "/elements/0/stations/2/z_le_mm", "-60");  /* the tip hangs lower than the root */
    first_case();
    row = row_of(low, doubt);
    assert_false(row.answered);
    assert_non_null(strstr(doubt, "ground"));
}

/* The sanitizers look at memory: one speed shows as much of it as three. */
#ifdef __SANITIZE_ADDRESS__
enum { SPEEDS = 1 };
#else
enum { SPEEDS = 3 };
#endif

static void figures_stay_finite_over_all_that_may_be_asked(void **state)
{
    (void)state;
    put_car(2300, 650);
    put(&t, "/elements/0/stations/1/x_le_mm", "0");
    put(&t, "/elements/0/stations/2/x_le_mm", "0");
    first_case();
    static const double speeds[] = {0.3, 30, 270}, heights[] = {0.001, 0.1, 100, (double)NAN}, incidences[] = {-1.5, -0.2, 0, 0.6, 1.5};
    for (size_t i = 0; i < SPEEDS; i++)
        for (size_t h = 0; h < sizeof heights / sizeof *heights; h++) {
            struct pl_driver_row row = row_of((struct pl_setting){speeds[i], heights[h], incidences[(i + h) % 5]}, NULL);
            if (row.answered)
                assert_true(isfinite(row.force_n) && isfinite(row.drag_n) && isfinite(row.front_n) && isfinite(row.rear_n) && row.drag_n >= 0);
        }
}

/* ---- settings around ---- */

static void settings_around_rise_and_hold_the_own_one(void **state)
{
    (void)state;
    static const char *const heights[] = {"1", "3", "70", "2500.4", NULL};
    for (size_t h = 0; h < sizeof heights / sizeof *heights; h++) {
        put(&t, DOWNFORCE "/ride_height_mm", heights[h]);
        first_case();
        for (int over = 0; over < PL_OVERS; over++) {
            struct pl_setting out[PL_AROUND];
            size_t n = pl_settings_around(&t.part, &t.part.load_cases[0], (enum pl_over)over, out), found = 0;
            assert_true(n >= 1 && n <= PL_AROUND);
            for (size_t i = 0; i < n; i++) {
                found += out[i].speed_m_s == own().speed_m_s && out[i].incidence_rad == own().incidence_rad
                         && (out[i].ride_height_m == own().ride_height_m || isnan(own().ride_height_m));
                assert_true(!i || out[i].speed_m_s > out[i - 1].speed_m_s || out[i].ride_height_m > out[i - 1].ride_height_m
                            || out[i].incidence_rad > out[i - 1].incidence_rad);
            }
            assert_int_equal(found, 1);
        }
    }
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
    const struct CMUnitTest tests[] = {
        TRIAL(as_it_is_it_says_what_the_flow_says),
        TRIAL(an_unswept_wing_turned_is_the_one_of_another_incidence),
        cmocka_unit_test_setup_teardown(elements_keep_their_place_to_each_other, fresh_whole, release),
        TRIAL(a_downforce_at_an_axle_is_all_its_own),
        TRIAL(drag_takes_load_from_the_front),
        TRIAL(heights_and_blocks_of_a_plain_wing_are_those_of_a_triangle),
        TRIAL(an_upright_wing_is_packed_up_in_front),
        TRIAL(what_cannot_be_is_a_row_without_figures),
        TRIAL(figures_stay_finite_over_all_that_may_be_asked),
        TRIAL(settings_around_rise_and_hold_the_own_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
