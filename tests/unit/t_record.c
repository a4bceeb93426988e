/* What the records reader takes and leaves out, on files whose right answer is plain. */
#include "record_trial.h"
#include "vh_visits.h"

TestSuite(record, .init = record_begin, .fini = record_end);

Test(record, long_rows_are_read_in_date_order)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-12,cucumbers,fruits_left,3,12,6,\n"
                                  "2026-07-01,slicers,picked_kg,12.5,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 2));
    cr_assert(eq(dbl, at(0)->value, 12.5));
    cr_assert(eq(int, at(0)->item, VH_RECORD_PICKED_KG));
    cr_assert(eq(sz, at(1)->planting, 1));
    cr_assert(eq(int, at(1)->truss, 12));
    cr_assert(eq(int, at(1)->of, 6));
    cr_assert(eq(i64, at(1)->line, 2));
    cr_assert(eq(i64, house.records.last_day, day("2026-07-12")));
}

Test(record, a_wide_line_gives_one_record_for_each_filled_cell)
{
    cr_assert(eq(int,
                 read_text("\xEF\xBB\xBF"
                           "Date;Planting;picked_lb;done_lower;note\r\n"
                           "2026-07-01;slicers;10;;\r\n2026-07-02;slicers;;0,5;windy"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 2));
    cr_assert(ieee_ulp_eq(dbl, at(0)->value, 4.5359237, 2)); /* the pound, exact by definition */
    cr_assert(eq(int, at(1)->item, VH_RECORD_DONE));
    cr_assert(eq(int, at(1)->task, VH_TASK_LOWER));
    cr_assert(eq(dbl, at(1)->value, 0.5));
}

Test(record, no_more_stems_are_looked_at_than_stand)
{
    house.planting[0].plants = 10;
    house.planting[0].heads_per_plant = 2;
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-01,slicers,stem_mm,11,,20,\n"
                                  "2026-07-02,slicers,fruit_g,180,,30,\n"),
                 VH_OK));
    cr_assert(eq(int, read_text(HEADER "2026-07-01,slicers,stem_mm,11,,21,\n"), VH_BAD_INPUT));
    cr_assert(is_told(VH_ERROR, 2, "`of` is 21, but slicers is 10 plants with 20 stems"));
    cr_assert(eq(int,
                 read_text("date,planting,stem_mm,leaves_on_stem,of\n"
                           "2026-07-01,slicers,11,15,21\n"),
                 VH_BAD_INPUT));
    cr_assert(eq(sz, vh_messages_count_of(messages, VH_ERROR), 2), "once a line");
}

Test(record, headers_and_items_of_hers_are_mapped)
{
    map("planting", "Bed");
    map("picked_kg", "Harvest");
    cr_assert(eq(int, read_text("date,Bed,item,value\n2026-07-01,slicers,Harvest,3\n"), VH_OK));
    cr_assert(eq(int, at(0)->item, VH_RECORD_PICKED_KG));
    house.records.map[1].used = false;
    cr_assert(eq(int, read_text("date,Bed,Harvest\n2026-07-01,slicers,3\n"), VH_OK));
    cr_assert(eq(int, read_text("date,Bed,picked_kg\n2026-07-01,slicers,3\n"), VH_BAD_INPUT));
    cr_assert(is_told(VH_ERROR, 0, "no header `Harvest`"));
    cr_assert(eq(sz, house.records.rows, 0));
}

Test(record, every_wrong_row_is_told_by_its_line)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-01,slicer,picked_kg,3,,,\n"
                                  "2026-07-01,slicers,picked,3,,,\n"
                                  "2026-02-01,slicers,picked_kg,3,,,\n"
                                  "2026-07-01,slicers,picked_kg,-3,,,\n"
                                  "2026-07-01,slicers,picked_kg,lots,,,\n"
                                  "14/7/2026,slicers,picked_kg,3,,,\n"
                                  "7/8/2026,slicers,picked_kg,3,,,\n"
                                  "2026-07-01,slicers,done_lower,1.5,,,\n"
                                  "2026-07-01,slicers,fruits_left,3,0,,\n"
                                  "2026-07-01,slicers,stem_in,90,,,\n"
                                  "2026-07-01,slicers,picked_kg,\"3,5\",,,\n"),
                 VH_BAD_INPUT));
    cr_assert(is_told(VH_ERROR, 2, "did you mean slicers?"));
    cr_assert(is_told(VH_ERROR, 3, "did you mean picked_kg?"));
    cr_assert(is_told(VH_ERROR, 4, "before slicers was set out (2026-02-20)"));
    cr_assert(is_told(VH_ERROR, 5, "never below 0"));
    cr_assert(is_told(VH_ERROR, 6, "no number"));
    cr_assert(is_told(VH_ERROR, 7, "write 2026-07-14"));
    cr_assert(is_told(VH_ERROR, 8, "write 2026-08-07 or 2026-07-08"));
    cr_assert(is_told(VH_ERROR, 9, "a share such as 0.5"));
    cr_assert(is_told(VH_ERROR, 10, "`truss` is 0"));
    cr_assert(is_told(VH_ERROR, 11, "stem_cm or stem_mm"));
    cr_assert(is_told(VH_ERROR, 12, "write 3.5"));
    cr_assert(eq(sz, vh_messages_count_of(messages, VH_ERROR), 11));
}

