/* Rows of every list: added, copied, moved and taken away, the part staying valid, undo to the byte. */
#include "rows.h"

/* One more row at index, valid, one step of undo that is named for it, and gone with it. */
static void check_new_row(const char *list, enum pl_group_id group, size_t before, size_t index, const char *verb)
{
    const char *noun = pl_groups[group].noun;
    assert_int_equal(count_in(list), before + 1);
    assert_int_equal(pl_document_steps(t.doc), 1);
    if (has_name(group))
        assert_string_equal(newest_step(), say("%s %s: %s", verb, noun, text_at(say("%s/%zu/name", list, index))));
    else
        assert_string_equal(newest_step(), say("%s %s %zu", verb, noun, index + 1));
    assert_valid(newest_step());
    undo_all();
}

/* ---- added ---- */

static void add_at_end(const char *list, enum pl_group_id group)
{
    size_t before = count_in(list), index = add(list);
    assert_int_equal(index, group == PL_GROUP_STATION ? before - 1 : before); /* the gaps are widest at the tips here */
    check_new_row(list, group, before, index, "add");
}

static void a_row_can_be_added_to_every_list(void **state)
{
    (void)state;
    visit_parts(add_at_end);
}

static void add_behind_each(const char *list, enum pl_group_id group)
{
    for (size_t i = 0, before = count_in(list); i < before; i++) {
        size_t index = add(say("%s/%zu", list, i));
        bool tip = group == PL_GROUP_STATION && i + 1 == before;
        assert_int_equal(index, tip ? i : i + 1);
        check_new_row(list, group, before, index, "add");
    }
}

static void a_row_can_be_added_behind_every_row(void **state)
{
    (void)state;
    visit_parts(add_behind_each);
}

/* Added again and again, until the list has all that it can have. */
static void fill_up(const char *list, enum pl_group_id group)
{
    size_t most = pl_groups[group].most < 40 ? pl_groups[group].most : 40;
    while (count_in(list) < most)
        add(list);
    assert_valid(say("%s filled up", list));
    if (most == pl_groups[group].most)
        assert_refused(pl_row_add(t.doc, list, NULL, &t.problems), list, "the most there can be");
    undo_all();
}

static void a_list_can_be_filled_up_and_no_further(void **state)
{
    (void)state;
    visit_parts(fill_up);
}

static double bending_stiffness_nm2(double y_m)
{
    struct pl_solve *solve = pl_solve_new();
    struct pl_place_view view;
    trial_build(&t);
    assert_int_equal(pl_solve_place(solve, &t.part, 0, y_m, &view, &t.problems), PL_OK);
    double ei_nm2 = view.section.ei_flap_nm2;
    pl_solve_free(solve);
    return ei_nm2;
}

static void a_station_halfway_changes_nothing_of_the_wing(void **state)
{
    (void)state;
    static const double places_m[] = {0.05, 0.2, 0.405, 0.5, -0.6};
    double before_nm2[5];
    begin(SAMPLE_PART);
    for (size_t i = 0; i < 5; i++)
        before_nm2[i] = bending_stiffness_nm2(places_m[i]);
    assert_int_equal(add("/elements/0/stations/1"), 2);
    assert_close(number_at("/elements/0/stations/2/y_mm"), 405, 0);
    assert_close(number_at("/elements/0/stations/2/chord_mm"), 252.5, 0);
    assert_close(number_at("/elements/0/stations/2/x_le_mm"), 6, 0);
    assert_close(number_at("/elements/0/stations/2/z_le_mm"), 3, 0);
    assert_close(number_at("/elements/0/stations/2/twist_deg"), -0.5, 0);
    assert_string_equal(text_at("/elements/0/stations/2/profile"), "main");
    for (size_t i = 0; i < 5; i++)
        assert_close(bending_stiffness_nm2(places_m[i]), before_nm2[i], 1e-12);
    end();
}

static void a_station_goes_into_the_widest_gap(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    static const double between_mm[] = {405, 522.5, 287.5, 85};
    for (size_t i = 0; i < 4; i++)
        assert_close(number_at(say("/elements/0/stations/%zu/y_mm", add("/elements/0/stations"))), between_mm[i], 0);
    /* Nothing is left between these two. */
    put(&t, "/elements/0/stations/1/y_mm", "0.5");
    assert_int_equal(add("/elements/0/stations/0"), 2);
    assert_close(number_at("/elements/0/stations/2/y_mm"), 85.25, 0);
    end();
}

