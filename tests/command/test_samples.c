/* The sample parts and the example in the manual: each ends as it should, without a warning, and the cantilever
 * stands where a sheet of paper puts it. */
#include "program.h"

#include <cjson/cJSON.h>

#include <dirent.h>
#include <math.h>

#define CANTILEVER "samples/cantilever.json"
#define PART_PAGE "man/plyloft-part.5"

static const struct {
    const char *name;
    int status;
} samples[] = {
    {"cantilever.json", 0}, {"front-wing.json", 0}, {"narrow-wing.json", 0}, {"rear-wing.json", 0},
    {"two-element-wing.json", 0}, {"underbuilt.json", 1},
};

enum { SAMPLES = sizeof samples / sizeof *samples };

/* Expected exit status of a file in samples/; a stranger fails the test. */
static int status_of(const char *name)
{
    for (size_t i = 0; i < SAMPLES; i++)
        if (!strcmp(samples[i].name, name))
            return samples[i].status;
    fail_msg("samples/%s is not in the list of this test", name);
    return -1;
}

/* What a command prints with --json; freed by cJSON_Delete. */
static cJSON *json_of(struct run *run, int status)
{
    assert_status(run, status);
    assert_string_equal(run->err, "");
    cJSON *json = cJSON_Parse(run->out);
    assert_non_null(json);
    run_free(run);
    return json;
}

static cJSON *check_json(const char *path, int status)
{
    struct run run = RUN("check", path, "--json");
    return json_of(&run, status);
}

static const cJSON *member(const cJSON *object, const char *key)
{
    const cJSON *value = cJSON_GetObjectItemCaseSensitive(object, key);
    if (!value)
        fail_msg("there is no %s", key);
    return value;
}

static double number(const cJSON *object, const char *key)
{
    assert_true(cJSON_IsNumber(member(object, key)));
    return member(object, key)->valuedouble;
}

static const cJSON *case_named(const cJSON *check, const char *name)
{
    const cJSON *c;
    cJSON_ArrayForEach(c, member(check, "cases"))
    {
        if (!strcmp(member(c, "name")->valuestring, name))
            return c;
    }
    fail_msg("there is no case %s", name);
    return NULL;
}

static double reserve_of(const cJSON *load_case)
{
    return number(member(load_case, "lowest"), "reserve");
}

/* ---- every sample ---- */

static void assert_sample(const char *name)
{
    char *path = NULL;
    assert_true(asprintf(&path, "samples/%s", name) > 0);
    cJSON *check = check_json(path, status_of(name));
    assert_int_equal(cJSON_GetArraySize(member(check, "warnings")), 0);
    assert_true(cJSON_GetArraySize(member(check, "cases")) >= 2);
    assert_int_equal(cJSON_IsTrue(member(check, "holds")), status_of(name) == 0);
    cJSON_Delete(check);
    char *text = read_whole_file(path, NULL);
    cJSON *part = cJSON_Parse(text);
    assert_true(strlen(member(part, "notes")->valuestring) > 80);  /* what it is for */
    cJSON_Delete(part);
    free(text);
    free(path);
}

static void every_sample_ends_as_it_should_without_a_warning(void **state)
{
    (void)state;
    DIR *folder = opendir("samples");
    size_t n = 0;
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder));) {
        if (entry->d_name[0] == '.')
            continue;
        assert_sample(entry->d_name);
        n++;
    }
    closedir(folder);
    assert_int_equal(n, SAMPLES);
}

static void assert_reserves_between(const char *path, double least, double most)
{
    cJSON *check = check_json(path, 0);
    const cJSON *c;
    cJSON_ArrayForEach(c, member(check, "cases"))
    {
        double reserve = reserve_of(c);
        if (reserve < least || reserve > most)
            fail_msg("%s: %s has a reserve of %g", path, member(c, "name")->valuestring, reserve);
    }
    cJSON_Delete(check);
}

