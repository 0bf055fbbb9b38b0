/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the scenario of each case of tests/bad_input as a file of its own, as inputs for the
 * targets.
 * usage: expand FOLDER_OF_CASES FOLDER */
#include "support/patch.h"

int main(int argc, char **argv)
{
    return argc == 3 && patch_cases_expand(argv[1], argv[2]) ? 0 : 1;
}
