#include "start.h"

#include "session.h"
#include "view.h"

#include "plyloft/keys.h"
#include "plyloft/text.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- what there is ---- */

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static void add_sample(struct pl_start *s, const char *folder, const char *name)
{
    size_t length = strlen(name);
    if (length < 6 || strcmp(name + length - 5, ".json"))
        return;
    char **list = realloc(s->samples, (s->n_samples + 1) * sizeof *list), *path = malloc(strlen(folder) + length + 2);
    if (list)
        s->samples = list;
    if (!list || !path) {
        free(path);
        return;
    }
    sprintf(path, "%s/%s", folder, name);
    s->samples[s->n_samples++] = path;
}

static void read_samples(struct pl_start *s, const char *folder)
{
    DIR *dir = folder ? opendir(folder) : NULL;
    for (struct dirent *entry = dir ? readdir(dir) : NULL; entry; entry = readdir(dir))
        add_sample(s, folder, entry->d_name);
    if (dir)
        closedir(dir);
    if (s->n_samples)
        qsort(s->samples, s->n_samples, sizeof *s->samples, by_name);
}

void pl_start_read(struct pl_start *s, const char *samples)
{
    struct pl_problems problems = {0};
    *s = (struct pl_start){0};
    pl_recent_read(&s->recent, &problems);
    pl_recovery_list(&s->unsaved, &problems);
    read_samples(s, samples);
    if (problems.count)
        pl_problem_sentence(&problems.list[0], NULL, s->message, sizeof s->message);
    pl_problems_free(&problems);
}

void pl_start_free(struct pl_start *s)
{
    pl_recent_free(&s->recent);
    pl_recovered_list_free(&s->unsaved);
    for (size_t i = 0; i < s->n_samples; i++)
        free(s->samples[i]);
    free(s->samples);
    free(s->path);
    *s = (struct pl_start){0};
}

/* ---- the list: a path to type, unsaved work, recent parts, samples ---- */

static const struct pl_recovered *unsaved_at(const struct pl_start *s, size_t item)
{
    return item >= 1 && item - 1 < s->unsaved.count ? &s->unsaved.items[item - 1] : NULL;
}

size_t pl_start_count(const struct pl_start *s)
{
    return 1 + s->unsaved.count + s->recent.count + s->n_samples;
}

static const char *path_at(const struct pl_start *s, size_t item)
{
    if (!item)
        return NULL;
    item -= 1;
    if (item < s->unsaved.count)
        return s->unsaved.items[item].part_path;
    item -= s->unsaved.count;
    if (item < s->recent.count)
        return s->recent.parts[item].path;
    item -= s->recent.count;
    return item < s->n_samples ? s->samples[item] : NULL;
}

static const char *kind_at(const struct pl_start *s, size_t item)
{
    if (!item)
        return "type a path";
    item -= 1;
    if (item < s->unsaved.count)
        return s->unsaved.items[item].at_work ? "unsaved, at work" : "unsaved work";
    item -= s->unsaved.count;
    if (item < s->recent.count)
        return s->recent.parts[item].exists ? "recent" : "recent, gone";
    return "sample";
}

void pl_start_item(const struct pl_start *s, size_t item, char *out, size_t size)
{
    const char *path = path_at(s, item);
    snprintf(out, size, "%s%s%s", kind_at(s, item), path ? ", " : "", path ? path : "");
}

const struct pl_foot *pl_start_feet(const struct pl_start *s, size_t *count)
{
    static const struct pl_foot typing[] = {
        {PL_KEY_TAB, 0, "completes"}, {PL_KEY_ENTER, 0, "open"}, {PL_KEY_ESCAPE, 0, "back"},
    };
    static const struct pl_foot list[] = {
        {PL_KEY_UP, PL_KEY_DOWN, ""}, {PL_KEY_ENTER, 0, "open"}, {PL_KEY_DELETE, 0, "take off"}, {'q', 0, "leave"},
    };
    *count = s->typing ? sizeof typing / sizeof *typing : sizeof list / sizeof *list;
    return s->typing ? typing : list;
}

static void choose(struct pl_start *s, const char *path)
{
    free(s->path);
    s->path = path && *path ? strdup(path) : NULL;
    if (!s->path)
        snprintf(s->message, sizeof s->message, "there is no file to open");
}

