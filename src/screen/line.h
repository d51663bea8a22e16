/* line.h - one line of text being typed: a value in a cell, a path in a question. */
#ifndef PLYLOFT_LINE_H
#define PLYLOFT_LINE_H

#include <stdbool.h>
#include <stddef.h>

struct pl_line {
    char text[1024];
    size_t at;        /* bytes before the cursor */
    bool untouched;   /* stands as it was, selected: typing replaces it */
};

void pl_line_start(struct pl_line *line, const char *text);

/* Takes an editing key (Ctrl-U empties it) or a character; false when the key means nothing to a line. */
bool pl_line_key(struct pl_line *line, int key);

#endif
