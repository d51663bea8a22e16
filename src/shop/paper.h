/* paper.h - A4 pages with a heading, filled from the top.  Private to the shop room. */
#ifndef PLYLOFT_PAPER_H
#define PLYLOFT_PAPER_H

#include "plyloft/drawing.h"
#include "plyloft/part.h"

#define PAPER_LEFT_MM 14.0
#define PAPER_WIDTH_MM 182.0
#define PAPER_TEXT_MM 2.3    /* capitals of running text: read at arm's length */

struct paper {
    struct pl_drawing *drawing;
    const struct pl_part *part;
    const char *title;
    double y_mm;             /* next free place */
};

/* Begins a page: title, part and revision, page number, and the line below. */
void pl_paper_page(struct paper *p);
/* A new page unless so much is left on this one. */
void pl_paper_need(struct paper *p, double height_mm);
double pl_paper_left_mm(const struct paper *p);

/* A line of text; long ones are wrapped at blanks. */
void pl_paper_line(struct paper *p, const char *text);
void pl_paper_heading(struct paper *p, const char *text);
/* A box to tick, its upper left corner. */
void pl_paper_box(struct paper *p, double x_mm, double y_mm);

#endif
