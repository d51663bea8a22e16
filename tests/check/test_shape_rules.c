/* The rules that need the shape or the cloth: profiles, bare wall, clipped pieces, end plates, the ground. */
#include "../part/trial.h"

static void try_solved(const char *pointer, const char *json)
{
    put(&t, pointer, json);
    trial_solve(&t);
}

/* The number behind a word of what was said at a place. */
static double figure_behind(const char *place, const char *word)
{
    for (size_t i = 0; i < t.problems.count; i++) {
        const char *at = strcmp(t.problems.list[i].place, place) ? NULL : strstr(t.problems.list[i].rule, word);
        double value;
        if (at && sscanf(at + strlen(word), "%lf", &value) == 1)
            return value;
    }
    print_problems(&t);
    fail_msg("there is no figure behind \"%s\" at %s", word, place);
    return 0;
}

/* ---- profiles ---- */

static void digits_that_naca_does_not_define_are_refused(void **state)
{
    (void)state;
    static const struct { const char *digits, *rule;
    } wrong[] = {
        {"\"12\"", "four- or five-digit"},
        {"\"641234\"", "four- or five-digit"},
        {"\"64x2\"", "four- or five-digit"},
        {"\"\"", "four- or five-digit"},
        {"\"6400\"", "thickness of at least 1 %"},
        {"\"23000\"", "thickness of at least 1 %"},
        {"\"6012\"", "no place for it"},
        {"\"23612\"", "mean line"},
        {"\"21112\"", "mean line"},
        {"\"23212\"", "mean line"},
        {"\"03012\"", "first digit of 0"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char found[32];
        snprintf(found, sizeof found, "%.*s", (int)strlen(wrong[i].digits) - 2, wrong[i].digits + 1);
        try_solved("/profiles/0/naca", wrong[i].digits);
        assert_only_error(&t, "/profiles/0/naca", wrong[i].rule, found);
    }
    try_solved("/profiles/0/naca", "\"23112\"");
    assert_int_equal(t.status, PL_OK);
}

static void points_that_make_no_section_are_refused_with_the_point(void **state)
{
    (void)state;
    static const struct { const char *points, *place, *rule; } wrong[] = {
        {"[[1, 0], [0, 0], [1, 0]]", "/profiles/0/points/0", "at least 5 points"},
        {"[[1, 0], [0.5, 0.06], [0, 0], [0.5, -0.06], [100, 0]]", "/profiles/0/points/4", "in chords"},
        {"[[1, 0], [0.5, 1.06], [0, 0], [0.5, -0.06], [1, 0]]", "/profiles/0/points/1", "in chords"},
        {"[[1, 0], [0.5, 0.06], [0.5, 0.06], [0, 0], [1, 0]]", "/profiles/0/points/2", "repeats"},
        {"[[1, 0], [0.4, 0.06], [0.5, 0.06], [0, 0], [0.5, -0.06], [1, 0]]", "/profiles/0/points/2", "turns back"},
        {"[[1, 0], [0.5, 0.06], [0, 0], [0.6, -0.06], [0.5, -0.06], [1, 0]]", "/profiles/0/points/4", "turns back"},
        {"[[0, 0], [0.5, -0.06], [0.7, -0.05], [0.9, 0], [1, 0]]", "/profiles/0/points/0", "with the nose between"},
        {"[[0.9, 0], [0.5, 0.06], [0, 0], [0.5, -0.06], [0.9, 0]]", "/profiles/0/points/2", "must reach from x = 0"},
        {"[[1, 0], [0.5, -0.06], [0, 0], [0.5, 0.06], [1, 0]]", "/profiles/0/points/1", "crossing"},
    };
    put(&t, "/profiles/0/naca", NULL);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        try_solved("/profiles/0/points", wrong[i].points);
        assert_int_equal(t.problems.errors, 1);
        if (count_told(&t, PL_ERROR, wrong[i].place, wrong[i].rule) != 1) {
            print_problems(&t);
            fail_msg("%s at %s was to be said", wrong[i].rule, wrong[i].place);
        }
    }
}

static void every_bad_profile_is_told(void **state)
{
    (void)state;
    put(&t, "/profiles/0/naca", "\"99\"");
    do_edit(t.doc, INSERT, "/profiles/-", "{\"name\": \"other\", \"points\": [[1, 0], [0, 0]]}", 0);
    trial_solve(&t);
    assert_error(&t, "/profiles/0/naca", "four- or five-digit", "99");
    assert_int_equal(count_told(&t, PL_ERROR, "/profiles/1/points/0", "at least 5 points"), 1);
}

