/* plyloft setting: rows over what is asked, the sheet, and what it refuses. */
#include "program.h"

#include <cjson/cJSON.h>
#include <math.h>

static double number(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    if (!cJSON_IsNumber(item))
        fail_msg("no number %s", key);
    return item->valuedouble;
}

static void every_setting_asked_has_a_row_and_every_incidence_its_brackets(void **state)
{
    (void)state;
    struct run run = RUN("setting", SAMPLE_PART, "--case", "top speed", "--speed", "100..200:100", "--height", "60,90", "--incidence", "1", "--json");
    assert_status(&run, 0);
    assert_string_equal(run.err, "");
    cJSON *json = cJSON_Parse(run.out), *rows = cJSON_GetObjectItem(json, "rows"), *brackets = cJSON_GetObjectItem(json, "brackets");
    assert_int_equal(cJSON_GetArraySize(rows), 4);
    assert_int_equal(cJSON_GetArraySize(brackets), 2);
    static const double speeds[] = {100, 200, 100, 200}, heights[] = {60, 60, 90, 90};
    for (int i = 0; i < 4; i++) {
        const cJSON *row = cJSON_GetArrayItem(rows, i);
        assert_close(number(row, "speed_kmh"), speeds[i], 1e-12);
        assert_close(number(row, "ride_height_mm"), heights[i], 1e-12);
        assert_close(number(row, "incidence_deg"), 1, 1e-12);
        assert_close(number(row, "force_over_drag"), number(row, "force_n_limited") / number(row, "drag_n_limited"), 1e-9);
        assert_null(cJSON_GetObjectItem(row, "front_axle_n"));  /* the part has no car */
    }
    /* The lattice knows no Reynolds number: four times the force at twice the speed; nearer the ground more of it. */
    assert_close(number(cJSON_GetArrayItem(rows, 1), "force_n"), 4 * number(cJSON_GetArrayItem(rows, 0), "force_n"), 1e-9);
    assert_true(number(cJSON_GetArrayItem(rows, 0), "force_n") > 1.02 * number(cJSON_GetArrayItem(rows, 2), "force_n"));
    assert_close(number(cJSON_GetArrayItem(brackets, 0), "block_mm"), 275 * sin(M_PI / 180), 1e-9);
    cJSON_Delete(json);
    run_free(&run);
}

static void the_table_has_the_sheet_and_the_caution(void **state)
{
    (void)state;
    struct run run = RUN("setting", SAMPLE_PART, "--case", "top speed", "--incidence", "-2,0,6");
    assert_status(&run, 0);
    assert_has(run.out, "setting sheet, heights over the ground");
    assert_has(run.out, "28.7 nose");   /* 275 sin 6 */
    assert_has(run.out, " 9.6 tail");
    assert_has(run.out, "6.99 behind");  /* 100 tan 4 */
    assert_has(run.out, "left bracket");
    assert_has(run.out, "Planning figures");
    for (const char *line = run.out; *line; line = strchr(line, '\n') + 1)
        assert_true(*line != ' ' || strcspn(line, "\n") <= 96);  /* rows of the tables */
    run_free(&run);
}

static void what_makes_no_list_is_refused(void **state)
{
    (void)state;
    static const struct { const char *option, *value, *rule; } wrong[] = {
        {"--speed", "", "numbers with commas"}, {"--speed", "80,,90", "numbers with commas"}, {"--speed", "80..90:", "FROM..TO:STEP"},
        {"--speed", "90..80:5", "rising"}, {"--speed", "80..90:0", "rising"}, {"--speed", "80..90:nan", "rising"}, {"--speed", "1..900", "at most 100"},
        {"--speed", "0", "from 1 to 1000 km/h"}, {"--height", "-5", "from 1 to 100000 mm"}, {"--incidence", "91", "from -90 to 90 degrees"},
        {"--incidence", "two", "numbers with commas"}, {"--height", "1e999", "numbers with commas"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct run run = RUN("setting", SAMPLE_PART, "--case", "top speed", wrong[i].option, wrong[i].value);
        assert_status(&run, 2);
        assert_string_equal(run.out, "");
        assert_has(run.err, wrong[i].option);
        assert_has(run.err, wrong[i].rule);
        run_free(&run);
    }
    struct run run = RUN("setting", SAMPLE_PART, "--case", "top speed", "--speed", "1..90", "--height", "1..90");
    assert_status(&run, 2);
    assert_has(run.err, "8100 rows");
    run_free(&run);
    run = RUN("setting", SAMPLE_PART, "--case", "pit jack");
    assert_status(&run, 3);
    assert_has(run.err, "must be downforce");
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_setting_asked_has_a_row_and_every_incidence_its_brackets),
        cmocka_unit_test(the_table_has_the_sheet_and_the_caution),
        cmocka_unit_test(what_makes_no_list_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
