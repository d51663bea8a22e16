/* Pieces to cut: their areas are the structure's, their sizes those of closed forms, and what cannot lie is told. */
#include "../part/trial.h"

#include "plyloft/check.h"
#include "plyloft/girth.h"
#include "plyloft/kit.h"

#include <math.h>
#include <string.h>

static struct pl_kit kit;

static int take_down(void **state)
{
    pl_kit_free(&kit);
    return release(state);
}

static void build(void)
{
    trial_build(&t);
    if (t.status != PL_OK)
        print_problems(&t);
    assert_int_equal(t.status, PL_OK);
    assert_int_equal(pl_kit_build(&kit, &t.part), PL_OK);
}

static bool warned(const char *words)
{
    for (size_t i = 0; i < kit.n_warnings; i++)
        if (strstr(kit.warnings[i], words))
            return true;
    return false;
}

static const char *const samples[] = {"samples/front-wing.json", "samples/rear-wing.json", "samples/narrow-wing.json",
                                      "samples/underbuilt.json", "samples/cantilever.json", "samples/two-element-wing.json"};

static void areas_are_the_structure_s_on_all_samples(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof samples / sizeof *samples; i++) {
        struct pl_solve *solve = pl_solve_new();
        trial_close(&t);
        trial_open(&t, samples[i]);
        build();
        assert_int_equal(pl_solve_run(solve, &t.part, &t.problems), PL_OK);
        const struct pl_verdict *v = pl_solve_verdict(solve);
        for (size_t c = 0; c < kit.n_cloths; c++) {
            const struct pl_kit_cloth *cloth = &kit.cloths[c];
            assert_close(cloth->area_m2, v->cloths[cloth->fabric].area_m2, 1e-3);
        }
        pl_solve_free(solve);
    }
}

static void every_piece_has_a_mark_of_its_own_in_laying_order(void **state)
{
    (void)state;
    build();
    size_t layers = 0;
    for (size_t i = 0; i < kit.n_pieces; i++) {
        const struct pl_kit_piece *p = &kit.pieces[i];
        assert_int_equal(p->order, i + 1);
        size_t layer = strtoul(p->mark, NULL, 10);
        assert_true(layer == layers || layer == layers + 1);
        layers = layer;
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(p->mark, kit.pieces[k].mark);
    }
    size_t plies = 0;
    for (size_t k = 0; k < t.part.elements[0].n_layup; k++)
        plies += (size_t)t.part.elements[0].layup[k].plies;
    assert_int_equal(layers, plies);
}

/* The cantilever is a straight tube of one chord: girth and span are the same everywhere. */
static void sizes_as_cut_are_those_as_laid_and_what_is_added(void **state)
{
    (void)state;
    trial_close(&t);
    trial_open(&t, "samples/cantilever.json");
    put(&t, "/shed", "{\"trim_mm\": 17, \"nose_overlap_mm\": 31, \"tail_overlap_mm\": 9}");
    build();
    for (size_t i = 0; i < kit.n_pieces; i++) {
        const struct pl_kit_piece *p = &kit.pieces[i];
        const struct pl_layup_item *item = &t.part.elements[0].layup[p->item];
        double added = pl_given(item->centre_at) ? 0 : (item->chord_from <= 0) * 0.031 + (item->chord_to >= 1) * 0.009;
        assert_close(p->area_m2, p->length_m * p->width_m, 1e-9);
        assert_close(p->cut_length_m, p->length_m + 2 * 0.017, 1e-9);
        assert_close(p->cut_width_m, p->width_m + added, 1e-9);
        assert_close(p->cloth_kg, p->cut_length_m * p->cut_width_m * t.part.fabrics[p->fabric].areal_weight_kg_m2, 1e-12);
    }
}

/* ---- hands ---- */

#define SKIN "/elements/0/layup/0"

static void a_balanced_cloth_at_45_is_one_piece_across(void **state)
{
    (void)state;
    build();
    assert_int_equal(kit.pieces[0].hand, PL_WHOLE);
    assert_false(kit.pieces[0].cut_mirrored || kit.pieces[0].join_left || kit.pieces[0].join_right);
}

/* Sum of a layer's area on one side, and its pieces. */
static double layer_area(const char *layer, enum pl_side side, size_t *n)
{
    double sum = 0;
    *n = 0;
    for (size_t i = 0; i < kit.n_pieces; i++) {
        const struct pl_kit_piece *p = &kit.pieces[i];
        if (strtoul(p->mark, NULL, 10) != strtoul(layer, NULL, 10) || p->side != side)
            continue;
        sum += p->area_m2;
        (*n)++;
    }
    return sum;
}

