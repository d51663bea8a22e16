/* Rows to take from: the typical ones against the handbook's ranges, own ones against the table of fields. */
#include "catalogues.h"

#include <math.h>

#define RESINS PL_CATALOGUE_RESINS
#define CORES PL_CATALOGUE_CORES
#define METALS PL_CATALOGUE_METALS

/* An own file with these lists. */
static void put_own(const char *lists)
{
    char text[8000];
    make_own_folder();
    snprintf(text, sizeof text, "{\"format\": \"plyloft-catalogue\", \"version\": 1%s%s}\n", *lists ? ", " : "", lists);
    put(OWN, text);
}

#define REST "\"fibre_density_kgm3\": 2560, \"fibre_volume_fraction\": 0.4, \"e1_gpa\": 18, \"e2_gpa\": 18," \
             " \"g12_gpa\": 3, \"nu12\": 0.12, \"xt_mpa\": 250, \"xc_mpa\": 200, \"yt_mpa\": 250, \"yc_mpa\": 200," \
             " \"s_mpa\": 45, \"roll_width_mm\": 1000"
#define CLOTH(name, gsm) "{\"name\": \"" name "\", \"areal_weight_gsm\": " #gsm ", " REST "}"

/* ---- typical rows ---- */

struct range {
    const char *key;
    double least, most;
};

struct kind_of_row {
    enum pl_catalogue_group group;
    const char *name; /* its beginning */
    size_t rows;
    struct range ranges[10];
};

