/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* dladdr */
#include "platform/platform.h"

#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

void spt_lock_make(struct spt_lock *lock)
{
    pthread_mutex_init(&lock->mutex, NULL);
}

void spt_lock_end(struct spt_lock *lock)
{
    pthread_mutex_destroy(&lock->mutex);
}

void spt_lock_take(struct spt_lock *lock)
{
    pthread_mutex_lock(&lock->mutex);
}

void spt_lock_give(struct spt_lock *lock)
{
    pthread_mutex_unlock(&lock->mutex);
}

void spt_turn_make(struct spt_turn *turn)
{
    pthread_cond_init(&turn->condition, NULL);
}

void spt_turn_end(struct spt_turn *turn)
{
    pthread_cond_destroy(&turn->condition);
}

void spt_turn_wait(struct spt_turn *turn, struct spt_lock *lock)
{
    pthread_cond_wait(&turn->condition, &lock->mutex);
}

void spt_turn_wake(struct spt_turn *turn)
{
    pthread_cond_broadcast(&turn->condition);
}

bool spt_thread_start(struct spt_thread *thread, void *(*work)(void *), void *given)
{
    return !pthread_create(&thread->thread, NULL, work, given);
}

void spt_thread_join(struct spt_thread *thread)
{
    pthread_join(thread->thread, NULL);
}

int spt_processor_count(void)
{
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1 ? 1 : (int)count;
}

bool spt_numerals_enter(struct spt_numerals *numerals)
{
    numerals->plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    if (numerals->plain == (locale_t)0)
        return false;
    numerals->before = uselocale(numerals->plain);
    return true;
}

void spt_numerals_leave(const struct spt_numerals *numerals)
{
    uselocale(numerals->before);
    freelocale(numerals->plain);
}

static void catch_signal(int number, void (*note)(int), struct sigaction *before)
{
    struct sigaction action = {.sa_handler = note};
    sigemptyset(&action.sa_mask);
    sigaction(number, NULL, before);
    if (before->sa_handler != SIG_IGN)
        sigaction(number, &action, NULL);
}

void spt_signals_catch(struct spt_signals *before, void (*note)(int))
{
    catch_signal(SIGINT, note, &before->interrupt);
    catch_signal(SIGTERM, note, &before->terminate);
}

void spt_signals_release(const struct spt_signals *before)
{
    sigaction(SIGINT, &before->interrupt, NULL);
    sigaction(SIGTERM, &before->terminate, NULL);
}

bool spt_own_path(char *path, size_t size)
{
    static const char here;
    Dl_info about;
    if (dladdr(&here, &about) && about.dli_fname && strchr(about.dli_fname, '/')) {
        char *whole = realpath(about.dli_fname, NULL);
        int length = whole ? snprintf(path, size, "%s", whole) : 0;
        free(whole);
        if (length > 0 && (size_t)length < size)
            return true;
    }
    ssize_t length = readlink("/proc/self/exe", path, size - 1);
    if (length > 0)
        path[length] = 0;
    return length > 0;
}

char *spt_whole_path(const char *path)
{
    return realpath(path, NULL);
}

int spt_terminal_columns(void)
{
    struct winsize size;
    return ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) ? 0 : size.ws_col;
}

int spt_file_create(char *pattern)
{
    return mkstemp(pattern);
}

int spt_file_create_nameless(void)
{
    FILE *made = tmpfile();
    int descriptor = made ? dup(fileno(made)) : -1, error = errno;
    if (made)
        fclose(made);
    errno = error;
    return descriptor;
}

mode_t spt_file_mask(void)
{
    mode_t mask = umask(0);
    umask(mask);
    return mask;
}

void spt_file_permit(int descriptor, mode_t mode)
{
    fchmod(descriptor, mode);
}

bool spt_file_lock(int descriptor)
{
    return !lockf(descriptor, F_TLOCK, 0);
}
