#include "bench.h"

#include "plyloft/terminal.h"

enum { KEEP_AFTER_MS = 1000, LOOK_AFTER_MS = 5000, KEYS_A_FRAME = 32 };

static void handle(struct pl_app *app, struct pl_frame *f, const struct pl_event *event)
{
    if (event->kind == PL_EVENT_KEY) {
        pl_app_key(app, event->key);
    } else if (event->kind == PL_EVENT_CLICK) {
        pl_app_click(app, f, event->row, event->column);
    } else if (event->kind == PL_EVENT_HANGUP || event->kind == PL_EVENT_TERMINATE) {
        pl_app_keep(app);
        app->leave = true;
    } else if (event->kind == PL_EVENT_TIMEOUT) {
        pl_app_keep(app);
    }
}

/* Switched on or off; some terminals send no clicks. */
static void follow_mouse(struct pl_app *app)
{
    if (app->mouse == pl_terminal_caps().mouse)
        return;
    pl_terminal_mouse(app->mouse);
    if (app->mouse == pl_terminal_caps().mouse || !app->session)
        return;
    app->mouse = app->session->mouse = pl_terminal_caps().mouse;
    pl_session_say(app->session, "this terminal sends no clicks", NULL);
}

/* What a page shows may depend on the page before (the view keeps what is in hand in sight), so it is drawn at every
 * event, painted or not: keys typed fast lead where the same keys lead one by one. */
static bool draw(struct pl_app *app, struct pl_frame *f)
{
    int rows, columns;
    pl_terminal_size(&rows, &columns);
    f->plain = pl_terminal_caps().plain;
    if (!pl_frame_resize(f, rows, columns))
        return false;
    follow_mouse(app);
    pl_app_view(app, f);
    return true;
}

/* The next event; work that can wait is done slice by slice while there is none, and painted when it ends. */
static void wait_for(struct pl_app *app, struct pl_frame *f, struct pl_event *event, bool *kept)
{
    bool worked = false;
    pl_terminal_wait(event, 0);
    while (event->kind == PL_EVENT_TIMEOUT && pl_app_idle(app)) {
        worked = true;
        pl_terminal_wait(event, 0);
    }
    if (event->kind != PL_EVENT_TIMEOUT)
        return;
    if (worked && draw(app, f))
        pl_terminal_paint(f);
    /* Unsaved work is kept aside a second after the last key, then the file is looked at now and then. */
    pl_terminal_wait(event, *kept ? LOOK_AFTER_MS : KEEP_AFTER_MS);
    *kept = event->kind == PL_EVENT_TIMEOUT;
}

/* One event, and the keys that wait behind it already: a held key does not lag behind.  False without memory. */
static bool take(struct pl_app *app, struct pl_frame *f, struct pl_event *event)
{
    handle(app, f, event);
    bool good = app->leave || draw(app, f);
    for (int i = 0; i < KEYS_A_FRAME && good && !app->leave && event->kind == PL_EVENT_KEY; i++) {
        pl_terminal_wait(event, 0);
        if (event->kind == PL_EVENT_TIMEOUT)
            break;
        handle(app, f, event);
        good = app->leave || draw(app, f);
    }
    return good;
}

enum pl_status pl_bench_run(struct pl_app *app, struct pl_problems *problems)
{
    struct pl_frame f = {0};
    enum pl_status status = pl_terminal_open(&(struct pl_terminal_options){0}, problems);
    bool kept = false;
    if (status != PL_OK)
        return status;
    bool good = draw(app, &f);
    while (good && !app->leave) {
        struct pl_event event;
        pl_terminal_paint(&f);
        wait_for(app, &f, &event, &kept);
        good = take(app, &f, &event);
    }
    pl_terminal_close();
    pl_frame_free(&f);
    return good ? PL_OK : PL_NO_MEMORY;
}
