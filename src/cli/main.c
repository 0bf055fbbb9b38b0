/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <signal.h>
#include <stdio.h>

#include "cli/dispatch.h"

int main(int argc, char **argv)
{
    /* SIGPIPE is handled as the caller has set it: by default the program ends silently when the
     * reader of its output closes the pipe, like other tools; where the signal is ignored this is a
     * write error with a message. */
    signal(SIGXFSZ, SIG_IGN); /* a file that has reached its size limit is a write error */
    struct spt_call call = {.guards_inputs = true};
    int status = spt_dispatch(&call, argc - 1, argv + 1);
    spt_call_end(&call);
    if ((fflush(stdout) || ferror(stdout)) && status != SPT_EXIT_SYSTEM) {
        perror("spalltime: cannot write to standard output");
        status = SPT_EXIT_SYSTEM;
    }
    return status;
}
