#include "toml_parts.h"

#include <stdlib.h>
#include <string.h>

#include "vh_text.h"

/* ---- key lines ---- */

/* Whole words up to = or : with blanks between: "wire height" for wire_height. */
static bool guess_blank_in_key(struct vh_toml_parser *p, const char *key)
{
    char mended[VH_TOML_SHOWN_BYTES];
    size_t n = 0;
    const char *q = key;
    for (; q < p->end && (vh_toml_is_key_char(*q) || *q == ' '); q++) {
        if (n + 1 == sizeof mended)
            return false;
        mended[n++] = *q == ' ' ? '_' : *q;
    }
    while (key[n - 1] == ' ') /* the first is a letter of the key */
        n--;
    if (q == p->end || *q != '=')
        return false;
    vh_toml_fail(p, key, "a key has no blanks; write %.*s", (int)n, mended);
    return true;
}

/* The key has been read, no = follows. */
static void fail_after_key(struct vh_toml_parser *p, const char *key, size_t n)
{
    char shown[VH_TOML_SHOWN_BYTES + 4], rest[VH_TOML_SHOWN_BYTES + 4];
    vh_text_shorten(key, n, VH_TOML_SHOWN_BYTES, shown);
    const char c = p->p < p->end ? *p->p : '\n';
    if (c == ':') {
        const char *at = p->p++;
        vh_toml_skip_blanks(p);
        vh_text_shorten(p->p, vh_toml_rest(p, p->p), VH_TOML_SHOWN_BYTES, rest);
        vh_toml_fail(p, at, "a colon behind a key; write %s = %s", shown, rest);
    } else if (c == '.') {
        vh_toml_fail(p, key,
                     "a dotted key is not read; write its table as a header, then the key "
                     "alone");
    } else if (!guess_blank_in_key(p, key)) {
        vh_toml_fail(p, p->p, "= is missing behind %s; write %s = and its value", shown, shown);
    }
}

static void fail_without_key(struct vh_toml_parser *p)
{
    const char c = *p->p;
    if (c == '"' || c == '\'' || vh_toml_curly(p, p->p) > 0)
        vh_toml_fail(p, p->p, "a quoted key is not read; write the key without quotes");
    else if (c == '=')
        vh_toml_fail(p, p->p, "no key before =; write key = value");
    else if (c == ';' || c == '/')
        vh_toml_fail(p, p->p, "a note begins with #");
    else
        vh_toml_fail(p, p->p,
                     "not a line of a scenario; key = value, [table] or # note would be right");
}

/* key = value at p. false: told. */
static bool read_key_line(struct vh_toml_parser *p)
{
    const char *key = p->p;
    while (p->p < p->end && vh_toml_is_key_char(*p->p))
        p->p++;
    const size_t n = (size_t)(p->p - key);
    if (n == 0) {
        fail_without_key(p);
        return false;
    }
    vh_toml_skip_blanks(p);
    if (p->p == p->end || *p->p != '=') {
        fail_after_key(p, key, n);
        return false;
    }
    p->p++;
    vh_toml_skip_blanks(p);
    /* the key is entered before a list takes the parser to later lines, and also when its value is
     * bad */
    struct vh_toml_node *const holder = vh_toml_node_create(p, VH_TOML_TABLE, p->p);
    if (holder == NULL || !vh_toml_entry_add(p, p->table, key, n, holder))
        return false;
    struct vh_toml_entry *const entry = p->table->last;
    p->key = entry->key;
    p->key_n = n;
    struct vh_toml_node *value = vh_toml_value(p, VH_TOML_IN_LINE);
    if (value == NULL)
        return false;
    entry->value = &value->value;
    return vh_toml_line_ends(p, &value->value);
}

/* ---- lines ---- */

static void read_line(struct vh_toml_parser *p)
{
    vh_toml_skip_blanks(p);
    if (vh_toml_at_end(p) || *p->p == '#') {
        vh_toml_next_line(p);
        return;
    }
    if (*p->p == '[') {
        if (!vh_toml_header(p)) {
            /* keys below a bad header are read for their own errors, into a table that nobody sees
             */
            struct vh_toml_node *nowhere = vh_toml_node_create(p, VH_TOML_TABLE, p->line_begin);
            if (nowhere != NULL)
                p->table = nowhere;
        }
    } else {
        (void)read_key_line(p);
    }
    if (p->at_next)
        p->at_next = false;
    else
        vh_toml_next_line(p);
}

