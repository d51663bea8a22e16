/* json.h - JSON text as a tree of nodes that know their bytes; private to src/part.
 *
 * json_scan.c walks the text once under the strict rules (json_token.c for what stands
 * inside texts and numbers) and notes where each value starts and ends; json_tree.c adds
 * what cJSON decodes, texts and keys, and the order of the children.  A node is an index
 * in document order: a value stands before what it holds.  Nothing here changes a text,
 * knows of places to edit, or keeps the bytes.
 */
#ifndef PLYLOFT_PART_JSON_H
#define PLYLOFT_PART_JSON_H

#include "plyloft/document.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define PL_JSON_NONE UINT32_MAX

/* 16 MB of text hold fewer than 2^32 bytes and nodes. */
struct pl_json_node {
    uint32_t start, end;         /* the value's own bytes */
    uint32_t key_start, key_end; /* those of a member's key, quotes included; both 0 without one */
    uint32_t parent;             /* PL_JSON_NONE for the root */
    uint32_t after;              /* the first node that is not this one nor inside it */
    uint32_t count;              /* items or members */
    uint16_t kind;               /* enum pl_node_kind */
    bool holds_texts;            /* texts or keys stand inside it */
    const char *key;             /* decoded; NULL without one */
    union {
        double number;
        const char *text;   /* decoded */
        uint32_t *children; /* items in order, members sorted by key as bytes */
    } is;
};

struct pl_json_tree {
    struct pl_json_node *nodes; /* the root first */
    size_t count, capacity;
    char *texts;        /* the decoded keys and texts */
    uint32_t *children; /* those of all nodes */
};

struct pl_json_error {
    size_t at; /* byte at which the text broke the rule */
    char rule[96], found[80];
};

/* Reads bytes (bytes[length] must be a NUL) strictly and completely.  subject begins the
 * sentences about a text that is empty or cut short: "the file".  On failure the tree is
 * empty, and error says why unless the status is PL_NO_MEMORY. */
enum pl_status pl_json_read(struct pl_json_tree *tree, const char *bytes, size_t length, const char *subject,
                            struct pl_json_error *error);
void pl_json_free(struct pl_json_tree *tree);

/* The strict pass alone: keys and texts stay undecoded, repeated keys unseen, and children
 * unset.  Appends to tree, which the caller frees whatever the status. */
enum pl_status pl_json_scan(struct pl_json_tree *tree, const char *bytes, size_t length, const char *subject,
                            struct pl_json_error *error);

/* ---- json_error.c: where the text broke the rules, and what stood there ---- */

/* A text being read, and where to say what is wrong with it. */
struct pl_json_source {
    const char *bytes; /* bytes[length] is a NUL */
    size_t length;
    const char *subject;
    struct pl_json_error *error;
};

/* All return 0, which is also false.  The value found is what stands at at; the next length
 * bytes; nothing, as the text was cut short inside something. */
int pl_json_fail(const struct pl_json_source *s, size_t at, const char *rule);
int pl_json_fail_bytes(const struct pl_json_source *s, size_t at, size_t length, const char *rule);
int pl_json_fail_cut(const struct pl_json_source *s, const char *inside);

/* "line 3, column 7": both from 1, columns in characters. */
void pl_json_place(const char *bytes, size_t length, size_t at, char *out, size_t size);

/* ---- json_token.c: one text or number; the byte behind it, 0 after a failure ---- */

size_t pl_json_text_end(const struct pl_json_source *s, size_t at);
size_t pl_json_number_end(const struct pl_json_source *s, size_t at);

/* Whether the text goes on with word, capital letters or small. */
bool pl_json_has_word(const struct pl_json_source *s, size_t at, const char *word);

/* ---- json_tree.c ---- */

/* The item of a list, or the member of an object; PL_JSON_NONE.  escaped: the key is a
 * pointer's token, ~0 and ~1 in it standing for ~ and /. */
uint32_t pl_json_item(const struct pl_json_tree *tree, uint32_t list, size_t index);
uint32_t pl_json_member(const struct pl_json_tree *tree, uint32_t object, const char *key, size_t length, bool escaped);

/* All memory of src/part comes from here: realloc, and weak, so that a test program can link
 * one that runs out instead.  Freed with free. */
void *pl_part_memory(void *old, size_t size);

#endif
