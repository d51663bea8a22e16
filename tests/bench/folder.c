/* A folder of our own for parts that are edited and saved, gone with all it holds at the end. */
#include "bench.h"

#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static char folder[512];

bool bench_folder_make(void)
{
    const char *base = getenv("TMPDIR");
    int length = snprintf(folder, sizeof folder, "%s/plyloft-bench-XXXXXX", base && *base ? base : "/tmp");
    if (length < (int)sizeof folder && mkdtemp(folder) && setenv("XDG_STATE_HOME", folder, 1) == 0)
        return true;
    folder[0] = '\0';
    return false;
}

const char *bench_folder(void)
{
    return folder;
}

void bench_folder_path(char *out, size_t size, const char *name)
{
    snprintf(out, size, "%s/%s", folder, name);
}

static int remove_one(const char *path, const struct stat *about, int kind, struct FTW *place)
{
    (void)about;
    (void)kind;
    (void)place;
    return remove(path);
}

void bench_folder_remove(void)
{
    enum { OPEN_AT_ONCE = 8 };
    if (folder[0])
        nftw(folder, remove_one, OPEN_AT_ONCE, FTW_DEPTH | FTW_PHYS);
    folder[0] = '\0';
}