Test(record, rows_after_today_and_rows_twice_are_counted_and_not_used)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-20,slicers,picked_kg,12,,,\n"
                                  "2026-07-10,slicers,picked_kg,12,,,\n"
                                  "2026-07-10,slicers,picked_kg,12,,,\n"
                                  "2026-07-10,slicers,fruits_left,3,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 1));
    cr_assert(is_told(VH_WARNING, 2, "rows after today: 1"));
    cr_assert(is_told(VH_WARNING, 4, "rows equal to an earlier row: 1"));
    cr_assert(is_told(VH_WARNING, 5, "rows of one truss without its number: 1"));
}

Test(record, picks_are_sums_since_the_last_entry)
{
    struct vh_record_picks *p;
    size_t n;

    cr_assert(eq(int,
                 read_text(HEADER "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-08,slicers,picked_kg,6,,,\n"
                                  "2026-05-08,slicers,picked_kg,2,,,plums' crate\n"
                                  "2026-05-08,slicers,picked_fruits,40,,,\n"
                                  "2026-05-12,slicers,picked_kg,0,,,\n"
                                  "2026-06-02,slicers,picked_kg,30,,,\n"),
                 VH_OK));
    cr_assert(eq(int, vh_record_picks_of(&house.records, 0, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(sz, n, 4));
    cr_assert(eq(i64, p[0].from, day("2026-05-02"))); /* usually 4 days lie between two entries */
    cr_assert(eq(i64, p[1].from, day("2026-05-06")));
    cr_assert(eq(dbl, p[1].kg, 8));
    cr_assert(eq(dbl, p[1].fruits, 40));
    cr_assert(eq(dbl, p[2].kg, 0)); /* nothing ripe: zero, not unknown */
    cr_assert(isnan(p[2].fruits));
    cr_assert(eq(i64, p[3].from, day("2026-05-13")));
    cr_assert(eq(int, p[3].gap, 1)); /* an entry may be missing */
    cr_assert(eq(int, p[3].kg_doubt, 0));
    cr_assert(eq(i64, p[3].stands_from, day("2026-05-30")));
    cr_assert(eq(int, p[1].gap, 0));
    cr_assert(eq(i64, p[1].stands_from, day("2026-05-06")));
    cr_assert(
        eq(dbl, vh_record_picked_kg(&house.records, 0, day("2026-05-04"), day("2026-05-10")), 13));
    cr_assert(isnan(vh_record_picked_kg(&house.records, 0, day("2026-05-18"), day("2026-05-24"))));
    free(p);
    cr_assert(eq(int, vh_record_picks_of(&house.records, 1, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(sz, n, 0));
}

Test(record, a_first_pick_never_reaches_before_set_out)
{
    struct vh_record_picks *p;
    size_t n;

    cr_assert(eq(int, read_text(HEADER "2026-02-22,slicers,picked_kg,5,,,\n"), VH_OK));
    cr_assert(eq(int, vh_record_picks_of(&house.records, 0, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(i64, p[0].from, day("2026-02-20")));
    free(p);
}

Test(record, work_done_takes_the_place_of_the_plan)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-03,slicers,done_sucker,1,,,\n"
                                  "2026-07-10,slicers,done_sucker,0,,,\n"
                                  "2026-07-10,slicers,done_sucker,0.5,,,\n"
                                  "2026-07-04,slicers,lowered_cm,40,,,\n"
                                  "2026-07-11,slicers,lowered_cm,0,,,\n"
                                  "2026-07-05,slicers,fruits_left,3,12,,\n"
                                  "2026-07-05,slicers,minutes_leaf,30,,,\n"),
                 VH_OK));
    const struct vh_done *done = house.planting[0].policy.done;
    cr_assert(done != NULL);
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_SUCKER, day("2026-07-03"), 0), 1));
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_SUCKER, day("2026-07-10"), 1), 0.5));
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_LOWER, day("2026-07-11"), 1), 0));
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_LOWER, day("2026-07-04"), 1), 1));
    cr_assert(eq(sz, done->lowered_rows, 1));
    cr_assert(eq(dbl, done->lowered[0].cm, 40));
    cr_assert(eq(int, done->fruits[0].truss, 12));
    cr_assert(eq(dbl, done->minutes[0].minutes, 30));
    cr_assert(eq(i64, done->last_day, day("2026-07-11")));
    cr_assert(eq(int, house.planting[1].policy.done->any, 0));
}

