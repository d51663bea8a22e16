/* resin.h - how much resin a kit takes, and the cups it is mixed in.
 *
 * Handbook section 9: cloth at its fibre fraction (F9.3, F5.2), slurry on the bare foam, peel ply, and what stays in cups and
 * rollers; mixed by weight or by volume (F9.4); pot life halves every 10 C (F9.5); a cup holds at most what is laid in 0.6 of
 * its pot life and what does not boil (F9.6), and ends on a ply's border.  One cup more is measured and left unmixed.
 */
#ifndef PLYLOFT_RESIN_H
#define PLYLOFT_RESIN_H

#include "plyloft/kit.h"

/* Resin in a cloth's cured ply: areal weight x (resin density / fibre density) x (1 - Vf) / Vf. */
double pl_cloth_resin_kg_m2(const struct pl_fabric *fabric, const struct pl_resin *resin);

/* At a temperature: t_ref x 2^((T_ref - T) / 10). */
double pl_pot_life_s(const struct pl_resin *resin, double temperature_c);

/* Hardener for 1 of resin, by weight and by volume. */
double pl_hardener_by_weight(const struct pl_resin *resin);
double pl_hardener_by_volume(const struct pl_resin *resin);

/* Mixed mass that a cup may hold for one cloth: the lesser of cup_kg and rate x resin a square metre x 0.6 x pot life. */
double pl_cup_kg(const struct pl_shed *shed, const struct pl_resin *resin, double resin_kg_m2);

/* Filler that fairs one step: half x step x ramp x length; the ramp 20 times the step, up to whole 5 mm (F9.7). */
double pl_fairing_m3(double step_m, double ramp_m, double length_m);
double pl_fairing_ramp_m(double step_m);

enum pl_batch_kind { PL_BATCH_SLURRY, PL_BATCH_PLIES, PL_BATCH_PEEL_PLY };

/* A cup. */
struct pl_batch {
    enum pl_batch_kind kind;
    size_t element;
    size_t first, count;           /* pieces of the kit */
    int cup, cups;                 /* of one piece that takes several, from 1; 1 of 1 otherwise */
    double mixed_kg, resin_kg, hardener_kg;
    double minutes;                /* of laying */
};

/* All of one resin. */
struct pl_resin_plan {
    size_t resin;                  /* in the part */
    double cloth_kg, slurry_kg, peel_ply_kg, loss_kg;
    double mixed_kg, resin_kg, hardener_kg;
    double pot_life_min;           /* in the shed */
    struct pl_batch *batches;
    size_t n_batches;
    double spare_kg;               /* measured and left unmixed; not in mixed_kg: the greatest cup */
    double price;                  /* with the spare; NAN: not given */
};

/* What the wing weighs when it races, beside what the structure weighs. */
struct pl_race_mass {
    double structure_kg, slurry_kg, filler_kg, paint_kg, brackets_kg, plates_kg;  /* the last two NAN: not given */
    double sum_kg;
    double filler_m3, filler_mixed_m3;  /* on the wing; mixed, as 40 % is sanded off */
};

struct pl_resin_kit {
    struct pl_resin_plan *plans;   /* those that are used, in the part's order */
    size_t n_plans;
    struct pl_race_mass race;
    const char **warnings;
    size_t n_warnings;
    struct pl_arena arena;
};

/* Of a kit of the same part.  structure_kg is the verdict's mass.  PL_BAD_INPUT with a problem when cups cannot be told;
 * PL_NO_MEMORY. */
enum pl_status pl_resin_build(struct pl_resin_kit *out, const struct pl_part *part, const struct pl_kit *kit, double structure_kg,
                              struct pl_problems *problems);
void pl_resin_free(struct pl_resin_kit *kit);

#endif