/* Delete takes a recent part off the list, or throws unsaved work away. */
static void take_off(struct pl_start *s)
{
    struct pl_problems problems = {0};
    const struct pl_recovered *unsaved = unsaved_at(s, s->chosen);
    size_t recent = s->chosen - 1 - s->unsaved.count;
    if (unsaved && !unsaved->at_work) {
        pl_recovery_dismiss(unsaved->file, &problems);
        pl_recovered_list_free(&s->unsaved);
        pl_recovery_list(&s->unsaved, &problems);
    } else if (!unsaved && s->chosen > s->unsaved.count && recent < s->recent.count) {
        pl_recent_remove(s->recent.parts[recent].path, &problems);
        pl_recent_free(&s->recent);
        pl_recent_read(&s->recent, &problems);
    }
    if (s->chosen >= pl_start_count(s))
        s->chosen = pl_start_count(s) - 1;
    pl_problems_free(&problems);
}

static void type_key(struct pl_start *s, int key)
{
    if (key == PL_KEY_ESCAPE)
        s->typing = false;
    else if (key == PL_KEY_ENTER)
        choose(s, s->line.text);
    else if (key == PL_KEY_TAB)
        snprintf(s->message, sizeof s->message, "%s", pl_path_complete(&s->line) ? "" : "no file begins so");
    else
        pl_line_key(&s->line, key);
}

void pl_start_key(struct pl_start *s, int key)
{
    s->message[0] = '\0';
    if (s->typing) {
        type_key(s, key);
    } else if (key == PL_KEY_DOWN && s->chosen + 1 < pl_start_count(s)) {
        s->chosen++;
    } else if (key == PL_KEY_UP && s->chosen) {
        s->chosen--;
    } else if (key == PL_KEY_DELETE) {
        take_off(s);
    } else if (key == 'q' || key == PL_KEY_ESCAPE) {
        s->leave = true;
    } else if (key == PL_KEY_ENTER && !s->chosen) {
        s->typing = true;
        pl_line_start(&s->line, "");
    } else if (key == PL_KEY_ENTER) {
        choose(s, path_at(s, s->chosen));
    }
}

void pl_start_click(struct pl_start *s, int action, int argument)
{
    if (action == PL_DO_PRESS) {
        pl_start_key(s, argument);
    } else if (action == PL_DO_CHOOSE_ITEM && !s->typing) {
        s->chosen = (size_t)argument;
        pl_start_key(s, PL_KEY_ENTER);
    }
}

static void put_item(const struct pl_start *s, struct pl_frame *f, int row, size_t item)
{
    char text[512];
    const char *path = path_at(s, item);
    int kind = f->columns < 60 ? 14 : 18;
    bool here = item == s->chosen;
    if (here)
        pl_frame_glyph(f, row, 0, PL_ROLE_TEXT, PL_GLYPH_POINT_RIGHT);
    pl_frame_text_in(f, row, 2, kind, here ? PL_ROLE_TITLE : PL_ROLE_QUIET, kind_at(s, item));
    pl_text_safe(text, sizeof text, path ? path : "");
    pl_frame_hit(f, row, 0, 1, f->columns, PL_DO_CHOOSE_ITEM, (int)item);
    if (!item && s->typing)
        pl_view_line(&s->line, f, row, kind + 3, f->columns - kind - 4);
    else
        pl_frame_text_in(f, row, kind + 3, f->columns - kind - 4, here ? PL_ROLE_CHOSEN : PL_ROLE_TEXT, path ? text : "");
}

void pl_start_view(struct pl_start *s, struct pl_frame *f)
{
    pl_frame_clear(f);
    f->cursor_row = f->cursor_column = -1;
    pl_frame_text_in(f, 0, 1, f->columns - 2, PL_ROLE_TITLE, "plyloft: which part?");
    pl_frame_line(f, 1, 0, f->columns, PL_ROLE_LINE, PL_GLYPH_HORIZONTAL);
    size_t room = f->rows > 5 ? (size_t)f->rows - 5 : 1, first = s->chosen >= room ? s->chosen - room + 1 : 0;
    for (size_t i = 0; i < room && first + i < pl_start_count(s); i++)
        put_item(s, f, 2 + (int)i, first + i);
    pl_frame_text_in(f, f->rows - 2, 1, f->columns - 2, PL_ROLE_WARNING, s->message);
    size_t n_feet;
    const struct pl_foot *feet = pl_start_feet(s, &n_feet);
    pl_view_foot(f, pl_foot_row(f), feet, n_feet);
}
