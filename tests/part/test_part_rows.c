/* Rows of every list: added, copied, moved, renamed and taken away, the part staying valid, undo to the byte. */
#include "parts.h"

#include "part_text.h"

#include "../../src/part/json.h"

#include "plyloft/part_edit.h"
#include "plyloft/part_rows.h"

static struct trial t;
static char *original;

static const char *const parts[] = {SAMPLE_PART, WHOLE_PART, "samples/cantilever.json"};
enum { PARTS = sizeof parts / sizeof *parts };

/* Memory that src/part asks for runs out at this call of many; 0: never. */
static size_t asked, failing_at;

void *pl_part_memory(void *old, size_t size)
{
    return failing_at && ++asked == failing_at ? NULL : realloc(old, size);
}

static void begin_with(const char *text)
{
    trial_text(&t, text);
    original = strdup(text);
    assert_non_null(original);
}

static void begin(const char *path)
{
    char *text = read_whole_file(path, NULL);
    begin_with(text);
    free(text);
}

static void end(void)
{
    free(original);
    trial_close(&t);
}

static void undo_all(void)
{
    while (pl_document_undo(t.doc))
        continue;
    assert_bytes(t.doc, original);
}

static const char *newest_step(void)
{
    return pl_document_step_name(t.doc, pl_document_steps_done(t.doc) - 1);
}

static void check_valid(const char *what, const char *file, int line)
{
    trial_solve(&t);
    if (t.status == PL_OK)
        return;
    print_error("after %s the part is invalid:\n", what);
    print_problems(&t);
    _fail(file, line);
}

#define assert_valid(what) check_valid(what, __FILE__, __LINE__)

static size_t count_in(const char *list)
{
    pl_node node = pl_document_find(t.doc, list);
    return node == PL_NO_NODE ? 0 : pl_node_count(t.doc, node);
}

static double number_at(const char *pointer)
{
    pl_node node = pl_document_find(t.doc, pointer);
    if (node == PL_NO_NODE || pl_node_kind(t.doc, node) != PL_NODE_NUMBER)
        fail_msg("%s is no number", pointer);
    return pl_node_number(t.doc, node);
}

static const char *text_at(const char *pointer)
{
    pl_node node = pl_document_find(t.doc, pointer);
    return node == PL_NO_NODE ? "(none)" : pl_node_text(t.doc, node);
}

static void done(enum pl_status status)
{
    if (status != PL_OK)
        fail_msg("it was refused: %s", t.problems.count ? t.problems.list[0].rule : "without a reason");
}

static size_t add(const char *pointer)
{
    size_t index = PL_NONE;
    pl_problems_clear(&t.problems);
    done(pl_row_add(t.doc, pointer, &index, &t.problems));
    return index;
}

static size_t copy(const char *pointer)
{
    size_t index = PL_NONE;
    pl_problems_clear(&t.problems);
    done(pl_row_copy(t.doc, pointer, &index, &t.problems));
    return index;
}

static void take(const char *pointer)
{
    pl_problems_clear(&t.problems);
    done(pl_row_remove(t.doc, pointer, &t.problems));
}

static size_t move(const char *pointer, int way)
{
    size_t index = PL_NONE;
    pl_problems_clear(&t.problems);
    done(pl_row_move(t.doc, pointer, way, &index, &t.problems));
    return index;
}

static void name_it(const char *pointer, const char *name)
{
    pl_problems_clear(&t.problems);
    done(pl_row_rename(t.doc, pointer, name, &t.problems));
}

/* Refused for the reason, with nothing changed. */
static void check_refused(enum pl_status status, const char *place, const char *rule, unsigned long revision)
{
    assert_int_equal(status, PL_BAD_INPUT);
    assert_int_equal(t.problems.count, 1);
    assert_string_equal(t.problems.list[0].place, place);
    if (!strstr(t.problems.list[0].rule, rule))
        fail_msg("said was \"%s\"", t.problems.list[0].rule);
    assert_int_equal(pl_document_revision(t.doc), revision);
    pl_problems_clear(&t.problems);
}

#define assert_refused(call, place, rule)                                                                              \
    do {                                                                                                               \
        unsigned long revision_ = pl_document_revision(t.doc);                                                         \
        pl_problems_clear(&t.problems);                                                                                \
        enum pl_status status_ = call;                                                                                 \
        check_refused(status_, place, rule, revision_);                                                                \
    } while (0)

/* ---- every list of a part ---- */

typedef void visit_list(const char *list, enum pl_group_id group);

