#include "plyloft/drawing.h"

#include "drawing_inside.h"

#include "plyloft/text.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* ISO 32000-1, annex C: a page is at most 14400 units of 1/72 in.  cairo keeps places as 24.8 fixed point numbers in
 * points, which hold 100 m and resolve 0.0014 mm. */
static const double widest_page_mm = 14400 * 25.4 / 72, farthest_mm = 1e5;

/* ISO 129-1: a filled head of 15 to 30 degrees. */
static const double head_mm = 2.5, head_half_angle_deg = 10;

/* ---- what both writers draw alike ---- */

double pl_drawing_pen_mm(enum pl_pen pen)
{
    static const double widths_mm[] = {0.13, 0.25, 0.5, 0.25};
    return widths_mm[pen];
}

double pl_drawing_grey(int fill)
{
    static const double greys[] = {1, 0.88, 0.72, 0.5, 0};
    return greys[fill];
}

struct drawing_dashes pl_drawing_dashes(enum pl_pen pen)
{
    /* ISO 128-2, line type 02: dashes of 12 line widths, gaps of 3. */
    double width_mm = pl_drawing_pen_mm(pen);
    return (struct drawing_dashes){12 * width_mm, 3 * width_mm};
}

char *pl_drawing_safe_copy(const char *text)
{
    if (!text)
        text = "";
    /* Each byte becomes U+FFFD at most, which has three. */
    size_t size = 3 * strlen(text) + 1;
    char *copy = malloc(size);
    if (copy)
        pl_text_safe(copy, size, text);
    return copy;
}

enum pl_status pl_drawing_state(const struct pl_drawing *drawing)
{
    if (drawing->no_memory || drawing->texts.failed)
        return PL_NO_MEMORY;
    return drawing->untrue || !drawing->page_count ? PL_BAD_INPUT : PL_OK;
}

size_t pl_drawing_page_end(const struct pl_drawing *drawing, size_t page)
{
    return page + 1 < drawing->page_count ? drawing->pages[page + 1].first_item : drawing->item_count;
}

/* ---- the list ---- */

struct pl_drawing *pl_drawing_new(void)
{
    return calloc(1, sizeof(struct pl_drawing));
}

void pl_drawing_free(struct pl_drawing *drawing)
{
    if (!drawing)
        return;
    free(drawing->pages);
    free(drawing->items);
    free(drawing->points);
    pl_buffer_free(&drawing->texts);
    free(drawing);
}

size_t pl_drawing_pages(const struct pl_drawing *drawing)
{
    return drawing->page_count;
}

/* The list with room for more entries of that size behind count; NULL, and the list as it was, without memory. */
static void *with_room(void *list, size_t *room, size_t count, size_t more, size_t size)
{
    if (more <= *room - count)
        return list;
    size_t wanted = *room < 16 ? 16 : 2 * *room;
    if (wanted - count < more)
        wanted = count + more;
    if (more > SIZE_MAX / 4 / size - count)
        return NULL;
    list = realloc(list, wanted * size);
    if (list)
        *room = wanted;
    return list;
}

static bool drawable(double mm)
{
    return fabs(mm) <= farthest_mm; /* nor is NAN */
}

/* True where something may be added; what cannot be drawn is remembered. */
static bool may_add(struct pl_drawing *drawing, bool as_asked)
{
    if (!as_asked || !drawing->page_count)
        drawing->untrue = true;
    return !drawing->no_memory && !drawing->untrue;
}

static void add_item(struct pl_drawing *drawing, const struct drawing_item *item)
{
    struct drawing_item *items = with_room(drawing->items, &drawing->item_room, drawing->item_count, 1, sizeof *items);
    if (!items) {
        drawing->no_memory = true;
        return;
    }
    drawing->items = items;
    items[drawing->item_count++] = *item;
}

