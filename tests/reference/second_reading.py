"""The average stem of any crop and its day, written a second time: plain Python from model.md and from the
equations in the headers of model/plant/, not from their C. second_season.py holds the two together.

Where the program does more than model.md the equation is that of the header: thinner stems of hungry plants
(vh_share.h), thinner leaves in the shade and the thickest ones (vh_leaf.h), light from the floor (vh_light.h),
fruit of few seeds (vh_flower.h), scatter that grows from the first truss (vh_clock.h), stretched stems of a dense
stand (vh_stem.h), the fastest sucker (vh_sucker.h), drier fruit below 18 degC (vh_fruit.h)."""
import math

SECONDS, CURVE_STEPS, FGP_STEPS = 3600, 1024, 40  # the last two: vh_fruit.h, vh_day.h
LEAVES = 280  # more than any stem here makes
STAGE = {'breaker': .89, 'turning': .92, 'pink': .96, 'light-red': 1.0, 'red': 1.04}


def clamp(x, low, high):
    return low if x < low else high if x > high else x


def phi(x):
    return 0.5 * math.erfc(-x / math.sqrt(2.0))


class Truss:
    def __init__(self, **of):
        self.stage = self.rad = self.rad_d = self.warm = self.pace = self.cd = self.young = 0.0
        self.dm = self.off = self.off_mass = self.picked_n = self.picked_dm = self.picked_g = 0.0
        self.aborted, self.first, self.last, self.log_rad, self.thin_share = 0.0, None, None, 0.0, 1.0
        self.__dict__.update(of)


