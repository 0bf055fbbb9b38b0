/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/npy.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/left_out.h"

static const struct spt_npy_column columns[] = {
    {"speed_rpm", SPT_NPY_DOUBLE}, {"status", SPT_NPY_BYTE}, {"life_h", SPT_NPY_DOUBLE}};

/* The layout that the documentation of numpy.lib.format gives for version 1.0. */
Test(npy, the_header_has_magic_version_length_and_description)
{
    char header[512];
    size_t size;
    cr_assert_eq(spt_npy_header(columns, 3, 1234, header, sizeof header, &size), SPT_OK);
    cr_expect_eq(size % 64, 0u);
    cr_expect_eq(memcmp(header, "\x93NUMPY\x01\x00", 8), 0);
    cr_expect_eq((unsigned char)header[8] + 256u * (unsigned char)header[9], size - 10);
    cr_expect_eq(header[size - 1], '\n');
    const char want[] = "{'descr': [('speed_rpm', '<f8'), ('status', '|u1'), ('life_h', '<f8'), ], "
                        "'fortran_order': False, 'shape': (1234,), }";
    const unsigned short one = 1;
    if (*(const unsigned char *)&one)
        cr_expect_eq(memcmp(header + 10, want, sizeof want - 1), 0, "%.200s", header + 10);
    for (size_t i = 10 + sizeof want - 1; i < size - 1; i++)
        cr_expect_eq(header[i], ' ');
}

Test(npy, whole_numbers_are_records_of_eight_bytes)
{
    static const struct spt_npy_column numbered[] = {{"line", SPT_NPY_LONG},
                                                     {"life_h", SPT_NPY_DOUBLE}};
    static const int64_t lines[] = {2, INT64_MAX};
    static const double lives[] = {2.385, -1.0};
    const void *data[] = {lines, lives};
    char text[512] = "";
    struct spt_npy npy;
    FILE *file = tmpfile();
    cr_assert_not_null(file);
    cr_assert_eq(spt_npy_begin(&npy, file, numbered, 2, 2), SPT_OK);
    cr_assert_eq(spt_npy_rows(&npy, data, 2), SPT_OK);
    cr_assert_eq(spt_npy_end(&npy), SPT_OK);
    rewind(file);
    size_t size = fread(text, 1, sizeof text, file);
    fclose(file);
    const unsigned short one = 1;
    const char *want = *(const unsigned char *)&one ? "('line', '<i8')" : "('line', '>i8')";
    cr_expect_not_null(strstr(text + 10, want));
    cr_expect_eq(memcmp(text + size - 32, &lines[0], 8), 0);
    cr_expect_eq(memcmp(text + size - 16, &lines[1], 8), 0);
    cr_expect_eq(memcmp(text + size - 8, &lives[1], 8), 0);
}

Test(npy, names_that_would_break_the_header_are_refused)
{
    char header[512];
    size_t size;
    static const char *const names[] = {"", "a'b", "a b", "a\nb", "a\\", "\xc3\xa4", NULL};
    for (int i = 0; i < 7; i++) {
        struct spt_npy_column column = {names[i], SPT_NPY_DOUBLE};
        cr_expect_eq(spt_npy_header(&column, 1, 1, header, sizeof header, &size), SPT_BAD_ARGUMENT,
                     "name %d", i);
    }
    struct spt_npy_column twice[] = {{"a", SPT_NPY_DOUBLE}, {"a", SPT_NPY_BYTE}};
    cr_expect_eq(spt_npy_header(twice, 2, 1, header, sizeof header, &size), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_npy_header(columns, 0, 1, header, sizeof header, &size), SPT_BAD_ARGUMENT);
}

Test(npy, a_buffer_that_is_too_small_is_refused)
{
    char header[128];
    size_t size;
    for (size_t capacity = 0; capacity < 128; capacity++)
        cr_expect_eq(spt_npy_header(columns, 3, 1234, header, capacity, &size), SPT_TOO_SMALL);
    cr_expect_eq(spt_npy_header(columns, 3, 1234, header, 128, &size), SPT_OK);
}

