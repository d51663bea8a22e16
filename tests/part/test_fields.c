/* Laws over the table of fields itself: what the contract names is in it, and every row of it makes sense. */
#include "parts.h"

#include <math.h>

/* Copied from the contract's page on the part file: the keys of each place. */
static const struct { const char *place, *keys;
} contract[] = {
    {"", "format version name revision notes profiles fabrics resins cores elements load_cases allowables limits"},
    {"/profiles/0", "name naca points"},
    {"/fabrics/0",
     "name fibre areal_weight_gsm fibre_density_kgm3 fibre_volume_fraction e1_gpa e2_gpa g12_gpa nu12 xt_mpa"
     " xc_mpa yt_mpa yc_mpa s_mpa roll_width_mm"},
    {"/resins/0", "name kind density_kgm3 mix_ratio_by_weight pot_life_min pot_life_at_c tg_dry_c tg_wet_c"},
    {"/cores/0", "name kind density_kgm3 e_mpa g_mpa shear_strength_mpa compressive_strength_mpa max_c"},
    {"/elements/0", "name inverted incidence_deg stations core resin layup mounts end_plates"},
    {"/elements/0/stations/0", "y_mm chord_mm x_le_mm z_le_mm twist_deg profile"},
    {"/elements/0/layup/0",
     "name fabric angle_deg plies side chord_from chord_to centre_at width_mm half_length_mm drop_mm"
     " from_mm"},
    {"/elements/0/mounts/0", "name y_mm hold stiffness_nm_per_rad on at"},
    {"/elements/0/end_plates", "height_mm length_mm below_mm x_le_mm thickness_mm"},
    {"/load_cases/0",
     "name kind element factor with speed_kmh air_density_kgm3 distribution coefficient acts_at ride_height_mm"
     " allowance supported_mass_kg dynamic_factor uneven pads y_mm direction force_n moving_mass_kg"
     " closing_speed_ms travel_mm"},
    {"/load_cases/0/pads/0", "y_mm acts_at length_mm width_mm"},
    {"/allowables", "knockdown core_knockdown service_c criterion"},
    {"/limits", "tip_deflection_mm mass_kg"},
};

/* The same: keys of a load case by kind, beside those that every kind has. */
static const struct { int kind; const char *keys; } by_kind[] = {
    {PL_DOWNFORCE, "speed_kmh air_density_kgm3 distribution coefficient acts_at ride_height_mm allowance aft_n cycles"},
    {PL_JACKING, "supported_mass_kg dynamic_factor uneven"},
    {PL_TIP_STRIKE, "y_mm acts_at direction force_n moving_mass_kg closing_speed_ms travel_mm aft_n contact_length_mm contact_width_mm"},
    {PL_POINT_LOAD, "y_mm acts_at direction force_n aft_n"},
    {PL_INERTIA, "acts_at direction n_g tip_mass_kg aft_n cycles"},
};

/* The same: words that a choice knows. */
static const struct { const char *pointer, *choices; } choices[] = {
    {"/fabrics/0/fibre", "glass carbon aramid basalt flax other"},
    {"/resins/0/kind", "epoxy polyester vinylester"},
    {"/elements/0/layup/0/side", "top bottom both"},
    {"/elements/0/mounts/0/hold", "clamped pinned"},
    {"/load_cases/0/kind", "downforce jacking tip-strike point inertia"},
    {"/load_cases/0/distribution", "uniform elliptic computed"},
    {"/load_cases/0/direction", "up down"},
    {"/allowables/criterion", "tsai-wu max-stress"},
};

/* The same: what may be left out. */
static const char *const left_out[] = {
    "/fabrics/0/fibre",       "/resins/0/tg_dry_c",          "/resins/0/tg_wet_c",
    "/cores/0/max_c",         "/elements/0/layup/0/half_length_mm", "/elements/0/layup/0/drop_mm",
    "/elements/0/layup/0/from_mm", "/elements/0/mounts/0/stiffness_nm_per_rad", "/elements/0/mounts/0/on",
    "/elements/0/end_plates/x_le_mm", "/load_cases/0/with",  "/load_cases/0/ride_height_mm",
    "/load_cases/0/allowance", "/load_cases/0/uneven",       "/load_cases/0/travel_mm",
    "/allowables/core_knockdown",
};

