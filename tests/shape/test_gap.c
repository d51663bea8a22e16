/* Gap and overlap: flat plates against the ruler, the laws they keep, and moves that make them what is wished. */
#include "../part_text.h"
#include "../support.h"

#include "plyloft/gap.h"

#include <math.h>

/* A flat plate, its faces a hundredth of the chord off the middle and its nose run to a point over the first fiftieth;
 * and two curved sections. */
#define PROFILES \
    "{'name': 'section', 'points': [[1, 0.01], [0.02, 0.01], [0, 0], [0.02, -0.01], [1, -0.01]]}," \
    "{'name': 'curved', 'naca': '6412'}, {'name': 'thick', 'naca': '4415'}"

/* In mm and degrees, the same over the whole span. */
struct section { const char *profile; bool inverted; double half_span, chord, x, z, incidence; };

static const char *stations(const struct section *s)
{
    const char *size = say("'chord_mm': %.15g, 'x_le_mm': %.15g, 'z_le_mm': %.15g, 'twist_deg': 0, 'profile': '%s'",
                           s->chord, s->x, s->z, s->profile);
    return say("{'y_mm': 0, %s}, {'y_mm': %.15g, %s}", size, s->half_span, size);
}

static const char *head(const struct section *s)
{
    return say("'inverted': %s, 'incidence_deg': %.15g", s->inverted ? "true" : "false", s->incidence);
}

static const char *further(const char *name, const struct section *s)
{
    return say("{'name': '%s', %s, 'stations': [%s], 'core': 'foam', 'resin': 'resin', 'layup': [%s], 'mounts': [%s]}", name,
               head(s), stations(s), say_skin("plain", 45, 3), "{'name': 'middle', 'y_mm': 0, 'hold': 'clamped'}");
}

struct wings {
    struct wing wing;
    struct pl_arena arena;
    struct pl_gap_shape *shape;
};

static void wings_make(struct wings *w, const struct section *sections, size_t n)
{
    const char *more = NULL;
    for (size_t i = 1; i < n; i++)
        more = say("%s%s%s", more ? more : "", more ? ", " : "", further(say("rear %zu", i), &sections[i]));
    const struct wing_text text = {
        .profiles = PROFILES, .element = head(&sections[0]), .stations = stations(&sections[0]), .more_elements = more,
        .mounts = "{'name': 'middle', 'y_mm': 0, 'hold': 'clamped'}", .cases = "",
    };
    *w = (struct wings){0};
    wing_build(&w->wing, &text);
    assert_int_equal(pl_gap_shape_make(&w->shape, &w->wing.part, &w->arena), PL_OK);
}

static void wings_free(struct wings *w)
{
    pl_arena_free(&w->arena);
    wing_free(&w->wing);
}

static struct pl_gap gap_between(struct section front, struct section rear, double y_m)
{
    struct wings w;
    const struct section both[] = {front, rear};
    wings_make(&w, both, 2);
    struct pl_gap gap = pl_gap_at(w.shape, 1, y_m);
    wings_free(&w);
    return gap;
}

#define assert_mm(got_m, want_mm) assert_close(1e3 * (got_m) + 1000, (want_mm) + 1000, 1e-10)

static const struct section plate = {"section", true, 600, 300, 0, 0, 0};

static struct section plate_behind(double x, double z, double incidence)
{
    return (struct section){"section", true, 600, 100, x, z, incidence};
}

static const struct section curved_front = {"curved", true, 600, 300, 0, 0, 6};
static const struct section curved_rear = {"thick", true, 600, 110, 295, 40, 28};

/* ---- closed forms ---- */

static void flat_plates_one_above_the_other_are_read_off_the_ruler(void **state)
{
    (void)state;
    /* nose at 295 of 300: 5 ahead; the face stands 1 mm below the chord at 6 */
    struct pl_gap gap = gap_between(plate, plate_behind(295, 6, 0), 0.2);
    assert_int_equal(gap.ahead, 0);
    assert_false(gap.crosses);
    assert_mm(gap.overlap_m, 5);
    assert_mm(gap.gap_m, 5);
    assert_mm(gap.chord_m, 300);
}

