#include "vh_pages.h"

#include <string.h>

enum { PAGE_COLUMNS = 75 };

static void put_word(FILE *to, const char *word, size_t n, bool begins_line)
{
    if (begins_line && (word[0] == '.' || word[0] == '\''))
        fputs("\\&", to);
    for (size_t i = 0; i < n; i++) {
        if (word[i] == '\\')
            fputs("\\e", to);
        else if (word[i] == '-' && n > 1 && (i == 0 || word[0] == '-'))
            fputs("\\-", to); /* of an option or a number, not a hyphen */
        else
            fputc(word[i], to);
    }
}

void vh_page_text(FILE *to, const char *text)
{
    size_t column = 0;

    while (*text) {
        size_t n;
        text += strspn(text, " ");
        n = strcspn(text, " ");
        if (n == 0)
            break;
        if (column > 0 && column + 1 + n > PAGE_COLUMNS) {
            fputc('\n', to);
            column = 0;
        }
        if (column > 0)
            fputc(' ', to);
        put_word(to, text, n, column == 0);
        column += n + (column > 0);
        if (text[n - 1] == '.' && text[n]) { /* a new sentence begins a new line */
            fputc('\n', to);
            column = 0;
        }
        text += n;
    }
    if (column > 0)
        fputc('\n', to);
}

void vh_page_head(FILE *to, const char *date, const char *title, int section, const char *name,
                  const char *says)
{
    fprintf(to, ".\\\" Made while building; changes here are lost.\n");
    fprintf(to, ".Dd %s\n.Dt %s %d\n.Os\n.Sh NAME\n.Nm %s\n.Nd %s\n", date, title, section, name,
            says);
}