#define COUNT(list) (sizeof(list) / sizeof *(list))

static bool has_word(const char *words, const char *word)
{
    size_t n = strlen(word);
    for (const char *at = strstr(words, word); at; at = strstr(at + 1, word))
        if ((at == words || at[-1] == ' ') && (at[n] == ' ' || !at[n]))
            return true;
    return false;
}

/* ---- what the contract names ---- */

static void every_key_of_the_contract_is_in_the_table(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(contract); i++) {
        char keys[400], pointer[160], *save = NULL;
        enum pl_group_id home, group;
        pl_field_at(contract[i].place, &home);
        snprintf(keys, sizeof keys, "%s", contract[i].keys);
        for (char *key = strtok_r(keys, " ", &save); key; key = strtok_r(NULL, " ", &save)) {
            snprintf(pointer, sizeof pointer, "%s/%s", contract[i].place, key);
            const struct pl_field *f = pl_field_at(pointer, &group);
            if (f ? group != home || strcmp(f->key, key) : group == home || strcmp(pl_groups[group].key, key))
                fail_msg("%s is not in the table", pointer);
        }
    }
}

static void a_load_case_has_the_fields_of_its_kind_and_no_others(void **state)
{
    (void)state;
    const struct pl_group *g = &pl_groups[PL_GROUP_CASE];
    for (size_t i = 0; i < COUNT(by_kind); i++) {
        struct pl_load_case row = {.kind = by_kind[i].kind, .distribution = PL_ELLIPTIC};
        for (size_t k = 0; k < g->n_fields; k++) {
            bool common = has_word("name kind element factor with", g->fields[k].key);
            bool there = !g->fields[k].when || g->fields[k].when(&row);
            if (there != (common || has_word(by_kind[i].keys, g->fields[k].key)))
                fail_msg("kind %d %s %s", by_kind[i].kind, there ? "has" : "has no", g->fields[k].key);
        }
        assert_int_equal(pl_groups[PL_GROUP_PAD].when(&row), by_kind[i].kind == PL_JACKING);
    }
}

static void a_computed_load_needs_neither_coefficient_nor_acts_at(void **state)
{
    (void)state;
    struct pl_load_case row = {.kind = PL_DOWNFORCE, .distribution = PL_COMPUTED};
    enum pl_group_id group;
    assert_false(pl_field_at("/load_cases/0/coefficient", &group)->when(&row));
    assert_false(pl_field_at("/load_cases/0/acts_at", &group)->when(&row));
    row.distribution = PL_UNIFORM;
    assert_true(pl_field_at("/load_cases/0/coefficient", &group)->when(&row));
    assert_true(pl_field_at("/load_cases/0/acts_at", &group)->when(&row));
}

static void only_a_clamped_mount_has_a_spring(void **state)
{
    (void)state;
    enum pl_group_id group;
    const struct pl_field *f = pl_field_at("/elements/0/mounts/0/stiffness_nm_per_rad", &group);
    assert_true(f->when(&(struct pl_mount){.hold = PL_CLAMPED}));
    assert_false(f->when(&(struct pl_mount){.hold = PL_PINNED}));
}

static void every_choice_of_the_contract_is_in_the_table_and_no_other(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(choices); i++) {
        char words[160] = "";
        enum pl_group_id group;
        const struct pl_field *f = pl_field_at(choices[i].pointer, &group);
        assert_non_null(f);
        assert_int_equal(f->kind, PL_FIELD_CHOICE);
        for (size_t k = 0; k < f->n_choices; k++)
            snprintf(words + strlen(words), sizeof words - strlen(words), "%s%s", k ? " " : "", f->choices[k]);
        assert_string_equal(words, choices[i].choices);
    }
}

