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

/* Side by side where there is room, else one below the other and moved with Up and Down. */
void pl_view_help(const struct pl_session *s, struct pl_frame *f)
{
    int lines = (int)count_lines(), room = f->rows - 5, wide = f->columns >= 76, columns = wide ? (lines + room - 1) / room : 1;
    int width = f->columns / columns, line = -(wide ? 0 : s->help_row);
    pl_frame_fill(f, 1, 0, f->rows - 1, f->columns, PL_ROLE_TEXT, ' ');
    pl_frame_text_in(f, 1, 2, f->columns - 4, PL_ROLE_TITLE,
                     wide ? "Every key; any key goes back" : "Every key; Up Down for more, Escape back");
    for (size_t i = 0; i < pl_n_bindings; i++) {
        char key[32];
        if (pl_bindings[i].action == PL_DO_PAGE || pl_bindings[i].key == '=')
            continue;
        int row = 3 + line % room, column = 2 + line / room * width;
        if (line >= 0 && line < room * columns) {
            pl_key_name(pl_bindings[i].key, key, sizeof key);
            pl_frame_text(f, row, column, PL_ROLE_TITLE, key);
            pl_frame_text_in(f, row, column + 10, width - 12, PL_ROLE_TEXT, pl_bindings[i].words);
        }
        line++;
    }
    pl_frame_text_in(f, f->rows - 1, 2, f->columns - 4, PL_ROLE_TEXT, "1 to 8: pages Shape Cloth Loads Strength Joints Shop Trials Log");
}
