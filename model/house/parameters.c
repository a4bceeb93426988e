#include "vh_parameters.h"

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_digest.h"
#include "vh_folder.h"
#include "vh_plant_state.h"

#define CROPS_FOLDER "crops"
#define OTHER_SPELLING "eggplant-" /* of the trade in the United States */
#define OUR_SPELLING "aubergine-"

static enum vh_status read_sources(struct vh_parameters *p, const char *folder,
                                   struct vh_digest *digest, struct vh_messages *m)
{
    char *path = vh_path_join(folder, "sources.csv");
    const enum vh_status status =
        path ? vh_sources_read(path, digest, &p->sources, m) : VH_NO_MEMORY;

    free(path);
    return status;
}

static bool is_told(const struct vh_messages *m, const struct vh_message *message)
{
    for (size_t i = 0; i < vh_messages_count(m); i++) {
        const struct vh_message *other = vh_messages_at(m, i);
        if (other->line == message->line && strcmp(other->text, message->text) == 0 &&
            other->file && message->file && strcmp(other->file, message->file) == 0)
            return true;
    }
    return false;
}

/* Crops share base files: a fault of one is not told again for each crop that stands on it. */
static void tell_new(const struct vh_messages *from, struct vh_messages *to)
{
    for (size_t i = 0; i < vh_messages_count(from); i++) {
        const struct vh_message *message = vh_messages_at(from, i);
        if (!is_told(to, message))
            vh_fail(
                to, VH_BAD_INPUT,
                (struct vh_place){message->file, message->line, message->column, message->excerpt},
                "%s", message->text);
    }
}

/* A plant keeps so many of its days; what looks further back would see later days in their place.
 */
static enum vh_status check_windows(const struct vh_param_set *rows, struct vh_messages *m)
{
    static const char *const names[] = {"flower.window_d", "flower.abort_window_d",
                                        "upkeep.rgr_window_d"};
    const double most_d = VH_HISTORY - 1;
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const struct vh_param_row *row = vh_param_find(rows, names[i]);
        if (!(row->high <= most_d))
            status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                             "%s may be at most %g, for so many days are kept; give it a high of %g"
                             " or less",
                             row->name, most_d, most_d);
    }
    return status;
}

static enum vh_status read_one_crop(struct vh_parameters *p, const char *folder, const char *name,
                                    struct vh_digest *digest, struct vh_messages *m)
{
    size_t fields;
    const struct vh_param_field *field = vh_crop_fields(&fields);
    struct vh_crop_file *file = &p->crop[p->crops];

    file->name = strdup(name);
    struct vh_messages *own = vh_messages_create();
    enum vh_status status = VH_NO_MEMORY;
    if (file->name && own)
        status = vh_param_read_on(p->bases, folder, name, field, fields, p->sources, digest,
                                  &file->crop, &file->rows, own);
    if (status == VH_OK)
        status = check_windows(&file->rows, own);
    tell_new(own, m);
    vh_messages_free(own);
    if (status == VH_OK) {
        p->crops++;
    } else {
        vh_param_set_clear(&file->rows);
        free(file->name);
    }
    return status;
}

static enum vh_status read_crops(struct vh_parameters *p, const char *folder,
                                 struct vh_digest *digest, struct vh_messages *m)
{
    struct vh_names found;
    char *path = vh_path_join(folder, CROPS_FOLDER);
    enum vh_status status = path ? vh_folder_list(path, ".csv", &found, m) : VH_NO_MEMORY;

    if (status != VH_OK) {
        free(path);
        return status;
    }
    if (found.names == 0)
        status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){path, 0, 0, NULL},
                         "holds no crop; put files such as tomato-large.csv there");
    p->crop = calloc(found.names + 1, sizeof *p->crop);
    p->bases = vh_param_bases_new();
    if (!p->crop || !p->bases)
        status = VH_NO_MEMORY;
    for (size_t i = 0; p->crop && p->bases && i < found.names && status != VH_NO_MEMORY; i++) {
        const enum vh_status one = read_one_crop(p, path, found.name[i], digest, m);
        status = one != VH_OK ? one : status;
    }
    vh_names_clear(&found);
    free(path);
    return status;
}

static enum vh_status read_ripening(struct vh_parameters *p, const char *folder,
                                    struct vh_digest *digest, struct vh_messages *m)
{
    char *path = vh_path_join(folder, "off-vine.csv");
    const enum vh_status status =
        path ? vh_ripen_read(path, path, digest, &p->ripen, m) : VH_NO_MEMORY;

    free(path);
    return status;
}

