/* specimen.h - a straight wing put together without a file, for figures of sections and whole parts. */
#ifndef PLYLOFT_PUBLISHED_SPECIMEN_H
#define PLYLOFT_PUBLISHED_SPECIMEN_H

#include "plyloft/check.h"

enum { SPECIMEN_HALF = 180 };  /* sides of an outline, top and bottom each */

struct specimen {
    struct pl_part part;
    struct pl_profile profile;
    struct pl_point points[2 * SPECIMEN_HALF + 1];
    struct pl_fabric fabrics[2];        /* sheet: isotropic, 70 GPa, 0.5 mm; the second for the asking */
    struct pl_resin resin;
    struct pl_core core;                /* next to nothing */
    struct pl_element element;
    struct pl_station stations[3];
    struct pl_layup_item layup[3];      /* the first: one ply of the sheet all round */
    struct pl_mount mount;              /* clamped in the middle */
    struct pl_load_case load_case;
    struct pl_pad pad;
    struct pl_solve *solve;
    struct pl_problems problems;
    struct pl_place_view view;
};

/* A round tube of diameter chord_m. */
void specimen_start(struct specimen *s, double chord_m, double semispan_m);
void specimen_end(struct specimen *s);

/* Another outline: half axes of 1/2 and half_height chords; a box, 2 half_height high. */
void specimen_oval(struct specimen *s, double half_height);
void specimen_box(struct specimen *s, double half_height);

/* Turns a cloth into one that fails nowhere, of this modulus, shear modulus, Poisson's ratio and ply. */
void specimen_cloth(struct pl_fabric *fabric, double e_pa, double g_pa, double nu, double ply_m);

/* Adds an item over chord fractions; the number of plies and the cloth are free. */
void specimen_lay(struct specimen *s, size_t fabric, int plies, int side, double from, double to);

/* The section 50 mm from the middle.  What cannot be built is told and ends the program. */
const struct pl_section *specimen_section(struct specimen *s);

/* What fails first there under forces in chord axes. */
struct pl_weakest specimen_weakest(struct specimen *s, const struct pl_internal *forces);

/* The only load case, solved. */
const struct pl_case_result *specimen_case(struct specimen *s);

#endif
