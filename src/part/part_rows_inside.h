/* part_rows_inside.h - what the sources behind part_rows.h share; private to src/part.
 *
 * part_rows.c has the rows of any list, part_rows_new.c what a new one is like, part_rows_places.c where along the
 * span it goes, part_rows_have.c what a row may have, part_rows_ways.c and part_rows_profile.c how else it can be said,
 * part_names.c names and who uses them, part_rows_edit.c the edits all are made of.
 */
#ifndef PLYLOFT_PART_ROWS_INSIDE_H
#define PLYLOFT_PART_ROWS_INSIDE_H

#include "part_rows_edit.h"

#include "plyloft/field.h"
#include "plyloft/part_rows.h"

enum { PL_ROW_NAME_MOST = 256 };

/* ---- places (part_rows.c) ---- */
struct pl_row_place {
    enum pl_group_id group;
    char list[PL_ROW_NAME_MOST], parent[PL_ROW_NAME_MOST];
    size_t index, count; /* index is count for the list itself */
    bool made;           /* the list is there */
};

/* False when pointer names neither a row nor a list that there is or could be. */
bool pl_row_place(const struct pl_document *doc, const char *pointer, struct pl_row_place *place);

/* ---- the wing as the document has it (part_rows_new.c); NAN where it does not say ---- */
double pl_row_half_span_mm(const struct pl_document *doc, const char *element);
double pl_row_mean_chord_mm(const struct pl_document *doc, const char *element, double from_mm, double to_mm);

/* The half span of the element that the load case at this pointer loads. */
double pl_row_loaded_half_span_mm(const struct pl_document *doc, const char *load_case);

/* A row of typical values of a group other than load cases, as JSON onto out. */
void pl_row_typical(const struct pl_document *doc, const struct pl_row_place *place, const char *name,
                    struct pl_buffer *out);
const char *pl_row_typical_name(enum pl_group_id group);

/* The pads of a new jacking case, one on either side, as a list. */
void pl_row_typical_pads(const struct pl_document *doc, const char *load_case, struct pl_buffer *out);

/* ---- places along the span (part_rows_places.c) ---- */

/* Where a mount or pad like row `like` finds room. */
double pl_row_free_place_mm(const struct pl_document *doc, const struct pl_row_place *place, size_t like);

/* The station behind which a new one goes: that of the place, or the one ahead of the tip; for the list, or where less
 * than a millimetre is left, that ahead of the widest gap. */
size_t pl_row_inner_station(const struct pl_document *doc, const struct pl_row_place *place);

/* A station inserted behind it gets the y halfway between its neighbours; between: the mean of them in everything. */
void pl_row_place_station(struct pl_row_edit *e, const struct pl_row_place *place, size_t inner, bool between);

/* ---- kinds of load case (part_rows_ways.c) ---- */
int pl_row_kind_of(const char *kind);   /* enum pl_case_kind, -1: none */
const char *pl_row_kind_word(int kind); /* "tip-strike" */
const char *pl_row_kind_name(int kind); /* what a new case is called */

/* Brings what the kind needs, and takes away what it does not know. */
void pl_row_fit_kind(struct pl_row_edit *e, const char *load_case, int kind);

/* ---- names (part_names.c) ---- */

/* Alike as the part sees them, that is made safe to print. */
bool pl_names_same(const char *a, const char *b);

/* The first row of the list with that name, but not row `except`; PL_NONE. */
size_t pl_names_find(const struct pl_document *doc, const char *list, const char *name, size_t except);

/* base, or base and the first number from 2 on that no row of the list has. */
void pl_names_unused(const struct pl_document *doc, const char *list, const char *base, char *out, size_t size);

/* The name of a copy: "top cap 2" of "top cap", and "top cap 3" of "top cap 2" where there is a "top cap". */
void pl_names_copy(const struct pl_document *doc, const char *list, const char *name, char *out, size_t size);

#endif
