#include "drawing_inside.h"

#include "plyloft/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct pl_drawing *pl_drawing_new(void)
{
    return calloc(1, sizeof(struct pl_drawing));
}

void pl_drawing_free(struct pl_drawing *d)
{
    if (!d)
        return;
    pl_arena_free(&d->arena);
    free(d);
}

double pl_drawn_pen_mm(enum pl_pen pen)
{
    return pen == PL_PEN_THIN ? 0.13 : pen == PL_PEN_THICK ? 0.5 : 0.25;
}

/* Capitals of the usual faces are seven tenths of the letter's height. */
double pl_drawn_font_mm(double size_mm)
{
    return size_mm / 0.7;
}

double pl_drawn_grey(enum pl_fill fill)
{
    return fill == PL_FILL_LIGHT ? 0.9 : fill == PL_FILL_MIDDLE ? 0.75 : fill == PL_FILL_DARK ? 0.5 : 1;
}

const struct drawn_page *pl_drawn_page_at(const struct pl_drawing *d, size_t page)
{
    const struct drawn_page *p = d->first;
    while (p && page--)
        p = p->next;
    return p;
}

size_t pl_drawing_pages(const struct pl_drawing *d)
{
    return d->n_pages;
}

void pl_drawing_page(struct pl_drawing *d, double width_mm, double height_mm)
{
    struct drawn_page *p = pl_arena_take(&d->arena, 1, sizeof *p);
    if (!p)
        return;
    p->width_mm = width_mm;
    p->height_mm = height_mm;
    *(d->last ? &d->last->next : &d->first) = p;
    d->last = p;
    d->n_pages++;
}

/* A thing on the newest page; NULL without one, or memory. */
static struct drawn *put(struct pl_drawing *d, enum drawn_kind kind)
{
    struct drawn_page *p = d->last;
    struct drawn *t = p ? pl_arena_take(&d->arena, 1, sizeof *t) : NULL;
    if (!t)
        return NULL;
    t->kind = kind;
    *(p->last ? &p->last->next : &p->first) = t;
    p->last = t;
    return t;
}

/* Without what no file may hold. */
static const char *copy(struct pl_drawing *d, const char *text)
{
    size_t size = 4 * strlen(text) + 1;
    char *out = pl_arena_take(&d->arena, size, 1);
    if (out)
        pl_text_safe(out, size, text);
    return out ? out : "";
}

void pl_drawing_group(struct pl_drawing *d, const char *name)
{
    struct drawn *t = put(d, DRAWN_GROUP);
    if (t)
        t->text = copy(d, name);
}

void pl_drawing_shape(struct pl_drawing *d, enum pl_pen pen, enum pl_fill fill, bool closed, const double *x_mm, const double *y_mm, size_t n)
{
    struct drawn *t = put(d, DRAWN_SHAPE);
    double *points = t ? pl_arena_take_raw(&d->arena, 2 * n, sizeof *points) : NULL;
    if (!points)
        return;
    memcpy(points, x_mm, n * sizeof *points);
    memcpy(points + n, y_mm, n * sizeof *points);
    t->pen = pen;
    t->fill = fill;
    t->closed = closed;
    t->n = n;
    t->x_mm = points;
    t->y_mm = points + n;
}

void pl_drawing_line(struct pl_drawing *d, enum pl_pen pen, double x1_mm, double y1_mm, double x2_mm, double y2_mm)
{
    pl_drawing_shape(d, pen, PL_FILL_NONE, false, (double[]){x1_mm, x2_mm}, (double[]){y1_mm, y2_mm}, 2);
}

void pl_drawing_rectangle(struct pl_drawing *d, enum pl_pen pen, enum pl_fill fill, double x_mm, double y_mm, double width_mm, double height_mm)
{
    pl_drawing_shape(d, pen, fill, true, (double[]){x_mm, x_mm + width_mm, x_mm + width_mm, x_mm},
                     (double[]){y_mm, y_mm, y_mm + height_mm, y_mm + height_mm}, 4);
}

void pl_drawing_arrow(struct pl_drawing *d, double x1_mm, double y1_mm, double x2_mm, double y2_mm)
{
    double length = hypot(x2_mm - x1_mm, y2_mm - y1_mm), long_mm = 2, wide_mm = 0.6;
    if (!(length > 0))
        return;
    double ux = (x2_mm - x1_mm) / length, uy = (y2_mm - y1_mm) / length, x = x2_mm - long_mm * ux, y = y2_mm - long_mm * uy;
    pl_drawing_line(d, PL_PEN_LINE, x1_mm, y1_mm, x, y);
    pl_drawing_shape(d, PL_PEN_THIN, PL_FILL_DARK, true, (double[]){x2_mm, x - wide_mm * uy, x + wide_mm * uy}, (double[]){y2_mm, y + wide_mm * ux, y - wide_mm * ux}, 3);
}

void pl_drawing_text(struct pl_drawing *d, double x_mm, double y_mm, double size_mm, enum pl_anchor anchor, double turn_deg, const char *text)
{
    struct drawn *t = put(d, DRAWN_TEXT);
    double *at = t ? pl_arena_take_raw(&d->arena, 2, sizeof *at) : NULL;
    if (!at)
        return;
    at[0] = x_mm;
    at[1] = y_mm;
    t->x_mm = at;
    t->y_mm = at + 1;
    t->size_mm = size_mm;
    t->anchor = anchor;
    t->turn_deg = turn_deg;
    t->text = copy(d, text);
}

void pl_drawing_text_in(struct pl_drawing *d, double x_mm, double y_mm, double size_mm, double width_mm, const char *text)
{
    static const char ellipsis[] = "\xe2\x80\xa6";
    char cut[512];
    size_t n = strlen(text);
    if (pl_text_width_mm(text, size_mm) <= width_mm) {
        pl_drawing_text(d, x_mm, y_mm, size_mm, PL_AT_START, 0, text);
        return;
    }
    n = n < sizeof cut - sizeof ellipsis ? n : sizeof cut - sizeof ellipsis;
    do {
        while (n && ((unsigned char)text[n] & 0xc0) == 0x80)  /* at a character's border */
            n--;
        memcpy(cut, text, n);
        strcpy(cut + n, ellipsis);
    } while (n && pl_text_width_mm(cut, size_mm) > width_mm && n--);
    pl_drawing_text(d, x_mm, y_mm, size_mm, PL_AT_START, 0, cut);
}
