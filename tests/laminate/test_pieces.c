/* Cloth pieces counted by hand. */
#include "../part_text.h"
#include "../support.h"

#include "plyloft/pieces.h"

#include <math.h>

struct cut_cloth {
    struct wing wing;
    struct pl_arena arena;
    struct pl_cloth cloth;
};

static void cut_make(struct cut_cloth *c, const struct wing_text *text)
{
    wing_build(&c->wing, text);
    c->arena = (struct pl_arena){0};
    assert_true(pl_cloth_build(&c->cloth, &c->wing.part.elements[0], &c->arena));
}

static void cut_free(struct cut_cloth *c)
{
    pl_arena_free(&c->arena);
    wing_free(&c->wing);
}

enum { FIRST_SKIN, WRAP, TOP_CAP, BOTTOM_CAP, OUTER_SKIN };

static void the_front_wing_is_cut_as_drawn(void **state)
{
    (void)state;
    struct cut_cloth c;
    cut_make(&c, &front_wing);
    /* 2 + 2 + 6 + 5 + 1 plies */
    assert_int_equal(c.cloth.count, 16);
    static const size_t first[] = {0, 2, 4, 10, 15, 16};
    for (size_t i = 0; i < 6; i++)
        assert_int_equal(c.cloth.first[i], first[i]);
    static const double top_to[] = {0.290, 0.360, 0.430, 0.500, 0.570, 0.640};
    for (size_t i = 0; i < 6; i++) {
        const struct pl_piece *p = &c.cloth.pieces[c.cloth.first[TOP_CAP] + i];
        assert_close(p->to_m, top_to[i], 1e-12);
        assert_true(p->from_m == 0 && p->item == TOP_CAP && p->ply == (int)i);
    }
    const struct pl_piece *wrap = &c.cloth.pieces[c.cloth.first[WRAP]];
    assert_close(wrap[0].from_m, 0.115, 1e-12);  /* laid first, shorter at either end */
    assert_close(wrap[0].to_m, 0.225, 1e-12);
    assert_close(wrap[1].from_m, 0.100, 1e-12);  /* last laid, the longest */
    assert_close(wrap[1].to_m, 0.240, 1e-12);
    assert_close(c.cloth.pieces[0].to_m, 0.640, 1e-12);
    cut_free(&c);
}

static void plies_at_a_place_are_those_whose_pieces_cover_it(void **state)
{
    (void)state;
    struct cut_cloth c;
    cut_make(&c, &front_wing);
    static const struct { double y_m; size_t top, bottom, wrap; } counts[] = {
        {0, 6, 5, 0}, {0.099, 6, 5, 0}, {0.105, 6, 5, 1}, {0.170, 6, 5, 2}, {0.230, 6, 5, 1}, {0.250, 6, 5, 0},
        {0.301, 5, 4, 0}, {0.365, 4, 4, 0}, {0.400, 4, 3, 0}, {0.500, 3, 2, 0}, {0.5001, 2, 2, 0}, {0.600, 1, 1, 0},
        {0.640, 1, 1, 0}};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        assert_int_equal(pl_cloth_plies_at(&c.cloth, TOP_CAP, counts[i].y_m, PL_HERE), counts[i].top);
        assert_int_equal(pl_cloth_plies_at(&c.cloth, BOTTOM_CAP, counts[i].y_m, PL_HERE), counts[i].bottom);
        assert_int_equal(pl_cloth_plies_at(&c.cloth, WRAP, counts[i].y_m, PL_HERE), counts[i].wrap);
        assert_int_equal(pl_cloth_plies_at(&c.cloth, FIRST_SKIN, counts[i].y_m, PL_HERE), 2);
    }
    cut_free(&c);
}

static void a_piece_covers_its_own_end_and_not_what_is_beyond(void **state)
{
    (void)state;
    struct cut_cloth c;
    cut_make(&c, &front_wing);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, TOP_CAP, 0.430, PL_HERE), 4);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, TOP_CAP, 0.430, PL_INBOARD), 4);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, TOP_CAP, 0.430, PL_OUTBOARD), 3);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, WRAP, 0.100, PL_INBOARD), 0);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, WRAP, 0.100, PL_HERE), 1);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, WRAP, 0.100, PL_OUTBOARD), 1);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, OUTER_SKIN, 0.640, PL_INBOARD), 1);
    assert_int_equal(pl_cloth_plies_at(&c.cloth, OUTER_SKIN, 0, PL_INBOARD), 1);
    cut_free(&c);
}

static void a_strip_is_measured_on_the_chord_line_and_clipped_there(void **state)
{
    (void)state;
    struct pl_layup_item strip = {
        .chord_from = (double)NAN, .chord_to = (double)NAN, .centre_at = 0.3, .width_m = 0.072};
    double from, to;
    bool clipped;
    pl_item_edges(&strip, 0.240, &from, &to, &clipped);
    assert_close(from, 0.15, 1e-12);
    assert_close(to, 0.45, 1e-12);
    assert_false(clipped);
    pl_item_edges(&strip, 0.100, &from, &to, &clipped);  /* -0.06 to 0.66 */
    assert_true(from == 0 && clipped);
    assert_close(to, 0.66, 1e-12);
    strip.centre_at = 0.9;
    pl_item_edges(&strip, 0.240, &from, &to, &clipped);
    assert_true(to == 1 && clipped);
    struct pl_layup_item whole = {.chord_from = 0, .chord_to = 1, .centre_at = (double)NAN, .width_m = (double)NAN};
    pl_item_edges(&whole, 0.240, &from, &to, &clipped);
    assert_true(from == 0 && to == 1 && !clipped);
}

