"""Random kitchens whose oven steps have temperatures, with optima proven by an independent solver.

Run:  python plan_ovens.py plan_ovens.json
Needs OR-Tools (PyPI `ortools`); its version is written into the file.

The kitchens are those of `plan_instances.py`, other seeds and fewer steps. Some of their steps lie in one oven with room for
all, each at a temperature. Two that are further apart than WITHIN are never in it together, and between them the oven
takes CHANGE seconds. CP-SAT is told so as it stands here, two by two. The product knows no temperatures in its plan: for
each two such steps it is given a station with one place that takes CHANGE seconds to be made ready, as the dish states it.
Those stations are what is written; "ready" holds their seconds.
"""

import random
import sys

import plan_instances

COUNT = 300
WITHIN, CHANGE = 10, 300


def draw(seed):
    """A kitchen, and the temperature of each step in the oven."""
    rng = random.Random(seed)
    while True:
        kitchen = plan_instances.draw(rng.randrange(10**6) + 10_000)
        if len(kitchen["tasks"]) <= 18:
            break
    steps = list(range(len(kitchen["tasks"]) - 1))
    rng.shuffle(steps)
    heat = {k: rng.choice([80, 160, 165, 180, 200, 220]) for k in steps[: rng.randint(2, 5)]}
    return kitchen, heat


def apart(heat):
    """The steps that can't be in the oven together."""
    steps = sorted(heat)
    return [(a, b) for a in steps for b in steps if a < b and abs(heat[a] - heat[b]) > WITHIN]


def main(path):
    kitchens, unsettled, seed = [], [], 0
    plan_instances.SECONDS_PER_PROOF = 10
    while len(kitchens) < COUNT:
        kitchen, heat = draw(seed)
        pairs = apart(heat)

        def keep_apart(model, kitchen, start):
            for a, b in pairs:
                first = model.new_bool_var(f"{a} before {b}")
                model.add(start[b] >= start[a] + kitchen["tasks"][a][0] + CHANGE).only_enforce_if(first)
                model.add(start[a] >= start[b] + kitchen["tasks"][b][0] + CHANGE).only_enforce_if(~first)

        optimum = plan_instances.prove(kitchen, keep_apart, CHANGE * len(heat)) if pairs else "unsettled"
        if optimum == "unsettled":
            unsettled.append(seed)
        else:
            kitchen["ready"] = [0] * len(kitchen["stations"])
            for a, b in pairs:
                for step in (a, b):
                    kitchen["tasks"][step][4].append([len(kitchen["stations"]), 1])
                kitchen["stations"].append(1)
                kitchen["ready"].append(CHANGE)
            kitchens.append({"seed": seed, **kitchen, "optimum": optimum})
        print(seed, len(kitchen["tasks"]), len(pairs), optimum, file=sys.stderr, flush=True)
        seed += 1
    plan_instances.write(path, "left_out_seeds", unsettled, "kitchens", kitchens)


if __name__ == "__main__":
    main(sys.argv[1])
