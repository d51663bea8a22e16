/* The table: work, figures, target.  Every row is printed as soon as it is measured. */
#include "bench.h"

#include <gsl/gsl_errno.h>
#include <locale.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

static const struct bench_group *const groups[] = {&bench_engine, &bench_flow, &bench_wings, &bench_screen, &bench_terminal,
                                                   &bench_process, &bench_large};

/* Stopped between two rows, so that the scratch folder goes and no program is left on its pseudo-terminal. */
static volatile sig_atomic_t asked_to_stop;

static void ask_to_stop(int signal_number)
{
    asked_to_stop = signal_number;
}

static void take_signals(void)
{
    static const int numbers[] = {SIGINT, SIGTERM, SIGHUP, SIGPIPE};
    for (size_t i = 0; i < COUNT(numbers); i++)
        signal(numbers[i], ask_to_stop);
}

/* Three figures or so, and bytes as whole ones. */
static void print_value(double value)
{
    if (isnan(value))
        printf("%9s", "");
    else if (value == floor(value) || fabs(value) >= 1000)
        printf("%9.0f", value);
    else
        printf("%9.*f", fabs(value) < 10 ? 3 : 1, value);
}

static void print_row(const struct bench_row *row, const struct bench_figure *f)
{
    printf("  %-52s ", row->what);
    if (f->missing[0]) {
        printf("not measured: %s (target %s)\n", f->missing, row->target);
        return;
    }
    print_value(f->typical);
    print_value(f->high);
    printf("  %-3s %-15s%s%s\n", f->unit, row->target, f->note[0] ? " " : "", f->note);
}

/* Other work on the machine shows in the 99th percentile first. */
static void print_load(void)
{
    double load;
    if (getloadavg(&load, 1) == 1)
        printf("load of the machine %.1f, processors %ld\n", load, sysconf(_SC_NPROCESSORS_ONLN));
}

static size_t run_group(const struct bench_group *group)
{
    size_t missing = 0;
    printf("%s\n", group->heading);
    for (size_t i = 0; i < group->count && !asked_to_stop; i++) {
        struct bench_figure f = {.typical = (double)NAN, .high = (double)NAN, .unit = ""};
        group->rows[i].measure(&f);
        missing += f.missing[0] != '\0';
        print_row(&group->rows[i], &f);
        fflush(stdout);
    }
    return missing;
}

int main(void)
{
    size_t rows = 0, missing = 0;
    double start_ms = bench_now_ms();
    take_signals();
    gsl_set_error_handler_off();
    setlocale(LC_ALL, "");
    setlocale(LC_NUMERIC, "C");
    if (!bench_folder_make())
        printf("no scratch folder could be made, see TMPDIR: rows that need one are not measured\n");
    printf("plyloft %s, %s, screen %d x %d\n", PL_VERSION, BENCH_SAMPLE, BENCH_COLUMNS, BENCH_ROWS);
    print_load();
    printf("\n  %-52s %9s%9s  %-3s %s\n", "work", "median", "99 %", "", "target");
    for (size_t i = 0; i < COUNT(groups) && !asked_to_stop; i++) {
        missing += run_group(groups[i]);
        rows += groups[i]->count;
    }
    bench_folder_remove();
    if (asked_to_stop)
        return 128 + asked_to_stop;
    printf("\n%zu of %zu rows measured, in %.0f s; ", rows - missing, rows, 1e-3 * (bench_now_ms() - start_ms));
    print_load();
    return 0;
}