static void a_station_behind_the_tip_lies_ahead_of_it(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_int_equal(add("/elements/0/stations/2"), 2);
    assert_close(number_at("/elements/0/stations/2/y_mm"), 405, 0);
    assert_close(number_at("/elements/0/stations/3/y_mm"), 640, 0);
    end();
}

static void a_new_ply_group_is_a_strip_of_the_first_cloth(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_int_equal(add("/elements/0/layup/2"), 3);
    assert_string_equal(newest_step(), "add ply group: cap");
    assert_string_equal(text_at("/elements/0/layup/3/fabric"), "glass plain 163");
    assert_close(number_at("/elements/0/layup/3/centre_at"), 0.3, 0);
    assert_close(number_at("/elements/0/layup/3/width_mm"), 60, 0);
    assert_int_equal(add("/elements/0/layup"), 6);
    assert_string_equal(newest_step(), "add ply group: cap 2");
    end();
}

static void a_new_cap_is_no_wider_than_half_the_chord(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    assert_int_equal(add("/elements/1/layup"), 1);
    assert_close(number_at("/elements/1/layup/1/width_mm"), 54, 0); /* of 110 mm, in steps of 2 */
    end();
}

static void a_new_element_is_as_wide_as_the_first(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_int_equal(add("/elements"), 1);
    assert_int_equal(count_in("/elements/1/stations"), 2);
    assert_close(number_at("/elements/1/stations/1/y_mm"), 640, 0);
    assert_close(number_at("/elements/1/stations/0/x_le_mm"), 285, 0); /* 10 mm behind 275 */
    end();
}

static void a_mount_on_another_element_stays_on_it(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    put(&t, "/elements/1/stations/1/y_mm", "700");
    assert_int_equal(copy("/elements/1/mounts/1"), 2);
    assert_close(number_at("/elements/1/mounts/2/y_mm"), 550, 0); /* the main element ends at 600 */
    assert_string_equal(text_at("/elements/1/mounts/2/on"), "main");
    assert_valid("a mount more");
    end();
}

static void mounts_and_pads_find_a_free_place(void **state)
{
    (void)state;
    begin("samples/cantilever.json");
    assert_int_equal(add("/elements/0/mounts"), 1);
    assert_close(number_at("/elements/0/mounts/1/y_mm"), 50, 0);
    assert_int_equal(add("/elements/0/mounts/1"), 2);
    assert_close(number_at("/elements/0/mounts/2/y_mm"), -50, 0);
    end();
    begin(SAMPLE_PART);
    take("/load_cases/1/pads/1");
    add("/load_cases/1/pads/0");
    assert_close(number_at("/load_cases/1/pads/1/y_mm"), 230, 0);
    for (int i = 0; i < 10; i++)
        add("/load_cases/1/pads");
    /* Twelve pads of 100 mm find room on 1280 mm, and none overlaps another. */
    for (size_t i = 0; i < 12; i++)
        for (size_t k = 0; k < i; k++)
            assert_true(fabs(number_at(say("/load_cases/1/pads/%zu/y_mm", i)) -
                             number_at(say("/load_cases/1/pads/%zu/y_mm", k))) > 49);
    assert_valid("twelve pads");
    end();
}

static void a_case_of_every_kind_comes_with_all_it_needs(void **state)
{
    (void)state;
    static const char *const kinds[] = {"downforce", "jacking", "tip-strike", "point"};
    for (size_t p = 0; p < PARTS; p++)
        for (size_t k = 0; k < 4; k++) {
            size_t index;
            begin(parts[p]);
            size_t before = count_in("/load_cases");
            done(pl_row_add_case(t.doc, "/load_cases", kinds[k], &index, &t.problems));
            assert_string_equal(text_at(say("/load_cases/%zu/kind", index)), kinds[k]);
            check_new_row("/load_cases", PL_GROUP_CASE, before, index, "add");
            end();
        }
}