class Plant:
    def __init__(self, crop, picks_whole, light_factor, feed_ec, usual_g):
        self.whole, self.light_factor, self.ec, self.usual_g = picks_whole, light_factor, feed_ec, usual_g
        g = self.g = crop.__getitem__
        self.by_mass, self.by_node = g('fruit.pick_by') == 'mass', g('truss.clock_by') == 'node'
        n = self.clock = self.made = self.brought = g('habit.seedling_leaves')
        self.gone, self.heads, self.day, self.most, self.topped = 0.0, 1.0, 0, math.inf, False
        self.m2, self.lacking = [0.0] * LEAVES, [0.0] * LEAVES
        for i in range(1, LEAVES):
            if i < n + g('leaf.born_at'):
                self.m2[i] = self.potential(i) * self.expanded(n - i + g('leaf.born_at'))
        self.leaf = sum(self.m2) / g('leaf.seed_m2_g')
        self.stem = self.leaf * (1 - g('leaf.seed_dm_share')) / g('leaf.seed_dm_share')
        self.cm, self.reserve, self.last_unit = n * g('stem.seedling_internode_cm'), 0.0, 0.0
        self.trusses, self.shoots, self.cleared = [], {}, 0
        self.rgr, self.ratio, self.mean, self.light = [], [], [], None
        self.was, self.late = None, lambda number: 1.0
        self.n_flowers = g('flower.flowers') * (usual_g / g('habit.usual_fruit_g')) ** g('flower.mass_exponent')
        if not self.by_mass:
            low, high = g('share.fgp_low_c'), g('share.fgp_high_c')
            ref = self.days_to_ripe(g('share.fgp_ref_c'))
            self.fgp_c, self.fgp_step = low, (high - low) / FGP_STEPS
            self.fgp = [self.days_to_ripe(low + i * self.fgp_step) / ref
                        for i in range(FGP_STEPS + 1)]
            self.curve = [math.exp(-math.exp(-g('fruit.curve_b') * (i / CURVE_STEPS - g('fruit.curve_s0'))))
                          for i in range(CURVE_STEPS + 1)]

    # ---- leaves
    def potential(self, i):
        g = self.g
        return g('leaf.potential_area_m2') * min(1, g('leaf.seed_first_share') + g('leaf.seed_share_step') * i)

    def expanded(self, age):  # integral of sin^2(pi age/12)/6
        n = self.g('leaf.expand_plastochrons')
        if age <= 0 or age >= n:
            return 0.0 if age <= 0 else 1.0
        return age / n - math.sin(2 * math.pi * age / n) / (2 * math.pi)

    # ---- clocks
    def flowering(self):
        g = self.g
        ahead = self.clock - g('truss.leaves_below_first') - g('truss.leaves_ahead')
        return min(1 + ahead / g('truss.leaves_per_truss'), self.most)

    def leaf_rate(self, t24, dli):
        g = self.g
        heat = clamp((g('truss.stop_c') - t24) / (g('truss.stop_c') - g('truss.fall_c')), 0, 1)
        if self.by_node:
            share = 1 + g('node.per_k') * (t24 - g('node.ref_c')) + g('node.per_mol') * (dli - g('node.ref_mol_m2_d'))
            cold = clamp((t24 - g('node.base_c')) / (g('node.full_c') - g('node.base_c')), 0, 1)
            return g('node.level_per_d') * max(share, g('node.least_share')) * cold * heat
        low, high, b = g('truss.low_c'), g('truss.high_c'), g('truss.b_per_d')
        at = clamp(t24, low, high)
        fr = g('truss.a_per_d') + b * math.log(at) + g('truss.c_per_d_truss') * max(1, self.flowering())
        fr += b / at * (min(t24, g('truss.flat_c')) - at)  # along the tangent
        return g('truss.leaves_per_truss') * max(fr, 0) * heat

    def ripening(self, s, t, log_rad, number):
        g, s = self.g, clamp(s, 0, 1)
        cool = g('clock.cool_a_per_d') + g('clock.cool_b_per_d') * t
        share = clamp((t - g('clock.blend_c')) / (g('clock.low_c') - g('clock.blend_c')), 0, 1)
        if share <= 0:
            return max(0.0, cool)
        poly = sum(g(f'clock.c{k}_per_d') * s ** k for k in range(4))
        warm = (g('clock.a_per_d') + g('clock.rad_per_d') * log_rad + g('clock.truss_per_d') * number +
                math.log(min(t, g('clock.high_c')) / g('clock.ref_c')) * poly)
        return max(0.0, share * warm + (1 - share) * cool)

    def std_rate(self, s, t):
        return self.ripening(s, t, math.log(self.g('clock.std_rad_mj_m2_d')), self.g('clock.std_truss'))

    def days_to_ripe(self, t, n=400):  # Simpson
        f = [1 / self.std_rate(i / n, t) for i in range(n + 1)]
        return (f[0] + f[n] + 4 * sum(f[1:n:2]) + 2 * sum(f[2:n:2])) / (3 * n)

    def at_curve(self, s):
        x = clamp(s, 0, 1) * CURVE_STEPS
        i = min(int(x), CURVE_STEPS - 1)
        return self.curve[i] + (self.curve[i + 1] - self.curve[i]) * (x - i)

    # ---- flowers and fruits
    def flowers(self, t24, reached):
        g, history = self.g, [t24] + self.mean[::-1]
        f_poll = g('flower.unvisited_share') + (1 - g('flower.unvisited_share')) * reached
        supply = [r for back, r in enumerate(self.ratio[::-1], 1)
                  if g('flower.supply_to_d') <= back <= g('flower.supply_from_d')]
        r = sum(supply) / len(supply) if supply else 1.0
        f_supply = min(1, r / g('flower.supply_full'))
        seeded = 1.0
        if g('flower.heat_by') == 'day':
            f_t = 1 - (1 - g('flower.day_least')) * clamp(
                (t24 - g('flower.day_full_c')) / (g('flower.day_least_c') - g('flower.day_full_c')), 0, 1)
        else:
            total = weights = 0.0
            for j in range(int(g('flower.window_d')) + 1):
                away = j - g('flower.peak_d')
                w = max(0, 1 - (away / g('flower.before_d') if away > 0 else -away / g('flower.after_d')))
                total, weights = total + w * history[min(j, len(history) - 1)], weights + w
            f_t = self.line(total / weights)
            least_at = g('flower.seeded_hot_from' if total / weights > g('flower.t3_c') else 'flower.seeded_from')
            poor = (g('flower.seeded_full') - f_t) / (g('flower.seeded_full') - least_at)
            seeded = 1 - (1 - g('flower.seeded_least')) * clamp(poor, 0, 1)
        return min(1, g('flower.set_max') * f_t * f_poll * f_supply), seeded

    def line(self, c):
        x = [self.g(f'flower.t{k}_c') for k in range(1, 6)]
        y = [self.g(f'flower.f{k}') for k in range(1, 6)]
        if c <= x[0] or c >= x[4]:
            return y[0] if c <= x[0] else y[4]
        k = max(k for k in range(4) if x[k] <= c)
        return y[k] + (y[k + 1] - y[k]) * (c - x[k]) / (x[k + 1] - x[k])

    def weight(self, position):
        g = self.g
        x1, w1, x2, w2 = (g(f'fruit.knot{k}_{of}') for k in (1, 2) for of in ('position', 'weight'))
        if position <= x1:
            return 1 + (w1 - 1) * (position - 1) / (x1 - 1)
        return w1 + (w2 - w1) * (min(position, x2) - x1) / (x2 - x1)

    def weights(self, n):
        def cumulated(m):
            return sum(self.weight(k + 1) * min(1, m - k) for k in range(math.ceil(m)))
        norm = self.g('fruit.weight_norm')
        return cumulated(n) * norm / cumulated(norm)

    def truss_weights(self, truss, n):  # fruits of an average stem hang on a share `on` of the stems
        return truss.on * self.weights(n / truss.on) if truss.on > 0 else 0.0

    def dm_content(self, truss):
        g = self.g
        mean = truss.warm / truss.age if truss.age > 0 else g('fruit.dm_content_ref_c')
        warmth = 1 + g('fruit.dm_content_per_k') * (mean - g('fruit.dm_content_ref_c')) + \
            g('fruit.dm_content_cool_per_k') * min(0, mean - g('fruit.dm_content_cool_c'))
        return (g('fruit.dm_content_20') * clamp(warmth, g('fruit.dm_content_low'), g('fruit.dm_content_high')) *
                (1 + g('fruit.dm_content_per_ec') * (self.ec - g('fruit.ec_ref_ms_cm'))))

    def open(self, before, after, was, now, keep):
        g, number = self.g, len(self.trusses) + 1
        while after > before and number <= after:
            part = clamp((number - before) / (after - before), 0, 1)
            share, seeded = (a + part * (b - a) for a, b in zip(was, now))
            blur = min(1, g('truss.run_on_leaves') / g('truss.leaves_per_truss'))
            on = 1.0 if not self.topped else clamp((self.most - number) / blur, 0, 1)
            rule, thin_stage = keep(number)
            rule, flowers = on * rule, on * self.n_flowers
            at_bud = thin_stage <= 0
            ruled = min(rule, flowers)
            n_set = (ruled if self.by_node and at_bud else flowers) * share
            kept, old = min(n_set, ruled * share if self.by_node else rule), self.late(number)
            t = Truss(number=number, opened=self.day + part, flowers=flowers, set=n_set, kept=old * kept,
                      fruits=old * (kept if at_bud else n_set), on=old * on, seeded=seeded, age=-part,
                      thin=thin_stage, thin_share=old)
            t.weights = self.truss_weights(t, t.fruits)
            self.trusses.append(t)
            number += 1

    def thin_now(self, t, before, after):  # the fruits that go lose their growth
        left = self.truss_weights(t, t.kept) / t.weights if t.weights > 0 else 1.0
        t.dm, t.weights, t.fruits = t.dm * left, t.weights * left, t.kept
        t.asks = before + after * left
        t.stays = (before * left + after * left) / t.asks if t.asks > 0 else 1.0

    def hang(self, t):
        return t.fruits > 0 and t.off < 1

    def age(self, t24, w):
        """A day older; what each truss asks."""
        g = self.g
        for t in self.trusses:
            t.asks, t.stays = 0.0, 1.0
            if not self.hang(t):
                continue
            part = 1 + t.age if t.age < 0 else 1.0
            t.age = max(t.age, 0) + part
            t.warm, t.pace = t.warm + part * t24, t.pace + part * w['std']
            t.cd, t.young = t.cd + part * w['growth_cd'], t.young + part * w['young_cd']
            (self.age_sized if self.by_mass else self.age_staged)(t, t24, w, part)

    def age_sized(self, t, t24, w, part):
        g, content, on = self.g, self.dm_content(t), t.fruits * (1 - t.off)
        t.content, fresh = content, t.dm / (on * content)
        cap = g('fruit.cap_g')
        to = cap / (1 + (cap / max(fresh, g('fruit.start_g')) - 1) *
                    math.exp(-g('fruit.growth_per_cd') * w['growth_cd'] * w['cold']))
        t.asks = max(0, to - fresh) * content * on * part
        thin = t.thin * g('fruit.oldest_cd')
        before = t.cd - part * w['growth_cd']
        if t.kept < t.fruits and before < thin <= t.cd:
            at = (thin - before) / (t.cd - before)
            self.thin_now(t, at * t.asks, (1 - at) * t.asks)

    def age_staged(self, t, t24, w, part):
        g = self.g
        counted = min(part, g('clock.rad_window_d') - t.rad_d)
        if counted > 0:
            t.rad, t.rad_d = t.rad + counted * w['dli'] / g('clock.mol_per_mj'), t.rad_d + counted
            t.log_rad = math.log(max(t.rad / t.rad_d, g('clock.rad_least_mj_m2_d')))
        gain = part * w['slow'] * self.ripening(t.stage, t24 + g('clock.fruit_over_air_k'), t.log_rad, t.number)
        to_breaker = max(0, STAGE['breaker'] - t.stage)
        if gain > to_breaker:
            gain = to_breaker + (gain - to_breaker) * w['red']
        potential = (g('fruit.mass_factor') * self.usual_g * g('fruit.dm_content_20') *
                     w['fgp'] * w['cold'] * t.seeded * (1 - t.off) * t.weights)
        grown = [self.at_curve(s) for s in (t.stage, t.thin, t.stage + gain)]
        t.asks = potential * (grown[2] - grown[0])
        first = STAGE[g('habit.pick_colour')] - t.stage
        if t.kept < t.fruits and t.stage < t.thin <= t.stage + gain:
            self.thin_now(t, potential * (grown[1] - grown[0]), potential * (grown[2] - grown[1]))
        each = max(1, t.fruits / t.on)
        last = first + self.behind(t) * (each - 1)
        if gain > 0 and t.first is None and gain >= first:
            t.first = self.day + clamp(first / gain, 0, 1)
        if gain > 0 and t.last is None and gain >= max(first, last):
            t.last = self.day + clamp(last / gain, 0, 1)
        t.stage += gain

    def behind(self, t):
        return self.g('clock.last_fruit_d') * (t.pace / t.age if t.age > 0 else 0.0)

    # ---- suckers
    def shoot_cd_and_demand(self, cd, rate, cold):
        g, demand = self.g, 0.0
        if g('sucker.start_g') <= 0:
            return 0.0
        for i in range(1, LEAVES):
            late = self.clock + g('leaf.born_at') - i
            if late < 0:
                break
            if i not in self.shoots:
                on = (1 - clamp(self.brought + g('leaf.born_at') - (i - 1), 0, 1)) * \
                    clamp(self.made + 1 + g('leaf.born_at') - i, 0, 1)
                passed = clamp(late / rate, 0, 1) if rate > 0 else 1.0
                self.shoots[i] = {'w': 0.0, 'on': on, 'cd': -cd * (1 - passed)}
            s = self.shoots[i]
            if i == self.cleared + 1 and s['on'] <= 1e-6:
                self.cleared, s['on'], s['w'] = i, 0.0, 0.0  # less than a shoot on a million stems: forgotten
            if i <= self.cleared:
                continue
            grows = cd
            if s['w'] == 0:  # a bud still
                s['cd'] += cd
                grows, s['gain'] = s['cd'] - g('sucker.start_cd'), 0.0
                if grows <= 0:
                    continue
                s['w'] = g('sucker.start_g')
            warmth = grows * cold
            s['gain'] = min(s['w'] * (math.exp(g('sucker.growth_per_cd') * warmth) - 1),
                            g('sucker.fastest_g_cd') * warmth)
            s['own'] = min(g('sucker.own_most'), s['w'] / g('sucker.own_at_g'))
            demand += s['on'] * s['gain'] * (1 - s['own'])
        return demand

    def pull(self, share):
        g, m2 = self.g, 0.0
        for s in self.shoots.values():
            if s['w'] <= 0:
                continue
            cm = g('sucker.length_cm') * math.sqrt(s['w'] / g('sucker.length_at_g'))
            long_enough = clamp(0.5 - (g('sucker.pulled_cm') - cm) / g('sucker.pull_width_cm'), 0, 1)
            s['on'] *= 1 - share * long_enough
            m2 += s['on'] * g('sucker.leaf_share') * max(0, s['w'] - g('sucker.start_g')) * g('sucker.leaf_m2_g')
        return m2

    # ---- a day
    def assimilate(self, t, par, co2, lai, shoot_lai):
        g, sums = self.g, 0.0
        k, m = g('light.extinction'), g('light.leaf_transmission')
        passed = math.exp(-k * (lai + shoot_lai))
        for temp, light, c in zip(t, par, co2):
            c, warm = min(c, g('light.co2_cap_ppm')), temp - g('light.gamma_ref_c')
            gamma = max(g('light.gamma_least_ppm'), g('light.gamma0_ppm') + g('light.gamma1_ppm_k') * warm +
                        g('light.gamma2_ppm_k2') * warm * warm)
            t1, t2, t3, t4 = (g(f'light.t{i}_c') for i in (1, 2, 3, 4))
            f_t = clamp(min((temp - t1) / (t2 - t1), (t4 - temp) / (t4 - t3)), 0, 1)
            if light <= 0 or lai <= 0 or f_t <= 0 or c <= gamma:
                continue
            i = light * self.light_factor * (1 - g('light.reflected')) * (1 + g('light.floor_reflected') * passed)
            alpha, pm = g('light.alpha0') * (c - gamma) / (c + 2 * gamma), g('light.tau_umol_m2_s_ppm') * c * f_t
            sums += pm / k * math.log((alpha * k * i + (1 - m) * pm) / (alpha * k * i * passed + (1 - m) * pm))
        return sums * g('light.g_ch2o_per_umol') * SECONDS * (lai / (lai + shoot_lai) if lai > 0 else 0)

    def step(self, hours, acts):
        g, (t, par, co2) = self.g, hours
        t24, dli = sum(t) / 24, sum(par) * SECONDS / 1e6 * self.light_factor

        def over(base):
            return sum(max(0, x - base) for x in t) / 24

        def hot(start, width):
            return sum(clamp((x - start) / width, 0, 1) for x in t) / 24
        w = {'dli': dli, 'growth_cd': over(g('fruit.growth_base_c')), 'young_cd': over(g('flower.abort_base_c')),
             'slow': 1 - g('clock.hot_slow') * hot(g('clock.hot_from_c'), g('clock.hot_width_k')),
             'red': 1 - hot(g('clock.red_from_c') - g('clock.fruit_over_air_k'), g('clock.red_width_k')),
             'cold': clamp((t24 - g('share.cold_from_c')) / g('share.cold_width_k') + 1, 0, 1),
             'fgp': 1.0, 'std': self.std_rate(1, t24)}
        if not self.by_mass:
            x = clamp((t24 - self.fgp_c) / self.fgp_step, 0, FGP_STEPS)
            i = min(int(x), FGP_STEPS - 1)
            w['fgp'] = self.fgp[i] + (self.fgp[i + 1] - self.fgp[i]) * (x - i)
        leaves_off = acts['leaves_off'](self.made - self.gone)  # counted in the morning
        stems = g('habit.plants_per_m2') * self.heads
        shoots = self.pull(acts['pull'])
        fruit_dm = sum(x.dm for x in self.trusses if self.hang(x))
        body = self.leaf + self.stem
        made = self.assimilate(t, par, co2, sum(self.m2) * stems, shoots * stems)

        self.clock_before = self.clock
        before, rate = self.flowering(), self.leaf_rate(t24, dli) * w['slow']
        new = 0.0 if self.topped else rate
        self.clock, self.made = self.clock + rate, self.made + new
        now = self.flowers(t24, acts['reached'])
        self.open(before, self.flowering(), self.was or now, now, acts['keep'])
        self.was = now
        self.age(t24, w)
        asks_fruit = sum(x.asks for x in self.trusses)

        recent = self.ratio[-int(g('share.hunger_window_d')):]
        r = sum(recent) / len(recent) if recent else 1.0
        leaf_part = g('leaf.dm_share')
        if self.topped:
            unit, share = g('share.thickening') * self.last_unit, leaf_part
        else:
            asks = leaf_part + (1 - leaf_part) * min(1, r) ** g('share.stem_hunger')
            unit = self.last_unit = g('share.unit_g') * asks * rate / g('truss.leaves_per_truss') * w['fgp'] * w['cold']
            share = leaf_part / asks
        asks_shoots = self.shoot_cd_and_demand(over(g('sucker.base_c')), rate, w['cold'])

        recent = self.rgr[-int(g('upkeep.rgr_window_d')):] or [g('upkeep.rgr_start_per_d')]
        warmth = sum(g('upkeep.q10') ** ((x - g('upkeep.ref_c')) / 10) for x in t) / 24
        upkeep = stems * warmth * (1 - math.exp(-g('upkeep.growth_d') * max(0, sum(recent) / len(recent)))) * (
            g('upkeep.fruit_per_d') * fruit_dm + g('upkeep.leaf_per_d') * self.leaf +
            g('upkeep.stem_per_d') * self.stem)
        paid = min(upkeep, made + self.reserve)
        free = made + self.reserve - paid
        fruit_cost, other = g('upkeep.fruit_cost'), g('upkeep.other_cost')
        demand = stems * (fruit_cost * asks_fruit + other * (unit + asks_shoots))
        ratio = min(free / demand, g('share.ratio_most')) if demand > 0 else g('share.ratio_most')
        fed = min(1, ratio)
        left = max(0, free - demand) if ratio >= 1 else 0
        self.reserve = min(left, g('upkeep.reserve_most_g_m2'))
        units = fed * unit + (left - self.reserve) / other / stems
        for x in self.trusses:
            x.dm += fed * x.asks * x.stays
        for s in self.shoots.values():
            if s['w'] > 0:
                s['w'] += s['gain'] * (s['own'] + (1 - s['own']) * fed)

        leaf = self.grow_leaves(share * units, dli)
        self.leaf, self.stem = self.leaf + leaf, self.stem + units - leaf
        self.drop(w['young_cd'], ratio)
        lit = [x for x, p in zip(t, par) if p > g('stem.light_hour_umol_m2_s')]
        dark = [x for x, p in zip(t, par) if p <= g('stem.light_hour_umol_m2_s')]
        dif = sum(lit) / len(lit) - sum(dark) / len(dark) if lit and dark else 0.0
        self.cm += new * self.internode(dif, dli, ratio, stems)
        grown = units + fed * asks_fruit
        self.rgr.append(grown / (fruit_dm + body))
        self.mean.append(t24)
        self.ratio.append(ratio)
        account = [made, paid, upkeep - paid, demand, fed, self.reserve, fed * asks_fruit * stems, leaf * stems,
                   (units - leaf) * stems]
        self.take_leaves(leaves_off)
        if acts['heads'] != 1:
            self.more_heads(acts['heads'], acts['head_age_d'], (self.clock - self.brought) / (self.day + 1))
        if acts['top'] and not self.topped:
            runs_on = g('truss.run_on_leaves') / g('truss.leaves_per_truss')
            self.topped, self.most = True, self.flowering() + runs_on + 0.5 * min(1, runs_on)
        self.day += 1
        return account, [self.cm, self.made - self.gone, sum(self.m2) * g('habit.plants_per_m2') * self.heads,
                         max(0, self.flowering())]

    def internode(self, dif, dli, ratio, stems):
        g = self.g
        half, light = g('stem.dif_half_k'), max(dli, g('stem.dli_least_mol_m2_d')) / g('stem.dli_ref_mol_m2_d')
        fed, crowd = g('stem.supply_0') + g('stem.supply_1') * min(1, ratio), stems / g('stem.stand_ref_m2')
        return (g('stem.internode_cm') * (1 + g('stem.dif_per_k') * clamp(dif - g('stem.dif_ref_k'), -half, half)) *
                clamp(light ** g('stem.dli_exponent'), g('stem.dli_low'), g('stem.dli_high')) *
                clamp(fed, g('stem.supply_low'), g('stem.supply_high')) *
                clamp(crowd ** g('stem.stand_exponent'), g('stem.stand_low'), g('stem.stand_high')))

    def grow_leaves(self, leaf, dli):
        g, born = self.g, self.g('leaf.born_at')
        self.light = dli if self.light is None else self.light + (dli - self.light) / g('leaf.thin_window_d')
        thin = g('leaf.thinnest_m2_g') * (max(self.light, g('leaf.thin_least_mol_m2_d')) /
                                          g('leaf.thin_ref_mol_m2_d')) ** -g('leaf.thin_exponent')
        rate = self.clock - self.clock_before
        want = [0.0] * LEAVES
        for i in range(1, LEAVES):
            age = self.clock - i + born
            there = clamp(self.made + born - (i - 1), 0, 1) * clamp(i - self.gone, 0, 1) * (1 - self.lacking[i])
            want[i] = there * self.potential(i) * (self.expanded(age) - self.expanded(age - rate))
        area = sum(self.m2)
        room = max(0, (self.leaf + leaf) * thin - area)
        part = min(1, room / sum(want)) if sum(want) > 0 else 1.0
        self.m2 = [a + part * b for a, b in zip(self.m2, want)]
        return leaf - clamp(self.leaf + leaf - sum(self.m2) / g('leaf.thickest_m2_g'), 0, leaf)

    def drop(self, young_cd, ratio):
        g = self.g
        if g('flower.abort_per_cd') <= 0:
            return
        recent = (self.ratio + [ratio])[-int(g('flower.abort_window_d')):]
        r5 = sum(recent) / len(recent)
        hazard = g('flower.abort_per_cd') / (1 + math.exp((r5 - g('flower.abort_mid')) / g('flower.abort_width')))
        for t in self.trusses:
            passed = young_cd * min(t.age, 1)
            x = min(passed, g('flower.abort_for_cd') - (t.young - passed))
            if t.fruits > 0 and x > 0:
                stay = math.exp(-hazard * x)
                t.aborted += t.fruits * (1 - stay)
                t.kept *= stay if t.kept < t.fruits else 1
                t.fruits, t.weights, t.dm = t.fruits * stay, t.weights * stay, t.dm * stay

    def take_leaves(self, count):
        area, until, taken = sum(self.m2), min(self.gone + count, self.made), 0.0
        for i in range(1, LEAVES):
            there = clamp(i - self.gone, 0, 1)
            share = (there - clamp(i - until, 0, 1)) / there if there > 0 else 0.0
            taken += share * self.m2[i]
            self.m2[i] *= 1 - share
        self.leaf, self.gone = self.leaf * (1 - taken / area), until

    def more_heads(self, factor, age_d, rate):
        """Above 1 all is thinned by 1/factor but for what the new stems carry of the youngest."""
        g, keep = self.g, min(1, 1 / factor)
        carried = age_d * rate

        def left(number, last, n):
            return keep + (1 - keep) * clamp(0.5 + number - (last - n), 0, 1)
        self.heads *= factor
        starts = self.flowering() - carried / g('truss.leaves_per_truss')
        self.late = lambda number: left(number, starts, 0)  # some or all of their first flowers are to come
        for t in self.trusses:
            share = left(t.number, self.flowering(), carried / g('truss.leaves_per_truss'))
            if t.kept < t.fruits:  # still to be thinned; tables tell of the stems that carry it
                t.kept, t.thin_share = t.kept * share, t.thin_share * share
            t.fruits, t.on, t.weights, t.dm = (x * share for x in (t.fruits, t.on, t.weights, t.dm))
        area = sum(self.m2)
        for i in range(1, LEAVES):
            share = left(i, self.made, max(0, carried))
            self.m2[i] *= share
            self.lacking[i] = 1 - (1 - self.lacking[i]) * share
            if i in self.shoots:
                self.shoots[i]['on'] *= share
        self.leaf, self.stem = self.leaf * min(1, sum(self.m2) / area), self.stem * keep

    # ---- picks
    def pick(self):
        total = [0.0, 0.0]
        for t in self.trusses:
            if not self.hang(t):
                continue
            number, mass, sliver = self.ripe_sized(t) if self.by_mass else self.ripe_staged(t)
            if number <= t.off or mass <= t.off_mass:
                continue
            rest = 1 - number  # crumbs go with it
            stays = min(1, 2 * (1 - sliver / rest)) if rest > sliver else 0.0
            number, mass = 1 - stays * (1 - number), 1 - stays * (1 - mass)
            dm = t.dm * (mass - t.off_mass) / (1 - t.off_mass)
            fruits, fresh = t.fruits * (number - t.off), dm / self.dm_content(t)
            t.dm, t.off, t.off_mass = t.dm - dm, number, mass
            t.picked_n, t.picked_dm, t.picked_g = t.picked_n + fruits, t.picked_dm + dm, t.picked_g + fresh
            total = [total[0] + fruits, total[1] + fresh]
        return total

    def ripe_staged(self, t):
        g = self.g
        first, grown = g('clock.scatter_first') ** 2, g('clock.scatter_stage') ** 2
        sd = math.sqrt(first + (grown - first) * min((t.number - 1) / g('clock.scatter_trusses'), 1))
        past, each = t.stage - STAGE[g('habit.pick_colour')], max(1, t.fruits / t.on)
        if past < -8 * max(math.sqrt(first), math.sqrt(grown)):
            return 0, 0, 0
        if self.whole:
            share = phi((past - self.behind(t) * (each - 1)) / sd)
        else:
            share = sum(min(1, each - k) * phi((past - self.behind(t) * k) / sd) for k in range(math.ceil(each))) / each
        return share, share, 1e-6

    def ripe_sized(self, t):
        g, cv = self.g, self.g('fruit.pick_cv')
        mean = t.dm / (t.fruits * (1 - t.off_mass) * self.dm_content(t))
        z = (g('habit.pick_from_g') / mean - 1) / cv if mean > 0 else math.inf
        old = phi((t.cd / g('fruit.oldest_cd') - 1) / g('fruit.age_scatter'))
        old = old if t.cd >= g('fruit.oldest_cd') * (1 - 8 * g('fruit.age_scatter')) else 0.0
        if z >= 8 and old == 0:
            return 0, 0, 0
        heavy = cv * math.exp(-z * z / 2) / math.sqrt(2 * math.pi) if z < math.inf else 0.0
        number = 1 - (1 - phi(-z)) * (1 - old)
        if t.first is None and number >= 0.5:
            t.first = t.last = float(self.day)
        return number, 1 - (1 - min(1, phi(-z) + heavy)) * (1 - old), 2e-5
