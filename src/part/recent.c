#include "plyloft/recent.h"

#include "plyloft/json_writer.h"
#include "plyloft/places.h"
#include "plyloft/text.h"

#include "file_calls.h"
#include "json.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char format_name[] = "plyloft-recent";

enum { FORMAT_VERSION = 1 };

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

static bool is_utf8(const char *text)
{
    uint32_t code;
    for (size_t left = strlen(text), length; left; text += length, left -= length)
        if (!(length = pl_utf8_decode(text, left, &code)))
            return false;
    return true;
}

/* ---- the list ---- */

static size_t find(const struct pl_recent *recent, const char *path)
{
    size_t i = 0;
    while (i < recent->count && strcmp(recent->parts[i].path, path))
        i++;
    return i;
}

static void take_out(struct pl_recent *recent, size_t index)
{
    free(recent->parts[index].path);
    recent->count--;
    for (size_t i = index; i < recent->count; i++)
        recent->parts[i] = recent->parts[i + 1];
}

/* Takes path over. */
static void put_first(struct pl_recent *recent, char *path)
{
    size_t index = find(recent, path);
    if (index < recent->count)
        take_out(recent, index);
    else if (recent->count == PL_RECENT_MOST)
        take_out(recent, PL_RECENT_MOST - 1);
    for (size_t i = recent->count; i > 0; i--)
        recent->parts[i] = recent->parts[i - 1];
    recent->parts[0] = (struct pl_recent_part){.path = path};
    recent->count++;
}

static bool put_last(struct pl_recent *recent, const char *path)
{
    size_t size = strlen(path) + 1;
    if (recent->count == PL_RECENT_MOST || *path != '/' || find(recent, path) < recent->count)
        return true;
    char *copy = pl_part_memory(NULL, size);
    if (!copy)
        return false;
    memcpy(copy, path, size);
    recent->parts[recent->count++] = (struct pl_recent_part){copy, access(copy, F_OK) == 0};
    return true;
}

void pl_recent_free(struct pl_recent *recent)
{
    for (size_t i = 0; i < recent->count; i++)
        free(recent->parts[i].path);
    *recent = (struct pl_recent){0};
}

/* ---- reading ---- */

static enum pl_status take_parts(struct pl_recent *recent, const struct pl_document *doc, struct pl_problems *own)
{
    pl_node root = pl_document_root(doc), format = pl_node_member(doc, root, "format");
    pl_node version = pl_node_member(doc, root, "version"), parts = pl_node_member(doc, root, "parts");
    if (format == PL_NO_NODE || strcmp(pl_node_text(doc, format), format_name)) {
        pl_problem_add(own, PL_ERROR, "/format", "must be \"plyloft-recent\"", NULL);
        return PL_BAD_INPUT;
    }
    if (version == PL_NO_NODE || pl_node_number(doc, version) != FORMAT_VERSION) {
        pl_problem_add(own, PL_ERROR, "/version", "is not a version that this program knows", NULL);
        return PL_BAD_INPUT;
    }
    if (parts == PL_NO_NODE || pl_node_kind(doc, parts) != PL_NODE_LIST) {
        pl_problem_add(own, PL_ERROR, "/parts", "must be a list", NULL);
        return PL_BAD_INPUT;
    }
    for (pl_node n = pl_node_first(doc, parts); n != PL_NO_NODE; n = pl_node_next(doc, n))
        if (!put_last(recent, pl_node_text(doc, n)))
            return no_memory(own);
    return PL_OK;
}

static enum pl_status read_file(struct pl_recent *recent, const char *file, struct pl_problems *own)
{
    struct pl_document *doc = NULL;
    char *bytes;
    size_t length;
    enum pl_status status = pl_file_read(file, &bytes, &length, own);
    if (status == PL_OK)
        status = pl_document_read(&doc, bytes, length, own);
    if (status == PL_OK)
        status = take_parts(recent, doc, own);
    pl_document_free(doc);
    free(bytes);
    return status;
}

