#include "vh_asked_words.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "vinehand.h"

enum { TRUSS_MOST = 1000, SHOWN_ROOM = 200 };

/* A .toml file, or a folder that holds scenario.toml. */
static bool is_scenario(const char *word)
{
    const size_t n = strlen(word);
    char path[4096];
    struct stat sb;

    if (stat(word, &sb) != 0)
        return false;
    if (!S_ISDIR(sb.st_mode))
        return n > 5 && strcmp(word + n - 5, ".toml") == 0;
    return snprintf(path, sizeof path, "%s/scenario.toml", word) < (int)sizeof path &&
           stat(path, &sb) == 0;
}

static bool looks_a_number(const char *word)
{
    return word[strspn(word, "+-.,")] >= '0' && word[strspn(word, "+-.,")] <= '9';
}

/* PLANTING ITEM VALUE, even where a house in a folder here is called like the planting: the items
 * have a _ in them, the names of plantings seldom. */
static bool is_whole_note(const char *const word[VH_ASKED_WORDS], int words)
{
    return words == VH_ASKED_WORDS - 1 && strchr(word[1], '_') && looks_a_number(word[2]);
}

/* " my-house", " \"my house\"": as it is typed, with the blank before it. "" for none. */
static const char *typed(const char *word, char shown[SHOWN_ROOM])
{
    const char *mark = word && strpbrk(word, " \t") ? "\"" : "";

    shown[0] = 0;
    if (word)
        snprintf(shown, SHOWN_ROOM, " %s%.100s%s", mark, word, mark);
    return shown;
}

/* What a value of the item may look like. */
static const char *value_like(const char *item)
{
    return strncmp(item, "done_", 5) == 0 ? "1" : "14.2";
}

/* One to three words, or three and no value among them: which one was forgotten? */
static enum vh_exit note_lacks(const char *scenario, const char *const rest[], int n)
{
    char house[SHOWN_ROOM], planting[SHOWN_ROOM], item[SHOWN_ROOM], value[SHOWN_ROOM];

    typed(scenario, house);
    if (n == 0)
        return vh_arguments_wrong("note wants a planting, an item and a value, as in vinehand "
                                  "note%s slicers picked_kg 14.2",
                                  house);
    if (looks_a_number(rest[n - 1]))
        return vh_arguments_wrong("the planting or the item is missing before %.60s; as in "
                                  "vinehand note%s slicers picked_kg%s",
                                  rest[n - 1], house, typed(rest[n - 1], value));
    if (n == 1)
        return vh_arguments_wrong("the item and the value are missing; as in vinehand note%s%s "
                                  "picked_kg 14.2",
                                  house, typed(rest[0], planting));
    return vh_arguments_wrong("the value is missing; write it last, as in vinehand note%s%s%s %s",
                              house, typed(rest[0], planting), typed(rest[1], item),
                              value_like(rest[1]));
}

enum vh_exit vh_take_note(const char *const word[VH_ASKED_WORDS], int words, struct vh_arguments *a)
{
    enum { WANTED = VH_ASKED_WORDS - 1 };
    const bool is_full = words == VH_ASKED_WORDS;
    const bool has_scenario = is_full || (words > 0 && words <= WANTED && is_scenario(word[0]) &&
                                          !is_whole_note(word, words));
    const char *const *rest = word + has_scenario;

    if (words > VH_ASKED_WORDS)
        return vh_arguments_wrong("note takes a scenario, a planting, an item and a value, no more "
                                  "words; a name with blanks stands in quotation marks, as in "
                                  "vinehand note \"early slicers\" picked_kg 14.2");
    for (int i = 0; i < words; i++)
        if (!*word[i])
            return vh_arguments_wrong("the planting, the item or the value is empty; write all "
                                      "three, as in vinehand note slicers picked_kg 14.2");
    if (words - has_scenario < WANTED)
        return note_lacks(has_scenario ? word[0] : NULL, rest, words - has_scenario);
    a->scenario = has_scenario ? word[0] : NULL;
    if (has_scenario && strcmp(word[0], "-") == 0)
        return vh_arguments_wrong("note writes beside a scenario that lies on the disk; name its "
                                  "file or folder");
    a->note.planting = rest[0];
    a->note.item = rest[1];
    a->note.value = rest[2];
    return VH_EXIT_DONE;
}

/* Two words of which the last is neither a truss nor a day, or one that is a number alone. */
static enum vh_exit explain_lacks(const char *const word[VH_ASKED_WORDS], int words)
{
    const bool has_scenario = words > 1;
    const char *last = word[words - 1];
    char house[SHOWN_ROOM], planting[SHOWN_ROOM];

    typed(has_scenario ? word[0] : NULL, house);
    if (looks_a_number(last))
        return vh_arguments_wrong("the planting is missing before truss %.60s; as in vinehand "
                                  "explain%s slicers %.60s",
                                  last, house, last);
    return vh_arguments_wrong("the truss is missing; write it last, as in vinehand explain%s%s 12",
                              house, typed(last, planting));
}

enum vh_exit vh_take_explain(const char *const word[VH_ASKED_WORDS], int words,
                             struct vh_arguments *a)
{
    enum { SCENARIO_PLANTING_TRUSS = 3 };
    const char *last = words > 0 && words <= VH_ASKED_WORDS ? word[words - 1] : "";
    uint64_t truss;

    if (words == 0)
        return vh_arguments_wrong("explain wants a name, as in vinehand explain "
                                  "leaf.potential_area_m2; a planting and a truss, as in slicers "
                                  "12; or a market day");
    for (int i = 0; i < words && i < VH_ASKED_WORDS; i++)
        if (!*word[i])
            return vh_arguments_wrong(
                "the name to explain is empty; write one, as in vinehand explain set_out");
    if (words <= 2 && vh_date_parse(last, &a->explain.day) == VH_OK) {
        a->explain.has_day = true;
        a->scenario = words == 2 ? word[0] : NULL;
        return VH_EXIT_DONE;
    }
    const bool is_whole = vh_arguments_whole(last, 1, TRUSS_MOST, &truss);
    if ((words == 1 && is_whole) || (words == 2 && is_scenario(word[0])))
        return explain_lacks(word, words);
    if (words == 1) {
        a->name = word[0];
        return VH_EXIT_DONE;
    }
    if (words > SCENARIO_PLANTING_TRUSS || !is_whole)
        return vh_arguments_wrong(
            "%.60s is no truss or market day; explain wants a name, [SCENARIO] PLANTING TRUSS as "
            "in slicers 12, or [SCENARIO] DATE as in 2026-07-18",
            words > SCENARIO_PLANTING_TRUSS ? word[SCENARIO_PLANTING_TRUSS] : last);
    a->explain.truss = (int)truss;
    a->explain.planting = word[words - 2];
    a->scenario = words == SCENARIO_PLANTING_TRUSS ? word[0] : NULL;
    return VH_EXIT_DONE;
}
