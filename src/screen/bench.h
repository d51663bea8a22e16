/* bench.h - the bench on a terminal: one loop for pages, values and questions alike. */
#ifndef PLYLOFT_BENCH_H
#define PLYLOFT_BENCH_H

#include "app.h"

/* Runs until the person leaves or the terminal goes.  PL_OK, or why the terminal could not be used. */
enum pl_status pl_bench_run(struct pl_app *app, struct pl_problems *problems);

#endif
