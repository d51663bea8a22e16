/* What sessions left behind: read, judged and sorted. */
#include "recovery_inside.h"

#include "plyloft/document.h"
#include "plyloft/places.h"

#include "file_calls.h"
#include "json.h"

#include <dirent.h>
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

static char *copy_of(const char *text)
{
    size_t size = strlen(text) + 1;
    char *copy = pl_part_memory(NULL, size);
    return copy ? memcpy(copy, text, size) : NULL;
}

void pl_recovered_free(struct pl_recovered *found)
{
    free(found->file);
    free(found->part_path);
    free(found->bytes);
    *found = (struct pl_recovered){0};
}

void pl_recovered_list_free(struct pl_recovered_list *list)
{
    for (size_t i = 0; i < list->count; i++)
        pl_recovered_free(&list->items[i]);
    free(list->items);
    *list = (struct pl_recovered_list){0};
}

/* ---- one file read ---- */

struct reading {
    const struct pl_document *doc;
    struct pl_problems *problems; /* of this file alone */
};

static pl_node member(const struct reading *r, const char *key)
{
    return pl_node_member(r->doc, pl_document_root(r->doc), key);
}

static bool broken(const struct reading *r, const char *key, const char *rule)
{
    char place[64] = "", found[80] = "";
    pl_node node = member(r, key);
    pl_pointer_append(place, sizeof place, key);
    if (node != PL_NO_NODE)
        pl_node_spelling(r->doc, node, found, sizeof found);
    pl_problem_add(r->problems, PL_ERROR, place, node == PL_NO_NODE ? "is missing" : rule, found);
    return false;
}

static bool read_text(const struct reading *r, const char *key, const char **text)
{
    pl_node node = member(r, key);
    if (node == PL_NO_NODE || pl_node_kind(r->doc, node) != PL_NODE_TEXT)
        return broken(r, key, "must be a text");
    *text = pl_node_text(r->doc, node);
    return true;
}

static bool read_whole(const struct reading *r, const char *key, long long *value)
{
    const double most = 9007199254740992; /* 2^53: up to here a double is exact */
    pl_node node = member(r, key);
    double number = node == PL_NO_NODE ? -1 : pl_node_number(r->doc, node);
    if (node == PL_NO_NODE || pl_node_kind(r->doc, node) != PL_NODE_NUMBER || number < 0 || number > most ||
        number != floor(number))
        return broken(r, key, "must be a whole number, not below 0");
    *value = (long long)number;
    return true;
}

static bool read_format(const struct reading *r)
{
    const char *format;
    long long version;
    if (pl_node_kind(r->doc, pl_document_root(r->doc)) != PL_NODE_OBJECT) {
        pl_problem_add(r->problems, PL_ERROR, "", "must be an object", NULL);
        return false;
    }
    if (!read_text(r, "format", &format) || !read_whole(r, "version", &version))
        return false;
    if (strcmp(format, PL_RECOVERY_FORMAT))
        return broken(r, "format", "must be \"" PL_RECOVERY_FORMAT "\"");
    return version == PL_RECOVERY_VERSION || broken(r, "version", "is not a version that this program knows");
}

static bool read_session(const struct reading *r, struct pl_recovered *found)
{
    struct pl_session_mark mark = {0};
    const char *host;
    long long process;
    if (!read_whole(r, "process", &process) || !read_whole(r, "process_start", &mark.start) ||
        !read_text(r, "host", &host))
        return false;
    found->process = mark.process = (long)process;
    if (strlen(host) < sizeof mark.host)
        strcpy(mark.host, host);
    found->at_work = pl_session_runs(&mark);
    return true;
}

static bool read_base(const struct reading *r, struct pl_recovered *found)
{
    const char *digits;
    if (!read_text(r, "base_hash", &digits))
        return false;
    if (strlen(digits) != PL_HASH_DIGITS || strspn(digits, "0123456789abcdef") != PL_HASH_DIGITS)
        return broken(r, "base_hash", "must be 16 hexadecimal digits");
    found->base_hash = strtoull(digits, NULL, 16);
    return true;
}

