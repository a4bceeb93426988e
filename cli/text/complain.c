#include "vh_complain.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "vh_say.h"

enum { MOST_SHOWN = 20, EXCERPT_BEFORE = 50, EXCERPT_BYTES = 76 };

void vh_complain(const char *text)
{
    fputs("vinehand: ", stderr);
    vh_say_safely(stderr, text);
    fputc('\n', stderr);
}

static bool is_continuation(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

/* The part of a line round its column, and a caret under that column. */
static void show_excerpt(const struct vh_message *message)
{
    const char *text = message->excerpt;
    const size_t n = strlen(text);
    size_t at = message->column > 0 ? (size_t)message->column - 1 : 0, from = 0, end;
    char part[EXCERPT_BYTES + 1];

    at = at < n ? at : n;
    if (at > EXCERPT_BEFORE)
        from = at - EXCERPT_BEFORE;
    while (from < at && is_continuation(text[from]))
        from++;
    end = n - from > EXCERPT_BYTES ? from + EXCERPT_BYTES : n;
    while (end < n && end > from && is_continuation(text[end]))
        end--;
    for (size_t i = from; i < end; i++)
        part[i - from] = text[i] == '\t' ? ' ' : text[i];
    part[end - from] = 0;
    fputs("    ", stderr);
    vh_say_safely(stderr, part);
    part[at - from] = 0;
    if (message->column > 0)
        fprintf(stderr, "\n    %*s^", (int)vh_say_width(part), "");
    fputc('\n', stderr);
}

static void show(const struct vh_message *message, bool with_excerpt)
{
    if (message->file) {
        vh_say_safely(stderr, message->file);
        if (message->line > 0)
            fprintf(stderr, ":%" PRId64, message->line);
        if (message->line > 0 && message->column > 0)
            fprintf(stderr, ":%d", message->column);
        fputs(": ", stderr);
    } else {
        fputs("vinehand: ", stderr);
    }
    if (message->severity == VH_WARNING)
        fputs("warning: ", stderr);
    else if (message->severity == VH_NOTE)
        fputs("note: ", stderr);
    vh_say_safely(stderr, message->text);
    fputc('\n', stderr);
    if (with_excerpt && message->excerpt)
        show_excerpt(message);
}

static void show_kind(const struct vh_messages *m, bool errors)
{
    const bool terminal = isatty(STDERR_FILENO) == 1;
    /* The list may hold fewer than were found. */
    const size_t found =
        errors ? vh_messages_count_of(m, VH_ERROR)
               : vh_messages_count_of(m, VH_WARNING) + vh_messages_count_of(m, VH_NOTE);
    size_t shown = 0;

    for (size_t i = 0; i < vh_messages_count(m) && shown < MOST_SHOWN; i++) {
        const struct vh_message *message = vh_messages_at(m, i);

        if ((message->severity == VH_ERROR) == errors) {
            show(message, terminal && errors);
            shown++;
        }
    }
    if (found > shown)
        fprintf(stderr, "%sand %zu more\n", vh_say_is_utf8() ? "\xE2\x80\xA6" : "...",
                found - shown);
}

void vh_complain_messages(const struct vh_messages *m, bool quiet)
{
    if (!quiet)
        show_kind(m, false);
    show_kind(m, true);
}

void vh_progress_line_start(struct vh_progress_line *p, bool quiet)
{
    *p = (struct vh_progress_line){.wanted = !quiet && isatty(STDERR_FILENO) == 1};
    p->wanted = p->wanted && clock_gettime(CLOCK_MONOTONIC, &p->start) == 0;
}

void vh_progress_line_show(struct vh_progress_line *p, double share_done)
{
    struct timespec now;

    if (!p->wanted || clock_gettime(CLOCK_MONOTONIC, &now) != 0)
        return;
    const double waited_s =
        difftime(now.tv_sec, p->start.tv_sec) + (double)(now.tv_nsec - p->start.tv_nsec) / 1e9;
    if (waited_s < 1.0)
        return;
    fprintf(stderr, "\r%3.0f %%", 100.0 * share_done);
    fflush(stderr);
    p->shown = true;
}

void vh_progress_line_end(struct vh_progress_line *p)
{
    if (p->shown)
        fputs("\r     \r", stderr);
    p->shown = false;
}
