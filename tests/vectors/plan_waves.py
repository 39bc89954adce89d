"""Random services of several dishes in waves, with optima proven by an independent solver.

Run:  python plan_waves.py plan_waves.json
Needs OR-Tools (PyPI `ortools`); its version is written into the file.

What is drawn is dishes, as a card states them, and a kitchen that is counted: cooks, pans, burners, shelves, boards. The
model below is stated forwards in time, straight from what a cook is told, and knows nothing of how the product joins
dishes to one or counts its places:

- a step keeps the gaps after what it waits for; what begins at once begins with the end of that;
- the plates of one wave are made one after the other, the first dish of the list last, no more than TOGETHER apart; those
  of later guests are begun so many seconds after the first ones;
- a pan holds one thing, and stands on a burner, as a pot does; shelves and boards are as many as are counted; two oven
  steps further apart than WITHIN are never in it together, with CHANGE seconds between;
- a cook has one pair of hands;
- everything but what follows the last plates is over when those are begun, which needs no place then.

For each service CP-SAT proves, in turn, the least total of what waits (seconds from the end of a step that a plate is to
follow within a time, to the plates of its wave), and with that the least lead: last plates less first start. Draws that
it can't settle within the limit are left out and listed: which those are depends on the machine, the values do not.
"""

import random
import sys

from ortools.sat.python import cp_model

import plan_instances

COUNT = 300
SECONDS_PER_PROOF = 10
TOGETHER, WITHIN, CHANGE = 180, 10, 600


def draw_dish(rng):
    steps = []

    def add(kind, station, secs, hands, after, **more):
        step = {"id": f"{kind}{len(steps)}", "hands": hands, "begins": "tap", "links": after}
        step["lasts" if more.pop("timed", False) else "takes"] = secs
        if station:
            step["station"] = station
        step.update(more)
        steps.append(step)
        return step["id"]

    ends = []
    for _ in range(rng.randint(1, 3)):
        last = []
        if rng.random() < 0.6:
            done = add("cut", rng.choice(["board", "board", None]), rng.randint(30, 200), True, last)
            last = [{"to": done, "edge": "end", **({"most": rng.randint(60, 600)} if rng.random() < 0.2 else {})}]
        place = rng.choice(["pan", "pan", "oven", "stove"])
        more = {"oven_c": rng.choice([80, 160, 165, 200, 220])} if place == "oven" and rng.random() < 0.7 else {}
        secs = rng.randint(60, 500)
        done = add("cook", place, secs, False, last, timed=True, hands_first=rng.randint(0, 30), **more)
        if rng.random() < 0.4:
            at_once = rng.random() < 0.6
            after = [{"to": done, "edge": "end"}]
            done = add("rest", rng.choice(["board", None]), rng.randint(60, 240), False, after, timed=True)
            if at_once:
                steps[-1]["begins"] = "at_once"
        ends.append({"to": done, "edge": "end", **({"most": rng.choice([60, 120, 180, 300])} if rng.random() < 0.8 else {})})
    if rng.random() < 0.5:
        done = add("dress", "board", rng.randint(10, 60), True, [])
        ends.append({"to": done, "edge": "end", "most": rng.choice([60, 120, 180])})
    plate = add("plate", "plate", rng.randint(20, 90), True, ends)
    add("rim", "plate", rng.randint(10, 30), True, [{"to": plate, "edge": "end", "most": 60}])
    return steps


def draw(seed):
    rng = random.Random(seed)
    waves = rng.choice([[0], [0, 0], [0, 420], [0, 0, 420], [0, 300, 900], [0, 600, 600], [600, 0], [300, 0, 0]])
    several = [{"key": "" if nth == 0 else f"k{nth}", "later": later, "steps": draw_dish(rng)}
               for nth, later in enumerate(waves)]
    count = lambda most: rng.randint(1, most) if rng.random() < 0.4 else None
    return {"cooks": rng.randint(1, 4), "pans": rng.randint(1, 3), "burners": count(4), "shelves": count(2),
            "boards": count(2), "dishes": several}


def length(step):
    return step.get("lasts", step.get("takes"))


