/* What a stack prepares for thousands of wall points, against lamination theory done at length. */
#include "../part_text.h"
#include "../support.h"

#include "plyloft/stack.h"

#include <math.h>

#define ITEM(name, fabric, angle, plies) \
    "{'name': '" name "', 'fabric': '" fabric "', 'angle_deg': " #angle ", 'plies': " #plies ", 'side': 'both'," \
    " 'chord_from': 0, 'chord_to': 1}"

struct stacked {
    struct wing wing;
    struct pl_arena arena;
    struct pl_stack_set set;
};

static void stacked_make(struct stacked *s, const char *layup)
{
    struct wing_text text = {.layup = layup, .allowables = "'knockdown': 0.8, 'criterion': 'tsai-wu'"};
    wing_build(&s->wing, &text);
    s->arena = (struct pl_arena){0};
    assert_true(pl_stack_set_start(&s->set, &s->wing.part, &s->wing.part.elements[0], &s->arena));
}

static void stacked_free(struct stacked *s)
{
    pl_arena_free(&s->arena);
    wing_free(&s->wing);
}

/* The stack of all items in full. */
static const struct pl_stack *whole_stack(struct stacked *s)
{
    const struct pl_element *e = &s->wing.part.elements[0];
    struct pl_stack_part parts[8];
    for (size_t i = 0; i < e->n_layup; i++)
        parts[i] = (struct pl_stack_part){i, (size_t)e->layup[i].plies};
    size_t index = pl_stack_find(&s->set, parts, e->n_layup);
    assert_true(index != PL_NONE);
    return &s->set.stacks[index];
}

/* Odd stacks, balanced and not. */
static const char *const odd_stacks[] = {
    ITEM("a", "plain", 45, 2) ", " ITEM("b", "uni", 0, 5) ", " ITEM("c", "plain", 45, 1),
    ITEM("a", "uni", 20, 3) ", " ITEM("b", "plain", 10, 2) ", " ITEM("c", "uni", -35, 1) ", " ITEM("d", "uni", 20, 1),
    ITEM("a", "uni", 80, 1),
    ITEM("a", "plain", 30, 1) ", " ITEM("b", "uni", 90, 2) ", " ITEM("c", "plain", -30, 1) ", " ITEM("d", "uni", 0, 4),
};
enum { ODD_STACKS = sizeof odd_stacks / sizeof *odd_stacks };

static void abd_of(const struct stacked *s, const struct pl_stack *stack, struct pl_ply *plies, struct pl_abd *abd)
{
    assert_in_range(stack->n_plies, 1, 32);
    pl_stack_plies(&s->set, stack, false, plies);
    pl_laminate_abd(plies, stack->n_plies, abd);
}

static void plies_come_in_laying_order_and_turn_over_on_the_left(void **state)
{
    (void)state;
    struct stacked s;
    stacked_make(&s, odd_stacks[1]);
    const struct pl_stack *stack = whole_stack(&s);
    struct pl_ply right[32], left[32];
    assert_int_equal(stack->n_plies, 7);
    pl_stack_plies(&s.set, stack, false, right);
    pl_stack_plies(&s.set, stack, true, left);
    static const double angles[] = {20, 20, 20, 10, 10, -35, 20};
    static const size_t items[] = {0, 0, 0, 1, 1, 2, 3};
    for (size_t i = 0; i < 7; i++) {
        assert_close(right[i].angle_rad, angles[i] * M_PI / 180, 1e-12);
        assert_close(left[i].angle_rad, -right[i].angle_rad, 0);
        assert_int_equal(right[i].item, items[i]);
    }
    stacked_free(&s);
}

