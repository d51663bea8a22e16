/* start.h - the list to start from: unsaved work, recent parts, samples, a path to type. */
#ifndef PLYLOFT_START_H
#define PLYLOFT_START_H

#include "plyloft/frame.h"
#include "plyloft/recent.h"
#include "plyloft/recovery.h"

#include "line.h"

#include <stdbool.h>

struct pl_start {
    struct pl_recent recent;
    struct pl_recovered_list unsaved;
    char **samples;
    size_t n_samples;
    size_t chosen;
    bool typing;          /* a path is typed */
    struct pl_line line;
    char message[512];
    char *path;           /* chosen, to be opened; NULL until then */
    bool leave;
};

/* Reads what there is; samples: folder of sample parts (NULL: none). */
void pl_start_read(struct pl_start *start, const char *samples);
void pl_start_free(struct pl_start *start);

void pl_start_key(struct pl_start *start, int key);
void pl_start_click(struct pl_start *start, int action, int argument);

/* The list in words: its number of items, each of them ("recent, /home/...json"), and the keys that answer it. */
size_t pl_start_count(const struct pl_start *start);
void pl_start_item(const struct pl_start *start, size_t item, char *out, size_t size);
struct pl_foot;
const struct pl_foot *pl_start_feet(const struct pl_start *start, size_t *count);

void pl_start_view(struct pl_start *start, struct pl_frame *f);

#endif
