/* The program as a process: where it is, and how much memory it holds. */
#include "bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

const char *bench_program(struct bench_figure *f)
{
    const char *path = getenv("PLYLOFT");
    if (!path || !*path)
        path = "build/plyloft";
    if (access(path, X_OK) == 0)
        return path;
    bench_missing(f, "%s cannot be run: build it first, or name another in PLYLOFT", path);
    return NULL;
}

static void read_kb(const char *line, const char *key, double *mb)
{
    if (!strncmp(line, key, strlen(key)))
        *mb = strtod(line + strlen(key), NULL) / 1024;
}

bool bench_resident_mb(pid_t process, double *all_mb, double *own_mb)
{
    char line[256];
    *all_mb = *own_mb = -1;
    snprintf(line, sizeof line, "/proc/%ld/status", (long)process);
    FILE *status = fopen(line, "r");
    if (!status)
        return false;
    while (fgets(line, sizeof line, status)) {
        read_kb(line, "VmRSS:", all_mb);
        read_kb(line, "RssAnon:", own_mb);
    }
    fclose(status);
    return *all_mb >= 0 && *own_mb >= 0;
}
