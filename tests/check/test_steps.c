/* Where cloth ends the shear centre steps aside, and with it the deflection printed, which is its own: stations a
 * millimetre on either side keep whoever draws a line through the rows from smearing the step. */
#include "../part_text.h"
#include "../support.h"

#include <math.h>

#define BESIDE_M 0.001

/* Where the pieces of the caps of `stepped` end, far from one another and all else. */
static const double ends_m[] = {0.264, 0.304, 0.344, 0.384, 0.424, 0.464, 0.504, 0.544};
enum { ENDS = sizeof ends_m / sizeof *ends_m };

/* A wing on two brackets under one ply of cloth, its caps far back, ending one by one. */
static struct wing_text stepped(double acts_at)
{
    return (struct wing_text){
        .layup = say("%s, {'name': 'top', 'fabric': 'uni', 'angle_deg': 0, 'plies': 4, 'side': 'top', 'centre_at': 0.7,"
                     " 'width_mm': 120, 'half_length_mm': 504, 'drop_mm': 80}, {'name': 'bottom', 'fabric': 'uni',"
                     " 'angle_deg': 0, 'plies': 4, 'side': 'bottom', 'centre_at': 0.7, 'width_mm': 120,"
                     " 'half_length_mm': 544, 'drop_mm': 80}",
                     say_skin("plain", 45, 1)),
        .cases = say_point("push", 640, acts_at, "up", 40, 1),
    };
}

static const struct pl_check_row *row_at(const struct pl_case_result *c, double y_m)
{
    const struct pl_check_row *row = wing_row(c, y_m);
    if (!(fabs(row->y_m - y_m) < 1e-9))
        fail_msg("no station at y %.4f mm, the nearest at %.4f", 1e3 * y_m, 1e3 * row->y_m);
    return row;
}

static void assert_steps_of_at_most_10_mm_and_both_halves_alike(const struct pl_case_result *c)
{
    size_t last = c->n_rows - 1;
    assert_int_equal(c->n_rows % 2, 1);
    assert_close(c->rows[last].y_m, 0.64, 1e-12);
    for (size_t i = 0; i < c->n_rows; i++)
        assert_true(fabs(c->rows[i].y_m + c->rows[last - i].y_m) < 1e-12);
    for (size_t i = 0; i < last; i++) {
        assert_true(c->rows[i + 1].y_m > c->rows[i].y_m);
        assert_true(c->rows[i + 1].y_m - c->rows[i].y_m < 0.010 + 1e-9);
    }
}

/* ---- which stations there are ---- */

static void a_station_stands_a_millimetre_on_either_side_of_a_piece_end(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = stepped(0.4);
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "push");
    assert_steps_of_at_most_10_mm_and_both_halves_alike(c);
    for (size_t i = 0; i < ENDS; i++)
        for (int half = -1; half <= 1; half += 2) {
            const struct pl_check_row *end = row_at(c, half * ends_m[i]);
            assert_close(end->y_m - end[-1].y_m, BESIDE_M, 1e-6);
            assert_close(end[1].y_m - end->y_m, BESIDE_M, 1e-6);
        }
    wing_free(&w);
}

/* From the left tip to the centreline, and as many on the right: a millimetre apart at an end, and between the two of
 * neighbours 38 mm in four steps. */
static void no_more_stations_stand_than_it_takes(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = stepped(0.4);
    wing_make(&w, &text);
    /* 0 to 170: 17; to 263: 10; each of 8 ends 2 more, 7 gaps of 38 mm: 28; 545 to 640: 10 */
    assert_int_equal(wing_case(&w, "push")->n_rows, 2 * (17 + 10 + 8 * 2 + 7 * 4 + 10) + 1);
    wing_free(&w);
}

static void pieces_that_begin_off_the_centreline_have_such_stations_at_both_ends(void **state)
{
    (void)state;
    struct wing w;
    wing_make(&w, &front_wing);
    /* the bracket wrap, 100 to 240 mm, and 15 mm less at either end below it; the tip is no step */
    static const double wraps_m[] = {0.100, 0.115, 0.225, 0.240};
    for (size_t i = 0; i < w.verdict->n_cases; i++) {
        const struct pl_case_result *c = &w.verdict->cases[i];
        assert_steps_of_at_most_10_mm_and_both_halves_alike(c);
        for (size_t k = 0; k < 4; k++)
            for (int side = -1; side <= 1; side++) {
                row_at(c, wraps_m[k] + side * BESIDE_M);
                row_at(c, -wraps_m[k] + side * BESIDE_M);
            }
        assert_true(fabs(wing_row(c, 0.639)->y_m - 0.639) > 1e-4);
    }
    wing_free(&w);
}

