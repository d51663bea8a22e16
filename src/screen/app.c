#include "app.h"

#include "key_file.h"
#include "view.h"

#include <stdio.h>
#include <stdlib.h>

static enum pl_status open_part(struct pl_app *app, const char *path, struct pl_problems *problems)
{
    enum pl_status status = pl_session_open(&app->session, path, problems);
    if (status == PL_OK) {
        app->session->keys = app->keys;
        app->session->mouse = app->mouse;
    }
    if (status == PL_OK && app->ask) {
        if (app->keys_wrong[0])
            pl_session_say(app->session, app->keys_wrong, NULL);
        pl_session_remember(app->session);
        pl_session_ask_recovery(app->session);
    }
    return status;
}

enum pl_status pl_app_open(struct pl_app *app, const char *path, struct pl_problems *problems)
{
    struct pl_problems own = {0};
    app->session = NULL;
    app->leave = false;
    pl_keymap_usual(&app->keys);
    if (app->ask)
        pl_key_file_read(&app->keys, &own);
    app->keys_wrong[0] = '\0';
    if (own.count)
        pl_problem_sentence(&own.list[0], NULL, app->keys_wrong, sizeof app->keys_wrong);
    pl_problems_free(&own);
    if (path)
        return open_part(app, path, problems);
    pl_start_read(&app->start, app->samples);
    return PL_OK;
}

void pl_app_close(struct pl_app *app)
{
    pl_session_close(app->session);
    pl_start_free(&app->start);
    app->session = NULL;
}

/* From the list to a part, from a part to the list or out. */
static void change_over(struct pl_app *app)
{
    struct pl_problems problems = {0};
    if (app->session && app->session->leave) {
        bool to_start = app->session->to_start;
        snprintf(app->parting, sizeof app->parting, "%s", app->session->message);
        pl_session_close(app->session);
        app->session = NULL;
        app->leave = !to_start;
        if (to_start)
            pl_start_read(&app->start, app->samples);
    } else if (!app->session && app->start.path) {
        if (open_part(app, app->start.path, &problems) == PL_OK) {
            pl_start_free(&app->start);
        } else {
            char sentence[480] = "not enough memory";
            if (problems.count)
                pl_problem_sentence(&problems.list[0], NULL, sentence, sizeof sentence);
            snprintf(app->start.message, sizeof app->start.message, "not opened: %s", sentence);
            free(app->start.path);
            app->start.path = NULL;
        }
    } else if (!app->session && app->start.leave) {
        app->leave = true;
    }
    pl_problems_free(&problems);
}

void pl_app_key(struct pl_app *app, int key)
{
    if (app->session)
        pl_session_key(app->session, key);
    else
        pl_start_key(&app->start, key);
    if (app->session)
        app->mouse = app->session->mouse;
    change_over(app);
}

void pl_app_click(struct pl_app *app, const struct pl_frame *f, int row, int column)
{
    const struct pl_hit *hit = pl_frame_hit_at(f, row, column);
    if (hit && app->session)
        pl_session_click(app->session, hit->action, hit->argument);
    else if (hit)
        pl_start_click(&app->start, hit->action, hit->argument);
    if (app->session)
        app->mouse = app->session->mouse;
    change_over(app);
}

void pl_app_view(struct pl_app *app, struct pl_frame *f)
{
    if (app->session)
        pl_view(app->session, f);
    else
        pl_start_view(&app->start, f);
}

bool pl_app_idle(struct pl_app *app)
{
    return app->session && pl_session_idle(app->session);
}

void pl_app_keep(struct pl_app *app)
{
    if (!app->session)
        return;
    pl_session_keep(app->session);
    pl_session_look_at_disk(app->session);
}
