/* One page as SVG 1.1: plain elements with attributes of their own, which cutting programs read, true millimetres. */
#include "plyloft/drawing.h"

#include "drawing_inside.h"

#include "plyloft/text.h"

#include <stdlib.h>
#include <string.h>

/* Height of capitals for a font size of 1, of the sans-serif fonts in use 0.71 to 0.73: the viewer chooses which. */
static const double capital_height = 0.72;

/* ---- numbers and texts ---- */

/* A tenth of a micrometre is finer than any tool; zeros at the end are left out. */
static void add_number(struct pl_buffer *out, double value)
{
    char text[32];
    pl_number_fixed(text, sizeof text, value, 4);
    size_t length = strlen(text);
    while (text[length - 1] == '0')
        length--;
    if (text[length - 1] == '.')
        length--;
    pl_buffer_add(out, text, length);
}

static void add_attribute(struct pl_buffer *out, const char *name, double value)
{
    pl_buffer_printf(out, " %s=\"", name);
    add_number(out, value);
    pl_buffer_text(out, "\"");
}

static void add_point(struct pl_buffer *out, struct drawing_point point, char between)
{
    add_number(out, point.x_mm);
    pl_buffer_add(out, &between, 1);
    add_number(out, point.y_mm);
}

static const char *entity(char byte)
{
    switch (byte) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return NULL;
    }
}

/* text is safe, so it holds no character that XML 1.0 does not have. */
static void add_escaped(struct pl_buffer *out, const char *text)
{
    for (; *text; text++) {
        const char *name = entity(*text);
        if (name)
            pl_buffer_text(out, name);
        else
            pl_buffer_add(out, text, 1);
    }
}

static void add_title(struct pl_buffer *out, const char *text)
{
    pl_buffer_text(out, "<title>");
    add_escaped(out, text);
    pl_buffer_text(out, "</title>\n");
}

/* ---- names of groups ---- */

struct range {
    uint32_t from, to;
};

static bool in_ranges(uint32_t code, const struct range *ranges, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (code >= ranges[i].from && code <= ranges[i].to)
            return true;
    return false;
}

/* NameStartChar and what NameChar has beside it (XML 1.0, fifth edition, 4 and 4a), without the colon, which is for
 * namespaces, and the mark of a broken character. */
static bool may_begin_name(uint32_t code)
{
    static const struct range ranges[] = {
        {'A', 'Z'},       {'_', '_'},       {'a', 'z'},       {0xc0, 0xd6},     {0xd8, 0xf6},
        {0xf8, 0x2ff},    {0x370, 0x37d},   {0x37f, 0x1fff},  {0x200c, 0x200d}, {0x2070, 0x218f},
        {0x2c00, 0x2fef}, {0x3001, 0xd7ff}, {0xf900, 0xfdcf}, {0xfdf0, 0xfffc}, {0x10000, 0xeffff},
    };
    return in_ranges(code, ranges, sizeof ranges / sizeof ranges[0]);
}

static bool may_follow_in_name(uint32_t code)
{
    static const struct range ranges[] = {{'-', '.'}, {'0', '9'}, {0xb7, 0xb7}, {0x300, 0x36f}, {0x203f, 0x2040}};
    return may_begin_name(code) || in_ranges(code, ranges, sizeof ranges / sizeof ranges[0]);
}

/* An underscore for each run of what a name may not hold, and before what may only follow. */
static void add_name(struct pl_buffer *out, const char *text)
{
    size_t begin = out->length;
    bool replaced = false;
    for (size_t left = strlen(text), length; left; text += length, left -= length) {
        uint32_t code = 0;
        length = pl_utf8_decode(text, left, &code);
        bool fits = may_follow_in_name(code);
        if ((!fits && !replaced) || (fits && out->length == begin && !may_begin_name(code)))
            pl_buffer_text(out, "_");
        if (fits)
            pl_buffer_add(out, text, length);
        replaced = !fits;
    }
    if (out->length == begin)
        pl_buffer_text(out, "_");
}

struct page_writer {
    const struct pl_drawing *drawing;
    struct pl_buffer *out;
    struct pl_buffer ids;  /* of this page, each with its NUL */
    bool in_group;
};

static bool is_taken(const struct page_writer *w, size_t end, const char *id)
{
    for (size_t at = 0; at < end; at += strlen(w->ids.text + at) + 1)
        if (!strcmp(w->ids.text + at, id))
            return true;
    return false;
}

/* A new id behind the others; the place where it begins. */
static size_t new_id(struct page_writer *w, const char *name)
{
    size_t begin = w->ids.length;
    add_name(&w->ids, name);
    size_t plain = w->ids.length;
    for (int number = 2; !w->ids.failed && is_taken(w, begin, w->ids.text + begin); number++) {
        w->ids.length = plain;
        pl_buffer_printf(&w->ids, "-%d", number);
    }
    pl_buffer_add(&w->ids, "", 1);
    return begin;
}

/* ---- items ---- */

static void end_group(struct page_writer *w)
{
    if (w->in_group)
        pl_buffer_text(w->out, "</g>\n");
    w->in_group = false;
}

