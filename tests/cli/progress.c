/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a sweep has come is told on a terminal alone: the built program with a pseudo-terminal or
 * a pipe as its standard error. The cases come slowly, so that there is something to tell. */
#include <criterion/criterion.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define SAID 8192
#define PIECES 3

/* Where a run is read and written: this process's ends and the program's. */
struct channel {
    int own, other;
};

static struct channel open_terminal(void)
{
    int own = posix_openpt(O_RDWR | O_NOCTTY);
    cr_assert(own >= 0 && !grantpt(own) && !unlockpt(own), "%s", strerror(errno));
    int other = open(ptsname(own), O_RDWR | O_NOCTTY);
    cr_assert(other >= 0, "%s", strerror(errno));
    return (struct channel){own, other};
}

static struct channel open_pipe(bool to_program)
{
    int ends[2];
    cr_assert_eq(pipe(ends), 0);
    return to_program ? (struct channel){ends[1], ends[0]} : (struct channel){ends[0], ends[1]};
}

static pid_t start(const struct channel *in, const struct channel *out, const struct channel *err)
{
    pid_t child = fork();
    cr_assert(child >= 0);
    if (child)
        return child;
    dup2(in->other, STDIN_FILENO);
    dup2(out->other, STDOUT_FILENO);
    dup2(err->other, STDERR_FILENO);
    const struct channel *const all[] = {in, out, err};
    for (int i = 0; i < 3; i++) {
        close(all[i]->own);
        close(all[i]->other);
    }
    execl(SPT_TEST_PROGRAM, "spalltime", "sweep", "tests/cli/inputs/sweep_slow.yaml", "--cases",
          "-", "--threads", "1", "--columns", "status", (char *)NULL);
    _exit(127);
}

/* Cases in pieces, with longer between them than the program waits to tell. */
static void feed(int to)
{
    static const char *const pieces[PIECES] = {"speed [rpm]\n100\n200\n", "300\n", "400\n"};
    const struct timespec pause = {.tv_nsec = 700000000};
    for (int i = 0; i < PIECES; i++) {
        cr_assert_eq(write(to, pieces[i], strlen(pieces[i])), (ssize_t)strlen(pieces[i]));
        nanosleep(&pause, NULL);
    }
    close(to);
}

/* All that comes; a terminal whose other end is closed gives an error instead of an end. */
static void read_all(int from, char *said)
{
    size_t used = 0;
    ssize_t got;
    while (used < SAID - 1 && (got = read(from, said + used, SAID - 1 - used)) > 0)
        used += (size_t)got;
    said[used] = 0;
    close(from);
}

static void run(struct channel out, struct channel err, char *said_out, char *said_err)
{
    struct channel in = open_pipe(true);
    int status;
    pid_t child = start(&in, &out, &err);
    close(in.other);
    close(out.other);
    close(err.other);
    feed(in.own);
    cr_assert_eq(waitpid(child, &status, 0), child);
    cr_expect(WIFEXITED(status) && WEXITSTATUS(status) == 0, "status %d", status);
    read_all(out.own, said_out);
    read_all(err.own, said_err);
}

Test(progress, is_told_on_a_terminal_and_wiped_at_the_end, .timeout = 30)
{
    static char out[SAID], err[SAID];
    static const char wiped[] = "\r\033[K";
    run(open_pipe(false), open_terminal(), out, err);
    cr_expect_str_eq(out, "speed_rpm,status\n100,ok\n200,ok\n300,ok\n400,ok\n");
    cr_expect(strstr(err, "\r3 rows, ") && strstr(err, " rows/s"), "%s", err);
    cr_expect_null(strchr(err, '\n'), "%s", err);
    cr_expect(strlen(err) > strlen(wiped) && !strcmp(err + strlen(err) - strlen(wiped), wiped),
              "%s", err);
}

Test(progress, is_silent_where_standard_error_is_no_terminal, .timeout = 30)
{
    static char out[SAID], err[SAID];
    run(open_terminal(), open_pipe(false), out, err);
    cr_expect_str_eq(err, "");
    cr_expect(strstr(out, "400,ok") && !strstr(out, "rows/s"), "%s", out);
}