static void a_nose_behind_the_edge_is_a_negative_overlap_and_its_own_distance(void **state)
{
    (void)state;
    /* 8 mm behind and 6 above: 3-4-5 */
    struct pl_gap gap = gap_between(plate, plate_behind(308, 6, 0), 0);
    assert_mm(gap.overlap_m, -8);
    assert_mm(gap.gap_m, 10);
    assert_false(gap.crosses);
}

static void a_plate_turned_up_is_as_far_off_as_its_lower_face(void **state)
{
    (void)state;
    /* From the nose, 10 ahead of the edge and 6 above it, to the edge: 10 aft, 6 down.  Across a chord that rises by 30
     * degrees that is 10 sin 30 + 6 cos 30, less 1 mm to the face; along it 10 cos 30 - 6 sin 30 = 5.66, behind the 2 mm
     * of the pointed nose. */
    struct pl_gap gap = gap_between(plate, plate_behind(290, 6, 30), 0);
    assert_mm(gap.gap_m, 5 + 6 * cos(M_PI / 6) - 1);
    assert_mm(gap.overlap_m, 10);
}

static void overlap_is_along_the_chord_ahead_not_along_the_stream(void **state)
{
    (void)state;
    /* A front plate with 20 degrees more and a rear one that is moved and turned with it: nothing changes. */
    double a = 20 * M_PI / 180, x = 290 * cos(a) - 6 * sin(a), z = 290 * sin(a) + 6 * cos(a);
    struct section front = plate;
    front.incidence = 20;
    struct pl_gap turned = gap_between(front, plate_behind(x, z, 50), 0), level = gap_between(plate, plate_behind(290, 6, 30), 0);
    assert_mm(turned.overlap_m, 10);
    assert_mm(turned.gap_m, 1e3 * level.gap_m);
}

static void the_edge_is_the_middle_of_an_open_one_and_the_nose_what_is_foremost(void **state)
{
    (void)state;
    /* A blunt plate turned up by 60 degrees: its upper corner, 1 mm across and 2 mm along the chord, stands at
     * 2 cos 60 - 1 sin 60 = 0.134 aft of the leading edge; that of a plate turned by 80, 2 cos 80 - sin 80 = -0.638. */
    double a = 80 * M_PI / 180;
    assert_mm(gap_between(plate, plate_behind(290, 30, 60), 0).overlap_m, 10);
    assert_mm(gap_between(plate, plate_behind(290, 30, 80), 0).overlap_m, 10 + sin(a) - 2 * cos(a));
}

/* ---- crossing ---- */

static void an_edge_inside_the_section_behind_is_a_negative_gap(void **state)
{
    (void)state;
    /* chord 0.4 mm above the edge, the face 1 mm below it: 0.6 mm too low */
    struct pl_gap gap = gap_between(plate, plate_behind(280, 0.4, 0), 0);
    assert_true(gap.crosses);
    assert_mm(gap.gap_m, -0.6);
}

static void plates_that_cross_like_scissors_have_a_negative_gap(void **state)
{
    (void)state;
    /* The rear plate passes through the front one 60 mm ahead of its edge; the edge itself is clear of it. */
    struct pl_gap gap = gap_between(plate, plate_behind(200, 40, -45), 0);
    assert_true(gap.crosses);
    assert_true(gap.gap_m < -0.030);
    assert_false(gap_between(plate, plate_behind(200, 40, 45), 0).crosses);
}

static void a_section_all_inside_the_one_ahead_crosses_it(void **state)
{
    (void)state;
    struct section small = {"section", true, 600, 20, 100, 0, 0};
    assert_true(gap_between(plate, small, 0).crosses);
}

/* ---- laws ---- */

static struct section moved(struct section s, double x, double z)
{
    s.x += x;
    s.z += z;
    return s;
}