static void the_wings_have_something_left_and_nothing_to_waste(void **state)
{
    (void)state;
    assert_reserves_between("samples/two-element-wing.json", 1.05, 2.6);
    assert_reserves_between("samples/rear-wing.json", 1.05, 2.6);
    assert_reserves_between("samples/narrow-wing.json", 1.05, 2.6);
}

static void the_slot_of_the_two_element_wing_is_as_its_notes_say(void **state)
{
    (void)state;
    /* 2 % and 1.5 % of a chord of 300 mm */
    for (int y_mm = -650; y_mm <= 650; y_mm += 325) {
        char at[16];
        snprintf(at, sizeof at, "%d", y_mm);
        struct run run = RUN("section", "samples/two-element-wing.json", "--at", at, "--element", "flap", "--json");
        cJSON *section = json_of(&run, 0);
        assert_close(number(section, "gap_mm"), 6, 0.02);
        assert_close(number(section, "overlap_mm"), 4.5, 0.02);
        assert_string_equal(member(section, "ahead")->valuestring, "main");
        cJSON_Delete(section);
    }
    struct run run = RUN("section", "samples/two-element-wing.json", "--at", "0", "--element", "main", "--json");
    cJSON *section = json_of(&run, 0);
    assert_null(cJSON_GetObjectItemCaseSensitive(section, "gap_mm"));
    assert_null(cJSON_GetObjectItemCaseSensitive(section, "ahead"));
    cJSON_Delete(section);
}

static void the_narrow_wing_stands_on_one_mount_and_has_no_pinned_answer(void **state)
{
    (void)state;
    cJSON *check = check_json("samples/narrow-wing.json", 0);
    assert_null(cJSON_GetObjectItemCaseSensitive(case_named(check, "scrutineer"), "pinned"));
    cJSON_Delete(check);
}

/* ---- the cantilever, by hand ---- */

/* A slab 100 mm wide and 20 mm deep under 0.5 mm of wall; its nose runs to a point over the first 2 mm. */
static const double half_span_m = 0.5, wall_m = 0.5e-3, flat_m = 98e-3, nose_x_m = 2e-3, half_depth_m = 10e-3;
static const double wall_e_pa = 17e9, wall_g_pa = 3.2e9, foam_e_pa = 14e6, foam_g_pa = 5e6;

static double wall_z_m(void) { return half_depth_m + 0.5 * wall_m; }
static double nose_m(void) { return hypot(nose_x_m, half_depth_m); }

/* Two flat walls, and two nose walls that run to the middle. */
static double wall_bending_nm2(void)
{
    return 2 * wall_e_pa * wall_m * wall_z_m() * wall_z_m() * (flat_m + nose_m() / 3);
}

static double bending_nm2(void)
{
    double depth = 2 * half_depth_m;
    return wall_bending_nm2() + foam_e_pa * (flat_m + nose_x_m) * depth * depth * depth / 12;
}

/* A unit shear changes the flow by a = E t z / EI a metre of flat wall, and along a nose wall from the tip, where it
 * is q, by a s2 / 2 n in all.  No twist: q (n + f) = a (n2 / 6 + n f / 2 + f2 / 2).  1/S = closed q2 / G t ds; the
 * foam adds G A. */
static double shear_n(void)
{
    double n = nose_m(), f = flat_m, a = wall_e_pa * wall_m * wall_z_m() / wall_bending_nm2();
    double tip = a * (n * n / 6 + n * f / 2 + f * f / 2) / (n + f), start = tip - a * n / 2, end = start - a * f;
    double nose = tip * tip * n - tip * a * n * n / 3 + a * a * n * n * n / 20;
    double flat = (start * start * start - end * end * end) / (3 * a);
    return wall_g_pa * wall_m / (2 * (nose + flat)) + foam_g_pa * (2 * half_depth_m * flat_m + half_depth_m * nose_x_m);
}

