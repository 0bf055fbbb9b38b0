/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "platform/platform.h"

#include <errno.h>

void spt_lock_make(struct spt_lock *lock)
{
    lock->taken = false;
}

void spt_lock_end(struct spt_lock *lock)
{
    (void)lock;
}

void spt_lock_take(struct spt_lock *lock)
{
    lock->taken = true;
}

void spt_lock_give(struct spt_lock *lock)
{
    lock->taken = false;
}

void spt_turn_make(struct spt_turn *turn)
{
    (void)turn;
}

void spt_turn_end(struct spt_turn *turn)
{
    (void)turn;
}

/* The one thread waits for nobody: whoever calls this looks at what it waits for once more. */
void spt_turn_wait(struct spt_turn *turn, struct spt_lock *lock)
{
    (void)turn;
    (void)lock;
}

void spt_turn_wake(struct spt_turn *turn)
{
    (void)turn;
}

bool spt_thread_start(struct spt_thread *thread, void *(*work)(void *), void *given)
{
    (void)thread;
    (void)work;
    (void)given;
    return false;
}

void spt_thread_join(struct spt_thread *thread)
{
    (void)thread;
}

int spt_processor_count(void)
{
    return 1;
}

/* The C locale is the only one. */
bool spt_numerals_enter(struct spt_numerals *numerals)
{
    (void)numerals;
    return true;
}

void spt_numerals_leave(const struct spt_numerals *numerals)
{
    (void)numerals;
}

void spt_signals_catch(struct spt_signals *before, void (*note)(int))
{
    (void)before;
    (void)note;
}

void spt_signals_release(const struct spt_signals *before)
{
    (void)before;
}

bool spt_own_path(char *path, size_t size)
{
    (void)path;
    (void)size;
    return false;
}

char *spt_whole_path(const char *path)
{
    (void)path;
    errno = ENOTSUP;
    return NULL;
}

int spt_terminal_columns(void)
{
    return 0;
}

int spt_file_create(char *pattern)
{
    (void)pattern;
    errno = ENOTSUP;
    return -1;
}

/* The page holds files without a name in its memory (src/page/worker.js). */
__attribute__((import_module("page"), import_name("create_file"))) int spt_page_create_file(void);

int spt_file_create_nameless(void)
{
    return spt_page_create_file();
}

mode_t spt_file_mask(void)
{
    return 0;
}

void spt_file_permit(int descriptor, mode_t mode)
{
    (void)descriptor;
    (void)mode;
}

bool spt_file_lock(int descriptor)
{
    (void)descriptor;
    errno = ENOTSUP;
    return false;
}
