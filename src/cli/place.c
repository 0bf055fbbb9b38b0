/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/place.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/message.h"
#include "file/file.h"

static bool is_regular(const char *path, struct stat *about)
{
    return path && strcmp(path, "-") != 0 && !stat(path, about) && S_ISREG(about->st_mode);
}

static bool is_same_file(const char *one, const char *other)
{
    struct stat a, b;
    return is_regular(one, &a) && is_regular(other, &b) && a.st_dev == b.st_dev &&
           a.st_ino == b.st_ino;
}

static bool is_link(const char *path)
{
    struct stat about;
    return path && strcmp(path, "-") != 0 && !lstat(path, &about) && S_ISLNK(about.st_mode) &&
           !spt_place_is_special(path);
}

static void follow(const char **path, char *buffer)
{
    char *real = is_link(*path) ? realpath(*path, NULL) : NULL;
    if (real && strlen(real) < SPT_PATH_LENGTH)
        *path = strcpy(buffer, real);
    free(real);
}

static bool leads_somewhere(const struct spt_command *command, const char *option, const char *path)
{
    struct stat about;
    if (!is_link(path) || !stat(path, &about))
        return true;
    fprintf(spt_messages(),
            "spalltime %s: %s %s is a link that leads nowhere; name the file itself, or remove "
            "the link\n",
            command->name, option, path);
    return false;
}

/* False, with a message, where both are the same file, also where it does not exist yet. */
static bool are_apart(const struct spt_options *options)
{
    if (!options->output || !options->rejects || spt_place_is_special(options->rejects))
        return true;
    if (strcmp(options->output, options->rejects) != 0 &&
        !is_same_file(options->output, options->rejects))
        return true;
    fprintf(spt_messages(),
            "spalltime sweep: --output and --rejects are both %s; give each its "
            "own file\n",
            options->output);
    return false;
}

bool spt_place_resolve(struct spt_options *options, const struct spt_command *command,
                       struct spt_place *place)
{
    if (!leads_somewhere(command, "--output", options->output) ||
        !leads_somewhere(command, "--rejects", options->rejects) || !are_apart(options))
        return false;
    follow(&options->output, place->output);
    follow(&options->rejects, place->rejects);
    return true;
}

static bool refuse_noted(const struct stat *about, const char *path)
{
    const char *noted = spt_file_noted(about);
    if (!noted)
        return false;
    if (strcmp(noted, path) != 0)
        fprintf(spt_messages(),
                "spalltime: %s is a file that this run reads (as %s); write to another file\n",
                path, noted);
    else
        fprintf(spt_messages(),
                "spalltime: %s is a file that this run reads; write to another file\n", path);
    return true;
}

bool spt_place_is_read(const char *path)
{
    struct stat about;
    return !stat(path, &about) && refuse_noted(&about, path);
}

bool spt_place_stdout_is_read(void)
{
    struct stat about;
    return !fstat(STDOUT_FILENO, &about) && refuse_noted(&about, "standard output");
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
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}
