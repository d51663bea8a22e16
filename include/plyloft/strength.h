/* strength.h - what fails first in a section.
 *
 * The modes of the contract's rule 7 that belong to a section: ply failure, wrinkling of
 * the wall, shear of the core; and those of a jack pad.  A reserve is the number that
 * multiplies the factored load until the mode fails.  Wrinkling: Hoff and Mautner 1945
 * with 0.5 for 0.91 (handbook F5.9).  Always the right half's section; forces on the
 * left half come mirrored.
 */
#ifndef PLYLOFT_STRENGTH_H
#define PLYLOFT_STRENGTH_H

#include "plyloft/section.h"

enum pl_mode { PL_MODE_PLY, PL_MODE_WRINKLING, PL_MODE_CORE_SHEAR, PL_MODE_CORE_CRUSH, PL_MODE_PAD_SHEAR, PL_MODE_NOSE_CRUSH, PL_MODES };

/* "ply", "wrinkling", "core-shear", "core-crush", "pad-shear", "nose-crush". */
const char *pl_mode_name(enum pl_mode mode);

/* Reserves above this are not told apart. */
#define PL_MOST_RESERVE 999.0

struct pl_weakest {
    double reserve;
    enum pl_mode mode;
    size_t item;        /* lay-up item of a ply; PL_NONE otherwise */
    enum pl_side side;  /* of a ply or a wrinkle */
    double fraction;    /* chord fraction of it */
    double stress_pa;   /* there: in the ply (own axes, the part that uses most), across the wrinkle, in the core; what
                           may stand there is reserve times this for modes linear in stress */
};

struct pl_strength_rules {
    int criterion;             /* enum pl_criterion */
    double wrinkling_pa2;      /* 0.5^3 E_c G_c core_knockdown; times E_f it is the cube of the wrinkling stress */
    double wrinkling_root;     /* its cube root */
    double core_g_pa, core_shear_pa, core_crush_pa;  /* knocked down */
    const double *keeps;       /* share of its strength that each lay-up item keeps after cycles; NULL: all of it */
    double keeps_least;        /* of them; 1 with NULL */
};

/* What a fibre's laminate keeps of its strength after as many cycles: 1 - B log10 N, B 0.05 for carbon, 0.10 for glass, which
 * stands for all others (Mandell, Huang and McGarry 1981, handbook F4.11). */
double pl_fatigue_keeps(int fibre, double cycles);

struct pl_strength_rules pl_strength_rules(const struct pl_part *part, const struct pl_element *element);

/* Looks in the whole section for a reserve below weakest->reserve and puts the lowest there; leaves weakest as it
 * is when there is none.  on_car: internal forces of the cut in the car's axes. */
void pl_section_weakest(const struct pl_section *section, const struct pl_stack_set *stacks,
                        const struct pl_strength_rules *rules, const struct pl_internal *on_car,
                        struct pl_weakest *weakest);

/* Core under a pad: crushed by pressure, or punched through round the pad's rim (handbook F4.6). */
void pl_pad_weakest(const struct pl_strength_rules *rules, const struct pl_pad *pad, double force_n, double core_depth_m,
                    struct pl_weakest *weakest);

/* Core under what strikes it: crushed over the area that touches, the skin giving no credit. */
void pl_strike_weakest(const struct pl_strength_rules *rules, double force_n, double area_m2, double fraction, struct pl_weakest *weakest);

#endif
