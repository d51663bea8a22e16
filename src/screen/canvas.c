/* canvas.c - dots and lines in a part of a frame. */
#include "plyloft/frame.h"

#include <math.h>

/* Place of a value among n dots, whose first and last are the ends of the range; NAN when it has none. */
static double dot_place(double value, double from, double to, int n)
{
    if (!isfinite(value) || !isfinite(from) || !isfinite(to))
        return nan("");
    if (from == to)
        return value == from ? 0.5 * (n - 1) : nan("");
    return (value - from) / (to - from) * (n - 1);
}

/* Dots on the canvas run over [-0.5, n - 0.5]. */
static int nearest(double place, int n)
{
    int dot = (int)floor(place + 0.5);
    return dot < 0 ? 0 : dot >= n ? n - 1 : dot;
}

static bool within(double place, int n)
{
    return place >= -0.5 && place <= n - 0.5;  /* false for NAN */
}

static int dots_across(const struct pl_canvas *c)
{
    return 2 * c->columns;
}

static int dots_down(const struct pl_canvas *c)
{
    return 4 * c->rows;
}

static double across(const struct pl_canvas *c, double x)
{
    return dot_place(x, c->x_from, c->x_to, dots_across(c));
}

static double down(const struct pl_canvas *c, double y)
{
    return dot_place(y, c->y_to, c->y_from, dots_down(c));
}

static void set_dot(const struct pl_canvas *c, int right, int below, enum pl_role role)
{
    /* Bits of a braille pattern by row and column of the dot (Unicode, chapter 21). */
    static const uint8_t bits[4][2] = {{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}};
    struct pl_frame *f = c->frame;
    int row = c->row + below / 4, column = c->column + right / 2;
    if (row < 0 || row >= f->rows || column < 0 || column >= f->columns)
        return;
    const struct pl_cell *cell = &f->cells[(size_t)row * (size_t)f->columns + (size_t)column];
    bool label = !cell->dots && (cell->code != ' ' || cell->combining[0]);
    if (!label)
        pl_frame_code(f, row, column, role, 0x2800u + (cell->dots | bits[below % 4][right % 2]));
}

void pl_canvas_dot(const struct pl_canvas *c, double x, double y, enum pl_role role)
{
    double right = across(c, x), below = down(c, y);
    if (c->rows > 0 && c->columns > 0 && within(right, dots_across(c)) && within(below, dots_down(c)))
        set_dot(c, nearest(right, dots_across(c)), nearest(below, dots_down(c)), role);
}

bool pl_canvas_cell(const struct pl_canvas *c, double x, double y, int *row, int *column)
{
    double right = across(c, x), below = down(c, y);
    if (c->rows <= 0 || c->columns <= 0 || !within(right, dots_across(c)) || !within(below, dots_down(c)))
        return false;
    *row = c->row + nearest(below, dots_down(c)) / 4;
    *column = c->column + nearest(right, dots_across(c)) / 2;
    return true;
}

/* The stretch t0..t1 of a line that lies on the canvas. */
struct stretch {
    double t0, t1;
};

/* Clips by one edge: the line is inside where step * t <= room (Liang and Barsky, A new concept and
 * method for line clipping, ACM Transactions on Graphics 3, 1984).  False when nothing is left. */
static bool clip_edge(struct stretch *s, double step, double room)
{
    if (step == 0)
        return room >= 0;
    double t = room / step;
    if (step < 0 && t > s->t0)
        s->t0 = t;
    if (step > 0 && t < s->t1)
        s->t1 = t;
    return s->t0 <= s->t1;
}

static bool clip_axis(struct stretch *s, double start, double step, int n)
{
    return clip_edge(s, -step, start + 0.5) && clip_edge(s, step, n - 0.5 - start);
}

/* on and off count dots along the line's longer way, from the canvas's edge, so that dashes of
 * neighbouring pieces of one curve fit together. */
static void draw_line(const struct pl_canvas *c, double x1, double y1, double x2, double y2, enum pl_role role,
                      bool dashed)
{
    double right = across(c, x1), below = down(c, y1);
    double step_right = across(c, x2) - right, step_down = down(c, y2) - below;
    struct stretch s = {0, 1};
    if (c->rows <= 0 || c->columns <= 0 || !isfinite(step_right) || !isfinite(step_down))
        return;
    if (!clip_axis(&s, right, step_right, dots_across(c)) || !clip_axis(&s, below, step_down, dots_down(c)))
        return;
    double longer = fmax(fabs(step_right), fabs(step_down)) * (s.t1 - s.t0);
    int count = (int)ceil(longer);
    for (int i = 0; i <= count; i++) {
        double t = count ? s.t0 + (s.t1 - s.t0) * i / count : s.t0;
        int x = nearest(right + t * step_right, dots_across(c)), y = nearest(below + t * step_down, dots_down(c));
        int along = fabs(step_right) >= fabs(step_down) ? x : y;
        if (!dashed || along % 4 < 2)
            set_dot(c, x, y, role);
    }
}

void pl_canvas_line(const struct pl_canvas *c, double x1, double y1, double x2, double y2, enum pl_role role)
{
    draw_line(c, x1, y1, x2, y2, role, false);
}

void pl_canvas_dashed(const struct pl_canvas *c, double x1, double y1, double x2, double y2, enum pl_role role)
{
    draw_line(c, x1, y1, x2, y2, role, true);
}
