/* What --json prints: the contract's keys, and figures that agree with each other and with statics. */
#include "program.h"

#include <cjson/cJSON.h>
#include <math.h>

#define assert_near(got, want, absolute) \
    do { \
        if (!(fabs((got) - (want)) <= (absolute))) \
            fail_msg("%s is %.10g, not %.10g", #got, (double)(got), (double)(want)); \
    } while (0)

static struct run run;
static cJSON *json;

static void parse(int status)
{
    const char *end = NULL;
    assert_status(&run, status);
    json = cJSON_ParseWithOpts(run.out, &end, false);
    if (!json)
        fail_msg("it is no JSON from here on: %.60s", end ? end : "");
    assert_string_equal(end, "\n");  /* one object, and nothing behind it */
    assert_true(cJSON_IsObject(json));
}

static int release(void **state)
{
    (void)state;
    cJSON_Delete(json);
    json = NULL;
    run_free(&run);
    return 0;
}

/* Every word of keys is a member, in that order, and nothing else is. */
static void assert_keys(const cJSON *object, const char *keys)
{
    char got[1000] = "";
    for (const cJSON *c = object->child; c; c = c->next)
        snprintf(got + strlen(got), sizeof got - strlen(got), "%s%s", c == object->child ? "" : " ", c->string);
    assert_string_equal(got, keys);
}

static const cJSON *member(const cJSON *object, const char *key)
{
    const cJSON *c = cJSON_GetObjectItemCaseSensitive(object, key);
    if (!c)
        fail_msg("there is no %s", key);
    return c;
}

static double number(const cJSON *object, const char *key)
{
    const cJSON *c = member(object, key);
    if (!cJSON_IsNumber(c))
        fail_msg("%s is no number", key);
    return c->valuedouble;
}

static const char *text(const cJSON *object, const char *key)
{
    const cJSON *c = member(object, key);
    if (!cJSON_IsString(c))
        fail_msg("%s is no text", key);
    return c->valuestring;
}

static const cJSON *named(const cJSON *list, const char *name)
{
    for (const cJSON *c = list->child; c; c = c->next)
        if (!strcmp(text(c, "name"), name))
            return c;
    fail_msg("there is no %s", name);
    return NULL;
}

/* ---- check ---- */

#define SOLUTION "lowest tip_deflection_mm largest_deflection_mm tip_nose_mm tip_tail_mm"

static void check_has_the_contracts_keys(void **state)
{
    (void)state;
    run = RUN("check", SAMPLE_PART, "--json");
    parse(0);
    assert_keys(json, "format version part warnings not_checked elements cases holds");
    assert_string_equal(text(json, "format"), "plyloft-check");
    assert_near(number(json, "version"), 1, 0);
    assert_string_equal(text(json, "part"), "hill-climb front wing");
    assert_true(cJSON_IsTrue(member(json, "holds")));
    assert_int_equal(cJSON_GetArraySize(member(json, "warnings")), 0);
    assert_keys(member(json, "elements")->child, "name span_mm area_m2 mass_kg");
    const cJSON *cases = member(json, "cases");
    assert_int_equal(cJSON_GetArraySize(cases), 4);
    assert_keys(named(cases, "top speed"), "name kind element total_force_n " SOLUTION " pinned reactions stations");
    assert_keys(named(cases, "pit jack"), "name kind element total_force_n variant " SOLUTION " pinned reactions stations");
    assert_keys(named(cases, "kerb on tip"),
                "name kind element total_force_n " SOLUTION " deflection_at_load_mm pinned reactions stations");
    assert_keys(named(cases, "scrutineer"),
                "name kind element total_force_n " SOLUTION " deflection_at_load_mm pinned reactions stations");
    assert_keys(member(named(cases, "pit jack"), "pinned"), "variant " SOLUTION " reactions");
    assert_keys(member(named(cases, "scrutineer"), "lowest"), "reserve y_mm mode item");
    assert_keys(member(named(cases, "scrutineer"), "stations")->child,
                "y_mm shear_n moment_nm torque_nm deflection_mm twist_deg reserve mode");
}

static bool is_said(const cJSON *list, const char *word)
{
    for (const cJSON *c = list->child; c; c = c->next)
        if (cJSON_IsString(c) && !strcmp(c->valuestring, word))
            return true;
    return false;
}

static void what_is_not_checked_is_said(void **state)
{
    (void)state;
    run = RUN("check", SAMPLE_PART, "--json");
    parse(0);
    assert_true(is_said(member(json, "not_checked"), "brackets"));
    assert_true(is_said(member(json, "not_checked"), "bonds"));
    assert_true(is_said(member(json, "not_checked"), "end plates"));
}

static void variant_and_pinned_stand_only_where_they_belong(void **state)
{
    (void)state;
    /* One spring and one pinned mount: nothing to pin anew. */
    run = RUN("check", WHOLE_PART, "--json");
    parse(1);
    for (const cJSON *c = member(json, "cases")->child; c; c = c->next) {
        bool jacking = !strcmp(text(c, "kind"), "jacking"),
             pushed = !strcmp(text(c, "kind"), "point") || !strcmp(text(c, "kind"), "tip-strike");
        assert_int_equal(cJSON_HasObjectItem(c, "variant"), jacking);
        assert_int_equal(cJSON_HasObjectItem(c, "deflection_at_load_mm"), pushed);
        assert_false(cJSON_HasObjectItem(c, "pinned"));
        if (jacking)
            assert_true(cJSON_IsNumber(member(c, "variant")) || !strcmp(text(c, "variant"), "even"));
    }
}

static void loads_follow_from_the_file(void **state)
{
    (void)state;
    run = RUN("check", SAMPLE_PART, "--json");
    parse(0);
    const cJSON *cases = member(json, "cases"), *element = member(json, "elements")->child;
    /* S = 2 (170 x 275 + 470 (275 + 230)/2) mm2 = 0.33085 m2; q = 0.5 x 1.19 (205/3.6)^2; 2 x 1.25 q S, down. */
    double s_m2 = 2e-6 * (170 * 275 + 470 * 252.5), q_pa = 0.5 * 1.19 * (205 / 3.6) * (205 / 3.6);
    assert_near(number(element, "area_m2"), s_m2, 1e-9);
    assert_near(number(element, "span_mm"), 1280, 1e-9);
    assert_near(number(named(cases, "top speed"), "total_force_n"), -2 * 1.25 * q_pa * s_m2, 0.01);
    /* 1.5 x 1.3 x 185 g, up. */
    assert_near(number(named(cases, "pit jack"), "total_force_n"), 1.5 * 1.3 * 185 * 9.80665, 0.01);
    assert_near(number(named(cases, "scrutineer"), "total_force_n"), -300, 1e-6);
    assert_true(number(named(cases, "kerb on tip"), "total_force_n") > 0);
}

static void stations_run_from_tip_to_tip_with_what_stands_on_the_way(void **state)
{
    (void)state;
    run = RUN("check", SAMPLE_PART, "--json");
    parse(0);
    static const double must[] = {-640, -600, -280, -230, -180, -170, 0, 170, 230, 240, 225, 640};
    for (const cJSON *c = member(json, "cases")->child; c; c = c->next) {
        const cJSON *stations = member(c, "stations");
        double y = -640;
        bool seen[sizeof must / sizeof *must] = {false};
        for (const cJSON *s = stations->child; s; s = s->next) {
            assert_true(number(s, "y_mm") >= y && number(s, "y_mm") <= y + 10 + 1e-9);
            y = number(s, "y_mm");
            for (size_t i = 0; i < sizeof must / sizeof *must; i++)
                seen[i] = seen[i] || fabs(y - must[i]) < 1e-6;
        }
        assert_near(y, 640, 1e-9);
        for (size_t i = 0; i < sizeof must / sizeof *must; i++)
            if (!seen[i])
                fail_msg("there is no station at %g", must[i]);
    }
}

static void the_lowest_is_the_lowest_of_the_stations(void **state)
{
    (void)state;
    run = RUN("check", SAMPLE_PART, "--json");
    parse(0);
    for (const cJSON *c = member(json, "cases")->child; c; c = c->next) {
        const cJSON *lowest = member(c, "lowest");
        double least = HUGE_VAL;
        for (const cJSON *s = member(c, "stations")->child; s; s = s->next)
            least = fmin(least, number(s, "reserve"));
        assert_near(least, number(lowest, "reserve"), 1e-5 * least);
    }
}

/* A push of 300 N down at y = -600: to the left of the cut it stands behind, so between tip and bracket the shear to
 * the right is what the brackets and the push leave, and the tips carry nothing. */
static void shear_and_moment_are_in_balance(void **state)
{
    (void)state;
    run = RUN("check", SAMPLE_PART, "--case", "scrutineer", "--json");
    parse(0);
    const cJSON *cases = member(json, "cases");
    assert_int_equal(cJSON_GetArraySize(cases), 1);
    for (const cJSON *s = member(cases->child, "stations")->child; s; s = s->next) {
        double y = number(s, "y_mm");
        if (y < -600.5 || y > 170.5) {  /* outside the push and the brackets */
            assert_near(number(s, "shear_n"), 0, 1e-6);
            assert_near(number(s, "moment_nm"), 0, 1e-6);
        } else if (y > -599.5 && y < -170.5) {
            /* All to the right balances the push to the left: upward 300 N; dM/dy = -V. */
            assert_near(number(s, "shear_n"), 300, 1e-6);
            assert_near(number(s, "moment_nm"), -0.3 * (y + 600), 1e-6);
        }
    }
}

static void one_case_is_judged_with_the_mass(void **state)
{
    (void)state;
    run = RUN("check", WEAK_PART, "--case", "top speed", "--json");
    parse(0);
    assert_true(cJSON_IsTrue(member(json, "holds")));
    assert_string_equal(text(member(json, "cases")->child, "name"), "top speed");
    assert_int_equal(cJSON_GetArraySize(member(json, "cases")), 1);
}

static void a_wing_too_heavy_for_its_limit_does_not_hold(void **state)
{
    (void)state;
    char *whole = read_whole_file(SAMPLE_PART, NULL), *path = NULL, *folder = make_folder();
    memcpy(strstr(whole, "\"mass_kg\": 1.3}"), "\"mass_kg\": 1.2}", 15);
    assert_true(asprintf(&path, "%s/heavy.json", folder) > 0);
    write_whole_file(path, whole, strlen(whole));
    run = RUN("check", path, "--case", "top speed", "--json");
    remove_folder(folder);
    free(path);
    free(whole);
    parse(1);
    assert_true(cJSON_IsFalse(member(json, "holds")));
    assert_true(number(member(member(json, "cases")->child, "lowest"), "reserve") > 1);
    assert_true(number(member(json, "elements")->child, "mass_kg") > 1.2);
}

static void warnings_are_sentences(void **state)
{
    (void)state;
    char *whole = read_whole_file(SAMPLE_PART, NULL), *path = NULL, *folder = make_folder();
    memcpy(strstr(whole, "\"revision\""), "\"Revision\"", 10);
    assert_true(asprintf(&path, "%s/part.json", folder) > 0);
    write_whole_file(path, whole, strlen(whole));
    run = RUN("check", path, "--json");
    remove_folder(folder);
    free(path);
    free(whole);
    parse(0);
    const cJSON *warnings = member(json, "warnings");
    assert_int_equal(cJSON_GetArraySize(warnings), 1);
    assert_has(warnings->child->valuestring, "/Revision: is not a key");
}

/* ---- section, laminate, profile ---- */

static void section_has_the_contracts_keys(void **state)
{
    (void)state;
    run = RUN("section", SAMPLE_PART, "--at", "-300", "--json", "--element", "main");
    parse(0);
    assert_keys(json, "y_mm chord_mm ea_n ei_flap_nm2 ei_lead_nm2 ei_coupling_nm2 gj_nm2 shear_stiffness_n x_neutral_mm"
                      " z_neutral_mm x_shear_centre_mm cell_area_mm2 mass_kgm");
    assert_near(number(json, "y_mm"), -300, 1e-9);
    /* 275 - 45 (300 - 170)/470 */
    assert_near(number(json, "chord_mm"), 275 - 45 * 130.0 / 470, 1e-6);
    static const char *const positive[] = {"ea_n",          "ei_flap_nm2", "ei_lead_nm2", "gj_nm2", "shear_stiffness_n",
                                           "cell_area_mm2", "mass_kgm"};
    for (size_t i = 0; i < sizeof positive / sizeof *positive; i++)
        assert_true(number(json, positive[i]) > 0);
    assert_true(number(json, "ei_lead_nm2") > number(json, "ei_flap_nm2"));
}

static void sections_of_both_halves_are_one(void **state)
{
    (void)state;
    struct run left = RUN("section", SAMPLE_PART, "--at", "-400", "--json");
    run = RUN("section", SAMPLE_PART, "--at", "400", "--json");
    parse(0);
    cJSON *other = cJSON_Parse(left.out);
    for (const cJSON *c = json->child->next; c; c = c->next)
        assert_near(number(other, c->string), c->valuedouble, 1e-9 * fabs(c->valuedouble));
    cJSON_Delete(other);
    run_free(&left);
}

static void assert_square(const cJSON *matrix, bool symmetric)
{
    double m[3][3];
    assert_int_equal(cJSON_GetArraySize(matrix), 3);
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++) {
            assert_int_equal(cJSON_GetArraySize(cJSON_GetArrayItem(matrix, i)), 3);
            m[i][j] = cJSON_GetArrayItem(cJSON_GetArrayItem(matrix, i), j)->valuedouble;
        }
    for (int i = 0; i < 3 && symmetric; i++)
        for (int j = 0; j < i; j++)
            assert_near(m[i][j], m[j][i], 1e-6 * (fabs(m[0][0]) + 1));
}