static void moving_the_rear_element_aft_takes_as_much_off_the_overlap(void **state)
{
    (void)state;
    double a = curved_front.incidence * M_PI / 180;
    struct pl_gap before = gap_between(curved_front, curved_rear, 0);
    struct pl_gap aft = gap_between(curved_front, moved(curved_rear, 3 * cos(a), 3 * sin(a)), 0);
    struct pl_gap up = gap_between(curved_front, moved(curved_rear, -3 * sin(a), 3 * cos(a)), 0);
    assert_mm(aft.overlap_m, 1e3 * before.overlap_m - 3);
    assert_mm(up.overlap_m, 1e3 * before.overlap_m);
    assert_true(up.gap_m > before.gap_m);
    assert_true(up.gap_m <= before.gap_m + 0.003 + 1e-12);  /* no distance grows faster than the way */
}

static void moving_both_changes_nothing(void **state)
{
    (void)state;
    struct pl_gap here = gap_between(curved_front, curved_rear, 0);
    struct pl_gap there = gap_between(moved(curved_front, 120, -45), moved(curved_rear, 120, -45), 0);
    assert_mm(there.gap_m, 1e3 * here.gap_m);
    assert_mm(there.overlap_m, 1e3 * here.overlap_m);
}

static struct section mirrored(struct section s)
{
    s.z = -s.z;
    s.inverted = !s.inverted;
    return s;
}

static void upside_down_gap_and_overlap_are_the_same(void **state)
{
    (void)state;
    struct pl_gap here = gap_between(curved_front, curved_rear, 0);
    struct pl_gap there = gap_between(mirrored(curved_front), mirrored(curved_rear), 0);
    assert_mm(there.gap_m, 1e3 * here.gap_m);
    assert_mm(there.overlap_m, 1e3 * here.overlap_m);
    assert_int_equal(there.crosses, here.crosses);
}

static struct section twice(struct section s)
{
    s.chord *= 2;
    s.x *= 2;
    s.z *= 2;
    return s;
}

static void twice_the_size_has_twice_the_gap_and_overlap(void **state)
{
    (void)state;
    struct pl_gap here = gap_between(curved_front, curved_rear, 0), there = gap_between(twice(curved_front), twice(curved_rear), 0);
    assert_close(there.gap_m, 2 * here.gap_m, 1e-12);
    assert_close(there.overlap_m, 2 * here.overlap_m, 1e-12);
    assert_close(there.chord_m, 2 * here.chord_m, 1e-12);
}

static void the_left_half_has_the_gap_of_the_right(void **state)
{
    (void)state;
    struct pl_gap right = gap_between(curved_front, curved_rear, 0.31), left = gap_between(curved_front, curved_rear, -0.31);
    assert_close(left.gap_m, right.gap_m, 0);
    assert_close(left.overlap_m, right.overlap_m, 0);
}

/* ---- which one is ahead ---- */

static void nothing_is_ahead_of_the_first_element_nor_beyond_a_tip(void **state)
{
    (void)state;
    struct section narrow = plate;
    narrow.half_span = 400;
    const struct section both[] = {narrow, plate_behind(295, 6, 0)};
    struct wings w;
    wings_make(&w, both, 2);
    struct pl_gap first = pl_gap_at(w.shape, 0, 0);
    assert_true(first.ahead == PL_NONE && isnan(first.gap_m) && isnan(first.overlap_m) && isnan(first.chord_m) && !first.crosses);
    assert_int_equal(pl_gap_at(w.shape, 1, 0.4).ahead, 0);
    assert_true(pl_gap_at(w.shape, 1, 0.401).ahead == PL_NONE);
    assert_true(pl_gap_at(w.shape, 1, 0.7).ahead == PL_NONE);
    assert_false(pl_gap_is_behind(&w.wing.part, 0));
    assert_true(pl_gap_is_behind(&w.wing.part, 1));
    wings_free(&w);
}

