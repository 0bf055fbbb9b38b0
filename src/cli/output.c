/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/output.h"
#include "file/place.h"
#include "platform/platform.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

bool spt_output_open(struct spt_call *call, struct spt_output *output)
{
    *output = (struct spt_output){0};
    if (!spt_gather_open(&output->gathered))
        spt_say(call, "spalltime: out of memory\n");
    output->stream = output->gathered.stream;
    return output->stream != NULL;
}

static int fail(struct spt_call *call, const char *what, const char *path)
{
    spt_say(call, "spalltime: %s %s: %s\n", what, path, strerror(errno));
    return SPT_EXIT_SYSTEM;
}

static bool write_all(FILE *file, const struct spt_output *output)
{
    bool written = fwrite(output->text, 1, output->length, file) == output->length;
    return fflush(file) == 0 && written;
}

/* In a call through the library the text becomes the body of the answer, which takes ownership. */
static int write_standard_output(struct spt_call *call, struct spt_output *output)
{
    if (call->captured) {
        free(call->body);
        call->body = output->text;
        call->body_length = output->length;
        output->text = NULL;
        return SPT_EXIT_DONE;
    }
    if (spt_place_stdout_is_read(call))
        return SPT_EXIT_USAGE;
    return write_all(stdout, output) ? SPT_EXIT_DONE
                                     : fail(call, "cannot write to", "standard output");
}

static int write_file(struct spt_call *call, const struct spt_output *output, const char *path)
{
    char beside[SPT_PATH_LENGTH];
    if (spt_place_is_read(call, path))
        return SPT_EXIT_USAGE;
    if (snprintf(beside, sizeof beside, "%s.XXXXXX", path) >= (int)sizeof beside) {
        errno = ENAMETOOLONG;
        return fail(call, "cannot write", path);
    }
    if (!spt_place_may_write(path))
        return fail(call, "cannot write", path);
    int descriptor = spt_file_create(beside);
    if (descriptor < 0)
        return fail(call, "cannot write beside", path);
    spt_file_permit(descriptor, spt_place_mode(path));
    FILE *file = fdopen(descriptor, "wb");
    bool written = file && write_all(file, output);
    int error = errno;
    if (file ? fclose(file) : close(descriptor))
        written = false;
    if (written && !rename(beside, path))
        return SPT_EXIT_DONE;
    errno = written ? errno : error;
    int status = fail(call, "cannot write", path);
    unlink(beside);
    return status;
}

static int write_special(struct spt_call *call, const struct spt_output *output, const char *path)
{
    FILE *file = fopen(path, "wb");
    if (!file)
        return fail(call, "cannot write", path);
    bool written = write_all(file, output);
    if (fclose(file))
        written = false;
    return written ? SPT_EXIT_DONE : fail(call, "cannot write", path);
}

int spt_output_close(struct spt_output *output, const struct spt_options *options, int done)
{
    int status = SPT_EXIT_DONE;
    output->text = spt_gather_close(&output->gathered);
    output->length = output->gathered.length;
    if (!output->text) {
        spt_say(options->call, "spalltime: out of memory\n");
        status = SPT_EXIT_SYSTEM;
    } else if (!options->output || !strcmp(options->output, "-")) {
        status = write_standard_output(options->call, output);
    } else if (spt_place_is_special(options->output)) {
        status = write_special(options->call, output, options->output);
    } else {
        status = write_file(options->call, output, options->output);
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

/* Columns of the terminal within what texts are made for; 0: not known. */
static int find_width(void)
{
    const int columns = spt_terminal_columns();
    if (!columns)
        return 0;
    return columns < SPT_TEXT_WIDTH_MIN   ? SPT_TEXT_WIDTH_MIN
           : columns > SPT_TEXT_WIDTH_MAX ? SPT_TEXT_WIDTH_MAX
                                          : columns;
}

struct spt_text spt_output_text(const struct spt_output *output, const struct spt_options *options)
{
    const char *no_color = getenv("NO_COLOR");
    const bool terminal = !options->output && !options->call->captured && isatty(STDOUT_FILENO);
    const bool color = options->color == SPT_COLOR_ALWAYS ||
                       (options->color == SPT_COLOR_AUTO && terminal && !(no_color && *no_color));
    return (struct spt_text){output->stream, color, terminal ? find_width() : 0};
}