/* The trade's usual ranges for hand lay-up with epoxy, resins, cores and metals. */
static const struct kind_of_row usual[] = {
    {FABRICS, "glass plain", 4, {{"areal_weight_gsm", 100, 300}, {"fibre_density_kgm3", 2560, 2560},
     {"fibre_volume_fraction", .35, .42}, {"e1_gpa", 15, 19}, {"g12_gpa", 2.8, 3.6}, {"nu12", .11, .16},
     {"xt_mpa", 200, 280}, {"xc_mpa", 160, 230}, {"s_mpa", 38, 55}}},
    {FABRICS, "glass twill", 3, {{"areal_weight_gsm", 160, 390}, {"fibre_density_kgm3", 2560, 2560},
     {"fibre_volume_fraction", .37, .45}, {"e1_gpa", 16, 21}, {"g12_gpa", 2.8, 3.8}, {"nu12", .11, .16},
     {"xt_mpa", 220, 310}, {"xc_mpa", 180, 250}, {"s_mpa", 40, 55}}},
    {FABRICS, "glass uni", 3, {{"areal_weight_gsm", 200, 450}, {"fibre_density_kgm3", 2560, 2560},
     {"fibre_volume_fraction", .40, .48}, {"e1_gpa", 29, 36}, {"g12_gpa", 2.6, 3.4}, {"nu12", .26, .30},
     {"xt_mpa", 550, 750}, {"xc_mpa", 350, 500}, {"s_mpa", 35, 50}}},
    {FABRICS, "glass uni", 3, {{"e2_gpa", 7, 9}, {"yt_mpa", 25, 40}, {"yc_mpa", 90, 120}}},
    {FABRICS, "glass biaxial", 3, {{"areal_weight_gsm", 300, 600}, {"fibre_density_kgm3", 2560, 2560},
     {"fibre_volume_fraction", .40, .48}, {"e1_gpa", 17, 22}, {"g12_gpa", 2.8, 3.6}, {"nu12", .12, .16},
     {"xt_mpa", 250, 350}, {"xc_mpa", 210, 300}, {"s_mpa", 40, 55}}},
    {FABRICS, "carbon plain", 3, {{"areal_weight_gsm", 160, 250}, {"fibre_density_kgm3", 1780, 1780},
     {"fibre_volume_fraction", .40, .48}, {"e1_gpa", 43, 58}, {"g12_gpa", 3.0, 4.0}, {"nu12", .04, .08},
     {"xt_mpa", 400, 600}, {"xc_mpa", 280, 450}, {"s_mpa", 45, 65}}},
    {FABRICS, "carbon uni", 3, {{"areal_weight_gsm", 150, 300}, {"fibre_density_kgm3", 1780, 1780},
     {"fibre_volume_fraction", .42, .52}, {"e1_gpa", 95, 120}, {"g12_gpa", 3.0, 4.0}, {"nu12", .26, .32},
     {"xt_mpa", 1000, 1500}, {"xc_mpa", 500, 850}, {"s_mpa", 45, 65}}},
    {FABRICS, "carbon uni", 3, {{"e2_gpa", 5.5, 8}, {"yt_mpa", 22, 38}, {"yc_mpa", 90, 140}}},
    {RESINS, "slow epoxy, room", 1, {{"density_kgm3", 1080, 1180}, {"tg_dry_c", 48, 60}}},
    {RESINS, "slow epoxy, post", 1, {{"density_kgm3", 1080, 1180}, {"tg_dry_c", 75, 95}}},
    {RESINS, "fast epoxy, room", 1, {{"density_kgm3", 1080, 1180}, {"tg_dry_c", 48, 60}}},
    {RESINS, "fast epoxy, post", 1, {{"density_kgm3", 1080, 1180}, {"tg_dry_c", 75, 95}}},
    {RESINS, "polyester, room", 1, {{"density_kgm3", 1150, 1230}, {"tg_dry_c", 50, 65}}},
    {RESINS, "polyester, post", 1, {{"density_kgm3", 1150, 1230}, {"tg_dry_c", 65, 85}}},
    {RESINS, "vinylester, room", 1, {{"density_kgm3", 1080, 1150}, {"tg_dry_c", 60, 80}}},
    {RESINS, "vinylester, post", 1, {{"density_kgm3", 1080, 1150}, {"tg_dry_c", 95, 120}}},
    {CORES, "expanded polystyrene", 1, {{"density_kgm3", 15, 25}, {"e_mpa", 4, 9}, {"g_mpa", 2, 4},
     {"shear_strength_mpa", .08, .15}, {"compressive_strength_mpa", .08, .16}, {"max_c", 70, 70}}},
    {CORES, "extruded polystyrene", 1, {{"density_kgm3", 28, 38}, {"e_mpa", 10, 18}, {"g_mpa", 3.5, 7},
     {"shear_strength_mpa", .18, .28}, {"compressive_strength_mpa", .20, .40}, {"max_c", 70, 70}}},
    {CORES, "PVC 60", 1, {{"density_kgm3", 55, 65}, {"e_mpa", 60, 75}, {"g_mpa", 18, 22},
     {"shear_strength_mpa", .75, .90}, {"compressive_strength_mpa", .80, 1.0}, {"max_c", 65, 75}}},
    {CORES, "PVC 75", 1, {{"density_kgm3", 72, 82}, {"e_mpa", 80, 105}, {"g_mpa", 26, 31},
     {"shear_strength_mpa", 1.0, 1.2}, {"compressive_strength_mpa", 1.2, 1.5}, {"max_c", 65, 75}}},
    {CORES, "polyurethane", 1, {{"density_kgm3", 40, 60}, {"e_mpa", 8, 18}, {"g_mpa", 3, 6},
     {"shear_strength_mpa", .20, .35}, {"compressive_strength_mpa", .25, .50}, {"max_c", 90, 90}}},
    {CORES, "aramid honeycomb 46, ribbon along", 1, {{"density_kgm3", 29, 64}, {"e_mpa", 60, 200}, {"g_mpa", 25, 60},
     {"shear_strength_mpa", .6, 1.8}, {"compressive_strength_mpa", .9, 4.5}, {"max_c", 120, 120}}},
    {CORES, "aramid honeycomb 46, ribbon across", 1, {{"density_kgm3", 29, 64}, {"e_mpa", 60, 200}, {"g_mpa", 12.5, 30},
     {"shear_strength_mpa", .6, .6}, {"compressive_strength_mpa", .9, 4.5}, {"max_c", 120, 120}}},
    {CORES, "plastic honeycomb", 1, {{"density_kgm3", 65, 85}, {"e_mpa", 30, 70}, {"g_mpa", 8, 13},
     {"shear_strength_mpa", .4, .6}, {"compressive_strength_mpa", 1.1, 1.9}, {"max_c", 70, 70}}},
    {METALS, "aluminium 5083", 1, {{"e_gpa", 71, 71}, {"yield_mpa", 125, 145}, {"ultimate_mpa", 275, 275},
     {"density_kgm3", 2660, 2660}, {"bend_radius_t", 1.5, 1.5}}},
    {METALS, "aluminium 6061", 1, {{"e_gpa", 69, 69}, {"yield_mpa", 240, 275}, {"ultimate_mpa", 290, 310},
     {"density_kgm3", 2700, 2700}, {"bend_radius_t", 4, 4}}},
    {METALS, "aluminium 7075", 1, {{"e_gpa", 72, 72}, {"yield_mpa", 460, 500}, {"ultimate_mpa", 530, 570},
     {"density_kgm3", 2810, 2810}, {"bend_radius_t", 8, 8}}},
    {METALS, "mild steel", 1, {{"e_gpa", 210, 210}, {"yield_mpa", 275, 275}, {"ultimate_mpa", 410, 410},
     {"density_kgm3", 7850, 7850}, {"bend_radius_t", 1, 1}}},
};