static void laminate_has_the_contracts_keys(void **state)
{
    (void)state;
    run = RUN("laminate", SAMPLE_PART, "--at", "0", "--side", "bottom", "--chord", "0.3", "--json");
    parse(0);
    assert_keys(json, "thickness_mm plies a_n_per_m b_n d_nm ex_gpa ey_gpa gxy_gpa nuxy");
    const cJSON *plies = member(json, "plies");
    double thickness = 0;
    assert_int_equal(cJSON_GetArraySize(plies), 8);  /* 2 skin, 5 cap, 1 skin */
    for (const cJSON *p = plies->child; p; p = p->next) {
        assert_keys(p, "item fabric angle_deg thickness_mm");
        thickness += number(p, "thickness_mm");
    }
    assert_string_equal(text(plies->child, "item"), "first skin");
    assert_string_equal(text(cJSON_GetArrayItem(plies, 7), "item"), "outer skin");
    assert_near(thickness, number(json, "thickness_mm"), 1e-9);
    /* 3 x 163/(2560 x 0.38) + 5 x 310/(2560 x 0.42), in micrometres */
    assert_near(thickness, 3 * 163 / (2.56 * 0.38) * 1e-3 + 5 * 310 / (2.56 * 0.42) * 1e-3, 1e-9);
    assert_square(member(json, "a_n_per_m"), true);
    assert_square(member(json, "b_n"), true);
    assert_square(member(json, "d_nm"), true);
}

