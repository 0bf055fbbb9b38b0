/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_VERSION_H
#define CLI_VERSION_H

#include <stdio.h>

/* What this build is made of, one line each: version; compiler; versions of the libraries it runs
 * with; vector code that this processor gets; processors; sanitizers where there are any;
 * licence. */
void spt_version_print(FILE *out);

#endif