enum { N_USUAL = sizeof usual / sizeof *usual };

/* The middle, or up to a tenth of it less; a weight is any within the range. */
static void check_ranges(const struct pl_catalogue *c, const struct kind_of_row *kind, size_t index)
{
    for (const struct range *r = kind->ranges; r->key; r++) {
        double value = pl_catalogue_number(c, kind->group, index, r->key), middle = (r->least + r->most) / 2;
        bool weight = !strcmp(r->key, "areal_weight_gsm");
        if (!(value >= r->least && value <= r->most))
            fail_msg("%s: %s is %g, outside of its range", pl_catalogue_name(c, kind->group, index), r->key, value);
        if (!weight && !(value <= middle * 1.000001 && value >= 0.9 * middle))
            fail_msg("%s: %s is %g, not about %g", pl_catalogue_name(c, kind->group, index), r->key, value, middle);
    }
}

static void typical_values_are_the_middle_of_the_usual_ranges(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    size_t checked[PL_CATALOGUE_GROUPS] = {0};
    for (size_t k = 0; k < N_USUAL; k++) {
        size_t rows = 0;
        for (size_t i = 0; i < pl_catalogue_count(c, usual[k].group); i++) {
            if (strncmp(pl_catalogue_name(c, usual[k].group, i), usual[k].name, strlen(usual[k].name)))
                continue;
            check_ranges(c, &usual[k], i);
            rows++;
        }
        assert_int_equal(rows, usual[k].rows);
        if (!strstr(usual[k].ranges[0].key, "e2_gpa")) /* the second line about a uni */
            checked[usual[k].group] += rows;
    }
    for (int g = 0; g < PL_CATALOGUE_GROUPS; g++)
        assert_int_equal(checked[g], pl_catalogue_count(c, (enum pl_catalogue_group)g));
    pl_catalogue_free(c);
}

static void a_typical_cloth_is_named_by_its_weight_and_balanced_unless_uni(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    for (size_t i = 0; i < pl_catalogue_count(c, FABRICS); i++) {
        const char *name = pl_catalogue_name(c, FABRICS, i);
        assert_close(strtod(strrchr(name, ' '), NULL), pl_catalogue_number(c, FABRICS, i, "areal_weight_gsm"), 0);
        assert_int_equal(strncmp(name, pl_catalogue_kind(c, FABRICS, i), strlen(pl_catalogue_kind(c, FABRICS, i))), 0);
        if (strstr(name, "uni"))
            continue;
        assert_close(pl_catalogue_number(c, FABRICS, i, "e2_gpa"), pl_catalogue_number(c, FABRICS, i, "e1_gpa"), 0);
        assert_close(pl_catalogue_number(c, FABRICS, i, "yt_mpa"), pl_catalogue_number(c, FABRICS, i, "xt_mpa"), 0);
        assert_close(pl_catalogue_number(c, FABRICS, i, "yc_mpa"), pl_catalogue_number(c, FABRICS, i, "xc_mpa"), 0);
    }
    pl_catalogue_free(c);
}

