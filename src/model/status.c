/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/status.h"
#include "base/table.h"

const char *spt_status_text(enum spt_status status)
{
    static const char *const texts[] = {
        [SPT_OK] = "done",
        [SPT_BAD_ARGUMENT] = "an input is not a number or lies outside its valid range",
        [SPT_NOT_APPLICABLE] = "the method gives no value for these inputs",
        [SPT_CANNOT_CARRY] = "this arrangement cannot carry this load",
        [SPT_FREE] = "nothing is loaded, so no position is singled out",
        [SPT_NOT_CONVERGED] = "the calculation did not converge",
        [SPT_NO_MEMORY] = "out of memory",
        [SPT_TOO_SMALL] = "the space handed over is too small",
    };
    SPT_ONE_EACH(texts, SPT_STATUS_COUNT);
    if ((int)status < 0 || status >= SPT_STATUS_COUNT)
        return "unknown status";
    return texts[status];
}
