#include "actions.h"

#include "session.h"

#include "plyloft/keys.h"

#include <stdio.h>
#include <string.h>

const char *const pl_doing_headings[PL_DOING_KINDS] = {
    [PL_DOING_MOVE] = "moving about", [PL_DOING_VALUE] = "values", [PL_DOING_ROW] = "rows",
    [PL_DOING_LOOK] = "looking", [PL_DOING_STATE] = "going back, comparing", [PL_DOING_PAGE] = "pages",
    [PL_DOING_FILE] = "the file, the program",
};

const struct pl_doing pl_doings[] = {
    {PL_DOING_MOVE, PL_DO_UP, 0, "row-above", "row above", {PL_KEY_UP}},
    {PL_DOING_MOVE, PL_DO_DOWN, 0, "row-below", "row below", {PL_KEY_DOWN}},
    {PL_DOING_MOVE, PL_DO_LEFT, 0, "field-before", "field before; curve before", {PL_KEY_LEFT}},
    {PL_DOING_MOVE, PL_DO_RIGHT, 0, "field-next", "next field; next curve", {PL_KEY_RIGHT}},
    {PL_DOING_MOVE, PL_DO_PAGE_UP, 0, "rows-up", "some rows up", {PL_KEY_PAGE_UP}},
    {PL_DOING_MOVE, PL_DO_PAGE_DOWN, 0, "rows-down", "some rows down", {PL_KEY_PAGE_DOWN}},
    {PL_DOING_MOVE, PL_DO_HOME, 0, "row-first", "first row", {PL_KEY_HOME}},
    {PL_DOING_MOVE, PL_DO_END, 0, "row-last", "last row", {PL_KEY_END}},
    {PL_DOING_MOVE, PL_DO_NEXT_BLOCK, 0, "part-next", "next part of the page", {PL_KEY_TAB}},
    {PL_DOING_MOVE, PL_DO_BLOCK_BEFORE, 0, "part-before", "part of the page before", {PL_KEY_BACKTAB}},
    {PL_DOING_VALUE, PL_DO_ENTER, 0, "type", "type a value, choose", {PL_KEY_ENTER}},
    {PL_DOING_VALUE, PL_DO_BACK, 0, "back", "back", {PL_KEY_ESCAPE}},
    {PL_DOING_VALUE, PL_DO_STEP_UP, 0, "step-up", "one step up, next choice", {'+', '='}},
    {PL_DOING_VALUE, PL_DO_STEP_DOWN, 0, "step-down", "one step down", {'-'}},
    {PL_DOING_VALUE, PL_DO_HOLD_END, 0, "end-move", "plies' end along the span", {'d'}},
    {PL_DOING_ROW, PL_DO_ADD, 0, "row-add", "add a row", {'a'}},
    {PL_DOING_ROW, PL_DO_COPY, 0, "row-copy", "copy the row", {'c'}},
    {PL_DOING_ROW, PL_DO_REMOVE, 0, "row-remove", "take the row away", {PL_KEY_DELETE}},
    {PL_DOING_ROW, PL_DO_ROW_UP, 0, "row-up", "move the row up", {'('}},
    {PL_DOING_ROW, PL_DO_ROW_DOWN, 0, "row-down", "move the row down", {')'}},
    {PL_DOING_ROW, PL_DO_SWITCH, 0, "row-otherwise", "say the row another way", {'x'}},
    {PL_DOING_ROW, PL_DO_MATERIAL, 0, "material", "material from catalogue", {'m'}},
    {PL_DOING_ROW, PL_DO_KEEP_OWN, 0, "material-own", "keep material as your own", {'y'}},
    {PL_DOING_ROW, PL_DO_PROFILE, 0, "profile-file", "profile from a file", {'p'}},
    {PL_DOING_LOOK, PL_DO_MARKER_LEFT, 0, "marker-left", "span marker to the left", {'['}},
    {PL_DOING_LOOK, PL_DO_MARKER_RIGHT, 0, "marker-right", "span marker to the right", {']'}},
    {PL_DOING_LOOK, PL_DO_WEAKEST, 0, "marker-weakest", "marker to weakest place", {'g'}},
    {PL_DOING_LOOK, PL_DO_NEXT_CASE, 0, "case-next", "next load case in drawings", {'n'}},
    {PL_DOING_LOOK, PL_DO_SIDE, 0, "side", "top or bottom in drawings", {'t'}},
    {PL_DOING_LOOK, PL_DO_ELEMENT, 0, "element-next", "next element", {'e'}},
    {PL_DOING_STATE, PL_DO_UNDO, 0, "undo", "undo", {'u'}},
    {PL_DOING_STATE, PL_DO_REDO, 0, "redo", "redo", {'U'}},
    {PL_DOING_STATE, PL_DO_EDITS, 0, "edits", "list of edits, to go back", {'j'}},
    {PL_DOING_STATE, PL_DO_KEEP_STATE, 0, "state-keep", "keep this state to compare", {'k'}},
    {PL_DOING_STATE, PL_DO_BRING_BACK, 0, "state-back", "bring a kept state back", {'b'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_SHAPE, "page-shape", "Shape", {'1'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_CLOTH, "page-cloth", "Cloth", {'2'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_LOADS, "page-loads", "Loads", {'3'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_STRENGTH, "page-strength", "Strength", {'4'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_JOINTS, "page-joints", "Joints", {'5'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_SHOP, "page-shop", "Shop", {'6'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_TRIALS, "page-trials", "Trials", {'7'}},
    {PL_DOING_PAGE, PL_DO_PAGE, PL_PAGE_LOG, "page-log", "Log", {'8'}},
    {PL_DOING_FILE, PL_DO_SAVE, 0, "save", "save", {PL_KEY_CTRL('S')}},
    {PL_DOING_FILE, PL_DO_SAVE_AS, 0, "save-as", "save under another name", {'w'}},
    {PL_DOING_FILE, PL_DO_START, 0, "open", "open another part", {'o'}},
    {PL_DOING_FILE, PL_DO_FIND, 0, "find", "find an action by name", {'f'}},
    {PL_DOING_FILE, PL_DO_HELP, 0, "help", "help", {'?'}},
    {PL_DOING_FILE, PL_DO_MOUSE, 0, "mouse", "mouse on or off", {'M'}},
    {PL_DOING_FILE, PL_DO_WRITE_KIT, 0, "kit-file", "kit to a file", {'i'}},
    {PL_DOING_FILE, PL_DO_WRITE_BOOK, 0, "ply-book-file", "ply book to a file", {'l'}},
    {PL_DOING_FILE, PL_DO_WRITE_KEYS, 0, "keys-file", "write keys to a file", {0}},
    {PL_DOING_FILE, PL_DO_QUIT, 0, "leave", "leave", {'q', PL_KEY_CTRL('C')}},
};
const size_t pl_n_doings = sizeof pl_doings / sizeof *pl_doings;

_Static_assert(sizeof pl_doings / sizeof *pl_doings <= PL_DOINGS_MOST, "a keymap has room for every doing");

size_t pl_doing_of(enum pl_action action, int argument)
{
    size_t i = 0;
    while (i < pl_n_doings && (pl_doings[i].action != action || pl_doings[i].argument != argument))
        i++;
    return i;
}

size_t pl_doing_named(const char *name, size_t length)
{
    size_t i = 0;
    while (i < pl_n_doings && (strlen(pl_doings[i].name) != length || memcmp(pl_doings[i].name, name, length) != 0))
        i++;
    return i;
}

void pl_keymap_usual(struct pl_keymap *map)
{
    *map = (struct pl_keymap){0};
    for (size_t i = 0; i < pl_n_doings; i++)
        memcpy(map->keys[i], pl_doings[i].keys, sizeof map->keys[i]);
}

const struct pl_doing *pl_keymap_find(const struct pl_keymap *map, int key)
{
    for (size_t i = 0; i < pl_n_doings && key; i++)
        for (int k = 0; k < PL_KEYS_EACH; k++)
            if (map->keys[i][k] == key)
                return &pl_doings[i];
    return NULL;
}

int pl_keymap_key(const struct pl_keymap *map, enum pl_action action, int argument)
{
    size_t i = pl_doing_of(action, argument);
    return i < pl_n_doings ? map->keys[i][0] : 0;
}

void pl_keymap_words(const struct pl_keymap *map, size_t doing, char *out, size_t size)
{
    size_t used = 0;
    out[0] = '\0';
    for (int k = 0; k < PL_KEYS_EACH && map->keys[doing][k] && used < size; k++) {
        char name[32];
        pl_key_name(map->keys[doing][k], name, sizeof name);
        used += (size_t)snprintf(out + used, size - used, "%s%s", k ? " " : "", name);
    }
}
