/* kit_inside.h - what the files of the kit share.  Private to the shop room. */
#ifndef PLYLOFT_KIT_INSIDE_H
#define PLYLOFT_KIT_INSIDE_H

#include "plyloft/girth.h"
#include "plyloft/kit.h"
#include "plyloft/pieces.h"

#include <stdarg.h>

/* One element whose cloth is measured. */
struct kit_element {
    const struct pl_part *part;
    size_t index;
    const struct pl_element *element;
    struct pl_loft loft;
    struct pl_cloth cloth;
    double *scratch;               /* for pl_loft_at */
};

bool pl_kit_element_start(struct kit_element *e, const struct pl_part *part, size_t index, struct pl_arena *arena);

/* What a stretch of an item covers on one side, left end first. */
struct kit_size { double area_m2, girth_m, edge_m; };  /* greatest girth; longest of its edges over the surface */
struct kit_size pl_kit_measure(const struct kit_element *e, size_t item, enum pl_side side, double from_m, double to_m);

/* Both surfaces of the full span. */
double pl_kit_core_area_m2(const struct kit_element *e);

/* What will not lie: noses, hollows, double curvature; and joins that cannot be.  False without memory. */
bool pl_kit_add_drape(struct pl_kit *kit, const struct kit_element *e);
bool pl_kit_warn(struct pl_kit *kit, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Adds a sentence to a list of at most KIT_WARNINGS, each once; false without memory. */
enum { KIT_WARNINGS = 200 };
bool pl_kit_add_warning(struct pl_arena *arena, const char **list, size_t *count, const char *format, va_list arguments);

#endif
