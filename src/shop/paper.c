#include "paper.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

static const double page_width_mm = 210, page_height_mm = 297, foot_mm = 14;

void pl_paper_page(struct paper *p)
{
    char words[96], revision[48];
    pl_drawing_page(p->drawing, page_width_mm, page_height_mm);
    pl_drawing_group(p->drawing, "heading");
    pl_drawing_text(p->drawing, PAPER_LEFT_MM, 18, 4, PL_AT_START, 0, p->title);
    pl_drawing_text_in(p->drawing, PAPER_LEFT_MM + 72, 18, PAPER_TEXT_MM, 84, p->part->name);
    pl_text_safe(revision, sizeof revision, p->part->revision ? p->part->revision : "");
    snprintf(words, sizeof words, "%s%s   page %zu", *revision ? "revision " : "", revision, pl_drawing_pages(p->drawing));
    pl_drawing_text(p->drawing, PAPER_LEFT_MM + PAPER_WIDTH_MM, 18, PAPER_TEXT_MM, PL_AT_END, 0, words);
    pl_drawing_line(p->drawing, PL_PEN_LINE, PAPER_LEFT_MM, 21, PAPER_LEFT_MM + PAPER_WIDTH_MM, 21);
    pl_drawing_group(p->drawing, "page");
    p->y_mm = 27;
}

double pl_paper_left_mm(const struct paper *p)
{
    return page_height_mm - foot_mm - p->y_mm;
}

void pl_paper_need(struct paper *p, double height_mm)
{
    if (pl_paper_left_mm(p) < height_mm)
        pl_paper_page(p);
}

/* How many bytes of text go on a line, broken at a blank where there is one. */
static size_t fitting(const char *text, double width_mm)
{
    char part[512];
    size_t best = 0, length = strlen(text);
    for (size_t n = 1; n <= length && n < sizeof part; n++) {
        if (n < length && text[n] != ' ')
            continue;
        memcpy(part, text, n);
        part[n] = '\0';
        if (best && pl_text_width_mm(part, PAPER_TEXT_MM) > width_mm)
            break;
        best = n;
    }
    return best ? best : length;
}

void pl_paper_line(struct paper *p, const char *text)
{
    char line[512];
    do {
        size_t n = fitting(text, PAPER_WIDTH_MM);
        n = n < sizeof line ? n : sizeof line - 1;
        memcpy(line, text, n);
        line[n] = '\0';
        pl_paper_need(p, 5);
        p->y_mm += 4.6;
        pl_drawing_text_in(p->drawing, PAPER_LEFT_MM, p->y_mm, PAPER_TEXT_MM, PAPER_WIDTH_MM, line);
        text += n;
        while (*text == ' ')
            text++;
    } while (*text);
}

void pl_paper_heading(struct paper *p, const char *text)
{
    pl_paper_need(p, 16);
    p->y_mm += 8;
    pl_drawing_text(p->drawing, PAPER_LEFT_MM, p->y_mm, 3, PL_AT_START, 0, text);
    p->y_mm += 1.5;
}

void pl_paper_box(struct paper *p, double x_mm, double y_mm)
{
    pl_drawing_rectangle(p->drawing, PL_PEN_LINE, PL_FILL_NONE, x_mm, y_mm, 4, 4);
}
