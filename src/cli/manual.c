/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/manual.h"

#include <ctype.h>
#include <string.h>

#include "cli/command.h"
#include "sentence/sentence.h"
#include "spalltime/version.h"

/* Text as roff takes it: a backslash, a hyphen, and a dot or quote at the start of a line escaped.
 */
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
          "0 done; 1 answered, but a target is missed; 2 usage; 3 bad input; 4 files or memory;\n"
          "141 in a shell where the reader of the answer went away (SIGPIPE).\n"
          ".SH ENVIRONMENT\n"
          ".TP\n.B SPALLTIME_CATALOGS\nFolders of catalogs, divided by colons.\n"
          ".TP\n.B NO_COLOR\nNo colour in text answers.\n"
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
    write_line(out, "Reads a duty cycle, the bearing, the lubricant and its state from YAML and "
                    "answers with the rating life of ISO 281, the causes of its loss, and what "
                    "follows for service. FILE may be - for standard input.");
    fputs(".SH COMMANDS\n", out);
    for (int i = 0; i < spt_command_count; i++)
        write_roff_command(out, &spt_command_table[i]);
    fputs(".SH OPTIONS\n", out);
    write_line(out,
               "Letters may stand in one word, as in -qe, and a value next to its letter, as in "
               "-j2.");
    for (int i = 0; i < spt_option_count; i++)
        write_roff_option(out, &spt_option_table[i]);
    write_rest(out);
}

/* The options of a command, with blanks between. */
static void write_options_of(FILE *out, const struct spt_command *command)
{
    for (int i = 0; i < spt_option_count; i++)
        if (command->takes & spt_option_table[i].bit)
            fprintf(out, " %s", spt_option_table[i].name);
}

void spt_manual_bash(FILE *out)
{
    /* one match a line, whatever blanks it has; what the user has quoted or escaped so far is taken
     * for what it means, and readline quotes what is put in (`-o filenames`) */
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

/* Text inside single quotes of a zsh list, where a colon divides name and meaning. */
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
