#include "plyloft/shop.h"

#include "plyloft/shop_words.h"

#include <stdio.h>

enum pl_status pl_shop_build(struct pl_shop *shop, const struct pl_part *part, double structure_kg, struct pl_problems *problems)
{
    enum pl_status status = pl_kit_build(&shop->kit, part);
    if (status == PL_OK)
        status = pl_resin_build(&shop->resin, part, &shop->kit, structure_kg, problems);
    return status;
}

void pl_shop_free(struct pl_shop *shop)
{
    pl_kit_free(&shop->kit);
    pl_resin_free(&shop->resin);
}

const char *pl_shop_warning(const struct pl_shop *shop, size_t i)
{
    if (i < shop->kit.n_warnings)
        return shop->kit.warnings[i];
    i -= shop->kit.n_warnings;
    return i < shop->resin.n_warnings ? shop->resin.warnings[i] : NULL;
}

/* ---- the ply book ---- */

size_t pl_book_steps(const struct pl_shop *shop)
{
    size_t n = shop->kit.n_pieces;
    for (size_t i = 0; i < shop->resin.n_plans; i++)
        n += shop->resin.plans[i].n_batches;
    return n;
}

/* Elements are laid one after another, each with its own cups: the cups of element e, in their order, and the pieces that
 * follow each of them. */
static bool find_step(const struct pl_part *part, const struct pl_shop *shop, size_t wanted, const struct pl_resin_plan **plan, struct pl_book_step *step)
{
    for (size_t e = 0; e < part->n_elements; e++)
        for (size_t r = 0; r < shop->resin.n_plans; r++)
            for (size_t b = 0; b < shop->resin.plans[r].n_batches; b++) {
                const struct pl_batch *batch = &shop->resin.plans[r].batches[b];
                if (batch->element != e)
                    continue;
                *plan = &shop->resin.plans[r];
                if (!wanted--) {
                    step->batch = batch;
                    return true;
                }
                /* Of a piece that takes several cups, the piece comes with the first. */
                size_t pieces = batch->cup == 1 ? batch->count : 0;
                if (wanted < pieces) {
                    step->piece = &shop->kit.pieces[batch->first + wanted];
                    return true;
                }
                wanted -= pieces;
            }
    return false;
}

struct pl_book_step pl_book_step(const struct pl_part *part, const struct pl_shop *shop, size_t i)
{
    struct pl_book_step step = {0};
    const struct pl_resin_plan *plan = NULL;
    if (!find_step(part, shop, i, &plan, &step))
        return step;
    if (step.batch) {
        char measure[128], what[128];
        pl_measure_batch_words(&part->resins[plan->resin], step.batch->mixed_kg, measure, sizeof measure);
        pl_batch_words(part, &shop->kit, step.batch, what, sizeof what);
        snprintf(step.words, sizeof step.words, "mix %s for %s", measure, what);
    } else {
        struct pl_kit_cells c;
        pl_kit_cells(part, step.piece, &c);
        snprintf(step.words, sizeof step.words, "lay %s  %s, %s, %s, %s deg, %s mm%s%s", c.text[0], c.text[1], c.text[2], c.text[3], c.text[4], c.text[6],
                 *c.text[7] ? ", " : "", c.text[7]);
    }
    return step;
}
