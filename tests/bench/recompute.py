#!/usr/bin/env python3
"""Recomputes a report in another language: every table from the positions alone, with other libraries.

    longside find everything --db X.db --leave-out nothing --data positions.csv
    longside report --db X.db --tables report
    python3 recompute.py positions.csv report

Needs numpy, scipy and statsmodels. Prints one line for each table: cells compared, greatest difference. Left out: what
comes from the whole table of the solver (theory), which has tests of its own. Of charts of shares and curves of ends it
is looked at where each mark stands on its scale, of the boards of squares what is written on each square.
"""

import csv
import glob
import html
import math
import os
import re
import sys
import unicodedata
import warnings
from collections import defaultdict

import numpy as np
import statsmodels.api as sm
from scipy import stats

# a group without errors has no maximum: its share is taken instead
warnings.simplefilter("ignore")
positions_file, folder = sys.argv[1:3]
Z = stats.norm.ppf(0.975)


def number(text):
    return None if text == "" else float(text)


rows = list(csv.DictReader(open(positions_file, encoding="utf-8")))
by_ending = defaultdict(list)
for row in rows:
    by_ending[int(row["ending"])].append(row)
# what the report leaves out: copies, passing endings, programs' games
endings = [
    of
    for _, of in sorted(by_ending.items())
    if of[0]["duplicate"] == "no" and of[0]["passing"] == "no" and of[0]["engine-game"] == "no"
]


def worth(row):
    return "drawn" if row["beyond-fifty"] == "yes" else row["verdict"]


def player(name):
    if name == "":
        return None
    folded = "".join(c for c in unicodedata.normalize("NFD", name) if not unicodedata.combining(c)).lower().strip()
    if "," in folded:
        family, given = folded.split(",", 1)
        given = given.split(",")[0]
    else:
        parts = folded.rsplit(None, 1)
        family, given = (parts[1], parts[0]) if len(parts) == 2 else (folded, "")
    return (family.strip() + " " + given.strip()[:1]).strip()


unknown = 0
for of in endings:
    for side in ("attacker", "defender"):
        key = player(of[0][f"{side}-name"])
        if key is None:
            unknown += 1
            key = f"?{unknown}"
        of[0][f"{side} key"] = key


def wilson(count, of, worth_cases):
    share = count / of
    z2 = Z * Z / worth_cases
    middle = share + z2 / 2
    spread = Z * math.sqrt(share * (1 - share) / worth_cases + z2 / (4 * worth_cases))
    return (
        0 if count == 0 else (middle - spread) / (1 + z2),
        1 if count == of else (middle + spread) / (1 + z2),
    )


def clustered(cases):
    """cases: (happened, attacker, defender); gives count, of, share, low, high, effect."""
    y = np.array([c[0] for c in cases], float)
    n = len(y)
    share = y.mean()
    ways = []
    for key in (lambda c: c[1], lambda c: c[2], lambda c: (c[1], c[2])):
        sums = defaultdict(float)
        for c, value in zip(cases, y):
            sums[key(c)] += value - share
        groups = len(sums)
        ways.append((groups, sum(v * v for v in sums.values()) * groups / max(groups - 1, 1) / n**2 if groups > 1 else math.nan))
    groups = min(w[0] for w in ways)
    if share in (0, 1):
        return int(y.sum()), n, share, *wilson(y.sum(), n, groups), n / groups
    together = ways[0][1] + ways[1][1] - ways[2][1]
    variance = together if together > 0 else max(ways[0][1], ways[1][1])
    effect = max(1, variance / (share * (1 - share) / n)) if math.isfinite(variance) else n
    student = 1 if groups < 2 else (stats.t.ppf(0.975, groups - 1) / Z) ** 2
    return int(y.sum()), n, share, *wilson(y.sum(), n, max(1, n / effect / student)), effect


worst = 0.0
failed = False


