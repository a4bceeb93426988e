"""Seasons of the second reading (second_reading.py) held day by day against what the program writes.

    second_season.py PROGRAM SOURCE WORK [CROP ...]

Each crop stands 150 days with cold, dark, hot, bright and rich spells, gets a second head and is topped; its
fruits are thinned, suckers and leaves taken, what is ripe picked. Six digits are written: half of the last one
and a millionth are allowed. Not read: standing crops, records, bees, the last pick, futures."""
import csv
import datetime
import math
import subprocess
import sys
from pathlib import Path

from second_reading import Plant, clamp

DAYS, FIRST, PLANTS, LIGHT_FACTOR, FEED_EC = 150, datetime.date(2026, 1, 1), 1000, 0.9, 3.1
HEAD_ON, HEADS, TOP_ON = 48, 2, 110
THIN_FROM, FEW = 5, 0.6  # from this truss on fewer are kept, the rest off as marbles
POLLINATE_D, SUCKER_D, LEAF_D, LEAF_MOST, PICK_D = 3, 7, 7, 4, 2
USUAL = 0.8  # of the usual fruit mass of the type
IDLE_D = 7  # work.idle_d: no visits so short before the end
WHOLE = ('tomato-cluster', 'tomato-cherry')  # picked truss by truss
SHOWN = 8  # differences of a crop

SCENARIO = """[house]
name = "Second reading"
latitude_deg = 52
utc_offset_h = 0
light_factor = {light}
[climate]
log = "hours.csv"
[[planting]]
name = "stem"
crop = "{crop}"
plants = {plants}
plants_per_m2 = {per_m2}
set_out = {set_out}
pull_out = {pull_out}
feed_ec_ms_cm = {ec}
usual_fruit_g = {usual}
[planting.pollination]
by = "hand"
every_d = {pollinate}
[planting.suckers]
every_d = {sucker}
[planting.leaves]
every_d = {leaf}
most_per_visit = {leaf_most}
[planting.pick]
every_d = {pick}
{whole}
[[planting.fruits_kept]]
fruits = {kept}
at = "{at}"
{stripped}[[planting.fruits_kept]]
trusses = "{thin_from}-"
fruits = {few}
at = "marble"
[[planting.extra_head]]
from = {head}
heads_per_plant = {heads}
new_stem_age_d = {head_age}
[planting.top]
on = {top}
"""


def read_crop(folder, name):
    rows = {r['name']: r['value'] for r in csv.DictReader(open(folder / f'{name}.csv'))}
    crop = read_crop(folder, rows.pop('base')) if 'base' in rows else {}
    for key, value in rows.items():
        try:
            crop[key] = float(value)
        except ValueError:
            crop[key] = value
    return crop


def hours_of(day):
    """Air, light and CO2 of a day's hours."""
    mean, swing, bright, co2 = 20.5 + 2.0 * math.sin(day / 9.0), 4.0, 700.0, 420.0
    if 18 <= day < 30:  # cold, and dull at first
        mean, bright = 12.0, 60.0 if day < 22 else bright
    if day == 32:  # dark
        bright = 0.0
    if 38 <= day < 48:  # hot
        mean, swing = 28.5, 8.0
    if 60 <= day < 64:  # bright and rich
        mean, swing, bright, co2 = 24.0, 7.0, 1500.0, 1300.0
    if 66 <= day < 78:  # a warm spell: poor pollen, small fruit
        mean = 26.0
    if 84 <= day < 88:  # where the ripening clock goes over from cool to warm
        mean = 15.0 + (day - 84)
    if 97 <= day < 100:  # no fruit reddens
        mean, swing = 30.0, 9.0
    if day >= 118:  # fruit that ripens cool is drier
        mean = 15.5
    t = [round(mean + swing * math.cos((h - 14) * math.pi / 12), 3) for h in range(24)]
    par = [round(bright * math.sin((h - 5) * math.pi / 14), 2) if 5 < h < 19 else 0.0 for h in range(24)]
    return t, par, [co2 - 5 * h for h in range(24)]


def date(day):
    return FIRST + datetime.timedelta(day)


def thin_from(crop):
    return int(max(THIN_FROM, crop['habit.stripped_nodes'] + 1))


def head_age_d(crop):  # new stems of small-fruited crops carry trusses, those of others flower later
    return 10 if crop['habit.usual_fruit_g'] < 150 else -9


def run_program(program, source, folder, name, crop):
    folder.mkdir()
    with open(folder / 'hours.csv', 'w') as f:
        f.write('time,t_air_c,par_umol_m2_s,co2_ppm\n')
        for day in range(DAYS):
            for h, row in enumerate(zip(*hours_of(day))):
                f.write(f'{date(day)}T{h:02d}:00,' + ','.join(map(str, row)) + '\n')
    kept, stripped = crop['habit.fruits_kept'], int(crop['habit.stripped_nodes'])
    (folder / 'scenario.toml').write_text(SCENARIO.format(
        light=LIGHT_FACTOR, crop=name, plants=PLANTS, per_m2=crop['habit.plants_per_m2'], set_out=FIRST,
        pull_out=date(DAYS - 1), ec=FEED_EC, usual=USUAL * crop['habit.usual_fruit_g'], pollinate=POLLINATE_D,
        sucker=SUCKER_D, leaf=LEAF_D, leaf_most=LEAF_MOST,
        pick=PICK_D, whole='whole_truss = true' if name in WHOLE else '', kept=kept, at=crop['habit.thin_at'],
        stripped=f'[[planting.fruits_kept]]\ntrusses = "1-{stripped}"\nfruits = 0\n' if stripped else '',
        thin_from=thin_from(crop), few=FEW * kept, head=date(HEAD_ON), heads=HEADS, head_age=head_age_d(crop),
        top=date(TOP_ON)))
    subprocess.run([program, 'forecast', folder, '--params', source / 'params', '--members', '1', '--today',
                    '2028-01-01', '--out', folder / 'out', '--quiet'], check=True)


