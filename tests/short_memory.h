/* short_memory.h - allocations counted, and made to fail, in one test program.
 *
 * To be included by the program's one source: where the C library allows it, malloc is the program's own.
 */
#ifndef PLYLOFT_TESTS_SHORT_MEMORY_H
#define PLYLOFT_TESTS_SHORT_MEMORY_H

#include <errno.h>
#include <stdbool.h>
#include <stdlib.h>

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ADDRESS_SANITIZER 1
#endif
#endif
#if defined(__SANITIZE_ADDRESS__) && !defined(ADDRESS_SANITIZER)
#define ADDRESS_SANITIZER 1
#endif

static volatile size_t allocations;  /* compilers take it that malloc changes nothing of ours */
static long fail_in = -1;  /* this many allocations go well, then all fail; -1: none fails */

#ifdef ADDRESS_SANITIZER
/* The sanitizer owns malloc and tells of every call; it cannot be made to fail. */
int __sanitizer_install_malloc_and_free_hooks(void (*on_malloc)(const volatile void *, size_t),
                                              void (*on_free)(const volatile void *));

static inline void on_malloc(const volatile void *p, size_t size)
{
    (void)p, (void)size;
    allocations++;
}

static inline void on_free(const volatile void *p) { (void)p; }

static inline bool start_counting(void)
{
    static bool started;
    started = started || __sanitizer_install_malloc_and_free_hooks(on_malloc, on_free) > 0;
    return started;
}

static inline bool can_fail(void) { return false; }

#elif defined(__GLIBC__)
/* These stand before the C library's own; called, not inlined, so that counts() below sees who stands before them. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);
__attribute__((noinline)) void *malloc(size_t size);
__attribute__((noinline)) void *calloc(size_t count, size_t size);
__attribute__((noinline)) void *realloc(void *old, size_t size);

static inline bool refused(void)
{
    allocations++;
    if (fail_in < 0 || fail_in-- > 0)
        return false;
    fail_in = 0;
    errno = ENOMEM;
    return true;
}

void *malloc(size_t size) { return refused() ? NULL : __libc_malloc(size); }
void *calloc(size_t count, size_t size) { return refused() ? NULL : __libc_calloc(count, size); }
void *realloc(void *old, size_t size) { return refused() ? NULL : __libc_realloc(old, size); }

static inline bool start_counting(void) { return true; }
static inline bool can_fail(void) { return true; }

#else
static inline bool start_counting(void) { return false; }
static inline bool can_fail(void) { return false; }
#endif

/* A tool such as valgrind may stand before us in turn: then nothing is counted. */
static inline bool counts(void)
{
    if (!start_counting())
        return false;
    size_t before = allocations;
    void *volatile probe = malloc(17);
    free(probe);
    return allocations == before + 1;
}

#endif