static enum vh_status read_all(struct vh_parameters *p, const char *folder, struct vh_messages *m)
{
    struct vh_digest digest;
    size_t house_fields, work_fields, colour_fields, record_fields, futures_fields, start_fields;
    const struct vh_param_field *house = vh_house_param_fields(&house_fields);
    const struct vh_param_field *work = vh_work_param_fields(&work_fields);
    const struct vh_param_field *colour = vh_colour_fields(&colour_fields);
    const struct vh_param_field *record = vh_record_param_fields(&record_fields);
    const struct vh_param_field *futures = vh_futures_param_fields(&futures_fields);
    const struct vh_param_field *start = vh_start_param_fields(&start_fields);

    vh_digest_init(&digest);
    enum vh_status status = read_sources(p, folder, &digest, m);
    if (status != VH_OK)
        return status;
    /* all files, so that a person sees the troubles of all */
    const enum vh_status part[] = {
        vh_param_read(folder, "defaults", house, house_fields, p->sources, &digest, &p->house,
                      &p->house_rows, m),
        vh_param_read(folder, "work", work, work_fields, p->sources, &digest, &p->work,
                      &p->work_rows, m),
        vh_param_read(folder, "colour-stages", colour, colour_fields, p->sources, &digest,
                      &p->colours, &p->colour_rows, m),
        vh_param_read(folder, "records", record, record_fields, p->sources, &digest, &p->record,
                      &p->record_rows, m),
        vh_param_read(folder, "futures", futures, futures_fields, p->sources, &digest, &p->futures,
                      &p->futures_rows, m),
        vh_param_read(folder, "start", start, start_fields, p->sources, &digest, &p->start,
                      &p->start_rows, m),
        read_crops(p, folder, &digest, m),
        read_ripening(p, folder, &digest, m),
    };
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++)
        status = part[i] != VH_OK ? part[i] : status;
    vh_digest_text(&digest, p->digest);
    return status;
}

enum vh_status vh_parameters_read(const char *folder, struct vh_parameters **out,
                                  struct vh_messages *m)
{
    struct vh_parameters *p = calloc(1, sizeof *p);

    if (!p)
        return VH_NO_MEMORY;
    /* It would end the process. Here and for good, not round each call: there is one for all
     * threads, and houses side by side would put it back under each other. (What the tests ask
     * alone switches it off itself; what it puts back is then this.) */
    gsl_set_error_handler_off();
    p->folder = strdup(folder);
    const enum vh_status status = p->folder ? read_all(p, folder, m) : VH_NO_MEMORY;
    if (status == VH_OK)
        *out = p;
    else
        vh_parameters_free(p);
    return status;
}

void vh_parameters_free(struct vh_parameters *p)
{
    if (!p)
        return;
    free(p->folder);
    vh_sources_free(p->sources);
    vh_param_set_clear(&p->house_rows);
    vh_param_set_clear(&p->work_rows);
    vh_param_set_clear(&p->colour_rows);
    vh_param_set_clear(&p->record_rows);
    vh_param_set_clear(&p->futures_rows);
    vh_param_set_clear(&p->start_rows);
    for (size_t i = 0; i < p->crops; i++) {
        free(p->crop[i].name);
        vh_param_set_clear(&p->crop[i].rows);
    }
    free(p->crop);
    vh_param_bases_free(p->bases);
    free(p);
}

bool vh_parameters_value(const struct vh_parameters *p, const char *crop, const char *name,
                         double *value, double *low, double *high)
{
    const struct vh_crop_file *file = crop ? vh_parameters_crop(p, crop) : NULL;
    const struct vh_param_row *row = file    ? vh_param_find(&file->rows, name)
                                     : !crop ? vh_param_find(&p->start_rows, name)
                                             : NULL;

    if (!row)
        return false;
    *value = row->value;
    if (low)
        *low = row->low;
    if (high)
        *high = row->high;
    return true;
}

const char *vh_parameters_digest(const struct vh_parameters *p)
{
    return p->digest;
}

void vh_parameters_crop_word(const char *word, char *ours, size_t room)
{
    const size_t kind = strlen(OTHER_SPELLING) - 1; /* without the hyphen */

    if (strncmp(word, OTHER_SPELLING, kind) != 0) {
        snprintf(ours, room, "%s", word);
        return;
    }
    const char *rest = word + kind;
    snprintf(ours, room, "%.*s%s", (int)strlen(OUR_SPELLING) - 1, OUR_SPELLING,
             strcmp(rest, "s") == 0 ? "" : rest);
}

const struct vh_crop_file *vh_parameters_crop(const struct vh_parameters *p, const char *name)
{
    const size_t other = strlen(OTHER_SPELLING), ours = strlen(OUR_SPELLING);
    const bool is_other = strncmp(name, OTHER_SPELLING, other) == 0;

    for (size_t i = 0; i < p->crops; i++) {
        const char *known = p->crop[i].name;
        if (strcmp(known, name) == 0)
            return &p->crop[i];
        if (is_other && strncmp(known, OUR_SPELLING, ours) == 0 &&
            strcmp(known + ours, name + other) == 0)
            return &p->crop[i];
    }
    return NULL;
}
