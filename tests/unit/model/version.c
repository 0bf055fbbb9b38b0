/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/version.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/version.h"

/* What stands behind `key` at the start of a line, up to its end; "" where no line has it. */
static void find_line(const char *text, const char *key, char *value, size_t capacity)
{
    *value = 0;
    for (const char *line = text; line; line = strchr(line, '\n') ? strchr(line, '\n') + 1 : NULL)
        if (!strncmp(line, key, strlen(key)))
            snprintf(value, capacity, "%.*s", (int)strcspn(line + strlen(key), "\n"),
                     line + strlen(key));
}

static void print_line(const char *key, char *value, size_t capacity)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    cr_assert_not_null(out);
    spt_version_print(out);
    fclose(out);
    find_line(text, key, value, capacity);
    free(text);
}

/* https://semver.org 2.0.0, clause 2: three numbers without leading zeros. */
Test(version, is_a_semantic_version_and_the_first_thing_said)
{
    int major, minor, patch;
    char said[80], again[80];
    cr_assert_eq(sscanf(SPT_VERSION, "%d.%d.%d", &major, &minor, &patch), 3);
    snprintf(again, sizeof again, "%d.%d.%d", major, minor, patch);
    cr_expect_str_eq(again, SPT_VERSION);
    print_line("spalltime ", said, sizeof said);
    cr_expect_str_eq(said, SPT_VERSION);
}

Test(version, tells_what_the_build_is_made_of)
{
    char said[200];
    int major, minor, yaml_major, yaml_minor;
    print_line("libraries: ", said, sizeof said);
    cr_expect_eq(sscanf(said, "GNU Scientific Library %d.%d%*[^,], libyaml %d.%d", &major, &minor,
                        &yaml_major, &yaml_minor) == 4 ||
                     sscanf(said, "GNU Scientific Library %d.%d, libyaml %d.%d", &major, &minor,
                            &yaml_major, &yaml_minor) == 4,
                 1, "%s", said);
    print_line("vector code: ", said, sizeof said);
    cr_expect(!strcmp(said, "portable") || !strncmp(said, "x86-64-v", 8), "%s", said);
    print_line("threads: yes, ", said, sizeof said);
    cr_expect_gt(atoi(said), 0, "%s", said);
    print_line("compiler: ", said, sizeof said);
    cr_expect(strlen(said) > 3, "%s", said);
    print_line("licence: ", said, sizeof said);
    cr_expect_str_eq(said, "GPL-3.0-or-later");
}

/* The build with the address sanitizer says so, that without does not. */
Test(version, tells_the_sanitizers)
{
    char said[200];
    print_line("sanitizers: ", said, sizeof said);
#if defined(__SANITIZE_ADDRESS__)
    cr_expect_not_null(strstr(said, "address"), "%s", said);
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
    cr_expect_not_null(strstr(said, "address"), "%s", said);
#endif
#else
    cr_expect_null(strstr(said, "address"), "%s", said);
#endif
}
