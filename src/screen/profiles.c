#include "session.h"

#include "block.h"

#include "plyloft/arena.h"
#include "plyloft/buffer.h"
#include "plyloft/json_writer.h"
#include "plyloft/profile.h"
#include "plyloft/profile_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The profile that a coordinate file goes into: the one in hand, or a new one at the end of the list. */
static bool target_profile(const struct pl_session *s, const struct pl_question *q, char *out, size_t size)
{
    const struct pl_block *b = pl_block_here(s);
    if (!strncmp(q->pointer, "/profiles/", 10)) {
        snprintf(out, size, "/profiles/%lu", strtoul(q->pointer + 10, NULL, 10));
        return true;
    }
    if (b && b->kind == PL_TABLE && b->group == PL_GROUP_PROFILE)
        return pl_block_row(s, s->blocks[s->page], pl_block_cursor(s, s->blocks[s->page]).row, out, size);
    return false;
}

static bool keep_points(struct pl_session *s, const struct pl_profile_text *text)
{
    struct pl_point *points = malloc(text->count * sizeof *points);
    if (!points)
        return false;
    memcpy(points, text->points, text->count * sizeof *points);
    free(s->points);
    s->points = points;
    s->n_points = text->count;
    return true;
}

static void describe(const struct pl_session *s, char *out, size_t size)
{
    struct pl_profile profile = {.points = s->points, .n_points = s->n_points};
    struct pl_profile_figures f = pl_profile_figures(&profile);
    char thickness[32], camber[32];
    pl_number_fixed(thickness, sizeof thickness, 100 * f.thickness, 2);
    pl_number_fixed(camber, sizeof camber, 100 * f.camber, 2);
    snprintf(out, size, "%zu points, %s %% thick, %s %% camber", s->n_points, thickness, camber);
}

void pl_profile_open(struct pl_session *s, struct pl_question *q)
{
    struct pl_problems problems = {0};
    struct pl_arena arena = {0};
    struct pl_profile_text text;
    char *bytes = NULL, pointer[256];
    size_t length;
    enum pl_status status = pl_file_read(q->line.text, &bytes, &length, &problems);
    if (status == PL_OK)
        status = pl_profile_text_read(bytes, length, &arena, &text, &problems);
    if (status == PL_OK && keep_points(s, &text)) {
        snprintf(pointer, sizeof pointer, "%s", q->pointer);
        pl_question_done(s);
        q = pl_ask(s, PL_SHOW_PROFILE, pointer);
        if (q)
            describe(s, q->words, sizeof q->words);
    } else {
        pl_session_say_problem(s, "not read", &problems);
    }
    free(bytes);
    pl_arena_free(&arena);
    pl_problems_free(&problems);
}

static void write_points(const struct pl_session *s, struct pl_buffer *out)
{
    struct pl_json_writer w;
    pl_json_start(&w, out, true);
    pl_json_list(&w, NULL);
    for (size_t i = 0; i < s->n_points; i++) {
        pl_json_list(&w, NULL);
        pl_json_number(&w, NULL, s->points[i].x);
        pl_json_number(&w, NULL, s->points[i].z);
        pl_json_close(&w);
    }
    pl_json_end(&w);
}

/* Points in, digits out: a profile has one of them. */
static enum pl_status replace_points(struct pl_session *s, const char *pointer, const char *json, struct pl_problems *problems)
{
    char cell[300];
    snprintf(cell, sizeof cell, "%s/points", pointer);
    enum pl_status status = pl_edit_set(s->document, cell, json, problems);
    snprintf(cell, sizeof cell, "%s/naca", pointer);
    if (status == PL_OK && pl_document_find(s->document, cell) != PL_NO_NODE)
        status = pl_edit_remove(s->document, cell, problems);
    return status;
}

static enum pl_status add_profile(struct pl_session *s, const char *json, struct pl_problems *problems)
{
    pl_node list = pl_document_find(s->document, "/profiles");
    size_t n = list == PL_NO_NODE ? 0 : pl_node_count(s->document, list);
    struct pl_buffer row = {0};
    pl_buffer_printf(&row, "{\"name\": \"from file %zu\", \"points\": %s}", n + 1, json);
    enum pl_status status = row.failed ? PL_NO_MEMORY : pl_edit_insert(s->document, "/profiles/-", row.text, problems);
    pl_buffer_free(&row);
    return status;
}

void pl_profile_take(struct pl_session *s, struct pl_question *q)
{
    struct pl_problems problems = {0};
    struct pl_buffer json = {0};
    char pointer[256];
    bool into = target_profile(s, q, pointer, sizeof pointer);
    write_points(s, &json);
    pl_question_done(s);
    enum pl_status status = json.failed ? PL_NO_MEMORY : pl_edit_begin(s->document, "profile from a coordinate file", NULL);
    if (status == PL_OK) {
        status = into ? replace_points(s, pointer, json.text, &problems) : add_profile(s, json.text, &problems);
        if (status == PL_OK)
            status = pl_edit_end(s->document);
        else
            pl_edit_abandon(s->document);
    }
    pl_buffer_free(&json);
    pl_session_edited(s, status, &problems);
}
