/* make_pages.c - make_pages PARAMS DATE FOLDER: writes the manual pages and completions there. */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "vh_pages.h"

enum { PATH_ROOM = 4096 };

static const char *const month_names[] = {"January",   "February", "March",    "April",
                                          "May",       "June",     "July",     "August",
                                          "September", "October",  "November", "December"};

struct making {
    const char *folder;
    char date[40]; /* "November 25, 2026" */
    const struct vh_parameters *parameters;
    bool failed;
};

static FILE *open_page(struct making *m, const char *name)
{
    char path[PATH_ROOM];
    FILE *f;

    snprintf(path, sizeof path, "%s/%s", m->folder, name);
    f = fopen(path, "w");
    if (!f) {
        fprintf(stderr, "make_pages: %s: %s\n", path, strerror(errno));
        m->failed = true;
    }
    return f;
}

static void close_page(struct making *m, FILE *f)
{
    const bool lost = fflush(f) != 0 || ferror(f);

    if (fclose(f) != 0 || lost)
        m->failed = true;
}

static void make_all(struct making *m)
{
    static const struct {
        const char *name;
        void (*write)(FILE *to);
    } completion[] = {{"vinehand", vh_completion_bash},
                      {"_vinehand", vh_completion_zsh},
                      {"vinehand.fish", vh_completion_fish}};
    FILE *f = open_page(m, "vinehand.1");

    if (f) {
        vh_page_program(f, m->date);
        close_page(m, f);
    }
    f = open_page(m, "vinehand-scenario.5");
    if (f) {
        if (!vh_page_scenario(f, m->date, m->parameters))
            m->failed = true;
        close_page(m, f);
    }
    for (size_t i = 0; i < sizeof completion / sizeof completion[0]; i++) {
        f = open_page(m, completion[i].name);
        if (!f)
            continue;
        completion[i].write(f);
        close_page(m, f);
    }
}

int main(int count, char **words)
{
    struct making m = {.failed = false};
    struct vh_parameters *p = NULL;
    int64_t day;

    if (count != 4 || vh_date_parse(words[2], &day) != VH_OK) {
        fputs("make_pages PARAMS DATE FOLDER\n", stderr);
        return 2;
    }
    if (vh_parameters_read(words[1], &p, NULL) != VH_OK) {
        fprintf(stderr, "make_pages: no parameters in %s\n", words[1]);
        return 2;
    }
    const char *digits = words[2]; /* year-month-day, checked above */
    const int month = (digits[5] - '0') * 10 + digits[6] - '0';
    const int of_month = (digits[8] - '0') * 10 + digits[9] - '0';
    snprintf(m.date, sizeof m.date, "%s %d, %.4s", month_names[month - 1], of_month, digits);
    m.folder = words[3];
    m.parameters = p;
    make_all(&m);
    vh_parameters_free(p);
    return m.failed ? 1 : 0;
}
