#!/usr/bin/env python3
"""Rebuilds decision-values.json: brute force and plain numerical integration, Python standard library only.

Run: python3 tests/references/decisions/generate.py   (Python 3.9 or later, about half a minute)
Each block is computed in another way than the models do (Simpson on a fine grid and golden section instead of
Gauss-Legendre and roots; enumeration instead of mixed-integer programming), or is a published value.
"""
import itertools
import json
import math
import pathlib
import random


def simpson(f, a, b, n=4000):
    h = (b - a) / n
    return h / 3 * (f(a) + f(b) + 4 * sum(f(a + (2 * i - 1) * h) for i in range(1, n // 2 + 1))
                    + 2 * sum(f(a + 2 * i * h) for i in range(1, n // 2)))


def golden(f, a, b):
    g = (math.sqrt(5) - 1) / 2
    c, d = b - g * (b - a), a + g * (b - a)
    fc, fd = f(c), f(d)
    for _ in range(80):
        if fc < fd:
            b, d, fd = d, c, fc
            c = b - g * (b - a)
            fc = f(c)
        else:
            a, c, fc = c, d, fd
            d = a + g * (b - a)
            fd = f(d)
    return (a + b) / 2


def weibull(shape, scale):
    return lambda t: math.exp(-((t / scale) ** shape)) if t > 0 else 1.0


def age_replacement():
    rows = []
    for shape in (1.5, 2, 2.5, 3, 4):
        for failure in (2, 3, 5, 10, 20):
            s = weibull(shape, 1)
            # x = u**2 smooths the kink of the survival function at 0
            cost = lambda t: (s(t) + failure * (1 - s(t))) / simpson(lambda u: 2 * u * s(u * u), 0, math.sqrt(t), 400)
            t = golden(cost, 0.05, 4)
            mean = math.gamma(1 + 1 / shape)
            rows.append({"shape": shape, "failure": failure, "age": t, "rate": cost(t), "share": cost(t) * mean / failure})
    return rows


def renewals():
    """Trapezoid discretisation extrapolated from two grids."""
    def grid(shape, n, upto):
        s = weibull(shape, 1)
        h = upto / n
        f = [1 - s(i * h) for i in range(n + 1)]
        p = [f[i] - f[i - 1] for i in range(1, n + 1)]
        m = [0.0]
        for i in range(1, n + 1):
            acc = f[i] + sum(p[j - 1] * (m[i - j] + m[i - j + 1]) / 2 for j in range(2, i + 1)) + p[0] * m[i - 1] / 2
            m.append(acc / (1 - p[0] / 2))
        return m[n]
    out = {}
    for shape in (1.5, 2, 2.5, 3, 4):
        out[str(shape)] = {}
        for upto in (0.5, 1.0, 2.0):
            coarse, fine = grid(shape, 300, upto), grid(shape, 600, upto)
            out[str(shape)][str(upto)] = fine + (fine - coarse) / 3
    return out


def discounted():
    s, out = weibull(2.5, 8), {}
    f = lambda t: 2.5 / 8 * (t / 8) ** 1.5 * s(t)
    for rate in (1e-6, 0.03, 0.05, 0.08, 0.12):
        def value(t, r=rate):
            a = simpson(lambda u: 2 * u * math.exp(-r * u * u) * f(u * u), 0, math.sqrt(t), 800)
            k = math.exp(-r * t) * s(t)
            return (900 * k + 4500 * a) / (1 - k - a)
        t = golden(value, 1, 9)
        out[str(rate)] = {"age": t, "present": value(t)}
    return out


def run_or_renew():
    s, rate, out = weibull(3, 260), 0.05 * 2 / 60, {}
    f = lambda t: 3 / 260 * (t / 260) ** 2 * s(t)
    for age in (60, 120, 180, 240):
        run = 9000 * simpson(lambda x: math.exp(-rate * x) * f(age + x), 0, 60) / s(age)
        renew = 1200 + 9000 * simpson(lambda x: math.exp(-rate * x) * f(x), 0, 60)
        out[str(age)] = {"chance": 1 - s(age + 60) / s(age), "run": run, "renew": renew, "saving": run - renew}
    return out


def asset():
    profit = [50 - 2.5 * a - 2.5 * a * a for a in range(6)]
    v = [0.0] * 5
    for _ in range(2000):
        v = [max(profit[a] + 0.9 * v[a] if a < 5 else -1e9, profit[0] - 75 + 0.9 * v[0]) for a in range(1, 6)]
    return {"profitByAge": profit[:5], "replacement": 75, "factor": 0.9, "value": v,
            "published": [216.56004653, 190.62227392, 172.91363769, 169.90404187, 169.90404187],
            "publishedReplace": [0, 0, 0, 1, 1], "source": "Miranda & Fackler (2002) 7.6.2"}


def knapsacks():
    p07 = {"capacity": 750, "weights": [70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120],
           "values": [135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240],
           "published": 1458, "greedy": 1441}
    p08 = {"capacity": 6404180,
           "weights": [382745, 799601, 909247, 729069, 467902, 44328, 34610, 698150, 823460, 903959, 853665, 551830,
                       610856, 670702, 488960, 951111, 323046, 446298, 931161, 31385, 496951, 264724, 224916, 169684],
           "values": [825594, 1677009, 1676628, 1523970, 943972, 97426, 69666, 1296457, 1679693, 1902996, 1844992,
                      1049289, 1252836, 1319836, 953277, 2067538, 675367, 853655, 1826027, 65731, 901489, 577243,
                      466257, 369261],
           "published": 13549094, "greedy": 13415886}
    for problem in (p07, p08):
        half = len(problem["weights"]) // 2

        def sums(weights, values):
            rows = [(0, 0)]
            for w, v in zip(weights, values):
                rows += [(a + w, b + v) for a, b in rows]
            rows.sort()
            return rows
        left = sums(problem["weights"][:half], problem["values"][:half])
        right = sums(problem["weights"][half:], problem["values"][half:])
        best = []
        top = 0
        for w, v in right:
            top = max(top, v)
            best.append((w, top))
        optimum, j = 0, len(best) - 1
        for w, v in left:
            if w > problem["capacity"]:
                break
            while best[j][0] > problem["capacity"] - w:
                j -= 1
            optimum = max(optimum, v + best[j][1])
        problem["optimum"] = optimum
    return {"p07": p07, "p08": p08, "source": "public test instances P07 and P08 (Kreher & Stinson, Combinatorial Algorithms, 1999), value from memory"}


def budgets():
    options = [[[0, 0], [150, a], [600, b], [2200, c]] for a, b, c in
               ((420, 900, 2600), (90, 310, 700), (800, 1500, 4100), (300, 640, 2100), (510, 520, 3000), (60, 1300, 1500))]
    best = {}
    for budget in (1000, 2500, 4000, 6000, 9000):
        best[str(budget)] = max(sum(o[k][1] for o, k in zip(options, pick)) for pick in itertools.product(range(4), repeat=6)
                                if sum(o[k][0] for o, k in zip(options, pick)) <= budget)
    return {"options": options, "best": best}


def portfolios():
    """Random small cases with two years of money and hours, solved by enumeration."""
    rnd, cases = random.Random(20260331), []
    for _ in range(12):
        units = rnd.randint(2, 6)
        options = []
        for _ in range(units):
            rows = [{"year": 0, "cost": 0, "hours": 0, "value": 0}]
            for _ in range(rnd.randint(1, 4)):
                rows.append({"year": rnd.randint(0, 1), "cost": rnd.randint(20, 300) * 100, "hours": rnd.randint(1, 12),
                             "value": rnd.randint(-50, 600) * 100})
            options.append(rows)
        money = [rnd.randint(0, 600) * 100 for _ in range(2)]
        hours = [rnd.randint(4, 30) for _ in range(2)]
        best = 0
        for pick in itertools.product(*options):
            if all(sum(o["cost"] for o in pick if o["year"] == y) <= money[y]
                   and sum(o["hours"] for o in pick if o["year"] == y) <= hours[y] for y in range(2)):
                best = max(best, sum(o["value"] for o in pick))
        cases.append({"options": options, "money": money, "hours": hours, "best": best})
    return cases


def looks():
    likelihood = [[0.95, 0.15, 0.05], [0.05, 0.85, 0.95]]
    chance = {"run": [0.2, 0.45, 0.03], "clean": [0.05, 0.43, 0.03], "renew": [0.04, 0.04, 0.03]}
    price = {"run": 0, "clean": 140, "renew": 1900}
    cost = {a: [price[a] + 9000 * p for p in chance[a]] for a in chance}
    cases = []
    for prior in ([0.5, 0.3, 0.2], [0.3, 0.1, 0.6], [0.2, 0.6, 0.2], [0.05, 0.02, 0.93], [0.4, 0.4, 0.2]):
        now = min(sum(p * c for p, c in zip(prior, cost[a])) for a in cost)
        known = sum(p * min(cost[a][s] for a in cost) for s, p in enumerate(prior))
        after = sum(min(sum(p * l * c for p, l, c in zip(prior, row, cost[a])) for a in cost) for row in likelihood)
        cases.append({"prior": prior, "now": now, "evpi": now - known, "evsi": now - after, "net": now - after - 60})
    return {"likelihood": likelihood, "costs": [cost[a] for a in ("run", "clean", "renew")], "lookCost": 60, "cases": cases}


def count_distribution():
    p = [.02, .03, .05, .05, .08, .1, .12, .15, .2, .25, .3, .4]
    pmf = [0.0] * (len(p) + 1)
    for pick in itertools.product((0, 1), repeat=len(p)):
        pmf[sum(pick)] += math.prod(q if hit else 1 - q for q, hit in zip(p, pick))
    tail, left = 0.0, 0.1
    for k in range(len(p), -1, -1):
        part = min(left, pmf[k])
        tail += part * k
        left -= part
    return {"p": p, "pmf": pmf, "mean": sum(p), "variance": sum(q * (1 - q) for q in p), "q": [2, 3, 3, 4],
            "meanOfWorstTenth": tail / 0.1,
            "cost": {"each": 5200, "sd": 2600, "mean": sum(p) * 5200,
                     "variance": sum(p) * 2600 ** 2 + 5200 ** 2 * sum(q * (1 - q) for q in p)}}


values = {
    "program": "generate.py, Python standard library",
    "tolerance": "relative 1e-6 unless the test says otherwise",
    "ageReplacement": age_replacement(),
    "renewals": renewals(),
    "discounted": discounted(),
    "runOrRenew": run_or_renew(),
    "assetReplacement": asset(),
    "knapsacks": knapsacks(),
    "budgets": budgets(),
    "portfolios": portfolios(),
    "looks": looks(),
    "countDistribution": count_distribution(),
    "published": {
        "jardineTsang": {"source": "Jardine & Tsang, even life of 40 000 km, costs 100 and 200",
                         "rateByAge": {"10000": 0.0143, "20000": 0.01, "30000": 0.0093, "40000": 0.01}},
        "hydraulicSeals": {"source": "Case Studies in Reliability and Maintenance, chapter 16; shape, cost ratio and scale inferred",
                           "shape": 2.5, "failureOverPlanned": 6, "scaleHours": 6411, "ageHours": 2885,
                           "ageShare": 0.45, "costShare": 0.56, "blockShare": 0.44, "blockCostShare": 0.58},
        "machines": {"source": "Brealey & Myers, machines A and B at 6 %, value from memory",
                     "A": {"cash": [15, 5, 5, 5], "present": 28.37, "annual": 10.61},
                     "B": {"cash": [10, 6, 6], "present": 21.00, "annual": 11.45}},
        "economicLife": {"source": "worked table; running costs chosen to give it with the price and resale listed",
                         "price": 30000, "rate": 0.08,
                         "resale": [21000, 16000, 12500, 9800, 7600, 5900, 4600, 3600],
                         "running": [2000, 4180, 5040, 6100, 7476, 9268, 11676, 14484],
                         "annual": [13400, 12178.846154, 11452.242484, 11085.575503, 10978.942121, 11060.330296,
                                    11327.922174, 11753.252267], "bestYears": 5},
        "drilling": {"source": "decision-tree exercise: drill 700/-100, sell 90, oil .25, favourable .6/.2, survey 30",
                     "evpi": 142.5, "evsi": 53, "withSurvey": 123},
        "wildcat": {"source": "Samuelson & Marks, chapter 13: test of a wet site", "valueOfTest": 20},
        "delayTime": {"source": "computed", "k": 0.08, "mu": 0.25, "inspection": 60, "repair": 140, "failure": 5200,
                      "every": 1.202141, "rate": 116.277243, "without": 416},
        "minimalRepair": {"source": "closed form", "age": 446.6583884415239, "rate": 0.0037314124391170252},
        "block": {"source": "computed on a grid", "every": 478.4375, "rate": 0.0036435236659517743},
    },
}
target = pathlib.Path(__file__).with_name("decision-values.json")
target.write_text(json.dumps(values, indent=1) + "\n", encoding="utf-8")
