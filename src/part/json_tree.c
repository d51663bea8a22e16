/* Decoded keys and texts, and children in order, added to what the strict pass found.
 *
 * cJSON decodes the escapes.  Its numbers are not used: it reads them by the locale and
 * cuts them at 63 characters; so it is given a copy of the text in which every value that
 * holds no text, a number or a list of numbers, is a 0.  When it is done the same copy
 * takes the decoded texts, each of which is shorter than its spelling, and cJSON's own
 * tree is freed. */
#include "json.h"

#include <cjson/cJSON.h>

#include <stdlib.h>
#include <string.h>

__attribute__((weak)) void *pl_part_memory(void *old, size_t size)
{
    return realloc(old, size ? size : 1);
}

void pl_json_free(struct pl_json_tree *tree)
{
    free(tree->nodes);
    free(tree->texts);
    free(tree->children);
    *tree = (struct pl_json_tree){0};
}

/* ---- texts ---- */

static void mark_holders(struct pl_json_tree *tree)
{
    for (size_t i = tree->count - 1; i > 0; i--) { /* what a value holds stands behind it */
        const struct pl_json_node *node = &tree->nodes[i];
        if (node->holds_texts || node->kind == PL_NODE_TEXT || node->key_end)
            tree->nodes[node->parent].holds_texts = true;
    }
}

/* The next node of those that cJSON is given. */
static size_t next_given(const struct pl_json_tree *tree, size_t index)
{
    const struct pl_json_node *node = &tree->nodes[index];
    return node->holds_texts ? index + 1 : node->after;
}

static bool copy_for_cjson(struct pl_json_tree *tree, const char *bytes, size_t length)
{
    char *copy = pl_part_memory(NULL, length + 1);
    if (!copy)
        return false;
    memcpy(copy, bytes, length + 1);
    for (size_t i = 0; i < tree->count; i = next_given(tree, i)) {
        const struct pl_json_node *node = &tree->nodes[i];
        if (node->kind != PL_NODE_TEXT && !node->holds_texts) {
            memset(copy + node->start, ' ', node->end - node->start);
            copy[node->start] = '0';
        }
    }
    tree->texts = copy;
    return true;
}

static const char *keep(char **to, const char *text)
{
    char *kept = *to;
    size_t size = strlen(text) + 1;
    memcpy(kept, text, size);
    *to += size;
    return kept;
}

/* Both trees hold the values given in the same order; cJSON's lists are linked. */
static void keep_texts(struct pl_json_tree *tree, const cJSON *item)
{
    const cJSON *open[PL_DOCUMENT_MOST_DEPTH];
    size_t depth = 0;
    char *to = tree->texts;
    for (size_t i = 0; i < tree->count; i = next_given(tree, i)) {
        struct pl_json_node *node = &tree->nodes[i];
        if (node->key_end)
            node->key = keep(&to, item->string);
        if (node->kind == PL_NODE_TEXT)
            node->is.text = keep(&to, item->valuestring);
        if (node->holds_texts) {
            open[depth++] = item;
            item = item->child;
            continue;
        }
        while (depth && !item->next)
            item = open[--depth];
        item = item->next;
    }
}

static enum pl_status decode(struct pl_json_tree *tree, const char *bytes, size_t length)
{
    mark_holders(tree);
    if (!copy_for_cjson(tree, bytes, length))
        return PL_NO_MEMORY;
    /* The strict pass has let nothing through that cJSON would refuse. */
    cJSON *root = cJSON_ParseWithLength(tree->texts, length);
    if (!root)
        return PL_NO_MEMORY;
    keep_texts(tree, root);
    cJSON_Delete(root);
    return PL_OK;
}

/* ---- children ---- */

/* A member as it is sorted: most keys differ in their first eight bytes, and are then
 * compared without a look at nodes and texts scattered over the memory. */
struct member {
    uint64_t head; /* those bytes as one number, the first one highest */
    const char *key;
    uint32_t node;
};

static int compare_members(const struct member *a, const struct member *b)
{
    if (a->head != b->head)
        return a->head < b->head ? -1 : 1;
    return strcmp(a->key, b->key);
}

/* Merges two sorted runs that stand behind one another. */
static void merge(struct member *list, size_t left, size_t both, struct member *scratch)
{
    if (compare_members(&list[left - 1], &list[left]) <= 0)
        return;
    memcpy(scratch, list, left * sizeof *list);
    size_t i = 0, j = left, n = 0;
    while (i < left && j < both)
        list[n++] = compare_members(&scratch[i], &list[j]) <= 0 ? scratch[i++] : list[j++];
    memcpy(list + n, scratch + i, (left - i) * sizeof *list);
}

/* Stable, so that of equal keys the one further back in the text stands behind. */
static void sort_members(struct member *list, size_t count, struct member *scratch)
{
    for (size_t run = 1; run < count; run *= 2)
        for (size_t at = 0; at + run < count; at += 2 * run)
            merge(list + at, run, count - at < 2 * run ? count - at : 2 * run, scratch);
}