static enum pl_status take_texts(const char *file, const char *part_path, const char *document,
                                 struct pl_recovered *found)
{
    found->length = strlen(document);
    found->bytes = copy_of(document);
    found->file = copy_of(file);
    found->part_path = part_path ? copy_of(part_path) : NULL;
    return found->bytes && found->file && (found->part_path || !part_path) ? PL_OK : PL_NO_MEMORY;
}

static bool read_path(const struct reading *r, const char **path)
{
    pl_node node = member(r, "path");
    *path = NULL;
    if (node != PL_NO_NODE && pl_node_kind(r->doc, node) == PL_NODE_NULL)
        return true;
    return read_text(r, "path", path) && (**path == '/' || broken(r, "path", "must begin at the root"));
}

static enum pl_status read_all(const struct reading *r, const char *file, struct pl_recovered *found)
{
    const char *path = NULL, *document = "";
    if (read_format(r) && read_base(r, found) && read_whole(r, "written_us", &found->written_us) &&
        read_session(r, found) && read_path(r, &path) && read_text(r, "document", &document))
        return take_texts(file, path, document, found);
    return PL_BAD_INPUT;
}

enum pl_status pl_recovery_read(const char *file, struct pl_recovered *found, struct pl_problems *problems)
{
    struct pl_problems own = {0};
    struct pl_document *doc = NULL;
    char *bytes;
    size_t length;
    *found = (struct pl_recovered){0};
    enum pl_status status = pl_file_read(file, &bytes, &length, &own);
    if (status == PL_OK)
        status = pl_document_read(&doc, bytes, length, &own);
    if (status == PL_OK)
        status = read_all(&(struct reading){doc, &own}, file, found);
    pl_document_free(doc);
    free(bytes);
    if (status != PL_OK)
        pl_recovered_free(found);
    if (status == PL_NO_MEMORY)
        no_memory(problems);
    else if (status != PL_OK)
        pl_file_tell(problems, PL_WARNING, file, "unsaved work cannot be read, and is left here", &own);
    pl_problems_free(&own);
    return status;
}

/* ---- judged beside its part ---- */

/* part_path is the true one where it is known, since what the file says need not be UTF-8.  *useful: it holds
 * something that the part's file does not. */
static enum pl_status judge(struct pl_recovered *found, const char *part_path, bool *useful)
{
    struct pl_problems unsaid = {0};
    char *bytes = NULL;
    size_t length = 0;
    *useful = true;
    if (!part_path)
        return PL_OK;
    enum pl_status status = pl_file_read(part_path, &bytes, &length, &unsaid);
    found->part_changed = status != PL_OK || pl_file_hash(bytes, length) != found->base_hash;
    *useful = status != PL_OK || length != found->length || memcmp(bytes, found->bytes, length) != 0;
    free(bytes);
    pl_problems_free(&unsaid);
    return status == PL_NO_MEMORY ? status : PL_OK;
}

static bool add(struct pl_recovered_list *list, const struct pl_recovered *found)
{
    struct pl_recovered *items = pl_part_memory(list->items, (list->count + 1) * sizeof *items);
    if (!items)
        return false;
    list->items = items;
    items[list->count++] = *found;
    return true;
}

/* ---- all in the folder ---- */

struct search {
    const char *folder;
    const char *hash;      /* NULL: of all parts */
    const char *part_path; /* with hash */
    struct pl_recovered_list *list;
    struct pl_problems *problems;
};

static bool is_hash(const char *digits)
{
    return strspn(digits, "0123456789abcdef") == PL_HASH_DIGITS;
}

static bool asked_for(const struct search *s, const char *name)
{
    return is_hash(name) && name[PL_HASH_DIGITS] == '-' && is_hash(name + PL_HASH_DIGITS + 1) &&
           !strcmp(name + 2 * PL_HASH_DIGITS + 1, ".json") && (!s->hash || !strncmp(name, s->hash, PL_HASH_DIGITS));
}

static char *in_folder(const char *folder, const char *name)
{
    size_t length = strlen(folder), size = strlen(name) + 1;
    char *path = pl_part_memory(NULL, length + 1 + size);
    if (!path)
        return NULL;
    memcpy(path, folder, length);
    path[length] = '/';
    memcpy(path + length + 1, name, size);
    return path;
}

