/* places.h - where the files stand that a person's own program keeps: state, data and configuration.
 *
 * The folders are those of the XDG Base Directory Specification: "plyloft" under
 * XDG_STATE_HOME, XDG_DATA_HOME and XDG_CONFIG_HOME, or under .local/state, .local/share and
 * .config in HOME where the variable is unset, empty or no absolute path.  Nothing is made
 * until it is needed, and then for this person alone.  Knows nothing of what is kept.
 */
#ifndef PLYLOFT_PLACES_H
#define PLYLOFT_PLACES_H

#include "plyloft/problems.h"

enum pl_place { PL_PLACE_STATE, PL_PLACE_DATA, PL_PLACE_CONFIG };

/* The path of name in that folder ("recent.json", "recovery/x.json"), of the folder itself for NULL; freed by the
 * caller.  NULL with a sentence when there is no such folder to name, for want of HOME, or no memory. */
char *pl_place_path(enum pl_place place, const char *name, struct pl_problems *problems);

/* Makes the folders that path stands in, those that are missing, with mode 0700; path is absolute.  A problem has
 * the folder as its place. */
enum pl_status pl_place_make_folders(const char *path, struct pl_problems *problems);

/* The same path from the root on, freed by the caller: links, "." and ".." among its folders followed, the last
 * name as it is given.  Where its folder cannot be found, the path behind that of the folder we are in.  NULL
 * without memory. */
char *pl_place_absolute(const char *path);

#endif
