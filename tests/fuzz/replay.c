/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gives a target every file of the folders named, in place of the fuzzer: any compiler will do. */
#include <dirent.h>
#include <stdlib.h>
#include <string.h>

#include "fuzz/fuzz.h"
#include "support/golden.h"

static int replay_folder(const char *folder)
{
    DIR *opened = opendir(folder);
    int count = 0;
    fuzz_require(opened != NULL);
    for (struct dirent *item = readdir(opened); item; item = readdir(opened)) {
        char path[4096];
        size_t length;
        if (item->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, item->d_name);
        char *text = golden_read(path, &length);
        fprintf(stderr, "%s\n", path); /* the last line names the input that failed */
        fuzz_require(text != NULL);
        LLVMFuzzerTestOneInput((const uint8_t *)text, length);
        free(text);
        count++;
    }
    closedir(opened);
    return count;
}

int main(int argc, char **argv)
{
    int count = 0;
    for (int i = 1; i < argc; i++)
        count += replay_folder(argv[i]);
    printf("%s: %d inputs hold\n", argc > 1 ? argv[1] : "replay", count);
    return count ? 0 : 1;
}
