/* view_text.c - text in the rows it takes, and a line being typed. */
#include "view.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

int pl_view_wrapped(struct pl_frame *f, struct pl_region r, int indent, enum pl_role role, const char *text)
{
    char line[1024];
    int row = 0;
    for (; *text && row < r.rows; row++) {
        int in = row ? indent : 0, width = r.columns - in;
        size_t n = pl_text_break(text, width);
        if (!n)
            break;
        if (row + 1 == r.rows)
            n = strlen(text);  /* the last row shows by its end that there is more */
        snprintf(line, sizeof line, "%.*s", (int)n, text);
        pl_frame_text_in(f, r.row + row, r.column + in, width, role, line);
        text += n + (text[n] == ' ');
    }
    return row;
}

int pl_view_text_and_end(struct pl_frame *f, int row, int column, int width, enum pl_role role, const char *text, const char *end)
{
    int kept = pl_text_columns(end);
    if (pl_text_columns(text) + kept > width)
        column = pl_frame_text_in(f, row, column, width - kept, role, text);
    else
        column = pl_frame_text(f, row, column, role, text);
    return pl_frame_text(f, row, column, role, end);
}

void pl_view_line(const struct pl_line *line, struct pl_frame *f, int row, int column, int width)
{
    /* What stands before the cursor must show: drop characters from the front. */
    char before[sizeof line->text];
    snprintf(before, sizeof before, "%.*s", (int)line->at, line->text);
    size_t skip = 0;
    while (before[skip] && pl_text_columns(before + skip) >= width) {
        uint32_t code;
        size_t n = pl_utf8_decode(before + skip, strlen(before + skip), &code);
        skip += n ? n : 1;
    }
    pl_frame_fill(f, row, column, 1, width, PL_ROLE_EDIT, ' ');
    pl_frame_text_in(f, row, column, width, line->untouched ? PL_ROLE_CHOSEN : PL_ROLE_EDIT, line->text + skip);
    f->cursor_row = row;
    f->cursor_column = column + pl_text_columns(before + skip);
}
