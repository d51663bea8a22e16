/* What a row may have, and the same row said another way: kinds of case, edges and strips, force and energy, points. */
#include "rows.h"

#include "plyloft/profile.h"

/* ---- kinds of load case ---- */

static const char *const kinds[] = {"downforce", "jacking", "tip-strike", "point"};

static bool key_belongs(const char *key, const struct pl_load_case *c)
{
    const struct pl_group *g = &pl_groups[PL_GROUP_CASE];
    for (size_t i = 0; i < g->n_fields; i++)
        if (!strcmp(g->fields[i].key, key))
            return !g->fields[i].when || g->fields[i].when(c);
    return strcmp(key, "pads") ? !strcmp(key, "note") : c->kind == PL_JACKING;
}

/* No key but those of its kind, and those that nobody knows. */
static void check_keys(size_t i)
{
    trial_build(&t);
    pl_node row = pl_document_find(t.doc, say("/load_cases/%zu", i));
    for (pl_node n = pl_node_first(t.doc, row); n != PL_NO_NODE; n = pl_node_next(t.doc, n))
        if (!key_belongs(pl_node_key(t.doc, n), &t.part.load_cases[i]))
            fail_msg("%s is left after %s", pl_node_key(t.doc, n), newest_step());
}

static void a_case_of_any_kind_can_become_any_other_in_one_step(void **state)
{
    (void)state;
    for (size_t p = 0; p < PARTS; p++) {
        begin(parts[p]);
        for (size_t i = 0; i < count_in("/load_cases"); i++)
            for (size_t k = 0; k < 4; k++) {
                const char *row = say("/load_cases/%zu", i);
                char *from = strdup(text_at(say("%s/kind", row))), *name = strdup(text_at(say("%s/name", row)));
                done(pl_row_set_kind(t.doc, row, kinds[k], &t.problems));
                bool same = !strcmp(from, kinds[k]);
                assert_int_equal(pl_document_steps_done(t.doc), !same);
                assert_string_equal(text_at(say("%s/kind", row)), kinds[k]);
                if (!same)
                    assert_string_equal(newest_step(), say("%s: Kind %s \u2192 %s", name, from, kinds[k]));
                if (!same)
                    assert_valid(newest_step());
                check_keys(i);
                undo_all();
                free(from);
                free(name);
            }
        end();
    }
}

static void what_both_kinds_know_stays(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/load_cases/3/note", "\"kept\"");
    done(pl_row_set_kind(t.doc, "/load_cases/3", "tip-strike", &t.problems));
    assert_close(number_at("/load_cases/3/force_n"), 200, 0);
    assert_close(number_at("/load_cases/3/y_mm"), -600, 0);
    assert_close(number_at("/load_cases/3/factor"), 1.5, 0);
    assert_string_equal(text_at("/load_cases/3/direction"), "down");
    assert_string_equal(text_at("/load_cases/3/note"), "kept");
    assert_false(has("/load_cases/3/moving_mass_kg"));
    /* A strike without a place is at the right tip. */
    done(pl_row_set_kind(t.doc, "/load_cases/2", "point", &t.problems));
    assert_close(number_at("/load_cases/2/y_mm"), 640, 0);
    assert_close(number_at("/load_cases/2/acts_at"), 0.2, 0);
    assert_false(has("/load_cases/2/travel_mm"));
    assert_valid(newest_step());
    end();
}

static void kinds_tried_one_after_the_other_are_one_step(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    for (size_t k = 0; k < 4; k++)
        done(pl_row_set_kind(t.doc, "/load_cases/0", kinds[(k + 1) % 4], &t.problems));
    assert_int_equal(pl_document_steps(t.doc), 1);
    assert_string_equal(newest_step(), "top speed: Kind downforce \u2192 downforce");
    assert_valid(newest_step());
    undo_all();
    end();
}

static void a_case_that_becomes_jacking_is_named_by_none(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    done(pl_row_set_kind(t.doc, "/load_cases/1", "jacking", &t.problems));
    assert_int_equal(count_in("/load_cases/0/with"), 0);
    assert_valid(newest_step());
    undo_all();
    done(pl_row_set_kind(t.doc, "/load_cases/1", "point", &t.problems));
    assert_int_equal(count_in("/load_cases/0/with"), 1);
    end();
}

