"""Random kitchens for the service plan, with optima proven by an independent solver.

Run:  python plan_instances.py plan_instances.json
Needs OR-Tools (PyPI `ortools`); its version is written into the file.

The model here is stated forwards in time, straight from the definition, and shares nothing with the
product's solver, which works backwards from plating. For each kitchen CP-SAT proves, in turn,

1. the least total holding: sum over steps of weight * (start of plating - end of step);
2. with that held, the least lead: start of plating - start of the first step.

Draws that CP-SAT can't settle within the limit below, on two threads, are left out and listed in the file: which
those are depends on the machine, the proven values do not.

A kitchen is written as compact arrays:
  cooks      1 or 2
  stations   [capacity, ...]
  tasks      [[seconds, hands first, hands last, held weight, [[station, amount], ...]], ...]; the last is plating
  links      [[from, 's' or 'e', to, 's' or 'e', least, greatest or null], ...]
  optimum    [holding, lead], or null where nothing fits
"""

import json
import random
import sys

import ortools
from ortools.sat.python import cp_model

COUNT = 200
SECONDS_PER_PROOF = 20


def draw(seed):
    """One kitchen: chains of steps that end at plating, with cross links between them."""
    rng = random.Random(seed)
    size = rng.randint(5, 40)
    cooks = 1 if rng.random() < 0.6 else 2
    stations = [1 if rng.random() < 0.7 else rng.randint(2, 3) for _ in range(rng.randint(1, 3))]
    tight = rng.choice([0.3, 1.0, 1.0, 2.0])
    windows = min(0.4, 4 / size)
    held = rng.choice([0.3, 0.5, 0.7])
    tasks, links, plating = [], [], size - 1

    def step():
        kind = rng.choice(["prep", "prep", "cook", "cook", "rest", "finish"])
        station = rng.randrange(len(stations))
        if kind == "prep":
            secs = rng.randint(30, 300)
            needs = [[station, 1]] if rng.random() < 0.4 else []
            return [secs, secs, 0, 0, needs]
        if kind == "cook":
            secs = rng.randint(60, 900)
            amount = rng.randint(1, stations[station])
            return [secs, rng.randint(5, 30), rng.choice([0, 0, rng.randint(5, 30)]), 0, [[station, amount]]]
        if kind == "rest":
            return [rng.randint(60, 300), 0, 0, 0, []]
        secs = rng.randint(10, 60)
        return [secs, secs, 0, 0, []]

    def window(least, slack):
        return [least, least + round(rng.randint(0, slack) * tight)]

    while len(tasks) < plating:
        chain = range(len(tasks), min(plating, len(tasks) + rng.randint(1, 7)))
        for i in chain:
            tasks.append(step())
            if i > chain[0]:
                edges = rng.choice(["es", "es", "es", "es", "ss", "ee", "se"])
                least = rng.choice([0, 0, rng.randint(0, 60)])
                if edges == "se":
                    least += min(tasks[i - 1][0], tasks[i][0])
                greatest = window(least, 400)[1] if rng.random() < windows else None
                if edges == "ss" and greatest is not None:
                    greatest += tasks[i - 1][0]
                links.append([i - 1, edges[0], i, edges[1], least, greatest])
        last = chain[-1]
        if rng.random() < held:
            tasks[last][3] = rng.randint(1, 4)
        least = rng.choice([0, 0, rng.randint(0, 180)])
        greatest = window(least + 30, 1200)[1] if rng.random() < windows else None
        links.append([last, "e", plating, "s", least, greatest])
    plate = rng.randint(20, 90)
    tasks.append([plate, plate, 0, 0, []])

    for _ in range(rng.randint(0, 1 + size // 8)):
        a, b = sorted(rng.sample(range(plating), 2)) if plating > 1 else (0, 0)
        if a == b:
            continue
        edges = rng.choice(["ss", "se", "es", "ee"])
        least = rng.randint(-300, 60)
        greatest = window(max(least, 0), 900)[1] if rng.random() < windows else None
        links.append([a, edges[0], b, edges[1], least, greatest])
    return {"cooks": cooks, "stations": stations, "tasks": tasks, "links": links}


def prove(kitchen, aid=None, longer=0):
    """[holding, lead] with proof, None where nothing fits, or the word 'unsettled'.

    `aid` may add to the model what is true anyway and helps the proof, or what takes `longer` seconds at the most.
    """
    tasks, links = kitchen["tasks"], kitchen["links"]
    horizon = sum(t[0] for t in tasks) + sum(abs(l[4]) + (l[5] or 0) for l in links) + longer + 1
    m = cp_model.CpModel()
    start = [m.new_int_var(0, horizon, f"s{i}") for i in range(len(tasks))]
    plating = len(tasks) - 1

    hands, use = [], [[] for _ in kitchen["stations"]]
    for i, (secs, first, last, _, needs) in enumerate(tasks):
        if i != plating:
            m.add(start[i] + secs <= start[plating])
        if first:
            hands.append((m.new_fixed_size_interval_var(start[i], first, f"f{i}"), 1))
        if last:
            hands.append((m.new_fixed_size_interval_var(start[i] + secs - last, last, f"l{i}"), 1))
        for station, amount in needs:
            use[station].append((m.new_fixed_size_interval_var(start[i], secs, f"u{i}.{station}"), amount))
    for demands, capacity in [(hands, kitchen["cooks"]), *zip(use, kitchen["stations"])]:
        if demands:
            m.add_cumulative([d[0] for d in demands], [d[1] for d in demands], capacity)

    def edge(i, which):
        return start[i] + (tasks[i][0] if which == "e" else 0)

    for a, ea, b, eb, least, greatest in links:
        gap = edge(b, eb) - edge(a, ea)
        m.add(gap >= least)
        if greatest is not None:
            m.add(gap <= greatest)

    holding = sum(t[3] * (start[plating] - start[i] - t[0]) for i, t in enumerate(tasks) if t[3])
    outset = m.new_int_var(0, horizon, "outset")
    m.add_min_equality(outset, start[:-1] if plating else start)
    m.add(outset == 0)

    if aid:
        aid(m, kitchen, start)
    best = []
    for value in (holding, start[plating] - outset):
        if isinstance(value, int):
            best.append(value)
            continue
        m.minimize(value)
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = SECONDS_PER_PROOF
        solver.parameters.num_workers = 2
        solver.parameters.random_seed = 1
        if aid:
            solver.parameters.linearization_level = 2
        status = solver.solve(m)
        if status == cp_model.INFEASIBLE:
            return None
        if status != cp_model.OPTIMAL:
            return "unsettled"
        best.append(round(solver.objective_value))
        m.add(value <= best[-1])
    return best


def write(path, left_out, unsettled, named, cases):
    """The solver, the draws that it left open, and one proven case a line."""
    body = ",\n".join(json.dumps(k, separators=(",", ":")) for k in cases)
    head = json.dumps({"solver": f"OR-Tools CP-SAT {ortools.__version__}", left_out: unsettled})
    with open(path, "w", encoding="ascii") as out:
        out.write(f'{head[:-1]}, "{named}": [\n{body}\n]}}\n')


def main(path):
    kitchens, unsettled, seed = [], [], 0
    while len(kitchens) < COUNT:
        kitchen = draw(seed)
        optimum = prove(kitchen)
        if optimum == "unsettled":
            unsettled.append(seed)
        else:
            kitchens.append({"seed": seed, **kitchen, "optimum": optimum})
        print(seed, len(kitchen["tasks"]), optimum, file=sys.stderr, flush=True)
        seed += 1
    write(path, "unsettled_seeds", unsettled, "kitchens", kitchens)


if __name__ == "__main__":
    main(sys.argv[1])
