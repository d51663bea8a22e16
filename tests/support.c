#include "support.h"

#include <dirent.h>
#include <ftw.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void check_close(double got, double want, double relative, const char *what, const char *file, int line)
{
    if (got == want || fabs(got - want) <= relative * fabs(want))
        return;
    print_error("%s is %.17g, not %.17g (off by %.3g, allowed %.3g)\n", what, got, want, fabs(got - want),
                relative * fabs(want));
    _fail(file, line);
}

char *read_whole_file(const char *path, size_t *length)
{
    FILE *f = fopen(path, "rb");
    if (!f)
        fail_msg("%s cannot be opened", path);
    size_t n = 0, capacity = 4096;
    char *bytes = malloc(capacity);
    assert_non_null(bytes);
    for (size_t more; (more = fread(bytes + n, 1, capacity - n - 1, f)) > 0;) {
        n += more;
        if (n + 1 == capacity) {
            char *larger = realloc(bytes, capacity *= 2);
            assert_non_null(larger);
            bytes = larger;
        }
    }
    assert_int_equal(ferror(f), 0);
    fclose(f);
    bytes[n] = '\0';
    if (length)
        *length = n;
    return bytes;
}

void write_whole_file(const char *path, const char *bytes, size_t length)
{
    FILE *f = fopen(path, "wb");
    if (!f)
        fail_msg("%s cannot be made", path);
    assert_int_equal(fwrite(bytes, 1, length, f), length);
    assert_int_equal(fclose(f), 0);
}

char *make_folder(void)
{
    const char *under = getenv("TMPDIR");
    char *path = NULL;
    if (asprintf(&path, "%s/plyloft-test-XXXXXX", under && *under ? under : P_tmpdir) < 0)
        path = NULL;
    assert_non_null(path);
    assert_non_null(mkdtemp(path));
    return path;
}

static int remove_one(const char *path, const struct stat *about, int kind, struct FTW *at)
{
    (void)about, (void)kind, (void)at;
    return remove(path);
}

void remove_folder(char *path)
{
    if (nftw(path, remove_one, 16, FTW_DEPTH | FTW_PHYS))
        fail_msg("%s cannot be removed", path);
    free(path);
}

size_t count_in_folder(const char *path)
{
    DIR *folder = opendir(path);
    assert_non_null(folder);
    size_t count = 0;
    for (const struct dirent *entry; (entry = readdir(folder));)
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(folder);
    return count;
}
