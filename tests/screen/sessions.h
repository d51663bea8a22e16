/* sessions.h - what a person does at the bench, row by row: every page, every question, values typed and refused.
 *
 * Keys are named as for `plyloft screen --keys`.  A row goes on where the one before left, its `back` keys pressed;
 * behind a row without them the program starts anew.  `shown` stands on the page then, at every size, in plain
 * characters too.  What another program has to do with (recovery, a file changed) is in test_sittings.c.
 */
#ifndef PLYLOFT_TESTS_SESSIONS_H
#define PLYLOFT_TESTS_SESSIONS_H

static const struct session_row {
    const char *name, *keys, *shown, *back;
} session_rows[] = {
    {"the page that opens", "", "lay-up", ""},
    {"Shape", "1", "stations", ""},
    {"Loads", "3", "3 Loads", ""},
    {"Strength", "4", "4 Strength", ""},
    {"Joints", "5", "5 Joints", ""},
    {"Shop", "6", "6 Shop", ""},
    {"Trials", "7", "7 Trials", ""},
    {"Log", "8", "8 Log", ""},
    {"Cloth again", "2", "2 Cloth", ""},
    {"the span marker moved", "] ] ]", "y 30 r", ""},
    {"the bottom side", "t", "bottom", "t"},
    {"down to another row", "Down Down", "top cap", ""},
    {"a value typed", "Enter 7", "Enter take it", "Escape"},
    {"a long value typed", "Enter 3 Space and Space some Space more", "and some more", "Escape"},
    {"a value refused", "Right Enter text:xy Enter", "must be a number", "Escape"},
    {"a step", "Left +", "was 1.08", "u"},
    {"a step undone", "", "undone", ""},
    {"a part that cannot be judged", "Enter - 5 Enter", "CANNOT BE JUDGED", "u"},
    {"help", "?", "Every key", "Escape"},
    {"help further down", "? Down Down PageDown", "Every key", "Escape"},
    {"a material to pick", "m Down Down", "Enter take", "Escape"},
    {"a value to pick", "3 Right Enter Down", "Enter take", "Escape"},
    {"a path to save under", "2 w", "Save under", "Escape"},
    {"a path completed", "w text:po Tab", "points.dat", "Escape"},
    {"a name that is taken", "w text:points.dat Enter", "file of that name", "Escape"},
    {"a coordinate file", "1 p", "Coordinate file", "Escape"},
    {"a profile shown", "p text:points.dat Enter", "Enter take this", "Escape"},
    {"a row to be taken away", "2 Tab Tab Tab Delete", "Take it away", NULL},
    {"leaving with changes", "+ q", "Not saved", "Escape"},
    {"saved", "Ctrl-S", "saved", ""},
    {"the list of parts", "o", "which part", ""},
    {"a path typed there", "Home Up Enter text:no Tab", "no file begins so", NULL},
};

enum { SESSION_ROWS = sizeof session_rows / sizeof *session_rows };

#endif