def prove(service):
    model = cp_model.CpModel()
    dishes = service["dishes"]
    first = min(one["later"] for one in dishes)
    steps = [(nth, step) for nth, one in enumerate(dishes) for step in one["steps"]]
    # One after the other, with the oven changed before each, and the last guests waited for: nothing takes longer.
    horizon = sum(length(step) + CHANGE * (step.get("station") == "oven") for _, step in steps)
    horizon += max(one["later"] for one in dishes) - first
    start = {(nth, step["id"]): model.new_int_var(0, horizon, f"{nth} {step['id']}") for nth, step in steps}
    end = lambda nth, step: start[nth, step["id"]] + length(step)
    by_id = {(nth, step["id"]): step for nth, step in steps}
    plate = [next(s for s in one["steps"] if s["id"].startswith("plate")) for one in dishes]

    # The plates of each wave in the order they are made, and the one with which the wave goes out.
    waves = {}
    for nth in reversed(range(len(dishes))):
        waves.setdefault(dishes[nth]["later"] - first, []).append(nth)
    goes_out = {}
    for later, members in waves.items():
        for before, after in zip(members, members[1:]):
            gap = start[after, plate[after]["id"]] - end(before, plate[before])
            model.add(gap >= 0)
            model.add(gap <= TOGETHER)
        last = members[-1]
        for nth in members:
            goes_out[nth] = start[last, plate[last]["id"]]
    out = {later: start[members[-1], plate[members[-1]]["id"]] for later, members in waves.items()}
    for later, moment in out.items():
        model.add(moment == out[0] + later)
    final_dish = waves[max(waves)][-1]
    final = start[final_dish, plate[final_dish]["id"]]
    rim = next(s["id"] for s in dishes[final_dish]["steps"] if s["id"].startswith("rim"))
    before_final = [(nth, s) for nth, s in steps if (nth, s["id"]) not in {(final_dish, rim), (final_dish, plate[final_dish]["id"])}]
    counted = before_final + [(final_dish, plate[final_dish])]

    for nth, step in counted:
        for link in step["links"]:
            gap = start[nth, step["id"]] - end(nth, by_id[nth, link["to"]])
            model.add(gap >= link.get("least", 0))
            if "most" in link:
                model.add(gap <= link["most"])
            elif step["begins"] == "at_once":
                model.add(gap == 0)
    for nth, step in before_final:
        model.add(end(nth, step) <= final)

    def at_most(places, taken):
        spans = [model.new_fixed_size_interval_var(begin, secs, "") for begin, secs in taken if secs > 0]
        if places is not None and spans:
            model.add_cumulative(spans, [1] * len(spans), places)

    def at(*stations):
        return [(start[nth, s["id"]], length(s)) for nth, s in before_final if s.get("station") in stations]

    at_most(service["pans"], at("pan"))
    at_most(service["burners"], at("pan", "stove"))
    at_most(service["shelves"], at("oven"))
    at_most(service["boards"], at("board"))
    hands = [(start[nth, s["id"]], length(s) if s["hands"] else min(s.get("hands_first", 0), length(s))) for nth, s in before_final]
    at_most(service["cooks"], hands)
    ovens = [(nth, s) for nth, s in before_final if s.get("station") == "oven" and "oven_c" in s]
    for a, (one, first_step) in enumerate(ovens):
        for other, second_step in ovens[a + 1:]:
            if abs(first_step["oven_c"] - second_step["oven_c"]) > WITHIN:
                order = model.new_bool_var("")
                model.add(start[other, second_step["id"]] >= end(one, first_step) + CHANGE).only_enforce_if(order)
                model.add(start[one, first_step["id"]] >= end(other, second_step) + CHANGE).only_enforce_if(~order)

    held = [(nth, by_id[nth, link["to"]]) for nth, of in enumerate(plate) for link in of["links"] if "most" in link]
    holding = sum(goes_out[nth] - end(nth, step) for nth, step in held)
    begins = model.new_int_var(0, horizon, "begins")
    for nth, step in counted:
        model.add(begins <= start[nth, step["id"]])

    def least(goal):
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = SECONDS_PER_PROOF
        solver.parameters.num_workers = 2
        model.minimize(goal)
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE:
            return None
        return round(solver.objective_value) if status == cp_model.OPTIMAL else "unsettled"

    least_holding = least(holding)
    if least_holding in (None, "unsettled"):
        return least_holding
    model.add(holding == least_holding)
    lead = least(final - begins)
    return lead if lead == "unsettled" else [least_holding, lead]


def main(path):
    services, unsettled, seed = [], [], 0
    while len(services) < COUNT:
        service = draw(seed)
        optimum = prove(service)
        if optimum == "unsettled":
            unsettled.append(seed)
        else:
            services.append({"seed": seed, **service, "optimum": optimum})
        print(seed, sum(len(one["steps"]) for one in service["dishes"]), optimum, file=sys.stderr, flush=True)
        seed += 1
    plan_instances.write(path, "left_out_seeds", unsettled, "services", services)


if __name__ == "__main__":
    main(sys.argv[1])