/* ---- cloth ---- */

static void bare_wall_is_refused_with_side_and_place(void **state)
{
    (void)state;
    /* The nose is covered from 0 on; without the skins' first fiftieth it is bare to 0.02 on the top, told first. */
    put(&t, "/elements/0/layup/0/chord_from", "0.02");
    try_solved("/elements/0/layup/4/chord_from", "0.02");
    assert_only_error(&t, "/elements/0/layup", "bare from 0.000 to 0.020 of the chord", "");
}

static void bare_wall_is_found_wherever_it_lies(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/0/half_length_mm", "600");
    try_solved("/elements/0/layup/4/half_length_mm", "620");
    assert_error(&t, "/elements/0/layup", "bare", "");
    double y_mm = figure_behind("/elements/0/layup", "at y ");
    assert_in_range((uintmax_t)y_mm, 620, 640);
    try_solved("/elements/0/layup/4/half_length_mm", NULL);
    assert_taken_silently(&t);
}

static void a_side_without_cloth_is_bare(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/0/side", "\"top\"");
    put(&t, "/elements/0/layup/1/side", "\"top\"");
    try_solved("/elements/0/layup/4/side", "\"top\"");
    assert_only_error(&t, "/elements/0/layup", "the bottom bare", "");
}

static void bare_wall_of_every_element_is_told(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/0/chord_to", "0.9");
    try_solved("/elements/1/layup/0/chord_to", "0.9");
    assert_int_equal(count_told(&t, PL_ERROR, "/elements/0/layup", "bare"), 1);
    assert_int_equal(count_told(&t, PL_ERROR, "/elements/1/layup", "bare"), 1);
}

static void a_piece_past_the_chord_is_clipped_and_told_once(void **state)
{
    (void)state;
    /* 0.10 x 275 mm lies 27.5 mm behind the nose, less than half of 72. */
    try_solved("/elements/0/layup/2/centre_at", "0.10");
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/0/layup/2", "reaches past the chord"), 1);
    assert_int_equal(t.problems.count, 1);
}

static void a_piece_is_clipped_from_where_the_chord_is_too_short(void **state)
{
    (void)state;
    /* 0.85 c + 36 = c where c = 240 mm; 275 - 45 (y - 170)/470 = 240 at y = 535.6 mm, and places lie 10 mm apart. */
    try_solved("/elements/0/layup/2/centre_at", "0.85");
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/0/layup/2", "reaches past the chord"), 1);
    double y_mm = figure_behind("/elements/0/layup/2", "from y ");
    assert_in_range((uintmax_t)y_mm, 535, 546);
    try_solved("/elements/0/layup/2/half_length_mm", "500");
    assert_taken_silently(&t);
}

/* ---- two elements ---- */

static void sections_of_two_elements_that_cross_are_warned_about(void **state)
{
    (void)state;
    /* The flap of the part stands clear of the main plane; its nose on the trailing edge ahead, they cross. */
    trial_solve(&t);
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/1/stations/0", "crosses"), 0);
    try_solved("/elements/1/stations/0/z_le_mm", "18");
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/1/stations/0", "crosses the section of main, ahead of it"), 1);
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/1/stations/1", "crosses"), 0);
}

/* ---- end plates ---- */

/* The tip of the main element: chord 240 mm, leading edge at x = 15, inverted, turned by 3 - 1.5 degrees, so its mean
 * line runs from x = 15 to 15 + 240 cos(1.5 deg) = 254.9 mm. */
static void the_end_plates_reach_over_the_tip_in_x(void **state)
{
    (void)state;
    put(&t, "/elements/0/end_plates/x_le_mm", "15.1");
    trial_solve(&t);
    assert_error(&t, "/elements/0/end_plates", "in x", "");
    assert_int_equal(t.problems.errors, 1);
    assert_close(figure_behind("/elements/0/end_plates", "in x: from "), 15, 0.01);
    try_solved("/elements/0/end_plates/x_le_mm", "15");
    assert_taken_silently(&t);
    try_solved("/elements/0/end_plates/length_mm", "239");
    assert_error(&t, "/elements/0/end_plates", "in x", "");
    try_solved("/elements/0/end_plates/length_mm", "240");
    assert_taken_silently(&t);
}

