/* drawing_inside.h - the list of what is drawn, as its two writers read it.
 *
 * Items stand in the order they are drawn; points and texts in pools, of which an item names its part.
 */
#ifndef PLYLOFT_SHOP_DRAWING_INSIDE_H
#define PLYLOFT_SHOP_DRAWING_INSIDE_H

#include "plyloft/drawing.h"

struct drawing_point {
    double x_mm, y_mm;
};

enum drawing_kind { DRAWING_GROUP, DRAWING_PATH, DRAWING_TEXT };

/* Beside the public fills: the head of an arrow, which has no outline. */
enum { DRAWING_BLACK = PL_FILL_DARK + 1 };

struct drawing_item {
    enum drawing_kind kind;

    /* a path */
    enum pl_pen pen;
    int fill;  /* enum pl_fill or DRAWING_BLACK */
    bool closed;
    size_t first_point, points;

    /* a text; a group has just the name */
    size_t text;  /* where it begins in texts */
    struct drawing_point at;
    double size_mm, turn_deg;
    enum pl_anchor anchor;
};

struct drawing_page {
    double width_mm, height_mm;
    size_t first_item;
};

struct pl_drawing {
    struct drawing_page *pages;
    struct drawing_item *items;
    struct drawing_point *points;
    size_t page_count, page_room, item_count, item_room, point_count, point_room;
    struct pl_buffer texts;  /* safe, each with its NUL, one behind the other */
    bool no_memory, untrue;  /* untrue: something was asked for that cannot be drawn as asked */
};

/* PL_OK when the drawing can be written. */
enum pl_status pl_drawing_state(const struct pl_drawing *drawing);

/* One behind the page's last item. */
size_t pl_drawing_page_end(const struct pl_drawing *drawing, size_t page);

double pl_drawing_pen_mm(enum pl_pen pen);

/* Lightness from 0, black, to 1, white. */
double pl_drawing_grey(int fill);

/* Dashes and gaps of a dashed line that wide. */
struct drawing_dashes {
    double dash_mm, gap_mm;
};
struct drawing_dashes pl_drawing_dashes(enum pl_pen pen);

/* As pl_text_safe, of any length, freed by the caller; "" for NULL; NULL without memory. */
char *pl_drawing_safe_copy(const char *text);

#endif
