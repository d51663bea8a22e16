/* A part read by the table of fields: every kind of field, what is left out, and all that can be wrong at once. */
#include "trial.h"

#include "plyloft/buffer.h"

#include <math.h>

static const char *at_member(const char *row, size_t at)
{
    return row + at;
}

static double number_of(const struct pl_field *f, const void *row)
{
    double value;
    memcpy(&value, at_member(row, f->at), sizeof value);
    return value;
}

static int whole_of(const struct pl_field *f, const void *row)
{
    int value;
    memcpy(&value, at_member(row, f->at), sizeof value);
    return value;
}

/* ---- what is read ---- */

static void a_part_with_every_field_is_taken_without_a_word(void **state)
{
    (void)state;
    trial_solve(&t);
    assert_taken_silently(&t);
}

static void the_sample_is_taken_without_a_word(void **state)
{
    (void)state;
    trial_close(&t);
    trial_open(&t, SAMPLE_PART);
    trial_solve(&t);
    assert_taken_silently(&t);
}

static void number_is_read(struct trial *trial, const struct pl_field *f, const void *row, const char *pointer)
{
    double in_file = pl_node_number(trial->doc, pl_document_find(trial->doc, pointer));
    if (f->kind == PL_FIELD_NUMBER &&
        fabs(number_of(f, row) - in_file * pl_unit_to_si(f->unit)) > 1e-15 * fabs(in_file))
        fail_msg("%s is read as %.17g", pointer, number_of(f, row));
    if (f->kind == PL_FIELD_WHOLE && whole_of(f, row) != (int)in_file)
        fail_msg("%s is read as %d", pointer, whole_of(f, row));
}

static void every_number_is_read_in_si(void **state)
{
    (void)state;
    visit_fields(&t, number_is_read);
}

static void numbers_of_each_unit_are_read_in_si(void **state)
{
    (void)state;
    trial_build(&t);
    const struct pl_part *p = &t.part;
    assert_close(p->elements[0].stations[1].chord_m, 0.24, 1e-15);
    assert_close(p->elements[0].stations[1].twist_rad, -1.5 * M_PI / 180, 1e-15);
    assert_close(p->fabrics[0].areal_weight_kg_m2, 0.163, 1e-15);
    assert_close(p->fabrics[0].fibre_density_kg_m3, 2560, 0);
    assert_close(p->fabrics[0].e2_pa, 16e9, 1e-15);
    assert_close(p->cores[0].shear_strength_pa, 0.21e6, 1e-15);
    assert_close(p->load_cases[5].force_n, 700, 0);
    assert_close(p->elements[0].mounts[0].stiffness_nm_per_rad, 4000, 0);
    assert_close(p->load_cases[2].supported_mass_kg, 120, 0);
    assert_close(p->load_cases[3].closing_speed_m_s, 0.8, 0);
    assert_close(p->load_cases[0].speed_m_s, 50, 1e-15);
    assert_close(p->resins[0].pot_life_s, 2400, 0);
    assert_close(p->cores[0].max_c, 70, 0);
    assert_close(p->elements[0].layup[2].centre_at, 0.3, 0);
}

static void the_other_kinds_are_read(void **state)
{
    (void)state;
    trial_build(&t);
    const struct pl_part *p = &t.part;
    assert_int_equal(p->version, 1);
    assert_string_equal(p->revision, "C");
    assert_true(p->elements[0].inverted);
    assert_int_equal(p->fabrics[1].fibre, PL_CARBON);
    assert_int_equal(p->elements[0].layup[1].side, PL_BOTTOM);
    assert_int_equal(p->elements[0].layup[1].plies, 2);
    assert_int_equal(p->elements[0].layup[2].fabric, 1);
    assert_int_equal(p->elements[1].mounts[1].on, 0);
    assert_int_equal(p->elements[1].stations[0].profile, 1);
    assert_int_equal(p->load_cases[0].n_with, 1);
    assert_int_equal(p->load_cases[0].with[0], 1);
    assert_close(p->resins[0].mix_ratio[0], 100, 0);
    assert_close(p->resins[0].mix_ratio[1], 30, 0);
    assert_int_equal(p->profiles[1].n_points, 9);
    assert_close(p->profiles[1].points[2].z, 0.09, 0);
    assert_int_equal(p->limits.n_tips, 2);
    assert_int_equal(p->limits.tips[0].load_case, 5);
    assert_close(p->limits.tips[0].tip_deflection_m, 0.012, 1e-15);
    assert_int_equal(p->allowables.criterion, PL_MAX_STRESS);
    assert_true(p->elements[0].end_plates.given);
    assert_false(p->elements[1].end_plates.given);
}