static void every_typical_row_would_do_as_an_own_one(void **state)
{
    (void)state;
    struct pl_catalogue *typical = load(), *own;
    char *text = calloc(1, 65536);
    assert_non_null(text);
    sprintf(text, "{\"format\": \"plyloft-catalogue\", \"version\": 1");
    for (enum pl_catalogue_group g = 0; g < PL_CATALOGUE_GROUPS; g++) {
        sprintf(text + strlen(text), ", \"%s\": [", pl_catalogue_group_key(g));
        for (size_t i = 0; i < pl_catalogue_count(typical, g); i++) {
            char *row = pl_catalogue_row(typical, g, i);
            sprintf(text + strlen(text), "%s%s", i ? ", " : "", row);
            assert_false(pl_catalogue_is_own(typical, g, i));
            free(row);
        }
        strcat(text, "]");
    }
    strcat(text, "}");
    put_own("");
    put(OWN, text);
    own = load(); /* no errors, and no warnings either */
    for (enum pl_catalogue_group g = 0; g < PL_CATALOGUE_GROUPS; g++) {
        assert_int_equal(pl_catalogue_count(own, g), pl_catalogue_count(typical, g));
        for (size_t i = 0; i < pl_catalogue_count(own, g); i++)
            assert_true(pl_catalogue_is_own(own, g, i));
    }
    free(text);
    pl_catalogue_free(own);
    pl_catalogue_free(typical);
}

static void rows_have_kinds_and_values_by_key(void **state)
{
    (void)state;
    struct pl_catalogue *c = load();
    assert_string_equal(pl_catalogue_kind(c, FABRICS, row_of(c, FABRICS, "carbon uni 200")), "carbon");
    assert_string_equal(pl_catalogue_kind(c, RESINS, row_of(c, RESINS, "slow epoxy, post-cured")), "epoxy");
    assert_string_equal(pl_catalogue_kind(c, CORES, row_of(c, CORES, "PVC 60")), "pvc");
    size_t bad = row_of(c, METALS, "aluminium 7075-T6");
    assert_string_equal(pl_catalogue_kind(c, METALS, bad), "metal");
    assert_string_equal(pl_catalogue_text(c, METALS, bad, "note"), "Do not bend, do not weld.");
    assert_string_equal(pl_catalogue_text(c, METALS, bad, "kind"), "");
    assert_true(isnan(pl_catalogue_number(c, METALS, bad, "max_c")));
    assert_string_equal(pl_catalogue_caution, "typical planning value, not a certificate");
    assert_string_equal(pl_catalogue_file(c), in_folder(OWN));
    assert_false(is_there("data")); /* nothing is made by looking */
    pl_catalogue_free(c);
}

/* ---- own rows ---- */

static void own_rows_come_first_and_win_over_typical_ones_of_their_name(void **state)
{
    (void)state;
    put_own("\"note\": \"mine\", \"fabrics\": [" CLOTH("hill cloth", 150) ", " CLOTH("glass plain 163", 160) "]");
    struct pl_catalogue *c = load();
    assert_string_equal(pl_catalogue_name(c, FABRICS, 0), "hill cloth");
    assert_string_equal(pl_catalogue_kind(c, FABRICS, 0), "other");
    assert_string_equal(pl_catalogue_name(c, FABRICS, 1), "glass plain 163");
    assert_close(pl_catalogue_number(c, FABRICS, 1, "areal_weight_gsm"), 160, 0);
    assert_true(pl_catalogue_is_own(c, FABRICS, 1));
    assert_false(pl_catalogue_is_own(c, FABRICS, 2));
    assert_int_equal(row_of(c, FABRICS, "glass plain 163"), 1);
    assert_int_equal(pl_catalogue_count(c, FABRICS), 20); /* 19 typical, one of them hidden, and 2 */
    char *row = pl_catalogue_row(c, FABRICS, 1);
    assert_string_equal(row, CLOTH("glass plain 163", 160));
    free(row);
    for (size_t i = 2; i < 20; i++)
        assert_string_not_equal(pl_catalogue_name(c, FABRICS, i), "glass plain 163");
    pl_catalogue_free(c);
}

struct wrong_file {
    const char *lists, *place, *rule, *found;
    enum pl_severity severity;
};