static void of_several_the_one_with_the_nearest_edge_is_ahead(void **state)
{
    (void)state;
    const struct section three[] = {plate, plate_behind(395, 30, 0), plate_behind(295, 6, 0)};
    struct wings w;
    wings_make(&w, three, 3);
    assert_int_equal(pl_gap_at(w.shape, 2, 0).ahead, 0);
    assert_int_equal(pl_gap_at(w.shape, 1, 0).ahead, 2);  /* 5, 24; that of the first 95, 30 away */
    wings_free(&w);
}

static void a_profile_that_is_none_is_refused(void **state)
{
    (void)state;
    struct wing wing;
    struct pl_arena arena = {0};
    struct pl_gap_shape *shape;
    const struct wing_text text = {.profiles = "{'name': 'section', 'naca': '99x'}", .cases = ""};
    wing_build(&wing, &text);
    assert_int_equal(pl_gap_shape_make(&shape, &wing.part, &arena), PL_BAD_INPUT);
    assert_null(shape);
    pl_arena_free(&arena);
    wing_free(&wing);
}

/* ---- moves ---- */

/* The fault of moving rear behind front, and in *got what is read once it is moved. */
static enum pl_gap_fault move_to(struct section front, struct section rear, double gap_mm, double overlap_mm, struct pl_gap *got,
                                 struct pl_gap_move *move)
{
    struct wings w;
    const struct section both[] = {front, rear};
    wings_make(&w, both, 2);
    enum pl_gap_fault fault = pl_gap_solve(w.shape, 1, 0, 1e-3 * gap_mm, 1e-3 * overlap_mm, move);
    wings_free(&w);
    *got = gap_between(front, moved(rear, 1e3 * move->x_m, 1e3 * move->z_m), 0);
    return fault;
}

static void flat_plates_are_moved_as_by_hand(void **state)
{
    (void)state;
    struct pl_gap got;
    struct pl_gap_move move;
    assert_int_equal(move_to(plate, plate_behind(295, 6, 0), 8, 12, &got, &move), PL_GAP_FITS);
    assert_mm(move.x_m, -7);
    assert_mm(move.z_m, 3);
}

static void a_moved_element_has_the_gap_and_overlap_that_were_wished(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 300; i++) {
        struct section front = curved_front, rear = curved_rear;
        struct pl_gap got;
        struct pl_gap_move move;
        front.incidence = chance_between(&seed, -5, 15);
        rear.incidence = front.incidence + chance_between(&seed, 5, 40);
        double overlap_mm = chance_between(&seed, -10, 8), gap_mm = fmax(0, -overlap_mm) + chance_between(&seed, 1.5, 15);
        rear = moved(rear, chance_between(&seed, -5, 40), chance_between(&seed, 0, 30));
        bool upright = chance(&seed) > 0.5;
        front = upright ? mirrored(front) : front;
        rear = upright ? mirrored(rear) : rear;
        assert_int_equal(move_to(front, rear, gap_mm, overlap_mm, &got, &move), PL_GAP_FITS);
        assert_false(got.crosses);
        assert_mm(got.gap_m, gap_mm);
        assert_mm(got.overlap_m, overlap_mm);
    }
}

static void an_element_stays_on_its_side_of_the_edge(void **state)
{
    (void)state;
    struct pl_gap got;
    struct pl_gap_move move;
    assert_int_equal(move_to(plate, plate_behind(295, -6, 0), 8, 5, &got, &move), PL_GAP_FITS);
    assert_mm(move.x_m, 0);
    assert_mm(move.z_m, -3);
}

static void elements_that_cross_are_parted_to_the_usual_side(void **state)
{
    (void)state;
    struct pl_gap got;
    struct pl_gap_move move;
    struct section front = plate, rear = plate_behind(295, -0.2, 0);
    assert_int_equal(move_to(front, rear, 5, 5, &got, &move), PL_GAP_FITS);
    assert_mm(move.z_m, 6.2);  /* inverted: above */
    front.inverted = rear.inverted = false;
    assert_int_equal(move_to(front, rear, 5, 5, &got, &move), PL_GAP_FITS);
    assert_mm(move.z_m, -5.8);
}

