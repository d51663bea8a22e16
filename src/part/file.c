#include "file_calls.h"

#include "json.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static int call_open(const char *path, int flags, mode_t mode)
{
    return open(path, flags, mode);
}

const struct pl_file_calls pl_file_calls = {call_open, read, write, fsync, close, rename};

enum pl_status pl_file_failed(struct pl_problems *problems, enum pl_status status, const char *what, int error)
{
    pl_problem_addf(problems, PL_ERROR, "", "%s%s%s", what, error ? ": " : "", error ? strerror(error) : "");
    return status;
}

const char *pl_file_kind(mode_t mode)
{
    return S_ISREG(mode)    ? NULL
           : S_ISDIR(mode)  ? "is a directory"
           : S_ISFIFO(mode) ? "is a fifo"
           : S_ISSOCK(mode) ? "is a socket"
                            : "is a device";
}

int pl_file_open(const struct pl_file_calls *calls, const char *path, int flags, mode_t mode)
{
    int fd;
    do
        fd = calls->open(path, flags | O_CLOEXEC | O_NOCTTY, mode);
    while (fd < 0 && errno == EINTR);
    return fd;
}

/* ---- reading ---- */

struct bytes {
    char *at;
    size_t length, size;
};

/* One more read at the end of what is there; as read does. */
static ssize_t read_more(const struct pl_file_calls *calls, int fd, struct bytes *b)
{
    for (;;) {
        ssize_t n = calls->read(fd, b->at + b->length, b->size - 1 - b->length);
        if (n >= 0 || (errno != EINTR && errno != EAGAIN))
            return n;
        /* Standard input may have been handed over as non-blocking. */
        if (errno == EAGAIN)
            poll(&(struct pollfd){.fd = fd, .events = POLLIN}, 1, -1);
    }
}

static bool grow(struct bytes *b)
{
    size_t most = PL_DOCUMENT_MOST_BYTES + 2; /* one byte too many, and the NUL */
    size_t size = 2 * b->size < most ? 2 * b->size : most;
    char *larger = pl_part_memory(b->at, size);
    if (!larger)
        return false;
    b->at = larger;
    b->size = size;
    return true;
}

static enum pl_status too_large(struct pl_problems *problems)
{
    pl_problem_addf(problems, PL_ERROR, "", "is larger than %d MB", PL_DOCUMENT_MOST_BYTES / (1024 * 1024));
    return PL_CANNOT_READ;
}

static enum pl_status read_all(const struct pl_file_calls *calls, int fd, struct bytes *b, struct pl_problems *problems)
{
    for (;;) {
        if (b->length + 1 >= b->size && !grow(b))
            return pl_file_failed(problems, PL_NO_MEMORY, "there is not enough memory", 0);
        ssize_t n = read_more(calls, fd, b);
        if (n < 0)
            return pl_file_failed(problems, PL_CANNOT_READ, "cannot be read", errno);
        if (n == 0)
            break;
        b->length += (size_t)n;
        if (b->length > PL_DOCUMENT_MOST_BYTES)
            return too_large(problems);
    }
    b->at[b->length] = '\0';
    return PL_OK;
}

static enum pl_status check_kind(int fd, size_t *size, struct pl_problems *problems)
{
    struct stat about;
    if (fstat(fd, &about))
        return pl_file_failed(problems, PL_CANNOT_READ, "cannot be read", errno);
    const char *kind = pl_file_kind(about.st_mode);
    if (kind) {
        pl_problem_addf(problems, PL_ERROR, "", "%s%s", kind,
                        S_ISDIR(about.st_mode) ? "" : ": only regular files are read");
        return PL_CANNOT_READ;
    }
    if (about.st_size > PL_DOCUMENT_MOST_BYTES)
        return too_large(problems);
    *size = (size_t)about.st_size;
    return PL_OK;
}

/* Takes the bytes of fd, of about size, whatever fd is. */
static enum pl_status take(const struct pl_file_calls *calls, int fd, size_t size, char **bytes, size_t *length,
                           struct pl_problems *problems)
{
    struct bytes b = {.size = size + 2};
    b.at = pl_part_memory(NULL, b.size);
    if (!b.at)
        return pl_file_failed(problems, PL_NO_MEMORY, "there is not enough memory", 0);
    enum pl_status status = read_all(calls, fd, &b, problems);
    if (status != PL_OK) {
        free(b.at);
        return status;
    }
    *bytes = b.at;
    *length = b.length;
    return PL_OK;
}

enum pl_status pl_file_read_by(const struct pl_file_calls *calls, const char *path, char **bytes, size_t *length,
                               struct pl_problems *problems)
{
    size_t size = 0;
    *bytes = NULL;
    *length = 0;
    if (!strcmp(path, "-"))
        return take(calls, STDIN_FILENO, 64 * 1024, bytes, length, problems);
    int fd = pl_file_open(calls, path, O_RDONLY | O_NONBLOCK, 0);
    if (fd < 0)
        return pl_file_failed(problems, PL_CANNOT_READ, "cannot be opened", errno);
    enum pl_status status = check_kind(fd, &size, problems);
    if (status == PL_OK)
        status = take(calls, fd, size, bytes, length, problems);
    calls->close(fd);
    return status;
}

enum pl_status pl_file_read(const char *path, char **bytes, size_t *length, struct pl_problems *problems)
{
    return pl_file_read_by(&pl_file_calls, path, bytes, length, problems);
}