static void threads_that_a_mirror_tells_apart_are_cut_by_hands(void **state)
{
    (void)state;
    static const struct { const char *angle; size_t pieces; } trials[] = {{"30", 2}, {"-15", 2}, {"0", 1}, {"90", 1}, {"45", 1}, {"-45", 1}};
    size_t n;
    build();
    double whole = layer_area("1", PL_TOP, &n);
    for (size_t i = 0; i < sizeof trials / sizeof *trials; i++) {
        put(&t, SKIN "/angle_deg", trials[i].angle);
        build();
        assert_close(layer_area("1", PL_TOP, &n), whole, 1e-9);
        assert_int_equal(n, trials[i].pieces);
    }
    put(&t, SKIN "/angle_deg", "30");
    build();
    const struct pl_kit_piece *left = &kit.pieces[0], *right = &kit.pieces[1];  /* bottom */
    assert_int_equal(left->hand, PL_LEFT_HAND);
    assert_int_equal(right->hand, PL_RIGHT_HAND);
    assert_true(left->join_right && right->join_left && !left->join_left && !right->join_right);
    assert_close(left->angle_rad, -right->angle_rad, 1e-12);
    assert_close(left->thread_rad, -right->thread_rad, 1e-12);
    assert_true(left->cut_mirrored != right->cut_mirrored);
    /* Seen on the outside the lower left is as the upper right. */
    assert_close(left->thread_rad, kit.pieces[3].thread_rad, 1e-12);
    assert_int_equal(kit.pieces[3].hand, PL_RIGHT_HAND);
    assert_int_equal(kit.pieces[3].side, PL_TOP);
    assert_close(left->to_m, right->from_m, 1e-12);
    /* The join of the second layer lies 50 mm aside. */
    const struct pl_kit_piece *second = &kit.pieces[4];
    assert_close(second->to_m - left->to_m, 0.05, 1e-9);
}

static void a_pair_is_two_pieces_of_one_size(void **state)
{
    (void)state;
    build();
    for (size_t i = 1; i < kit.n_pieces; i++) {
        const struct pl_kit_piece *a = &kit.pieces[i - 1], *b = &kit.pieces[i];
        if (a->hand != PL_LEFT_HAND || b->hand != PL_RIGHT_HAND)
            continue;
        assert_close(a->area_m2, b->area_m2, 1e-9);
        assert_close(a->cut_length_m, b->cut_length_m, 1e-9);
        assert_close(a->from_m, -b->to_m, 1e-12);
    }
}

/* ---- rolls ---- */

static void what_is_too_long_for_its_roll_is_joined_and_a_cap_is_not(void **state)
{
    (void)state;
    size_t n;
    build();
    double whole = layer_area("1", PL_TOP, &n);
    put(&t, "/fabrics/0/roll_width_mm", "700");
    build();
    assert_close(layer_area("1", PL_TOP, &n), whole, 1e-9);
    assert_true(n >= 2);
    assert_true(warned("too long for its roll"));
    for (size_t i = 0; i < kit.n_pieces; i++)
        assert_true(kit.pieces[i].fits);
    put(&t, "/fabrics/1/roll_width_mm", "50");  /* the caps are 72 wide */
    build();
    assert_true(warned("top cap: does not fit its roll of 50 mm"));
    size_t out = 0;
    for (size_t i = 0; i < kit.n_pieces; i++)
        out += !kit.pieces[i].fits;
    assert_true(out > 0);
}

static double chance(void)
{
    return rand() / (RAND_MAX + 1.0);
}

/* Odd sheds, angles and rolls: areas stay, pieces fit or are told, and rolls hold what they say. */
static void whatever_the_kit_areas_stay(void **state)
{
    (void)state;
    char value[64];
    double whole = 0;
    srand(3);
    build();
    for (size_t i = 0; i < kit.n_pieces; i++)
        whole += kit.pieces[i].area_m2;
    for (int trial = 0; trial < 60; trial++) {
        snprintf(value, sizeof value, "%.0f", -90 + 180 * chance());
        put(&t, SKIN "/angle_deg", value);
        snprintf(value, sizeof value, "%.0f", 40 + 1500 * chance());
        put(&t, "/fabrics/0/roll_width_mm", value);
        snprintf(value, sizeof value, "{\"trim_mm\": %.0f, \"join_mm\": %.0f, \"spacing_mm\": %.0f}", 60 * chance(), 80 * chance(), 30 * chance());
        put(&t, "/shed", value);
        build();
        double sum = 0;
        for (size_t i = 0; i < kit.n_pieces; i++) {
            const struct pl_kit_piece *p = &kit.pieces[i];
            sum += p->area_m2;
            assert_true(p->to_m > p->from_m && p->area_m2 > 0 && p->cut_length_m > 0 && p->cut_width_m > 0);
            assert_true(p->fits || warned("does not fit its roll"));
        }
        assert_close(sum, whole, 1e-9);
        for (size_t c = 0; c < kit.n_cloths; c++)
            assert_true(kit.cloths[c].nest.used >= 0 && kit.cloths[c].nest.used <= 1);
    }
}