static void a_name_may_be_used_ahead_of_where_it_stands(void **state)
{
    (void)state;
    char *cores = pl_document_copy(t.doc, "/cores");
    put(&t, "/cores", NULL);
    put(&t, "/cores", cores);  /* last in the file now, behind everything that uses it */
    free(cores);
    trial_build(&t);
    assert_taken_silently(&t);
    assert_int_equal(t.part.elements[1].core, 0);
    assert_string_equal(pl_node_key(t.doc, pl_node_first(t.doc, pl_document_root(t.doc))), "format");
    assert_int_equal(pl_node_next(t.doc, pl_document_find(t.doc, "/cores")), PL_NO_NODE);
}

static void thickness_of_a_ply_and_half_the_span_follow_from_what_is_read(void **state)
{
    (void)state;
    trial_build(&t);
    /* 0.163 / (2560 x 0.38) = 0.16755e-3 m */
    assert_close(pl_fabric_ply_m(&t.part.fabrics[0]), 0.163 / (2560 * 0.38), 1e-14);
    assert_close(pl_element_semispan_m(&t.part.elements[0]), 0.6, 1e-15);
}

static void a_name_from_the_file_cannot_send_control_characters(void **state)
{
    (void)state;
    put(&t, "/elements/1/name", "\"fl\\u001b[31map\"");
    put(&t, "/load_cases/1/element", "\"fl\\u001b[31map\"");
    trial_build(&t);
    assert_taken_silently(&t);
    assert_string_equal(t.part.elements[1].name, "fl\uFFFD[31map");
    put(&t, "/elements/1/incidence_deg", "\"\\u001b[2J\"");
    trial_build(&t);
    assert_only_error(&t, "/elements/1/incidence_deg", "must be a number", "\"\\u001b[2J\"");
}

static void building_again_forgets_what_was_there(void **state)
{
    (void)state;
    trial_build(&t);
    put(&t, "/elements/0/end_plates", NULL);
    put(&t, "/limits", NULL);
    put(&t, "/load_cases/0/with", "[]");
    trial_build(&t);
    assert_false(t.part.elements[0].end_plates.given);
    assert_int_equal(t.part.limits.n_tips, 0);
    assert_int_equal(t.part.load_cases[0].n_with, 0);
    put(&t, "/elements/0/stations/1/chord_mm", "-1");
    trial_build(&t);
    assert_int_equal(t.status, PL_BAD_INPUT);
    put(&t, "/elements/0/stations/1/chord_mm", "250");
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_close(t.part.elements[0].stations[1].chord_m, 0.25, 1e-15);
}

/* ---- what is left out ---- */

static void left_out(struct trial *trial, const struct pl_field *f, const void *row, const char *pointer)
{
    char *value = pl_document_copy(trial->doc, pointer), row_pointer[160];
    enum pl_group_id group;
    snprintf(row_pointer, sizeof row_pointer, "%s", pointer);
    *strrchr(row_pointer, '/') = '\0';
    put(trial, pointer, NULL);
    trial_build(trial);
    row = pl_part_row(&trial->part, row_pointer, &group);
    assert_non_null(row);
    if (!f->optional)
        assert_error(trial, pointer, "is missing", "");
    else if (count_told(trial, PL_ERROR, pointer, ""))
        fail_msg("%s may be left out, and is missed", pointer);
    else if (f->kind == PL_FIELD_NUMBER && strcmp(f->key, "core_knockdown") != 0 &&
             (isnan(f->left_out) ? pl_given(number_of(f, row))
                                 : number_of(f, row) != f->left_out * pl_unit_to_si(f->unit)))
        fail_msg("%s is %g when left out", pointer, number_of(f, row));
    put(trial, pointer, value);
    free(value);
}

