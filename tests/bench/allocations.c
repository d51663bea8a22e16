/* Counts calls for memory by standing in front of the C library's.
 *
 * Its own strdup and the like come through here too.  A build with a sanitizer has its own in that place, and
 * elsewhere than on Linux libraries do not call the program's: there nothing is counted, and rows say so. */
#include "bench.h"

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define IS_SANITIZED
#endif
#endif
#if defined(__SANITIZE_ADDRESS__)
#define IS_SANITIZED
#endif

#if defined(__linux__) && !defined(IS_SANITIZED)

#include <dlfcn.h>
#include <stdlib.h>

static struct {
    void *(*malloc)(size_t size);
    void *(*calloc)(size_t count, size_t size);
    void *(*realloc)(void *memory, size_t size);
    bool finding;
} next;

static volatile unsigned long calls;  /* volatile: compilers take it that malloc changes no variable of ours */

/* Looking up may itself ask for memory, and does without when it gets none. */
static bool find_next(void)
{
    if (next.finding)
        return false;
    next.finding = true;
    next.malloc = (void *(*)(size_t))dlsym(RTLD_NEXT, "malloc");
    next.calloc = (void *(*)(size_t, size_t))dlsym(RTLD_NEXT, "calloc");
    next.realloc = (void *(*)(void *, size_t))dlsym(RTLD_NEXT, "realloc");
    next.finding = false;
    return next.malloc && next.calloc && next.realloc;
}

void *malloc(size_t size)
{
    calls++;
    return next.malloc || find_next() ? next.malloc(size) : NULL;
}

void *calloc(size_t count, size_t size)
{
    calls++;
    return next.calloc || find_next() ? next.calloc(count, size) : NULL;
}

void *realloc(void *memory, size_t size)
{
    calls++;
    return next.realloc || find_next() ? next.realloc(memory, size) : NULL;
}

/* Asked of a call that is sure to come through, so that a linker which bound it elsewhere is found out. */
bool bench_counts_allocations(void)
{
    unsigned long before = calls;
    void *volatile memory = malloc(1);
    free(memory);
    return calls == before + 1;
}

unsigned long bench_allocations(void)
{
    return calls;
}

#else

bool bench_counts_allocations(void)
{
    return false;
}

unsigned long bench_allocations(void)
{
    return 0;
}

#endif
