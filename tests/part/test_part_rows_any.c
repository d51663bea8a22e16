/* Any edits of rows in any order, of whole parts and broken ones, and without memory. */
#include "rows.h"

#include "../../src/part/json.h"

/* Memory that src/part asks for runs out at this call of many; 0: never. */
static size_t asked, failing_at;

void *pl_part_memory(void *old, size_t size)
{
    return failing_at && ++asked == failing_at ? NULL : realloc(old, size);
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
        cmocka_unit_test(random_edits_leave_json_that_undo_takes_back),
        cmocka_unit_test(random_edits_of_a_broken_part_leave_json),
        cmocka_unit_test(without_memory_nothing_is_changed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
