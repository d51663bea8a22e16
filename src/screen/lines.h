/* lines.h - the bench without a screenful: keys come in by the line, facts go out by the line.
 *
 * For screen readers, logs, TERM=dumb and pipes.  A line of input holds keys in the words of `plyloft screen --keys`
 * (keys.h); a line without any asks for the whole state, which is also said at the start.  After each line what
 * changed is said (facts.h) and flushed; every message that a key brings is said, and said anew.  Unsaved work is kept
 * aside after each line.
 */
#ifndef PLYLOFT_LINES_H
#define PLYLOFT_LINES_H

#include "app.h"

#include <stdio.h>

/* Until the person leaves or the input ends.  PL_CANNOT_READ, PL_CANNOT_WRITE and PL_NO_MEMORY say in problems why it
 * stopped; unsaved work is kept aside then, too. */
enum pl_status pl_lines_run(struct pl_app *app, FILE *in, FILE *out, struct pl_problems *problems);

#endif