def compare(name, wanted, keys):
    """wanted: {key tuple: {column: value}} against the report's table."""
    global failed
    table = list(csv.DictReader(open(f"{folder}/{name}.csv", encoding="utf-8")))
    found = {tuple(row[k] for k in keys): row for row in table}
    greatest, cells = 0.0, 0
    problems = []
    if set(found) != set(wanted):
        problems.append(f"rows differ: {sorted(set(found) ^ set(wanted))[:4]}")
    for key in set(found) & set(wanted):
        for column, value in wanted[key].items():
            cells += 1
            text = found[key][column]
            if value is None or isinstance(value, str):
                if text != (value or ""):
                    problems.append(f"{key} {column}: {text} here {value}")
                continue
            if text == "":
                problems.append(f"{key} {column}: empty, here {value}")
                continue
            difference = abs(float(text) - value) / max(1, abs(value))
            greatest = max(greatest, difference)
            if difference > 1e-6:
                problems.append(f"{key} {column}: {text} here {value}")
    failed = failed or bool(problems)
    print(f"{name:34} {len(found):5} rows {cells:6} cells, greatest difference {greatest:.1e}" + (f"  NOT EQUAL {problems[:3]}" if problems else ""))


def share_cells(cases, effect=True):
    count, of, share, low, high, deff = clustered(cases)
    cells = {"count": count, "of": of, "share": share, "low": low, "high": high}
    if effect:
        cells["effect"] = deff
    return cells


# who held
decided = [of for of in endings if of[0]["outcome"] != "open"]


def band(width):
    def of(value):
        if value is None:
            return "unknown"
        low = math.floor(value / width + 1e-9) * width
        return f"{int(low)} to {int(low + width - 1)}"

    return of


def first_set_up(of):
    return (of[0]["set-ups"] or "none").split("; ")


splits = {
    "defender-rating": lambda of: [band(200)(number(of[0]["defender-rating"]))],
    "attacker-rating": lambda of: [band(200)(number(of[0]["attacker-rating"]))],
    "rating-difference": lambda of: [band(100)(number(of[0]["rating-difference"]))],
    "year": lambda of: [band(10)(number(of[0]["year"]))],
    "entry-verdict": lambda of: [of[0]["entry-verdict"]],
    "attacker": lambda of: [of[0]["attacker"]],
    "entry-set-up": first_set_up,
}
for name, key in splits.items():
    cases = defaultdict(list)
    for of in decided:
        for value in key(of):
            cases[(value,)].append((of[0]["outcome"] == "held", of[0]["attacker key"], of[0]["defender key"]))
    compare(f"outcome-by-{name}", {k: share_cells(c) for k, c in cases.items()}, [name])

# moves that had something to lose
moves = []
for of in endings:
    for n, row in enumerate(of):
        if row["fifty-error"] == "" or row["fifty-keeping"] == row["legal"]:
            continue
        side = row["to-move"]
        verdict = {"won": 1, "drawn": 0, "lost": -1}[worth(row)]
        own = verdict if side == "attacker" else -verdict
        if own < 0:
            raise SystemExit(f"a lost position with something to lose: {row['fen']}")
        moves.append(
            {
                "row": row,
                "n": n,
                "of": of,
                "side": side,
                "stood": "win" if own > 0 else "draw",
                "error": row["fifty-error"],
                "random": (int(row["legal"]) - int(row["fifty-keeping"])) / int(row["legal"]),
            }
        )


def limits(cuts):
    def of(text):
        value = number(text)
        if value is None:
            return "unknown"
        place = sum(value >= cut - 1e-9 for cut in cuts)
        return f"under {cuts[0]}" if place == 0 else f"{cuts[-1]} or more" if place == len(cuts) else f"{cuts[place - 1]} to {cuts[place]}"

    return of


def potential(row):
    value = number(row["blunder-potential"])
    place = math.floor(value / 0.1 + 1e-9)
    show = lambda x: repr(round(x, 12)).rstrip("0").rstrip(".") if x else "0"
    return f"{show(place * 0.1)} to {show((place + 1) * 0.1)}"


move_splits = {
    "errors": lambda m: ["all"],
    "errors-by-set-up": lambda m: (m["row"]["set-ups"] or "none").split("; "),
    "errors-by-fifty-keeping": lambda m: [limits([2, 3, 4, 6, 10])(m["row"]["fifty-keeping"])],
    "errors-by-clock-before": lambda m: [limits([10, 30, 60, 300])(m["row"]["clock-before"])],
    "errors-by-spent": lambda m: [limits([2, 5, 15, 60])(m["row"]["spent"])],
    "errors-by-blunder-potential": lambda m: [potential(m["row"])],
    "errors-by-kind": lambda m: [k for k in m["row"]["kind"].split(", ") if k],
}
for name, key in move_splits.items():
    groups = defaultdict(list)
    for m in moves:
        for value in key(m):
            groups[(m["side"], m["stood"], value)].append(m)
    wanted = {}
    for k, ms in groups.items():
        cells = share_cells([(m["error"] != "none", m["of"][0]["attacker key"], m["of"][0]["defender key"]) for m in ms])
        cells["half"] = sum(m["error"] == "half" for m in ms)
        cells["full"] = sum(m["error"] == "full" for m in ms)
        cells["expected"] = sum(m["random"] for m in ms)
        wanted[k] = cells
    compare(name, wanted, ["side", "stood", "group"])