static void each_wrong_row_is_told_by_place_rule_and_value(void **state)
{
    (void)state;
    static const struct wrong_file table[] = {
        {"\"fabrics\": [{\"name\": \"a\", \"areal_weight_gsm\": -5, " REST "}]", "/fabrics/0/areal_weight_gsm",
         "must be above 0, at most 5000", "-5", PL_ERROR},
        {"\"fabrics\": [" CLOTH("a", 9) "]", "/fabrics/0/areal_weight_gsm", "is unusual: 80 to 650 is typical", "9",
         PL_WARNING},
        {"\"fabrics\": [{\"name\": \"a\", " REST "}]", "/fabrics/0/areal_weight_gsm", "is missing", "", PL_ERROR},
        {"\"fabrics\": [{\"areal_weight_gsm\": 100, " REST "}]", "/fabrics/0/name", "is missing", "", PL_ERROR},
        {"\"fabrics\": [" CLOTH("a", 100) ", 7]", "/fabrics/1", "must be an object", "7", PL_ERROR},
        {"\"fabrics\": [" CLOTH("a", 100) ", " CLOTH("b", 100) ", " CLOTH("a", 100) "]", "/fabrics/2/name",
         "names must be unique in their list", "\"a\"", PL_ERROR},
        {"\"fabrics\": [{\"name\": \"a\", \"areal_weight_gsm\": 100, \"price\": 3, " REST "}]", "/fabrics/0/price",
         "is not a key that this version knows; it is kept on saving", "", PL_WARNING},
        {"\"fabrics\": [{\"name\": \"a\", \"areal_weight_gsm\": 100, \"fibre_density_kgm3\": 2560,"
         " \"fibre_volume_fraction\": 0.4, \"e1_gpa\": 9, \"e2_gpa\": 80, \"g12_gpa\": 3, \"nu12\": 0.35,"
         " \"xt_mpa\": 250, \"xc_mpa\": 200, \"yt_mpa\": 250, \"yc_mpa\": 200, \"s_mpa\": 45,"
         " \"roll_width_mm\": 1000}]",
         "/fabrics/0/nu12", "must be below the root of e1_gpa over e2_gpa", "0.35", PL_ERROR},
        {"\"resins\": [{\"name\": \"a\", \"kind\": \"glue\", \"density_kgm3\": 1100,"
         " \"mix_ratio_by_weight\": [100, 30], \"pot_life_min\": 40, \"pot_life_at_c\": 25}]",
         "/resins/0/kind", "must be one of epoxy, polyester, vinylester", "\"glue\"", PL_ERROR},
        {"\"cores\": [{\"name\": \"a\", \"kind\": \"balsa\", \"density_kgm3\": 100,"
         " \"e_mpa\": \"soft\", \"g_mpa\": 100, \"shear_strength_mpa\": 1, \"compressive_strength_mpa\": 5}]",
         "/cores/0/e_mpa", "must be a number", "\"soft\"", PL_ERROR},
        {"\"metals\": [{\"name\": \"a\", \"e_gpa\": 70, \"yield_mpa\": 200, \"ultimate_mpa\": 100,"
         " \"density_kgm3\": 2700, \"bend_radius_t\": 1}]",
         "/metals/0/yield_mpa", "must not be above ultimate_mpa", "200", PL_ERROR},
        {"\"metals\": [{\"name\": \"\", \"e_gpa\": 70, \"yield_mpa\": 50, \"ultimate_mpa\": 100,"
         " \"density_kgm3\": 2700, \"bend_radius_t\": 1}]",
         "/metals/0/name", "must not be empty", "\"\"", PL_ERROR},
        {"\"metals\": [{\"name\": \"a\", \"e_gpa\": 0, \"yield_mpa\": 50, \"ultimate_mpa\": 100,"
         " \"density_kgm3\": 2700, \"bend_radius_t\": 1}]",
         "/metals/0/e_gpa", "must be above 0, at most 1000", "0", PL_ERROR},
        {"\"metals\": [{\"name\": \"a\", \"e_gpa\": 70, \"yield_mpa\": 50, \"ultimate_mpa\": 100,"
         " \"density_kgm3\": 2700}]",
         "/metals/0/bend_radius_t", "is missing", "", PL_ERROR},
        {"\"metals\": [{\"name\": \"a\", \"e_gpa\": 70, \"yield_mpa\": 50, \"ultimate_mpa\": 100,"
         " \"density_kgm3\": 2700, \"bend_radius_t\": 51, \"note\": \"\"}]",
         "/metals/0/bend_radius_t", "must be from 0 to 50", "51", PL_ERROR},
        {"\"metals\": [[]]", "/metals/0", "must be an object", "", PL_ERROR},
        {"\"cores\": {}", "/cores", "must be a list", "", PL_ERROR},
        {"\"glues\": []", "/glues", "is not a key that this version knows; it is kept", "", PL_WARNING},
    };
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct pl_problems problems = {0};
        struct pl_catalogue *c;
        put_own(table[i].lists);
        enum pl_status status = pl_catalogue_load(&c, &problems);
        assert_problem(&problems, table[i].severity, table[i].place, table[i].rule, table[i].found);
        assert_int_equal(status, table[i].severity == PL_ERROR ? PL_BAD_INPUT : PL_OK);
        pl_catalogue_free(c);
    }
}

