#include "bench.h"

#include "plyloft/terminal.h"

#include "view.h"

static void handle(struct pl_session *s, struct pl_frame *f, const struct pl_event *event)
{
    if (event->kind == PL_EVENT_KEY) {
        pl_session_key(s, event->key);
    } else if (event->kind == PL_EVENT_CLICK) {
        const struct pl_hit *hit = pl_frame_hit_at(f, event->row, event->column);
        if (hit && !s->typing && s->question == PL_NO_QUESTION)
            pl_session_act(s, hit->action, hit->argument);
    } else if (event->kind == PL_EVENT_HANGUP || event->kind == PL_EVENT_TERMINATE) {
        s->leave = true;
    }
}

static bool paint(struct pl_session *s, struct pl_frame *f)
{
    int rows, columns;
    pl_terminal_size(&rows, &columns);
    f->plain = pl_terminal_caps().plain;
    if (!pl_frame_resize(f, rows, columns))
        return false;
    pl_view(s, f);
    pl_terminal_paint(f);
    return true;
}

enum pl_status pl_bench_run(struct pl_session *s, struct pl_problems *problems)
{
    struct pl_frame f = {0};
    enum pl_status status = pl_terminal_open(&(struct pl_terminal_options){0}, problems);
    if (status != PL_OK)
        return status;
    while (!s->leave) {
        struct pl_event event;
        if (!paint(s, &f)) {
            status = PL_NO_MEMORY;
            break;
        }
        pl_terminal_wait(&event, -1);
        handle(s, &f, &event);
        /* Keys that wait already are taken before the next frame: a held key does not lag behind. */
        for (int i = 0; i < 32 && !s->leave && event.kind == PL_EVENT_KEY; i++) {
            pl_terminal_wait(&event, 0);
            handle(s, &f, &event);
        }
    }
    pl_terminal_close();
    pl_frame_free(&f);
    return status;
}
