/* plyloft flow: its figures against the contract's, its table, and what it refuses. */
#include "program.h"

#include <cjson/cJSON.h>
#include <math.h>

static cJSON *json_of(struct run *run)
{
    assert_status(run, 0);
    assert_string_equal(run->err, "");
    cJSON *json = cJSON_Parse(run->out);
    assert_non_null(json);
    return json;
}

static double number(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    if (!cJSON_IsNumber(item))
        fail_msg("no number %s", key);
    return item->valuedouble;
}

static void front_wing_has_the_contract_s_figures(void **state)
{
    (void)state;
    struct run run = RUN("flow", SAMPLE_PART, "--case", "top speed", "--json");
    cJSON *json = json_of(&run);
    /* The contract's front-wing.flow-expect.json; its profile drag 0.00919104 of S. */
    assert_close(number(json, "lift_coefficient"), 0.87716191, 3e-4);
    assert_close(number(json, "induced_drag_coefficient"), 0.01986795, 1e-3);
    assert_close(number(json, "force_n"), 559.92594, 3e-4);
    assert_close(number(json, "drag_n"), 18.549463, 5e-3);
    assert_close(number(json, "centre_of_pressure"), 0.45666051, 2e-3);
    assert_close(number(json, "profile_drag_coefficient"), 0.0091910403, 1e-2);
    assert_true(number(json, "plate_friction_coefficient") == 0);
    assert_true(number(json, "force_n_limited") < number(json, "force_n"));  /* layers take more than thickness gives */
    assert_close(number(json, "allowance"), number(json, "force_n_limited") / number(json, "force_n"), 1e-9);
    cJSON_Delete(json);
    run_free(&run);
}

static void stations_run_from_left_to_right_and_sum_to_the_force(void **state)
{
    (void)state;
    struct run run = RUN("flow", SAMPLE_PART, "--case", "top speed", "--json");
    cJSON *json = json_of(&run), *stations = cJSON_GetObjectItemCaseSensitive(json, "stations");
    int n = cJSON_GetArraySize(stations);
    double before = -640, sum = 0, y[64], force[64];
    assert_int_equal(n, 64);
    for (int i = 0; i < n; i++) {
        const cJSON *s = cJSON_GetArrayItem(stations, i);
        y[i] = number(s, "y_mm");
        force[i] = number(s, "force_n_per_m");
        assert_true(y[i] > before);
        before = y[i];
        /* force = q c cl, q 1929.4 Pa: chord 275 to 170 mm, then down to 230 at 640. */
        double chord_m = fabs(y[i]) < 170 ? 0.275 : 0.275 - 0.045 * (fabs(y[i]) - 170) / 470;
        assert_close(force[i], 1929.4 * chord_m * number(s, "cl"), 1e-4);
    }
    for (int i = 0; i < n; i++) {
        assert_close(y[i], -y[n - 1 - i], 1e-9);
        assert_close(force[i], force[n - 1 - i], 1e-9);
        int k = i < 32 ? 31 - i : i - 32;
        sum += force[i] * 0.640 * (sin(M_PI_2 * (k + 1) / 32) - sin(M_PI_2 * k / 32));
    }
    assert_close(sum, number(json, "force_n"), 1e-6);
    cJSON_Delete(json);
    run_free(&run);
}

static void the_table_says_both_totals_and_the_strips(void **state)
{
    (void)state;
    struct run run = RUN("flow", SAMPLE_PART, "--case", "top speed");
    assert_status(&run, 0);
    assert_has(run.out, "205 km/h, 70 mm above the ground");
    assert_has(run.out, "thin lattice      limited");
    assert_has(run.out, "allowance 0.94");
    assert_has(run.out, "main, right half");
    assert_has(run.out, "Planning figures");
    for (const char *line = run.out; *line; line = strchr(line, '\n') + 1)
        assert_true(strcspn(line, "\n") <= 96);
    run_free(&run);
}

static void other_kinds_and_unknown_names_are_refused(void **state)
{
    (void)state;
    struct run run = RUN("flow", SAMPLE_PART, "--case", "pit jack");
    assert_status(&run, 3);
    assert_has(run.err, "/load_cases/1/kind: must be downforce");
    assert_string_equal(run.out, "");
    run_free(&run);
    run = RUN("flow", SAMPLE_PART, "--case", "nonesuch");
    assert_status(&run, 3);
    assert_has(run.err, "nonesuch");
    run_free(&run);
    run = RUN("flow", SAMPLE_PART);
    assert_status(&run, 2);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(front_wing_has_the_contract_s_figures),
        cmocka_unit_test(stations_run_from_left_to_right_and_sum_to_the_force),
        cmocka_unit_test(the_table_says_both_totals_and_the_strips),
        cmocka_unit_test(other_kinds_and_unknown_names_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
