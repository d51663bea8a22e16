/* svg.c - one page of a drawing as SVG 1.1, in true millimetres. */
#include "drawing_inside.h"

#include "plyloft/text.h"

#include <ctype.h>
#include <string.h>

static void put_number(struct pl_buffer *out, const char *before, double value)
{
    char text[64];
    pl_number_fixed(text, sizeof text, value, 4);
    size_t n = strlen(text);
    while (strchr(text, '.') && text[n - 1] == '0')
        text[--n] = '\0';
    if (text[n - 1] == '.')
        text[--n] = '\0';
    pl_buffer_text(out, before);
    pl_buffer_text(out, text);
}

static void put_escaped(struct pl_buffer *out, const char *text)
{
    for (; *text; text++) {
        const char *entity = *text == '&' ? "&amp;" : *text == '<' ? "&lt;" : *text == '>' ? "&gt;" : *text == '"' ? "&quot;" : NULL;
        if (entity)
            pl_buffer_text(out, entity);
        else
            pl_buffer_add(out, text, 1);
    }
}

/* A name of XML: letters, digits and hyphens of it, and a number, so that no two are alike. */
static void put_id(struct pl_buffer *out, const char *name, size_t number)
{
    pl_buffer_text(out, "g");
    pl_buffer_printf(out, "%zu", number);
    for (bool hyphen = true; *name; name++) {
        bool plain = isalnum((unsigned char)*name) && (unsigned char)*name < 128;
        if (plain || !hyphen)
            pl_buffer_add(out, plain && hyphen ? "-" : "", plain && hyphen ? 1 : 0);
        if (plain)
            pl_buffer_add(out, name, 1);
        hyphen = !plain;
    }
}

static void put_shape(struct pl_buffer *out, const struct drawn *t)
{
    static const char *const fills[] = {[PL_FILL_NONE] = "none", [PL_FILL_LIGHT] = "#e6e6e6", [PL_FILL_MIDDLE] = "#bfbfbf", [PL_FILL_DARK] = "#808080"};
    pl_buffer_text(out, t->closed ? "<polygon points=\"" : "<polyline points=\"");
    for (size_t i = 0; i < t->n; i++) {
        put_number(out, i ? " " : "", t->x_mm[i]);
        put_number(out, ",", t->y_mm[i]);
    }
    pl_buffer_printf(out, "\" fill=\"%s\" stroke=\"black\"", fills[t->fill]);
    put_number(out, " stroke-width=\"", pl_drawn_pen_mm(t->pen));
    if (t->pen == PL_PEN_DASHED)
        put_number(out, "\" stroke-dasharray=\"", DRAWN_DASH_MM);
    pl_buffer_text(out, "\"/>\n");
}

static void put_text(struct pl_buffer *out, const struct drawn *t)
{
    static const char *const anchors[] = {[PL_AT_START] = "start", [PL_AT_MIDDLE] = "middle", [PL_AT_END] = "end"};
    put_number(out, "<text x=\"", *t->x_mm);
    put_number(out, "\" y=\"", *t->y_mm);
    put_number(out, "\" font-size=\"", pl_drawn_font_mm(t->size_mm));
    pl_buffer_printf(out, "\" text-anchor=\"%s\"", anchors[t->anchor]);
    if (t->turn_deg != 0) {
        put_number(out, " transform=\"rotate(", t->turn_deg);
        put_number(out, " ", *t->x_mm);
        put_number(out, " ", *t->y_mm);
        pl_buffer_text(out, ")\"");
    }
    pl_buffer_text(out, ">");
    put_escaped(out, t->text);
    pl_buffer_text(out, "</text>\n");
}

static void put_head(struct pl_buffer *out, const struct drawn_page *p, const char *title)
{
    char safe[256];
    pl_buffer_text(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\"");
    put_number(out, " width=\"", p->width_mm);
    put_number(out, "mm\" height=\"", p->height_mm);
    put_number(out, "mm\" viewBox=\"0 0 ", p->width_mm);
    put_number(out, " ", p->height_mm);
    pl_buffer_text(out, "\" font-family=\"sans-serif\">\n<title>");
    pl_text_safe(safe, sizeof safe, title);
    put_escaped(out, safe);
    pl_buffer_text(out, "</title>\n");
}

enum pl_status pl_drawing_svg(const struct pl_drawing *d, size_t page, const char *title, struct pl_buffer *out)
{
    const struct drawn_page *p = pl_drawn_page_at(d, page);
    size_t groups = 0;
    if (d->arena.failed || !p)
        return PL_NO_MEMORY;
    put_head(out, p, title);
    for (const struct drawn *t = p->first; t; t = t->next) {
        if (t->kind == DRAWN_GROUP) {
            pl_buffer_text(out, groups ? "</g>\n<g id=\"" : "<g id=\"");
            put_id(out, t->text, ++groups);
            pl_buffer_text(out, "\">\n");
        } else if (t->kind == DRAWN_SHAPE && t->n) {
            put_shape(out, t);
        } else if (t->kind == DRAWN_TEXT && t->x_mm) {
            put_text(out, t);
        }
    }
    pl_buffer_text(out, groups ? "</g>\n</svg>\n" : "</svg>\n");
    return out->failed ? PL_NO_MEMORY : PL_OK;
}