static void the_wall_law_leaves_no_stress_round_the_girth(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int k = 0; k < ODD_STACKS; k++) {
        struct stacked s;
        stacked_make(&s, odd_stacks[k]);
        const struct pl_stack *stack = whole_stack(&s);
        struct pl_ply plies[32];
        struct pl_abd abd;
        abd_of(&s, stack, plies, &abd);
        for (int i = 0; i < 20; i++) {
            double e1 = chance_between(&seed, -1e-3, 1e-3), flow = chance_between(&seed, -1e4, 1e4);
            double e[3] = {e1, stack->girth[0] * e1 + stack->girth[1] * flow,
                           stack->shear[0] * e1 + stack->shear[1] * flow},
                   n[3];
            for (int j = 0; j < 3; j++)
                n[j] = abd.a[j][0] * e[0] + abd.a[j][1] * e[1] + abd.a[j][2] * e[2];
            assert_true(fabs(n[1]) < 1e-9 * (fabs(n[0]) + fabs(flow)));
            assert_close(n[2], flow, 1e-9);
            assert_close(n[0], stack->e1_n_m * e1 + stack->k * flow, 1e-9);  /* contract, rule 3 */
        }
        stacked_free(&s);
    }
}

static void an_uncoupled_wall_is_as_stiff_as_its_two_equations_say(void **state)
{
    (void)state;
    struct stacked s;
    stacked_make(&s, odd_stacks[0]);
    const struct pl_stack *stack = whole_stack(&s);
    assert_close(stack->e1_n_m, 49.751e6, 2e-5);  /* F5.7 */
    assert_close(stack->a66_n_m, 8.106e6, 1e-4);
    assert_true(fabs(stack->k) < 1e-12);
    assert_close(stack->thickness_m, 1.9443e-3, 3e-5);
    /* three plain plies and five uni at 2560 kg/m3 of fibre, 1150 of resin */
    double plain_m = 0.163 / (2560 * 0.38), uni_m = 0.310 / (2560 * 0.42);
    assert_close(stack->mass_kg_m2, 3 * (0.163 + plain_m * 0.62 * 1150) + 5 * (0.310 + uni_m * 0.58 * 1150), 1e-12);
    stacked_free(&s);
}

static void coupling_vanishes_along_and_across_the_threads(void **state)
{
    (void)state;
    static const double angles[] = {0, 90, -90, 30};
    double k[4];
    for (int i = 0; i < 4; i++) {
        struct stacked s;
        stacked_make(&s, say("{'name': 'a', 'fabric': 'uni', 'angle_deg': %g, 'plies': 3, 'side': 'both',"
                             " 'chord_from': 0, 'chord_to': 1}", angles[i]));
        k[i] = whole_stack(&s)->k;
        stacked_free(&s);
    }
    assert_true(fabs(k[0]) < 1e-12 && fabs(k[1]) < 1e-12 && fabs(k[2]) < 1e-12);
    assert_true(fabs(k[3]) > 0.1);
}

static double reserve_of(const struct pl_ply *ply, const struct stacked *s, const double strain[3])
{
    struct pl_ply_strength strength = pl_ply_strength(ply->fabric, s->set.knockdown, s->set.heat);
    double stress[3];
    pl_ply_stress(ply, strain, stress);
    return pl_reserve_tsai_wu(&strength, stress);
}

static double reserve_of_test(const struct pl_ply_test *t, const double u[3])
{
    double stress[3];
    for (int i = 0; i < 3; i++)
        stress[i] = t->c[i][0] * u[0] + t->c[i][1] * u[1] + t->c[i][2] * u[2];
    return pl_reserve_tsai_wu(&t->strength, stress);
}

/* stack.c looks at the innermost and outermost of like plies alone, since failure is convex in strain. */
static void the_plies_looked_at_fail_no_later_than_all_plies(void **state)
{
    (void)state;
    uint64_t seed = 17;
    for (int k = 0; k < ODD_STACKS; k++) {
        struct stacked s;
        stacked_make(&s, odd_stacks[k]);
        const struct pl_stack *stack = whole_stack(&s);
        struct pl_ply plies[32];
        pl_stack_plies(&s.set, stack, false, plies);
        for (int i = 0; i < 2000; i++) {
            double middle = chance_between(&seed, -3e-3, 3e-3), slope = chance_between(&seed, -4, 4);
            double flow = chance_between(&seed, -2e4, 2e4), all = HUGE_VAL, looked_at = HUGE_VAL,
                   z = -0.5 * stack->thickness_m;
            for (size_t p = 0; p < stack->n_plies; p++) {
                double offset = z + 0.5 * plies[p].thickness_m;
                double strain[3] = {middle + slope * offset, stack->girth[0] * middle + stack->girth[1] * flow,
                                    stack->shear[0] * middle + stack->shear[1] * flow};
                all = fmin(all, reserve_of(&plies[p], &s, strain));
                z += plies[p].thickness_m;
            }
            for (size_t t = 0; t < stack->n_tests; t++) {
                double u[3] = {middle + slope * stack->tests[t].offset_m, middle, flow};
                looked_at = fmin(looked_at, reserve_of_test(&stack->tests[t], u));
            }
            assert_close(looked_at, all, 1e-9);
        }
        stacked_free(&s);
    }
}