Test(record, more_stems_looked_at_narrow_what_differs_between_stems_alone)
{
    const struct vh_record_params *p = &params->record;
    struct vh_record a = {.item = VH_RECORD_FLOWERING_TRUSS, .value = 14, .of = 1}, b = a;

    b.of = 100;
    cr_assert(lt(dbl, 2 * vh_record_sd(p, &b), vh_record_sd(p, &a)));
    cr_assert(lt(dbl, p->error[VH_RECORD_FLOWERING_TRUSS].own, vh_record_sd(p, &b)));
    a.of = 0; /* silent: as many as the parameter says */
    b.of = (int)p->stems_silent;
    cr_assert(ieee_ulp_eq(dbl, vh_record_sd(p, &a), vh_record_sd(p, &b), 2));
    a.item = VH_RECORD_PICKED_KG;
    b = a;
    b.of = 100;
    cr_assert(eq(dbl, vh_record_sd(p, &a), vh_record_sd(p, &b)));
    a.item = VH_RECORD_DONE;
    cr_assert(isnan(vh_record_sd(p, &a)));
}

Test(record, entries_as_frequent_as_the_plan_are_its_pick_days)
{
    const struct vh_planting *p = &house.planting[0];

    house.planting[0].policy.pick = (struct vh_rhythm){.every_d = 5};
    cr_assert(eq(int,
                 read_text(HEADER "2026-04-20,slicers,flowering_truss,5,,,\n"
                                  "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-09,slicers,picked_kg,6,,,\n"
                                  "2026-05-14,slicers,picked_kg,6,,,\n"
                                  "2026-05-18,slicers,picked_kg,6,,,\n"
                                  "2026-05-27,slicers,picked_kg,9,,,\n"),
                 VH_OK));
    const char *const picked[] = {"2026-05-05", "2026-05-09", "2026-05-14", "2026-05-18",
                                  "2026-05-21", /* of the plan: nine days were too long */
                                  "2026-05-26", "2026-05-27", "2026-06-01", "2026-06-06"};
    size_t k = 0;
    /* a rhythm from 1 April on: but she noted a flower on 20 April, and no pick until May */
    for (int64_t d = day("2026-04-20"); d <= day("2026-06-08"); d++) {
        const bool wanted = k < sizeof picked / sizeof *picked && d == day(picked[k]);
        k += wanted;
        cr_expect(eq(int, vh_pick_planned(&p->policy, day("2026-04-01"), d), wanted),
                  "day %lld after 20 April", (long long)(d - day("2026-04-20")));
    }
    cr_expect(vh_pick_planned(&p->policy, day("2026-04-01"), day("2026-04-16")));
}

/* She looked on the 9th and wrote 0: nothing came off, and what is ripe waits for the 14th. */
Test(record, nothing_picked_is_no_pick_day)
{
    struct vh_planting *p = &house.planting[0];

    p->policy.pick = (struct vh_rhythm){.every_d = 5};
    cr_assert(eq(int,
                 read_text(HEADER "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-09,slicers,picked_kg,0,,,\n"
                                  "2026-05-14,slicers,picked_kg,6,,,\n"),
                 VH_OK));
    for (int64_t d = day("2026-05-05"); d <= day("2026-05-14"); d++)
        cr_expect(eq(int, vh_pick_planned(&p->policy, day("2026-04-01"), d),
                     d == day("2026-05-05") || d == day("2026-05-14")),
                  "day %lld of May", (long long)(d - day("2026-04-30")));
}

/* Twice the usual time lies before a 0: no pick of the plan was made in it, for nothing came of
 * any. After longer an entry may be missing. */
