#include "session.h"

#include "plyloft/keys.h"

const struct pl_binding pl_bindings[] = {
    {PL_KEY_UP, PL_DO_UP, 0, "row above"},
    {PL_KEY_DOWN, PL_DO_DOWN, 0, "row below"},
    {PL_KEY_LEFT, PL_DO_LEFT, 0, "field before; curve before"},
    {PL_KEY_RIGHT, PL_DO_RIGHT, 0, "next field; next curve"},
    {PL_KEY_PAGE_UP, PL_DO_PAGE_UP, 0, "some rows up"},
    {PL_KEY_PAGE_DOWN, PL_DO_PAGE_DOWN, 0, "some rows down"},
    {PL_KEY_HOME, PL_DO_HOME, 0, "first row"},
    {PL_KEY_END, PL_DO_END, 0, "last row"},
    {PL_KEY_TAB, PL_DO_NEXT_BLOCK, 0, "next part of the page"},
    {PL_KEY_BACKTAB, PL_DO_BLOCK_BEFORE, 0, "part of the page before"},
    {PL_KEY_ENTER, PL_DO_ENTER, 0, "type a value, choose"},
    {PL_KEY_ESCAPE, PL_DO_BACK, 0, "back"},
    {'+', PL_DO_STEP_UP, 0, "one step up, next choice"},
    {'=', PL_DO_STEP_UP, 0, "one step up"},
    {'-', PL_DO_STEP_DOWN, 0, "one step down"},
    {'a', PL_DO_ADD, 0, "add a row"},
    {'c', PL_DO_COPY, 0, "copy the row"},
    {PL_KEY_DELETE, PL_DO_REMOVE, 0, "take the row away"},
    {'(', PL_DO_ROW_UP, 0, "move the row up"},
    {')', PL_DO_ROW_DOWN, 0, "move the row down"},
    {'x', PL_DO_SWITCH, 0, "say the row another way"},
    {'m', PL_DO_MATERIAL, 0, "material from the catalogue"},
    {'y', PL_DO_KEEP_OWN, 0, "keep material as your own"},
    {'p', PL_DO_PROFILE, 0, "profile from a file"},
    {'[', PL_DO_MARKER_LEFT, 0, "span marker to the left"},
    {']', PL_DO_MARKER_RIGHT, 0, "span marker to the right"},
    {'t', PL_DO_SIDE, 0, "top or bottom in drawings"},
    {'e', PL_DO_ELEMENT, 0, "next element"},
    {'u', PL_DO_UNDO, 0, "undo"},
    {'U', PL_DO_REDO, 0, "redo"},
    {PL_KEY_CTRL('S'), PL_DO_SAVE, 0, "save"},
    {'w', PL_DO_SAVE_AS, 0, "save under another name"},
    {'o', PL_DO_START, 0, "open another part"},
    {'1', PL_DO_PAGE, PL_PAGE_SHAPE, "Shape"},
    {'2', PL_DO_PAGE, PL_PAGE_CLOTH, "Cloth"},
    {'3', PL_DO_PAGE, PL_PAGE_LOADS, "Loads"},
    {'4', PL_DO_PAGE, PL_PAGE_STRENGTH, "Strength"},
    {'5', PL_DO_PAGE, PL_PAGE_JOINTS, "Joints"},
    {'6', PL_DO_PAGE, PL_PAGE_SHOP, "Shop"},
    {'7', PL_DO_PAGE, PL_PAGE_TRIALS, "Trials"},
    {'8', PL_DO_PAGE, PL_PAGE_LOG, "Log"},
    {'?', PL_DO_HELP, 0, "help"},
    {'q', PL_DO_QUIT, 0, "leave"},
};
const size_t pl_n_bindings = sizeof pl_bindings / sizeof *pl_bindings;

const struct pl_binding *pl_binding_of(int key)
{
    for (size_t i = 0; i < pl_n_bindings; i++)
        if (pl_bindings[i].key == key)
            return &pl_bindings[i];
    return NULL;
}