static void a_case_is_added_with_the_kind_and_element_of_the_one_before(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    assert_int_equal(add("/load_cases/1"), 2);
    assert_string_equal(text_at("/load_cases/2/kind"), "downforce");
    assert_string_equal(text_at("/load_cases/2/element"), "flap");
    assert_int_equal(add("/load_cases/3"), 4);
    assert_string_equal(text_at("/load_cases/4/kind"), "jacking");
    assert_refused(pl_row_add_case(t.doc, "/load_cases", "flutter", NULL, &t.problems), "/load_cases",
                   "is no kind of load case");
    assert_refused(pl_row_add_case(t.doc, "/cores", "point", NULL, &t.problems), "/cores", "is neither a load case");
    end();
}

/* Every list made from nothing: what was added is a wing that can be judged. */
static void a_whole_part_can_be_made_by_adding_rows(void **state)
{
    (void)state;
    static const char *const lists[] = {"/profiles", "/fabrics", "/resins", "/cores", "/elements"};
    static const char *const kinds[] = {"downforce", "jacking", "tip-strike", "point"};
    begin_with(
        "{\"format\": \"plyloft-part\", \"version\": 1, \"name\": \"new\",\n \"allowables\": {\"knockdown\": 0.75,"
        " \"core_knockdown\": 0.75, \"service_c\": 40, \"criterion\": \"tsai-wu\"}}\n");
    for (size_t i = 0; i < 5; i++)
        assert_int_equal(add(lists[i]), 0);
    for (size_t i = 0; i < 4; i++)
        done(pl_row_add_case(t.doc, "/load_cases", kinds[i], NULL, &t.problems));
    assert_valid("a part made of new rows");
    assert_int_equal(t.problems.count, 0);
    undo_all();
    end();
}

static void rows_of_an_element_can_be_made_from_nothing(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/elements/0/stations", "[]");
    put(&t, "/elements/0/layup", NULL);
    put(&t, "/elements/0/mounts", "[]");
    put(&t, "/load_cases/1/pads", NULL);
    add("/elements/0/stations");
    add("/elements/0/stations");
    assert_close(number_at("/elements/0/stations/1/y_mm"), 600, 0);
    add("/elements/0/layup");
    put(&t, "/elements/0/layup/0/width_mm", NULL);
    put(&t, "/elements/0/layup/0/centre_at", NULL);
    put(&t, "/elements/0/layup/0/chord_from", "0");
    put(&t, "/elements/0/layup/0/chord_to", "1");
    put(&t, "/elements/0/layup/0/drop_mm", "0");
    add("/elements/0/mounts");
    add("/elements/0/mounts");
    add("/load_cases/1/pads");
    add("/load_cases/1/pads");
    assert_valid("an element made anew");
    end();
}

static void a_new_element_stands_in_the_file_like_the_others(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    add("/elements");
    size_t length;
    const char *bytes = pl_document_bytes(t.doc, &length);
    assert_non_null(strstr(bytes, "    },\n    {\n      \"name\": \"element\",\n      \"inverted\": true,\n"));
    assert_non_null(strstr(bytes, "      \"stations\": [\n        {\"y_mm\": 0, \"chord_mm\": 110, "));
    undo_all();
    end();
}

/* ---- copied ---- */

static void copy_each(const char *list, enum pl_group_id group)
{
    for (size_t i = 0, before = count_in(list); i < before; i++) {
        const char *row = say("%s/%zu", list, i);
        char *name = strdup(text_at(say("%s/name", row)));
        size_t index = copy(row);
        if (has_name(group))
            assert_string_equal(text_at(say("%s/%zu/name", list, index)), say("%s 2", name));
        check_new_row(list, group, before, index, "copy");
        free(name);
    }
}

static void every_row_can_be_copied(void **state)
{
    (void)state;
    visit_parts(copy_each);
}

static void a_copy_is_like_its_row_but_for_name_and_place(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/fabrics/1/note", "\"kept\"");
    copy("/fabrics/1");
    assert_string_equal(text_at("/fabrics/2/note"), "kept");
    assert_close(number_at("/fabrics/2/xt_mpa"), 620, 0);
    copy("/elements/0/mounts/1");
    assert_close(number_at("/elements/0/mounts/2/y_mm"), 220, 0);
    assert_int_equal(copy("/elements/0/stations/2"), 2);
    assert_close(number_at("/elements/0/stations/2/y_mm"), 405, 0);
    assert_close(number_at("/elements/0/stations/2/chord_mm"), 230, 0);
    end();
}

