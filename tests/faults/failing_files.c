/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loaded before the C library. Calls that change files (open for making, write beyond standard
 * error, ftruncate, fsync, lockf, rename, unlink, fchmod) are counted from 1:
 *   SPT_KILL_AT=N     the program is killed at call N, before it; with SPT_KILL_LATE set a write is
 *                     half done and any other call done
 *   SPT_ERROR_AT=N    call N fails with EIO, a write after half of its bytes
 *   SPT_CALLS=FILE    the count of calls is written there at the end
 * Besides:
 *   SPT_HURRY         each look at the clock finds it 3 s later, so that a sweep writes its state
 *                     after every unit
 *   SPT_LOCK_WAITS=FILE  lockf makes FILE.waits and goes on when FILE is there
 *   SPT_READDIR_FAILS=N  readdir number N finds an error (EIO) */
#define _GNU_SOURCE /* RTLD_NEXT */
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static atomic_long calls, looks, items;

static long read_number(const char *name)
{
    const char *text = getenv(name);
    return text ? atol(text) : 0;
}

enum turn { GO_ON, DIE_EARLY, DIE_LATE, FAIL };

static enum turn take_turn(void)
{
    long call = ++calls;
    if (call == read_number("SPT_KILL_AT"))
        return getenv("SPT_KILL_LATE") ? DIE_LATE : DIE_EARLY;
    return call == read_number("SPT_ERROR_AT") ? FAIL : GO_ON;
}

static void die(void)
{
    kill(getpid(), SIGKILL);
    pause();
}

/* The function behind this one, by its name in the C library: with 64-bit offsets, as the program
 * is built, some have names of their own. A union, since C has no cast from an object to a
 * function. */
#define NEXT_AS(name, symbol)                                                                      \
    union {                                                                                        \
        void *object;                                                                              \
        __typeof__(&name) function;                                                                \
    } next = {dlsym(RTLD_NEXT, symbol)}
#define NEXT(name) NEXT_AS(name, #name)
#define NEXT_64(name) NEXT_AS(name, #name "64")

/* One call that gives an int, -1 where it fails. */
#define CALL(...)                                                                                  \
    enum turn turn = take_turn();                                                                  \
    if (turn == DIE_EARLY)                                                                         \
        die();                                                                                     \
    if (turn == FAIL) {                                                                            \
        errno = EIO;                                                                               \
        return -1;                                                                                 \
    }                                                                                              \
    int result = next.function(__VA_ARGS__);                                                       \
    if (turn == DIE_LATE)                                                                          \
        die();                                                                                     \
    return result

int open(const char *path, int flags, ...)
{
    NEXT_64(open);
    va_list rest;
    va_start(rest, flags);
    int mode = flags & O_CREAT ? va_arg(rest, int) : 0;
    va_end(rest);
    if (!(flags & O_CREAT))
        return next.function(path, flags);
    CALL(path, flags, mode);
}

ssize_t write(int file, const void *bytes, size_t length)
{
    NEXT(write);
    enum turn turn = file > STDERR_FILENO ? take_turn() : GO_ON;
    if (turn == GO_ON)
        return next.function(file, bytes, length);
    if (turn == DIE_EARLY)
        die();
    if (length > 1 && next.function(file, bytes, length / 2) < 0)
        return -1;
    if (turn == DIE_LATE)
        die();
    errno = EIO;
    return -1;
}

int ftruncate(int file, off_t length)
{
    NEXT_64(ftruncate);
    CALL(file, length);
}

int fsync(int file)
{
    NEXT(fsync);
    CALL(file);
}

int rename(const char *from, const char *to)
{
    NEXT(rename);
    CALL(from, to);
}

int unlink(const char *path)
{
    NEXT(unlink);
    CALL(path);
}

int fchmod(int file, mode_t mode)
{
    NEXT(fchmod);
    CALL(file, mode);
}

int lockf(int file, int command, off_t length)
{
    NEXT_64(lockf);
    const char *path = getenv("SPT_LOCK_WAITS");
    char told[4096];
    if (path) {
        snprintf(told, sizeof told, "%s.waits", path);
        FILE *mark = fopen(told, "w");
        if (mark)
            fclose(mark);
        while (access(path, F_OK))
            nanosleep(&(struct timespec){0, 1000000}, NULL);
    }
    CALL(file, command, length);
}

int clock_gettime(clockid_t clock, struct timespec *time)
{
    NEXT(clock_gettime);
    int result = next.function(clock, time);
    if (!result && getenv("SPT_HURRY"))
        time->tv_sec += 3 * ++looks;
    return result;
}

struct dirent *readdir(DIR *folder)
{
    NEXT_64(readdir);
    if (++items == read_number("SPT_READDIR_FAILS")) {
        errno = EIO;
        return NULL;
    }
    return next.function(folder);
}

__attribute__((destructor)) static void write_count(void)
{
    const char *path = getenv("SPT_CALLS");
    FILE *out = path ? fopen(path, "w") : NULL;
    if (!out)
        return;
    fprintf(out, "%ld\n", (long)calls);
    fclose(out);
}