/* ---- drape ---- */

static void the_nose_s_radius_is_naca_s(void **state)
{
    (void)state;
    static const struct { const char *naca; double radius; } noses[] = {{"\"0012\"", 0.015867}, {"\"0018\"", 0.035702}, {"\"0008\"", 0.007052}};
    for (size_t i = 0; i < sizeof noses / sizeof *noses; i++) {  /* 1.1019 t^2 (Abbott and von Doenhoff) */
        struct pl_loft loft;
        struct pl_arena arena = {0};
        struct pl_loft_place place;
        put(&t, "/profiles/0/naca", noses[i].naca);
        trial_build(&t);
        assert_true(pl_loft_build(&loft, &t.part, &t.part.elements[0], &arena));
        double *scratch = pl_arena_take(&arena, 4 * loft.count, sizeof *scratch);
        pl_loft_at(&loft, 0, scratch, &place);
        assert_close(pl_loft_nose_radius_m(&loft, &place) / place.chord_m, noses[i].radius, 0.07);
        pl_arena_free(&arena);
    }
}

static void a_sharp_nose_is_told_with_its_cloth_s_limit(void **state)
{
    (void)state;
    build();
    assert_false(warned("sharper than"));
    put(&t, "/profiles/0/naca", "\"6406\"");
    build();
    assert_true(warned("first skin: nose of"));
    assert_true(warned("the 3 mm that its cloth wraps"));
    struct pl_fabric uni = {.fibre = PL_CARBON, .e1_pa = 110e9, .e2_pa = 7e9}, glass = {.fibre = PL_GLASS, .e1_pa = 31e9, .e2_pa = 8e9};
    assert_close(pl_wrap_radius_m(&uni, 0), 0.003, 1e-12);
    assert_close(pl_wrap_radius_m(&uni, M_PI_2), 0.009, 1e-12);
    assert_close(pl_wrap_radius_m(&glass, 0.3), 0.004, 1e-12);
}

/* A bowl: thickness and chord close in over the last tenth of the span, as a ball's would. */
static void double_curvature_is_told(void **state)
{
    (void)state;
    build();
    assert_false(warned("double curvature"));
    char stations[1200] = "[";
    for (int i = 0; i <= 8; i++) {
        double angle = M_PI_2 * i / 8.2, half = 300 * cos(angle);
        snprintf(stations + strlen(stations), sizeof stations - strlen(stations),
                 "%s{\"y_mm\": %.2f, \"chord_mm\": %.2f, \"x_le_mm\": %.2f, \"z_le_mm\": 0, \"twist_deg\": 0, \"profile\": \"main\"}", i ? ", " : "", 300 * sin(angle),
                 2 * half, 300 - half);
    }
    strcat(stations, "]");
    put(&t, "/elements/0/stations", stations);
    put(&t, "/profiles/0/naca", "\"0060\"");
    put(&t, "/elements/0/mounts", "[{\"name\": \"post\", \"y_mm\": 0, \"hold\": \"clamped\"}]");
    put(&t, "/elements/0/layup", "[{\"name\": \"skin\", \"fabric\": \"glass plain 163\", \"angle_deg\": 45, \"plies\": 1, \"side\": \"both\", \"chord_from\": 0, \"chord_to\": 1}]");
    put(&t, "/load_cases", "[]");
    put(&t, "/limits", "{}");
    build();
    assert_true(warned("double curvature shears its threads"));
}

int main(void)
{
#define TRIAL(test) cmocka_unit_test_setup_teardown(test, fresh, take_down)
    const struct CMUnitTest tests[] = {
        TRIAL(areas_are_the_structure_s_on_all_samples),
        TRIAL(every_piece_has_a_mark_of_its_own_in_laying_order),
        TRIAL(sizes_as_cut_are_those_as_laid_and_what_is_added),
        TRIAL(a_balanced_cloth_at_45_is_one_piece_across),
        TRIAL(threads_that_a_mirror_tells_apart_are_cut_by_hands),
        TRIAL(a_pair_is_two_pieces_of_one_size),
        TRIAL(what_is_too_long_for_its_roll_is_joined_and_a_cap_is_not),
        TRIAL(whatever_the_kit_areas_stay),
        TRIAL(the_nose_s_radius_is_naca_s),
        TRIAL(a_sharp_nose_is_told_with_its_cloth_s_limit),
        TRIAL(double_curvature_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
