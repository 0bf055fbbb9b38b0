/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loaded before the C library: request number SPT_FAIL_AT (counted from 1) gets no memory; with
 * SPT_FAIL_ON set, neither does any later one. At the end the count of requests is written to the
 * file SPT_FAIL_COUNT. For the GNU C library, whose own functions stand behind these. */
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *old, size_t size);

static long requests, fail_at = -1;
static int fail_on;

static int is_refused(void)
{
    if (fail_at < 0) {
        const char *at = getenv("SPT_FAIL_AT");
        fail_at = at ? atol(at) : 0;
        fail_on = getenv("SPT_FAIL_ON") != NULL;
    }
    requests++;
    if (fail_at == 0 || (fail_on ? requests < fail_at : requests != fail_at))
        return 0;
    errno = ENOMEM;
    return 1;
}

void *malloc(size_t size)
{
    return is_refused() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return is_refused() ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return is_refused() ? NULL : __libc_realloc(old, size);
}

__attribute__((destructor)) static void write_count(void)
{
    const char *path = getenv("SPT_FAIL_COUNT");
    char text[32];
    int file = path ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0666) : -1;
    if (file < 0)
        return;
    int length = snprintf(text, sizeof text, "%ld\n", requests);
    if (length > 0 && write(file, text, (size_t)length) != length)
        perror(path);
    close(file);
}