static void a_row_without_a_name_is_copied_without_one(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/fabrics/1/name", NULL);
    assert_int_equal(copy("/fabrics/1"), 2);
    assert_string_equal(newest_step(), "copy cloth 3");
    assert_int_equal(pl_document_find(t.doc, "/fabrics/2/name"), PL_NO_NODE);
    assert_close(number_at("/fabrics/2/xt_mpa"), 620, 0);
    end();
}

static void the_numbers_of_copies_go_on(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    copy("/elements/0/layup/2");
    assert_string_equal(text_at("/elements/0/layup/3/name"), "top cap 2");
    copy("/elements/0/layup/3");
    assert_string_equal(text_at("/elements/0/layup/4/name"), "top cap 3");
    copy("/elements/0/layup/2");
    assert_string_equal(text_at("/elements/0/layup/3/name"), "top cap 4");
    copy("/fabrics/0");
    assert_string_equal(text_at("/fabrics/1/name"), "glass plain 163 2");
    end();
}

/* ---- moved ---- */

static void move_each(const char *list, enum pl_group_id group)
{
    (void)group;
    for (size_t i = 0, n = count_in(list); i < n; i++)
        for (int way = -1; way <= 1; way += 2) {
            bool stays = way < 0 ? !i : i + 1 == n;
            size_t to = move(say("%s/%zu", list, i), way);
            assert_int_equal(to, stays ? i : way < 0 ? i - 1 : i + 1);
            assert_int_equal(pl_document_steps_done(t.doc), !stays);
            assert_valid("a move");
            if (!stays)
                move(say("%s/%zu", list, to), -way);
            assert_bytes(t.doc, original);
            undo_all();
        }
}

static void every_row_moves_up_and_down_and_back(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    visit_lists(move_each);
    end();
    begin(WHOLE_PART);
    visit_lists(move_each);
    end();
}

static void a_moved_row_takes_its_values_along(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    move("/elements/0/layup/2", 1);
    assert_string_equal(newest_step(), "move top cap down");
    assert_string_equal(text_at("/elements/0/layup/3/name"), "top cap");
    assert_close(number_at("/elements/0/layup/3/plies"), 6, 0);
    move("/elements/0/stations/2", -1);
    assert_string_equal(newest_step(), "move station 3 up");
    assert_close(number_at("/elements/0/stations/1/chord_mm"), 230, 0);
    assert_close(number_at("/elements/0/stations/1/y_mm"), 170, 0);
    assert_close(number_at("/elements/0/stations/2/y_mm"), 640, 0);
    undo_all();
    end();
}

/* ---- taken away ---- */

static void remove_each(const char *list, enum pl_group_id group)
{
    for (size_t i = 0, before = count_in(list); i < before; i++) {
        const char *row = say("%s/%zu", list, i);
        char users[256], needed[128], name[96];
        size_t n_users = pl_row_users(t.doc, row, users, sizeof users),
               missing = pl_row_needed(t.doc, row, needed, sizeof needed);
        pl_part_row_words(t.doc, row, name, sizeof name);
        take(row);
        assert_int_equal(count_in(list), before - 1);
        assert_string_equal(newest_step(), has_name(group) ? say("remove %s: %s", pl_groups[group].noun, name)
                                                           : say("remove %s %zu", pl_groups[group].noun, i + 1));
        assert_int_equal(t.problems.errors, 0);
        assert_int_equal(t.problems.count, (n_users > 0) + (missing > 0));
        if (n_users)
            assert_warning(&t, row, users, name);
        if (missing)
            assert_warning(&t, list, needed, "");
        /* What is used or needed makes the part invalid, and only that. */
        trial_build(&t);
        if (n_users || missing)
            assert_int_equal(t.status, PL_BAD_INPUT);
        else if (group != PL_GROUP_STATION && group != PL_GROUP_MOUNT)
            assert_int_equal(t.status, PL_OK);
        undo_all();
    }
}

static void every_row_can_be_taken_away_and_what_used_it_is_told(void **state)
{
    (void)state;
    visit_parts(remove_each);
}

