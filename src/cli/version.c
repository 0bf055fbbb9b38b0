/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/version.h"

#include <gsl/gsl_version.h>
#include <yaml.h>

#include "platform/platform.h"
#include "spalltime/sweep.h"
#include "spalltime/version.h"

#ifndef SPT_SANITIZERS /* the Makefile knows them; no compiler has a macro for each of them */
#define SPT_SANITIZERS ""
#endif

#if defined(__clang__)
#define COMPILER "clang " __clang_version__
#elif defined(__GNUC__)
#define COMPILER "gcc " __VERSION__
#else
#define COMPILER "unknown"
#endif

void spt_version_print(FILE *out)
{
    static const char sanitizers[] = SPT_SANITIZERS;
    fprintf(out, "spalltime %s\n", SPT_VERSION);
    fprintf(out, "compiler: %s\n", COMPILER);
    fprintf(out, "libraries: GNU Scientific Library %s, libyaml %s\n", gsl_version,
            yaml_get_version_string());
    fprintf(out, "vector code: %s\n", spt_batch_variant());
    fprintf(out, "threads: yes, %d processors here\n", spt_processor_count());
    if (*sanitizers)
        fprintf(out, "sanitizers: %s\n", sanitizers);
    fputs("licence: GPL-3.0-or-later\n", out);
}