rule = {}
for side in ("defender", "attacker"):
    own = [r for of in endings for r in of if r["to-move"] == side]
    some = lambda e: e in ("half", "full")
    rule[(side,)] = {
        "both": sum(some(r["error"]) and some(r["fifty-error"]) for r in own),
        "paperOnly": sum(some(r["error"]) and not some(r["fifty-error"]) for r in own),
        "ruleOnly": sum(not some(r["error"]) and some(r["fifty-error"]) for r in own),
    }
compare("errors-by-rule", rule, ["side"])

# how it ended
spells = []
for of in endings:
    if of[0]["verdict"] == "" or worth(of[0]) == "won":
        continue
    time, end, how = 0, None, None
    for row in of:
        if row["to-move"] == "attacker" or row["fifty-error"] == "":
            continue
        time += 1
        value = {"won": 1, "drawn": 0, "lost": -1}[worth(row)] + {"none": 0, "half": 1, "full": 2}[row["fifty-error"]]
        if value > 0:
            end, how = "lost by a move", "a move"
            break
    if end is None:
        how = of[0]["ended-by"]
        if how == "capture":
            end = "held"
        elif how == "cut off" or of[0]["outcome"] == "open":
            end = "broken off"
        else:
            end = "resigned or out of time" if of[0]["outcome"] == "lost" else "held"
    spells.append((time, end, how, of[0]["defender key"], first_set_up(of)[0]))
kinds = defaultdict(int)
for _, end, how, _, _ in spells:
    kinds[(end, how)] += 1
compare("ends-ends", {k: {"count": v} for k, v in kinds.items()}, ["end", "how"])

ENDS = ["lost by a move", "resigned or out of time", "held"]


def aalen_johansen(cases):
    """Incidence with the jackknife's error, worked out case by case by leaving each cluster's influence to a sum."""
    times = sorted({t for t, end, *_ in cases if end in ENDS})
    t = np.array([c[0] for c in cases])
    kind = np.array([ENDS.index(c[1]) if c[1] in ENDS else -1 for c in cases])
    names, cluster = np.unique([c[3] for c in cases], return_inverse=True)
    survival, incidence = 1.0, np.zeros(3)
    on_survival, on_end = np.zeros(len(t)), np.zeros((3, len(t)))
    out = []
    for time in times:
        risk = t >= time
        n = risk.sum()
        events = np.array([((t == time) & (kind == k)).sum() for k in range(3)])
        hazards = events / n
        before = on_survival.copy()
        for k in range(3):
            own = np.where(risk, (((t == time) & (kind == k)) - hazards[k]) / n, 0)
            on_end[k] += before * hazards[k] + survival * own
        total = hazards.sum()
        own = np.where(risk, (((t == time) & (kind >= 0)) - total) / n, 0)
        on_survival = before * (1 - total) - survival * own
        incidence = incidence + survival * hazards
        for k in range(3):
            sums = np.zeros(len(names))
            np.add.at(sums, cluster, on_end[k])
            out.append((ENDS[k], time, int(n), int(events[k]), incidence[k], math.sqrt((sums**2).sum())))
        survival *= 1 - total
    return out


groups = {"all": spells}
for s in spells:
    if s[4] != "none":
        groups.setdefault(s[4], []).append(s)
wanted = {}
for name, cases in groups.items():
    for end, time, risk, events, share, error in aalen_johansen(cases):
        cells = {"at-risk": risk, "events": events, "share": share, "standard-error": error}
        if 0 < share < 1:
            spread = Z * error / (share * math.log(share))
            cells |= {"low": share ** math.exp(-spread), "high": share ** math.exp(spread)}
        wanted[(name, end, str(time))] = cells
