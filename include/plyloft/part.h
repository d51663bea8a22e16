/* part.h - the wing as the engine sees it.
 *
 * Plain structs in SI units, derived from a document through the table of fields
 * (field.h) and never edited.  Names are safe to print.  A length, number or text that
 * may be left out and was is NAN or NULL; references are indices into the part's lists.
 * Axes and signs are those of the contract: x aft, y right, z up, as installed.
 */
#ifndef PLYLOFT_PART_H
#define PLYLOFT_PART_H

#include "plyloft/arena.h"
#include "plyloft/problems.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define PL_NONE SIZE_MAX  /* a reference that was left out or names nothing */

#define PL_NOT_GIVEN ((double)NAN)  /* a number that was left out */

static inline bool pl_given(double value) { return !isnan(value); }

struct pl_point { double x, z; };  /* chords */

struct pl_profile {
    const char *name;
    const char *naca;         /* designation, or NULL */
    struct pl_point *points;  /* trailing edge, upper surface, nose, lower surface, trailing edge; or NULL */
    size_t n_points;
};

enum pl_fibre { PL_GLASS, PL_CARBON, PL_ARAMID, PL_BASALT, PL_FLAX, PL_OTHER_FIBRE };

struct pl_fabric {
    const char *name;
    int fibre;  /* enum pl_fibre */
    double areal_weight_kg_m2, fibre_density_kg_m3, fibre_fraction;
    double e1_pa, e2_pa, g12_pa, nu12;
    double xt_pa, xc_pa, yt_pa, yc_pa, s_pa;
    double roll_width_m;
    double price_per_m;  /* of the roll; NAN: not given, like the next */
};

enum pl_resin_kind { PL_EPOXY, PL_POLYESTER, PL_VINYLESTER };

struct pl_resin {
    const char *name;
    int kind;  /* enum pl_resin_kind */
    double density_kg_m3, mix_ratio[2], pot_life_s, pot_life_at_c, tg_dry_c, tg_wet_c;
    double liquid_density_kg_m3, hardener_density_kg_m3;  /* of the two parts as poured */
    double price_per_kg;                                  /* mixed; NAN: not given */
};

struct pl_core {
    const char *name, *kind;
    double density_kg_m3, e_pa, g_pa, shear_strength_pa, compressive_strength_pa, max_c;
};

struct pl_station {
    double y_m, chord_m, x_le_m, z_le_m, twist_rad;
    size_t profile;
};

enum pl_side { PL_TOP, PL_BOTTOM, PL_BOTH };

struct pl_layup_item {
    const char *name;
    size_t fabric;
    double angle_rad;
    int plies, side;  /* enum pl_side */
    double chord_from, chord_to, centre_at, width_m;  /* the first two or the last two; NAN the others */
    double half_length_m, drop_m, from_m;              /* half_length_m NAN: to the tip */
};

enum pl_hold { PL_CLAMPED, PL_PINNED };

struct pl_mount {
    const char *name;
    double y_m;
    int hold;                     /* enum pl_hold */
    double stiffness_nm_per_rad;  /* NAN: rigid */
    size_t on;                    /* element it stands on; PL_NONE: the car */
    double at;                    /* chord fraction there; NAN when left out */
};

struct pl_end_plates {
    bool given;
    double height_m, length_m, below_m, x_le_m, thickness_m;  /* x_le_m NAN: at the tip's leading edge */
};

struct pl_element {
    const char *name;
    bool inverted;
    double incidence_rad;
    struct pl_station *stations;
    size_t n_stations;
    size_t core, resin;
    struct pl_layup_item *layup;
    size_t n_layup;
    struct pl_mount *mounts;
    size_t n_mounts;
    struct pl_end_plates end_plates;
};

enum pl_case_kind { PL_DOWNFORCE, PL_JACKING, PL_TIP_STRIKE, PL_POINT_LOAD, PL_INERTIA };
enum pl_distribution { PL_UNIFORM, PL_ELLIPTIC, PL_COMPUTED };
enum pl_direction { PL_UP, PL_DOWN };

enum { PL_PADS_MOST = 256 };

struct pl_pad { double y_m, acts_at, length_m, width_m; };

