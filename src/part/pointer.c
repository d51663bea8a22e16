/* JSON Pointers (RFC 6901): found in a document, and written. */
#include "document_inside.h"

#include "plyloft/text.h"

#include <stdio.h>
#include <string.h>

size_t pl_pointer_index(const char *token, size_t length)
{
    size_t index = 0;
    /* No list has 10^8 items. */
    if (!length || length > 8 || (token[0] == '0' && length > 1))
        return PL_NO_NODE;
    for (size_t i = 0; i < length; i++) {
        if (token[i] < '0' || token[i] > '9')
            return PL_NO_NODE;
        index = index * 10 + (size_t)(token[i] - '0');
    }
    return index;
}

bool pl_pointer_token_right(const char *token, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (token[i] == '~' && (i + 1 == length || (token[i + 1] != '0' && token[i + 1] != '1')))
            return false;
    return true;
}

static pl_node child_of(const struct pl_document *doc, pl_node parent, const char *token, size_t length)
{
    const struct pl_json_tree *tree = &doc->now.tree;
    uint32_t child = PL_JSON_NONE;
    if (pl_inside(doc, parent)->kind == PL_NODE_LIST)
        child = pl_json_item(tree, (uint32_t)parent, pl_pointer_index(token, length));
    else if (pl_pointer_token_right(token, length))
        child = pl_json_member(tree, (uint32_t)parent, token, length, true);
    return child == PL_JSON_NONE ? PL_NO_NODE : child;
}

pl_node pl_pointer_parent(const struct pl_document *doc, const char *pointer, const char **token)
{
    pl_node node = pl_document_root(doc);
    if (*pointer != '/')
        return PL_NO_NODE;
    for (;;) {
        *token = pointer + 1;
        size_t length = strcspn(*token, "/");
        pointer = *token + length;
        if (!*pointer)
            return node;
        node = child_of(doc, node, *token, length);
        if (node == PL_NO_NODE)
            return PL_NO_NODE;
    }
}

pl_node pl_document_find(const struct pl_document *doc, const char *pointer)
{
    const char *token;
    if (!*pointer)
        return pl_document_root(doc);
    pl_node parent = pl_pointer_parent(doc, pointer, &token);
    return parent == PL_NO_NODE ? PL_NO_NODE : child_of(doc, parent, token, strlen(token));
}

char *pl_pointer_token_text(const char *token)
{
    char *text = pl_part_memory(NULL, strlen(token) + 1), *to = text;
    if (!text)
        return NULL;
    for (; *token; token++) {
        bool escaped = *token == '~' && (token[1] == '0' || token[1] == '1');
        *to++ = escaped && *++token == '1' ? '/' : escaped ? '~' : *token;
    }
    *to = '\0';
    return text;
}

/* ---- writing ---- */

static const char cut_off[] = "\xe2\x80\xa6";

/* One character of a token, escaped; false when it would leave no room for the mark of a cut. */
static bool put(char *out, size_t size, size_t *n, const char *bytes, size_t length)
{
    if (*n + length + sizeof cut_off > size)
        return false;
    memcpy(out + *n, bytes, length);
    *n += length;
    out[*n] = '\0';
    return true;
}

static bool is_cut(const char *out, size_t length)
{
    return length >= sizeof cut_off - 1 && !strcmp(out + length - (sizeof cut_off - 1), cut_off);
}

void pl_pointer_append(char *out, size_t size, const char *token)
{
    size_t n = strlen(out), left = strlen(token);
    if (is_cut(out, n))
        return;
    bool fits = put(out, size, &n, "/", 1);
    while (fits && left) {
        uint32_t code;
        size_t length = pl_utf8_decode(token, left, &code);
        length = length ? length : 1;
        fits = *token == '~'   ? put(out, size, &n, "~0", 2)
               : *token == '/' ? put(out, size, &n, "~1", 2)
                               : put(out, size, &n, token, length);
        token += length;
        left -= length;
    }
    if (!fits && n + sizeof cut_off <= size)
        memcpy(out + n, cut_off, sizeof cut_off);
}

void pl_pointer_append_index(char *out, size_t size, size_t index)
{
    char digits[32];
    snprintf(digits, sizeof digits, "%zu", index);
    pl_pointer_append(out, size, digits);
}
