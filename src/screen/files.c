#include "session.h"

#include "plyloft/buffer.h"
#include "plyloft/recent.h"

#include <dirent.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

/* ---- work kept aside ---- */

static void discard(struct pl_session *s)
{
    struct pl_problems problems = {0};
    pl_recovery_discard(&s->kept, &problems);
    pl_problems_free(&problems);
}

void pl_session_keep(struct pl_session *s)
{
    struct pl_problems problems = {0};
    const char *bytes = pl_document_bytes(s->document, &(size_t){0});
    if (pl_document_revision(s->document) == s->kept_revision)
        return;
    s->kept_revision = pl_document_revision(s->document);
    if (!pl_document_changed(s->document))
        discard(s);
    else if (pl_recovery_write(&s->kept, s->path, s->stamp.hash, bytes, &problems) != PL_OK && !s->message[0])
        pl_session_say_problem(s, "unsaved work is not kept aside", &problems);
    pl_problems_free(&problems);
}

void pl_session_drop(struct pl_session *s)
{
    discard(s);
    s->leave = true;
}

/* ", kept 2026-11-24 18:05"; "" when that is not known. */
static void kept_words(long long written_us, char *out, size_t size)
{
    time_t when = (time_t)(written_us / 1000000);
    struct tm at;
    if (written_us <= 0 || !localtime_r(&when, &at) || !strftime(out, size, ", kept %Y-%m-%d %H:%M", &at))
        out[0] = '\0';
}

void pl_session_ask_recovery(struct pl_session *s)
{
    struct pl_problems problems = {0};
    long at_work = 0;
    char kept[48];
    if (pl_recovery_find(s->path, &s->found, &at_work, &problems) == PL_OK && s->found.file) {
        struct pl_question *q = pl_ask(s, PL_ASK_RECOVERY, "");
        kept_words(s->found.written_us, kept, sizeof kept);
        if (q)
            snprintf(q->words, sizeof q->words, "Edits of this part were not saved last time%s.%s", kept,
                     s->found.part_changed ? " The file has changed since they began." : "");
    } else if (at_work) {
        pl_session_say(s, "another session has unsaved work on this part", NULL);
    }
    pl_problems_free(&problems);
}

enum pl_status pl_session_replace(struct pl_session *s, const char *name, const char *bytes)
{
    struct pl_problems problems = {0};
    enum pl_status status = pl_edit_begin(s->document, name, NULL);
    if (status == PL_OK) {
        status = pl_edit_set(s->document, "", bytes, &problems);
        if (status == PL_OK)
            status = pl_edit_end(s->document);
        else
            pl_edit_abandon(s->document);
    }
    pl_session_edited(s, status, &problems);
    return status;
}

void pl_session_recover(struct pl_session *s)
{
    if (s->found.file && pl_session_replace(s, "unsaved work taken up", s->found.bytes) == PL_OK) {
        pl_session_keep(s);
        pl_session_forget_recovery(s);
    }
}

void pl_session_read_anew(struct pl_session *s)
{
    struct pl_problems problems = {0};
    char *bytes;
    size_t length;
    if (pl_file_read_stamped(s->path, &bytes, &length, &s->stamp, &problems) != PL_OK) {
        pl_session_say_problem(s, "not read", &problems);
    } else {
        if (pl_session_replace(s, "read anew", bytes) == PL_OK)
            pl_document_saved(s->document);
        free(bytes);
    }
    pl_problems_free(&problems);
}

void pl_session_forget_recovery(struct pl_session *s)
{
    struct pl_problems problems = {0};
    if (s->found.file)
        pl_recovery_dismiss(s->found.file, &problems);
    pl_recovered_free(&s->found);
    s->found = (struct pl_recovered){0};
    pl_problems_free(&problems);
}

/* ---- saving ---- */

static void after_save(struct pl_session *s)
{
    pl_document_saved(s->document);
    s->stamped = true;
    s->kept_revision = pl_document_revision(s->document);
    discard(s);
    pl_session_say(s, s->valid ? "saved" : "saved, though it cannot be judged", s->path);
}

static bool write_to(struct pl_session *s, const char *path)
{
    struct pl_problems problems = {0};
    size_t length;
    const char *bytes = pl_document_bytes(s->document, &length);
    enum pl_status status = pl_file_save_stamped(path, bytes, length, &s->stamp, &problems);
    if (status != PL_OK)
        pl_session_say_problem(s, "not saved", &problems);
    pl_problems_free(&problems);
    return status == PL_OK;
}

bool pl_session_save(struct pl_session *s, bool overwrite)
{
    if (!strcmp(s->path, "-")) {
        pl_session_say(s, "it came from standard input, which has no file to save to; w gives it a name", NULL);
        return false;
    }
    if (!overwrite && s->stamped && pl_file_look(s->path, &s->stamp) == PL_FILE_CHANGED) {
        struct pl_question *q = pl_ask(s, PL_ASK_OVERWRITE, "");
        if (q)
            snprintf(q->words, sizeof q->words, "%.200s was changed by another program since it was read.", s->path);
        return false;
    }
    if (!write_to(s, s->path))
        return false;
    after_save(s);
    return true;
}

