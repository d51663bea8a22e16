/* profile_text.h - profile coordinates as a plain text of two columns, x and z.
 *
 * Takes the lists that builders exchange and gives one outline as struct pl_profile wants it.  Two orders:
 * the whole outline from the trailing edge round the nose and back, over the upper surface first or under the
 * lower one; or each surface from nose to tail, one after the other, the nose point in both or not.  In chords or in
 * per cent of the chord, which the largest x tells.  The points are kept as given otherwise: a nose that does not
 * stand at 0 is not moved.
 *
 * Around the numbers: a title line, a line that names the columns, blank lines, remarks (lines that begin with
 * # ; // or !, and what follows # // or ! on a line), a line with the points of either surface counted, before them
 * or between; any line ends, tabs, a byte order mark.  A comma parts the columns or is the decimal sign, whichever
 * alone makes two numbers of a line; a text must not do both.  Knows nothing of files: the caller brings the bytes.
 */
#ifndef PLYLOFT_PROFILE_TEXT_H
#define PLYLOFT_PROFILE_TEXT_H

#include "plyloft/arena.h"
#include "plyloft/part.h"
#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>

enum { PL_PROFILE_POINTS_MOST = 2000 };

struct pl_profile_text {
    struct pl_point *points;  /* in the arena, in chords; pl_points_fault finds nothing in them */
    size_t count;
    char title[96];           /* "" without; safe to print */
    bool per_cent;            /* divided by 100 */
    bool by_surface;          /* came as two surfaces from nose to tail */
    bool lower_first;         /* turned round, since the lower surface came first */
};

/* Reads length bytes, which need not end in NUL (text may be NULL when there are none).  PL_BAD_INPUT when they hold
 * no profile: every fault goes into problems with its line ("line 7") and what stands there, up to ten of them; out is
 * then not to be read.  PL_NO_MEMORY when the arena has no more. */
enum pl_status pl_profile_text_read(const char *text, size_t length, struct pl_arena *arena,
                                    struct pl_profile_text *out, struct pl_problems *problems);

#endif
