/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/manual.h"

#include <ctype.h>
#include <string.h>

#include "cli/command.h"
#include "sentence/sentence.h"
#include "spalltime/version.h"

/* Writes text for roff: a backslash, a hyphen, and a dot or quote at the start of a line are
 * escaped. */
static void write_roff(FILE *out, const char *text)
{
    if (*text == '.' || *text == '\'')
        fputs("\\&", out);
    for (; *text; text++) {
        if (*text == '\\' || *text == '-')
            fputc('\\', out);
        fputc(*text, out);
    }
}

static void write_line(FILE *out, const char *text)
{
    write_roff(out, text);
    fputc('\n', out);
}

static void write_roff_option(FILE *out, const struct spt_option *option)
{
    fputs(".TP\n.B ", out);
    if (option->alias) {
        write_roff(out, option->alias);
        fputs(", ", out);
    }
    write_roff(out, option->name);
    if (option->value) {
        fputc(' ', out);
        write_roff(out, option->value);
    }
    fputc('\n', out);
    write_line(out, option->help);
}

static void write_roff_command(FILE *out, const struct spt_command *command)
{
    fputs(".TP\n.B ", out);
    write_roff(out, command->name);
    fputc(' ', out);
    write_line(out, command->arguments);
    write_line(out, command->details);
    bool any = false;
    for (int i = 0; i < spt_option_count; i++) {
        if (!(command->takes & spt_option_table[i].bit))
            continue;
        fputs(any ? ", " : "Options: ", out);
        write_roff(out, spt_option_table[i].name);
        any = true;
    }
    if (any)
        fputs(".\n", out);
}

static void write_rest(FILE *out)
{
    fputs(".SH EXIT STATUS\n"
          "0 success; 1 success, but a target is missed; 2 wrong usage; 3 invalid input; 4 error\n"
          "with files or memory; a shell shows 141 if the reader of the output has closed it\n"
          "(SIGPIPE).\n"
          ".SH ENVIRONMENT\n"
          ".TP\n.B SPALLTIME_CATALOGS\nFolders of catalogs, separated by colons.\n"
          ".TP\n.B NO_COLOR\nIf set, text output has no colours.\n"
          ".SH NOTES\n",
          out);
    for (int i = 0; spt_caution(i); i++)
        write_line(out, spt_caution(i));
}

void spt_manual_page(FILE *out)
{
    fprintf(out,
            ".TH SPALLTIME 1 \"\" \"spalltime %s\" \"User Commands\"\n.SH NAME\nspalltime \\- "
            "life and lubrication of rolling bearings\n.SH SYNOPSIS\n.B spalltime\nCOMMAND "
            "[OPTION]... [FILE]...\n.SH DESCRIPTION\n",
            SPT_VERSION);
    write_line(out, "Reads a duty cycle, the bearing, the lubricant and its condition from a YAML "
                    "file and prints the rating life of ISO 281, the causes that shorten it, and "
                    "what follows for maintenance. FILE may be - for standard input.");
    fputs(".SH COMMANDS\n", out);
    for (int i = 0; i < spt_command_count; i++)
        write_roff_command(out, &spt_command_table[i]);
    fputs(".SH OPTIONS\n", out);
    write_line(out, "Short options may be combined, as in -qe, and a value may follow its letter "
                    "directly, as in -j2.");
    for (int i = 0; i < spt_option_count; i++)
        write_roff_option(out, &spt_option_table[i]);
    write_rest(out);
}

/* Writes the options of a command, separated by blanks. */
static void write_options_of(FILE *out, const struct spt_command *command)
{
    for (int i = 0; i < spt_option_count; i++)
        if (command->takes & spt_option_table[i].bit)
            fprintf(out, " %s", spt_option_table[i].name);
}

void spt_manual_bash(FILE *out)
{
    /* compgen prints one match on each line, so names may contain blanks. Quotes and backslashes
     * that the user has typed are removed before the search, and readline quotes the completed name
     * (`-o filenames`). */
    fputs("# bash completion for spalltime\n_spalltime() {\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} options=\n    COMPREPLY=()\n"
          "    if [ \"$COMP_CWORD\" = 1 ]; then\n        mapfile -t COMPREPLY < <(compgen -W \"",
          out);
    for (int i = 0; i < spt_command_count; i++)
        fprintf(out, "%s%s", i ? " " : "", spt_command_table[i].name);
    fputs("\" -- \"$word\")\n        return\n    fi\n    case ${COMP_WORDS[1]} in\n", out);
    for (int i = 0; i < spt_command_count; i++) {
        fprintf(out, "    %s) options=\"", spt_command_table[i].name);
        write_options_of(out, &spt_command_table[i]);
        fputs("\" ;;\n", out);
    }
    fputs("    esac\n    if [[ $word == -* ]]; then\n"
          "        mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n"
          "    else\n        case $word in\n"
          "        [\\'\\\"]*) word=${word:1} ;;\n"
          "        *) word=${word//\\\\/} ;;\n        esac\n"
          "        mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n    fi\n}\n"
          "complete -o filenames -F _spalltime spalltime\n",
          out);
}

/* Writes text inside single quotes of a zsh list, in which a colon separates a name from its
 * description. */
static void write_zsh_quoted(FILE *out, const char *text)
{
    for (; *text; text++) {
        if (*text == '\'')
            fputs("'\\'", out);
        if (*text == ':')
            fputc('\\', out);
        fputc(*text, out);
    }
}

void spt_manual_zsh(FILE *out)
{
    fputs("#compdef spalltime\n_spalltime() {\n    local -a commands options\n    commands=(\n",
          out);
    for (int i = 0; i < spt_command_count; i++) {
        fprintf(out, "        '%s:", spt_command_table[i].name);
        write_zsh_quoted(out, spt_command_table[i].summary);
        fputs("'\n", out);
    }
    fputs("    )\n    if (( CURRENT == 2 )); then\n        _describe command commands\n"
          "        return\n    fi\n    case $words[2] in\n",
          out);
    for (int i = 0; i < spt_command_count; i++) {
        fprintf(out, "    %s) options=(", spt_command_table[i].name);
        write_options_of(out, &spt_command_table[i]);
        fputs(" ) ;;\n", out);
    }
    fputs("    esac\n    if [[ $words[CURRENT] == -* ]]; then\n        compadd -a options\n"
          "    else\n        _files\n    fi\n}\n_spalltime \"$@\"\n",
          out);
}
