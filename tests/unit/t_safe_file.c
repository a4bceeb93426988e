/* One file of hers, replaced whole or left alone: what another program does in between, and what is
 * no file. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_safe_file.h"

static char folder[] = "/tmp/vinehand-safe-file-XXXXXX";
static char path[100], why[VH_WHY];

static void start(void)
{
    cr_assert(mkdtemp(folder) != NULL);
    snprintf(path, sizeof path, "%s/records.csv", folder);
}

static void stop(void)
{
    unlink(path);
    cr_expect(rmdir(folder) == 0, "something was left beside it");
}

TestSuite(safe_file, .init = start, .fini = stop);

static void put(const char *text)
{
    FILE *f = fopen(path, "w");

    cr_assert(f != NULL);
    fputs(text, f);
    fclose(f);
}

static const char *held(void)
{
    static char text[100];
    FILE *f = fopen(path, "r");

    cr_assert(f != NULL);
    text[fread(text, 1, sizeof text - 1, f)] = '\0';
    fclose(f);
    return text;
}

static enum vh_status replace(const char *old, const char *text)
{
    why[0] = '\0';
    return vh_safe_file_replace(path, old, old ? strlen(old) : 0, text, strlen(text), why);
}

/* "PATH and what is said of it" */
static void said(const char *of_it)
{
    char whole[300];

    snprintf(whole, sizeof whole, "%s %s", path, of_it);
    cr_expect(eq(str, why, whole));
}

Test(safe_file, what_is_as_it_was_read_is_replaced_and_keeps_its_rights)
{
    struct stat sb;

    put("a\n");
    cr_assert(chmod(path, 0640) == 0);
    cr_expect(eq(int, replace("a\n", "a\nb\n"), VH_OK));
    cr_expect(eq(str, (char *)held(), (char *)"a\nb\n"));
    cr_assert(stat(path, &sb) == 0);
    cr_expect(eq(int, sb.st_mode & 07777, 0640));
}

Test(safe_file, what_another_program_changed_meanwhile_is_left_alone)
{
    static const char *const now[] = {"b\n", "a\nb\n", ""}; /* another byte, more, less */

    for (size_t i = 0; i < sizeof now / sizeof *now; i++) {
        put(now[i]);
        cr_expect(eq(int, replace("a\n", "a\nc\n"), VH_BAD_INPUT));
        said("was changed by another program just now; nothing was written, try again");
        cr_expect(eq(str, (char *)held(), (char *)now[i]));
    }
}

Test(safe_file, what_came_meanwhile_is_left_alone_and_what_went_is_not_made_again)
{
    put("theirs\n");
    cr_expect(lt(int, replace(NULL, "ours\n"), VH_OK));
    said("cannot be written: File exists; it is as it was");
    cr_expect(eq(str, (char *)held(), (char *)"theirs\n"));
    cr_assert(unlink(path) == 0);
    cr_expect(eq(int, replace("a\n", "b\n"), VH_NO_FILE));
    said("cannot be written: No such file or directory; it is as it was");
    cr_expect(access(path, F_OK) != 0);
}

Test(safe_file, a_pipe_is_left_alone)
{
    cr_assert(mkfifo(path, 0600) == 0);
    cr_expect(eq(int, replace("a\n", "b\n"), VH_BAD_INPUT));
    said("is no plain file; it is left alone");
}

Test(safe_folder, an_empty_name_is_refused)
{
    cr_expect(eq(int, vh_safe_folder_check("", why), VH_BAD_INPUT));
    cr_expect(eq(str, why, (char *)"--out is empty; name a folder, as in --out out"));
}