static void every_field_is_missed_unless_it_may_be_left_out(void **state)
{
    (void)state;
    visit_fields(&t, left_out);
}

static void what_is_left_out_has_the_contracts_value(void **state)
{
    (void)state;
    static const char *const pointers[] = {
        "/fabrics/1/fibre",
        "/elements/0/layup/1/half_length_mm",
        "/elements/0/layup/1/drop_mm",
        "/elements/0/layup/1/from_mm",
        "/elements/0/mounts/0/stiffness_nm_per_rad",
        "/elements/0/inverted",
        "/load_cases/2/uneven",
        "/load_cases/3/y_mm",
        "/load_cases/3/travel_mm",
        "/load_cases/0/ride_height_mm",
        "/load_cases/0/allowance",
        "/allowables/core_knockdown",
        "/elements/0/end_plates",
        "/limits",
    };
    for (size_t i = 0; i < sizeof pointers / sizeof *pointers; i++)
        put(&t, pointers[i], NULL);
    trial_build(&t);
    const struct pl_part *p = &t.part;
    assert_int_equal(t.problems.errors, 0);
    assert_int_equal(p->fabrics[1].fibre, PL_OTHER_FIBRE);
    assert_false(pl_given(p->elements[0].layup[1].half_length_m));
    assert_close(p->elements[0].layup[1].drop_m, 0, 0);
    assert_close(p->elements[0].layup[1].from_m, 0, 0);
    assert_false(pl_given(p->elements[0].layup[1].centre_at));
    assert_false(pl_given(p->elements[0].mounts[0].stiffness_nm_per_rad));
    assert_int_equal(p->elements[0].mounts[0].on, PL_NONE);
    assert_false(p->elements[0].inverted);
    assert_close(p->load_cases[2].uneven, 0.2, 0);
    assert_false(pl_given(p->load_cases[3].y_m));
    assert_false(pl_given(p->load_cases[3].travel_m));
    assert_false(pl_given(p->load_cases[0].ride_height_m));
    assert_close(p->allowables.core_knockdown, 1, 0);
    assert_false(p->elements[0].end_plates.given);
    assert_false(pl_given(p->limits.mass_kg));
    assert_false(pl_given(p->load_cases[5].tip_limit_m));
}

static void lists_and_objects_are_missed_unless_they_may_be_left_out(void **state)
{
    (void)state;
    static const char *const pointers[] = {"/profiles",
                                           "/fabrics",
                                           "/resins",
                                           "/cores",
                                           "/elements/0/stations",
                                           "/elements/0/layup",
                                           "/elements/0/mounts",
                                           "/load_cases/2/pads",
                                           "/load_cases",
                                           "/allowables"};
    for (size_t i = 0; i < sizeof pointers / sizeof *pointers; i++) {
        assert_true(i == 0 || pl_document_undo(t.doc));
        put(&t, pointers[i], NULL);
        trial_build(&t);
        assert_error(&t, pointers[i], "is missing", "");
        assert_int_equal(t.status, PL_BAD_INPUT);
    }
}

static void a_part_may_have_no_load_case(void **state)
{
    (void)state;
    put(&t, "/load_cases", "[]");
    put(&t, "/limits", NULL);
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
}

/* ---- keys ---- */

