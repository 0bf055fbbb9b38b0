/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/guide_file.h"

#include <criterion/criterion.h>

void guide_file_load(struct guide_file *file)
{
    struct spt_diagnostics diags = {0};
    *file = (struct guide_file){0};
    bool read = spt_catalog_add_folder(&file->catalog, "catalogs", &diags) &&
                spt_guide_load(&file->catalog, &file->guide, &diags) &&
                spt_causes_load(&file->catalog, &file->guide, &file->causes, &diags);
    if (!read)
        spt_diagnostics_print(&diags, stderr);
    cr_assert(read, "run the tests from the top of the source tree");
}

void guide_file_free(struct guide_file *file)
{
    spt_causes_free(&file->causes);
    spt_guide_free(&file->guide);
    spt_catalog_free(&file->catalog);
}
