/* shop.h - all that is cut, mixed and weighed for a part, in one go. */
#ifndef PLYLOFT_SHOP_H
#define PLYLOFT_SHOP_H

#include "plyloft/resin.h"

struct pl_shop {
    struct pl_kit kit;
    struct pl_resin_kit resin;
};

/* Of a part whose shape pl_check_shape takes; structure_kg is the verdict's mass.  shop is all zeros or from an earlier call.
 * PL_BAD_INPUT with a problem when cups cannot be told; PL_NO_MEMORY. */
enum pl_status pl_shop_build(struct pl_shop *shop, const struct pl_part *part, double structure_kg, struct pl_problems *problems);
void pl_shop_free(struct pl_shop *shop);

/* Warnings of cloth, then of resin and mass; NULL past the last. */
const char *pl_shop_warning(const struct pl_shop *shop, size_t i);

/* ---- the ply book ---- */

/* Steps in order: cups where they are mixed, then the pieces laid with them. */
struct pl_book_step {
    const struct pl_kit_piece *piece;  /* NULL: a cup */
    const struct pl_batch *batch;      /* the cup; NULL: a piece */
    char words[1700];
};
size_t pl_book_steps(const struct pl_shop *shop);
struct pl_book_step pl_book_step(const struct pl_part *part, const struct pl_shop *shop, size_t i);

#endif
