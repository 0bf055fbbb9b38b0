/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_VERSION_H
#define CLI_VERSION_H

#include <stdio.h>

/* Prints one line each: version; compiler; versions of the libraries in use; vector code selected
 * for this processor; number of processors; sanitizers, if any; licence. */
void spt_version_print(FILE *out);

#endif