static void write_file(const char *path, size_t rows, size_t piece)
{
    double *speeds = malloc(rows * sizeof *speeds);
    double *lives = malloc(rows * sizeof *lives);
    unsigned char *status = malloc(rows);
    FILE *file = fopen(path, "wb");
    struct spt_npy npy;
    cr_assert(speeds && lives && status && file);
    for (size_t i = 0; i < rows; i++) {
        speeds[i] = 2.385 * (double)i;
        lives[i] = i % 3 ? 1e5 / (double)(i + 1) : (double)NAN;
        status[i] = (unsigned char)(i % 251);
    }
    cr_assert_eq(spt_npy_begin(&npy, file, columns, 3, rows), SPT_OK);
    for (size_t first = 0; first < rows; first += piece) {
        size_t here = rows - first < piece ? rows - first : piece;
        const void *data[] = {speeds + first, status + first, lives + first};
        cr_assert_eq(spt_npy_rows(&npy, data, here), SPT_OK);
    }
    cr_expect_eq(spt_npy_end(&npy), SPT_OK);
    const void *data[] = {speeds, status, lives};
    cr_expect_eq(spt_npy_rows(&npy, data, 1), SPT_TOO_SMALL, "more rows than announced");
    cr_expect_eq(fclose(file), 0);
    free(speeds);
    free(lives);
    free(status);
}

static void make_path(char *path)
{
    strcpy(path, "/tmp/spalltime_npy_XXXXXX");
    int descriptor = mkstemp(path);
    cr_assert_geq(descriptor, 0);
    close(descriptor);
}

Test(npy, records_follow_the_header_in_pieces_of_any_size)
{
    char path[32];
    unsigned char record[17];
    make_path(path);
    write_file(path, 10001, 777);
    FILE *file = fopen(path, "rb");
    cr_assert_not_null(file);
    cr_assert_eq(fseek(file, 0, SEEK_END), 0);
    cr_expect_eq(ftell(file), 192 + 10001 * 17);
    fseek(file, 192 + 5000 * 17, SEEK_SET);
    cr_assert_eq(fread(record, 1, 17, file), 17u);
    double value;
    memcpy(&value, record, 8);
    cr_expect_eq(value, 2.385 * 5000.0);
    cr_expect_eq(record[8], 5000 % 251);
    memcpy(&value, record + 9, 8);
    cr_expect_eq(value, 1e5 / 5001.0);
    fclose(file);
    unlink(path);
}

Test(npy, missing_rows_are_told_at_the_end)
{
    struct spt_npy npy;
    FILE *file = tmpfile();
    cr_assert_not_null(file);
    cr_assert_eq(spt_npy_begin(&npy, file, columns, 3, 5), SPT_OK);
    cr_expect_eq(spt_npy_end(&npy), SPT_BAD_ARGUMENT);
    fclose(file);
}

Test(npy, a_full_disk_is_told)
{
    static const double many[20000];
    static const unsigned char bytes[20000];
    FILE *file = fopen("/dev/full", "wb");
    if (!file)
        leave_out("no /dev/full here");
    struct spt_npy npy;
    const void *data[] = {many, bytes, many};
    enum spt_status begun = spt_npy_begin(&npy, file, columns, 3, 20000);
    enum spt_status written = begun == SPT_OK ? spt_npy_rows(&npy, data, 20000) : begun;
    cr_expect(written != SPT_OK || spt_npy_end(&npy) != SPT_OK);
    fclose(file);
}

Test(npy, numpy_reads_what_was_written)
{
    char path[32];
    char command[1200];
    const char *python = python_with("numpy", "python3-numpy");
    make_path(path);
    write_file(path, 10001, 4096);
    snprintf(command, sizeof command,
             "%s -c 'import numpy as n\n"
             "a = n.load(\"%s\")\n"
             "i = n.arange(10001)\n"
             "assert a.dtype.names == (\"speed_rpm\", \"status\", \"life_h\"), a.dtype\n"
             "assert a.shape == (10001,), a.shape\n"
             "assert (a[\"speed_rpm\"] == 2.385 * i).all()\n"
             "assert (a[\"status\"] == i %% 251).all()\n"
             "assert n.isnan(a[\"life_h\"][::3]).all()\n"
             "assert (a[\"life_h\"][1::3] == 1e5 / (i[1::3] + 1)).all()'",
             python, path);
    cr_expect_eq(system(command), 0);
    unlink(path);
}