static void like_plies_are_looked_at_twice_and_no_more(void **state)
{
    (void)state;
    struct stacked s;
    stacked_make(&s, odd_stacks[0]);
    const struct pl_stack *stack = whole_stack(&s);
    /* plain 45: the first and the last of three; uni 0: the first and the last of five */
    assert_int_equal(stack->n_tests, 4);
    assert_int_equal(stack->tests[0].item, 0);
    assert_int_equal(stack->tests[1].item, 1);
    assert_int_equal(stack->tests[3].item, 2);
    assert_close(stack->tests[3].offset_m, 0.5 * stack->thickness_m - 0.5 * 0.163 / (2560 * 0.38), 1e-9);
    assert_close(stack->tests[0].offset_m, -stack->tests[3].offset_m, 1e-9);
    stacked_free(&s);
}

static void the_quadratic_of_a_test_is_its_criterion(void **state)
{
    (void)state;
    uint64_t seed = 23;
    struct stacked s;
    stacked_make(&s, odd_stacks[1]);
    const struct pl_stack *stack = whole_stack(&s);
    for (size_t k = 0; k < stack->n_tests; k++)
        for (int i = 0; i < 100; i++) {
            const struct pl_ply_test *t = &stack->tests[k];
            double u[3] = {chance_between(&seed, -3e-3, 3e-3), chance_between(&seed, -3e-3, 3e-3),
                           chance_between(&seed, -2e4, 2e4)};
            const double *q = t->q, *l = t->l;
            double a = q[0] * u[0] * u[0] + q[1] * u[1] * u[1] + q[2] * u[2] * u[2] + q[3] * u[0] * u[1]
                       + q[4] * u[0] * u[2] + q[5] * u[1] * u[2],
                   b = l[0] * u[0] + l[1] * u[1] + l[2] * u[2], r = reserve_of_test(t, u);
            assert_close(a * r * r + b * r, 1, 1e-8);
        }
    stacked_free(&s);
}

static double face_modulus(const struct pl_stack *stack, double phi)
{
    return pl_stack_face_modulus(stack, cos(2 * phi), sin(2 * phi));
}

static void wrinkling_moduli_are_those_of_the_handbook(void **state)
{
    (void)state;
    struct stacked s;
    stacked_make(&s, odd_stacks[0]);
    const struct pl_stack *stack = whole_stack(&s);
    double h = stack->thickness_m;
    assert_close(1 / stack->a_inverse[0], 25.59e9, 2e-4);  /* F5.9: membrane */
    assert_close(1 / stack->d_inverse[0], 18.60e9, 3e-4);  /* bending */
    assert_close(face_modulus(stack, 0), 18.60e9, 3e-4);
    assert_close(0.5 * cbrt(face_modulus(stack, 0) * 14e6 * 5e6), 54.6e6, 1e-3);
    assert_close(0.5 * cbrt(face_modulus(stack, 0) * 14e6 * 5e6 * 0.75), 49.6e6, 1e-3);
    assert_close(h, 1.9443e-3, 3e-5);
    stacked_free(&s);
    stacked_make(&s, ITEM("a", "plain", 45, 3));
    stack = whole_stack(&s);
    assert_close(face_modulus(stack, M_PI / 4), 17e9, 1e-9);
    assert_close(face_modulus(stack, -M_PI / 4), 17e9, 1e-9);
    assert_close(face_modulus(stack, 0), 9.642e9, 1e-4);
    assert_close(0.5 * cbrt(face_modulus(stack, M_PI / 4) * 14e6 * 5e6), 53.0e6, 1e-3);
    stacked_free(&s);
}

