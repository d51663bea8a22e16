/* profile_rows.h - the lines of a text of coordinates that hold two numbers.
 *
 * The first half of profile_text.h: lines, words, signs and what stands round the numbers.  Knows nothing of profiles.
 * Private to the shape room.
 */
#ifndef PLYLOFT_PROFILE_ROWS_H
#define PLYLOFT_PROFILE_ROWS_H

#include "plyloft/profile_text.h"

enum { PL_ROW_COMPLAINTS_MOST = 10 };

struct span { const char *from, *to; };  /* of the text */

struct row {
    struct pl_point at;
    size_t line;
    struct span text;
};

struct reader {
    const char *at, *end;  /* what is not read yet */
    size_t line;           /* number of the line in hand, from 1 */
    struct row *rows;
    size_t count, capacity;
    size_t first_surface;  /* points of the first surface as counted in the text; 0: not told */
    /* The first with a decimal point, with a decimal comma, with a comma between columns; 0: none. */
    size_t point_line, comma_line, parted_line;
    size_t complaints;
    struct pl_profile_text *out;
    struct pl_problems *problems;
};

/* An error at a line of the text (0: the text as a whole). */
void pl_rows_complain(struct reader *r, size_t line, const char *rule, struct span found);

/* Reads all lines into rows, which has room for capacity of them, and the title into out.  False, with complaints,
 * when a line is none of what may stand there. */
bool pl_rows_read(struct reader *r);

#endif
