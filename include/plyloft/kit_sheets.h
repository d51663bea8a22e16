/* kit_sheets.h - the kit on paper: rolls to cut from, the table of pieces, cups to mix, and the ply book.
 *
 * PDF pages are A4 (ISO 216), upright, to be hung on the wall; greys only.  The SVG has the rolls at full size in millimetres,
 * a group for each cloth.
 */
#ifndef PLYLOFT_KIT_SHEETS_H
#define PLYLOFT_KIT_SHEETS_H

#include "plyloft/buffer.h"
#include "plyloft/shop.h"

enum pl_status pl_kit_pdf(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out);
enum pl_status pl_kit_svg(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out);
enum pl_status pl_book_pdf(const struct pl_part *part, const struct pl_shop *shop, struct pl_buffer *out);

#endif