Test(record, nothing_picked_in_a_long_time_is_no_pick_of_the_plan)
{
    struct vh_planting *p = &house.planting[0];

    p->policy.pick = (struct vh_rhythm){.every_d = 3};
    for (int late = 0; late <= 1; late++) {
        cr_assert(eq(int,
                     read_text(late ? HEADER "2026-05-02,slicers,picked_kg,5,,,\n"
                                             "2026-05-05,slicers,picked_kg,5,,,\n"
                                             "2026-05-08,slicers,picked_kg,5,,,\n"
                                             "2026-05-17,slicers,picked_kg,0,,,\n"
                                    : HEADER "2026-05-02,slicers,picked_kg,5,,,\n"
                                             "2026-05-05,slicers,picked_kg,5,,,\n"
                                             "2026-05-08,slicers,picked_kg,5,,,\n"
                                             "2026-05-14,slicers,picked_kg,0,,,\n"),
                     VH_OK));
        int picks = 0;
        for (int64_t d = day("2026-05-09"); d <= day(late ? "2026-05-17" : "2026-05-14"); d++)
            picks += vh_pick_planned(&p->policy, day("2026-04-01"), d);
        cr_expect(eq(int, picks, late ? 2 : 0));
    }
}

Test(record, one_weighing_of_several_picks_leaves_the_plan)
{
    house.planting[0].policy.pick = (struct vh_rhythm){.every_d = 2};
    cr_assert(eq(int,
                 read_text(HEADER "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-12,slicers,picked_kg,6,,,\n"
                                  "2026-05-19,slicers,picked_kg,6,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.planting[0].done.picks, 0));
}

Test(record, blanks_around_cells_and_headers_do_not_matter)
{
    cr_assert(eq(int,
                 read_text("\n\r\n\" \tDATE \t\",planting,\"\t Item\",value,note\n"
                           "\" 2026-07-12 \",\"\tslicers \",\" Picked_KG \",\"\t12.5 \t\",\n"
                           "2026-07-13,slicers,picked_kg,\" \t \",\n"),
                 VH_OK),
              "%s", vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
    cr_assert(eq(sz, house.records.rows, 1));
    cr_assert(eq(dbl, at(0)->value, 12.5));
}

Test(record, a_date_may_have_the_time_of_day_behind_it)
{
    cr_assert(eq(int, read_text(HEADER "2026-07-12T23:30,slicers,picked_kg,12.5,,,\n"), VH_OK));
    cr_assert(eq(i64, at(0)->day, day("2026-07-12")));
}

/* Each row alone, with a part of the one complaint. */
Test(record, rare_cells_are_refused)
{
    static const struct {
        const char *row, *part;
    } bad[] = {
        {"2026-13-12,slicers,picked_kg,1,,,", "\"2026-13-12\" is no date"},
        {"12/7/26,slicers,picked_kg,1,,,", "write 2026-07-12 or 2026-12-07"},
        {"123456/7/26,slicers,picked_kg,1,,,", "\"123456/7/26\" is no date"},
        {"12/7,slicers,picked_kg,1,,,", "\"12/7\" is no date"},
        {"12/7.26,slicers,picked_kg,1,,,", "\"12/7.26\" is no date"},
        {"12x7x26,slicers,picked_kg,1,,,", "\"12x7x26\" is no date"},
        {"12/x/26,slicers,picked_kg,1,,,", "\"12/x/26\" is no date"},
        {"12/7/26 10:00,slicers,picked_kg,1,,,", "write 2026-07-12 or 2026-12-07"},
        {"12/7/26x,slicers,picked_kg,1,,,", "\"12/7/26x\" is no date"},
        {",slicers,picked_kg,1,,,", "the date is missing"},
        {"2026-07-12,,picked_kg,1,,,", "the planting is missing"},
        {"2026-07-12,slicers,,1,,,", "the item is missing"},
        {"2026-07-12,slicers,fruits_left,1,x,,", "`truss` is x"},
        {"2026-07-12,slicers,fruits_left,1,0,,", "`truss` is 0"},
        {"2026-07-12,slicers,fruits_left,1,1001,,", "`truss` is 1001"},
        {"2026-07-12,slicers,fruits_left,1,1.5,,", "`truss` is 1.5"},
        {"2026-07-12,slicers,1st pick?,1,,,", "no item is called `1st pick?`"},
        {"2026-07-12,slicers,picked_[kg,1,,,", "no item is called `picked_[kg`"},
        {"2026-07-12,slicers,PICKED_QQQQQQQQ,1,,,", "no item is called `PICKED_QQQQQQQQ`"},
        {"2026-07-12,slicers,picked_kg,31lb,,,", "no number; write 31 as picked_lb"},
        {"2026-07-12,slicers,picked_kg,31.5 LBS,,,", "no number; write 31.5 as picked_lb"},
        {"2026-07-12,slicers,picked_kg,31kg,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 stone,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 kilograms,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 fruits,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,lots,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 l2,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_fruits,lots,,,", "digits alone, as in 12,"},
        {"2026-07-12,slicers,minutes_pick,31lb,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,nothing,,,", "write 0 for none"},
    };

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char text[300];
        vh_messages_free(messages);
        messages = vh_messages_create();
        snprintf(text, sizeof text, HEADER "%s\n", bad[i].row);
        cr_expect(eq(int, read_text(text), VH_BAD_INPUT), "%s", text);
        cr_expect(eq(sz, vh_messages_count(messages), 1), "%s", text);
        cr_expect(is_told(VH_ERROR, 2, bad[i].part), "%s: %s", text,
                  vh_messages_at(messages, 0)->text);
    }
}

Test(record, rare_headers)
{
    static const struct {
        const char *text, *part;
    } bad[] = {
        {"date,item,value\n2026-07-12,picked_kg,1\n", "no column `planting`"},
        {"day,planting,item,value\n2026-07-12,slicers,picked_kg,1\n", "no column `date`"},
        {"date,planting,item\n2026-07-12,slicers,picked_kg\n", "no column `value`"},
        {"date,planting,picked_kg,picked_lb\n2026-07-12,slicers,1,\n", "hold the same"},
        {"date,planting,minutes_lower,minutes_lower\n2026-07-12,slicers,1,\n", "hold the same"},
        {"date,date,planting,item,value\n2026-07-12,,slicers,picked_kg,1\n", "hold the same"},
        {"\n\n", "nothing but blanks"},
    };
    char text[400];

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        cr_expect(eq(int, read_text(bad[i].text), VH_BAD_INPUT), "%s", bad[i].text);
        cr_expect(is_told(VH_ERROR, 0, bad[i].part), "%s", bad[i].text);
    }
    /* two tasks, two notes, a column without a name, one far too long */
    snprintf(text, sizeof text, "date,planting,minutes_lower,minutes_pick,note,note,,%0100d\n%s", 0,
             "2026-07-12,slicers,10,20,,,,\n");
    cr_assert(eq(int, read_text(text), VH_OK));
    cr_assert(eq(sz, house.records.rows, 2));
    cr_assert(ne(int, at(0)->task, at(1)->task));
    cr_assert(eq(int,
                 read_text("date,planting,item,value,,also\n2026-07-12,slicers,picked_kg,1,,\n"),
                 VH_OK));
    cr_expect(is_told(VH_WARNING, 1, "column `also` is none of ours"));
    map("also_mine", "also"); /* a line of the map that names no column of ours */
    cr_assert(eq(int, read_text("date,planting,item,value,also\n2026-07-12,slicers,picked_kg,1,\n"),
                 VH_OK));
    map("picked_kg", "Harvest"); /* an item's word of hers that has not come yet */
    cr_assert(eq(int, read_text("date,planting,item,value,also\n2026-07-12,slicers,stem_cm,1,\n"),
                 VH_OK));
}

/* Counted by rows, however many values a row has; after today it may lie after the pull-out too. */
Test(record, wide_rows_after_today)
{
    cr_assert(eq(int,
                 read_text("date,planting,picked_kg,stem_cm\n2026-08-01,slicers,10,200\n"
                           "2026-12-01,slicers,10,200\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 0));
    cr_expect(is_told(VH_WARNING, 0, "rows after today: 2 (last at line 3)"), "%s",
              vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
}

Test(record, a_file_that_is_gone_is_told)
{
    house.records.file.path = strdup("/nowhere/records.csv");
    cr_expect(eq(int, vh_records_read(&house, &params->record, NULL, messages), VH_BAD_INPUT));
    cr_expect(is_told(VH_ERROR, 0, "there is no such file"));
}

Test(record, a_new_file_has_her_names)
{
    map("date", "Day");
    map("value", "How much, or \"many\"");
    map("value", "Amount; all");
    char *const header = vh_record_new_header(house.records.map, 3);
    cr_assert(eq(str, header, "Day,planting,item,\"Amount; all\",truss,of,note\n"));
    free(header);
}

/* What differs in one thing alone is no repetition. */
Test(record, what_stands_twice_is_the_same_in_all)
{
    static char text[30000] = "date,planting,item,value,truss,of\n";
    size_t n = strlen(text);

    cr_assert(eq(int,
                 read_text("date,planting,item,value,truss,of\n"
                           "2026-07-12,slicers,fruits_left,3,12,6\n"
                           "2026-07-11,slicers,fruits_left,3,12,6\n"
                           "2026-07-12,cucumbers,fruits_left,3,12,6\n"
                           "2026-07-12,slicers,fruits_set,3,12,6\n"
                           "2026-07-12,slicers,fruits_left,2,12,6\n"
                           "2026-07-12,slicers,fruits_left,3,11,6\n"
                           "2026-07-12,slicers,fruits_left,3,12,5\n"
                           "2026-07-12,slicers,minutes_pick,3,,\n"
                           "2026-07-12,slicers,minutes_lower,3,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 9));
    /* a copy is looked for among the 200 rows before */
    n += (size_t)snprintf(text + n, sizeof text - n, "2026-07-12,slicers,stem_cm,99,,\n");
    for (int i = 0; i < 250; i++)
        n += (size_t)snprintf(text + n, sizeof text - n, "2026-07-12,slicers,stem_cm,%d,,\n",
                              100 + i);
    snprintf(text + n, sizeof text - n,
             "2026-07-12,slicers,stem_cm,99,,\n"
             "2026-07-12,slicers,stem_cm,99,,\n");
    cr_assert(ge(int, read_text(text), VH_OK));
    cr_assert(eq(sz, house.records.rows, 252));
}

Test(record, heads_that_come_later_count_among_the_stems)
{
    struct vh_head_change later = {.heads_per_plant = 2};

    house.planting[0].policy.heads = &later;
    house.planting[0].policy.head_changes = 1;
    const enum vh_status status = read_text(
        HEADER "2026-07-12,slicers,stem_cm,100,,96,\n2026-07-13,slicers,stem_cm,100,,97,\n");
    house.planting[0].policy.heads = NULL;
    house.planting[0].policy.head_changes = 0;
    cr_expect(eq(int, status, VH_BAD_INPUT));
    cr_expect(is_told(VH_ERROR, 3, "`of` is 97"));
    cr_expect(eq(sz, vh_messages_count_of(messages, VH_ERROR), 1));
}

/* Asked for again on each day after it, as long as the parameter says. */
Test(record, what_was_left_undone_is_asked_for_until_it_is_given_up)
{
    static const char text[] = HEADER "2026-07-06,slicers,done_sucker,0,,,\n";
    struct vh_record_params p = params->record;
    const int64_t undone = day("2026-07-06");

    for (int days = 3; days < 15; days++) {
        p.given_up_d = (double)days;
        cr_assert(eq(int, vh_records_read_memory(&house, &p, text, strlen(text), messages), VH_OK));
        const struct vh_done *done = &house.planting[0].done;
        cr_expect(eq(i64, vh_done_again(done, VH_TASK_SUCKER, undone + days), undone + days));
        cr_expect(eq(i64, vh_done_again(done, VH_TASK_SUCKER, undone + days + 1), INT64_MAX));
    }
}

/* The mean of whole numbers on stems whose clocks lie anywhere within the two trusses about it. */
Test(record, whole_trusses_are_counted_half_a_truss_behind_the_clock)
{
    enum { STEMS = 1000 };

    for (double clock = 2.0; clock < 3.0; clock += 0.125) {
        double sum = 0.0;
        for (int i = 0; i < STEMS; i++)
            sum += floor(clock + (i + 0.5) / STEMS - 0.5);
        cr_expect(epsilon_eq(dbl, vh_record_counted_truss(clock), sum / STEMS, 1e-2));
    }
    cr_expect(eq(dbl, vh_record_counted_truss(0.2), 0.0));
    cr_expect(isnan(vh_record_counted_truss(NAN)));
}

/* Each item but minutes and done ends in "_" and its unit or what is counted, for which another
 * unit is put where a number has its own: "31lb" of picked_kg is answered with picked_lb. */
Test(record, each_item_ends_in_what_it_is_counted_in)
{
    for (int item = 0; item < VH_RECORD_MINUTES; item++) {
        const char *name = vh_item_kind((enum vh_record_item)item)->name, *own = strrchr(name, '_');
        cr_expect(own != NULL && own > name && own[1] != '\0', "%s", name);
    }
}