static void unknown_keys_are_kept_and_told_once(void **state)
{
    (void)state;
    put(&t, "/colour", "\"red\"");
    put(&t, "/elements/0/stations/1/note", "{\"by\": [1, 2]}");
    put(&t, "/allowables/a~1b", "1.50");
    put(&t, "/elements/0/Name", "\"other case\"");
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(t.problems.count, 4);
    assert_int_equal(count_told(&t, PL_WARNING, "/colour", "is not a key"), 1);
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/0/stations/1/note", "is not a key"), 1);
    assert_int_equal(count_told(&t, PL_WARNING, "/allowables/a~1b", "is not a key"), 1);
    assert_int_equal(count_told(&t, PL_WARNING, "/elements/0/Name", "is not a key"), 1);
    size_t length;
    const char *bytes = pl_document_bytes(t.doc, &length);
    assert_non_null(strstr(bytes, "\"colour\": \"red\""));
    assert_non_null(strstr(bytes, "{\"by\": [1, 2]}"));
    assert_non_null(strstr(bytes, "1.50"));
}

static void a_field_of_another_kind_of_case_is_told_and_not_read(void **state)
{
    (void)state;
    put(&t, "/load_cases/5/speed_kmh", "-5");
    put(&t, "/load_cases/1/direction", "\"sideways\"");
    put(&t, "/elements/0/mounts/1/stiffness_nm_per_rad", "3000");
    trial_build(&t);
    assert_int_equal(t.status, PL_OK);
    assert_warning(&t, "/load_cases/5/speed_kmh", "is not used here", "-5");
    assert_warning(&t, "/load_cases/1/direction", "is not used here", "\"sideways\"");
    assert_warning(&t, "/elements/0/mounts/1/stiffness_nm_per_rad", "is not used here", "3000");
    assert_int_equal(t.problems.count, 3);
    assert_false(pl_given(t.part.elements[0].mounts[1].stiffness_nm_per_rad));
}

/* ---- kinds and ranges, over the whole table ---- */

static const char *found_at(const struct trial *trial, const char *pointer, char *out, size_t size)
{
    pl_node node = pl_document_find(trial->doc, pointer);
    enum pl_node_kind kind = pl_node_kind(trial->doc, node);
    out[0] = '\0';
    if (kind != PL_NODE_LIST && kind != PL_NODE_OBJECT)
        pl_node_spelling(trial->doc, node, out, size);
    return out;
}

static bool takes(enum pl_field_kind kind, const char *json)
{
    switch (kind) {
    case PL_FIELD_NUMBER:
    case PL_FIELD_WHOLE: return json[0] == '7';
    case PL_FIELD_TEXT:
    case PL_FIELD_CHOICE:
    case PL_FIELD_REFERENCE: return json[0] == '"';
    case PL_FIELD_FLAG: return json[0] == 't';
    case PL_FIELD_REFERENCES:
    case PL_FIELD_PAIR:
    case PL_FIELD_POINTS: return json[0] == '[';
    case PL_FIELD_MAP: return json[0] == '{';
    }
    return false;
}

static void refuses_other_kinds(struct trial *trial, const struct pl_field *f, const void *row, const char *pointer)
{
    static const char *const values[] = {"7", "\"seven\"", "true", "null", "[]", "{}"};
    char *value = pl_document_copy(trial->doc, pointer), found[80];
    (void)row;
    for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
        if (takes(f->kind, values[i]))
            continue;
        put(trial, pointer, values[i]);
        trial_build(trial);
        assert_error(trial, pointer, "must be ", found_at(trial, pointer, found, sizeof found));
        assert_int_equal(trial->status, PL_BAD_INPUT);
    }
    put(trial, pointer, value);
    free(value);
}

static void every_field_refuses_what_is_not_of_its_kind(void **state)
{
    (void)state;
    visit_fields(&t, refuses_other_kinds);
}

static bool refused_at(struct trial *trial, const struct pl_field *f, const char *pointer, double value)
{
    char json[64], found[80], words[96];
    pl_number_shortest(json, sizeof json, value);
    put(trial, pointer, json);
    trial_build(trial);
    pl_field_range_words(f, words, sizeof words);
    if (!count_told(trial, PL_ERROR, pointer, words))
        return false;
    assert_error(trial, pointer, words, found_at(trial, pointer, found, sizeof found));
    return true;
}

