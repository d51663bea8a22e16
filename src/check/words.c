#include "plyloft/words.h"

#include "plyloft/buffer.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void pl_place_words(double y_m, char *out, size_t size)
{
    char number[32];
    pl_number_fixed(number, sizeof number, 1e3 * fabs(y_m), 0);
    if (!strcmp(number, "0"))
        snprintf(out, size, "centre");
    else
        snprintf(out, size, "%s %s", number, y_m > 0 ? "right" : "left");
}

void pl_lowest_words(const struct pl_lowest *lowest, char *out, size_t size)
{
    char place[32];
    pl_place_words(lowest->y_m, place, sizeof place);
    snprintf(out, size, "%s, %s, %s", pl_mode_name(lowest->mode), lowest->item, place);
}

void pl_solution_words(bool pinned, int variant, char *out, size_t size)
{
    const char *mounts = pinned ? "mounts pinned" : "mounts as given";
    if (variant >= 0)
        snprintf(out, size, "%s, pad %d carries more", mounts, variant + 1);
    else
        snprintf(out, size, "%s", mounts);
}

void pl_reserve_words(double reserve, char *out, size_t size)
{
    if (reserve >= PL_MOST_RESERVE)
        snprintf(out, size, "over 999");
    else if (reserve < 1)  /* rounded down, since 1.00 would hold */
        pl_number_fixed(out, size, floor(100 * reserve) / 100, 2);
    else
        pl_number_fixed(out, size, reserve, reserve < 9.995 ? 2 : reserve < 99.95 ? 1 : 0);
}

size_t pl_cautions(const struct pl_part *part, const struct pl_verdict *verdict, const char **out, size_t most)
{
    bool jacking = false, limited = false, styrene = false;
    size_t n = 0;
    for (size_t i = 0; i < part->n_load_cases; i++) {
        jacking = jacking || part->load_cases[i].kind == PL_JACKING;
        limited = limited || pl_given(part->load_cases[i].tip_limit_m);
    }
    for (size_t i = 0; i < part->n_elements; i++)
        styrene = styrene || part->resins[part->elements[i].resin].kind != PL_EPOXY;
    if (jacking && n < most)
        out[n++] = "Never go under a car held by a jack or a wing: use stands.";
    if (limited && n < most)
        out[n++] = "The current rule book and the scrutineer decide; this figure does not.";
    if (styrene && n < most)
        out[n++] = "Styrene and peroxide: organic-vapour respirator, goggles, no flame.";
    if (n < most)
        out[n++] = verdict->holds ? "Estimates from typical values: have a qualified engineer check a part that can hurt someone."
                                  : "It falls short: do not use it so. Estimates from typical values; a qualified engineer decides.";
    return n;
}