compare("ends-steps", wanted, ["group", "end", "time"])
compare(
    "ends-groups",
    {
        (name,): {
            "cases": len(cases),
            "lost": sum(c[1] == ENDS[0] for c in cases),
            "resigned": sum(c[1] == ENDS[1] for c in cases),
            "held": sum(c[1] == ENDS[2] for c in cases),
            "open": sum(c[1] == "broken off" for c in cases),
            "longest": max(c[0] for c in cases),
        }
        for name, cases in groups.items()
    },
    ["group"],
)
compared = [c for name, c in groups.items() if name != "all" and len(c) >= 10]
if len(compared) > 1:
    from statsmodels.duration.survfunc import survdiff

    flat = [(c[0], c[1] == ENDS[0], n) for n, g in enumerate(compared) for c in g]
    chi, p = survdiff(*[np.array(x) for x in zip(*flat)])
    compare("ends-log-rank", {(str(len(compared) - 1),): {"chi-square": chi}}, ["degrees"])

# changes of set-up
change = {}
for of in endings:
    standing, last = {}, None
    for p, row in enumerate(of):
        names = row["set-ups"].split("; ") if row["set-ups"] else []
        if not names:
            continue
        if last is not None and p - last > 20:
            standing = {}
        for source, beside in standing.items():
            if source in names:
                continue
            for to in names:
                if to in beside:
                    continue
                cell = change.setdefault((source, to), {"all": 0, "kept": [], "won": 0, "drawn": 0})
                cell["all"] += 1
                if worth(of[last]) == "drawn":
                    cell["kept"].append((worth(row) != "won", of[0]["attacker key"], of[0]["defender key"]))
                elif worth(of[last]) == "won":
                    cell["won"] += 1
                    cell["drawn"] += worth(row) != "won"
        standing = {name: standing.get(name, names) for name in names}
        last = p
compare(
    "changes",
    {
        k: {"changes": c["all"], "wonBefore": c["won"], "wonToDrawn": c["drawn"], **(share_cells(c["kept"], False) if c["kept"] else {})}
        for k, c in change.items()
    },
    ["from", "to"],
)


# models
def fit(matrix, happened, first, second):
    model = sm.Logit(np.array(happened, float), np.array(matrix, float)).fit(disp=0, tol=1e-12, maxiter=200)
    x, y = np.array(matrix, float), np.array(happened, float)
    score = x * (y - model.predict())[:, None]
    bread = np.linalg.inv(x.T @ (x * (model.predict() * (1 - model.predict()))[:, None]))

    def meat(keys):
        sums = defaultdict(lambda: np.zeros(x.shape[1]))
        for key, s in zip(keys, score):
            sums[key] += s
        return sum(np.outer(v, v) for v in sums.values()) * len(sums) / (len(sums) - 1)

    one, two, both = meat(first), meat(second), meat(list(zip(first, second)))
    variance = np.diag(bread @ (one + two - both) @ bread)
    other = np.maximum(np.diag(bread @ one @ bread), np.diag(bread @ two @ bread))
    return model.params, np.sqrt(np.where(variance > 0, variance, other)), model.bse


def game_terms(of):
    a, d, year = (number(of[0][k]) for k in ("attacker-rating", "defender-rating", "year"))
    both = a is not None and d is not None
    return {
        "attacker's rating less the defender's, in hundreds": (a - d) / 100 if both else None,
        "mean rating, in hundreds from 2400": ((a + d) / 2 - 2400) / 100 if both else None,
        "year, in decades from 2000": None if year is None else (year - 2000) / 10,
        **{
            f"{pace} (against standard, or a pace not told)": float(of[0]["pace"] == pace)
            for pace in ("bullet", "blitz", "rapid", "correspondence")
        },
    }


def check_model(name, cases):
    table = list(csv.DictReader(open(f"{folder}/{name}.csv", encoding="utf-8")))
    terms = [row["term"] for row in table]
    complete = [c for c in cases if all(c[1][t] is not None for t in terms)]
    params, errors, simple = fit(
        [[1] + [c[1][t] for t in terms] for c in complete],
        [c[0] for c in complete],
        [c[2] for c in complete],
        [c[3] for c in complete],
    )
    compare(
        name,
        {
            (t,): {"estimate": params[n + 1], "error": errors[n + 1], "simple-error": simple[n + 1], "odds": math.exp(params[n + 1])}
            for n, t in enumerate(terms)
        },
        ["term"],
    )


