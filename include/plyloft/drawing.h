/* drawing.h - pages to be printed or looked at, in millimetres; written as PDF or as SVG.
 *
 * A drawing is made of pages, a page of named groups of lines, shapes and words; x to the right, y down, from the page's upper
 * left corner.  It knows nothing of wings.  PDF: ISO 32000-1 by cairo, 1 pt = 25.4/72 mm.  SVG: version 1.1, one page, true
 * millimetres (viewBox in mm), every group an element <g id> of its name.
 */
#ifndef PLYLOFT_DRAWING_H
#define PLYLOFT_DRAWING_H

#include "plyloft/buffer.h"
#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>

enum pl_pen { PL_PEN_THIN, PL_PEN_LINE, PL_PEN_THICK, PL_PEN_DASHED };   /* 0.13, 0.25, 0.5, 0.25 mm (ISO 128) */
enum pl_fill { PL_FILL_NONE, PL_FILL_LIGHT, PL_FILL_MIDDLE, PL_FILL_DARK };  /* greys, that a cheap printer shows apart */
enum pl_anchor { PL_AT_START, PL_AT_MIDDLE, PL_AT_END };

struct pl_drawing;

struct pl_drawing *pl_drawing_new(void);  /* NULL without memory */
void pl_drawing_free(struct pl_drawing *drawing);

/* Memory that runs out on the way is remembered, and told by the writers. */
void pl_drawing_page(struct pl_drawing *drawing, double width_mm, double height_mm);
void pl_drawing_group(struct pl_drawing *drawing, const char *name);   /* what follows on the page belongs to it */
void pl_drawing_line(struct pl_drawing *drawing, enum pl_pen pen, double x1_mm, double y1_mm, double x2_mm, double y2_mm);
/* Open or closed polygon through n points. */
void pl_drawing_shape(struct pl_drawing *drawing, enum pl_pen pen, enum pl_fill fill, bool closed, const double *x_mm, const double *y_mm, size_t n);
void pl_drawing_rectangle(struct pl_drawing *drawing, enum pl_pen pen, enum pl_fill fill, double x_mm, double y_mm, double width_mm, double height_mm);
void pl_drawing_arrow(struct pl_drawing *drawing, double x1_mm, double y1_mm, double x2_mm, double y2_mm);  /* head at 2 */
/* UTF-8, its base line at x, y, capitals size_mm high, turned clockwise by turn_deg about that point. */
void pl_drawing_text(struct pl_drawing *drawing, double x_mm, double y_mm, double size_mm, enum pl_anchor anchor, double turn_deg, const char *text);
/* Cut with an ellipsis to what is at most width_mm wide. */
void pl_drawing_text_in(struct pl_drawing *drawing, double x_mm, double y_mm, double size_mm, double width_mm, const char *text);
double pl_text_width_mm(const char *text, double size_mm);

size_t pl_drawing_pages(const struct pl_drawing *drawing);

/* All pages as one PDF file; title for its metadata.  The bytes do not hold the time. */
enum pl_status pl_drawing_pdf(const struct pl_drawing *drawing, const char *title, struct pl_buffer *out);
/* One page. */
enum pl_status pl_drawing_svg(const struct pl_drawing *drawing, size_t page, const char *title, struct pl_buffer *out);

#endif