static struct member member_of(const struct pl_json_tree *tree, uint32_t node)
{
    struct member m = {.key = tree->nodes[node].key, .node = node};
    const char *c = m.key;
    for (size_t i = 0; i < sizeof m.head; i++) {
        m.head = m.head << 8 | (unsigned char)*c;
        c += *c != '\0';
    }
    return m;
}

/* Puts the members in order of their keys; the first node in the text that repeats one, if
 * it stands before repeated, else repeated. */
static uint32_t order_members(struct pl_json_tree *tree, const struct pl_json_node *object, struct member *list,
                              uint32_t repeated)
{
    size_t count = object->count;
    for (size_t i = 0; i < count; i++)
        list[i] = member_of(tree, object->is.children[i]);
    sort_members(list, count, list + count);
    for (size_t i = 0; i < count; i++) {
        object->is.children[i] = list[i].node;
        if (i && list[i].node < repeated && !compare_members(&list[i - 1], &list[i]))
            repeated = list[i].node;
    }
    return repeated;
}

/* Room for the children of all, and to sort those of the largest object. */
static bool take_room(struct pl_json_tree *tree, struct member **scratch)
{
    size_t most = 0;
    for (size_t i = 0; i < tree->count; i++)
        if (tree->nodes[i].kind == PL_NODE_OBJECT && tree->nodes[i].count > most)
            most = tree->nodes[i].count;
    tree->children = pl_part_memory(NULL, tree->count * sizeof *tree->children);
    *scratch = pl_part_memory(NULL, (2 * most + 1) * sizeof **scratch);
    return tree->children && *scratch;
}

/* The children of every value; the first node in the text that repeats a key, or PL_JSON_NONE. */
static uint32_t order_all(struct pl_json_tree *tree, struct member *scratch)
{
    uint32_t *next = tree->children, repeated = PL_JSON_NONE;
    for (uint32_t i = 0; i < tree->count; i++) {
        struct pl_json_node *node = &tree->nodes[i];
        if (node->kind != PL_NODE_LIST && node->kind != PL_NODE_OBJECT)
            continue;
        node->is.children = next;
        for (uint32_t child = i + 1; child < node->after; child = tree->nodes[child].after)
            *next++ = child;
        if (node->kind == PL_NODE_OBJECT)
            repeated = order_members(tree, node, scratch, repeated);
    }
    return repeated;
}

static enum pl_status order(struct pl_json_tree *tree, const char *bytes, size_t length, struct pl_json_error *error)
{
    struct member *scratch;
    bool room = take_room(tree, &scratch);
    uint32_t repeated = room ? order_all(tree, scratch) : PL_JSON_NONE;
    free(scratch);
    if (!room)
        return PL_NO_MEMORY;
    if (repeated == PL_JSON_NONE)
        return PL_OK;
    struct pl_json_source source = {bytes, length, "", error};
    pl_json_fail(&source, tree->nodes[repeated].key_start, "key stands twice in one object");
    return PL_BAD_INPUT;
}

enum pl_status pl_json_read(struct pl_json_tree *tree, const char *bytes, size_t length, const char *subject,
                            struct pl_json_error *error)
{
    *tree = (struct pl_json_tree){0};
    enum pl_status status = pl_json_scan(tree, bytes, length, subject, error);
    if (status == PL_OK)
        status = decode(tree, bytes, length);
    if (status == PL_OK)
        status = order(tree, bytes, length, error);
    if (status != PL_OK)
        pl_json_free(tree);
    return status;
}

uint32_t pl_json_item(const struct pl_json_tree *tree, uint32_t list, size_t index)
{
    const struct pl_json_node *node = &tree->nodes[list];
    return node->kind == PL_NODE_LIST && index < node->count ? node->is.children[index] : PL_JSON_NONE;
}

/* As strcmp(token, key). */
static int compare_token(const char *token, size_t length, bool escaped, const char *key)
{
    for (size_t i = 0; i < length; i++, key++) {
        unsigned char c = (unsigned char)token[i], k = (unsigned char)*key;
        if (escaped && c == '~')
            c = token[++i] == '1' ? '/' : '~';
        if (c != k || !k)
            return c < k ? -1 : 1;
    }
    return *key ? -1 : 0;
}

uint32_t pl_json_member(const struct pl_json_tree *tree, uint32_t object, const char *key, size_t length, bool escaped)
{
    const struct pl_json_node *node = &tree->nodes[object];
    size_t low = 0, high = node->kind == PL_NODE_OBJECT ? node->count : 0;
    while (low < high) {
        size_t mid = (low + high) / 2;
        int order_of = compare_token(key, length, escaped, tree->nodes[node->is.children[mid]].key);
        if (!order_of)
            return node->is.children[mid];
        if (order_of > 0)
            low = mid + 1;
        else
            high = mid;
    }
    return PL_JSON_NONE;
}