static void a_strike_where_a_mount_stands_comes_with_a_force(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    done(pl_row_set_kind(t.doc, "/load_cases/1", "tip-strike", &t.problems)); /* the flap hangs at its tips */
    assert_close(number_at("/load_cases/1/force_n"), 300, 0);
    assert_false(has("/load_cases/1/moving_mass_kg"));
    size_t index;
    done(pl_row_add_case(t.doc, "/load_cases/1", "tip-strike", &index, &t.problems));
    assert_string_equal(text_at(say("/load_cases/%zu/element", index)), "flap");
    assert_valid(newest_step());
    done(pl_row_add_case(t.doc, "/load_cases/0", "tip-strike", &index, &t.problems));
    assert_close(number_at(say("/load_cases/%zu/moving_mass_kg", index)), 60, 0);
    assert_valid(newest_step());
    end();
}

static void what_is_no_kind_or_no_case_is_refused(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_refused(pl_row_set_kind(t.doc, "/load_cases/0", "flutter", &t.problems), "/load_cases/0",
                   "is no kind of load case");
    assert_refused(pl_row_set_kind(t.doc, "/load_cases/4", "point", &t.problems), "/load_cases/4", "is no load case");
    assert_refused(pl_row_set_kind(t.doc, "/load_cases", "point", &t.problems), "/load_cases", "is no load case");
    assert_refused(pl_row_set_kind(t.doc, "/cores/0", "point", &t.problems), "/cores/0", "is no load case");
    end();
}

/* ---- end plates ---- */

static void end_plates_reach_over_the_tip_whatever_its_setting(void **state)
{
    (void)state;
    static const double incidences[] = {-30, -5, 0, 2, 12, 45};
    for (int upright = 0; upright < 2; upright++)
        for (size_t i = 0; i < sizeof incidences / sizeof *incidences; i++) {
            begin(SAMPLE_PART);
            put(&t, "/elements/0/inverted", upright ? "false" : "true");
            put(&t, "/elements/0/incidence_deg", say("%g", incidences[i]));
            put(&t, "/load_cases/0/ride_height_mm", say("%g", fabs(incidences[i]) > 12 ? 400 : 70.0));
            size_t steps = pl_document_steps(t.doc);
            done(pl_row_add_end_plates(t.doc, "/elements/0", &t.problems));
            assert_int_equal(pl_document_steps(t.doc), steps + 1);
            assert_string_equal(newest_step(), "add end plates: main");
            assert_valid(newest_step());
            undo_all();
            end();
        }
}

static void a_car_comes_and_goes(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    done(pl_object_add(t.doc, PL_GROUP_CAR, &t.problems));
    assert_string_equal(newest_step(), "add: car");
    assert_true(has("/car/wheelbase_mm"));
    assert_valid(newest_step());
    assert_refused(pl_object_add(t.doc, PL_GROUP_CAR, &t.problems), "", "has one already");
    done(pl_object_remove(t.doc, PL_GROUP_CAR, &t.problems));
    assert_bytes(t.doc, original);
    assert_refused(pl_object_remove(t.doc, PL_GROUP_CAR, &t.problems), "", "has none such");
    assert_refused(pl_object_add(t.doc, PL_GROUP_STATION, &t.problems), "", "has no such object");
    undo_all();
    end();
}

static void end_plates_come_and_go(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    assert_refused(pl_row_add_end_plates(t.doc, "/elements/0", &t.problems), "/elements/0", "has end plates already");
    done(pl_row_add_end_plates(t.doc, "/elements/1", &t.problems));
    assert_valid(newest_step());
    done(pl_row_remove_end_plates(t.doc, "/elements/1", &t.problems));
    assert_bytes(t.doc, original);
    done(pl_row_remove_end_plates(t.doc, "/elements/0", &t.problems));
    assert_string_equal(newest_step(), "remove end plates: main");
    assert_false(has("/elements/0/end_plates"));
    assert_valid(newest_step());
    assert_refused(pl_row_remove_end_plates(t.doc, "/elements/0", &t.problems), "/elements/0", "has no end plates");
    assert_refused(pl_row_add_end_plates(t.doc, "/elements/2", &t.problems), "/elements/2", "is no element");
    undo_all();
    end();
}

/* ---- tip limits ---- */

