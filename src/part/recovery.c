#include "recovery_inside.h"

#include "plyloft/json_writer.h"
#include "plyloft/places.h"

#include "file_calls.h"
#include "json.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

/* ---- sessions ---- */

/* When the process began, 0 when that is not known, -1 for one that has ended.  It is the 22nd word of the line; the second is a name in brackets that may hold anything (proc(5)). */
static long long process_start(long process)
{
    char path[64], line[1024];
    snprintf(path, sizeof path, "/proc/%ld/stat", process);
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    ssize_t length = fd < 0 ? 0 : read(fd, line, sizeof line - 1);
    if (fd >= 0)
        close(fd);
    line[length > 0 ? length : 0] = '\0';
    const char *word = strrchr(line, ')');
    if (word && (word[2] == 'Z' || word[2] == 'X'))
        return -1;  /* dead, and only not yet waited for */
    for (int n = 2; word && n < 22; n++)
        word = strchr(word + 1, ' ');
    return word ? strtoll(word, NULL, 10) : 0;
}

void pl_session_mark_own(struct pl_session_mark *mark)
{
    *mark = (struct pl_session_mark){.process = (long)getpid()};
    mark->start = process_start(mark->process);
    if (gethostname(mark->host, sizeof mark->host - 1))
        mark->host[0] = '\0';
}

bool pl_session_runs(const struct pl_session_mark *mark)
{
    struct pl_session_mark own;
    pl_session_mark_own(&own);
    if (mark->process <= 0 || mark->process == own.process || strcmp(mark->host, own.host))
        return false;
    if (kill((pid_t)mark->process, 0) && errno == ESRCH)
        return false;
    long long start = process_start(mark->process);
    return !mark->start || !start || mark->start == start;
}

/* ---- names ---- */

char *pl_recovery_identity(const char *part_path)
{
    char found[PATH_MAX] = "";
    if (part_path && strcmp(part_path, "-") && !realpath(part_path, found))
        return pl_place_absolute(part_path);
    size_t size = strlen(found) + 1;
    char *identity = pl_part_memory(NULL, size);
    return identity ? memcpy(identity, found, size) : NULL;
}

void pl_hash_write(char digits[PL_HASH_DIGITS + 1], uint64_t hash)
{
    snprintf(digits, PL_HASH_DIGITS + 1, "%016llx", (unsigned long long)hash);
}

static char *new_file(const char *hash, struct pl_problems *problems)
{
    char name[64];
    snprintf(name, sizeof name, "recovery/%s-%016llx.json", hash, pl_file_any_number());
    return pl_place_path(PL_PLACE_STATE, name, problems);
}

static bool is_of(const char *file, const char *hash)
{
    return !strncmp(strrchr(file, '/') + 1, hash, PL_HASH_DIGITS);
}

/* ---- writing ---- */

static bool compose(struct pl_buffer *out, const char *identity, uint64_t base_hash, const char *bytes)
{
    struct pl_json_writer w;
    struct pl_session_mark own;
    struct timespec now = {0};
    char base[PL_HASH_DIGITS + 1];
    clock_gettime(CLOCK_REALTIME, &now);
    pl_session_mark_own(&own);
    pl_hash_write(base, base_hash);
    pl_json_start(&w, out, false);
    pl_json_object(&w, NULL);
    pl_json_text(&w, "format", PL_RECOVERY_FORMAT);
    pl_json_whole(&w, "version", PL_RECOVERY_VERSION);
    pl_json_text(&w, "path", *identity ? identity : NULL);
    pl_json_text(&w, "base_hash", base);
    pl_json_whole(&w, "written_us", (long long)now.tv_sec * 1000000 + now.tv_nsec / 1000);
    pl_json_whole(&w, "process", own.process);
    pl_json_whole(&w, "process_start", own.start);
    pl_json_text(&w, "host", own.host);
    pl_json_text(&w, "document", bytes);
    return pl_json_end(&w);
}

/* The old file went with the old path; if it cannot be removed, it will be found and told some day. */
static void take_over(struct pl_recovery *kept, char *file)
{
    if (kept->file)
        unlink(kept->file);
    free(kept->file);
    kept->file = file;
}

/* Replaces what was kept; under a new name when the part has got another path. */
static enum pl_status put(const struct pl_file_calls *calls, struct pl_recovery *kept, const char *hash,
                          const struct pl_buffer *text, struct pl_problems *problems)
{
    struct pl_problems saving = {0};
    struct pl_file_stamp stamp = {0};
    bool same_part = kept->file && is_of(kept->file, hash);
    char *file = same_part ? kept->file : new_file(hash, problems);
    if (!file)
        return PL_CANNOT_WRITE;
    enum pl_status status = pl_place_make_folders(file, &saving);
    if (status == PL_OK)
        status = pl_file_save_stamped_by(calls, file, text->text, text->length, &stamp, &saving);
    if (status != PL_OK)
        pl_file_tell(problems, PL_ERROR, file, "unsaved work cannot be kept here", &saving);
    if (!same_part && stamp.exists)
        take_over(kept, file);
    else if (!same_part)
        free(file);
    return status;
}

enum pl_status pl_recovery_write_by(const struct pl_file_calls *calls, struct pl_recovery *kept, const char *part_path,
                                    uint64_t base_hash, const char *bytes, struct pl_problems *problems)
{
    char hash[PL_HASH_DIGITS + 1];
    struct pl_buffer text = {0};
    enum pl_status status;
    char *identity = pl_recovery_identity(part_path);
    if (!identity || !compose(&text, identity, base_hash, bytes)) {
        status = no_memory(problems);
    } else if (text.length > PL_DOCUMENT_MOST_BYTES) {
        pl_problem_add(problems, PL_ERROR, identity, "is too large for unsaved work to be kept: save it often", NULL);
        status = PL_BAD_INPUT;
    } else {
        pl_hash_write(hash, pl_file_hash(identity, strlen(identity)));
        status = put(calls, kept, hash, &text, problems);
    }
    pl_buffer_free(&text);
    free(identity);
    return status;
}

enum pl_status pl_recovery_write(struct pl_recovery *kept, const char *part_path, uint64_t base_hash, const char *bytes,
                                 struct pl_problems *problems)
{
    return pl_recovery_write_by(&pl_file_calls, kept, part_path, base_hash, bytes, problems);
}

/* ---- taking away ---- */

enum pl_status pl_recovery_dismiss(const char *file, struct pl_problems *problems)
{
    if (!unlink(file) || errno == ENOENT)
        return PL_OK;
    pl_problem_addf(problems, PL_ERROR, file, "cannot be removed: %s", strerror(errno));
    return PL_CANNOT_WRITE;
}

enum pl_status pl_recovery_discard(struct pl_recovery *kept, struct pl_problems *problems)
{
    enum pl_status status = kept->file ? pl_recovery_dismiss(kept->file, problems) : PL_OK;
    if (status == PL_OK)
        pl_recovery_leave(kept);
    return status;
}

void pl_recovery_leave(struct pl_recovery *kept)
{
    free(kept->file);
    kept->file = NULL;
}
