/* Cloth of a part: the area laid and what it weighs, as the structure weighs it. */
#include "../structure/tubes.h"
#include "storeys.h"

#include <string.h>

/* A slab 20 mm deep with a pointed nose 2 mm long, of 100 mm chord and 1000 mm span. */
#define SLAB "'points': [[1, 0.1], [0.5, 0.1], [0.02, 0.1], [0, 0], [0.02, -0.1], [0.5, -0.1], [1, -0.1]]"

/* Round the flats and the nose on the core surface: 2 (98 + sqrt(2^2 + 10^2)) mm. */
static double slab_girth_m(void)
{
    return 2e-3 * (98 + sqrt(104));
}

static const char *say_strip(const char *name, int plies, double centre_at, double width_mm, const char *more)
{
    return say("{'name': '%s', 'fabric': 'uni', 'angle_deg': 0, 'plies': %d, 'side': 'top', 'centre_at': %g,"
               " 'width_mm': %g%s}", name, plies, centre_at, width_mm, more);
}

/* The slab, skinned with two plies of plain cloth, and strips of uni. */
static void make_slab(struct wing *w, const char *strips)
{
    struct wing_text text = straight_text(SLAB, 100, 500);
    text.layup = say("%s%s%s", say_skin("plain", 0, 2), *strips ? ", " : "", strips);
    wing_make(w, &text);
}

static const struct pl_cloth_result *cloth(const struct wing *w, const char *fabric)
{
    for (size_t i = 0; i < w->verdict->n_cloths; i++)
        if (!strcmp(w->part.fabrics[i].name, fabric))
            return &w->verdict->cloths[i];
    fail_msg("there is no cloth %s", fabric);
    return NULL;
}

static void a_skin_of_one_chord_is_girth_times_span_a_ply(void **state)
{
    (void)state;
    struct wing w;
    make_slab(&w, "");
    const struct pl_cloth_result *plain = cloth(&w, "plain");
    assert_close(plain->area_m2, 2 * slab_girth_m() * 1.0, 1e-12);
    /* t x (fibre + resin): 163 g/m2 of fibre, and what the resin fills: 163/2560/0.38 mm x 0.62 of it. */
    double ply_kg_m2 = 0.163 + 0.163 / 2560 / 0.38 * (1 - 0.38) * 1150;
    assert_close(plain->mass_kg, plain->area_m2 * ply_kg_m2, 1e-12);
    assert_close(plain->mass_kg + w.verdict->elements[0].core_mass_kg, w.verdict->mass_kg, 1e-12);
    wing_free(&w);
}

static void a_cloth_that_nothing_is_cut_from_has_no_area(void **state)
{
    (void)state;
    struct wing w;
    make_slab(&w, "");
    assert_int_equal(w.verdict->n_cloths, w.part.n_fabrics);
    assert_true(cloth(&w, "uni")->area_m2 == 0 && cloth(&w, "uni")->mass_kg == 0);
    wing_free(&w);
}

static void a_strip_that_drops_off_is_each_of_its_pieces(void **state)
{
    (void)state;
    struct wing w;
    make_slab(&w, say_strip("cap", 3, 0.5, 40, ", 'drop_mm': 85"));
    /* On the flat: 40 mm x 2 x (500 + 415 + 330) mm. */
    assert_close(cloth(&w, "uni")->area_m2, 0.040 * 2 * (0.500 + 0.415 + 0.330), 1e-12);
    wing_free(&w);
}

static void both_of_a_mirrored_pair_count(void **state)
{
    (void)state;
    struct wing w;
    make_slab(&w, say_strip("patch", 2, 0.5, 40, ", 'from_mm': 100, 'half_length_mm': 240, 'drop_mm': 15"));
    /* The longer from 100 to 240 mm, the other from 115 to 225, left and right. */
    assert_close(cloth(&w, "uni")->area_m2, 0.040 * 2 * (0.140 + 0.110), 1e-12);
    wing_free(&w);
}

static void a_strip_past_the_chord_counts_as_clipped(void **state)
{
    (void)state;
    struct wing w;
    make_slab(&w, say_strip("tail", 1, 0.9, 40, ""));
    /* 20 mm ahead of its middle and 10 behind, where the chord ends. */
    assert_close(cloth(&w, "uni")->area_m2, 0.030 * 1.0, 1e-9);
    wing_free(&w);
}

/* A taper takes the mean girth: the girth is linear in y, and so is a trapezium. */
static void a_tapered_skin_is_the_mean_girth_times_span(void **state)
{
    (void)state;
    struct wing w;
    struct wing_text text = straight_text(SLAB, 100, 500);
    text.stations = "{'y_mm': 0, 'chord_mm': 100, 'x_le_mm': 0, 'z_le_mm': 0, 'twist_deg': 0, 'profile': 'section'},"
                    "{'y_mm': 500, 'chord_mm': 60, 'x_le_mm': 9, 'z_le_mm': 4, 'twist_deg': 3, 'profile': 'section'}";
    text.layup = say_skin("plain", 0, 1);
    wing_make(&w, &text);
    assert_close(cloth(&w, "plain")->area_m2, 0.8 * slab_girth_m() * 1.0, 1e-12);
    wing_free(&w);
}

/* Every element brings its own, wet with its own resin. */
static void cloth_and_cores_are_the_mass_of_the_part(void **state)
{
    (void)state;
    struct wing w, alone;
    struct wing_text text = two_resins();
    wing_make(&w, &text);
    wing_make(&alone, &front_wing);
    const struct pl_verdict *v = w.verdict;
    double mass_kg = v->elements[0].core_mass_kg + v->elements[1].core_mass_kg;
    for (size_t i = 0; i < v->n_cloths; i++)
        mass_kg += v->cloths[i].mass_kg;
    assert_close(mass_kg, v->mass_kg, 1e-12);
    double main_m2 = cloth(&alone, "plain")->area_m2, flap_m2 = cloth(&w, "plain")->area_m2 - main_m2;
    double light = 0.163 + 0.163 / 2560 / 0.38 * 0.62 * 1150, heavy = 0.163 + 0.163 / 2560 / 0.38 * 0.62 * 1300;
    assert_close(cloth(&w, "plain")->mass_kg, light * main_m2 + heavy * flap_m2, 1e-12);
    wing_free(&w);
    wing_free(&alone);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_skin_of_one_chord_is_girth_times_span_a_ply),
        cmocka_unit_test(a_cloth_that_nothing_is_cut_from_has_no_area),
        cmocka_unit_test(a_strip_that_drops_off_is_each_of_its_pieces),
        cmocka_unit_test(both_of_a_mirrored_pair_count),
        cmocka_unit_test(a_strip_past_the_chord_counts_as_clipped),
        cmocka_unit_test(a_tapered_skin_is_the_mean_girth_times_span),
        cmocka_unit_test(cloth_and_cores_are_the_mass_of_the_part),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