static void a_tip_limit_comes_and_goes(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    done(pl_row_add_tip_limit(t.doc, "/load_cases/2", &t.problems));
    assert_string_equal(newest_step(), "add tip limit: kerb on tip");
    assert_close(number_at("/limits/tip_deflection_mm/kerb on tip"), 10, 0);
    assert_valid(newest_step());
    assert_close(t.part.load_cases[2].tip_limit_m, 0.01, 1e-15);
    assert_refused(pl_row_add_tip_limit(t.doc, "/load_cases/2", &t.problems), "/load_cases/2",
                   "has a tip limit already");
    done(pl_row_remove_tip_limit(t.doc, "/load_cases/2", &t.problems));
    assert_bytes(t.doc, original);
    done(pl_row_remove_tip_limit(t.doc, "/load_cases/3", &t.problems));
    assert_string_equal(newest_step(), "remove tip limit: scrutineer");
    assert_refused(pl_row_remove_tip_limit(t.doc, "/load_cases/3", &t.problems), "/load_cases/3", "has no tip limit");
    assert_refused(pl_row_add_tip_limit(t.doc, "/load_cases/9", &t.problems), "/load_cases/9", "is no load case");
    undo_all();
    end();
}

static void limits_are_made_where_there_are_none(void **state)
{
    (void)state;
    begin("samples/cantilever.json");
    put(&t, "/load_cases/0/name", "\"a/b~c\"");
    done(pl_row_add_tip_limit(t.doc, "/load_cases/0", &t.problems));
    assert_close(number_at("/limits/tip_deflection_mm/a~1b~0c"), 10, 0);
    assert_valid(newest_step());
    undo_all();
    put(&t, "/limits", "{\"mass_kg\": 2}");
    done(pl_row_add_tip_limit(t.doc, "/load_cases/1", &t.problems));
    assert_close(number_at("/limits/tip_deflection_mm/even air"), 10, 0);
    assert_close(number_at("/limits/mass_kg"), 2, 0);
    assert_valid(newest_step());
    undo_all();
    end();
}

/* ---- cases at the same time ---- */

static void a_case_at_the_same_time_comes_and_goes(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    assert_refused(pl_row_add_with(t.doc, "/load_cases/0", NULL, &t.problems), "/load_cases/0", "no case left");
    assert_refused(pl_row_add_with(t.doc, "/load_cases/0", "flap at speed", &t.problems), "/load_cases/0",
                   "names it already");
    done(pl_row_add_with(t.doc, "/load_cases/2", NULL, &t.problems));
    assert_string_equal(newest_step(), "jack: together with flap at speed");
    assert_string_equal(text_at("/load_cases/2/with/0"), "flap at speed");
    assert_valid(newest_step());
    undo_all();
    done(pl_row_remove_with(t.doc, "/load_cases/0", "flap at speed", &t.problems));
    assert_string_equal(newest_step(), "main at speed: without flap at speed");
    assert_int_equal(count_in("/load_cases/0/with"), 0);
    assert_valid(newest_step());
    assert_refused(pl_row_remove_with(t.doc, "/load_cases/0", "flap at speed", &t.problems), "/load_cases/0",
                   "does not name it");
    /* None stands on the flap. */
    assert_refused(pl_row_add_with(t.doc, "/load_cases/1", NULL, &t.problems), "/load_cases/1", "no case left");
    done(pl_row_add_with(t.doc, "/load_cases/1", "knee", &t.problems));
    trial_build(&t);
    assert_error(&t, "/load_cases/1/with/0", "does not stand on this one", "\"knee\"");
    undo_all();
    end();
}

/* ---- edges and strips ---- */

static void a_strip_becomes_edges_round_the_same_middle(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    /* 72 mm of the mean chord, (275 x 170 + 252.5 x 470) / 640 = 258.4766 mm, is 0.27855 of it. */
    done(pl_row_switch(t.doc, "/elements/0/layup/2", &t.problems));
    assert_string_equal(newest_step(), "top cap: between edges");
    assert_close(number_at("/elements/0/layup/2/chord_from"), 0.1607, 1e-12);
    assert_close(number_at("/elements/0/layup/2/chord_to"), 0.4393, 1e-12);
    assert_false(has("/elements/0/layup/2/centre_at") || has("/elements/0/layup/2/width_mm"));
    assert_valid(newest_step());
    size_t length;
    assert_non_null(strstr(pl_document_bytes(t.doc, &length),
                           "\"side\": \"top\",    \"chord_from\": 0.1607, \"chord_to\": 0.4393, \"drop_mm\": 70}"));
    done(pl_row_switch(t.doc, "/elements/0/layup/2", &t.problems));
    assert_string_equal(newest_step(), "top cap: strip about a centre");
    assert_close(number_at("/elements/0/layup/2/centre_at"), 0.3, 1e-12);
    assert_close(number_at("/elements/0/layup/2/width_mm"), 72, 1e-12);
    undo_all();
    end();
}

