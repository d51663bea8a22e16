#include "view.h"

#include "plyloft/keys.h"

#include <stdio.h>

/* One line a binding; the pages share a line of their own below. */
static size_t count_lines(void)
{
    size_t n = 0;
    for (size_t i = 0; i < pl_n_bindings; i++)
        n += pl_bindings[i].action != PL_DO_PAGE && pl_bindings[i].key != '=';
    return n;
}

void pl_view_help(const struct pl_session *s, struct pl_frame *f)
{
    int lines = (int)count_lines(), room = f->rows - 5, columns = (lines + room - 1) / room, line = 0;
    int width = f->columns / (columns > 0 ? columns : 1);
    pl_frame_fill(f, 1, 0, f->rows - 1, f->columns, PL_ROLE_TEXT, ' ');
    pl_frame_text_in(f, 1, 2, f->columns - 4, PL_ROLE_TITLE, "Every key; any key goes back");
    for (size_t i = 0; i < pl_n_bindings; i++) {
        char key[32];
        if (pl_bindings[i].action == PL_DO_PAGE || pl_bindings[i].key == '=')
            continue;
        int row = 3 + line % room, column = 2 + line / room * width;
        pl_key_name(pl_bindings[i].key, key, sizeof key);
        pl_frame_text(f, row, column, PL_ROLE_TITLE, key);
        pl_frame_text_in(f, row, column + 10, width - 12, PL_ROLE_TEXT, pl_bindings[i].words);
        line++;
    }
    pl_frame_text_in(f, f->rows - 1, 2, f->columns - 4, PL_ROLE_TEXT, "1 to 8: pages Shape Cloth Loads Strength Joints Shop Trials Log");
    (void)s;
}
