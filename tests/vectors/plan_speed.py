"""How long OR-Tools CP-SAT takes to prove the plans that `tests/bench/plans.rs` times.

Run:  python plan_speed.py
Needs OR-Tools (PyPI `ortools`). The same kitchens of `plan_instances.json` and of `plan_alike.json`, these with the
aid they were proven with: the first three of 10, of 20 and of 38 to 40 steps that fit. Prints the median of three proofs of each, model building left out for neither: both start from the
kitchen as data.
"""

import json
import os
import statistics
import time

import ortools
from plan_alike import aid
from plan_instances import prove

HERE = os.path.dirname(os.path.abspath(__file__))
SIZES, EACH, RUNS = ((10, 10), (20, 20), (38, 40)), 3, 3


def main():
    print(f"OR-Tools CP-SAT {ortools.__version__}, two workers")
    for name, helped in (("plan_instances.json", None), ("plan_alike.json", aid)):
        with open(os.path.join(HERE, name), encoding="ascii") as file:
            kitchens = json.load(file)["kitchens"]
        print(name)
        measure(kitchens, helped)


def measure(kitchens, helped):
    for least, most in SIZES:
        fitting = [k for k in kitchens if least <= len(k["tasks"]) <= most and k["optimum"]][:EACH]
        times, unsettled = [], 0
        for kitchen in fitting:
            for _ in range(RUNS):
                began = time.perf_counter()
                outcome = prove(kitchen, helped)
                assert outcome in (kitchen["optimum"], "unsettled")
                unsettled += outcome == "unsettled"
                times.append(time.perf_counter() - began)
        print(f"{least} to {most} steps, {len(fitting)} kitchens: {statistics.median(times) * 1000:.1f} ms in the median, "
              f"{max(times) * 1000:.1f} ms at most, {unsettled} of {len(times)} proofs not done within their limit")


if __name__ == "__main__":
    main()
