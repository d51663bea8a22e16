/* plyloft polar: its table, its --json, and what it refuses. */
#include "program.h"

#include <cjson/cJSON.h>
#include <math.h>

#define POLAR(...) RUN("polar", SAMPLE_PART, "--profile", "main", __VA_ARGS__)

static void assert_quiet(const struct run *run)
{
    assert_status(run, 0);
    assert_string_equal(run->err, "");
}

static size_t lines_of(const char *text)
{
    size_t n = 0;
    for (; *text; text++)
        n += *text == '\n';
    return n;
}

/* ---- the table ---- */

static void table_has_a_line_for_each_incidence(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "6e5", "--from", "0", "--to", "6", "--step", "2");
    assert_quiet(&run);
    assert_has(run.out, "main, Reynolds number 600000, free air\n");
    assert_has(run.out, "incidence");
    assert_has(run.out, "potential");
    assert_has(run.out, "moment");
    assert_has(run.out, "drag");
    assert_has(run.out, "turbulent from");
    assert_has(run.out, "leaves");
    assert_int_equal(lines_of(run.out), 7);
    assert_has(run.out, "\n     0.00");
    assert_has(run.out, "\n     6.00");
    assert_has(run.out, "0.779");  /* without layers, at 0 degrees; the contract's reference has 0.7789 */
    run_free(&run);
}

static void table_marks_and_explains_doubts(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "2e5", "--from", "14", "--to", "14", "--step", "1");
    assert_quiet(&run);
    assert_has(run.out, "\ns: ");
    assert_has(run.out, "\nr: ");
    assert_has_not(run.out, "\ng: ");
    run_free(&run);
    run = POLAR("--reynolds", "6e6", "--from", "2", "--to", "2", "--step", "1");
    assert_quiet(&run);
    assert_int_equal(lines_of(run.out), 4);  /* nothing to explain */
    run_free(&run);
}

static void table_explains_each_mark_once(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "2e5", "--from", "0", "--to", "4", "--step", "1");
    assert_quiet(&run);
    const char *first = strstr(run.out, "\nr: ");
    assert_non_null(first);
    assert_null(strstr(first + 1, "\nr: "));
    run_free(&run);
}

static void table_says_the_ground(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "6e5", "--from", "2", "--to", "2", "--step", "1", "--height", "0.5");
    assert_quiet(&run);
    assert_has(run.out, "inverted, trailing edge 0.5 chords above the ground; lift presses down");
    assert_has_not(run.out, "\ng: ");
    run_free(&run);
    run = POLAR("--reynolds", "6e5", "--from", "0", "--to", "0", "--step", "1", "--height", "0.15");
    assert_quiet(&run);
    assert_has(run.out, "\ng: ");
    run_free(&run);
}

static void table_names_the_greatest_lift_when_it_was_passed(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "6e5", "--from", "0", "--to", "28", "--step", "4");
    assert_quiet(&run);
    assert_has(run.out, "*\n");
    assert_has(run.out, "\n*: greatest lift\n");
    run_free(&run);
    run = POLAR("--reynolds", "6e5", "--from", "0", "--to", "8", "--step", "4");
    assert_has_not(run.out, "greatest lift");
    run_free(&run);
}

static void table_fits_eighty_columns(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "1e5", "--from", "-30", "--to", "30", "--step", "10");
    assert_quiet(&run);
    for (const char *line = run.out; *line;) {
        size_t length = strcspn(line, "\n");
        if (line[1] != ':')
            assert_in_range(length, 0, 80);
        line += length + 1;
    }
    assert_has_not(run.out, "nan");
    assert_has_not(run.out, "inf");
    run_free(&run);
}

/* ---- --json ---- */

static const char keys[] = "alpha_deg cl cm cd cl_potential cm_potential turbulent_from_upper turbulent_from_lower separated ";

static cJSON *rows_of(const struct run *run, size_t count)
{
    cJSON *json = cJSON_Parse(run->out), *rows = cJSON_GetObjectItemCaseSensitive(json, "rows");
    assert_non_null(json);
    assert_true(cJSON_IsArray(rows));
    assert_int_equal(cJSON_GetArraySize(rows), count);
    for (const cJSON *row = rows->child; row; row = row->next) {
        char got[300] = "";
        for (const cJSON *c = row->child; c; c = c->next) {
            snprintf(got + strlen(got), sizeof got - strlen(got), "%s ", c->string);
            assert_true(strcmp(c->string, "separated") ? cJSON_IsNumber(c) : cJSON_IsBool(c));
        }
        assert_string_equal(got, keys);
    }
    return json;
}

