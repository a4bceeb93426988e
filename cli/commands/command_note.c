#include "vh_command.h"

#include <stdio.h>
#include <stdlib.h>

#include "vh_asked_words.h"
#include "vh_complain.h"
#include "vh_safe_file.h"
#include "vh_session.h"
#include "vh_start.h"

/* Reads the scenario without its records: they may be absent yet, and the entry is held against the
 * file as it will be. */
static enum vh_exit read_house(struct vh_session *s, const struct vh_arguments *a)
{
    struct vh_arguments calm = *a;
    enum vh_exit result;

    calm.quiet = true; /* what is doubtful in the climate has nothing to do with the entry */
    result = vh_session_locate(s, &calm);
    s->options.no_records = true;
    return result == VH_EXIT_DONE ? vh_session_read(s, &calm) : result;
}

/* "2026-06-26", or "26 June" as start takes it: of the year that lies nearest to today. */
static enum vh_exit read_day(const struct vh_session *s, const char *text, int64_t *day)
{
    struct vh_start_answers answers;
    char why[VH_START_WHY];

    *day = s->options.today;
    if (!text || vh_date_parse(text, day) == VH_OK)
        return VH_EXIT_DONE;
    vh_start_nothing(&answers, s->options.today, VH_SAY_METRIC);
    if (!vh_start_read(VH_START_SET_OUT, text, &answers, why) || !answers.knows_set_out)
        return vh_arguments_wrong("--date %s is no date; write year-month-day, as in --date "
                                  "2026-07-14, or --date \"14 July\"",
                                  text);
    *day = answers.set_out;
    return VH_EXIT_DONE;
}

static enum vh_exit propose(const struct vh_session *s, const struct vh_arguments *a, int64_t day,
                            struct vh_record_change **change)
{
    const struct vh_record_entry entry = {.planting = a->note.planting,
                                          .item = a->note.item,
                                          .value = a->note.value,
                                          .day = day,
                                          .truss = a->note.truss,
                                          .of = a->note.of};
    struct vh_messages *messages = vh_messages_create();
    const enum vh_status status =
        messages ? vh_records_note(s->scenario, &entry, change, messages) : VH_NO_MEMORY;

    if (messages)
        vh_complain_messages(messages, a->quiet);
    if (status < 0 && (!messages || vh_messages_count_of(messages, VH_ERROR) == 0))
        vh_complain(vh_status_text(status));
    vh_messages_free(messages);
    return vh_session_exit(status);
}

static enum vh_exit write_change(const struct vh_record_change *c)
{
    char why[VH_WHY];
    const enum vh_status status =
        vh_safe_file_replace(c->path, c->old_bytes, c->old_n, c->bytes, c->n, why);

    if (status != VH_OK)
        vh_complain(why);
    return vh_session_exit(status);
}

static void say(const struct vh_record_change *c)
{
    vh_say_safely(stdout, c->shown);
    printf(", line %lld%s: ", (long long)c->line,
           c->filled       ? ", filled"
           : !c->old_bytes ? ", a new file"
                           : "");
    vh_say_safely(stdout, c->text);
    putchar('\n');
}

enum vh_exit vh_command_note(const struct vh_arguments *a)
{
    struct vh_session s;
    struct vh_record_change *change = NULL;
    enum vh_exit result = read_house(&s, a);
    int64_t day = 0;

    if (result == VH_EXIT_DONE)
        result = read_day(&s, a->note.date, &day);
    if (result == VH_EXIT_DONE)
        result = propose(&s, a, day, &change);
    if (change)
        result = write_change(change);
    if (change && result == VH_EXIT_DONE && !a->quiet)
        say(change);
    vh_record_change_free(change);
    vh_session_clear(&s);
    return result;
}
