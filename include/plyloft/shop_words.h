/* shop_words.h - the kit in words, the same on screen, in tables, CSV and on paper.
 *
 * Nothing is worked out here.  Lengths in mm, small masses in g.
 */
#ifndef PLYLOFT_SHOP_WORDS_H
#define PLYLOFT_SHOP_WORDS_H

#include "plyloft/resin.h"

enum { PL_KIT_CELLS = 8 };

/* mark, what, side, cloth, angle, laid, cut, note: as many cells, a heading for each. */
struct pl_kit_cells { char text[PL_KIT_CELLS][192]; };
extern const char *const pl_kit_headings[PL_KIT_CELLS];
void pl_kit_cells(const struct pl_part *part, const struct pl_kit_piece *piece, struct pl_kit_cells *out);

/* "slurry on main", "plies 1A 1B 2A", "ply 3A, cup 2 of 2". */
void pl_batch_words(const struct pl_part *part, const struct pl_kit *kit, const struct pl_batch *batch, char *out, size_t size);

/* How a batch is measured: "250 g: 192 g + 58 g, or 166 ml + 60 ml". */
void pl_measure_batch_words(const struct pl_resin *resin, double mixed_kg, char *out, size_t size);

/* Lines of what to weigh before starting, then of the mass ready to race; false past the last. */
bool pl_weigh_line(const struct pl_part *part, const struct pl_kit *kit, const struct pl_resin_kit *resin, size_t i, char *out, size_t size);
struct pl_race_line { const char *words; double kg; };  /* NAN: not weighed */
bool pl_race_line(const struct pl_resin_kit *resin, size_t i, struct pl_race_line *line, char *out, size_t size);  /* out NULL: not asked for */

/* Cautions that belong to laminating (handbook, section 12); NULL ends the list. */
const char *const *pl_shop_cautions(void);

#endif