static void a_skin_becomes_a_strip_as_wide_as_the_chord_under_it(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    /* The wrap lies between y 100 and 240: its chord is 275 mm up to 170, then less by 45 in 470, 271.649 in the mean;
     * 273.324 over both, of which it covers 0.95. */
    done(pl_row_switch(t.doc, "/elements/0/layup/1", &t.problems));
    assert_close(number_at("/elements/0/layup/1/centre_at"), 0.525, 0);
    assert_close(number_at("/elements/0/layup/1/width_mm"), 259.7, 1e-12);
    end();
}

static double cloth_area(size_t item)
{
    const struct pl_layup_item *it = &t.part.elements[0].layup[item];
    const struct pl_element *e = &t.part.elements[0];
    double area_m2 = 0, half_m = pl_given(it->half_length_m) ? it->half_length_m : pl_element_semispan_m(e);
    const int n = 2000;
    for (int i = 0; i < n; i++) {
        double y_m = it->from_m + (half_m - it->from_m) * (i + 0.5) / n, chord_m = 0;
        for (size_t s = 1; s < e->n_stations; s++)
            if (y_m >= e->stations[s - 1].y_m && y_m <= e->stations[s].y_m)
                chord_m = e->stations[s - 1].chord_m + (e->stations[s].chord_m - e->stations[s - 1].chord_m) *
                                                           (y_m - e->stations[s - 1].y_m) /
                                                           (e->stations[s].y_m - e->stations[s - 1].y_m);
        area_m2 += (pl_given(it->width_m) ? it->width_m : (it->chord_to - it->chord_from) * chord_m) *
                   (half_m - it->from_m) / n;
    }
    return area_m2;
}

static void either_way_covers_the_same_area(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    for (size_t i = 0; i < count_in("/elements/0/layup"); i++) {
        trial_build(&t);
        double before_m2 = cloth_area(i);
        done(pl_row_switch(t.doc, say("/elements/0/layup/%zu", i), &t.problems));
        trial_build(&t);
        assert_int_equal(t.status, PL_OK);
        assert_close(cloth_area(i), before_m2, 1e-3); /* widths in tenths of a millimetre */
        undo_all();
    }
    end();
}

static void half_of_either_way_becomes_the_other_whole(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/elements/0/layup/2/chord_to", "0.9");
    put(&t, "/elements/0/layup/2/width_mm", NULL);
    done(pl_row_switch(t.doc, "/elements/0/layup/2", &t.problems));
    assert_valid(newest_step());
    put(&t, "/elements/0/layup/2/chord_to", NULL);
    done(pl_row_switch(t.doc, "/elements/0/layup/2", &t.problems));
    assert_valid(newest_step());
    put(&t, "/elements/0/layup/2/width_mm", "0.001");
    done(pl_row_switch(t.doc, "/elements/0/layup/2", &t.problems));
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    put(&t, "/elements/0/stations", "[]");
    assert_refused(pl_row_switch(t.doc, "/elements/0/layup/2", &t.problems), "/elements/0/layup/2", "has no chord");
    assert_refused(pl_row_switch(t.doc, "/load_cases/0", &t.problems), "/load_cases/0", "in one way only");
    assert_refused(pl_row_switch(t.doc, "/cores/0", &t.problems), "/cores/0", "in one way only");
    end();
}

/* ---- strikes ---- */

static void a_strike_is_by_energy_or_by_force(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    done(pl_row_switch(t.doc, "/load_cases/3", &t.problems));
    assert_string_equal(newest_step(), "kerb: by force");
    assert_true(number_at("/load_cases/3/force_n") > 0);
    assert_false(has("/load_cases/3/moving_mass_kg") || has("/load_cases/3/closing_speed_ms") ||
                 has("/load_cases/3/travel_mm"));
    assert_valid(newest_step());
    undo_all();
    done(pl_row_switch(t.doc, "/load_cases/4", &t.problems));
    assert_string_equal(newest_step(), "cone: by energy");
    assert_false(has("/load_cases/4/force_n"));
    assert_valid(newest_step());
    undo_all();
    end();
}

/* ---- profiles ---- */