all_set_ups = {name for row in rows for name in row["set-ups"].split("; ") if name}
check_model(
    "model-of-holding",
    [
        (
            of[0]["outcome"] == "held",
            {
                "won for the attacker at the entry": float(worth(of[0]) == "won"),
                **game_terms(of),
                **{f"{s} at the entry": float(s in of[0]["set-ups"].split("; ")) for s in all_set_ups},
            },
            of[0]["attacker key"],
            of[0]["defender key"],
        )
        for of in decided
        if of[0]["verdict"] != ""
    ],
)
check_model(
    "model-of-mistakes",
    [
        (
            m["error"] != "none",
            {
                "moves that hold, each doubling": math.log2(int(m["row"]["fifty-keeping"])),
                "legal moves, each doubling": math.log2(int(m["row"]["legal"])),
                "in check": float(m["row"]["in-check"] == "yes"),
                "moves into the ending, each doubling": math.log2(1 + m["n"] / 2),
                "half-moves on the count of the fifty-move rule, in tens": int(m["row"]["halfmoves"]) / 10,
                **game_terms(m["of"]),
            },
            m["of"][0]["attacker key"],
            m["of"][0]["defender key"],
        )
        for m in moves
        if m["side"] == "defender" and m["stood"] == "draw"
    ],
)

# players beside what is to be expected
totals = defaultdict(lambda: [0, 0, 0.0])
for side, stood in sorted({(m["side"], m["stood"]) for m in moves}):
    own = [m for m in moves if (m["side"], m["stood"]) == (side, stood)]
    x = np.array([[1, math.log2(int(m["row"]["fifty-keeping"])), math.log2(int(m["row"]["legal"])), m["row"]["in-check"] == "yes"] for m in own], float)
    y = np.array([m["error"] != "none" for m in own], float)
    try:
        chance = sm.Logit(y, x).fit(disp=0, tol=1e-12, maxiter=200).predict()
        if y.sum() == 0:
            raise ValueError
    except Exception:
        chance = np.full(len(y), y.mean())
    for m, p, e in zip(own, chance, y):
        total = totals[(m["of"][0][f"{side} key"], side)]
        total[0] += 1
        total[1] += int(e)
        total[2] += p
found = {(player(row["name"]), row["side"]): row for row in csv.DictReader(open(f"{folder}/players.csv", encoding="utf-8"))}
wanted = {k: v for k, v in totals.items() if v[0] >= 30 and not k[0].startswith("?")}
bad = [k for k in set(found) ^ set(wanted)] + [
    k
    for k in set(found) & set(wanted)
    if int(found[k]["moves"]) != wanted[k][0]
    or int(found[k]["observed"]) != wanted[k][1]
    or abs(float(found[k]["expected"]) - wanted[k][2]) > 1e-6 * max(1, wanted[k][2])
]
failed = failed or bool(bad)
print(f"{'players':34} {len(found):5} rows {3 * len(found):6} cells" + (f"  NOT EQUAL {bad[:4]}" if bad else ""))


def numbers_of(svg, axis):
    """The scale of an axis: from a place in the drawing to a value, by its ticks."""
    group = re.search(rf'aria-label="{axis}-axis tick label">(.*?)</g>', svg, re.S).group(1)
    ticks = re.findall(r'translate\(([-\d.]+),([-\d.]+)\)"[^>]*>([-\d.]+)<', group)
    places = [float(t[0 if axis == "x" else 1]) for t in ticks]
    slope, start = np.polyfit(places, [float(t[2]) for t in ticks], 1)
    return lambda place: start + slope * place


def drawn(name, marks, problems):
    global failed
    failed = failed or bool(problems) or marks == 0
    print(f"{name:34} {marks:5} marks" + (f"  NOT EQUAL {problems[:3]}" if problems or marks == 0 else ""))


