/* drawing_inside.h - what a drawing is made of.  Private to the shop room. */
#ifndef PLYLOFT_DRAWING_INSIDE_H
#define PLYLOFT_DRAWING_INSIDE_H

#include "plyloft/arena.h"
#include "plyloft/drawing.h"

enum drawn_kind { DRAWN_GROUP, DRAWN_SHAPE, DRAWN_TEXT };

struct drawn {
    struct drawn *next;
    enum drawn_kind kind;
    enum pl_pen pen;
    enum pl_fill fill;
    bool closed;
    size_t n;              /* points */
    const double *x_mm, *y_mm;
    double size_mm, turn_deg;
    enum pl_anchor anchor;
    const char *text;      /* or a group's name; made safe */
};

struct drawn_page {
    struct drawn_page *next;
    double width_mm, height_mm;
    struct drawn *first, *last;
};

struct pl_drawing {
    struct pl_arena arena;
    struct drawn_page *first, *last;
    size_t n_pages;
};

/* Width of a pen; height of letters whose capitals are size_mm high. */
double pl_drawn_pen_mm(enum pl_pen pen);
double pl_drawn_font_mm(double size_mm);
/* 0 black to 1 white. */
double pl_drawn_grey(enum pl_fill fill);
#define DRAWN_DASH_MM 2.0

/* The page of a number, from 0; NULL past the last. */
const struct drawn_page *pl_drawn_page_at(const struct pl_drawing *drawing, size_t page);

#endif
