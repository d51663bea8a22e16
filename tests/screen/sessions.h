/* sessions.h - what a person does at the bench, row by row: every page, every question, values typed and refused; and
 * the walk through all of them.
 *
 * Keys are named as for `plyloft screen --keys`.  A row goes on where the one before left, its `back` keys pressed;
 * behind a row without them the program starts anew.  `shown` stands on the page then, at every size, in plain
 * characters too, or there is nothing to be shown: "".  What takes another program (work to recover, a file changed)
 * is in test_sessions_kept.c; where a person's own files stand, no row may show.
 */
#ifndef PLYLOFT_TESTS_SESSIONS_H
#define PLYLOFT_TESTS_SESSIONS_H

#include "seat.h"

static const struct session_row {
    const char *name, *keys, *shown, *back;
} sample_rows[] = {
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
    {"the weakest place", "g", "y 170 r", ""},
    {"the drawings of one case", "n", "drawings show", ""},
    {"the bottom side", "t", "bottom", "t"},
    {"down to another row", "Down Down", "top cap", ""},
    {"a value typed", "Enter 7", "Enter", "Escape"},
    {"a long value typed", "Enter 3 Space and Space some Space more", "and some more", "Escape"},
    {"a value refused", "Right Enter text:xy Enter", "must be a number", "Escape"},
    {"a step", "Left +", "was 1.08", "u"},
    {"a step undone", "", "undone", ""},
    {"a part that cannot be judged", "Enter - 5 Enter", "CANNOT BE JUDGED", "u"},
    {"the end of a group in hand", "d Left Left", "620 mm", "Escape"},
    {"a state kept", "k", "kept as", ""},
    {"states side by side", "- k 7 Right", "lowest reserve", ""},
    {"a kept state to bring back", "2 b", "Kept states", "Escape u"},
    {"the list of edits", "+ + j Up", "Edits", "Escape u"},
    {"help", "?", "Cloth: lay-up", "Escape"},
    {"help further down", "? Down Down PageDown", "back", "Escape"},
    {"every key", "? ?", "moving about", "Escape"},
    {"an action to find", "f text:und", "Find an action", "Escape"},
    {"a material to pick", "m Down Down", "Enter", "Escape"},
    {"a value to pick", "3 Right Enter Down", "jacking", "Escape"},
    {"a path to save under", "2 w", "Save under", "Escape"},
    {"a path completed", "w text:po Tab", "points.dat", "Escape"},
    {"a name that is taken", "w text:points.dat Enter", "file of that name", "Escape"},
    {"a coordinate file", "1 p", "Coordinate file", "Escape"},
    {"a profile shown", "p text:points.dat Enter", "Enter", "Escape"},
    {"a row to be taken away", "2 Tab Tab Tab Delete", "Take it away", NULL},
    {"leaving with changes", "+ q", "Not saved", "Escape"},
    {"a row copied", "c", "", "u"},
    {"saved", "Ctrl-S", "saved", ""},
    {"the list of parts", "o", "which part", ""},
    {"a path typed there", "Home Up Enter text:no Tab", "no file begins so", NULL},
}, whole_rows[] = {
    {"names to tick", "3 Tab Down Down Down Down Enter", "chosen", "Enter Escape u"},
    {"warnings", "4 Tab Tab Tab Tab", "warning", ""},
    {"another element", "2 e", "", NULL},
};

static const struct session_list {
    const char *part;
    const struct session_row *rows;
    int count;
} session_lists[] = {
    {SAMPLE_PART, sample_rows, sizeof sample_rows / sizeof *sample_rows},
    {WHOLE_PART, whole_rows, sizeof whole_rows / sizeof *whole_rows},
};

enum { SESSION_LISTS = sizeof session_lists / sizeof *session_lists, SESSION_ROWS_MOST = 200 };

/* Called at every row, when the page that is told of it stands on the glass. */
typedef void row_check(struct seat *seat, const char *name, const char *want);

/* Goes through a list, the program made by body and met by begin (NULL: it needs no more).  known[i] is what is told
 * of row i, asked for where it is not yet known; the caller frees it. */
static inline void walk_through(const struct session_list *list, const struct surroundings *s, void (*body)(FILE *),
                                void (*begin)(struct seat *), row_check *check, char *known[SESSION_ROWS_MOST])
{
    static struct seat seat;
    char *part = read_whole_file(list->part, NULL);
    assert_in_range(list->count, 1, SESSION_ROWS_MOST);
    for (int i = 0; i < list->count; i++) {
        const struct session_row *row = &list->rows[i];
        if (i == 0 || !list->rows[i - 1].back) {
            sit_as(&seat, s, part, body);
            if (begin)
                begin(&seat);
            await(&seat, row->name, "WING");  /* it reads keys from now on */
        }
        press(&seat, row->keys);
        if (!known[i])
            known[i] = told(part, s, seat.keys.text);
        assert_picture(&seat, row->name, known[i]);
        assert_shown(&seat, row->name, row->shown);
        check(&seat, row->name, known[i]);
        if (row->back && i + 1 < list->count)
            press(&seat, row->back);
        else
            stand_up(&seat);
    }
    seat_free(&seat);
    free(part);
}

static inline void free_known(char *known[SESSION_ROWS_MOST])
{
    for (int i = 0; i < SESSION_ROWS_MOST; i++) {
        free(known[i]);
        known[i] = NULL;
    }
}

/* ---- as told, in colour and without ---- */

static inline void check_looks(struct seat *seat, const char *name, const char *want)
{
    bool verdict = strstr(want, "WING ") || strstr(want, "JUDGED");  /* the list of parts has none */
    if (verdict && !glass_coloured(&seat->glass) != !!seat->s.no_color)
        fail_msg("%s: %zu cells have a colour, %s", name, glass_coloured(&seat->glass),
                 seat->s.no_color ? "with NO_COLOR" : "of those of the verdict");
    if (is_plain(&seat->s) && seat->glass.beyond_ascii)
        fail_msg("%s: more than ASCII was sent", name);
    if (seat->glass.clears > 1)
        fail_msg("%s: the screen is cleared after the first frame", name);
}

/* Under a sanitizer everything takes several times as long: the smallest size in ASCII and the usual one in UTF-8 have
 * every row there, the rest is left to the plain build. */
static inline bool is_walked_here(int columns, const char *locale)
{
#if defined(__SANITIZE_ADDRESS__)
    bool ascii = !strcmp(locale, "C");
    return (columns == 40 && ascii) || (columns == 80 && !ascii);
#else
    (void)columns;
    (void)locale;
    return true;
#endif
}

static inline void assert_sessions_as_told(int columns, int rows, const char *locale)
{
    char *known[SESSION_ROWS_MOST] = {NULL};
    struct surroundings s = {.term = "xterm-256color", .locale = locale, .columns = columns, .rows = rows};
    if (!is_walked_here(columns, locale)) {
        print_message("walked in the plain build alone\n");
        skip();
    }
    for (int i = 0; i < SESSION_LISTS; i++) {
        s.no_color = NULL;
        walk_through(&session_lists[i], &s, be_program, NULL, check_looks, known);
        s.no_color = "1";
        walk_through(&session_lists[i], &s, be_program, NULL, check_looks, known);
        free_known(known);
    }
}

#endif