static void a_profile_of_digits_becomes_points_and_digits_again(void **state)
{
    (void)state;
    static const char *const digits[] = {"6412", "0012", "2415", "9320", "0006", "4409"};
    for (size_t i = 0; i < sizeof digits / sizeof *digits; i++) {
        struct pl_point points[81];
        struct pl_profile profile = {.naca = digits[i]};
        begin(SAMPLE_PART);
        put(&t, "/profiles/0/naca", say("\"%s\"", digits[i]));
        pl_profile_list(&profile, 81, points);
        done(pl_row_set_points(t.doc, "/profiles/0", points, 81, &t.problems));
        assert_string_equal(newest_step(), "main: 81 points");
        assert_false(has("/profiles/0/naca"));
        trial_build(&t);
        assert_int_equal(t.status, PL_OK);
        assert_null(pl_points_fault(t.part.profiles[0].points, t.part.profiles[0].n_points, &(size_t){0}));
        assert_true(fabs(t.part.profiles[0].points[20].z - points[20].z) <= 0.5e-6 + 1e-15);
        done(pl_row_set_naca(t.doc, "/profiles/0", &t.problems));
        assert_string_equal(newest_step(), say("main: NACA %s", digits[i]));
        assert_string_equal(text_at("/profiles/0/naca"), digits[i]);
        assert_false(has("/profiles/0/points"));
        assert_valid(newest_step());
        undo_all();
        end();
    }
}

static void points_that_are_no_profile_become_some_digits(void **state)
{
    (void)state;
    static const char *const odd[] = {"[]",
                                      "5",
                                      "[[1, 0]]",
                                      "[[1, 0], [0, 0], 3]",
                                      "[[0, 0], [0, 0], [0, 0]]",
                                      "[[1, -1e300], [0, 0], [1, 1e300]]",
                                      "[[1, -0.2], [0, 0], [1, -0.3]]",
                                      "[[], [], []]"};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        begin(WHOLE_PART);
        put(&t, "/profiles/1/points", odd[i]);
        done(pl_row_set_naca(t.doc, "/profiles/1", &t.problems));
        assert_valid(newest_step());
        undo_all();
        end();
    }
}

static void what_are_no_points_is_refused(void **state)
{
    (void)state;
    static struct pl_point points[2001];
    begin(SAMPLE_PART);
    assert_refused(pl_row_set_points(t.doc, "/profiles/0", points, 0, &t.problems), "/profiles/0",
                   "needs 1 to 2000 points");
    assert_refused(pl_row_set_points(t.doc, "/profiles/0", points, 2001, &t.problems), "/profiles/0",
                   "needs 1 to 2000 points");
    points[1].z = (double)NAN;
    assert_refused(pl_row_set_points(t.doc, "/profiles/0", points, 3, &t.problems), "/profiles/0",
                   "needs 1 to 2000 points");
    assert_refused(pl_row_set_points(t.doc, "/profiles/1", points, 1, &t.problems), "/profiles/1", "is no profile");
    assert_refused(pl_row_set_naca(t.doc, "/profiles", &t.problems), "/profiles", "is no profile");
    end();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_case_of_any_kind_can_become_any_other_in_one_step),
        cmocka_unit_test(what_both_kinds_know_stays),
        cmocka_unit_test(kinds_tried_one_after_the_other_are_one_step),
        cmocka_unit_test(a_case_that_becomes_jacking_is_named_by_none),
        cmocka_unit_test(a_strike_where_a_mount_stands_comes_with_a_force),
        cmocka_unit_test(what_is_no_kind_or_no_case_is_refused),
        cmocka_unit_test(end_plates_reach_over_the_tip_whatever_its_setting),
        cmocka_unit_test(end_plates_come_and_go),
        cmocka_unit_test(a_car_comes_and_goes),
        cmocka_unit_test(a_tip_limit_comes_and_goes),
        cmocka_unit_test(limits_are_made_where_there_are_none),
        cmocka_unit_test(a_case_at_the_same_time_comes_and_goes),
        cmocka_unit_test(a_strip_becomes_edges_round_the_same_middle),
        cmocka_unit_test(a_skin_becomes_a_strip_as_wide_as_the_chord_under_it),
        cmocka_unit_test(either_way_covers_the_same_area),
        cmocka_unit_test(half_of_either_way_becomes_the_other_whole),
        cmocka_unit_test(a_strike_is_by_energy_or_by_force),
        cmocka_unit_test(a_profile_of_digits_becomes_points_and_digits_again),
        cmocka_unit_test(points_that_are_no_profile_become_some_digits),
        cmocka_unit_test(what_are_no_points_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
