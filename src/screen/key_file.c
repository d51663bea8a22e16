#include "key_file.h"

#include "plyloft/buffer.h"
#include "plyloft/file.h"
#include "plyloft/keys.h"
#include "plyloft/places.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* ---- reading ---- */

struct reading {
    struct pl_keymap given;           /* keys of the actions that have a line */
    bool named[PL_DOINGS_MOST];
    size_t line;
    struct pl_problems *problems;
};

static void wrong(const struct reading *r, const char *rule, const char *word, size_t length)
{
    char place[32], found[64];
    snprintf(place, sizeof place, "keys, line %zu", r->line);
    snprintf(found, sizeof found, "%.*s", (int)(length < 60 ? length : 60), word);
    pl_problem_add(r->problems, PL_ERROR, place, rule, found);
}

static size_t blanks(const char *text)
{
    return strspn(text, " \t\r");
}

static size_t word(const char *text)
{
    return strcspn(text, " \t\r\n");
}

/* The one key that a word names, or PL_KEY_NONE. */
static int key_of(const char *text, size_t length)
{
    char copy[40];
    struct pl_keys_reader reader;
    if (length >= sizeof copy)
        return PL_KEY_NONE;
    memcpy(copy, text, length);
    copy[length] = '\0';
    pl_keys_start(&reader, copy);
    int key = pl_keys_next(&reader);
    return pl_keys_next(&reader) == PL_KEY_NONE ? key : PL_KEY_NONE;
}

static bool is_given(const struct reading *r, int key)
{
    for (size_t i = 0; i < pl_n_doings; i++)
        for (int k = 0; k < PL_KEYS_EACH; k++)
            if (r->given.keys[i][k] == key)
                return true;
    return false;
}

/* The keys behind an action's name; false when one of them is none, or is taken. */
static bool take_keys(struct reading *r, const char *text, int keys[PL_KEYS_EACH])
{
    int n = 0;
    for (text += blanks(text); *text && *text != '\n'; text += word(text), text += blanks(text)) {
        int key = key_of(text, word(text));
        if (key == PL_KEY_NONE) {
            wrong(r, "this is no key", text, word(text));
            return false;
        }
        if (is_given(r, key)) {
            wrong(r, "a line above has this key", text, word(text));
            return false;
        }
        if (n == PL_KEYS_EACH) {
            wrong(r, "an action has at most four keys", text, word(text));
            return false;
        }
        keys[n++] = key;
    }
    return true;
}

static void take_line(struct reading *r, const char *text)
{
    int keys[PL_KEYS_EACH] = {0};
    text += blanks(text);
    if (!*text || *text == '\n' || *text == '#')
        return;
    size_t doing = pl_doing_named(text, word(text));
    if (doing == pl_n_doings) {
        wrong(r, "there is no action of that name", text, word(text));
    } else if (r->named[doing]) {
        wrong(r, "a line above names this action", text, word(text));
    } else if (take_keys(r, text + word(text), keys)) {
        r->named[doing] = true;
        memcpy(r->given.keys[doing], keys, sizeof keys);
    }
}

/* ---- the map that follows ---- */

static void add_key(int keys[PL_KEYS_EACH], int key)
{
    for (int k = 0; k < PL_KEYS_EACH; k++)
        if (!keys[k]) {
            keys[k] = key;
            return;
        }
}

static void drop_key(struct pl_keymap *map, int key)
{
    for (size_t i = 0; i < pl_n_doings; i++) {
        int left[PL_KEYS_EACH] = {0};
        for (int k = 0; k < PL_KEYS_EACH; k++)
            if (map->keys[i][k] && map->keys[i][k] != key)
                add_key(left, map->keys[i][k]);
        memcpy(map->keys[i], left, sizeof left);
    }
}

