/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_VERSION_H
#define SPT_VERSION_H

/* Semantic version of the program and the library; the Makefile reads it from here. */
#define SPT_VERSION "0.1.0"

#endif