static void a_row_that_its_list_needs_is_said_to_be(void **state)
{
    (void)state;
    char words[128];
    begin(SAMPLE_PART);
    assert_int_equal(pl_row_needed(t.doc, "/cores/0", words, sizeof words), 1);
    assert_string_equal(words, "a part needs at least 1 core");
    assert_int_equal(pl_row_needed(t.doc, "/elements/0/stations/1", words, sizeof words), 0);
    take("/elements/0/stations/1");
    assert_int_equal(pl_row_needed(t.doc, "/elements/0/stations/1", words, sizeof words), 1);
    assert_string_equal(words, "an element needs at least 2 stations");
    take("/elements/0/stations/1");
    assert_int_equal(pl_row_needed(t.doc, "/elements/0/stations/0", words, sizeof words), 2);
    assert_int_equal(pl_row_needed(t.doc, "/load_cases/0", words, sizeof words), 0);
    assert_string_equal(words, "");
    end();
}

/* ---- what is no row ---- */

static void what_is_no_row_is_refused(void **state)
{
    (void)state;
    static const char *const none[] = {"",
                                       "/",
                                       "/name",
                                       "/limits",
                                       "/elements/0/end_plates",
                                       "/fabrics/2",
                                       "/fabrics/-",
                                       "/fabrics/00",
                                       "/fabrics/0/name",
                                       "/fabrics/0/0",
                                       "/elements/0/layup/layup",
                                       "/colours",
                                       "/colours/0",
                                       "/elements/5/layup",
                                       "/elements/x/layup/0",
                                       "fabrics/0",
                                       "/fabrics/99999999999999999999"};
    begin(SAMPLE_PART);
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        assert_refused(pl_row_add(t.doc, none[i], NULL, &t.problems), none[i], "is no row");
        assert_refused(pl_row_copy(t.doc, none[i], NULL, &t.problems), none[i], "is no row");
        assert_refused(pl_row_remove(t.doc, none[i], &t.problems), none[i], "is no row");
        assert_refused(pl_row_move(t.doc, none[i], 1, NULL, &t.problems), none[i], "is no row");
        assert_refused(pl_row_rename(t.doc, none[i], "x", &t.problems), none[i], "has no name");
    }
    assert_refused(pl_row_copy(t.doc, "/fabrics", NULL, &t.problems), "/fabrics", "is no row");
    put(&t, "/cores", "5");
    assert_refused(pl_row_add(t.doc, "/cores", NULL, &t.problems), "/cores", "is no row");
    end();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_row_can_be_added_to_every_list),
        cmocka_unit_test(a_row_can_be_added_behind_every_row),
        cmocka_unit_test(a_list_can_be_filled_up_and_no_further),
        cmocka_unit_test(a_station_halfway_changes_nothing_of_the_wing),
        cmocka_unit_test(a_station_goes_into_the_widest_gap),
        cmocka_unit_test(a_station_behind_the_tip_lies_ahead_of_it),
        cmocka_unit_test(a_new_ply_group_is_a_strip_of_the_first_cloth),
        cmocka_unit_test(a_new_cap_is_no_wider_than_half_the_chord),
        cmocka_unit_test(a_new_element_is_as_wide_as_the_first),
        cmocka_unit_test(a_mount_on_another_element_stays_on_it),
        cmocka_unit_test(mounts_and_pads_find_a_free_place),
        cmocka_unit_test(a_case_of_every_kind_comes_with_all_it_needs),
        cmocka_unit_test(a_case_is_added_with_the_kind_and_element_of_the_one_before),
        cmocka_unit_test(a_whole_part_can_be_made_by_adding_rows),
        cmocka_unit_test(rows_of_an_element_can_be_made_from_nothing),
        cmocka_unit_test(a_new_element_stands_in_the_file_like_the_others),
        cmocka_unit_test(every_row_can_be_copied),
        cmocka_unit_test(a_copy_is_like_its_row_but_for_name_and_place),
        cmocka_unit_test(a_row_without_a_name_is_copied_without_one),
        cmocka_unit_test(the_numbers_of_copies_go_on),
        cmocka_unit_test(every_row_moves_up_and_down_and_back),
        cmocka_unit_test(a_moved_row_takes_its_values_along),
        cmocka_unit_test(every_row_can_be_taken_away_and_what_used_it_is_told),
        cmocka_unit_test(a_row_that_its_list_needs_is_said_to_be),
        cmocka_unit_test(what_is_no_row_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