static void the_section_of_the_cantilever_is_that_of_the_hand(void **state)
{
    (void)state;
    struct run run = RUN("section", CANTILEVER, "--at", "250", "--json");
    cJSON *section = json_of(&run, 0);
    assert_close(number(section, "ei_flap_nm2"), bending_nm2(), 0.01);
    assert_close(number(section, "shear_stiffness_n"), shear_n(), 0.01);
    cJSON_Delete(section);
}

static void the_tips_of_the_cantilever_move_as_far_as_by_hand(void **state)
{
    (void)state;
    double l = half_span_m, push_n = 1.5 * 20, pressure_pa = 0.5 * 1.2 * pow(100 / 3.6, 2);
    double air_n_m = 2.0 * pressure_pa * 0.1 * 0.864;  /* factor, a chord of 0.1 m, coefficient */
    double push_m = push_n * l * l * l / (3 * bending_nm2()) + push_n * l / shear_n();
    double air_m = air_n_m * l * l * l * l / (8 * bending_nm2()) + air_n_m * l * l / (2 * shear_n());
    cJSON *check = check_json(CANTILEVER, 0);
    assert_close(number(case_named(check, "tip push"), "tip_deflection_mm"), -1e3 * push_m, 0.01);
    assert_close(number(case_named(check, "even air"), "tip_deflection_mm"), -1e3 * air_m, 0.01);
    assert_close(number(case_named(check, "even air"), "total_force_n"), -2 * air_n_m * l, 1e-6);
    cJSON_Delete(check);
}

static void the_cantilever_wrinkles_a_little_before_the_hand_says(void **state)
{
    (void)state;
    /* compression at the root against 0.5 (E E_c G_c x 0.75)^(1/3); the shear flow turns it and adds a little */
    double stress_pa = wall_e_pa * wall_z_m() * 30 * half_span_m / bending_nm2();
    double hand = 0.5 * cbrt(wall_e_pa * foam_e_pa * foam_g_pa * 0.75) / stress_pa;
    cJSON *check = check_json(CANTILEVER, 0);
    const cJSON *push = case_named(check, "tip push");
    assert_string_equal(member(member(push, "lowest"), "mode")->valuestring, "wrinkling");
    assert_true(reserve_of(push) < hand && reserve_of(push) > 0.97 * hand);
    cJSON_Delete(check);
}

/* ---- the manual ---- */

/* The literal block behind the mark `.\" example`. */
static char *example_of_page(void)
{
    char *page = read_whole_file(PART_PAGE, NULL), *at = strstr(page, ".\\\" example\n");
    assert_non_null(at);
    char *from = strchr(strstr(at, ".Bd"), '\n') + 1, *to = strstr(from, "\n.Ed"), *example = NULL;
    assert_non_null(to);
    assert_true(asprintf(&example, "%.*s\n", (int)(to - from), from) > 0);
    free(page);
    return example;
}

static void the_example_of_the_manual_holds_without_a_warning(void **state)
{
    (void)state;
    char *example = example_of_page(), *path = in_scratch("example.json");
    write_whole_file(path, example, strlen(example));
    cJSON *check = check_json(path, 0);
    assert_int_equal(cJSON_GetArraySize(member(check, "warnings")), 0);
    assert_true(cJSON_GetArraySize(member(check, "cases")) >= 1);
    cJSON_Delete(check);
    free(path);
    free(example);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_sample_ends_as_it_should_without_a_warning),
        cmocka_unit_test(the_wings_have_something_left_and_nothing_to_waste),
        cmocka_unit_test(the_slot_of_the_two_element_wing_is_as_its_notes_say),
        cmocka_unit_test(the_narrow_wing_stands_on_one_mount_and_has_no_pinned_answer),
        cmocka_unit_test(the_section_of_the_cantilever_is_that_of_the_hand),
        cmocka_unit_test(the_tips_of_the_cantilever_move_as_far_as_by_hand),
        cmocka_unit_test(the_cantilever_wrinkles_a_little_before_the_hand_says),
        cmocka_unit_test_setup_teardown(the_example_of_the_manual_holds_without_a_warning, scratch_make,
                                        scratch_remove),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
