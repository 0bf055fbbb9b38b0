/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "file/call.h"
#include "history/history.h"
#include "sweep/sweep.h"

enum spt_format {
    SPT_FORMAT_TEXT,
    SPT_FORMAT_JSON,
    SPT_FORMAT_CSV,
    SPT_FORMAT_HTML,
    SPT_FORMAT_JSONL,
    SPT_FORMAT_NPY,
    SPT_FORMAT_ICAL,
    SPT_FORMAT_YAML,
    SPT_FORMAT_COUNT
};
enum spt_color { SPT_COLOR_AUTO, SPT_COLOR_ALWAYS, SPT_COLOR_NEVER, SPT_COLOR_COUNT };
enum spt_print { SPT_PRINT_HELP, SPT_PRINT_MAN, SPT_PRINT_BASH, SPT_PRINT_ZSH, SPT_PRINT_COUNT };
enum spt_law { SPT_LAW_THREE_PARAMETER, SPT_LAW_TWO_PARAMETER, SPT_LAW_COUNT };

#define SPT_CATALOG_FOLDERS_MAX 16
#define SPT_COMPARED_MAX 64 /* files of `compare` */

/* All options and arguments of a command line. */
struct spt_options {
    enum spt_format format;
    enum spt_color color;
    bool explain;
    bool quiet;
    const char *range;    /* of `setting`; NULL: the scenario's */
    const char *chart;    /* of `report`; NULL: the whole report */
    bool front;           /* of `report`: the sheet for the wall alone */
    const char *variant;  /* the case of `chart`; NULL: the scenario as written */
    const char *from;     /* of `choose`: the list of bearings; NULL: the catalogs */
    const char *margin;   /* of `choose`; NULL: 1.3 */
    const char *life;     /* wanted life of `reach`; NULL: the scenario's */
    const char *lever;    /* of `reach`; NULL: all */
    const char *start;    /* of `schedule`: day the calendar starts; NULL: no dates */
    const char *previous; /* of `schedule`: the calendar written before; NULL: none */
    int crew;             /* of `schedule`: visits that are made in a week; 0: not stated */
    bool costs;           /* of `schedule`: compare by money alone */
    enum spt_law law;     /* of `schedule`: distribution of fatigue lives */
    int samples;          /* number of samples; 0: the default */
    bool shares;          /* of `spread`: also print shares of the variance */
    const char
        *against; /* of `fit`: scenario whose rating is compared with the field data; or NULL */
    const char *variants;   /* of `fit`: scenario whose variants are ranked; or NULL */
    const char *confidence; /* of `fit`; NULL: 90 % */
    const char *mode;       /* of `fit`: the mode of failure that counts; NULL: all */
    const char *slope;      /* of `fit` with few failures; NULL: 1.5 */
    struct spt_history_order measured;
    const char *past;     /* of `diagnose`: confirmed cases of a shop; NULL: as the case says */
    enum spt_print print; /* of `help` */
    int schema_of;        /* of `schema`: enum spt_schema_of */
    const char *output;   /* NULL: standard output */
    struct spt_sweep_order sweep;
    struct spt_call *call;
    const char *catalogs[SPT_CATALOG_FOLDERS_MAX];
    int catalog_count;
    const char **arguments; /* files and words; as many as were given */
    int argument_count;
};

/* Bits for the options a command takes. */
enum spt_option_bit {
    SPT_TAKES_FORMAT = 1 << 0,
    SPT_TAKES_EXPLAIN = 1 << 1,
    SPT_TAKES_OUTPUT = 1 << 2,
    SPT_TAKES_CATALOG = 1 << 3,
    SPT_TAKES_QUIET = 1 << 4,
    SPT_TAKES_COLOR = 1 << 5,
    SPT_TAKES_TARGET = 1 << 6, /* --life and --lever */
    SPT_TAKES_PRINT = 1 << 7,
    SPT_TAKES_SWEEP = 1 << 20, /* the options of `sweep` alone */
    SPT_TAKES_CHART = 1 << 9,
    SPT_TAKES_RANGE = 1 << 8,
    SPT_TAKES_UNDERSTOOD = 1 << 10, /* --explain of `check` */
    SPT_TAKES_FIELD = 1 << 12,      /* --against, --variants, --confidence and --slope */
    SPT_TAKES_PLAN = 1 << 13,       /* --format with ical, --start, --previous and --law */
    SPT_TAKES_SAMPLES = 1 << 14,
    SPT_TAKES_SHARES = 1 << 15,
    SPT_TAKES_HISTORY = 1 << 16,
    SPT_TAKES_BINNING = 1 << 17,  /* --bins, --gap, --standing: of --history and of `duty` */
    SPT_TAKES_DUTY = 1 << 18,     /* --format of `duty` */
    SPT_TAKES_SCHEMA = 1 << 19,   /* --format and --of of `schema` */
    SPT_TAKES_READABLE = 1 << 11, /* --format of `help` */
    SPT_TAKES_CHOICE = 1 << 21,   /* --from and --margin */
    SPT_TAKES_PAST = 1 << 24,     /* --past of `diagnose` */
    SPT_TAKES_MEASURED = SPT_TAKES_HISTORY | SPT_TAKES_BINNING,
    SPT_TAKES_REPORT = SPT_TAKES_FORMAT | SPT_TAKES_EXPLAIN | SPT_TAKES_OUTPUT | SPT_TAKES_CATALOG |
                       SPT_TAKES_QUIET | SPT_TAKES_COLOR,
    SPT_TAKES_REPORT_BUT_EXPLAIN = SPT_TAKES_REPORT & ~SPT_TAKES_EXPLAIN
};

/* Type of the value of an option; a word is stored as its index in `words`. */
enum spt_option_kind {
    SPT_OPTION_FLAG,  /* none: the option alone */
    SPT_OPTION_TEXT,  /* not empty */
    SPT_OPTION_FILE,  /* the same, and not standard output */
    SPT_OPTION_COUNT, /* a whole number from `least` to `most` */
    SPT_OPTION_WORD,  /* one of `words`, up to the index `most`, that the option lists */
    SPT_OPTION_FOLDER /* one more catalog */
};
struct spt_option_value {
    enum spt_option_kind what;
    size_t at; /* offset of the member of spt_options */
    const char *const *words;
    int least, most;
};

/* Where `help` lists an option. */
enum spt_option_group { SPT_OPTION_OWN, SPT_OPTION_INPUT, SPT_OPTION_OUTPUT };

/* One option: reading, help, man page and completion all come from this table. */
struct spt_option {
    const char *name;  /* "--format" */
    const char *alias; /* "-f", or NULL */
    const char *value; /* "text|json|csv", or NULL where it takes none */
    const char *help;
    unsigned bit;
    struct spt_option_value kind;
    enum spt_option_group group;
};
extern const struct spt_option spt_option_table[];
extern const int spt_option_count;

/* Reads the words after the command. `options->arguments` has space for as many as there are words.
 * `takes` is the command's set of bits.
 * Result: true, or false with a message on standard error that says what to write instead. */
bool spt_options_read(struct spt_options *options, unsigned takes, const char *command, int count,
                      char *const *words);

#endif