struct pl_load_case {
    const char *name;
    int kind;        /* enum pl_case_kind */
    size_t element;
    double factor;
    size_t *with;    /* cases of elements that stand on this one */
    size_t n_with;
    /* downforce */
    double speed_m_s, air_density_kg_m3, coefficient, ride_height_m, allowance;
    int distribution;  /* enum pl_distribution */
    /* jacking */
    double supported_mass_kg, dynamic_factor, uneven;
    struct pl_pad *pads;
    size_t n_pads;
    double cycles;   /* of downforce and inertia; NAN: as if once */
    /* inertia */
    double n_g, tip_mass_kg;  /* of either tip */
    /* tip strike, point and inertia */
    double y_m;      /* NAN for a strike: the right tip */
    int direction;   /* enum pl_direction */
    double force_n, moving_mass_kg, closing_speed_m_s, travel_m;
    double contact_length_m, contact_width_m;  /* of a strike; NAN: crushing is not checked */
    /* all but jacking */
    double aft_n;    /* a force aft besides, in all, before the factor */
    double acts_at;
    /* from `limits` */
    double tip_limit_m;  /* NAN: none */
};

enum pl_criterion { PL_TSAI_WU, PL_MAX_STRESS };

struct pl_allowables {
    double knockdown, core_knockdown, service_c;  /* core_knockdown 1 and service_c NAN when left out */
    int criterion;  /* enum pl_criterion */
};

struct pl_tip_limit {
    size_t load_case;
    double tip_deflection_m;
};

struct pl_limits {
    struct pl_tip_limit *tips;
    size_t n_tips;
    double mass_kg;  /* NAN: none */
};

/* Where the axles stand, x as the wing's own: aft of the leading edge at x = 0. */
struct pl_car {
    bool given;
    double wheelbase_m, front_axle_x_m;
};

/* How the wing is laminated, cut and finished. */
struct pl_shed {
    double temperature_c, rate_m2_s;           /* cloth wetted out by one person */
    double loss, cup_kg;                       /* share of the resin left in cups and rollers; greatest mix in one cup */
    double slurry_kg_m2, peel_ply_kg_m2;       /* resin on bare foam, and in peel ply (0: none is laid) */
    double trim_m, nose_overlap_m, tail_overlap_m, join_m, spacing_m;
    double filler_kg_m3, paint_kg_m2;
    double brackets_kg, plates_kg;             /* NAN: not given */
};

struct pl_part {
    const char *format, *name, *revision, *notes;
    int version;
    struct pl_profile *profiles;
    struct pl_fabric *fabrics;
    struct pl_resin *resins;
    struct pl_core *cores;
    struct pl_element *elements;
    struct pl_load_case *load_cases;
    size_t n_profiles, n_fabrics, n_resins, n_cores, n_elements, n_load_cases;
    struct pl_allowables allowables;
    struct pl_limits limits;
    struct pl_car car;
    struct pl_shed shed;  /* usual values where it is left out */
    struct pl_arena arena;  /* owns all of the above */
};

struct pl_document;

/* Builds part from doc; part is all zeros or from an earlier build, whose memory is used
 * again.  Every problem is listed in problems, warnings too.  PL_BAD_INPUT when there is an
 * error: the part must then not be handed to the engine. */
enum pl_status pl_part_build(struct pl_part *part, const struct pl_document *doc, struct pl_problems *problems);
void pl_part_free(struct pl_part *part);

/* Half the span: the y of the last station. */
double pl_element_semispan_m(const struct pl_element *element);

/* Dynamic pressure of a downforce case, rho V^2 / 2 (handbook F4.1). */
double pl_load_case_pressure_pa(const struct pl_load_case *load_case);

/* Cured ply thickness, areal weight / (fibre density x fibre fraction) (handbook F5.1). */
double pl_fabric_ply_m(const struct pl_fabric *fabric);

/* Mass per area of a cured ply, its resin included: t x (fibre density x fraction + resin density x (1 - fraction))
 * (contract, rule 8). */
double pl_fabric_ply_kg_m2(const struct pl_fabric *fabric, const struct pl_resin *resin);

#endif
