/* Pages as PDF, and the width of words: all that needs cairo. */
#include "plyloft/drawing.h"

#include "drawing_inside.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <math.h>
#include <stdlib.h>

static const double points_per_mm = 72 / 25.4;

/* ---- letters ---- */

/* Measured at this size, in points; outlines are not hinted, so widths grow with the size exactly. */
static const double measured_at = 1000;

static cairo_font_options_t *unhinted(void)
{
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    return options;
}

/* The system's sans-serif; where it has no font at all cairo draws with strokes of its own. */
static cairo_font_face_t *letters(void)
{
    return cairo_toy_font_face_create("sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
}

static cairo_scaled_font_t *measuring_font(void)
{
    cairo_matrix_t size, none;
    cairo_matrix_init_scale(&size, measured_at, measured_at);
    cairo_matrix_init_identity(&none);
    cairo_font_options_t *options = unhinted();
    cairo_font_face_t *face = letters();
    cairo_scaled_font_t *font = cairo_scaled_font_create(face, &size, &none, options);
    cairo_font_face_destroy(face);
    cairo_font_options_destroy(options);
    return font;
}

/* Size of the font for capitals 1 high. */
static double size_per_capital(cairo_scaled_font_t *font)
{
    cairo_text_extents_t h;
    cairo_scaled_font_text_extents(font, "H", &h);
    return h.height > 0 ? measured_at / h.height : 1;
}

/* text is safe. */
static double width_mm(cairo_scaled_font_t *font, const char *text, double size_mm)
{
    cairo_text_extents_t extents;
    cairo_scaled_font_text_extents(font, text, &extents);
    return extents.x_advance / measured_at * size_per_capital(font) * size_mm;
}

double pl_text_width_mm(const char *text, double size_mm)
{
    char *copy = pl_drawing_safe_copy(text);
    if (!copy)
        return 0;
    cairo_scaled_font_t *font = measuring_font();
    double width = width_mm(font, copy, size_mm);
    cairo_scaled_font_destroy(font);
    free(copy);
    return width;
}

/* ---- items ---- */

struct sheet {
    const struct pl_drawing *drawing;
    cairo_t *cr;  /* in mm */
    cairo_scaled_font_t *font;
};

static void set_grey(cairo_t *cr, double grey)
{
    cairo_set_source_rgb(cr, grey, grey, grey);
}

static void set_pen(cairo_t *cr, enum pl_pen pen)
{
    struct drawing_dashes dashes = pl_drawing_dashes(pen);
    set_grey(cr, 0);
    cairo_set_line_width(cr, pl_drawing_pen_mm(pen));
    cairo_set_dash(cr, (double[]){dashes.dash_mm, dashes.gap_mm}, pen == PL_PEN_DASHED ? 2 : 0, 0);
}

static void draw_path(const struct sheet *sheet, const struct drawing_item *item)
{
    cairo_t *cr = sheet->cr;
    const struct drawing_point *points = sheet->drawing->points + item->first_point;
    for (size_t i = 0; i < item->points; i++)
        cairo_line_to(cr, points[i].x_mm, points[i].y_mm);
    if (item->closed)
        cairo_close_path(cr);
    if (item->fill != PL_FILL_NONE) {
        set_grey(cr, pl_drawing_grey(item->fill));
        cairo_fill_preserve(cr);
    }
    if (item->fill != DRAWING_BLACK) {
        set_pen(cr, item->pen);
        cairo_stroke(cr);
    }
    cairo_new_path(cr);
}

static void draw_text(const struct sheet *sheet, const struct drawing_item *item)
{
    static const double before[] = {[PL_AT_START] = 0, [PL_AT_MIDDLE] = 0.5, [PL_AT_END] = 1};
    cairo_t *cr = sheet->cr;
    const char *text = sheet->drawing->texts.text + item->text;
    cairo_save(cr);
    set_grey(cr, 0);
    cairo_translate(cr, item->at.x_mm, item->at.y_mm);
    cairo_rotate(cr, item->turn_deg * M_PI / 180);
    cairo_set_font_size(cr, size_per_capital(sheet->font) * item->size_mm);
    cairo_move_to(cr, -before[item->anchor] * width_mm(sheet->font, text, item->size_mm), 0);
    cairo_show_text(cr, text);
    cairo_restore(cr);
    cairo_new_path(cr);
}

static void draw_page(const struct sheet *sheet, size_t page)
{
    const struct pl_drawing *drawing = sheet->drawing;
    for (size_t i = drawing->pages[page].first_item; i < pl_drawing_page_end(drawing, page); i++) {
        const struct drawing_item *item = &drawing->items[i];
        if (item->kind == DRAWING_PATH)
            draw_path(sheet, item);
        else if (item->kind == DRAWING_TEXT)
            draw_text(sheet, item);
    }
}

/* ---- the file ---- */

static cairo_status_t add_bytes(void *out, const unsigned char *bytes, unsigned length)
{
    struct pl_buffer *buffer = out;
    pl_buffer_add(buffer, (const char *)bytes, length);
    return buffer->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *new_file(const struct drawing_page *page, const char *title, struct pl_buffer *out)
{
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(add_bytes, out, page->width_mm * points_per_mm,
                                                                   page->height_mm * points_per_mm);
    /* All it takes, read by the oldest printers. */
    cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_4);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "plyloft");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
    /* cairo sets the time of making by itself: taken away, since one drawing is to give the same bytes always. */
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, NULL);
    return surface;
}

static cairo_t *new_pen(cairo_surface_t *surface)
{
    cairo_t *cr = cairo_create(surface);
    cairo_scale(cr, points_per_mm, points_per_mm);
    /* A mitre would carry a sharp trailing edge far beyond its point. */
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    cairo_font_face_t *face = letters();
    cairo_set_font_face(cr, face);
    cairo_font_face_destroy(face);
    cairo_font_options_t *options = unhinted();
    cairo_set_font_options(cr, options);
    cairo_font_options_destroy(options);
    return cr;
}

static void draw_all(const struct pl_drawing *drawing, cairo_surface_t *surface)
{
    struct sheet sheet = {drawing, new_pen(surface), measuring_font()};
    for (size_t i = 0; i < drawing->page_count; i++) {
        const struct drawing_page *page = &drawing->pages[i];
        cairo_pdf_surface_set_size(surface, page->width_mm * points_per_mm, page->height_mm * points_per_mm);
        draw_page(&sheet, i);
        cairo_show_page(sheet.cr);
    }
    cairo_scaled_font_destroy(sheet.font);
    cairo_destroy(sheet.cr);
}

enum pl_status pl_drawing_pdf(const struct pl_drawing *drawing, const char *title, struct pl_buffer *out)
{
    enum pl_status state = pl_drawing_state(drawing);
    if (state != PL_OK)
        return state;
    char *safe = pl_drawing_safe_copy(title);
    if (!safe)
        return PL_NO_MEMORY;
    cairo_surface_t *surface = new_file(&drawing->pages[0], safe, out);
    free(safe);
    draw_all(drawing, surface);
    /* An error of the pen is the surface's, too; finishing writes the rest. */
    cairo_surface_finish(surface);
    cairo_status_t status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    if (status == CAIRO_STATUS_SUCCESS && !out->failed)
        return PL_OK;
    return status == CAIRO_STATUS_NO_MEMORY || out->failed ? PL_NO_MEMORY : PL_CANNOT_WRITE;
}
