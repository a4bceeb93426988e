# climate.awk - an hourly log of a made-up house, from 1 January 2026: even days, or days that
# lengthen and brighten to midsummer. Keys, given as KEY=VALUE before no file at all:
#     day_c night_c       air while it is light, while it is dark
#     light_h dli         hours of light, centred on noon; their light, mol m-2 d-1
#     light_h_winter dli_winter   the same on 21 December; dli and light_h are then those of 21 June
#     co2                 ppm
#     shade               share of light taken
#     warm_from warm_days warm_k   a spell that is warmer by warm_k, from that day on
BEGIN {
    co2 = 400
    for (i = 1; i < ARGC; i++) {
        key = ARGV[i]
        sub(/=.*/, "", key)
        sub(/^[^=]*=/, "", ARGV[i])
        set[key] = ARGV[i] + 0
    }
    if ("co2" in set) co2 = set["co2"]
    split("31 28 31 30 31 30 31 31 30 31 30 31", length_of, " ")
    print "time,t_air_c,par_umol_m2_s,co2_ppm"
    year = 2026; month = 1; day = 1
    for (n = 0; n <= days; n++) {
        write_day(n)
        if (++day <= length_of[month]) continue
        day = 1
        if (++month > 12) { month = 1; year++ }
    }
    exit
}

function write_day(n,    summer, hours, mol, hour, light, warm) {
    summer = 0.5 * (1 + cos(2 * 3.14159265358979 * (n - 171) / 365))
    hours = set["light_h"]; mol = set["dli"]
    if ("light_h_winter" in set) hours = set["light_h_winter"] * (1 - summer) + hours * summer
    if ("dli_winter" in set) mol = set["dli_winter"] * (1 - summer) + mol * summer
    mol *= 1 - set["shade"]
    hours = int(hours / 2 + 0.5) * 2
    warm = n >= set["warm_from"] && n < set["warm_from"] + set["warm_days"] ? set["warm_k"] : 0
    for (hour = 0; hour < 24; hour++) {
        light = hour >= 12 - hours / 2 && hour < 12 + hours / 2
        printf "%d-%02d-%02dT%02d:00,%.3f,%.3f,%g\n", year, month, day, hour,
           (light ? set["day_c"] : set["night_c"]) + warm, light ? mol * 1e6 / 3600 / hours : 0, co2
    }
}