void pl_session_save_as(struct pl_session *s, const char *path)
{
    struct stat about;
    if (!*path) {
        pl_session_say(s, "a name is needed", NULL);
        return;
    }
    if (strcmp(path, s->path) && !stat(path, &about)) {
        pl_session_say(s, "there is a file of that name: choose another", NULL);
        return;
    }
    char *copy = strdup(path);
    if (!copy || !write_to(s, path)) {
        free(copy);
        return;
    }
    pl_question_done(s);
    free(s->path);
    s->path = copy;
    after_save(s);
    pl_session_remember(s);
}

void pl_session_look_at_disk(struct pl_session *s)
{
    if (!s->stamped || s->n_questions || s->message[0])
        return;
    enum pl_file_change change = pl_file_look(s->path, &s->stamp);
    if (change == PL_FILE_CHANGED)
        pl_session_say(s, "another program changed the file: saving will ask", NULL);
    else if (change == PL_FILE_GONE)
        pl_session_say(s, "the file is gone: saving makes it anew", NULL);
}

void pl_session_remember(struct pl_session *s)
{
    struct pl_problems problems = {0};
    pl_recent_add(s->path, &problems);  /* a list that cannot be kept is no reason to stop anybody */
    pl_problems_free(&problems);
}

/* ---- completing a path ---- */

static size_t common(const char *a, const char *b)
{
    size_t n = 0;
    while (a[n] && a[n] == b[n])
        n++;
    while (n && ((unsigned char)a[n] & 0xc0) == 0x80)
        n--;  /* not inside a character */
    return n;
}

static bool is_folder(const char *folder, const char *name)
{
    char path[PATH_MAX];
    struct stat about;
    snprintf(path, sizeof path, "%s%s", folder, name);
    return !stat(path, &about) && S_ISDIR(about.st_mode);
}

size_t pl_path_complete(struct pl_line *line)
{
    char folder[sizeof line->text], best[sizeof line->text] = "", whole[2 * sizeof line->text];
    const char *slash = strrchr(line->text, '/'), *start = slash ? slash + 1 : line->text;
    snprintf(folder, sizeof folder, "%.*s", (int)(start - line->text), line->text);
    size_t n = 0, length = strlen(start);
    DIR *dir = opendir(*folder ? folder : ".");
    for (struct dirent *entry = dir ? readdir(dir) : NULL; entry; entry = readdir(dir)) {
        if (strncmp(entry->d_name, start, length) || (entry->d_name[0] == '.' && start[0] != '.'))
            continue;
        if (!n++)
            snprintf(best, sizeof best, "%s", entry->d_name);
        else
            best[common(best, entry->d_name)] = '\0';
    }
    if (dir)
        closedir(dir);
    if (!n)
        return 0;
    snprintf(whole, sizeof whole, "%s%s%s", folder, best, n == 1 && is_folder(folder, best) ? "/" : "");
    pl_line_start(line, whole);
    line->untouched = false;
    return n;
}

/* ---- opening and closing ---- */

static enum pl_status open_document(struct pl_session *s, const char *path, struct pl_problems *problems)
{
    char *bytes;
    size_t length;
    enum pl_status status = pl_file_read_stamped(path, &bytes, &length, &s->stamp, problems);
    if (status != PL_OK)
        return status;
    s->stamped = strcmp(path, "-");
    status = pl_document_read(&s->document, bytes, length, problems);
    free(bytes);
    return status;
}

enum pl_status pl_session_open(struct pl_session **out, const char *path, struct pl_problems *problems)
{
    struct pl_session *s = calloc(1, sizeof *s);
    *out = NULL;
    if (!s)
        return PL_NO_MEMORY;
    s->path = strdup(path);
    s->solve = pl_solve_new();
    s->forgotten = pl_forgotten_new();
    s->air = pl_section_air_new();
    s->wing_air = pl_wing_air_new();
    s->wing = pl_wing_sections_new();
    s->driver = pl_driver_new();
    s->shop = pl_shop_job_new();
    s->over = PL_OVER_HEIGHT;
    s->page = PL_PAGE_CLOTH;
    s->load_case = PL_NONE;
    pl_keymap_usual(&s->keys);
    enum pl_status status = s->path && s->solve && s->forgotten && s->air && s->wing_air && s->wing && s->driver && s->shop ? open_document(s, path, problems) : PL_NO_MEMORY;
    if (status != PL_OK) {
        pl_session_close(s);
        return status;
    }
    s->kept_revision = pl_document_revision(s->document);
    pl_solve_use_air(s->solve, s->wing_air, true);
    pl_forgotten_use_air(s->forgotten, s->wing_air);
    pl_session_judge(s);
    s->before.there = false;
    *out = s;
    return PL_OK;
}

void pl_session_close(struct pl_session *s)
{
    if (!s)
        return;
    pl_recovery_leave(&s->kept);
    pl_recovered_free(&s->found);
    pl_document_free(s->document);
    pl_forgotten_free(s->forgotten);
    pl_section_air_free(s->air);
    pl_solve_free(s->solve);
    pl_wing_sections_free(s->wing);
    pl_driver_free(s->driver);
    pl_shop_job_free(s->shop);
    pl_wing_air_free(s->wing_air);
    pl_arena_free(&s->gap_memory);
    pl_part_free(&s->parts[0]);
    pl_part_free(&s->parts[1]);
    pl_problems_free(&s->problems);
    pl_materials_close(s);
    pl_trials_free(s);
    free(s->points);
    free(s->path);
    free(s);
}
