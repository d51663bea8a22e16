/* plyloft kit and plyloft plybook: the contract's keys, tables, files of every kind, and what they refuse. */
#include "program.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <sys/stat.h>
#include <unistd.h>

static const cJSON *get(const cJSON *object, const char *key)
{
    const cJSON *item = cJSON_GetObjectItemCaseSensitive(object, key);
    if (!item)
        fail_msg("no %s", key);
    return item;
}

static double number(const cJSON *object, const char *key)
{
    return get(object, key)->valuedouble;
}

static void the_kit_has_the_contract_s_keys(void **state)
{
    (void)state;
    struct run run = RUN("kit", SAMPLE_PART, "--json");
    assert_status(&run, 0);
    cJSON *json = cJSON_Parse(run.out);
    const cJSON *pieces = get(json, "pieces"), *resin = get(json, "resin"), *piece, *batch;
    static const char *const texts[] = {"mark", "item", "fabric", "side", "element"};
    static const char *const numbers[] = {"angle_deg", "length_mm", "width_mm", "area_m2", "cut_length_mm", "cut_width_mm", "order"};
    double plain = 0, mixed = 0;
    cJSON_ArrayForEach(piece, pieces)
    {
        for (size_t k = 0; k < sizeof texts / sizeof *texts; k++)
            assert_true(cJSON_IsString(get(piece, texts[k])));
        for (size_t k = 0; k < sizeof numbers / sizeof *numbers; k++)
            assert_true(cJSON_IsNumber(get(piece, numbers[k])));
        if (!strcmp(get(piece, "fabric")->valuestring, "glass plain 163"))
            plain += number(piece, "area_m2");
    }
    /* Two skins inside of 289 and 277 mm at the root on 1280, one outside, two pairs of wraps. */
    assert_int_equal(cJSON_GetArraySize(pieces), 25);
    const cJSON *cloth = cJSON_GetArrayItem(get(json, "cloth"), 0);
    assert_close(number(cloth, "area_m2"), plain, 1e-9);
    assert_true(number(cloth, "roll_length_mm") > 1000 && number(cloth, "used_fraction") > 0.5 && number(cloth, "used_fraction") <= 1);
    cJSON_ArrayForEach(batch, get(resin, "batches"))
    {
        mixed += number(batch, "mixed_kg");
        assert_true(number(batch, "minutes") > 0 && cJSON_IsArray(get(batch, "pieces")));
    }
    assert_close(number(resin, "mixed_kg"), mixed, 1e-9);
    assert_close(number(resin, "resin_kg") + number(resin, "hardener_kg"), mixed, 1e-9);
    assert_close(number(get(json, "ready_to_race"), "structure_kg"), 1.259, 1e-3);
    cJSON_Delete(json);
    run_free(&run);
}

static void the_tables_are_whole(void **state)
{
    (void)state;
    struct run run = RUN("kit", SAMPLE_PART);
    assert_status(&run, 0);
    static const char *const words[] = {"pieces, in laying order", "1A   first skin", "buy m", "by volume 100 to 36.2", "spare", "weigh before starting",
                                        "ready to race", "over the limit of 1.3 kg", "caution: Epoxy"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        assert_has(run.out, words[i]);
    run_free(&run);
    run = RUN("plybook", SAMPLE_PART);
    assert_status(&run, 0);
    assert_has(run.out, "[ ]   1  mix");
    assert_has(run.out, "lay 16B");
    run_free(&run);
    run = RUN("plybook", SAMPLE_PART, "--json");
    assert_status(&run, 0);
    cJSON *json = cJSON_Parse(run.out);
    assert_int_equal(cJSON_GetArraySize(get(json, "steps")), 28);  /* 25 pieces, 3 cups */
    cJSON_Delete(json);
    run_free(&run);
}

static void csv_has_a_line_a_piece_of_as_many_fields(void **state)
{
    (void)state;
    struct run run = RUN("kit", SAMPLE_PART, "--csv");
    assert_status(&run, 0);
    size_t lines = 0;
    for (const char *line = run.out; *line; line = strstr(line, "\r\n") + 2, lines++) {
        size_t commas = 0;
        bool quoted = false;
        for (const char *c = line; *c != '\r' || quoted; c++) {
            quoted = quoted != (*c == '"');
            commas += *c == ',' && !quoted;
        }
        assert_int_equal(commas, 12);
    }
    assert_int_equal(lines, 26);
    run_free(&run);
}

static void files_are_of_the_kind_their_names_end_in(void **state)
{
    (void)state;
    static const struct { const char *command, *ending, *begins; } kinds[] = {
        {"kit", ".pdf", "%PDF-"}, {"kit", ".svg", "<?xml"}, {"kit", ".json", "{"}, {"kit", ".csv", "mark,"}, {"kit", ".txt", "pieces"},
        {"plybook", ".pdf", "%PDF-"}, {"plybook", ".csv", "step,"}, {"plybook", ".txt", "hill-climb"},
    };
    char folder[] = "/tmp/plyloft-kit-XXXXXX", path[64], bytes[16] = "";
    assert_non_null(mkdtemp(folder));
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        snprintf(path, sizeof path, "%s/a%s", folder, kinds[i].ending);
        struct run run = RUN(kinds[i].command, SAMPLE_PART, "-o", path);
        assert_status(&run, 0);
        assert_string_equal(run.out, "");
        FILE *f = fopen(path, "rb");
        assert_non_null(f);
        assert_true(fread(bytes, 1, strlen(kinds[i].begins), f) == strlen(kinds[i].begins));
        assert_memory_equal(bytes, kinds[i].begins, strlen(kinds[i].begins));
        fclose(f);
        unlink(path);
        run_free(&run);
    }
    assert_int_equal(rmdir(folder), 0);
}

static void what_cannot_be_written_is_refused(void **state)
{
    (void)state;
    struct run run = RUN("kit", SAMPLE_PART, "-o", "kit.doc");
    assert_status(&run, 2);
    assert_has(run.err, "must end in .txt, .json, .csv, .pdf or .svg (found kit.doc)");
    run_free(&run);
    run = RUN("plybook", SAMPLE_PART, "-o", "book.svg");
    assert_status(&run, 2);
    assert_has(run.err, "must end in .txt, .json, .csv or .pdf");
    run_free(&run);
    run = RUN("kit", SAMPLE_PART, "-o", "/nonesuch/kit.pdf");
    assert_status(&run, 4);
    assert_has(run.err, "/nonesuch/kit.pdf");
    run_free(&run);
    run = RUN("kit", SAMPLE_PART, "--json", "--csv");
    assert_status(&run, 2);
    run_free(&run);
    run = RUN("kit");
    assert_status(&run, 2);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_kit_has_the_contract_s_keys), cmocka_unit_test(the_tables_are_whole),
        cmocka_unit_test(csv_has_a_line_a_piece_of_as_many_fields), cmocka_unit_test(files_are_of_the_kind_their_names_end_in),
        cmocka_unit_test(what_cannot_be_written_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
