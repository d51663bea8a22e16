/* actions.h - all that can be done at the bench, with a name, words for help, and the usual keys.
 *
 * One table: the keys, the help, the foot of the page, the search for an action and the
 * file of keys all come from it.  Which keys do what is a struct pl_keymap, made of the
 * usual keys and changed by a person's own file (key_file.h).  Keys inside a value, a
 * list or a question are the same for everybody.
 */
#ifndef PLYLOFT_ACTIONS_H
#define PLYLOFT_ACTIONS_H

#include <stddef.h>

enum pl_action {
    PL_DO_NOTHING, PL_DO_UP, PL_DO_DOWN, PL_DO_LEFT, PL_DO_RIGHT, PL_DO_PAGE_UP, PL_DO_PAGE_DOWN, PL_DO_HOME, PL_DO_END,
    PL_DO_NEXT_BLOCK, PL_DO_BLOCK_BEFORE, PL_DO_PAGE, PL_DO_ENTER, PL_DO_BACK, PL_DO_STEP_UP, PL_DO_STEP_DOWN,
    PL_DO_MARKER_LEFT, PL_DO_MARKER_RIGHT, PL_DO_WEAKEST, PL_DO_UNDO, PL_DO_REDO, PL_DO_EDITS, PL_DO_SAVE, PL_DO_SAVE_AS,
    PL_DO_START, PL_DO_QUIT, PL_DO_HELP, PL_DO_FIND, PL_DO_SIDE, PL_DO_ELEMENT, PL_DO_NEXT_CASE, PL_DO_ADD, PL_DO_COPY,
    PL_DO_REMOVE, PL_DO_ROW_UP, PL_DO_ROW_DOWN, PL_DO_SWITCH, PL_DO_HOLD_END, PL_DO_MATERIAL, PL_DO_KEEP_OWN,
    PL_DO_PROFILE, PL_DO_KEEP_STATE, PL_DO_BRING_BACK, PL_DO_MOUSE, PL_DO_WRITE_KEYS, PL_DO_WRITE_KIT, PL_DO_WRITE_BOOK,
    /* of clicks alone */
    PL_DO_CHOOSE_CELL, PL_DO_CHOOSE_ROW, PL_DO_CHOOSE_CASE, PL_DO_CHOOSE_BLOCK, PL_DO_CHOOSE_ITEM, PL_DO_CHOOSE_STATE, PL_DO_MARKER_AT,
    PL_DO_PRESS  /* argument: a key */
};

/* Headings of the sheet of keys. */
enum pl_doing_kind {
    PL_DOING_MOVE, PL_DOING_VALUE, PL_DOING_ROW, PL_DOING_LOOK, PL_DOING_STATE, PL_DOING_PAGE, PL_DOING_FILE, PL_DOING_KINDS
};

extern const char *const pl_doing_headings[PL_DOING_KINDS];

enum { PL_DOINGS_MOST = 64, PL_KEYS_EACH = 4 };

struct pl_doing {
    enum pl_doing_kind kind;
    enum pl_action action;
    int argument;
    const char *name;         /* in the file of keys */
    const char *words;        /* in help and in the search */
    int keys[PL_KEYS_EACH];   /* the usual ones; 0 ends */
};

extern const struct pl_doing pl_doings[];
extern const size_t pl_n_doings;

/* Index of a doing, or pl_n_doings. */
size_t pl_doing_of(enum pl_action action, int argument);
size_t pl_doing_named(const char *name, size_t length);

struct pl_keymap { int keys[PL_DOINGS_MOST][PL_KEYS_EACH]; };  /* by doing; 0 ends */

void pl_keymap_usual(struct pl_keymap *map);

/* The doing of a key, or NULL. */
const struct pl_doing *pl_keymap_find(const struct pl_keymap *map, int key);

/* The first key of an action, 0 when it has none. */
int pl_keymap_key(const struct pl_keymap *map, enum pl_action action, int argument);

/* "+ =": all keys of a doing, "" when it has none. */
void pl_keymap_words(const struct pl_keymap *map, size_t doing, char *out, size_t size);

#endif
