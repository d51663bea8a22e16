#include "plyloft/places.h"

#include "json.h"

#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The parts one behind the other, in memory to be freed. */
static char *joined(const char *first, const char *second, const char *third)
{
    size_t size = strlen(first) + strlen(second) + strlen(third) + 1;
    char *text = pl_part_memory(NULL, size);
    if (text)
        snprintf(text, size, "%s%s%s", first, second, third);
    return text;
}

/* ---- a person's folders ---- */

static const struct {
    const char *variable, *under_home;
} folders[] = {
    [PL_PLACE_STATE] = {"XDG_STATE_HOME", "/.local/state"},
    [PL_PLACE_DATA] = {"XDG_DATA_HOME", "/.local/share"},
    [PL_PLACE_CONFIG] = {"XDG_CONFIG_HOME", "/.config"},
};

/* NULL when it is unset, empty or relative: the specification has relative ones ignored. */
static const char *absolute_variable(const char *name)
{
    const char *value = getenv(name);
    return value && *value == '/' ? value : NULL;
}

char *pl_place_path(enum pl_place place, const char *name, struct pl_problems *problems)
{
    const char *base = absolute_variable(folders[place].variable), *home = absolute_variable("HOME");
    if (!base && !home) {
        pl_problem_addf(problems, PL_ERROR, "", "nothing can be kept: neither %s nor HOME is set to an absolute path",
                        folders[place].variable);
        return NULL;
    }
    char *folder = joined(base ? base : home, base ? "" : folders[place].under_home, "/plyloft");
    char *path = folder && name ? joined(folder, "/", name) : NULL;
    if (!folder || (name && !path))
        pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    if (!name)
        return folder;
    free(folder);
    return path;
}

/* ---- folders made ---- */

static bool is_folder(const char *path)
{
    struct stat about;
    return !stat(path, &about) && S_ISDIR(about.st_mode);
}

/* 0, or the error. */
static int make_folder(const char *path)
{
    if (is_folder(path) || !mkdir(path, 0700))
        return 0;
    int error = errno; /* somebody else may have made it meanwhile */
    return is_folder(path) ? 0 : error == EEXIST ? ENOTDIR : error;
}

enum pl_status pl_place_make_folders(const char *path, struct pl_problems *problems)
{
    char *folder = joined(path, "", "");
    int error = 0;
    if (!folder) {
        pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
        return PL_NO_MEMORY;
    }
    for (char *slash = folder; !error && (slash = strchr(slash + 1, '/'));) {
        *slash = '\0';
        error = make_folder(folder);
        if (error)
            pl_problem_addf(problems, PL_ERROR, folder, "cannot be made: %s", strerror(error));
        *slash = '/';
    }
    free(folder);
    return error ? PL_CANNOT_WRITE : PL_OK;
}

/* ---- absolute paths ---- */

char *pl_place_absolute(const char *path)
{
    char found[PATH_MAX];
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path;
    char *folder = slash ? joined(path, "", "") : joined("./", "", ""), *absolute;
    if (!folder)
        return NULL;
    folder[slash ? slash - path + 1 : 2] = '\0';
    if (*name && strcmp(name, ".") && strcmp(name, "..") && realpath(folder, found))
        absolute = joined(found, strcmp(found, "/") ? "/" : "", name);
    else if (*path == '/' || !getcwd(found, sizeof found))
        absolute = joined(path, "", "");
    else
        absolute = joined(found, strcmp(found, "/") ? "/" : "", path);
    free(folder);
    return absolute;
}
