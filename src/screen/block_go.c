/* block_go.c - to the field that a JSON Pointer names, wherever the pages have it. */
#include "block.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where the person is, of what going somewhere changes. */
struct place {
    enum pl_page page;
    size_t element;
    int blocks[PL_PAGES];
    struct pl_cursor cursors[PL_PAGES][PL_BLOCKS_MOST];
};

static void keep(const struct pl_session *s, struct place *at)
{
    at->page = s->page;
    at->element = s->element;
    memcpy(at->blocks, s->blocks, sizeof at->blocks);
    memcpy(at->cursors, s->cursors, sizeof at->cursors);
}

static void put_back(struct pl_session *s, const struct place *at)
{
    s->page = at->page;
    s->element = at->element;
    memcpy(s->blocks, at->blocks, sizeof s->blocks);
    memcpy(s->cursors, at->cursors, sizeof s->cursors);
}

static bool is_inside(const char *pointer, const char *row)
{
    size_t length = strlen(row);
    return length && !strncmp(pointer, row, length) && (pointer[length] == '/' || !pointer[length]);
}

/* A sheet, or a list of a row's own, shows the row chosen in another block: that one goes first. */
static void choose_owner(struct pl_session *s, int owner, const char *pointer)
{
    char row[256];
    for (size_t i = 0; i < pl_block_rows(s, owner); i++)
        if (pl_block_row(s, owner, i, row, sizeof row) && is_inside(pointer, row))
            s->cursors[s->page][owner].row = i;
}

/* What of a block is compared: its cells, its rows, the list itself. */
enum wanted { CELL, ROW, LIST, WANTED };

static bool is_at(struct pl_session *s, int block, enum wanted wanted, size_t row, size_t column, const char *pointer)
{
    char here[256];
    bool there = wanted == CELL  ? pl_block_cell(s, block, row, column, here, sizeof here)
                 : wanted == ROW ? pl_block_row(s, block, row, here, sizeof here)
                                 : pl_block_list(s, block, here, sizeof here);
    return there && !strcmp(here, pointer);
}

static bool go_in_block(struct pl_session *s, int block, enum wanted wanted, const char *pointer)
{
    size_t count, columns = wanted == CELL ? pl_block_columns(s, block) : 1;
    const struct pl_block *b = &pl_page_blocks(s->page, &count)[block];
    if (b->of >= 0)
        choose_owner(s, b->of, pointer);
    size_t rows = wanted == LIST ? 1 : pl_block_rows(s, block);
    for (size_t row = 0; row < rows; row++)
        for (size_t column = 0; column < columns; column++)
            if (is_at(s, block, wanted, row, column, pointer)) {
                s->blocks[s->page] = block;
                s->cursors[s->page][block] = (struct pl_cursor){row, column};
                return true;
            }
    return false;
}

static bool go_on_page(struct pl_session *s, enum pl_page page, enum wanted wanted, const char *pointer)
{
    struct place before;
    size_t count;
    keep(s, &before);
    s->page = page;
    pl_page_blocks(page, &count);
    for (int block = 0; block < (int)count; block++) {
        if (go_in_block(s, block, wanted, pointer))
            return true;
        memcpy(s->cursors, before.cursors, sizeof s->cursors);
    }
    put_back(s, &before);
    return false;
}

/* The page in hand before all others. */
static bool go_anywhere(struct pl_session *s, const char *pointer)
{
    for (int wanted = CELL; wanted < WANTED; wanted++) {
        if (go_on_page(s, s->page, (enum wanted)wanted, pointer))
            return true;
        for (int page = 0; page < PL_PAGES; page++)
            if (go_on_page(s, (enum pl_page)page, (enum wanted)wanted, pointer))
                return true;
    }
    return false;
}

bool pl_block_go_to(struct pl_session *s, const char *pointer)
{
    static const char elements[] = "/elements/";
    char place[256];
    struct place before;
    keep(s, &before);
    snprintf(place, sizeof place, "%s", pointer);
    if (!strncmp(pointer, elements, sizeof elements - 1))
        s->element = strtoul(pointer + sizeof elements - 1, NULL, 10);
    /* A place inside a value stands in the value's field, what is missing in its row. */
    for (char *slash = place; slash; *slash = '\0') {
        if (place[0] && go_anywhere(s, place))
            return true;
        if (!(slash = strrchr(place, '/')))
            break;
    }
    put_back(s, &before);
    return false;
}