static void visit_lists(visit_list *visit)
{
    static const enum pl_group_id top[] = {PL_GROUP_PROFILE, PL_GROUP_FABRIC,  PL_GROUP_RESIN,
                                           PL_GROUP_CORE,    PL_GROUP_ELEMENT, PL_GROUP_CASE};
    static const enum pl_group_id inner[] = {PL_GROUP_STATION, PL_GROUP_LAYUP, PL_GROUP_MOUNT};
    for (size_t i = 0; i < sizeof top / sizeof *top; i++)
        visit(say("/%s", pl_groups[top[i]].key), top[i]);
    for (size_t e = 0; e < count_in("/elements"); e++)
        for (size_t i = 0; i < sizeof inner / sizeof *inner; i++)
            visit(say("/elements/%zu/%s", e, pl_groups[inner[i]].key), inner[i]);
    for (size_t c = 0; c < count_in("/load_cases"); c++)
        if (count_in(say("/load_cases/%zu/pads", c)))
            visit(say("/load_cases/%zu/pads", c), PL_GROUP_PAD);
}

static void visit_parts(visit_list *visit)
{
    for (size_t i = 0; i < PARTS; i++) {
        begin(parts[i]);
        visit_lists(visit);
        end();
    }
}

static bool has_name(enum pl_group_id group)
{
    return !strcmp(pl_groups[group].fields[0].key, "name");
}

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
    assert_close(number_at("/elements/1/layup/1/width_mm"), 54, 0);  /* of 110 mm, in steps of 2 */
    end();
}

static void a_new_element_is_as_wide_as_the_first(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_int_equal(add("/elements"), 1);
    assert_int_equal(count_in("/elements/1/stations"), 2);
    assert_close(number_at("/elements/1/stations/1/y_mm"), 640, 0);
    assert_close(number_at("/elements/1/stations/0/x_le_mm"), 285, 0);  /* 10 mm behind 275 */
    end();
}

