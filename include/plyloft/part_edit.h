/* part_edit.h - edits as a person means them, each one step of undo.
 *
 * Built on the document's plain edits and the table of fields: a typed value, a step up
 * or down, the next choice, a span that takes along what ends at the tip.  Steps carry a
 * name ("top cap: Plies 5 -> 4") and merge while they stay in one field.  A value that
 * makes the part invalid is kept; only text that is no value at all is refused.
 */
#ifndef PLYLOFT_PART_EDIT_H
#define PLYLOFT_PART_EDIT_H

#include "plyloft/document.h"
#include "plyloft/field.h"

/* What a person typed for the field at pointer: numbers with a decimal point or comma.  An empty text takes an
 * optional value out.  PL_BAD_INPUT with a problem when it is no value for this field. */
enum pl_status pl_part_type(struct pl_document *doc, const char *pointer, const char *typed, struct pl_problems *problems);

/* One step up (1) or down (-1): a number by the field's step, held inside its hard range; a choice, a flag or a
 * reference to the next or the one before.  PL_OK without a change at the end of the range. */
enum pl_status pl_part_step(struct pl_document *doc, const char *pointer, int way, struct pl_problems *problems);

/* Half the span of an element: the last station, and with it everything that ends or stands at the tip: ply
 * groups, mounts, pushes, and mounts of other elements there. */
enum pl_status pl_part_set_half_span(struct pl_document *doc, size_t element, double half_span_mm,
                                     struct pl_problems *problems);

/* True when pointer is the y of an element's last station; *element is then set. */
bool pl_part_is_half_span(const struct pl_document *doc, const char *pointer, size_t *element);

/* The name of a step that takes the field at pointer from one value to another: "top cap: Plies 5 -> 4"; one that joins the
 * step before (with the pointer as its merge_key) goes on from that one's first value. */
void pl_part_step_words(const struct pl_document *doc, const char *pointer, const char *from, const char *to, char *out,
                        size_t size);

/* The value as shown in a cell: as spelled, texts without quotes; what it is when left out ("tip", "0", "-"). */
void pl_part_value_words(const struct pl_document *doc, const char *pointer, char *out, size_t size);

/* What a row is called: its name, or its noun and number from 1 ("station 2"). */
void pl_part_row_words(const struct pl_document *doc, const char *pointer, char *out, size_t size);

#endif
