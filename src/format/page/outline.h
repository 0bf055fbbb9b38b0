/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_PAGE_OUTLINE_H
#define FORMAT_PAGE_OUTLINE_H

#include "format/page/blocks.h"

/* The outline of an HTML page that has a front: below the front its sections are folds with an
 * address each, which a table of contents lists. */

#define SPT_ADDRESS_LENGTH 64

/* True where a page begins with a section of the form SPT_SECTION_FRONT. */
bool spt_page_has_front(const struct spt_page *page);

/* The address of a section within its page, "variant-dirty-oil", from its heading; the second one
 * of the same heading ends in "-2". In letters, digits and hyphens of ASCII, so that it can be an
 * id and follow the # of a link as it is. Result: `address`, of SPT_ADDRESS_LENGTH bytes. */
const char *spt_page_address(const struct spt_page *page, const struct spt_block *block,
                             char *address);

/* Writes the table of contents: the sections after `front`. A page without any has none. */
void spt_page_contents(const struct spt_page *page, const struct spt_block *front, FILE *out,
                       bool quiet);

#endif