/* Room for n points behind those there are. */
static struct drawing_point *new_points(struct pl_drawing *drawing, size_t n)
{
    struct drawing_point *points =
        with_room(drawing->points, &drawing->point_room, drawing->point_count, n, sizeof *points);
    if (!points) {
        drawing->no_memory = true;
        return NULL;
    }
    drawing->points = points;
    return points + drawing->point_count;
}

/* The item, its text a safe copy. */
static void add_worded(struct pl_drawing *drawing, struct drawing_item item, const char *text)
{
    char *copy = pl_drawing_safe_copy(text);
    if (!copy) {
        drawing->no_memory = true;
        return;
    }
    item.text = drawing->texts.length;
    pl_buffer_add(&drawing->texts, copy, strlen(copy) + 1);
    free(copy);
    add_item(drawing, &item);
}

void pl_drawing_page(struct pl_drawing *drawing, double width_mm, double height_mm)
{
    bool fits = width_mm > 0 && height_mm > 0 && width_mm <= widest_page_mm && height_mm <= widest_page_mm;
    drawing->untrue |= !fits;
    struct drawing_page *pages = with_room(drawing->pages, &drawing->page_room, drawing->page_count, 1, sizeof *pages);
    if (!pages) {
        drawing->no_memory = true;
        return;
    }
    drawing->pages = pages;
    pages[drawing->page_count++] = (struct drawing_page){width_mm, height_mm, drawing->item_count};
}

void pl_drawing_group(struct pl_drawing *drawing, const char *name)
{
    if (may_add(drawing, true))
        add_worded(drawing, (struct drawing_item){.kind = DRAWING_GROUP}, name);
}

/* ---- lines and shapes ---- */

static void add_path(struct pl_drawing *drawing, enum pl_pen pen, int fill, bool closed, const double *x_mm,
                     const double *y_mm, size_t n)
{
    bool as_asked = true;
    for (size_t i = 0; i < n; i++)
        as_asked = as_asked && drawable(x_mm[i]) && drawable(y_mm[i]);
    if (!may_add(drawing, as_asked) || n < 2)
        return;
    struct drawing_point *points = new_points(drawing, n);
    if (!points)
        return;
    for (size_t i = 0; i < n; i++)
        points[i] = (struct drawing_point){x_mm[i], y_mm[i]};
    struct drawing_item item = {.kind = DRAWING_PATH, .pen = pen, .fill = fill, .closed = closed};
    item.first_point = drawing->point_count;
    item.points = n;
    drawing->point_count += n;
    add_item(drawing, &item);
}

void pl_drawing_shape(struct pl_drawing *drawing, enum pl_pen pen, enum pl_fill fill, bool closed, const double *x_mm,
                      const double *y_mm, size_t n)
{
    add_path(drawing, pen, (int)fill, closed, x_mm, y_mm, n);
}

void pl_drawing_line(struct pl_drawing *drawing, enum pl_pen pen, double x1_mm, double y1_mm, double x2_mm,
                     double y2_mm)
{
    add_path(drawing, pen, PL_FILL_NONE, false, (double[]){x1_mm, x2_mm}, (double[]){y1_mm, y2_mm}, 2);
}

void pl_drawing_rectangle(struct pl_drawing *drawing, enum pl_pen pen, enum pl_fill fill, double x_mm, double y_mm,
                          double width_mm, double height_mm)
{
    double right_mm = x_mm + width_mm, low_mm = y_mm + height_mm;
    add_path(drawing, pen, (int)fill, true, (double[]){x_mm, right_mm, right_mm, x_mm},
             (double[]){y_mm, y_mm, low_mm, low_mm}, 4);
}