static void what_the_contract_lets_be_left_out_may_be(void **state)
{
    (void)state;
    enum pl_group_id group;
    for (size_t i = 0; i < COUNT(left_out); i++) {
        const struct pl_field *f = pl_field_at(left_out[i], &group);
        if (!f || !f->optional)
            fail_msg("%s must not be left out", left_out[i]);
    }
    assert_true(pl_groups[PL_GROUP_END_PLATES].optional);
}

/* ---- keys and units ---- */

static const struct { const char *suffix; enum pl_unit unit; double to_si; } suffixes[] = {
    {"_mm", PL_MM, 1e-3},   {"_deg", PL_DEG, 0.017453292519943295}, {"_gsm", PL_GSM, 1e-3}, {"_kgm3", PL_KG_M3, 1},
    {"_gpa", PL_GPA, 1e9},  {"_mpa", PL_MPA, 1e6},  {"_n", PL_NEWTON, 1},      {"_nm_per_rad", PL_NM_PER_RAD, 1},
    {"_kg", PL_KG, 1},      {"_ms", PL_M_S, 1},     {"_kmh", PL_KM_H, 1 / 3.6}, {"_min", PL_MINUTE, 60},
    {"_c", PL_CELSIUS, 1}, {"_m2min", PL_M2_MIN, 1.0 / 60},
};

static bool ends_in(const char *text, const char *end)
{
    size_t n = strlen(text), k = strlen(end);
    return n >= k && !strcmp(text + n - k, end);
}

static bool holds_numbers(const struct pl_field *f)
{
    return f->kind == PL_FIELD_NUMBER || f->kind == PL_FIELD_WHOLE || f->kind == PL_FIELD_PAIR ||
           f->kind == PL_FIELD_MAP;
}

/* Runs over every field of the table; which one is wrong stands in the message of the one that fails. */
typedef const char *field_law(const struct pl_field *f);

static void for_every_field(field_law *law)
{
    size_t broken = 0;
    for (int g = 0; g < PL_GROUPS; g++)
        for (size_t i = 0; i < pl_groups[g].n_fields; i++) {
            const char *why = law(&pl_groups[g].fields[i]);
            if (why)
                print_error("%s of a %s %s\n", pl_groups[g].fields[i].key, pl_groups[g].noun, why);
            broken += why != NULL;
        }
    assert_int_equal(broken, 0);
}

static const char *suffix_law(const struct pl_field *f)
{
    for (size_t i = 0; i < COUNT(suffixes) && holds_numbers(f); i++)
        if (ends_in(f->key, suffixes[i].suffix) != (f->unit == suffixes[i].unit))
            return "has a unit other than its key ends in";
    return NULL;
}

static void every_key_ends_in_its_unit(void **state)
{
    (void)state;
    for_every_field(suffix_law);
}

static void units_of_the_file_turn_into_si(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(suffixes); i++)
        assert_close(pl_unit_to_si(suffixes[i].unit), suffixes[i].to_si, 1e-15);
    assert_close(pl_unit_to_si(PL_NO_UNIT), 1, 0);
    assert_int_equal(COUNT(suffixes), PL_UNITS - 1);  /* a new unit needs its suffix here */
}

static void every_unit_has_a_name_of_its_own(void **state)
{
    (void)state;
    for (int i = PL_NO_UNIT + 1; i < PL_UNITS; i++) {
        assert_true(pl_unit_name((enum pl_unit)i)[0]);
        for (int k = PL_NO_UNIT; k < i; k++)
            assert_string_not_equal(pl_unit_name((enum pl_unit)i), pl_unit_name((enum pl_unit)k));
    }
}

/* ---- words ---- */

static const char *help_law(const struct pl_field *f)
{
    if (!f->help || strlen(f->help) < 10 || !ends_in(f->help, "."))
        return "has no sentence of help that ends in a full stop";
    return strlen(f->help) > 140 ? "has a help too long for a line" : NULL;
}