static bool unusual_at(struct trial *trial, const struct pl_field *f, const char *pointer, double value)
{
    assert_false(refused_at(trial, f, pointer, value));
    return count_told(trial, PL_WARNING, pointer, "is unusual") == 1;
}

static double beyond(const struct pl_field *f, double value, double way)
{
    return f->kind == PL_FIELD_WHOLE ? value + way : value + way * fmax(1e-9, 1e-6 * fabs(value));
}

static void keeps_its_ranges(struct trial *trial, const struct pl_field *f, const void *row, const char *pointer)
{
    if (f->kind != PL_FIELD_NUMBER && f->kind != PL_FIELD_WHOLE)
        return;
    char *value = pl_document_copy(trial->doc, pointer);
    (void)row;
    assert_true(refused_at(trial, f, pointer, beyond(f, f->least, -1)));
    assert_true(refused_at(trial, f, pointer, f->least) == f->above);
    assert_true(refused_at(trial, f, pointer, f->most) == f->below);
    assert_true(refused_at(trial, f, pointer, beyond(f, f->most, 1)));
    if (f->usual[0] != 0 || f->usual[1] != 0) {
        assert_false(unusual_at(trial, f, pointer, f->usual[0]));
        assert_false(unusual_at(trial, f, pointer, f->usual[1]));
        assert_true(f->usual[0] <= f->least || unusual_at(trial, f, pointer, beyond(f, f->usual[0], -1)));
        assert_true(f->usual[1] >= f->most || unusual_at(trial, f, pointer, beyond(f, f->usual[1], 1)));
    }
    put(trial, pointer, value);
    free(value);
}

static void every_number_is_refused_outside_its_range_and_told_outside_the_typical_one(void **state)
{
    (void)state;
    visit_fields(&t, keeps_its_ranges);
}

static void the_contracts_own_example_of_a_message_is_what_is_said(void **state)
{
    (void)state;
    put(&t, "/elements/0/stations/1/chord_mm", "-20");
    trial_build(&t);
    char sentence[512];
    pl_problem_sentence(pl_problems_first_error(&t.problems), "front-wing.json", sentence, sizeof sentence);
    const char *start = "front-wing.json: /elements/0/stations/1/chord_mm: must be above 0";
    assert_int_equal(strncmp(sentence, start, strlen(start)), 0);
    assert_non_null(strstr(sentence, "(found -20)"));
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh_whole, release)
    const struct CMUnitTest tests[] = {
        TRIAL(a_part_with_every_field_is_taken_without_a_word),
        TRIAL(the_sample_is_taken_without_a_word),
        TRIAL(every_number_is_read_in_si),
        TRIAL(numbers_of_each_unit_are_read_in_si),
        TRIAL(the_other_kinds_are_read),
        TRIAL(a_name_may_be_used_ahead_of_where_it_stands),
        TRIAL(thickness_of_a_ply_and_half_the_span_follow_from_what_is_read),
        TRIAL(a_name_from_the_file_cannot_send_control_characters),
        TRIAL(building_again_forgets_what_was_there),
        TRIAL(every_field_is_missed_unless_it_may_be_left_out),
        TRIAL(what_is_left_out_has_the_contracts_value),
        TRIAL(lists_and_objects_are_missed_unless_they_may_be_left_out),
        TRIAL(a_part_may_have_no_load_case),
        TRIAL(unknown_keys_are_kept_and_told_once),
        TRIAL(a_field_of_another_kind_of_case_is_told_and_not_read),
        TRIAL(every_field_refuses_what_is_not_of_its_kind),
        TRIAL(every_number_is_refused_outside_its_range_and_told_outside_the_typical_one),
        TRIAL(the_contracts_own_example_of_a_message_is_what_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