void pl_drawing_arrow(struct pl_drawing *drawing, double x1_mm, double y1_mm, double x2_mm, double y2_mm)
{
    double length_mm = hypot(x2_mm - x1_mm, y2_mm - y1_mm);
    bool as_asked = drawable(x1_mm) && drawable(y1_mm) && drawable(x2_mm) && drawable(y2_mm);
    if (!may_add(drawing, as_asked) || length_mm == 0)
        return;
    double along_x = (x2_mm - x1_mm) / length_mm, along_y = (y2_mm - y1_mm) / length_mm;
    double head = fmin(head_mm, length_mm), half = head * tan(head_half_angle_deg * M_PI / 180);
    double back_x_mm = x2_mm - head * along_x, back_y_mm = y2_mm - head * along_y;
    /* The line ends where the head begins: at the tip its width would show beside it. */
    if (head < length_mm)
        pl_drawing_line(drawing, PL_PEN_THIN, x1_mm, y1_mm, back_x_mm, back_y_mm);
    add_path(drawing, PL_PEN_THIN, DRAWING_BLACK, true,
             (double[]){x2_mm, back_x_mm - half * along_y, back_x_mm + half * along_y},
             (double[]){y2_mm, back_y_mm + half * along_x, back_y_mm - half * along_x}, 3);
}

/* ---- words ---- */

void pl_drawing_text(struct pl_drawing *drawing, double x_mm, double y_mm, double size_mm, enum pl_anchor anchor,
                     double turn_deg, const char *text)
{
    bool as_asked = drawable(x_mm) && drawable(y_mm) && drawable(size_mm) && size_mm > 0 && isfinite(turn_deg);
    struct drawing_item item = {.kind = DRAWING_TEXT, .at = {x_mm, y_mm}, .size_mm = size_mm, .anchor = anchor};
    item.turn_deg = fmod(turn_deg, 360);
    if (may_add(drawing, as_asked))
        add_worded(drawing, item, text);
}

/* The first length bytes, without blanks at their end, and an ellipsis; cut has the room. */
static void cut_at(char *cut, const char *text, size_t length)
{
    while (length && text[length - 1] == ' ')
        length--;
    memcpy(cut, text, length);
    memcpy(cut + length, "\xe2\x80\xa6", 4);
}

static bool within_character(char byte)
{
    return ((unsigned char)byte & 0xc0) == 0x80;
}

/* A character's border about midway between two such; high when there is none. */
static size_t border_between(const char *text, size_t low, size_t high)
{
    size_t mid = low + (high - low) / 2;
    while (mid > low && within_character(text[mid]))
        mid--;
    if (mid > low)
        return mid;
    for (mid = low + 1; mid < high && within_character(text[mid]);)
        mid++;
    return mid;
}

/* The longest cut of a text too wide that is no wider than asked; "" when none is. */
static void cut_to_width(char *cut, const char *text, double size_mm, double width_mm)
{
    size_t fits = 0, too_long = strlen(text);
    for (size_t at; (at = border_between(text, fits, too_long)) < too_long;) {
        cut_at(cut, text, at);
        if (pl_text_width_mm(cut, size_mm) <= width_mm)
            fits = at;
        else
            too_long = at;
    }
    cut_at(cut, text, fits);
    if (pl_text_width_mm(cut, size_mm) > width_mm)
        cut[0] = '\0';
}

void pl_drawing_text_in(struct pl_drawing *drawing, double x_mm, double y_mm, double size_mm, double width_mm,
                        const char *text)
{
    if (!may_add(drawing, drawable(size_mm) && size_mm > 0 && !isnan(width_mm)))
        return;
    char *whole = pl_drawing_safe_copy(text), *cut = whole ? malloc(strlen(whole) + 4) : NULL;
    if (!cut) {
        drawing->no_memory = true;
    } else if (pl_text_width_mm(whole, size_mm) <= width_mm) {
        pl_drawing_text(drawing, x_mm, y_mm, size_mm, PL_AT_START, 0, whole);
    } else {
        cut_to_width(cut, whole, size_mm, width_mm);
        pl_drawing_text(drawing, x_mm, y_mm, size_mm, PL_AT_START, 0, cut);
    }
    free(cut);
    free(whole);
}