static enum vh_status index_lines(struct vh_toml *t, const char *text, size_t n)
{
    size_t lines = 1;
    for (size_t i = 0; i < n; i++)
        lines += text[i] == '\n';
    t->text = malloc(n + 1);
    t->start = malloc(lines * sizeof *t->start);
    if (t->text == NULL || t->start == NULL)
        return VH_NO_MEMORY;
    t->start[0] = 0;
    t->lines = 1;
    for (size_t i = 0; i < n; i++) {
        const bool ends = text[i] == '\n' || text[i] == '\r'; /* a lone CR was refused before */
        t->text[i] = ends ? '\0' : text[i];
        if (text[i] == '\n')
            t->start[t->lines++] = i + 1;
    }
    t->text[n] = '\0';
    return VH_OK;
}

/* The text as a whole, before any line is read: a fault here makes all later messages doubtful. */
static enum vh_status check_text(struct vh_toml *t, const char *text, size_t n,
                                 struct vh_messages *m)
{
    size_t at;
    const enum vh_text_fault fault = vh_text_check(text, n, &at);
    if (fault == VH_TEXT_CLEAN)
        return VH_OK;
    struct vh_place where = {t->name, 1, 0, NULL};
    size_t begin = 0;
    for (size_t i = 0; i < at; i++)
        if (text[i] == '\n') {
            where.line++;
            begin = i + 1;
        }
    where.column = (int)(at - begin) + 1;
    return vh_fail(m, VH_BAD_INPUT, where, "%s", vh_text_fault_message(fault));
}

static enum vh_status parse(struct vh_toml *t, const char *text, size_t n, vh_toml_wants *wanted,
                            struct vh_messages *m)
{
    const struct vh_place whole = {t->name, 0, 0, NULL};
    if (n > VH_TOML_BYTES_MOST)
        return vh_fail(
            m, VH_BAD_INPUT, whole,
            "the file is larger than 1 MiB; a scenario is far smaller: is this the right "
            "file?");
    if (vh_text_is_utf16(text, n))
        return vh_fail(m, VH_BAD_INPUT, whole, "the file is written in UTF-16; save it as UTF-8");
    const size_t mark = vh_text_bom(text, n);
    text += mark;
    n -= mark;
    enum vh_status status = check_text(t, text, n, m);
    if (status == VH_OK)
        status = index_lines(t, text, n);
    if (status != VH_OK)
        return status;
    struct vh_toml_parser p = {.p = text,
                               .end = text + n,
                               .line_begin = text,
                               .line = 1,
                               .toml = t,
                               .m = m,
                               .wanted = wanted};
    t->root = vh_toml_node_create(&p, VH_TOML_TABLE, text);
    if (t->root == NULL)
        return VH_NO_MEMORY;
    p.table = t->root;
    while (p.p < p.end && !p.no_memory && p.errors < VH_TOML_ERRORS_MOST)
        read_line(&p);
    if (p.no_memory)
        return VH_NO_MEMORY;
    return p.errors > 0 ? VH_BAD_INPUT : VH_OK;
}

enum vh_status vh_toml_parse(const char *text, size_t n, const char *shown_name,
                             struct vh_toml **out, struct vh_messages *m)
{
    return vh_toml_parse_known(text, n, shown_name, NULL, out, m);
}

enum vh_status vh_toml_parse_known(const char *text, size_t n, const char *shown_name,
                                   vh_toml_wants *wanted, struct vh_toml **out,
                                   struct vh_messages *m)
{
    *out = NULL;
    struct vh_toml *t = calloc(1, sizeof *t);
    if (t != NULL)
        t->name = malloc(strlen(shown_name) + 1);
    if (t == NULL || t->name == NULL) {
        free(t);
        return vh_fail(m, VH_NO_MEMORY, VH_NOWHERE, "memory is out; close other programs");
    }
    strcpy(t->name, shown_name);
    enum vh_status status = parse(t, text, n, wanted, m);
    if (status == VH_NO_MEMORY)
        vh_fail(m, VH_NO_MEMORY, VH_NOWHERE, "memory is out; close other programs");
    if (status == VH_OK)
        *out = t;
    else
        vh_toml_free(t);
    return status;
}
