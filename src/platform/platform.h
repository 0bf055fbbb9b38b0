/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef PLATFORM_PLATFORM_H
#define PLATFORM_PLATFORM_H

#include <locale.h>
#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

/* What the program needs of the machine beyond C11. posix.c has it on systems of that standard;
 * browser.c where the program is a module in a page: one thread, one locale, no signals and no disk
 * to write to. Where a function fails errno says why. */

#ifdef __wasm__
struct spt_lock {
    bool taken;
};
struct spt_turn {
    bool unused;
};
struct spt_thread {
    bool unused;
};
struct spt_signals {
    bool unused;
};
struct spt_numerals {
    bool unused;
};
#define SPT_LOCK_FREE                                                                              \
    {                                                                                              \
        false                                                                                      \
    }
#else
#include <pthread.h>
#include <signal.h>
struct spt_lock {
    pthread_mutex_t mutex;
};
struct spt_turn {
    pthread_cond_t condition;
};
struct spt_thread {
    pthread_t thread;
};
struct spt_signals {
    struct sigaction interrupt, terminate;
};
struct spt_numerals {
    locale_t plain, before;
};
#define SPT_LOCK_FREE                                                                              \
    {                                                                                              \
        PTHREAD_MUTEX_INITIALIZER                                                                  \
    }
#endif

/* A lock, free at first; a turn, for which those who hold the lock wait. */
void spt_lock_make(struct spt_lock *lock);
void spt_lock_end(struct spt_lock *lock);
void spt_lock_take(struct spt_lock *lock);
void spt_lock_give(struct spt_lock *lock);
void spt_turn_make(struct spt_turn *turn);
void spt_turn_end(struct spt_turn *turn);
void spt_turn_wait(struct spt_turn *turn, struct spt_lock *lock);
void spt_turn_wake(struct spt_turn *turn);

/* Starts a thread; false where there is none to be had, and the caller has to do its work. */
bool spt_thread_start(struct spt_thread *thread, void *(*work)(void *), void *given);
void spt_thread_join(struct spt_thread *thread);

/* Processors of this machine, at least 1. */
int spt_processor_count(void);

/* From here to spt_numerals_leave this thread writes and reads numbers with a decimal point,
 * whatever its locale. False when memory is out; nothing is to be left then. */
bool spt_numerals_enter(struct spt_numerals *numerals);
void spt_numerals_leave(const struct spt_numerals *numerals);

/* Lets `note` have the signals that ask a run to end, except those that the caller has switched off
 * (nohup, a background job), until they are given back. */
void spt_signals_catch(struct spt_signals *before, void (*note)(int number));
void spt_signals_release(const struct spt_signals *before);

/* The path of the file that holds this code: the shared library or the program. False where it is
 * not known. */
bool spt_own_path(char *path, size_t size);

/* The path without links and dots, from malloc; NULL with errno. */
char *spt_whole_path(const char *path);

/* Columns of the terminal on standard output; 0: not known. */
int spt_terminal_columns(void);

/* Files: a new one of a name that ends in XXXXXX, which is replaced; one without a name; both
 * are open for reading and writing, -1 with errno. The bits of permission that a new file does not
 * get. Setting them, and locking a file for this process (false with errno). */
int spt_file_create(char *pattern);
int spt_file_create_nameless(void);
mode_t spt_file_mask(void);
void spt_file_permit(int descriptor, mode_t mode);
bool spt_file_lock(int descriptor);

#endif
