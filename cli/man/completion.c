/* What the shells offer behind "vinehand". */
#include "vh_pages.h"

#include <string.h>

#include "vh_word_list.h"

static bool stands_before(const struct vh_command_words *c)
{
    return c > vh_command_list && strcmp(c[-1].word, c->word) == 0;
}

static bool is_offered(const struct vh_command_words *c)
{
    return c->word[0] && !stands_before(c);
}

/* Text between single quotes; `marks` get a backslash. */
static void put_quoted(FILE *to, const char *text, const char *marks, const char *quote)
{
    for (; *text; text++) {
        if (*text == '\'')
            fputs(quote, to);
        else
            fprintf(to, strchr(marks, *text) ? "\\%c" : "%c", *text);
    }
}

static bool takes(const struct vh_option_words *o, const char *value)
{
    return o->value && !o->choices && strcmp(o->value, value) == 0;
}

/* ---- bash ---- */

static void put_bash_values(FILE *to)
{
    const struct vh_option_words *o;

    fputs("    case $before in\n", to);
    for (o = vh_option_list; o->name; o++) {
        if (o->choices)
            fprintf(to, "    %s) COMPREPLY=($(compgen -W '%s' -- \"$word\")); return ;;\n", o->name,
                    o->choices);
        else if (takes(o, "DIR"))
            fprintf(to, "    %s) COMPREPLY=($(compgen -d -- \"$word\")); return ;;\n", o->name);
        else if (takes(o, "FILE"))
            fprintf(to, "    %s) COMPREPLY=($(compgen -f -- \"$word\")); return ;;\n", o->name);
        else if (o->value)
            fprintf(to, "    %s) return ;;\n", o->name);
    }
    fputs("    esac\n", to);
}

static void put_bash_options(FILE *to, const char *of)
{
    for (const struct vh_option_words *o = vh_option_list; o->name; o++) {
        if (of[0] ? o->of && strcmp(o->of, of) == 0 : !o->of)
            fprintf(to, " %s", o->name);
    }
}

void vh_completion_bash(FILE *to)
{
    const struct vh_command_words *c;

    fputs("# What bash offers behind vinehand. Made while building; changes here are lost.\n"
          "_vinehand() {\n"
          "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command= i\n"
          "    COMPREPLY=()\n",
          to);
    put_bash_values(to);
    fputs("    for ((i = 1; i < COMP_CWORD; i++)); do\n"
          "        case ${COMP_WORDS[i]} in\n"
          "        ",
          to);
    for (c = vh_command_list; c->word; c++)
        if (is_offered(c))
            fprintf(to, "%s%s", c == vh_command_list + 1 ? "" : " | ", c->word);
    fputs(") command=${COMP_WORDS[i]}; break ;;\n        esac\n    done\n"
          "    if [[ $word == -* ]]; then\n        local options='",
          to);
    put_bash_options(to, "");
    fputs("'\n        case $command in\n", to);
    for (c = vh_command_list; c->word; c++) {
        if (!is_offered(c))
            continue;
        fprintf(to, "        %s) options+='", c->word);
        put_bash_options(to, c->word);
        fputs("' ;;\n", to);
    }
    fputs("        esac\n        COMPREPLY=($(compgen -W \"$options\" -- \"$word\"))\n"
          "    elif [[ -z $command ]]; then\n        COMPREPLY=($(compgen -W '",
          to);
    for (c = vh_command_list; c->word; c++)
        if (is_offered(c))
            fprintf(to, "%s ", c->word);
    fputs("' -- \"$word\"))\n    else\n        COMPREPLY=($(compgen -f -- \"$word\"))\n    fi\n}\n"
          "complete -o filenames -F _vinehand vinehand\n",
          to);
}

/* ---- zsh ---- */

void vh_completion_zsh(FILE *to)
{
    fputs("#compdef vinehand\n"
          "# Made while building; changes here are lost.\n"
          "_arguments \\\n",
          to);
    for (const struct vh_option_words *o = vh_option_list; o->name; o++) {
        fprintf(to, "    '%s[", o->name);
        put_quoted(to, o->says, "[]:\\", "'\\''");
        fputc(']', to);
        if (o->value)
            fprintf(to, ":%s:", o->value);
        if (o->choices)
            fprintf(to, "(%s)", o->choices);
        else if (takes(o, "DIR"))
            fputs("_files -/", to);
        else if (takes(o, "FILE"))
            fputs("_files", to);
        fputs("' \\\n", to);
    }
    fputs("    '1:command:((", to);
    for (const struct vh_command_words *c = vh_command_list; c->word; c++) {
        if (!is_offered(c))
            continue;
        fprintf(to, "%s%s\\:\"", c == vh_command_list + 1 ? "" : " ", c->word);
        put_quoted(to, c->says, ":\\\"[]()", "'\\''");
        fputc('"', to);
    }
    fputs("))' \\\n    '*:scenario:_files'\n", to);
}

/* ---- fish ---- */

void vh_completion_fish(FILE *to)
{
    fputs("# Made while building; changes here are lost.\n", to);
    for (const struct vh_command_words *c = vh_command_list; c->word; c++) {
        if (!is_offered(c))
            continue;
        fprintf(to, "complete -c vinehand -n __fish_use_subcommand -a %s -d '", c->word);
        put_quoted(to, c->says, "\\", "\\'");
        fputs("'\n", to);
    }
    for (const struct vh_option_words *o = vh_option_list; o->name; o++) {
        fputs("complete -c vinehand", to);
        if (o->of)
            fprintf(to, " -n '__fish_seen_subcommand_from %s'", o->of);
        fprintf(to, " -l %s", o->name + 2);
        if (o->choices)
            fprintf(to, " -x -a '%s'", o->choices);
        else if (takes(o, "DIR"))
            fputs(" -x -a '(__fish_complete_directories)'", to);
        else if (o->value)
            fputs(takes(o, "FILE") ? " -r" : " -x", to);
        fputs(" -d '", to);
        put_quoted(to, o->says, "\\", "\\'");
        fputs("'\n", to);
    }
}
