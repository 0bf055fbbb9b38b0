/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/help/completion.h"

#include "cli/command.h"

/* Writes the options of a command, separated by blanks. */
static void write_options_of(FILE *out, const struct spt_command *command)
{
    for (int i = 0; i < spt_option_count; i++)
        if (command->takes & spt_option_table[i].bit)
            fprintf(out, " %s", spt_option_table[i].name);
}

void spt_completion_bash(FILE *out)
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

void spt_completion_zsh(FILE *out)
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
