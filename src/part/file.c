#include "file_calls.h"

#include "json.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
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

void pl_file_tell(struct pl_problems *problems, enum pl_severity severity, const char *file, const char *what,
                  struct pl_problems *own)
{
    char sentence[512] = "there is not enough memory";
    if (own->count)
        pl_problem_sentence(&own->list[0], NULL, sentence, sizeof sentence);
    pl_problem_addf(problems, severity, file, "%s: %s", what, sentence);
    pl_problems_free(own);
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

/* ---- time ---- */

static int64_t in_ns(const struct timespec *time)
{
    return (int64_t)time->tv_sec * 1000000000 + time->tv_nsec;
}

static int64_t now_ns(void)
{
    struct timespec now = {0};
    clock_gettime(CLOCK_REALTIME, &now);
    return in_ns(&now);
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

static enum pl_status check_kind(int fd, struct stat *about, struct pl_problems *problems)
{
    if (fstat(fd, about))
        return pl_file_failed(problems, PL_CANNOT_READ, "cannot be read", errno);
    const char *kind = pl_file_kind(about->st_mode);
    if (kind) {
        pl_problem_addf(problems, PL_ERROR, "", "%s%s", kind,
                        S_ISDIR(about->st_mode) ? "" : ": only regular files are read");
        return PL_CANNOT_READ;
    }
    return about->st_size > PL_DOCUMENT_MOST_BYTES ? too_large(problems) : PL_OK;
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

static enum pl_status take_input(const struct pl_file_calls *calls, char **bytes, size_t *length,
                                 struct pl_file_stamp *stamp, struct pl_problems *problems)
{
    enum pl_status status = take(calls, STDIN_FILENO, 64 * 1024, bytes, length, problems);
    if (status == PL_OK && stamp)
        *stamp = (struct pl_file_stamp){.hash = pl_file_hash(*bytes, *length)};
    return status;
}

enum pl_status pl_file_read_stamped_by(const struct pl_file_calls *calls, const char *path, char **bytes,
                                       size_t *length, struct pl_file_stamp *stamp, struct pl_problems *problems)
{
    struct stat about;
    *bytes = NULL;
    *length = 0;
    if (!strcmp(path, "-"))
        return take_input(calls, bytes, length, stamp, problems);
    int fd = pl_file_open(calls, path, O_RDONLY | O_NONBLOCK, 0);
    if (fd < 0)
        return pl_file_failed(problems, PL_CANNOT_READ, "cannot be opened", errno);
    /* Looked at before it is read, so that a change in the middle shows as one afterwards. */
    int64_t looked_ns = now_ns();
    enum pl_status status = check_kind(fd, &about, problems);
    if (status == PL_OK)
        status = take(calls, fd, (size_t)about.st_size, bytes, length, problems);
    calls->close(fd);
    if (status == PL_OK && stamp) {
        pl_file_stamp_set(stamp, &about, *bytes, *length);
        stamp->looked_ns = looked_ns;
    }
    return status;
}

enum pl_status pl_file_read_by(const struct pl_file_calls *calls, const char *path, char **bytes, size_t *length,
                               struct pl_problems *problems)
{
    return pl_file_read_stamped_by(calls, path, bytes, length, NULL, problems);
}

enum pl_status pl_file_read_stamped(const char *path, char **bytes, size_t *length, struct pl_file_stamp *stamp,
                                    struct pl_problems *problems)
{
    return pl_file_read_stamped_by(&pl_file_calls, path, bytes, length, stamp, problems);
}

enum pl_status pl_file_read(const char *path, char **bytes, size_t *length, struct pl_problems *problems)
{
    return pl_file_read_by(&pl_file_calls, path, bytes, length, problems);
}

/* ---- stamps ---- */

/* FNV-1a of 64 bits (Fowler, Noll and Vo). */
uint64_t pl_file_hash(const char *bytes, size_t length)
{
    uint64_t hash = 14695981039346656037u;
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ (unsigned char)bytes[i]) * 1099511628211u;
    return hash;
}

static void set_place(struct pl_file_stamp *stamp, const struct stat *about)
{
    stamp->exists = true;
    stamp->device = (uint64_t)about->st_dev;
    stamp->inode = (uint64_t)about->st_ino;
    stamp->size = (uint64_t)about->st_size;
    stamp->modified_ns = in_ns(&about->st_mtim);
    stamp->looked_ns = now_ns();
}

void pl_file_stamp_set(struct pl_file_stamp *stamp, const struct stat *about, const char *bytes, size_t length)
{
    set_place(stamp, about);
    stamp->hash = pl_file_hash(bytes, length);
}

/* Nothing about it differs, and it had lain still for so long when we last looked that a later change would show:
 * the times of files go in steps, of up to two seconds on some media. */
static bool surely_same(const struct pl_file_stamp *stamp, const struct stat *about)
{
    const int64_t coarsest_ns = 2000000000;
    return stamp->device == (uint64_t)about->st_dev && stamp->inode == (uint64_t)about->st_ino &&
           stamp->size == (uint64_t)about->st_size && stamp->modified_ns == in_ns(&about->st_mtim) &&
           stamp->looked_ns - stamp->modified_ns > coarsest_ns;
}

static enum pl_file_change compare_bytes(const char *path, struct pl_file_stamp *stamp)
{
    struct pl_problems unsaid = {0};
    struct pl_file_stamp now;
    char *bytes;
    size_t length;
    bool same = pl_file_read_stamped(path, &bytes, &length, &now, &unsaid) == PL_OK && now.hash == stamp->hash &&
                now.size == stamp->size;
    free(bytes);
    pl_problems_free(&unsaid);
    if (same)
        *stamp = now;
    return same ? PL_FILE_AS_IT_WAS : PL_FILE_CHANGED;
}

enum pl_file_change pl_file_look(const char *path, struct pl_file_stamp *stamp)
{
    struct stat about;
    if (!strcmp(path, "-"))
        return PL_FILE_AS_IT_WAS;
    if (stat(path, &about)) {
        bool gone = errno == ENOENT || errno == ENOTDIR;
        return !gone ? PL_FILE_CHANGED : stamp->exists ? PL_FILE_GONE : PL_FILE_AS_IT_WAS;
    }
    if (!stamp->exists)
        return PL_FILE_CHANGED;
    return surely_same(stamp, &about) ? PL_FILE_AS_IT_WAS : compare_bytes(path, stamp);
}