static void angles_on_the_left_are_mirrored(void **state)
{
    (void)state;
    struct run right = RUN("laminate", SAMPLE_PART, "--at", "50", "--side", "top", "--chord", "0.6", "--json");
    run = RUN("laminate", SAMPLE_PART, "--at", "-50", "--side", "top", "--chord", "0.6", "--json");
    parse(0);
    cJSON *other = cJSON_Parse(right.out);
    const cJSON *r = member(other, "plies")->child;
    for (const cJSON *l = member(json, "plies")->child; l; l = l->next, r = r->next)
        assert_near(number(l, "angle_deg"), -number(r, "angle_deg"), 1e-9);
    assert_null(r);
    assert_near(number(json, "ex_gpa"), number(other, "ex_gpa"), 1e-9);
    cJSON_Delete(other);
    run_free(&right);
}

static void profile_has_the_contracts_keys(void **state)
{
    (void)state;
    run = RUN("profile", SAMPLE_PART, "--profile", "main", "--count", "101", "--json");
    parse(0);
    assert_keys(json, "points area thickness camber");
    const cJSON *points = member(json, "points");
    assert_int_equal(cJSON_GetArraySize(points), 101);
    const cJSON *tail = points->child, *nose = cJSON_GetArrayItem(points, 50);
    assert_true(cJSON_GetArrayItem(tail, 0)->valuedouble > 0.99 && cJSON_GetArrayItem(tail, 1)->valuedouble > 0);
    assert_near(cJSON_GetArrayItem(nose, 0)->valuedouble, 0, 1e-9);
    assert_near(number(json, "thickness"), 0.12, 1e-4);
    assert_near(number(json, "camber"), 0.06, 1e-6);
}

