/* sheet.c - drawings as PDF pages, by cairo. */
#include "drawing_inside.h"

#include "plyloft/text.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <math.h>

static const double points_a_mm = 72 / 25.4;  /* ISO 32000-1: a point is 1/72 inch */

static const char face[] = "sans-serif";

static cairo_status_t take(void *context, const unsigned char *bytes, unsigned length)
{
    struct pl_buffer *out = context;
    pl_buffer_add(out, (const char *)bytes, length);
    return out->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

static void draw_shape(cairo_t *c, const struct drawn *t)
{
    double grey = pl_drawn_grey(t->fill);
    cairo_new_path(c);
    for (size_t i = 0; i < t->n; i++)
        cairo_line_to(c, t->x_mm[i], t->y_mm[i]);
    if (t->closed)
        cairo_close_path(c);
    if (t->fill != PL_FILL_NONE) {
        cairo_set_source_rgb(c, grey, grey, grey);
        cairo_fill_preserve(c);
    }
    cairo_set_source_rgb(c, 0, 0, 0);
    cairo_set_line_width(c, pl_drawn_pen_mm(t->pen));
    cairo_set_dash(c, &(double){DRAWN_DASH_MM}, t->pen == PL_PEN_DASHED, 0);
    cairo_stroke(c);
}

static double width_of(cairo_t *c, const char *text)
{
    cairo_text_extents_t e;
    cairo_text_extents(c, text, &e);
    return e.x_advance;
}

static void draw_text(cairo_t *c, const struct drawn *t)
{
    cairo_set_font_size(c, pl_drawn_font_mm(t->size_mm));
    double back = t->anchor == PL_AT_START ? 0 : width_of(c, t->text) * (t->anchor == PL_AT_MIDDLE ? 0.5 : 1);
    cairo_save(c);
    cairo_set_source_rgb(c, 0, 0, 0);
    cairo_translate(c, *t->x_mm, *t->y_mm);
    cairo_rotate(c, t->turn_deg * M_PI / 180);
    cairo_move_to(c, -back, 0);
    cairo_show_text(c, t->text);
    cairo_restore(c);
}

static void draw_page(cairo_t *c, const struct drawn_page *p)
{
    cairo_save(c);
    cairo_scale(c, points_a_mm, points_a_mm);
    cairo_select_font_face(c, face, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    for (const struct drawn *t = p->first; t; t = t->next)
        if (t->kind == DRAWN_SHAPE && t->n)
            draw_shape(c, t);
        else if (t->kind == DRAWN_TEXT && t->x_mm)
            draw_text(c, t);
    cairo_restore(c);
    cairo_show_page(c);
}

static enum pl_status status_of(cairo_status_t status)
{
    return status == CAIRO_STATUS_SUCCESS ? PL_OK : PL_NO_MEMORY;
}

enum pl_status pl_drawing_pdf(const struct pl_drawing *d, const char *title, struct pl_buffer *out)
{
    const struct drawn_page *first = d->first;
    char safe[256];
    pl_text_safe(safe, sizeof safe, title);
    if (d->arena.failed || !first)
        return PL_NO_MEMORY;
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(take, out, first->width_mm * points_a_mm, first->height_mm * points_a_mm);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, safe);
    /* The same drawing gives the same bytes: no time of day in them. */
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
    cairo_t *c = cairo_create(surface);
    for (const struct drawn_page *p = first; p; p = p->next) {
        cairo_pdf_surface_set_size(surface, p->width_mm * points_a_mm, p->height_mm * points_a_mm);
        draw_page(c, p);
    }
    enum pl_status status = status_of(cairo_status(c));
    cairo_destroy(c);
    cairo_surface_finish(surface);
    if (status == PL_OK)
        status = status_of(cairo_surface_status(surface));
    cairo_surface_destroy(surface);
    return out->failed ? PL_NO_MEMORY : status;
}

double pl_text_width_mm(const char *text, double size_mm)
{
    /* A recording surface draws nothing and has the fonts' own measures. */
    cairo_surface_t *surface = cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, NULL);
    cairo_t *c = cairo_create(surface);
    cairo_select_font_face(c, face, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(c, 100);  /* large, so that hinting does not round */
    double width = width_of(c, text) * pl_drawn_font_mm(size_mm) / 100;
    cairo_destroy(c);
    cairo_surface_destroy(surface);
    return width;
}
