/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_VARIANTS_H
#define BASE_VARIANTS_H

/* SPT_VARIANTS before a function compiles it for three levels of x86-64; the one to run is selected
 * when the program loads. -DSPT_NO_VARIANTS disables that: the selection by gcc runs before a
 * sanitizer has started, and crashes under the thread sanitizer. */

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__ELF__) &&         \
    !defined(SPT_NO_VARIANTS) && !defined(__SANITIZE_THREAD__)
#define SPT_VARIANTS __attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4")))
#define SPT_HAS_VARIANTS 1
#else
#define SPT_VARIANTS
#define SPT_HAS_VARIANTS 0
#endif

#endif