static void a_profile_of_points_is_printed_as_given(void **state)
{
    (void)state;
    run = RUN("profile", WHOLE_PART, "--profile", "flap section", "--json");
    parse(0);
    const cJSON *points = member(json, "points");
    assert_int_equal(cJSON_GetArraySize(points), 9);
    assert_near(cJSON_GetArrayItem(cJSON_GetArrayItem(points, 2), 1)->valuedouble, 0.09, 0);
    assert_near(number(json, "thickness"), 0.12, 1e-9);  /* 0.09 + 0.03 at x = 0.3 */
    assert_near(number(json, "camber"), 0.03, 1e-9);
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_teardown(test, release)
    const struct CMUnitTest tests[] = {
        TRIAL(check_has_the_contracts_keys),
        TRIAL(what_is_not_checked_is_said),
        TRIAL(variant_and_pinned_stand_only_where_they_belong),
        TRIAL(loads_follow_from_the_file),
        TRIAL(stations_run_from_tip_to_tip_with_what_stands_on_the_way),
        TRIAL(the_lowest_is_the_lowest_of_the_stations),
        TRIAL(shear_and_moment_are_in_balance),
        TRIAL(one_case_is_judged_with_the_mass),
        TRIAL(a_wing_too_heavy_for_its_limit_does_not_hold),
        TRIAL(warnings_are_sentences),
        TRIAL(section_has_the_contracts_keys),
        TRIAL(sections_of_both_halves_are_one),
        TRIAL(laminate_has_the_contracts_keys),
        TRIAL(angles_on_the_left_are_mirrored),
        TRIAL(profile_has_the_contracts_keys),
        TRIAL(a_profile_of_points_is_printed_as_given),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