static enum pl_status read_or_begin(struct pl_recent *recent, const char *file, struct pl_problems *problems)
{
    struct pl_problems own = {0};
    *recent = (struct pl_recent){0};
    if (access(file, F_OK))
        return PL_OK;
    enum pl_status status = read_file(recent, file, &own);
    if (status == PL_OK)
        return PL_OK;
    pl_recent_free(recent);
    if (status != PL_NO_MEMORY) {
        pl_file_tell(problems, PL_WARNING, file, "the list of recent parts begins anew", &own);
        return PL_OK;
    }
    pl_problems_free(&own);
    return no_memory(problems);
}

enum pl_status pl_recent_read(struct pl_recent *recent, struct pl_problems *problems)
{
    *recent = (struct pl_recent){0};
    char *file = pl_place_path(PL_PLACE_STATE, "recent.json", problems);
    enum pl_status status = file ? read_or_begin(recent, file, problems) : PL_CANNOT_READ;
    free(file);
    return status;
}

/* ---- writing ---- */

static enum pl_status write_list(const struct pl_file_calls *calls, const struct pl_recent *recent, const char *file,
                                 struct pl_problems *own)
{
    struct pl_json_writer w;
    struct pl_buffer text = {0};
    pl_json_start(&w, &text, false);
    pl_json_object(&w, NULL);
    pl_json_text(&w, "format", format_name);
    pl_json_whole(&w, "version", FORMAT_VERSION);
    pl_json_list(&w, "parts");
    for (size_t i = 0; i < recent->count; i++)
        pl_json_text(&w, NULL, recent->parts[i].path);
    enum pl_status status = pl_json_end(&w) ? pl_place_make_folders(file, own) : no_memory(own);
    if (status == PL_OK)
        status = pl_file_save_by(calls, file, text.text, text.length, own);
    pl_buffer_free(&text);
    return status;
}

static enum pl_status save_list(const struct pl_file_calls *calls, const struct pl_recent *recent, const char *file,
                                struct pl_problems *problems)
{
    struct pl_problems own = {0};
    enum pl_status status = write_list(calls, recent, file, &own);
    if (status != PL_OK)
        pl_file_tell(problems, PL_ERROR, file, "the list of recent parts cannot be kept", &own);
    return status;
}

/* Takes path over. */
static enum pl_status change(const struct pl_file_calls *calls, char *path, bool adds, struct pl_problems *problems)
{
    struct pl_recent recent = {0};
    char *file = pl_place_path(PL_PLACE_STATE, "recent.json", problems);
    enum pl_status status = file ? read_or_begin(&recent, file, problems) : PL_CANNOT_WRITE;
    size_t index = find(&recent, path);
    bool listed = index < recent.count;
    if (status == PL_OK && adds) {
        put_first(&recent, path);
        path = NULL;
    } else if (status == PL_OK && listed) {
        take_out(&recent, index);
    }
    if (status == PL_OK && (adds || listed))
        status = save_list(calls, &recent, file, problems);
    pl_recent_free(&recent);
    free(path);
    free(file);
    return status;
}

enum pl_status pl_recent_add_by(const struct pl_file_calls *calls, const char *part_path, struct pl_problems *problems)
{
    if (!strcmp(part_path, "-"))
        return PL_OK;
    char *path = pl_place_absolute(part_path);
    if (!path)
        return no_memory(problems);
    if (is_utf8(path))
        return change(calls, path, true, problems);
    pl_problem_add(problems, PL_WARNING, path, "is not remembered: its name is not UTF-8", NULL);
    free(path);
    return PL_OK;
}

enum pl_status pl_recent_add(const char *part_path, struct pl_problems *problems)
{
    return pl_recent_add_by(&pl_file_calls, part_path, problems);
}

enum pl_status pl_recent_remove(const char *part_path, struct pl_problems *problems)
{
    char *path = pl_place_absolute(part_path);
    return path ? change(&pl_file_calls, path, false, problems) : no_memory(problems);
}
