/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/output.h"
#include "cli/message.h"
#include "cli/place.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

bool spt_output_open(struct spt_output *output)
{
    *output = (struct spt_output){0};
    if (!spt_gather_open(&output->gathered))
        fputs("spalltime: out of memory\n", spt_messages());
    output->stream = output->gathered.stream;
    return output->stream != NULL;
}

static int fail(const char *what, const char *path)
{
    fprintf(spt_messages(), "spalltime: %s %s: %s\n", what, path, strerror(errno));
    return SPT_EXIT_SYSTEM;
}

static bool write_all(FILE *file, const struct spt_output *output)
{
    bool written = fwrite(output->text, 1, output->length, file) == output->length;
    return fflush(file) == 0 && written;
}

static int write_standard_output(const struct spt_output *output)
{
    if (spt_place_stdout_is_read())
        return SPT_EXIT_USAGE;
    return write_all(stdout, output) ? SPT_EXIT_DONE : fail("cannot write to", "standard output");
}

static int write_file(const struct spt_output *output, const char *path)
{
    char beside[SPT_PATH_LENGTH];
    if (spt_place_is_read(path))
        return SPT_EXIT_USAGE;
    if (snprintf(beside, sizeof beside, "%s.XXXXXX", path) >= (int)sizeof beside) {
        errno = ENAMETOOLONG;
        return fail("cannot write", path);
    }
    if (!spt_place_may_write(path))
        return fail("cannot write", path);
    int descriptor = mkstemp(beside);
    if (descriptor < 0)
        return fail("cannot write beside", path);
    fchmod(descriptor, spt_place_mode(path));
    FILE *file = fdopen(descriptor, "wb");
    bool written = file && write_all(file, output);
    int error = errno;
    if (file ? fclose(file) : close(descriptor))
        written = false;
    if (written && !rename(beside, path))
        return SPT_EXIT_DONE;
    errno = written ? errno : error;
    int status = fail("cannot write", path);
    unlink(beside);
    return status;
}

static int write_special(const struct spt_output *output, const char *path)
{
    FILE *file = fopen(path, "wb");
    if (!file)
        return fail("cannot write", path);
    bool written = write_all(file, output);
    if (fclose(file))
        written = false;
    return written ? SPT_EXIT_DONE : fail("cannot write", path);
}

int spt_output_close(struct spt_output *output, const struct spt_options *options, int done)
{
    int status = SPT_EXIT_DONE;
    output->text = spt_gather_close(&output->gathered);
    output->length = output->gathered.length;
    if (!output->text) {
        fputs("spalltime: out of memory\n", spt_messages());
        status = SPT_EXIT_SYSTEM;
    } else if (options->answer) {
        *options->answer = output->text;
        *options->answer_length = output->length;
        output->text = NULL;
    } else if (!options->output || !strcmp(options->output, "-")) {
        status = write_standard_output(output);
    } else if (spt_place_is_special(options->output)) {
        status = write_special(output, options->output);
    } else {
        status = write_file(output, options->output);
    }
    free(output->text);
    *output = (struct spt_output){0};
    return status ? status : done;
}

void spt_output_drop(struct spt_output *output)
{
    free(spt_gather_close(&output->gathered));
    *output = (struct spt_output){0};
}

struct spt_text spt_output_text(const struct spt_output *output, const struct spt_options *options)
{
    const char *no_color = getenv("NO_COLOR");
    bool terminal = !options->output && isatty(STDOUT_FILENO) && !(no_color && *no_color);
    bool color =
        options->color == SPT_COLOR_ALWAYS || (options->color == SPT_COLOR_AUTO && terminal);
    return (struct spt_text){output->stream, color};
}