static void a_gap_nearer_than_the_nose_is_refused_with_the_least_there_is(void **state)
{
    (void)state;
    struct pl_gap got;
    struct pl_gap_move move;
    assert_int_equal(move_to(plate, plate_behind(295, 6, 0), 4, -7, &got, &move), PL_GAP_TOO_SMALL);
    assert_mm(move.least_m, 7);
    assert_int_equal(move_to(plate, plate_behind(295, 6, 0), 8, -7, &got, &move), PL_GAP_FITS);
    assert_mm(got.gap_m, 8);
}

static void an_overlap_past_the_nose_ahead_is_refused(void **state)
{
    (void)state;
    struct pl_gap got;
    struct pl_gap_move move;
    struct section wide = plate_behind(295, 6, 0);
    wide.chord = 400;
    assert_int_equal(move_to(plate, wide, 15, 299, &got, &move), PL_GAP_FITS);
    assert_int_equal(move_to(plate, wide, 15, 301, &got, &move), PL_GAP_OTHER_AHEAD);
}

static void a_move_that_would_make_them_cross_elsewhere_is_refused(void **state)
{
    (void)state;
    struct pl_gap got;
    struct pl_gap_move move;
    /* turned nose down by 10 degrees, its nose 90 mm ahead would stand 16 mm lower than over the edge */
    assert_int_equal(move_to(plate, plate_behind(290, 20, 10), 1, 90, &got, &move), PL_GAP_CROSSED);
}

static void nothing_ahead_is_said(void **state)
{
    (void)state;
    struct wings w;
    struct pl_gap_move move;
    wings_make(&w, &plate, 1);
    assert_int_equal(pl_gap_solve(w.shape, 0, 0, 0.005, 0.005, &move), PL_GAP_NONE_AHEAD);
    wings_free(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flat_plates_one_above_the_other_are_read_off_the_ruler),
        cmocka_unit_test(a_nose_behind_the_edge_is_a_negative_overlap_and_its_own_distance),
        cmocka_unit_test(a_plate_turned_up_is_as_far_off_as_its_lower_face),
        cmocka_unit_test(overlap_is_along_the_chord_ahead_not_along_the_stream),
        cmocka_unit_test(the_edge_is_the_middle_of_an_open_one_and_the_nose_what_is_foremost),
        cmocka_unit_test(an_edge_inside_the_section_behind_is_a_negative_gap),
        cmocka_unit_test(plates_that_cross_like_scissors_have_a_negative_gap),
        cmocka_unit_test(a_section_all_inside_the_one_ahead_crosses_it),
        cmocka_unit_test(moving_the_rear_element_aft_takes_as_much_off_the_overlap),
        cmocka_unit_test(moving_both_changes_nothing),
        cmocka_unit_test(upside_down_gap_and_overlap_are_the_same),
        cmocka_unit_test(twice_the_size_has_twice_the_gap_and_overlap),
        cmocka_unit_test(the_left_half_has_the_gap_of_the_right),
        cmocka_unit_test(nothing_is_ahead_of_the_first_element_nor_beyond_a_tip),
        cmocka_unit_test(of_several_the_one_with_the_nearest_edge_is_ahead),
        cmocka_unit_test(a_profile_that_is_none_is_refused),
        cmocka_unit_test(flat_plates_are_moved_as_by_hand),
        cmocka_unit_test(a_moved_element_has_the_gap_and_overlap_that_were_wished),
        cmocka_unit_test(an_element_stays_on_its_side_of_the_edge),
        cmocka_unit_test(elements_that_cross_are_parted_to_the_usual_side),
        cmocka_unit_test(a_gap_nearer_than_the_nose_is_refused_with_the_least_there_is),
        cmocka_unit_test(an_overlap_past_the_nose_ahead_is_refused),
        cmocka_unit_test(a_move_that_would_make_them_cross_elsewhere_is_refused),
        cmocka_unit_test(nothing_ahead_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
