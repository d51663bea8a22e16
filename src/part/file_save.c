/* Saving: a new file beside the old one, synced, then put in its place by one rename. */
#include "file_calls.h"

#include "json.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

struct save {
    const struct pl_file_calls *calls;
    struct pl_problems *problems;
    char *target;    /* the file itself, links followed */
    size_t folder;   /* bytes of target up to and with its last slash */
    char *temporary; /* beside it */
    int folder_fd;   /* -1: cannot be synced */
    bool exists;
    struct stat old, new;
    bool in_place;
};

static bool fail(const struct save *s, const char *what, int error)
{
    pl_file_failed(s->problems, PL_CANNOT_WRITE, what, error);
    return false;
}

/* ---- where to ---- */

static size_t folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path) + 1 : 0;
}

/* name in the folder that path is in; NULL without memory. */
static char *beside(const char *path, const char *name)
{
    size_t folder = *name == '/' ? 0 : folder_length(path), size = strlen(name) + 1;
    char *joined = pl_part_memory(NULL, folder + size);
    if (!joined)
        return NULL;
    memcpy(joined, path, folder);
    memcpy(joined + folder, name, size);
    return joined;
}

/* Follows links by hand: the last one may lead to a file that is not there yet, which realpath does not give. */
static bool follow_links(struct save *s, const char *path)
{
    enum { MOST_LINKS = 40 };
    char to[PATH_MAX];
    s->target = beside(path, path + folder_length(path));
    for (int links = 0; s->target && links < MOST_LINKS; links++) {
        ssize_t length = readlink(s->target, to, sizeof to - 1);
        if (length < 0) {
            s->folder = folder_length(s->target);
            return true;
        }
        to[length] = '\0';
        char *next = beside(s->target, to);
        free(s->target);
        s->target = next;
    }
    return fail(s, "cannot be saved", s->target ? ELOOP : ENOMEM);
}

/* Whether there is a file to replace, and whether we may. */
static bool look_at_old(struct save *s)
{
    s->exists = stat(s->target, &s->old) == 0;
    if (!s->exists)
        return errno == ENOENT || fail(s, "cannot be saved", errno);
    const char *kind = pl_file_kind(s->old.st_mode);
    if (kind)
        return fail(s, kind, 0);
    if (faccessat(AT_FDCWD, s->target, W_OK, AT_EACCESS))
        return fail(s, "is read-only", 0);
    return true;
}

/* Before anything is made, so that what is in the way of syncing the folder is known in time. */
static bool open_folder(struct save *s)
{
    char *path = beside(s->target, ".");
    if (!path)
        return fail(s, "cannot be saved", ENOMEM);
    s->folder_fd = pl_file_open(s->calls, path, O_RDONLY | O_DIRECTORY, 0);
    free(path);
    /* A folder may be closed to readers and still take files. */
    return s->folder_fd >= 0 || errno == EACCES || fail(s, "its folder cannot be opened", errno);
}

/* ---- the new file ---- */

static const char temporary_start[] = ".plyloft-";

unsigned long long pl_file_any_number(void)
{
    unsigned long long number;
    if (getentropy(&number, sizeof number)) {
        struct timespec now;
        clock_gettime(CLOCK_REALTIME, &now);
        number = (unsigned long long)now.tv_nsec << 32 ^ (unsigned long long)getpid();
    }
    return number;
}

/* The file descriptor of a new file, or -1; an existing file's permissions are set later. */
static int make_temporary(struct save *s)
{
    enum { MOST_TRIES = 100 };
    char name[64];
    int fd = -1;
    for (int tries = 0; tries < MOST_TRIES && fd < 0; tries++) {
        free(s->temporary);
        snprintf(name, sizeof name, "%s%016llx", temporary_start, pl_file_any_number() + (unsigned long long)tries);
        s->temporary = beside(s->target, name);
        if (!s->temporary) {
            errno = ENOMEM;
            break;
        }
        fd = pl_file_open(s->calls, s->temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW, s->exists ? 0600 : 0666);
        if (fd < 0 && errno != EEXIST)
            break;
    }
    return fd;
}

/* Owner and group where we may; a group that cannot be kept leaves its own no more than all others have. */
static bool keep_permissions(const struct save *s, int fd)
{
    struct stat new;
    mode_t mode = s->old.st_mode & 07777;
    if (fstat(fd, &new))
        return false;
    bool owner = new.st_uid == s->old.st_uid, group = new.st_gid == s->old.st_gid;
    if (!owner || !group) {
        owner = group = fchown(fd, s->old.st_uid, s->old.st_gid) == 0;
        group = group || fchown(fd, (uid_t)-1, s->old.st_gid) == 0;
    }
    if (!group)
        mode &= ~(mode_t)02070 | (mode << 3 & 070);
    if (!owner)
        mode &= ~(mode_t)04000;
    if (!fchmod(fd, mode))
        return true;
    /* Some file systems know one mode for all files, and refuse to set even that. */
    return fstat(fd, &new) == 0 && new.st_mode == s->old.st_mode;
}