/* Places nearer than three millimetres leave no room: each keeps its own station and no more. */
static void ends_close_to_one_another_are_not_crowded(void **state)
{
    (void)state;
    static const double gaps_mm[] = {0.5, 1, 2, 2.999, 3.001, 4};
    for (size_t i = 0; i < sizeof gaps_mm / sizeof *gaps_mm; i++) {
        struct wing w;
        struct wing_text text = stepped(0.4);
        double end_m = 0.17 + 1e-3 * gaps_mm[i];
        text.layup =
            say("%s, {'name': 'wrap', 'fabric': 'plain', 'angle_deg': 0, 'plies': 3, 'side': 'both', 'chord_from': 0,"
                " 'chord_to': 1, 'half_length_mm': %.15g, 'drop_mm': %.15g}",
                say_skin("plain", 45, 1), 1e3 * end_m, gaps_mm[i]);
        wing_make(&w, &text);
        const struct pl_case_result *c = wing_case(&w, "push");
        assert_steps_of_at_most_10_mm_and_both_halves_alike(c);
        const struct pl_check_row *mount = row_at(c, 0.17);
        assert_close(mount[gaps_mm[i] > 3 ? 3 : 1].y_m, end_m, 1e-9);
        row_at(c, 0.17 - 1e-3 * gaps_mm[i]);
        row_at(c, end_m + BESIDE_M);
        wing_free(&w);
    }
}

/* ---- what they tell ---- */

static double larger(double a, double b)
{
    return fabs(b) > fabs(a) ? b : a;
}

enum { DEFLECTION, TWIST, TORQUE, MOMENT, SHEAR, USED, FIGURES }; /* USED: 1 / reserve */

static void figures(const struct pl_check_row *row, double out[FIGURES])
{
    const double all[FIGURES] = {row->deflection_m, row->twist_rad, row->torque_nm,
                                 row->moment_nm,    row->shear_n,   1 / row->reserve};
    for (int i = 0; i < FIGURES; i++)
        out[i] = all[i];
}

/* The figures just on one side of a step: a straight line through the row a millimetre off and the one beyond it. */
static void limit(const struct pl_check_row *end, int side, double out[FIGURES])
{
    double near[FIGURES], far[FIGURES], along = BESIDE_M / fabs(end[2 * side].y_m - end[side].y_m);
    figures(end + side, near);
    figures(end + 2 * side, far);
    for (int i = 0; i < FIGURES; i++)
        out[i] = near[i] + (near[i] - far[i]) * along;
}

static void peaks(const struct pl_case_result *c, double out[FIGURES])
{
    double row[FIGURES];
    for (int k = 0; k < FIGURES; k++)
        out[k] = 0;
    for (size_t i = 0; i < c->n_rows; i++) {
        figures(&c->rows[i], row);
        for (int k = 0; k < FIGURES; k++)
            out[k] = fmax(out[k], fabs(row[k]));
    }
}

static void rows_beside_a_step_agree_with_its_limits(void **state)
{
    (void)state;
    static const double places[] = {0, 1};
    for (size_t p = 0; p < 2; p++) {
        struct wing w;
        struct wing_text text = stepped(places[p]);
        wing_make(&w, &text);
        const struct pl_case_result *c = wing_case(&w, "push");
        double peak[FIGURES], in[FIGURES], out[FIGURES], at[FIGURES];
        peaks(c, peak);
        for (size_t i = 0; i < ENDS; i++) {
            const struct pl_check_row *end = row_at(c, ends_m[i]);
            figures(end, at);
            limit(end, -1, in);
            limit(end, 1, out);
            for (int k = 0; k < FIGURES; k++) /* the side of greater magnitude is told, the lower reserve */
                if (!(fabs(larger(in[k], out[k]) - at[k]) <= 1e-3 * peak[k]))
                    fail_msg("figure %d at %.0f mm is %.9g, beside it %.9g and %.9g", k, 1e3 * ends_m[i], at[k], in[k],
                             out[k]);
        }
        wing_free(&w);
    }
}

/* The step itself is twist times the way the shear centre goes, and is told within those two millimetres. */
static void the_step_is_twist_times_the_way_of_the_shear_centre(void **state)
{
    (void)state;
    struct wing w;
    struct pl_place_view view;
    struct wing_text text = stepped(0);
    double peak[FIGURES], in[FIGURES], out[FIGURES], most = 0;
    wing_make(&w, &text);
    const struct pl_case_result *c = wing_case(&w, "push");
    peaks(c, peak);
    for (size_t i = 0; i < ENDS; i++) {
        const struct pl_check_row *end = row_at(c, ends_m[i]);
        limit(end, -1, in);
        limit(end, 1, out);
        double way_m = wing_section(&w, 0, ends_m[i] + 1e-6, &view)->x_shear_centre_m;
        way_m -= wing_section(&w, 0, ends_m[i] - 1e-6, &view)->x_shear_centre_m;
        double step_m = -end->twist_rad * way_m; /* nose up: what lies farther back rises less */
        assert_true(fabs(out[DEFLECTION] - in[DEFLECTION] - step_m) <= 1e-3 * peak[DEFLECTION]);
        assert_true(fabs(out[TWIST] - in[TWIST]) <= 1e-3 * peak[TWIST]);
        most = fmax(most, fabs(step_m));
    }
    assert_true(most > 5e-3 * peak[DEFLECTION]); /* else nothing was tried */
    wing_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_station_stands_a_millimetre_on_either_side_of_a_piece_end),
        cmocka_unit_test(no_more_stations_stand_than_it_takes),
        cmocka_unit_test(pieces_that_begin_off_the_centreline_have_such_stations_at_both_ends),
        cmocka_unit_test(ends_close_to_one_another_are_not_crowded),
        cmocka_unit_test(rows_beside_a_step_agree_with_its_limits),
        cmocka_unit_test(the_step_is_twist_times_the_way_of_the_shear_centre),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