static void plates_left_at_the_tips_leading_edge_start_there(void **state)
{
    (void)state;
    put(&t, "/elements/0/end_plates/x_le_mm", NULL);
    try_solved("/elements/0/end_plates/length_mm", "240");
    assert_taken_silently(&t);
    try_solved("/elements/0/end_plates/length_mm", "230");
    assert_error(&t, "/elements/0/end_plates", "in x", "");
}

static void the_end_plates_reach_over_the_tip_in_z(void **state)
{
    (void)state;
    /* The camber hangs below the leading edge, by 0.06 x 240 = 14.4 mm at most before the turn. */
    try_solved("/elements/0/end_plates/below_mm", "2");
    assert_only_error(&t, "/elements/0/end_plates", "in z", "");
    put(&t, "/elements/0/end_plates/below_mm", "80");
    try_solved("/elements/0/end_plates/height_mm", "70");
    assert_only_error(&t, "/elements/0/end_plates", "in z", "");
    try_solved("/elements/0/end_plates/height_mm", "95");
    assert_taken_silently(&t);
}

/* ---- the ground ---- */

static void wing_and_plates_stay_above_the_ground(void **state)
{
    (void)state;
    /* The tip's leading edge lies 5 mm above the root's, whose lowest point is some 20 mm further down. */
    try_solved("/elements/0/end_plates/below_mm", "110");
    assert_error(&t, "/load_cases/0/ride_height_mm", "the end plates touch the ground", "72");
    assert_int_equal(t.problems.errors, 1);
}

static void a_tip_that_hangs_into_the_ground_is_refused(void **state)
{
    (void)state;
    put(&t, "/elements/0/end_plates", NULL);
    try_solved("/elements/0/stations/1/z_le_mm", "-90");
    assert_error(&t, "/load_cases/0/ride_height_mm", "touches the ground at y 600 mm", "72");
    assert_int_equal(t.problems.errors, 1);
    try_solved("/load_cases/0/ride_height_mm", NULL);
    assert_int_equal(t.status, PL_OK);
}

static void all_that_shape_and_cloth_tell_is_told_at_once(void **state)
{
    (void)state;
    put(&t, "/elements/0/layup/2/centre_at", "0.05");
    put(&t, "/elements/0/end_plates/length_mm", "100");
    put(&t, "/elements/0/end_plates/height_mm", "50");
    try_solved("/load_cases/0/ride_height_mm", "30");
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/0/layup/2", "reaches past the chord"), 1);
    assert_int_equal(count_told(&t, PL_ERROR, "/elements/0/end_plates", "in x"), 1);
    assert_int_equal(count_told(&t, PL_ERROR, "/elements/0/end_plates", "in z"), 1);
    assert_int_equal(count_told(&t, PL_ERROR, "/load_cases/0/ride_height_mm", "touch"), 1);
    assert_int_equal(t.status, PL_BAD_INPUT);
}

static void they_are_not_asked_while_the_part_has_an_error(void **state)
{
    (void)state;
    put(&t, "/profiles/0/naca", "\"99\"");
    try_solved("/elements/0/incidence_deg", "\"two\"");
    assert_only_error(&t, "/elements/0/incidence_deg", "must be a number", "\"two\"");
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, release)
#define WHOLE(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(digits_that_naca_does_not_define_are_refused),
        TRIAL(points_that_make_no_section_are_refused_with_the_point),
        TRIAL(every_bad_profile_is_told),
        TRIAL(bare_wall_is_refused_with_side_and_place),
        TRIAL(bare_wall_is_found_wherever_it_lies),
        TRIAL(a_side_without_cloth_is_bare),
        WHOLE(bare_wall_of_every_element_is_told),
        TRIAL(a_piece_past_the_chord_is_clipped_and_told_once),
        TRIAL(a_piece_is_clipped_from_where_the_chord_is_too_short),
        WHOLE(sections_of_two_elements_that_cross_are_warned_about),
        WHOLE(the_end_plates_reach_over_the_tip_in_x),
        WHOLE(plates_left_at_the_tips_leading_edge_start_there),
        WHOLE(the_end_plates_reach_over_the_tip_in_z),
        WHOLE(wing_and_plates_stay_above_the_ground),
        WHOLE(a_tip_that_hangs_into_the_ground_is_refused),
        WHOLE(all_that_shape_and_cloth_tell_is_told_at_once),
        TRIAL(they_are_not_asked_while_the_part_has_an_error),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