static void begin_group(struct page_writer *w, const char *name)
{
    end_group(w);
    size_t id = new_id(w, name);
    if (w->ids.failed)
        return;
    pl_buffer_text(w->out, "<g id=\"");
    pl_buffer_text(w->out, w->ids.text + id);
    pl_buffer_text(w->out, "\">");
    add_title(w->out, name);
    w->in_group = true;
}

static void add_fill(struct pl_buffer *out, int fill)
{
    unsigned level = (unsigned)(255 * pl_drawing_grey(fill) + 0.5);
    pl_buffer_printf(out, " fill=\"#%02x%02x%02x\"", level, level, level);
}

static void add_style(struct pl_buffer *out, const struct drawing_item *item)
{
    if (item->fill != PL_FILL_NONE)
        add_fill(out, item->fill);
    if (item->fill == DRAWING_BLACK) {
        pl_buffer_text(out, " stroke=\"none\"");
        return;
    }
    add_attribute(out, "stroke-width", pl_drawing_pen_mm(item->pen));
    if (item->pen == PL_PEN_DASHED) {
        struct drawing_dashes dashes = pl_drawing_dashes(item->pen);
        pl_buffer_text(out, " stroke-dasharray=\"");
        add_point(out, (struct drawing_point){dashes.dash_mm, dashes.gap_mm}, ' ');
        pl_buffer_text(out, "\"");
    }
}

static void add_path(struct page_writer *w, const struct drawing_item *item)
{
    const struct drawing_point *points = w->drawing->points + item->first_point;
    if (item->points == 2) {
        pl_buffer_text(w->out, "<line");
        add_attribute(w->out, "x1", points[0].x_mm);
        add_attribute(w->out, "y1", points[0].y_mm);
        add_attribute(w->out, "x2", points[1].x_mm);
        add_attribute(w->out, "y2", points[1].y_mm);
    } else {
        pl_buffer_text(w->out, item->closed ? "<polygon points=\"" : "<polyline points=\"");
        for (size_t i = 0; i < item->points; i++) {
            pl_buffer_text(w->out, i ? " " : "");
            add_point(w->out, points[i], ',');
        }
        pl_buffer_text(w->out, "\"");
    }
    add_style(w->out, item);
    pl_buffer_text(w->out, "/>\n");
}

static void add_text(struct page_writer *w, const struct drawing_item *item)
{
    static const char *const anchors[] = {[PL_AT_START] = "start", [PL_AT_MIDDLE] = "middle", [PL_AT_END] = "end"};
    struct pl_buffer *out = w->out;
    pl_buffer_text(out, "<text");
    add_attribute(out, "x", item->at.x_mm);
    add_attribute(out, "y", item->at.y_mm);
    add_attribute(out, "font-size", item->size_mm / capital_height);
    pl_buffer_printf(out, " text-anchor=\"%s\"", anchors[item->anchor]);
    if (item->turn_deg != 0) {
        pl_buffer_text(out, " transform=\"rotate(");
        add_number(out, item->turn_deg);
        pl_buffer_text(out, " ");
        add_point(out, item->at, ' ');
        pl_buffer_text(out, ")\"");
    }
    pl_buffer_text(out, " fill=\"#000000\" stroke=\"none\">");
    add_escaped(out, w->drawing->texts.text + item->text);
    pl_buffer_text(out, "</text>\n");
}

/* ---- the file ---- */

static void begin_file(struct pl_buffer *out, const struct drawing_page *page, const char *title)
{
    pl_buffer_text(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"");
    add_number(out, page->width_mm);
    pl_buffer_text(out, "mm\" height=\"");
    add_number(out, page->height_mm);
    pl_buffer_text(out, "mm\" viewBox=\"0 0 ");
    add_point(out, (struct drawing_point){page->width_mm, page->height_mm}, ' ');
    /* Joins as in the PDF: a mitre would carry a sharp trailing edge far beyond its point. */
    pl_buffer_text(out, "\" fill=\"none\" stroke=\"#000000\" stroke-linejoin=\"round\" font-family=\"sans-serif\" "
                        "xml:space=\"preserve\">\n");
    add_title(out, title);
}

static void add_item(struct page_writer *w, const struct drawing_item *item)
{
    switch (item->kind) {
    case DRAWING_GROUP:
        begin_group(w, w->drawing->texts.text + item->text);
        break;
    case DRAWING_PATH:
        add_path(w, item);
        break;
    case DRAWING_TEXT:
        add_text(w, item);
        break;
    }
}

enum pl_status pl_drawing_svg(const struct pl_drawing *drawing, size_t page, const char *title, struct pl_buffer *out)
{
    enum pl_status state = pl_drawing_state(drawing);
    if (state != PL_OK)
        return state;
    if (page >= drawing->page_count)
        return PL_BAD_INPUT;
    char *safe = pl_drawing_safe_copy(title);
    if (!safe)
        return PL_NO_MEMORY;
    begin_file(out, &drawing->pages[page], safe);
    free(safe);
    struct page_writer w = {.drawing = drawing, .out = out};
    for (size_t i = drawing->pages[page].first_item; i < pl_drawing_page_end(drawing, page); i++)
        add_item(&w, &drawing->items[i]);
    end_group(&w);
    pl_buffer_text(out, "</svg>\n");
    bool failed = out->failed || w.ids.failed;
    pl_buffer_free(&w.ids);
    return failed ? PL_NO_MEMORY : PL_OK;
}