static void a_mount_on_another_element_stays_on_it(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    put(&t, "/elements/1/stations/1/y_mm", "700");
    assert_int_equal(copy("/elements/1/mounts/1"), 2);
    assert_close(number_at("/elements/1/mounts/2/y_mm"), 550, 0);  /* the main element ends at 600 */
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

static void check_users(const char *row, size_t count, const char *sentence)
{
    char words[256];
    assert_int_equal(pl_row_users(t.doc, row, words, sizeof words), count);
    assert_string_equal(words, sentence);
}

static void what_uses_a_row_is_said_in_a_sentence(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    check_users("/fabrics/1", 2, "top cap and bottom cap use it");
    check_users("/fabrics/0", 3, "first skin, bracket wrap and outer skin use it");
    check_users("/resins/0", 1, "main uses it");
    check_users("/profiles/0", 3, "station 1 of main, station 2 of main and station 3 of main use it");
    check_users("/elements/0", 4, "top speed, pit jack, kerb on tip and scrutineer use it");
    check_users("/load_cases/3", 1, "a tip limit uses it");
    check_users("/load_cases/0", 0, "");
    check_users("/elements/0/layup/2", 0, "");
    check_users("/fabrics/9", 0, "");
    check_users("/fabrics", 0, "");
    add("/fabrics");
    check_users("/fabrics/2", 0, "");
    for (int i = 0; i < 7; i++)
        copy("/elements/0/layup/2");
    check_users("/fabrics/1", 9, "top cap, top cap 8, top cap 7 and 6 more use it");
    end();
    begin(WHOLE_PART);
    check_users("/fabrics/0", 3, "skin of main, wrap of main and flap skin of flap use it");
    check_users("/elements/0", 7, "left plate of flap, right plate of flap, main at speed and 4 more use it");
    check_users("/load_cases/1", 1, "main at speed uses it");
    end();
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

/* ---- renamed ---- */

static void rename_each(const char *list, enum pl_group_id group)
{
    static const char fresh[] = "caf\u00e9 \"7/8\" ~ \\ 2";
    if (!has_name(group))
        return;
    for (size_t i = 0, n = count_in(list); i < n; i++) {
        const char *row = say("%s/%zu", list, i);
        char before[256], after[256], *name = strdup(text_at(say("%s/name", row)));
        size_t users = pl_row_users(t.doc, row, before, sizeof before);
        name_it(row, fresh);
        assert_string_equal(newest_step(), say("rename %s: %s \u2192 %s", pl_groups[group].noun, name, fresh));
        assert_int_equal(pl_document_steps(t.doc), 1);
        assert_int_equal(pl_row_users(t.doc, row, after, sizeof after), users);
        assert_string_equal(after, before);
        assert_valid(newest_step()); /* a reference to the old name would be an error */
        undo_all();
        /* Typed, it is the same. */
        pl_problems_clear(&t.problems);
        done(pl_part_type(t.doc, say("%s/name", row), fresh, &t.problems));
        assert_valid(newest_step());
        assert_true(pl_document_undo(t.doc));
        assert_bytes(t.doc, original);
        free(name);
    }
}

static void a_new_name_is_followed_by_every_reference(void **state)
{
    (void)state;
    visit_parts(rename_each);
}

static void references_of_every_kind_follow(void **state)
{
    (void)state;
    begin(WHOLE_PART);
    name_it("/profiles/1", "b");
    assert_string_equal(text_at("/elements/1/stations/1/profile"), "b");
    name_it("/fabrics/0", "b");
    assert_string_equal(text_at("/elements/0/layup/1/fabric"), "b");
    assert_string_equal(text_at("/elements/1/layup/0/fabric"), "b");
    assert_string_equal(text_at("/elements/0/layup/2/fabric"), "uni");
    name_it("/cores/0", "b");
    assert_string_equal(text_at("/elements/1/core"), "b");
    name_it("/resins/0", "b");
    assert_string_equal(text_at("/elements/0/resin"), "b");
    name_it("/elements/0", "b");
    assert_string_equal(text_at("/elements/1/mounts/1/on"), "b");
    assert_string_equal(text_at("/load_cases/4/element"), "b");
    assert_string_equal(text_at("/load_cases/1/element"), "flap");
    name_it("/load_cases/1", "b");
    assert_string_equal(text_at("/load_cases/0/with/0"), "b");
    name_it("/load_cases/3", "a/b");
    assert_close(number_at("/limits/tip_deflection_mm/a~1b"), 20, 0);
    assert_valid("seven new names");
    undo_all();
    end();
}

static void a_name_that_another_row_has_is_refused(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    assert_refused(pl_row_rename(t.doc, "/fabrics/1", "glass plain 163", &t.problems), "/fabrics/1/name",
                   "another cloth");
    assert_refused(pl_part_type(t.doc, "/elements/0/layup/0/name", "top cap", &t.problems), "/elements/0/layup/0/name",
                   "another ply group");
    assert_refused(pl_row_rename(t.doc, "/fabrics/1", "", &t.problems), "/fabrics/1/name", "must not be empty");
    assert_refused(pl_row_rename(t.doc, "/elements/0/stations/0", "x", &t.problems), "/elements/0/stations/0",
                   "has no name");
    assert_refused(pl_row_rename(t.doc, "/fabrics", "x", &t.problems), "/fabrics", "has no name");
    assert_refused(pl_row_rename(t.doc, "/fabrics/7", "x", &t.problems), "/fabrics/7", "has no name");
    name_it("/fabrics/1", "glass uni 310"); /* its own */
    assert_int_equal(pl_document_steps(t.doc), 0);
    name_it("/elements/0", "top cap"); /* names count within their list */
    assert_valid("an element named like a ply group");
    end();
}

static void new_names_in_a_row_are_one_step(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    name_it("/fabrics/1", "x");
    name_it("/fabrics/1", "uni cloth of some weight");
    assert_int_equal(pl_document_steps(t.doc), 1);
    assert_string_equal(newest_step(), "rename cloth: glass uni 310 \u2192 uni cloth of some weight");
    name_it("/fabrics/0", "y");
    assert_int_equal(pl_document_steps(t.doc), 2);
    assert_true(pl_document_undo(t.doc));
    assert_true(pl_document_undo(t.doc));
    assert_bytes(t.doc, original);
    end();
}

static void of_two_rows_with_one_name_the_first_is_meant(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/fabrics/1/name", "\"glass plain 163\"");
    put(&t, "/elements/0/layup/2/fabric", "\"glass plain 163\"");
    check_users("/fabrics/1", 0, "");
    name_it("/fabrics/1", "second");
    assert_string_equal(text_at("/elements/0/layup/2/fabric"), "glass plain 163");
    put(&t, "/fabrics/1/name", "\"glass plain 163\"");
    name_it("/fabrics/0", "first");
    assert_string_equal(text_at("/elements/0/layup/2/fabric"), "first");
    end();
}

/* The part knows names as they are safe to print, and so a tab and a blank are one. */
static void names_are_alike_as_the_part_sees_them(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/cores/0/name", "\"foam\\t33\"");
    put(&t, "/elements/0/core", "\"foam 33\"");
    assert_valid("a tab in a name");
    check_users("/cores/0", 1, "main uses it");
    name_it("/cores/0", "foam");
    assert_string_equal(text_at("/elements/0/core"), "foam");
    put(&t, "/cores/0/name", "\"foam\\u0001\"");
    put(&t, "/elements/0/core", "\"foam\\u200e\"");
    assert_valid("characters that are shown alike");
    name_it("/cores/0", "foam");
    assert_string_equal(text_at("/elements/0/core"), "foam");
    put(&t, "/elements/0/core", "\"foam\u00e9\"");
    check_users("/cores/0", 0, "");
    end();
}

