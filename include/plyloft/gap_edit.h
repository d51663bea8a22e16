/* gap_edit.h - gap and overlap as fields: said in words, typed and stepped, and kept nowhere but in the stations.
 *
 * Their rows stand in the table of fields as derived ones: gap_mm and overlap_mm of a station, and of an element for its
 * whole span.  An edit moves leading edges (x_le_mm, z_le_mm, to the thousandth of a millimetre) of the element they are
 * of until the one is what was wished and the other what it was, and is one step of undo.  What cannot be is refused, with
 * nothing changed.  The geometry is that of gap.h.
 */
#ifndef PLYLOFT_GAP_EDIT_H
#define PLYLOFT_GAP_EDIT_H

#include "plyloft/document.h"
#include "plyloft/gap.h"

/* What a person typed, as for pl_part_type. */
enum pl_status pl_gap_type(struct pl_document *doc, const char *pointer, const char *typed, struct pl_problems *problems);

/* One step up or down; of a whole span each station by as much.  PL_OK without a change at the end of the range. */
enum pl_status pl_gap_step(struct pl_document *doc, const char *pointer, int way, struct pl_problems *problems);

/* The value as shown in a cell, in millimetres: "5.2"; of a whole span that has no single one "4.8 to 6.2"; "-" without. */
void pl_gap_words(const struct pl_gap_shape *shape, const char *pointer, char *out, size_t size);

/* More about it: "1.73 % of the chord of main", "crosses main"; "" without. */
void pl_gap_more_words(const struct pl_gap_shape *shape, const char *pointer, char *out, size_t size);

#endif
