/* stack.h - the distinct ply stacks of a wall, each worked out once.
 *
 * A stack is the plies that cover one place of the wall, named by how many plies each
 * lay-up item has there.  Few are distinct, so they are kept in a hash table and
 * compared whole on a hit.  What the strength check needs at thousands of wall points
 * is prepared here: the wall law of the contract's rule 3, the ply criterion as a
 * quadratic in strain and shear flow, and the inverses for wrinkling.
 */
#ifndef PLYLOFT_STACK_H
#define PLYLOFT_STACK_H

#include "plyloft/arena.h"
#include "plyloft/laminate.h"
#include "plyloft/part.h"

struct pl_stack_part { size_t item, plies; };

/* One ply's criterion as a function of u = (span strain at the ply, span strain at the stack's
 * middle, shear flow N12): stress in its own axes = c u; Tsai-Wu a(u) = u'qu, b(u) = l.u. */
struct pl_ply_test {
    double offset_m;   /* of the ply's middle from the stack's, outward */
    double c[3][3];
    double q[6];       /* 11 22 33 12 13 23, the mixed ones doubled */
    double l[3];
    struct pl_ply_strength strength;
    size_t item;
};

struct pl_stack {
    struct pl_stack_part *parts;
    size_t n_parts, n_plies;
    double thickness_m, mass_kg_m2;
    double e1_n_m;             /* 1 / (A^-1)11: axial stiffness per width, N2 = 0, N12 held */
    double a66_n_m, k;         /* shear stiffness with N2 = 0 (starred A66), and starred A16 over it */
    double girth[2], shear[2]; /* e2 = girth[0] e1 + girth[1] N12, g12 likewise: N2 = 0 */
    double a_inverse[6];       /* of A x h, for the membrane modulus: 11 22 33 12 13 23 */
    double d_inverse[6];       /* of D* = D - B A^-1 B, x h^3 / 12 */
    /* A wrinkle of any direction needs at least strain x wrinkle_strain + flow x wrinkle_flow = the cube root of
     * 0.5^3 E_c G_c; softest is 1 / the least face modulus of any direction, never too small. */
    double softest, wrinkle_strain, wrinkle_flow;
    double q_most[6], l_most[3];  /* no test's quadratic, nor share of greatest stress, is larger part by part, */
    double share_most[3], offset_most_m;  /* nor its offset: what shows at once that no ply of a run can govern */
    struct pl_ply_test *tests; /* plies that can govern: of those alike, the two farthest out */
    size_t n_tests;
};

struct pl_stack_set {
    const struct pl_part *part;
    const struct pl_element *element;
    struct pl_arena *arena;
    struct pl_stack *stacks;
    size_t count, capacity;
    size_t *table, table_size;  /* open addressing, index + 1, 0 is free */
    double knockdown, heat;
};

bool pl_stack_set_start(struct pl_stack_set *set, const struct pl_part *part, const struct pl_element *element,
                        struct pl_arena *arena);

/* Index of the stack with these parts (laying order, no part of 0 plies), worked out when it is new;
 * PL_NONE without memory.  Pointers to stacks move when the set grows; indices stay. */
size_t pl_stack_find(struct pl_stack_set *set, const struct pl_stack_part *parts, size_t n_parts);

/* The plies of a stack, the one on the core first; mirrored turns the angles as on the left half.
 * out holds stack->n_plies. */
void pl_stack_plies(const struct pl_stack_set *set, const struct pl_stack *stack, bool mirrored, struct pl_ply *out);

/* Modulus against wrinkling in the direction phi from axis 1 towards 2, given cos 2phi and sin 2phi: the
 * lesser of the membrane and the bending one (contract, rule 7). */
double pl_stack_face_modulus(const struct pl_stack *stack, double cos2, double sin2);

#endif