def acts_on(day, crop):
    stage = {at: crop[f'habit.thin_stage_{at}'] for at in ('bud', 'pea', 'marble')}
    kept, is_idle = crop['habit.fruits_kept'], DAYS - 1 - day < IDLE_D

    def keep(truss):
        if truss >= thin_from(crop):
            return FEW * kept, stage['marble']
        return 0.0 if truss <= crop['habit.stripped_nodes'] else kept, stage[crop['habit.thin_at']]

    def leaves_off(leaves):
        due = day % LEAF_D == 0 and not is_idle
        return clamp(leaves - crop['habit.leaves_kept'], 0, LEAF_MOST) if due else 0.0
    return {'keep': keep, 'leaves_off': leaves_off, 'reached': min(1, crop['flower.receptive_d'] / POLLINATE_D),
            'pull': 0.0 if day % SUCKER_D or is_idle else 1 - crop['habit.suckers_overlooked'],
            'heads': HEADS if day == HEAD_ON else 1, 'head_age_d': head_age_d(crop), 'top': day == TOP_ON}


DAY = ['assimilate_g_m2', 'maintenance_g_m2', 'maintenance_unpaid_g_m2', 'demand_g_m2', 'supply_share', 'reserve_g_m2',
       'fruit_dm_g_m2', 'leaf_dm_g_m2', 'stem_dm_g_m2']
STEM = ['stem_cm', 'leaves', 'lai_m2_m2', 'flowering_truss']
TRUSS = ['flowers', 'set', 'kept', 'aborted', 'days_flower_to_ripe', 'fruit_g', 'dry_matter_pct']
LEAST_PICK = 1.0  # fruits of all plants
CRUMB = 1e-6  # fruits: fewer are a share from far out in a table


def read_again(crop, whole):
    """The same tables by the second reading: a dictionary a row."""
    plant = Plant(crop, whole, LIGHT_FACTOR, FEED_EC, USUAL * crop['habit.usual_fruit_g'])
    tables = {'plant_days': [], 'stem': [], 'picks': [], 'trusses': []}
    for day in range(DAYS):
        account, stem = plant.step(hours_of(day), acts_on(day, crop))
        tables['plant_days'].append(dict(zip(DAY, account)))
        tables['stem'].append(dict(zip(STEM, stem)))
        if day % PICK_D == 0 or day == DAYS - 1:
            fruits, g = plant.pick()
            stems = PLANTS * plant.heads
            tables['picks'].append({'date': str(date(day)), 'fruits': fruits * stems, 'kg': g * stems / 1000})
    for t in plant.trusses:
        row = dict(zip(TRUSS[:4], (t.flowers, t.set, t.kept / t.thin_share, t.aborted)))
        row['days_flower_to_ripe'] = t.first - t.opened if t.first is not None else 0.0
        if t.picked_n > CRUMB:
            row.update(fruit_g=t.picked_g / t.picked_n, dry_matter_pct=100 * t.picked_dm / t.picked_g)
        tables['trusses'].append(row)
    return tables


def is_same(theirs, ours):
    if theirs == 0 and abs(ours) < 1e-6:  # less than a millionth is written as nothing
        return True
    digit = 10.0 ** (math.floor(math.log10(abs(theirs))) - 5) if theirs else 0.0
    return abs(theirs - ours) <= 0.5 * digit + 1e-6 * max(1e-2, abs(ours))


def compare(name, out, ours):
    wrong = 0

    def tell(text):
        if wrong < SHOWN:
            print(f'WRONG: {name} {text}')
    for table, rows in ours.items():
        theirs = list(csv.DictReader(open(out / f'{table}.csv')))
        if table == 'picks':  # hardly anything has no row
            dates = {row['date'] for row in theirs}
            rows = [row for row in rows if row['date'] in dates or row['fruits'] >= LEAST_PICK]
        if len(theirs) != len(rows) or not rows:
            tell(f'{table}: {len(theirs)} rows, the second reading has {len(rows)}')
            wrong += 1
        for number, (their, our) in enumerate(zip(theirs, rows), 1):
            for column in [c for c in our if c != 'date']:
                value = float(their[column] or 0)
                if not is_same(value, our[column]):
                    tell(f'{table} row {number} {their.get("date", "")} {column}: {value:g}, '
                         f'the second reading has {our[column]:.8g}')
                    wrong += 1
    return wrong


def main():
    program, source, work = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
    folder = source / 'params' / 'crops'
    names = sys.argv[4:] or sorted(p.stem for p in folder.glob('*.csv'))
    wrong = 0
    for name in names:
        crop = read_crop(folder, name)
        run_program(program, source, work / name, name, crop)
        wrong += compare(name, work / name / 'out', read_again(crop, name in WHOLE))
    print(f'{len(names)} crops, {wrong} numbers differ')
    return 1 if wrong or not names else 0


if __name__ == '__main__':
    sys.exit(main())