# charts of shares: each dot, each interval, each count beside them, against the table that was compared above
for path in sorted(glob.glob(f"{folder}/*-by-*.svg")):
    name = os.path.basename(path)[:-4]
    svg = re.sub(r"<style>.*?</style>", "", open(path, encoding="utf-8").read(), flags=re.S)
    table = list(csv.DictReader(open(f"{folder}/{name}.csv", encoding="utf-8")))
    if "side" in table[0]:
        table = [row for row in table if row["side"] == "defender" and row["had a" if "had a" in row else "stood"] == "draw"]
    label = "group" if "group" in table[0] else list(table[0])[0]
    wanted = {row[label]: row for row in table}
    labels = {
        float(y): html.unescape(text)
        for y, text in re.findall(r'translate\([-\d.]+,([-\d.]+)\)"[^>]*>([^<]*)<', re.search(r'aria-label="y-axis tick label">(.*?)</g>', svg, re.S).group(1))
    }
    scale = numbers_of(svg, "x")
    end = scale(max(float(x) for x in re.findall(r'aria-label="x-grid">.*?</g>', svg, re.S)[0].replace('"', " ").split("x1=")[-1].split()[:1]))
    problems, marks = [], 0

    def near(what, y, place, value):
        if abs(scale(place) - 100 * value) > 1e-6:
            problems.append(f"{labels[y]} {what}: drawn {scale(place)}, in the table {100 * value}")

    for cy, cx in re.findall(r'<circle[^>]*cy="([-\d.]+)" cx="([-\d.]+)"', svg):
        marks += 1
        near("share", float(cy), float(cx), float(wanted[labels[float(cy)]]["share"]))
    for y, x2, x1 in re.findall(r'<line[^>]*y1="([-\d.]+)" x2="([-\d.]+)" x1="([-\d.]+)"', re.search(r'stroke-width="1.6"[^>]*>(.*?)</g>', svg, re.S).group(1)):
        row = wanted[labels[float(y)]]
        near("low", float(y), float(x1), float(row["low"]))
        near("high", float(y), float(x2), min(end / 100, float(row["high"])))
    for y, count, of in re.findall(r'translate\([-\d.]+,([-\d.]+)\)"[^>]*>(\d+) of (\d+)<', svg):
        row = wanted[labels[float(y)]]
        if (count, of) != (row["count"], row["of"]):
            problems.append(f"{labels[float(y)]}: {count} of {of} drawn, {row['count']} of {row['of']} in the table")
    drawn(f"{name}.svg", marks, problems)

# the curves of ends: after each step that is drawn, the share of the table
svg = re.sub(r"<style>.*?</style>", "", open(f"{folder}/ends.svg", encoding="utf-8").read(), flags=re.S)
time, percent = numbers_of(svg, "x"), numbers_of(svg, "y")
steps = defaultdict(dict)
for row in csv.DictReader(open(f"{folder}/ends-steps.csv", encoding="utf-8")):
    if row["group"] == "all":
        steps[row["end"]][int(row["time"])] = 100 * float(row["share"])
problems, marks, left = [], 0, dict(steps)
for group in re.findall(r'aria-label="line">(.*?)</g>', svg, re.S):
    path = re.search(r'd="M([^"]*)"', group)
    if not path:
        continue
    after = {}
    for x, y in (point.split(",") for point in path.group(1).split("L")):
        after[round(time(float(x)))] = percent(float(y))
    # the last of a step is where the curve stands then; at its end nothing more has happened
    drawn_steps = {t: y for t, y in after.items() if t > 0}
    fits = [end for end, of in left.items() if all(t not in of or abs(of[t] - y) < 0.01 for t, y in drawn_steps.items())]
    marks += len(drawn_steps)
    if not fits:
        problems.append(f"a curve is none of {list(left)}")
    else:
        left.pop(fits[0])
drawn("ends.svg", marks, problems)

# the boards of squares: how often a piece stood on each when the defender had a draw to lose, and what share was lost
for piece in ("king", "rook"):
    stood, lost = [0] * 64, [0] * 64
    for m in moves:
        row = m["row"]
        if m["side"] != "defender" or m["stood"] != "draw" or row[f"{piece}-file"] == "":
            continue
        square = 8 * (int(row[f"{piece}-rank"]) - 1) + int(row[f"{piece}-file"]) - 1
        stood[square] += 1
        lost[square] += m["error"] != "none"
    used = [n for n in range(64) if stood[n] > 0]
    share = lambda n: "0" if lost[n] == 0 else "<1%" if lost[n] / stood[n] < 0.01 else f"{math.floor(100 * lost[n] / stood[n] + 0.5)}%"
    wanted = [str(stood[n]) for n in used] + [share(n) for n in used]
    svg = open(f"{folder}/squares-{piece}.svg", encoding="utf-8").read()
    found = [html.unescape(text) for text in re.findall(r'<text[^>]*font-size="32"[^>]*>([^<]*)</text>', svg)]
    drawn(f"squares-{piece}.svg", len(found), [] if found == wanted else [pair for pair in zip(found, wanted) if pair[0] != pair[1]] or ["not as many"])
sys.exit(1 if failed else 0)