static void every_field_has_a_sentence_of_help(void **state)
{
    (void)state;
    for_every_field(help_law);
}

static const char *typical_law(const struct pl_field *f)
{
    bool digits = f->help && strpbrk(f->help, "0123456789");
    return holds_numbers(f) && !digits ? "has no typical value in its help" : NULL;
}

static void the_help_of_a_number_has_a_typical_value(void **state)
{
    (void)state;
    for_every_field(typical_law);
}

static void keys_and_labels_are_unique_in_their_group(void **state)
{
    (void)state;
    for (int g = 0; g < PL_GROUPS; g++)
        for (size_t i = 0; i < pl_groups[g].n_fields; i++) {
            assert_true(pl_groups[g].fields[i].key[0]);
            assert_true(pl_groups[g].fields[i].label[0]);
            for (size_t k = 0; k < i; k++) {
                assert_string_not_equal(pl_groups[g].fields[i].key, pl_groups[g].fields[k].key);
                assert_string_not_equal(pl_groups[g].fields[i].label, pl_groups[g].fields[k].label);
            }
        }
}

/* ---- numbers ---- */

static const char *range_law(const struct pl_field *f)
{
    if (!holds_numbers(f))
        return NULL;
    return f->least <= f->most ? NULL : "has no room between least and most";
}

static const char *usual_law(const struct pl_field *f)
{
    if (!holds_numbers(f) || (f->usual[0] == 0 && f->usual[1] == 0))
        return NULL;
    if (f->usual[0] >= f->usual[1])
        return "has a typical range that is out of order";
    bool inside = f->usual[0] >= f->least && f->usual[1] <= f->most;
    inside = inside && !(f->above && f->usual[0] == f->least) && !(f->below && f->usual[1] == f->most);
    return inside ? NULL : "has a typical range outside the hard one";
}

static const char *step_law(const struct pl_field *f)
{
    if (!holds_numbers(f))
        return NULL;
    if (!(f->step > 0))
        return "has no step";
    if (f->kind == PL_FIELD_WHOLE && f->step != floor(f->step))
        return "is whole and its step is not";
    double room = f->usual[1] > f->usual[0] ? f->usual[1] - f->usual[0] : f->most - f->least;
    return f->step < room || f->least == f->most ? NULL : "has a step wider than its range";
}

static const char *left_out_law(const struct pl_field *f)
{
    if (f->kind == PL_FIELD_CHOICE && f->optional)
        return f->left_out >= 0 && f->left_out < (double)f->n_choices ? NULL : "is no choice when left out";
    if (!holds_numbers(f) || !f->optional || isnan(f->left_out) || f->kind == PL_FIELD_MAP)
        return NULL;
    bool inside = f->left_out >= f->least && f->left_out <= f->most && !(f->above && f->left_out == f->least);
    return inside ? NULL : "is outside its range when left out";
}

static void hard_ranges_are_in_order(void **state)
{
    (void)state;
    for_every_field(range_law);
}

static void typical_ranges_lie_inside_the_hard_ones(void **state)
{
    (void)state;
    for_every_field(usual_law);
}

static void every_number_has_a_step_that_fits(void **state)
{
    (void)state;
    for_every_field(step_law);
}

static void what_is_left_out_has_a_value_in_its_range(void **state)
{
    (void)state;
    for_every_field(left_out_law);
}

static void the_hard_range_is_said_in_words(void **state)
{
    (void)state;
    char words[96];
    pl_field_range_words(&(struct pl_field){.least = 0, .most = 1}, words, sizeof words);
    assert_string_equal(words, "must be from 0 to 1");
    pl_field_range_words(&(struct pl_field){.least = -90.5, .most = 90}, words, sizeof words);
    assert_string_equal(words, "must be from -90.5 to 90");
    pl_field_range_words(&(struct pl_field){.least = 0, .most = 10000, .above = true}, words, sizeof words);
    assert_non_null(strstr(words, "must be above 0"));
    assert_non_null(strstr(words, "10000"));
    pl_field_range_words(&(struct pl_field){.least = 2, .most = 3, .above = true, .below = true}, words, sizeof words);
    assert_string_equal(words, "must be above 2 and below 3");
}