static void a_row_without_a_name_can_get_one(void **state)
{
    (void)state;
    begin(SAMPLE_PART);
    put(&t, "/elements/0/layup/2/name", NULL);
    name_it("/elements/0/layup/2", "cap");
    assert_string_equal(newest_step(), "rename ply group: ply group 3 \u2192 cap");
    put(&t, "/elements/0/layup/2/name", "5");
    name_it("/elements/0/layup/2", "cap");
    assert_string_equal(text_at("/elements/0/layup/2/name"), "cap");
    assert_valid("a name");
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

/* ---- anything in any order ---- */

static const char *random_row(uint64_t *seed)
{
    static const char *const lists[] = {"/profiles",
                                        "/fabrics",
                                        "/resins",
                                        "/cores",
                                        "/elements",
                                        "/load_cases",
                                        "/elements/%zu/stations",
                                        "/elements/%zu/layup",
                                        "/elements/%zu/mounts",
                                        "/load_cases/%zu/pads"};
    const char *list = lists[(size_t)(chance(seed) * 10)];
    size_t owner = (size_t)(chance(seed) * 3), row = (size_t)(chance(seed) * 4);
    const char *at = strstr(list, "%zu");
    list = at ? say("%.*s%zu%s", (int)(at - list), list, owner, at + 3) : list;
    return chance(seed) < 0.3 ? list : say("%s/%zu", list, row);
}

static void do_anything(uint64_t *seed)
{
    const char *row = random_row(seed);
    static const char *const names[] = {"a", "b", "main", "x\u0301", "top cap", "a/b~c", "plain"};
    const char *name = names[(size_t)(chance(seed) * 7)];
    static const char *const kinds[] = {"downforce", "jacking", "tip-strike", "point", "?"};
    static const struct pl_point points[] = {{1, 0}, {0.5, 0.06}, {0, 0}, {0.5, -0.06}, {1, 0}};
    struct pl_problems *p = &t.problems;
    pl_problems_clear(p);
    switch ((int)(chance(seed) * 18)) {
    case 0:
    case 1:
        pl_row_add(t.doc, row, NULL, p);
        break;
    case 2:
        pl_row_copy(t.doc, row, NULL, p);
        break;
    case 3:
        pl_row_remove(t.doc, row, p);
        break;
    case 4:
        pl_row_move(t.doc, row, chance(seed) < 0.5 ? -1 : 1, NULL, p);
        break;
    case 5:
        pl_row_rename(t.doc, row, name, p);
        break;
    case 6:
        pl_row_add_end_plates(t.doc, row, p);
        break;
    case 7:
        pl_row_remove_end_plates(t.doc, row, p);
        break;
    case 8:
        pl_row_add_tip_limit(t.doc, row, p);
        break;
    case 9:
        pl_row_remove_tip_limit(t.doc, row, p);
        break;
    case 10:
        pl_row_add_with(t.doc, row, chance(seed) < 0.5 ? NULL : name, p);
        break;
    case 11:
        pl_row_remove_with(t.doc, row, name, p);
        break;
    case 12:
        pl_row_set_kind(t.doc, row, kinds[(size_t)(chance(seed) * 5)], p);
        break;
    case 13:
        pl_row_switch(t.doc, row, p);
        break;
    case 14:
        pl_row_set_points(t.doc, row, points, 5, p);
        break;
    case 15:
        pl_row_set_naca(t.doc, row, p);
        break;
    case 16:
        pl_row_add_case(t.doc, row, kinds[(size_t)(chance(seed) * 5)], NULL, p);
        break;
    default:
        pl_document_undo(t.doc);
        break;
    }
}

static void check_is_json(void)
{
    size_t length;
    const char *bytes = pl_document_bytes(t.doc, &length);
    struct pl_document *again;
    struct pl_problems problems = {0};
    assert_int_equal(pl_document_read(&again, bytes, length, &problems), PL_OK);
    pl_document_free(again);
}

static void random_edits_leave_json_that_undo_takes_back(void **state)
{
    (void)state;
    for (size_t p = 0; p < PARTS; p++)
        for (uint64_t round = 1; round <= 12; round++) {
            uint64_t seed = 1000 * (p + 1) + round;
            begin(parts[p]);
            for (int i = 0; i < 150; i++)
                do_anything(&seed);
            check_is_json();
            trial_build(&t); /* says what it likes, but reads it */
            undo_all();
            end();
        }
}

/* A part some values of which were taken out or replaced by nonsense first. */
static void random_edits_of_a_broken_part_leave_json(void **state)
{
    (void)state;
    static const char *const nonsense[] = {"null",   "5",    "\"\"", "[]",     "{}",
                                           "-1e300", "[[]]", "true", "[1, 2]", "{\"name\": 3}"};
    static const char *const keys[] = {"/name", "/y_mm",    "/stations", "/layup",    "/mounts", "/pads",
                                       "/with", "/element", "/kind",     "/chord_mm", "/points", "",
                                       "/0",    "/force_n", "/width_mm", "/length_mm"};
    for (uint64_t round = 1; round <= 200; round++) {
        uint64_t seed = 77 + round;
        begin(parts[round % PARTS]);
        for (int i = 0; i < 12; i++) {
            const char *place = say("%s%s", random_row(&seed), keys[(size_t)(chance(&seed) * 16)]);
            pl_problems_clear(&t.problems);
            pl_edit_set(t.doc, chance(&seed) < 0.1 ? "/limits" : place, nonsense[(size_t)(chance(&seed) * 10)],
                        &t.problems);
        }
        for (int i = 0; i < 40; i++)
            do_anything(&seed);
        check_is_json();
        undo_all();
        end();
    }
}

/* ---- without memory ---- */

static enum pl_status edit_without_memory(int which)
{
    struct pl_problems *p = &t.problems;
    switch (which) {
    case 0:
        return pl_row_add(t.doc, "/elements", NULL, p);
    case 1:
        return pl_row_copy(t.doc, "/elements/0/stations/1", NULL, p);
    case 2:
        return pl_row_remove(t.doc, "/fabrics/0", p);
    case 3:
        return pl_row_move(t.doc, "/elements/0/stations/1", 1, NULL, p);
    case 4:
        return pl_row_rename(t.doc, "/fabrics/0", "caf\u00e9", p);
    case 5:
        return pl_row_add_end_plates(t.doc, "/elements/0", p);
    case 6:
        return pl_row_add_tip_limit(t.doc, "/load_cases/0", p);
    case 7:
        return pl_row_set_kind(t.doc, "/load_cases/0", "jacking", p);
    case 8:
        return pl_row_switch(t.doc, "/elements/0/layup/2", p);
    default:
        return pl_row_set_naca(t.doc, "/profiles/0", p);
    }
}

static void without_memory_nothing_is_changed(void **state)
{
    (void)state;
    for (int which = 0; which < 10; which++) {
        enum pl_status status = PL_NO_MEMORY;
        for (size_t n = 1; status != PL_OK; n++) {
            begin(SAMPLE_PART);
            asked = 0;
            failing_at = n;
            status = edit_without_memory(which);
            bool all = asked < n;
            failing_at = 0;
            if (status == PL_OK) {
                assert_true(all); /* nothing that failed was overlooked */
                undo_all();
            } else {
                assert_int_equal(status, PL_NO_MEMORY);
                assert_bytes(t.doc, original);
                assert_int_equal(t.problems.count, 1);
                assert_string_equal(t.problems.list[0].rule, "there is not enough memory");
            }
            end();
        }
    }
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
        cmocka_unit_test(what_uses_a_row_is_said_in_a_sentence),
        cmocka_unit_test(a_row_that_its_list_needs_is_said_to_be),
        cmocka_unit_test(a_new_name_is_followed_by_every_reference),
        cmocka_unit_test(references_of_every_kind_follow),
        cmocka_unit_test(a_name_that_another_row_has_is_refused),
        cmocka_unit_test(new_names_in_a_row_are_one_step),
        cmocka_unit_test(of_two_rows_with_one_name_the_first_is_meant),
        cmocka_unit_test(names_are_alike_as_the_part_sees_them),
        cmocka_unit_test(a_row_without_a_name_can_get_one),
        cmocka_unit_test(what_is_no_row_is_refused),
        cmocka_unit_test(random_edits_leave_json_that_undo_takes_back),
        cmocka_unit_test(random_edits_of_a_broken_part_leave_json),
        cmocka_unit_test(without_memory_nothing_is_changed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
