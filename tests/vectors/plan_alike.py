"""Kitchens of nearly equal steps, with optima proven by an independent solver.

Run:  python plan_alike.py plan_alike.json
Needs OR-Tools (PyPI `ortools`); its version is written into the file. The model and the proof are those of
`plan_instances.py`. Left to itself, CP-SAT does not settle ten of these steps in a minute; so its model is given the
parallel inequalities of Queyranne, 'Structure of a simple scheduling polyhedron' (1993; from memory, not verified),
which hold of every order of pieces on one machine, and a first schedule to begin from. What is not settled all the same
is left out and listed in the file.

Steps that hardly differ are what a search by orders finds hardest: almost every order is almost as good. Each kitchen
here has a name that says what its steps are:

  equal      the same length, all of them held
  near       lengths a few seconds apart, all held alike
  weighed    lengths and weights apart, all held
  some       every third held, for a limited time
  spaced     held, with pauses asked for between some of them
  chains     prepared by hand, cooked unattended, finished by hand and held
  pan        one after the other in one pan, resting after it, held
  panfuls    a pan with two places, each panful turned by hand in the middle
"""

import json
import random
import sys

import ortools
from plan_instances import prove

SIZES = (10, 20, 40)
KINDS = ("equal", "near", "weighed", "some", "spaced", "chains", "pan", "panfuls")


def hands(secs, held=0, needs=()):
    return [secs, secs, 0, held, list(needs)]


def kitchen(kind, size):
    """One cook, `size` steps, the last of them plating."""
    rng = random.Random(f"{kind} {size}")
    tasks, links, stations, plating = [], [], [1], size - 1
    near = lambda middle, by: rng.randint(middle - by, middle + by)
    while len(tasks) < plating:
        at = len(tasks)
        left = plating - at
        if kind == "equal":
            tasks.append(hands(60, 1))
        elif kind == "near":
            tasks.append(hands(near(60, 5), 1))
        elif kind == "weighed":
            tasks.append(hands(near(60, 10), rng.randint(1, 4)))
        elif kind == "some":
            tasks.append(hands(near(60, 5), int(at % 3 == 0)))
            if at % 3 == 0:
                links.append([at, "e", plating, "s", 0, 60 * size // 2])
        elif kind == "spaced":
            tasks.append(hands(near(60, 5), 1))
            if at % 4 == 3:
                links.append([at - 3, "e", at, "s", near(90, 30), None])
        elif kind == "chains" and left >= 3:
            tasks += [hands(near(60, 5)), [near(180, 20), 10, 0, 0, []], hands(near(30, 5), 1)]
            links += [[at, "e", at + 1, "s", 0, None], [at + 1, "e", at + 2, "s", 0, 120]]
        elif kind == "pan" and left >= 2:
            tasks += [[near(90, 5), 15, 0, 0, [[0, 1]]], [60, 0, 0, 1, []]]
            links.append([at, "e", at + 1, "s", 0, 0])
        elif kind == "panfuls" and left >= 2:
            stations = [2]
            tasks += [[near(120, 5), 15, 0, 0, [[0, 1]]], [near(40, 3), 10, 10, 1, [[0, 1]]]]
            links.append([at, "e", at + 1, "s", 0, 0])
        else:
            tasks.append(hands(near(60, 5)))
    tasks.append(hands(60))
    return {"cooks": 1, "stations": stations, "tasks": tasks, "links": links}


def aid(m, kitchen, start):
    """Queyranne's inequalities for the whole steps at each pool of one place, and Smith's order as a hint."""
    tasks, links = kitchen["tasks"], kitchen["links"]
    plating = len(tasks) - 1

    def waits(i):
        hangs_on = [b for a, ea, b, eb, least, greatest in links if (a, ea, eb, least, greatest) == (i, "e", "s", 0, 0)]
        return tasks[i][3] + sum(map(waits, hangs_on))

    by_hand = [i for i in range(plating) if tasks[i][0] == tasks[i][1] + tasks[i][2]]
    pools = [by_hand] if kitchen["cooks"] == 1 else []
    for station, places in enumerate(kitchen["stations"]):
        if places == 1:
            pools.append([i for i in range(plating) if any(need[0] == station for need in tasks[i][4])])
    for pool in pools:
        pool.sort(key=lambda i: (-waits(i) / tasks[i][0], tasks[i][0]))
        for k in range(1, len(pool) + 1):
            first = [(tasks[i][0], start[plating] - start[i] - tasks[i][0]) for i in pool[:k]]
            work = sum(secs for secs, _ in first)
            m.add(sum(2 * secs * begin + secs * secs for secs, begin in first) >= work * work)
    if len(by_hand) == plating:
        end = sum(tasks[i][0] for i in by_hand)
        m.add_hint(start[plating], end)
        for i in pools[0]:
            end -= tasks[i][0]
            m.add_hint(start[i], end)


def main(path):
    kitchens, unsettled = [], []
    for kind in KINDS:
        for size in SIZES:
            drawn = kitchen(kind, size)
            optimum = prove(drawn, aid)
            if optimum == "unsettled":
                unsettled.append(f"{kind} {size}")
            else:
                kitchens.append({"name": kind, "seed": size, **drawn, "optimum": optimum})
            print(kind, size, optimum, file=sys.stderr, flush=True)
    body = ",\n".join(json.dumps(k, separators=(",", ":")) for k in kitchens)
    head = json.dumps({"solver": f"OR-Tools CP-SAT {ortools.__version__}", "unsettled": unsettled})
    with open(path, "w", encoding="ascii") as out:
        out.write(f'{head[:-1]}, "kitchens": [\n{body}\n]}}\n')


if __name__ == "__main__":
    main(sys.argv[1])