/* ---- memory ---- */

static size_t size_of(enum pl_field_kind kind)
{
    switch (kind) {
    case PL_FIELD_NUMBER: return sizeof(double);
    case PL_FIELD_WHOLE:
    case PL_FIELD_CHOICE: return sizeof(int);
    case PL_FIELD_FLAG: return sizeof(bool);
    case PL_FIELD_REFERENCE: return sizeof(size_t);
    case PL_FIELD_PAIR: return 2 * sizeof(double);
    case PL_FIELD_TEXT:
    case PL_FIELD_REFERENCES:
    case PL_FIELD_POINTS:
    case PL_FIELD_MAP: break;
    }
    return sizeof(void *);
}

static bool is_list(const struct pl_field *f)
{
    return f->kind == PL_FIELD_REFERENCES || f->kind == PL_FIELD_POINTS || f->kind == PL_FIELD_MAP;
}

/* Marks the bytes of a field; false when one is taken or lies outside. */
static bool take_bytes(char *taken, size_t stride, size_t at, size_t size)
{
    for (size_t i = at; i < at + size; i++)
        if (i >= stride || taken[i]++)
            return false;
    return true;
}

static void every_field_has_memory_of_its_own_inside_its_row(void **state)
{
    (void)state;
    for (int g = 0; g < PL_GROUPS; g++) {
        char taken[1024] = {0};
        assert_in_range(pl_groups[g].stride, 1, sizeof taken);
        for (size_t i = 0; i < pl_groups[g].n_fields; i++) {
            const struct pl_field *f = &pl_groups[g].fields[i];
            if (!take_bytes(taken, pl_groups[g].stride, f->at, size_of(f->kind))
                || (is_list(f) && !take_bytes(taken, pl_groups[g].stride, f->count_at, sizeof(size_t))))
                fail_msg("%s of a %s shares its memory", f->key, pl_groups[g].noun);
        }
    }
}

/* ---- finding ---- */

static void a_pointer_that_leads_nowhere_has_no_field(void **state)
{
    (void)state;
    static const char *const pointers[] = {
        "", "/", "/nothing", "/elements", "/elements/0", "/elements/0/stations/1", "/elements/0/stations/1/colour",
        "/elements/0/chord_mm", "/limits", "elements/0/name",
    };
    enum pl_group_id group;
    for (size_t i = 0; i < COUNT(pointers); i++)
        if (pl_field_at(pointers[i], &group))
            fail_msg("%s has a field", pointers[i]);
    assert_null(pl_field_at("/elements/0/stations/1", &group));
    assert_int_equal(group, PL_GROUP_STATION);
}

static void a_row_is_found_by_its_pointer_and_by_those_of_its_fields(void **state)
{
    (void)state;
    struct trial t;
    enum pl_group_id group;
    trial_open(&t, WHOLE_PART);
    trial_build(&t);
    assert_ptr_equal(pl_part_row(&t.part, "", &group), &t.part);
    assert_ptr_equal(pl_part_row(&t.part, "/elements/1", &group), &t.part.elements[1]);
    assert_ptr_equal(pl_part_row(&t.part, "/elements/0/layup/2", &group), &t.part.elements[0].layup[2]);
    assert_ptr_equal(pl_part_row(&t.part, "/elements/0/layup/2/plies", &group), &t.part.elements[0].layup[2]);
    assert_int_equal(group, PL_GROUP_LAYUP);
    assert_ptr_equal(pl_part_row(&t.part, "/elements/0/end_plates/height_mm", &group), &t.part.elements[0].end_plates);
    assert_ptr_equal(pl_part_row(&t.part, "/load_cases/2/pads/1", &group), &t.part.load_cases[2].pads[1]);
    assert_ptr_equal(pl_part_row(&t.part, "/limits/mass_kg", &group), &t.part.limits);
    trial_close(&t);
}

