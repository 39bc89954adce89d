"""Two published project scheduling instances, with optima proven by an independent solver.

Run:  python plan_published.py DATA plan_published.json
DATA is the folder `data` of the source distribution of the PyPI package `psplib` (0.4.0, MIT), which carries

  j301_1.sm     PSPLIB, set j30 (Kolisch and Sprecher, 'PSPLIB: a project scheduling problem library',
                European Journal of Operational Research 96, 1997): 30 activities, 4 resources
  UBO10_01.sch  set UBO10 of the project scheduling problem with minimum and maximum time lags (Kolisch,
                Schwindt and Sprecher, 1999): 10 activities, 5 resources

Both ask for the shortest project: no step is held, the sink is plating, and no step takes hands.
Needs OR-Tools and psplib (PyPI). The output has the form of plan_instances.json.
"""

import json
import sys

import ortools
from psplib import parse

from plan_instances import prove


def kitchen(path, form):
    p = parse(path, form)
    tasks, links = [], []
    for i, activity in enumerate(p.activities):
        mode = activity.modes[0]
        needs = [[r, d] for r, d in enumerate(mode.demands) if d]
        tasks.append([mode.duration, 0, 0, 0, needs])
        delays = getattr(activity, "delays", None)
        for k, j in enumerate(activity.successors):
            if delays:
                # A start-to-start lag; one below zero is a greatest gap the other way round.
                links.append([i, "s", j, "s", delays[k], None])
            else:
                links.append([i, "e", j, "s", 0, None])
    return {"cooks": 1, "stations": [r.capacity for r in p.resources], "tasks": tasks, "links": links}


def main(data, path):
    kitchens = []
    for name, form in (("j301_1.sm", "psplib"), ("UBO10_01.sch", "rcpsp_max")):
        k = kitchen(f"{data}/{name}", form)
        kitchens.append({"name": name, **k, "optimum": prove(k)})
        print(name, kitchens[-1]["optimum"], file=sys.stderr)
    body = ",\n".join(json.dumps(k, separators=(",", ":")) for k in kitchens)
    with open(path, "w", encoding="ascii") as out:
        out.write(f'{{"solver": "OR-Tools CP-SAT {ortools.__version__}", "kitchens": [\n{body}\n]}}\n')


if __name__ == "__main__":
    main(*sys.argv[1:])