static bool write_all(const struct pl_file_calls *calls, int fd, const char *bytes, size_t length)
{
    while (length) {
        ssize_t n = calls->write(fd, bytes, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0) {
            errno = n ? errno : EIO;
            return false;
        }
        bytes += n;
        length -= (size_t)n;
    }
    return true;
}

static bool sync_again(const struct pl_file_calls *calls, int fd)
{
    int result;
    do
        result = calls->fsync(fd);
    while (result && errno == EINTR);
    return result == 0;
}

/* Everything up to the rename. */
static bool write_temporary(struct save *s, const char *bytes, size_t length)
{
    int fd = make_temporary(s);
    if (fd < 0) {
        free(s->temporary);
        s->temporary = NULL;
        return fail(s, "no new file can be made in its folder", errno);
    }
    bool whole = (!s->exists || keep_permissions(s, fd)) && write_all(s->calls, fd, bytes, length) &&
                 sync_again(s->calls, fd) && !fstat(fd, &s->new);
    int error = whole ? 0 : errno;
    /* Interrupted, the descriptor is closed all the same, and the bytes were synced before. */
    if (s->calls->close(fd) && whole && errno != EINTR) {
        whole = false;
        error = errno;
    }
    return whole || fail(s, "cannot be saved", error);
}

static bool put_in_place(struct save *s)
{
    if (s->calls->rename(s->temporary, s->target))
        return fail(s, "cannot be saved", errno);
    s->in_place = true;
    free(s->temporary);
    s->temporary = NULL;
    /* Some file systems have no way to sync a folder, and say so with EINVAL. */
    if (s->folder_fd >= 0 && !sync_again(s->calls, s->folder_fd) && errno != EINVAL)
        return fail(s, "is saved, but its folder cannot be synced", errno);
    return true;
}

/* ---- what was left behind ---- */

/* Of a save of this user's that was killed, and so old that no save under way can be meant.  Both times are of the
 * file system, whose clock need not be ours. */
static bool left_behind(const struct save *s, int folder_fd, const char *name)
{
    enum { DIGITS = 16, OLD_S = 3600 };
    const size_t start = sizeof temporary_start - 1;
    struct stat about;
    return !strncmp(name, temporary_start, start) && strlen(name + start) == DIGITS &&
           strspn(name + start, "0123456789abcdef") == DIGITS &&
           !fstatat(folder_fd, name, &about, AT_SYMLINK_NOFOLLOW) && S_ISREG(about.st_mode) &&
           about.st_uid == geteuid() && s->new.st_mtim.tv_sec - about.st_mtim.tv_sec > OLD_S;
}

/* A folder that cannot be swept is left as it is: the file is saved all the same. */
static void sweep_folder(const struct save *s)
{
    int fd = s->folder_fd < 0 ? -1 : fcntl(s->folder_fd, F_DUPFD_CLOEXEC, 0);
    DIR *folder = fd < 0 ? NULL : fdopendir(fd);
    for (const struct dirent *entry; folder && (entry = readdir(folder));)
        if (left_behind(s, fd, entry->d_name))
            unlinkat(fd, entry->d_name, 0);
    if (folder)
        closedir(folder);
    else if (fd >= 0)
        close(fd);
}

enum pl_status pl_file_save_stamped_by(const struct pl_file_calls *calls, const char *path, const char *bytes,
                                       size_t length, struct pl_file_stamp *stamp, struct pl_problems *problems)
{
    struct save s = {.calls = calls, .problems = problems, .folder_fd = -1};
    if (!strcmp(path, "-"))
        return pl_file_failed(problems, PL_CANNOT_WRITE, "cannot be saved: it was read from standard input", 0);
    bool saved = follow_links(&s, path) && look_at_old(&s) && open_folder(&s) && write_temporary(&s, bytes, length) &&
                 put_in_place(&s);
    if (s.in_place)
        sweep_folder(&s);
    if (s.in_place && stamp)
        pl_file_stamp_set(stamp, &s.new, bytes, length);
    if (s.temporary)
        unlink(s.temporary);
    if (s.folder_fd >= 0)
        calls->close(s.folder_fd); /* nothing was written by it */
    free(s.temporary);
    free(s.target);
    return saved ? PL_OK : PL_CANNOT_WRITE;
}

enum pl_status pl_file_save_by(const struct pl_file_calls *calls, const char *path, const char *bytes, size_t length,
                               struct pl_problems *problems)
{
    return pl_file_save_stamped_by(calls, path, bytes, length, NULL, problems);
}

enum pl_status pl_file_save_stamped(const char *path, const char *bytes, size_t length, struct pl_file_stamp *stamp,
                                    struct pl_problems *problems)
{
    return pl_file_save_stamped_by(&pl_file_calls, path, bytes, length, stamp, problems);
}

enum pl_status pl_file_save(const char *path, const char *bytes, size_t length, struct pl_problems *problems)
{
    return pl_file_save_by(&pl_file_calls, path, bytes, length, problems);
}