/* E of a direction by turning every ply the other way and pulling along 1. */
static void a_direction_has_the_modulus_of_the_stack_turned(void **state)
{
    (void)state;
    struct stacked s;
    stacked_make(&s, odd_stacks[1]);
    const struct pl_stack *stack = whole_stack(&s);
    for (double phi = -1.5; phi < 1.6; phi += 0.31) {
        struct pl_ply plies[32];
        struct pl_abd abd;
        double inverse[3][3], star[3][3], star_inverse[3][3];
        pl_stack_plies(&s.set, stack, false, plies);
        for (size_t p = 0; p < stack->n_plies; p++)
            plies[p].angle_rad -= phi;
        pl_laminate_abd(plies, stack->n_plies, &abd);
        pl_invert3(abd.a, inverse);
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++) {
                star[i][j] = abd.d[i][j];
                for (int m = 0; m < 9; m++)
                    star[i][j] -= abd.b[i][m / 3] * inverse[m / 3][m % 3] * abd.b[m % 3][j];
            }
        pl_invert3(star, star_inverse);
        double h = abd.thickness_m;
        assert_close(face_modulus(stack, phi), fmin(1 / (h * inverse[0][0]), 12 / (h * h * h * star_inverse[0][0])),
                     1e-9);
    }
    stacked_free(&s);
}

static void no_direction_is_softer_than_the_bound(void **state)
{
    (void)state;
    for (int k = 0; k < ODD_STACKS; k++) {
        struct stacked s;
        stacked_make(&s, odd_stacks[k]);
        const struct pl_stack *stack = whole_stack(&s);
        double least = HUGE_VAL;
        for (int i = 0; i < 7200; i++)
            least = fmin(least, face_modulus(stack, M_PI * i / 7200));
        assert_true(1 / least <= stack->softest);
        assert_true(1 / least > 0.9 * stack->softest);
        stacked_free(&s);
    }
}

static void a_stack_is_found_again_and_indices_stay_as_the_set_grows(void **state)
{
    (void)state;
    struct stacked s;
    stacked_make(&s, ITEM("a", "plain", 45, 30) ", " ITEM("b", "uni", 0, 30));
    size_t index[20][20];
    for (size_t a = 0; a < 20; a++)
        for (size_t b = 0; b < 20; b++) {
            struct pl_stack_part parts[] = {{0, a + 1}, {1, b + 1}};
            index[a][b] = pl_stack_find(&s.set, parts, 2);
            assert_int_equal(index[a][b], 20 * a + b);
        }
    assert_int_equal(s.set.count, 400);  /* far past the first 64 */
    for (size_t a = 0; a < 20; a++)
        for (size_t b = 0; b < 20; b++) {
            struct pl_stack_part parts[] = {{0, a + 1}, {1, b + 1}};
            assert_int_equal(pl_stack_find(&s.set, parts, 2), index[a][b]);
            const struct pl_stack *stack = &s.set.stacks[index[a][b]];
            assert_int_equal(stack->n_plies, a + b + 2);
            assert_close(stack->thickness_m,
                         (double)(a + 1) * 0.163 / (2560 * 0.38) + (double)(b + 1) * 0.310 / (2560 * 0.42), 1e-12);
        }
    assert_int_equal(s.set.count, 400);
    struct pl_stack_part alone = {1, 1};
    assert_int_equal(pl_stack_find(&s.set, &alone, 1), 400);
    stacked_free(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plies_come_in_laying_order_and_turn_over_on_the_left),
        cmocka_unit_test(the_wall_law_leaves_no_stress_round_the_girth),
        cmocka_unit_test(an_uncoupled_wall_is_as_stiff_as_its_two_equations_say),
        cmocka_unit_test(coupling_vanishes_along_and_across_the_threads),
        cmocka_unit_test(the_plies_looked_at_fail_no_later_than_all_plies),
        cmocka_unit_test(like_plies_are_looked_at_twice_and_no_more),
        cmocka_unit_test(the_quadratic_of_a_test_is_its_criterion),
        cmocka_unit_test(wrinkling_moduli_are_those_of_the_handbook),
        cmocka_unit_test(a_direction_has_the_modulus_of_the_stack_turned),
        cmocka_unit_test(no_direction_is_softer_than_the_bound),
        cmocka_unit_test(a_stack_is_found_again_and_indices_stay_as_the_set_grows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
