/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "file/place.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "file/file.h"
#include "platform/platform.h"

static bool is_regular(const char *path, struct stat *about)
{
    return path && strcmp(path, "-") != 0 && !stat(path, about) && S_ISREG(about->st_mode);
}

bool spt_place_is_same(const char *one, const char *other)
{
    struct stat a, b;
    return is_regular(one, &a) && is_regular(other, &b) && a.st_dev == b.st_dev &&
           a.st_ino == b.st_ino;
}

static const char *find_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static bool find_folder(const char *path, struct stat *about)
{
    char folder[SPT_PATH_LENGTH];
    int length = (int)(find_name(path) - path);
    if (snprintf(folder, sizeof folder, "%.*s", length, path) >= SPT_PATH_LENGTH)
        return false;
    return !stat(length ? folder : ".", about);
}

bool spt_place_is_one(const char *one, const char *other)
{
    struct stat a, b;
    if (!strcmp(one, other) || spt_place_is_same(one, other))
        return true;
    return !strcmp(find_name(one), find_name(other)) && find_folder(one, &a) &&
           find_folder(other, &b) && a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

bool spt_place_is_link(const char *path)
{
    struct stat about;
    return path && strcmp(path, "-") != 0 && !lstat(path, &about) && S_ISLNK(about.st_mode) &&
           !spt_place_is_special(path);
}

static bool refuse_noted(const struct spt_call *call, const struct stat *about, const char *path)
{
    const char *noted = spt_file_noted(call, about);
    if (!noted)
        return false;
    if (strcmp(noted, path) != 0)
        spt_say(call,
                "spalltime: %s is a file that this run reads (as %s); write to another file\n",
                path, noted);
    else
        spt_say(call, "spalltime: %s is a file that this run reads; write to another file\n", path);
    return true;
}

bool spt_place_is_read(const struct spt_call *call, const char *path)
{
    struct stat about;
    return !stat(path, &about) && refuse_noted(call, &about, path);
}

bool spt_place_stdout_is_read(const struct spt_call *call)
{
    struct stat about;
    return !fstat(STDOUT_FILENO, &about) && refuse_noted(call, &about, "standard output");
}

bool spt_place_is_special(const char *path)
{
    struct stat about;
    return !stat(path, &about) && !S_ISREG(about.st_mode) && !S_ISDIR(about.st_mode);
}

bool spt_place_may_write(const char *path)
{
    struct stat about;
    if (!stat(path, &about) && S_ISDIR(about.st_mode)) {
        errno = EISDIR;
        return false;
    }
    return !is_regular(path, &about) || !access(path, W_OK);
}

mode_t spt_place_mode(const char *path)
{
    struct stat about;
    if (is_regular(path, &about))
        return about.st_mode & 0777;
    return 0666 & ~spt_file_mask();
}