/* Nobody is to be locked in, or to be left without help or the search that finds all the rest. */
static void keep_a_way_out(struct pl_keymap *map, struct pl_problems *problems)
{
    static const enum pl_action needed[] = {PL_DO_QUIT, PL_DO_HELP, PL_DO_FIND};
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        size_t doing = pl_doing_of(needed[i], 0);
        if (map->keys[doing][0])
            continue;
        drop_key(map, pl_doings[doing].keys[0]);
        map->keys[doing][0] = pl_doings[doing].keys[0];
        pl_problem_addf(problems, PL_ERROR, "keys", "%s needs a key, and keeps its usual one", pl_doings[doing].name);
    }
}

void pl_key_file_take(struct pl_keymap *map, const char *text, struct pl_problems *problems)
{
    struct reading r = {.problems = problems};
    for (const char *at = text; *at; at += strcspn(at, "\n"), at += *at == '\n') {
        r.line++;
        take_line(&r, at);
    }
    pl_keymap_usual(map);
    for (size_t i = 0; i < pl_n_doings; i++)
        for (int k = 0; r.named[i] && k < PL_KEYS_EACH; k++)
            if (r.given.keys[i][k])
                drop_key(map, r.given.keys[i][k]);
    for (size_t i = 0; i < pl_n_doings; i++)
        if (r.named[i])
            memcpy(map->keys[i], r.given.keys[i], sizeof map->keys[i]);
    keep_a_way_out(map, problems);
}

void pl_key_file_read(struct pl_keymap *map, struct pl_problems *problems)
{
    struct pl_problems nowhere = {0};
    char *path = pl_place_path(PL_PLACE_CONFIG, "keys", &nowhere), *bytes = NULL;
    size_t length;
    pl_keymap_usual(map);
    if (path && !access(path, F_OK) && pl_file_read(path, &bytes, &length, problems) == PL_OK)
        pl_key_file_take(map, bytes, problems);
    free(bytes);
    free(path);
    pl_problems_free(&nowhere);
}

/* ---- writing ---- */

char *pl_key_file_text(void)
{
    struct pl_buffer out = {0};
    struct pl_keymap usual;
    char keys[128];
    pl_keymap_usual(&usual);
    pl_buffer_text(&out,
                   "# Keys of the bench.  Take the # away from a line and change what stands behind the name:\n"
                   "# one to four keys with blanks between, or nothing for an action without a key, which\n"
                   "# the search by name still finds.  A key is a letter or mark, or Up Down Left Right\n"
                   "# PageUp PageDown Home End Tab BackTab Enter Escape Space Backspace Delete, or Ctrl-A to\n"
                   "# Ctrl-Z.  Keys inside a value, a list or a question are fixed.  Read when the bench starts.\n");
    for (size_t i = 0; i < pl_n_doings; i++) {
        if (!i || pl_doings[i].kind != pl_doings[i - 1].kind)
            pl_buffer_printf(&out, "\n# ---- %s ----\n", pl_doing_headings[pl_doings[i].kind]);
        pl_keymap_words(&usual, i, keys, sizeof keys);
        pl_buffer_printf(&out, "# %s\n#%s %s\n", pl_doings[i].words, pl_doings[i].name, keys);
    }
    if (!out.failed)
        return out.text;
    pl_buffer_free(&out);
    return NULL;
}

enum pl_status pl_key_file_write(char **path, bool *written, struct pl_problems *problems)
{
    enum pl_status status = PL_OK;
    *path = pl_place_path(PL_PLACE_CONFIG, "keys", problems);
    *written = false;
    if (!*path)
        return PL_CANNOT_WRITE;
    if (!access(*path, F_OK))
        return PL_OK;
    char *text = pl_key_file_text();
    if (!text)
        status = PL_NO_MEMORY;
    if (status == PL_OK)
        status = pl_place_make_folders(*path, problems);
    if (status == PL_OK)
        status = pl_file_save(*path, text, strlen(text), problems);
    free(text);
    *written = status == PL_OK;
    if (status != PL_OK) {
        free(*path);
        *path = NULL;
    }
    return status;
}
