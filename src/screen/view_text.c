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

/* Bytes that leave from the front so that what is left takes at most width columns. */
static size_t bytes_to_drop(const char *text, int width)
{
    size_t skip = 0;
    while (text[skip] && pl_text_columns(text + skip) > width) {
        uint32_t code;
        size_t n = pl_utf8_decode(text + skip, strlen(text + skip), &code);
        skip += n ? n : 1;
    }
    return skip;
}

/* What stands before the cursor must show: the text moves to the left, and the first column tells that there is more
 * of it, as the last one does. */
void pl_view_line(const struct pl_line *line, struct pl_frame *f, int row, int column, int width)
{
    char before[sizeof line->text];
    enum pl_role role = line->untouched ? PL_ROLE_CHOSEN : PL_ROLE_EDIT;
    snprintf(before, sizeof before, "%.*s", (int)line->at, line->text);
    bool moved = pl_text_columns(before) >= width && width > 2;
    size_t skip = bytes_to_drop(before, width - 1 - moved);
    pl_frame_fill(f, row, column, 1, width, PL_ROLE_EDIT, ' ');
    if (moved)
        pl_frame_glyph(f, row, column, role, PL_GLYPH_ELLIPSIS);
    pl_frame_text_in(f, row, column + moved, width - moved, role, line->text + skip);
    f->cursor_row = row;
    f->cursor_column = column + moved + pl_text_columns(before + skip);
}