static double figure(const cJSON *json, int row, const char *key)
{
    return cJSON_GetObjectItemCaseSensitive(cJSON_GetArrayItem(json->child, row), key)->valuedouble;
}

static void json_has_the_contracts_keys_and_figures(void **state)
{
    (void)state;
    /* front-wing.flow-expect.json beside the contract: cl 0.7789 and 1.2605, cm -0.1665 and -0.1740, cd 0.01107 and 0.01119 */
    struct run run = POLAR("--reynolds", "600000", "--from", "0", "--to", "4", "--step", "4", "--json");
    assert_quiet(&run);
    cJSON *json = rows_of(&run, 2);
    assert_close(figure(json, 1, "alpha_deg"), 4, 1e-12);
    assert_close(figure(json, 0, "cl_potential"), 0.77889757, 5e-3);
    assert_close(figure(json, 1, "cl_potential"), 1.2605145, 5e-3);
    assert_close(figure(json, 0, "cm_potential"), -0.16649186, 5e-3);
    assert_close(figure(json, 1, "cm_potential"), -0.17401459, 5e-3);
    assert_close(figure(json, 0, "cd"), 0.01106867, 0.03);
    assert_close(figure(json, 1, "cd"), 0.011186716, 0.03);
    cJSON_Delete(json);
    run_free(&run);
}

static void json_near_the_ground_is_the_contracts(void **state)
{
    (void)state;
    struct run run = POLAR("--reynolds", "6e5", "--from", "2", "--to", "2", "--step", "1", "--height", "0.5", "--json");
    assert_quiet(&run);
    cJSON *json = rows_of(&run, 1);
    assert_close(figure(json, 0, "cl_potential"), 1.5963236, 5e-3);
    assert_close(figure(json, 0, "cm_potential"), -0.26380781, 5e-3);
    assert_close(figure(json, 0, "cd"), 0.01662473, 0.03);
    cJSON_Delete(json);
    run_free(&run);
}

