/* drawing.h - pages to be printed or looked at, in millimetres; written as PDF or as SVG.
 *
 * A drawing is made of pages, a page of named groups of lines, shapes and words; x to the right, y down, from the
 * page's upper left corner.  It knows nothing of wings.  PDF: ISO 32000-1 by cairo, 1 pt = 25.4/72 mm.  SVG: version
 * 1.1, one page, true millimetres (viewBox in mm), every group an element <g id> of its name.
 *
 * Calls that add return nothing: memory that ran out on the way, and what cannot be drawn truly - anything before the
 * first page, a page that is not above 0 and at most 5080 mm either way (14400 pt, ISO 32000-1, annex C), a place or
 * size that is no number or beyond 100 m, a size of words not above 0 - are remembered, and the writers refuse the
 * whole drawing for it: a template with a line left out would be cut as it is.
 */
#ifndef PLYLOFT_DRAWING_H
#define PLYLOFT_DRAWING_H

#include "plyloft/buffer.h"
#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>

enum pl_pen { PL_PEN_THIN, PL_PEN_LINE, PL_PEN_THICK, PL_PEN_DASHED };      /* 0.13, 0.25, 0.5, 0.25 mm (ISO 128) */
enum pl_fill { PL_FILL_NONE, PL_FILL_LIGHT, PL_FILL_MIDDLE, PL_FILL_DARK }; /* greys a cheap printer shows apart */
enum pl_anchor { PL_AT_START, PL_AT_MIDDLE, PL_AT_END };

struct pl_drawing;

struct pl_drawing *pl_drawing_new(void);  /* NULL without memory */
void pl_drawing_free(struct pl_drawing *drawing);  /* may be NULL */

void pl_drawing_page(struct pl_drawing *drawing, double width_mm, double height_mm);

/* What follows on the page belongs to it, until the next group or page; what comes before the first group belongs to
 * none.  In SVG its id is the name with an underscore for what an XML name may not hold, and a number behind a name
 * that the page already has ("cap", "cap-2"); the name as given is its <title>. */
void pl_drawing_group(struct pl_drawing *drawing, const char *name);

void pl_drawing_line(struct pl_drawing *drawing, enum pl_pen pen, double x1_mm, double y1_mm, double x2_mm,
                     double y2_mm);

/* Open or closed polygon through n points, which are copied; nothing with fewer than two. */
void pl_drawing_shape(struct pl_drawing *drawing, enum pl_pen pen, enum pl_fill fill, bool closed, const double *x_mm,
                      const double *y_mm, size_t n);
void pl_drawing_rectangle(struct pl_drawing *drawing, enum pl_pen pen, enum pl_fill fill, double x_mm, double y_mm,
                          double width_mm, double height_mm);

/* A thin line with a filled head, its tip at 2; nothing when both ends are one place. */
void pl_drawing_arrow(struct pl_drawing *drawing, double x1_mm, double y1_mm, double x2_mm, double y2_mm);

/* UTF-8, copied, its base line at x, y, capitals size_mm high, turned clockwise by turn_deg about that point.  Made
 * safe as by pl_text_safe: line ends become spaces, what is no character U+FFFD. */
void pl_drawing_text(struct pl_drawing *drawing, double x_mm, double y_mm, double size_mm, enum pl_anchor anchor,
                     double turn_deg, const char *text);

/* Cut with an ellipsis to what is at most width_mm wide; nothing where not even that has the room. */
void pl_drawing_text_in(struct pl_drawing *drawing, double x_mm, double y_mm, double size_mm, double width_mm,
                        const char *text);

/* In the letters of the PDF; a viewer of the SVG may have others.  0 without memory. */
double pl_text_width_mm(const char *text, double size_mm);

size_t pl_drawing_pages(const struct pl_drawing *drawing);

/* Both add to out, which is not to be read when they fail: PL_NO_MEMORY, or PL_BAD_INPUT for a drawing that cannot be
 * drawn truly, has no page, or not the page asked for (the first is 0).  The same drawing gives the same bytes on the
 * same machine: they hold no time, and numbers are free of the locale. */

/* All pages as one PDF file, letters embedded; title for its metadata, may be NULL. */
enum pl_status pl_drawing_pdf(const struct pl_drawing *drawing, const char *title, struct pl_buffer *out);

/* One page; title may be NULL. */
enum pl_status pl_drawing_svg(const struct pl_drawing *drawing, size_t page, const char *title, struct pl_buffer *out);

#endif