static void a_row_that_is_not_there_is_not_found(void **state)
{
    (void)state;
    static const char *const pointers[] = {
        "/elements/2", "/elements/-", "/elements/x", "/elements/18446744073709551616", "/elements/5/layup/0/plies",
        "/elements/0/layup/3", "/load_cases/0/pads/0", "/elements",
    };
    struct trial t;
    enum pl_group_id group;
    trial_open(&t, WHOLE_PART);
    trial_build(&t);
    for (size_t i = 0; i < COUNT(pointers); i++)
        if (pl_part_row(&t.part, pointers[i], &group))
            fail_msg("%s is found", pointers[i]);
    trial_close(&t);
}

static void a_pointer_begins_with_its_row(void **state)
{
    (void)state;
    static const struct { const char *pointer, *row; enum pl_group_id group; } rows[] = {
        {"", "", PL_GROUP_PART},
        {"/notes", "", PL_GROUP_PART},
        {"/fabrics", "", PL_GROUP_PART},
        {"/colour/0", "", PL_GROUP_PART},
        {"/elements/12", "/elements/12", PL_GROUP_ELEMENT},
        {"/elements/0/layup", "/elements/0", PL_GROUP_ELEMENT},
        {"/elements/0/layup/2/plies", "/elements/0/layup/2", PL_GROUP_LAYUP},
        {"/elements/0/layup/2/colour/0", "/elements/0/layup/2", PL_GROUP_LAYUP},
        {"/elements/0/end_plates/height_mm", "/elements/0/end_plates", PL_GROUP_END_PLATES},
        {"/load_cases/2/pads/1/y_mm", "/load_cases/2/pads/1", PL_GROUP_PAD},
        {"/limits/tip_deflection_mm/pit jack", "/limits", PL_GROUP_LIMITS},
        {"/profiles/0/points/3/1", "/profiles/0", PL_GROUP_PROFILE},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        enum pl_group_id group;
        size_t length = pl_field_row(rows[i].pointer, &group);
        if (length != strlen(rows[i].row) || group != rows[i].group)
            fail_msg("the row of %s is its first %zu bytes, of group %d", rows[i].pointer, length, (int)group);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_key_of_the_contract_is_in_the_table),
        cmocka_unit_test(a_load_case_has_the_fields_of_its_kind_and_no_others),
        cmocka_unit_test(a_computed_load_needs_neither_coefficient_nor_acts_at),
        cmocka_unit_test(only_a_clamped_mount_has_a_spring),
        cmocka_unit_test(every_choice_of_the_contract_is_in_the_table_and_no_other),
        cmocka_unit_test(what_the_contract_lets_be_left_out_may_be),
        cmocka_unit_test(every_key_ends_in_its_unit),
        cmocka_unit_test(units_of_the_file_turn_into_si),
        cmocka_unit_test(every_unit_has_a_name_of_its_own),
        cmocka_unit_test(every_field_has_a_sentence_of_help),
        cmocka_unit_test(the_help_of_a_number_has_a_typical_value),
        cmocka_unit_test(keys_and_labels_are_unique_in_their_group),
        cmocka_unit_test(hard_ranges_are_in_order),
        cmocka_unit_test(typical_ranges_lie_inside_the_hard_ones),
        cmocka_unit_test(every_number_has_a_step_that_fits),
        cmocka_unit_test(what_is_left_out_has_a_value_in_its_range),
        cmocka_unit_test(the_hard_range_is_said_in_words),
        cmocka_unit_test(every_field_has_memory_of_its_own_inside_its_row),
        cmocka_unit_test(a_pointer_that_leads_nowhere_has_no_field),
        cmocka_unit_test(a_row_is_found_by_its_pointer_and_by_those_of_its_fields),
        cmocka_unit_test(a_row_that_is_not_there_is_not_found),
        cmocka_unit_test(a_pointer_begins_with_its_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