static void steps_count_the_end_in_and_stop_before_it_is_passed(void **state)
{
    (void)state;
    static const struct { const char *from, *to, *step; size_t rows; double last; } cases[] = {
        {"0", "1", "0.1", 11, 1}, {"0", "1", "0.3", 4, 0.9}, {"-2", "-2", "5", 1, -2}, {"-1", "1", "1e0", 3, 1}, {"0", "0.05", "1", 1, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct run run = POLAR("--reynolds", "1e6", "--from", cases[i].from, "--to", cases[i].to, "--step", cases[i].step, "--json");
        assert_quiet(&run);
        cJSON *json = rows_of(&run, cases[i].rows);
        assert_true(fabs(figure(json, (int)cases[i].rows - 1, "alpha_deg") - cases[i].last) < 1e-12);
        cJSON_Delete(json);
        run_free(&run);
    }
}

static void options_may_stand_in_any_order_and_with_an_equals_sign(void **state)
{
    (void)state;
    struct run one = POLAR("--reynolds", "1e6", "--from", "-2", "--to", "2", "--step", "2", "--json");
    struct run other = RUN("polar", "--json", "--step=2", "--to=2", "--from=-2", "--reynolds=1000000", SAMPLE_PART, "--profile=main");
    assert_quiet(&one);
    assert_quiet(&other);
    assert_string_equal(one.out, other.out);
    run_free(&one);
    run_free(&other);
}

static void part_may_come_on_standard_input(void **state)
{
    (void)state;
    struct run run = RUN_ON(SAMPLE_PART, "polar", "-", "--profile", "main", "--reynolds", "1e6", "--from", "0", "--to", "0", "--step", "1");
    assert_quiet(&run);
    run_free(&run);
}

/* ---- refusals ---- */

static void assert_refused(struct run run, int status, const char *words)
{
    assert_status(&run, status);
    assert_string_equal(run.out, "");
    assert_has(run.err, words);
    run_free(&run);
}

#define USAGE(words, ...) assert_refused(POLAR(__VA_ARGS__), 2, words)

static void options_out_of_range_are_bad_usage(void **state)
{
    (void)state;
    USAGE("--reynolds: must be from 1e4 to 1e9", "--reynolds", "0", "--from", "0", "--to", "1", "--step", "1");
    USAGE("--reynolds: must be from 1e4 to 1e9", "--reynolds", "-6e5", "--from", "0", "--to", "1", "--step", "1");
    USAGE("--reynolds: must be from 1e4 to 1e9", "--reynolds", "9999", "--from", "0", "--to", "1", "--step", "1");
    USAGE("--reynolds: must be from 1e4 to 1e9", "--reynolds", "1.1e9", "--from", "0", "--to", "1", "--step", "1");
    USAGE("--from and --to: must be from -90 to 90 degrees", "--reynolds", "1e6", "--from", "-91", "--to", "1", "--step", "1");
    USAGE("--from and --to: must be from -90 to 90 degrees", "--reynolds", "1e6", "--from", "0", "--to", "90.1", "--step", "1");
    USAGE("--step: must be above 0", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "0");
    USAGE("--step: must be above 0", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "-1");
    USAGE("--to: must not be below --from", "--reynolds", "1e6", "--from", "2", "--to", "1", "--step", "1");
    USAGE("--step: makes more than 2000 rows", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1e-4");
    USAGE("--step: makes more than 2000 rows", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1e-300");
    USAGE("--height: must be above 0, in chords", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1", "--height", "0");
    USAGE("--height: must be above 0, in chords", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1", "--height", "-1");
    USAGE("--height: must be above 0, in chords", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1", "--height", "1e7");
}

static void options_that_are_no_numbers_are_bad_usage(void **state)
{
    (void)state;
    static const char *const words[] = {"", "nan", "inf", "1e6x", "six", "1,5", "--", "1e999", "0x10"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        USAGE("--reynolds: must be a number", "--reynolds", words[i], "--from", "0", "--to", "1", "--step", "1");
        USAGE("--from: must be a number", "--reynolds", "1e6", "--from", words[i], "--to", "1", "--step", "1");
        USAGE("--to: must be a number", "--reynolds", "1e6", "--from", "0", "--to", words[i], "--step", "1");
        USAGE("--step: must be a number", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", words[i]);
        USAGE("--height: must be a number", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1", "--height", words[i]);
    }
}

static void missing_options_are_bad_usage(void **state)
{
    (void)state;
    USAGE("--reynolds: is missing", "--from", "0", "--to", "1", "--step", "1");
    USAGE("--from: is missing", "--reynolds", "1e6", "--to", "1", "--step", "1");
    USAGE("--to: is missing", "--reynolds", "1e6", "--from", "0", "--step", "1");
    USAGE("--step: is missing", "--reynolds", "1e6", "--from", "0", "--to", "1");
    assert_refused(RUN("polar", SAMPLE_PART, "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1"), 2, "--profile: is missing");
    assert_refused(RUN("polar"), 2, "needs a part file");
    USAGE("--speed: is not an option", "--speed", "5");
    USAGE("usage: plyloft polar PART --profile NAME", "--reynolds", "1e6");
}

static void unknown_profile_is_bad_input(void **state)
{
    (void)state;
    assert_refused(RUN("polar", SAMPLE_PART, "--profile", "flap", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1"), 3, "flap");
    assert_refused(RUN("polar", SAMPLE_PART, "--profile", "", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1"), 3, "");
}

static void touching_the_ground_is_bad_input(void **state)
{
    (void)state;
    assert_refused(POLAR("--reynolds", "6e5", "--from", "0", "--to", "4", "--step", "2", "--height", "0.05"), 3,
                   "at 0 degrees: the section touches or crosses the ground");
    /* The nose comes down as the incidence falls: nothing is printed of the rows before. */
    assert_refused(POLAR("--reynolds", "6e5", "--from", "-2", "--to", "20", "--step", "2", "--height", "0.085"), 3, "touches or crosses");
}

static void part_that_cannot_be_read_is_4(void **state)
{
    (void)state;
    assert_refused(RUN("polar", "nowhere.json", "--profile", "main", "--reynolds", "1e6", "--from", "0", "--to", "1", "--step", "1"), 4,
                   "cannot be opened");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(table_has_a_line_for_each_incidence),
        cmocka_unit_test(table_marks_and_explains_doubts),
        cmocka_unit_test(table_explains_each_mark_once),
        cmocka_unit_test(table_says_the_ground),
        cmocka_unit_test(table_names_the_greatest_lift_when_it_was_passed),
        cmocka_unit_test(table_fits_eighty_columns),
        cmocka_unit_test(json_has_the_contracts_keys_and_figures),
        cmocka_unit_test(json_near_the_ground_is_the_contracts),
        cmocka_unit_test(steps_count_the_end_in_and_stop_before_it_is_passed),
        cmocka_unit_test(options_may_stand_in_any_order_and_with_an_equals_sign),
        cmocka_unit_test(part_may_come_on_standard_input),
        cmocka_unit_test(options_out_of_range_are_bad_usage),
        cmocka_unit_test(options_that_are_no_numbers_are_bad_usage),
        cmocka_unit_test(missing_options_are_bad_usage),
        cmocka_unit_test(unknown_profile_is_bad_input),
        cmocka_unit_test(touching_the_ground_is_bad_input),
        cmocka_unit_test(part_that_cannot_be_read_is_4),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
