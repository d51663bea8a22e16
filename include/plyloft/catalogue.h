/* catalogue.h - cloths, resins, cores and metals to take from: typical ones and the builder's own.
 *
 * Typical rows come with the program: middle values of the usual ranges, planning figures
 * and no certificate.  Own rows stand in "catalogue.json" in the data folder (places.h),
 *
 *     {"format": "plyloft-catalogue", "version": 1, "note" (left out: none),
 *      "fabrics": [...], "resins": [...], "cores": [...], "metals": [...]}
 *
 * each list left out when there is none of its kind.  They come first, and an own row hides
 * the typical one of its name.  Rows of the first three lists have the keys of the part
 * file and must be right by the table of fields, so that they go into a part as they
 * are; a metal has name, e_gpa, yield_mpa, ultimate_mpa, density_kgm3, bend_radius_t (least
 * inside bend radius in thicknesses of the sheet, 90 degrees) and, if wanted, note.
 */
#ifndef PLYLOFT_CATALOGUE_H
#define PLYLOFT_CATALOGUE_H

#include "plyloft/document.h"
#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>

enum pl_catalogue_group {
    PL_CATALOGUE_FABRICS, PL_CATALOGUE_RESINS, PL_CATALOGUE_CORES, PL_CATALOGUE_METALS, PL_CATALOGUE_GROUPS
};

struct pl_catalogue;

/* Typical and own rows.  Problems are those of the own file, with places inside it; an own row with an error is left
 * out, and so are all when the file cannot be read.  The status then says so, and *out can be used all the same:
 * it is NULL for want of memory alone. */
enum pl_status pl_catalogue_load(struct pl_catalogue **out, struct pl_problems *problems);
void pl_catalogue_free(struct pl_catalogue *catalogue);

/* The own file, there or not, for sentences about it; NULL when there is no place for one. */
const char *pl_catalogue_file(const struct pl_catalogue *catalogue);

/* "fabrics": the list in the part file, and here. */
const char *pl_catalogue_group_key(enum pl_catalogue_group group);

/* What to say of rows that are not own. */
extern const char pl_catalogue_caution[];

/* Rows of a group; index is below the count.  Texts are as in the file, not safe to print, and live until the
 * catalogue is freed or one is kept. */
size_t pl_catalogue_count(const struct pl_catalogue *catalogue, enum pl_catalogue_group group);
bool pl_catalogue_is_own(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index);
const char *pl_catalogue_name(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index);
/* "glass", "epoxy", "polystyrene", "metal". */
const char *pl_catalogue_kind(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index);
/* A value by its key; NAN and "" when the row has none. */
double pl_catalogue_number(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index,
                           const char *key);
const char *pl_catalogue_text(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index,
                              const char *key);
/* The whole row as JSON; freed by the caller, NULL without memory. */
char *pl_catalogue_row(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index);

/* Puts a row at the end of the part's list, as one step of undo.  A name that is taken gets a number, "glass plain
 * 163 2"; when it is taken by the same row, nothing is added.  *row, which may be NULL, is where it stands in the
 * part's list in either case.  A part has no list of metals. */
enum pl_status pl_catalogue_copy(const struct pl_catalogue *catalogue, struct pl_document *doc,
                                 enum pl_catalogue_group group, size_t index, size_t *row,
                                 struct pl_problems *problems);

/* Keeps the part's row at pointer ("/fabrics/1") as an own one, in place of the own one of that name or behind the
 * last; the rest of the file stays byte for byte.  Problems of the row have their places in the part; those of the
 * file have its path.  On failure the file is as it was. */
enum pl_status pl_catalogue_keep(struct pl_catalogue *catalogue, const struct pl_document *doc, const char *pointer,
                                 struct pl_problems *problems);

#endif