/* What cannot be read is told, unless its own session removed it meanwhile. */
static enum pl_status read_one(const struct search *s, const char *file, struct pl_recovered *found)
{
    struct pl_problems own = {0};
    enum pl_status status = pl_recovery_read(file, found, &own);
    if (status == PL_NO_MEMORY)
        no_memory(s->problems);
    else if (status != PL_OK && own.count && access(file, F_OK) == 0)
        pl_problem_add(s->problems, PL_WARNING, file, own.list[0].rule, NULL);
    pl_problems_free(&own);
    return status;
}

static enum pl_status take(const struct search *s, const char *file)
{
    struct pl_recovered found;
    bool useful;
    enum pl_status status = read_one(s, file, &found);
    if (status != PL_OK)
        return status == PL_NO_MEMORY ? status : PL_OK;
    status = judge(&found, s->part_path ? s->part_path : found.part_path, &useful);
    if (status == PL_OK && !useful && !found.at_work)
        unlink(file);
    else if (status == PL_OK && add(s->list, &found))
        return PL_OK;
    else
        status = no_memory(s->problems);
    pl_recovered_free(&found);
    return status;
}

static int newest_first(const void *a, const void *b)
{
    long long one = ((const struct pl_recovered *)a)->written_us, other = ((const struct pl_recovered *)b)->written_us;
    return (one < other) - (one > other);
}

static enum pl_status walk(const struct search *s)
{
    enum pl_status status = PL_OK;
    DIR *folder = opendir(s->folder);
    if (!folder && errno == ENOENT)
        return PL_OK;
    if (!folder) {
        pl_problem_addf(s->problems, PL_ERROR, s->folder, "cannot be read: %s", strerror(errno));
        return PL_CANNOT_READ;
    }
    for (const struct dirent *entry; status == PL_OK && (entry = readdir(folder));) {
        if (!asked_for(s, entry->d_name))
            continue;
        char *file = in_folder(s->folder, entry->d_name);
        status = file ? take(s, file) : no_memory(s->problems);
        free(file);
    }
    closedir(folder);
    if (s->list->count)
        qsort(s->list->items, s->list->count, sizeof *s->list->items, newest_first);
    return status;
}

static enum pl_status search(struct search *s)
{
    char *folder = pl_place_path(PL_PLACE_STATE, "recovery", s->problems);
    if (!folder)
        return PL_CANNOT_READ;
    s->folder = folder;
    enum pl_status status = walk(s);
    free(folder);
    return status;
}

enum pl_status pl_recovery_list(struct pl_recovered_list *list, struct pl_problems *problems)
{
    *list = (struct pl_recovered_list){0};
    enum pl_status status = search(&(struct search){.list = list, .problems = problems});
    for (size_t i = 0; i < list->count; i++) {
        free(list->items[i].bytes);
        list->items[i].bytes = NULL;
    }
    return status;
}

/* ---- of one part ---- */

static void pick(struct pl_recovered_list *list, struct pl_recovered *found, long *at_work)
{
    for (size_t i = 0; i < list->count; i++) {
        struct pl_recovered *item = &list->items[i];
        if (item->at_work && at_work && !*at_work)
            *at_work = item->process;
        if (!item->at_work && !found->file) {
            *found = *item;
            *item = (struct pl_recovered){0};
        }
    }
}

enum pl_status pl_recovery_find(const char *part_path, struct pl_recovered *found, long *at_work,
                                struct pl_problems *problems)
{
    char hash[PL_HASH_DIGITS + 1];
    struct pl_recovered_list list = {0};
    char *identity = pl_recovery_identity(part_path);
    *found = (struct pl_recovered){0};
    if (at_work)
        *at_work = 0;
    if (!identity)
        return no_memory(problems);
    pl_hash_write(hash, pl_file_hash(identity, strlen(identity)));
    struct search s = {.hash = hash, .part_path = *identity ? identity : NULL, .list = &list, .problems = problems};
    enum pl_status status = search(&s);
    pick(&list, found, at_work);
    pl_recovered_list_free(&list);
    free(identity);
    return status;
}