static void an_item_on_both_sides_is_on_either(void **state)
{
    (void)state;
    struct pl_layup_item item = {.side = PL_BOTH};
    assert_true(pl_item_on_side(&item, PL_TOP) && pl_item_on_side(&item, PL_BOTTOM));
    item.side = PL_BOTTOM;
    assert_true(!pl_item_on_side(&item, PL_TOP) && pl_item_on_side(&item, PL_BOTTOM));
}

static double mass_of(const struct wing_text *text, double *core_kg)
{
    struct wing w;
    wing_make(&w, text);
    double mass = w.verdict->mass_kg;
    if (core_kg)
        *core_kg = w.verdict->elements[0].core_mass_kg;
    wing_free(&w);
    return mass;
}

/* A wing whose core is a slab of 300 x 0.3 mm with a blunt nose: girth 600.3 mm. */
#define SLAB "{'name': 'section', 'points': [[1, 0.0005], [1e-6, 0.0005], [0, 0], [1e-6, -0.0005], [1, -0.0005]]}"

static void mass_of_a_drop_off_is_that_of_its_pieces(void **state)
{
    (void)state;
    struct wing_text text = {.profiles = SLAB};
    text.layup = "{'name': 'skin', 'fabric': 'plain', 'angle_deg': 0, 'plies': 1, 'side': 'both', 'chord_from': 0,"
                 " 'chord_to': 1}";
    double bare = mass_of(&text, NULL);
    text.layup = say("%s, {'name': 'cap', 'fabric': 'uni', 'angle_deg': 0, 'plies': 3, 'side': 'top',"
                     " 'centre_at': 0.5, 'width_mm': 50, 'half_length_mm': 400, 'drop_mm': 60}", text.layup);
    /* 50 mm x (800 + 680 + 560) mm of 0.28832 mm at 2560 x 0.42 + 1150 x 0.58 kg/m3 */
    double areal = 0.310 / (2560 * 0.42) * (2560 * 0.42 + 1150 * 0.58);
    assert_close(mass_of(&text, NULL) - bare, 0.050 * 2.040 * areal, 1e-6);
    text.layup = say("%s, {'name': 'patch', 'fabric': 'uni', 'angle_deg': 0, 'plies': 2, 'side': 'bottom',"
                     " 'chord_from': 0.5, 'chord_to': 0.75, 'half_length_mm': 300, 'from_mm': 100, 'drop_mm': 30}",
                     text.layup);
    /* pairs: 75 mm x 2 x (200 + 140) mm more */
    assert_close(mass_of(&text, NULL) - bare, (0.050 * 2.040 + 0.075 * 0.680) * areal, 1e-6);
}

static void mass_is_core_and_cloth(void **state)
{
    (void)state;
    struct wing_text text = {.profiles = SLAB};
    double core, all = mass_of(&text, &core);
    /* 300 x 0.3 mm x 1280 mm of 33 kg/m3; three plies all round */
    assert_close(core, 0.3 * 0.3e-3 * 1.28 * 33, 1e-5);
    double areal = 3 * 0.163 / (2560 * 0.38) * (2560 * 0.38 + 1150 * 0.62);
    assert_close(all - core, 0.6003 * 1.28 * areal, 1e-5);
}

static void mass_of_the_front_wings_core_is_that_of_its_frusta(void **state)
{
    (void)state;
    double core;
    mass_of(&front_wing, &core);
    /* handbook, section 8: 7.109 l of 33 kg/m3; the outline is 44 straight lines a side */
    assert_close(core, 7.109e-3 * 33, 1e-3);
}

static void more_plies_weigh_more(void **state)
{
    (void)state;
    double before = 0;
    for (int plies = 1; plies <= 6; plies++) {
        struct wing_text text = {0};
        text.layup = say("{'name': 'skin', 'fabric': 'plain', 'angle_deg': 45, 'plies': %d, 'side': 'both',"
                         " 'chord_from': 0, 'chord_to': 1}", plies);
        double mass = mass_of(&text, NULL);
        assert_true(mass > before);
        before = mass;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_front_wing_is_cut_as_drawn),
        cmocka_unit_test(plies_at_a_place_are_those_whose_pieces_cover_it),
        cmocka_unit_test(a_piece_covers_its_own_end_and_not_what_is_beyond),
        cmocka_unit_test(a_strip_is_measured_on_the_chord_line_and_clipped_there),
        cmocka_unit_test(an_item_on_both_sides_is_on_either),
        cmocka_unit_test(mass_of_a_drop_off_is_that_of_its_pieces),
        cmocka_unit_test(mass_is_core_and_cloth),
        cmocka_unit_test(mass_of_the_front_wings_core_is_that_of_its_frusta),
        cmocka_unit_test(more_plies_weigh_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
