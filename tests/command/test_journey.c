/* What a builder does from one end to the other, through `plyloft screen` alone: from the wing on one post to a
 * different wing with three load cases, a cloth of its own and a profile from a coordinate file, saved under a new
 * name; and the newcomer's first five minutes with the under-built wing. */
#include "program.h"

#include "plyloft/document.h"

static void press(const char *part, const char *keys, const char *shown)
{
    const char *words[] = {"screen", part, "--size", "80x24", "--keys", keys, NULL};
    struct run run = run_with(NULL, NULL, words);
    assert_status(&run, 0);
    assert_has(run.out, shown);
    run_free(&run);
}

static struct run check(const char *part, bool json)
{
    const char *words[] = {"check", part, json ? "--json" : NULL, NULL};
    return run_with(NULL, NULL, words);
}

static void copy_file(const char *from, const char *to)
{
    size_t length;
    char *bytes = read_whole_file(from, &length);
    write_whole_file(to, bytes, length);
    free(bytes);
}

/* The outline of a NACA 6412 as the program lists it, with a title line. */
static void write_coordinates(const char *path)
{
    const char *words[] = {"profile", SAMPLE_PART, "--profile", "main", "--count", "61", NULL};
    struct run run = run_with(NULL, NULL, words);
    assert_status(&run, 0);
    write_whole_file(path, run.out, strlen(run.out));  /* its first line names the profile */
    run_free(&run);
}

static struct pl_document *read_document(const char *path)
{
    struct pl_problems problems = {0};
    struct pl_document *doc;
    size_t length;
    char *bytes = read_whole_file(path, &length);
    assert_int_equal(pl_document_read(&doc, bytes, length, &problems), PL_OK);
    free(bytes);
    pl_problems_free(&problems);
    return doc;
}

static double number_at(const struct pl_document *doc, const char *pointer)
{
    pl_node node = pl_document_find(doc, pointer);
    assert_true(node != PL_NO_NODE);
    return pl_node_number(doc, node);
}

static void a_different_wing_is_made_from_the_one_on_one_post(void **state)
{
    (void)state;
    char *part = in_scratch("post.json"), *made = in_scratch("made.json"), *points = in_scratch("points.dat"), *keys;
    copy_file("samples/narrow-wing.json", part);
    write_coordinates(points);
    assert_true(asprintf(&keys,
                         "1 Down Enter 400 Enter Right Enter 160 Enter "               /* longer, narrower at the tip */
                         "Tab p text:%s Enter Enter "                                  /* the profile, drawn, taken */
                         "2 Tab Tab Tab a Tab Enter shed-cloth Enter Down Down Enter 6 Space oz/yd2 Enter "
                         "BackTab BackTab BackTab BackTab "                            /* back to the lay-up */
                         "Right Right Right Right Right Right Right Right Enter s Enter "
                         "Home Down Down Left Left Left Left Left Left Left Left + "   /* a ply more in the top cap */
                         "3 Down Delete Home Tab Down Down Down Enter 1,8 Enter "      /* three cases, a factor */
                         "w text:%s Enter", points, made) > 0);
    press(part, keys, "saved");
    struct pl_document *doc = read_document(made);
    assert_close(number_at(doc, "/elements/0/stations/1/y_mm"), 400, 0);
    assert_close(number_at(doc, "/elements/0/stations/1/chord_mm"), 160, 0);
    assert_close(number_at(doc, "/load_cases/0/factor"), 1.8, 0);
    assert_close(number_at(doc, "/elements/0/layup/2/plies"), 5, 0);
    /* 6 oz/yd2 = 6 x 28.349523 g / 0.83612736 m2 */
    assert_close(number_at(doc, "/fabrics/1/areal_weight_gsm"), 6 * 28.349523 / 0.83612736, 1e-6);
    assert_int_equal(pl_node_count(doc, pl_document_find(doc, "/load_cases")), 3);
    assert_int_equal(pl_node_count(doc, pl_document_find(doc, "/profiles/0/points")), 61);
    assert_string_equal(pl_node_text(doc, pl_document_find(doc, "/elements/0/layup/0/fabric")), "shed-cloth");
    pl_document_free(doc);
    struct run run = check(made, false);
    assert_true(run.status == 0 || run.status == 1);
    char verdict[64];
    assert_int_equal(sscanf(strstr(run.out, "lowest reserve "), "lowest reserve %60[0-9.]", verdict), 1);
    press(made, "4", verdict);  /* the screen says the same */
    run_free(&run);
    free(keys);
    free(points);
    free(made);
    free(part);
}

static void the_under_built_wing_is_mended_saved_and_taken_back(void **state)
{
    (void)state;
    char *part = in_scratch("weak.json");
    copy_file(WEAK_PART, part);
    press(part, "", "FALLS SHORT");
    press(part, "Down Down + + + Down + + Ctrl-S", "WING HOLDS");
    struct run run = check(part, false);
    assert_status(&run, 0);
    run_free(&run);
    /* What one run did another cannot undo, but the same keys and as many undos leave the file as it was. */
    copy_file(WEAK_PART, part);
    press(part, "Down Down + + + Down + + u u Ctrl-S", "saved");
    size_t length, weak_length;
    char *bytes = read_whole_file(part, &length), *weak = read_whole_file(WEAK_PART, &weak_length);
    assert_int_equal(length, weak_length);
    assert_memory_equal(bytes, weak, length);
    free(weak);
    free(bytes);
    free(part);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_different_wing_is_made_from_the_one_on_one_post, scratch_make, scratch_remove),
        cmocka_unit_test_setup_teardown(the_under_built_wing_is_mended_saved_and_taken_back, scratch_make, scratch_remove),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
