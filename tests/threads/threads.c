/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every command through spt_run from several threads at a time: each answer is the one that a
 * single thread gets. Built with -fsanitize=thread it shows what they share. Arguments: how many
 * threads, how many rounds. */
#include "spalltime/run.h"

#include <pthread.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define THREADS_MAX 16
#define WORDS_MAX 8
#define COUNT(array) (sizeof(array) / sizeof *(array))

static const char scenario[] =
    "title: Grain elevator boot\n"
    "bearing: boot bearing\n"
    "lubricant: {kind: grease, viscosity_40: 150 mm2/s, viscosity_100: 14.5 mm2/s}\n"
    "condition: {cleanliness: normal, water: 150 ppm, grease_age: 200 h}\n"
    "duty: [{phase: run, time: 100 %, speed: 320 rpm, radial_load: 9 kN, temperature: 60 degC}]\n"
    "usage: {yearly: 900 h}\n"
    "target_life: 20000 h\n"
    "service: {regrease: 600 h, until: 20000 h}\n"
    "uncertainty: {load: {plus_minus: 15 %}}\n"
    "sweep: {speed: {values: [200 rpm, 400 rpm]}, radial_load: {values: [5 kN, 9 kN]}}\n"
    "variants: [{name: dirty, condition: {cleanliness: severe}}]\n";
static const char catalog[] = "bearings:\n"
                              "  boot bearing: {type: spherical roller, bore: 60 mm, "
                              "outside_diameter: 110 mm, width: 28 mm, "
                              "dynamic_load_rating: 150 kN, static_load_rating: 160 kN, "
                              "axial_factors: {e: 0.24, Y: 4.2, Y0: 2.8}, "
                              "source: made up for a test}\n";
static const char cases[] = "label,radial_load [kN],speed [rpm]\nfull,9,320\nempty,4,400\n";
static const char history[] =
    "time [s],radial_load [kN],speed [rpm]\n0,9,320\n60,5,300\n120,8,310\n"
    "180,6,320\n240,9,320\n";
static const char field[] = "time [h],state\n900,failed\n1500,failed\n2100,failed\n2500,running\n";
static const char mistake[] = "title: Boot\nbearin: 5\n";

static const struct spt_run_file files[] = {
    {"-", scenario, sizeof scenario - 1},   {"memory/boot.yaml", catalog, sizeof catalog - 1},
    {"cases.csv", cases, sizeof cases - 1}, {"history.csv", history, sizeof history - 1},
    {"field.csv", field, sizeof field - 1}, {"mistake.yaml", mistake, sizeof mistake - 1},
};

static const char *const lines[][WORDS_MAX] = {
    {"life", "-c", "memory", "--format", "json", "-"},
    {"life", "-c", "memory", "--explain", "-"},
    {"compare", "-c", "memory", "--format", "csv", "-"},
    {"reach", "-c", "memory", "-"},
    {"timeline", "-c", "memory", "-"},
    {"schedule", "-c", "memory", "--format", "ical", "--start=2027-03-01", "-"},
    {"spread", "-c", "memory", "--samples=500", "-"},
    {"report", "-c", "memory", "-"},
    {"report", "-c", "memory", "--chart=survival", "-"},
    {"sweep", "-c", "memory", "--threads=2", "-"},
    {"sweep", "-c", "memory", "--cases", "cases.csv", "--format=jsonl", "-"},
    {"duty", "-c", "memory", "history.csv", "-"},
    {"life", "-c", "memory", "--history", "history.csv", "-"},
    {"fit", "field.csv"},
    {"check", "mistake.yaml", "nowhere.yaml"},
    {"catalog", "bearings", "-c", "memory"},
    {"damage", "brinelling", "-c", "catalogs"},
    {"setting", "-c", "catalogs", "scenarios/lesson_5_end_play.yaml"},
    {"life", "-c", "catalogs", "scenarios/lesson_5_end_play.yaml"},
    {"schema", "--format", "json"},
    {"help", "sweep"},
    {"help", "--print", "bash"},
    {"--version"},
    {"lief", "-"},
    {"life", "--formt", "json", "-"},
};

struct outcome {
    struct spt_run_answer answers[COUNT(lines)];
};
static struct outcome alone;
static int rounds;
static bool differs[THREADS_MAX];

static void ask(size_t line, struct spt_run_answer *answer)
{
    int words = 0;
    while (words < WORDS_MAX && lines[line][words])
        words++;
    spt_run(&(struct spt_run_request){lines[line], words, files, COUNT(files), 0}, answer);
}

static bool is_same(const char *one, const char *other)
{
    return one && other ? !strcmp(one, other) : one == other;
}

static bool agrees(size_t line, const struct spt_run_answer *got)
{
    const struct spt_run_answer *want = &alone.answers[line];
    bool same = got->exit_status == want->exit_status && is_same(got->body, want->body) &&
                is_same(got->messages, want->messages);
    if (!same)
        fprintf(stderr, "threads: %s, line %zu: status %d for %d\n", lines[line][0], line,
                got->exit_status, want->exit_status);
    return same;
}

/* Each thread begins with another command. */
static void *work(void *context)
{
    size_t number = (size_t)((bool *)context - differs);
    for (int round = 0; round < rounds; round++)
        for (size_t i = 0; i < COUNT(lines); i++) {
            size_t line = (i + number * 7) % COUNT(lines);
            struct spt_run_answer answer;
            ask(line, &answer);
            differs[number] |= !agrees(line, &answer);
            spt_run_answer_free(&answer);
        }
    return NULL;
}

/* Commands that should have an answer have one, those with mistakes their status. */
static bool is_sensible(void)
{
    bool sensible = true;
    for (size_t i = 0; i < COUNT(lines); i++) {
        const struct spt_run_answer *answer = &alone.answers[i];
        bool mistaken = !strncmp(lines[i][0], "lief", 4) || i == COUNT(lines) - 1;
        bool fine = mistaken ? answer->exit_status == 2 && !answer->body
                    : !strcmp(lines[i][0], "check")
                        ? answer->exit_status >= 3
                        : answer->exit_status <= 1 && answer->body && answer->body_length > 0;
        if (!fine)
            fprintf(stderr, "threads: line %zu, %s: status %d\n%s", i, lines[i][0],
                    answer->exit_status, answer->messages ? answer->messages : "");
        sensible &= fine;
    }
    return sensible;
}

int main(int argc, char **argv)
{
    pthread_t threads[THREADS_MAX];
    int count = argc > 1 ? atoi(argv[1]) : 4;
    rounds = argc > 2 ? atoi(argv[2]) : 1;
    count = count < 1 || count > THREADS_MAX ? THREADS_MAX : count;
    for (size_t i = 0; i < COUNT(lines); i++)
        ask(i, &alone.answers[i]);
    bool failed = !is_sensible();
    for (int i = 0; i < count; i++)
        if (pthread_create(&threads[i], NULL, work, &differs[i]))
            return 2;
    for (int i = 0; i < count; i++) {
        pthread_join(threads[i], NULL);
        failed |= differs[i];
    }
    for (size_t i = 0; i < COUNT(lines); i++)
        spt_run_answer_free(&alone.answers[i]);
    if (!failed)
        printf("threads: %zu commands from %d threads at a time, every answer as alone\n",
               COUNT(lines), count);
    return failed;
}