static void a_wrong_row_is_left_out_and_the_right_ones_stay(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_catalogue *c;
    put_own("\"fabrics\": [" CLOTH("a", 100) ", " CLOTH("glass plain 163", -1) ", " CLOTH("c", 120) "]");
    assert_int_equal(pl_catalogue_load(&c, &problems), PL_BAD_INPUT);
    assert_problem(&problems, PL_ERROR, "/fabrics/1/areal_weight_gsm", "must be above 0, at most 5000", "-1");
    assert_int_equal(pl_catalogue_count(c, FABRICS), 21);
    assert_string_equal(pl_catalogue_name(c, FABRICS, 1), "c");
    char *row = pl_catalogue_row(c, FABRICS, 1);
    assert_string_equal(row, CLOTH("c", 120));
    free(row);
    assert_false(pl_catalogue_is_own(c, FABRICS, row_of(c, FABRICS, "glass plain 163")));
    pl_catalogue_free(c);
}

static void a_file_that_is_no_catalogue_leaves_the_typical_rows(void **state)
{
    (void)state;
    static const struct {
        const char *text, *place, *rule, *found;
    } table[] = {
        {"{\"format\": ", "line 1, column 12", "the file ends inside an object", ""},
        {"[]", "", "must be an object", ""},
        {"{}", "/format", "is missing", ""},
        {"{\"format\": \"plyloft-part\"}", "/format", "must be \"plyloft-catalogue\"", "\"plyloft-part\""},
        {"{\"format\": \"plyloft-catalogue\"}", "/version", "is missing", ""},
        {"{\"format\": \"plyloft-catalogue\", \"version\": 2}", "/version", "must be 1", "2"},
    };
    put_own("");
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct pl_problems problems = {0};
        struct pl_catalogue *c;
        put(OWN, table[i].text);
        assert_int_equal(pl_catalogue_load(&c, &problems), PL_BAD_INPUT);
        assert_problem(&problems, PL_ERROR, table[i].place, table[i].rule, table[i].found);
        assert_int_equal(pl_catalogue_count(c, FABRICS), 19);
        pl_catalogue_free(c);
    }
}

static void without_home_there_are_typical_rows_and_a_sentence(void **state)
{
    (void)state;
    struct pl_problems problems = {0};
    struct pl_catalogue *c;
    const char *why = "nothing can be kept: neither XDG_DATA_HOME nor HOME is set to an absolute path";
    unsetenv("HOME");
    unsetenv("XDG_DATA_HOME");
    assert_int_equal(pl_catalogue_load(&c, &problems), PL_CANNOT_READ);
    assert_problem(&problems, PL_ERROR, "", why, "");
    assert_null(pl_catalogue_file(c));
    assert_int_equal(pl_catalogue_count(c, METALS), 4);
    pl_catalogue_free(c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        IN_A_HOME(typical_values_are_the_middle_of_the_usual_ranges),
        IN_A_HOME(a_typical_cloth_is_named_by_its_weight_and_balanced_unless_uni),
        IN_A_HOME(every_typical_row_would_do_as_an_own_one),
        IN_A_HOME(rows_have_kinds_and_values_by_key),
        IN_A_HOME(own_rows_come_first_and_win_over_typical_ones_of_their_name),
        IN_A_HOME(each_wrong_row_is_told_by_place_rule_and_value),
        IN_A_HOME(a_wrong_row_is_left_out_and_the_right_ones_stay),
        IN_A_HOME(a_file_that_is_no_catalogue_leaves_the_typical_rows),
        IN_A_HOME(without_home_there_are_typical_rows_and_a_sentence),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
