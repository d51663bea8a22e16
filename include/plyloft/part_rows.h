/* part_rows.h - rows of the part's lists: added, copied, moved, renamed, taken away, said another way.
 *
 * Each call is one step of undo with a name ("add ply group: cap 2"), made of plain edits of the document, and leaves
 * the part valid where it was and where that is possible.  What makes it invalid is done all the same - the part
 * then says why - and only what has no meaning is refused: PL_BAD_INPUT, one problem with the reason, nothing
 * changed.  Rows are named by JSON Pointer ("/elements/0/layup/2"), lists too ("/elements/0/layup").  Single values
 * are part_edit.h's.
 */
#ifndef PLYLOFT_PART_ROWS_H
#define PLYLOFT_PART_ROWS_H

#include "plyloft/field.h"
#include "plyloft/part.h"

/* ---- rows of any list ---- */

/* A new row of typical values, behind the row at pointer, or at the end when pointer is a list, which is made when it
 * is not there.  A station lies halfway between two neighbours and has the mean of their values: behind the row, ahead
 * of the tip when the row is the tip, in the widest gap for the list.  A mount or pad is like its neighbour, where none
 * is.  A load case is of the kind of the row at pointer.  *index, unless NULL, is set to its place. */
enum pl_status pl_row_add(struct pl_document *doc, const char *pointer, size_t *index, struct pl_problems *problems);

/* The same for a load case of a kind ("jacking") with all it needs. */
enum pl_status pl_row_add_case(struct pl_document *doc, const char *pointer, const char *kind, size_t *index,
                               struct pl_problems *problems);

/* The row once more behind itself, under a name of its own ("top cap 2").  A station, mount or pad, which cannot stand
 * twice at one place, goes where pl_row_add would put it, a mount or pad to its mirror place if that is free. */
enum pl_status pl_row_copy(struct pl_document *doc, const char *row, size_t *index, struct pl_problems *problems);

/* Takes the row away, whatever uses it; problems gets a warning when something does, and when the list needs it. */
enum pl_status pl_row_remove(struct pl_document *doc, const char *row, struct pl_problems *problems);

/* What should be asked before a row goes: "top cap and bottom cap use it", "an element needs at least 2 stations".
 * Both give the number of users or rows missing then, and an empty sentence with 0. */
size_t pl_row_users(const struct pl_document *doc, const char *row, char *sentence, size_t size);
size_t pl_row_needed(const struct pl_document *doc, const char *row, char *sentence, size_t size);

/* The row's words, and whose it is where that is not plain: "top cap", "pad 1 of pit jack", "skin of flap" where the part
 * has several elements. */
void pl_row_whose_words(const struct pl_document *doc, const char *row, char *out, size_t size);

/* One place up (-1) or down (1); at the end of the list nothing happens.  Stations exchange what they are like, not
 * where they lie, since their y rises. */
enum pl_status pl_row_move(struct pl_document *doc, const char *row, int way, size_t *index,
                           struct pl_problems *problems);

/* A new name; whatever refers to the old one refers to it then.  Refused when empty, or when another row has it, since
 * references could not be told apart any more.  Steps on one row merge. */
enum pl_status pl_row_rename(struct pl_document *doc, const char *row, const char *name, struct pl_problems *problems);

/* ---- what a row may have ---- */

/* End plates that reach over the tip section, and none. */
enum pl_status pl_row_add_end_plates(struct pl_document *doc, const char *element, struct pl_problems *problems);
enum pl_status pl_row_remove_end_plates(struct pl_document *doc, const char *element, struct pl_problems *problems);

/* An object of the part as a whole that may be left out, with usual values, and none. */
enum pl_status pl_object_add(struct pl_document *doc, enum pl_group_id group, struct pl_problems *problems);
enum pl_status pl_object_remove(struct pl_document *doc, enum pl_group_id group, struct pl_problems *problems);

/* A limit of 10 mm to how far the tip may move in a load case. */
enum pl_status pl_row_add_tip_limit(struct pl_document *doc, const char *load_case, struct pl_problems *problems);
enum pl_status pl_row_remove_tip_limit(struct pl_document *doc, const char *load_case, struct pl_problems *problems);

/* A case of an element that stands on this one, to push on it at the same time; name NULL: the first that fits. */
enum pl_status pl_row_add_with(struct pl_document *doc, const char *load_case, const char *name,
                               struct pl_problems *problems);
enum pl_status pl_row_remove_with(struct pl_document *doc, const char *load_case, const char *name,
                                  struct pl_problems *problems);

/* ---- the same row said another way ---- */

/* A load case of another kind: keys that it needs come with typical values, keys that it does not know go.  Cases
 * name no jacking case in `with`, so one that becomes it is taken out there. */
enum pl_status pl_row_set_kind(struct pl_document *doc, const char *load_case, const char *kind,
                               struct pl_problems *problems);

/* A ply group between two edges becomes a strip about a centre and the other way round, covering the same area round
 * the same middle on the element's mean chord; a strike by energy becomes one by force and the other way round. */
enum pl_status pl_row_switch(struct pl_document *doc, const char *row, struct pl_problems *problems);

/* A profile given by points, which the caller works out for a NACA shape (profile.h); and one given by the four digits
 * nearest to its points. */
enum pl_status pl_row_set_points(struct pl_document *doc, const char *profile, const struct pl_point *points,
                                 size_t count, struct pl_problems *problems);
enum pl_status pl_row_set_naca(struct pl_document *doc, const char *profile, struct pl_problems *problems);

#endif
