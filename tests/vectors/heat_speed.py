"""How long scipy takes over the course that `tests/bench/heats.rs` times.

Run:  python heat_speed.py
Needs scipy and CoolProp (PyPI). The model of `heat_reference.py` on as many volumes as the product has, by BDF at a
tolerance of a hundredth of a kelvin: one course of the bream on steel, and seven of them, which is the least that a
band takes (the estimate and three figures off either way) when every time is known already. The product's advice
searches for its times as well.
"""

import statistics
import time

import heat_reference
import scipy
from heat_reference import MEDIUM, PAN, SCUP, case, fillet

RUNS = 3


def main():
    heat_reference.CELLS = 20
    times = []
    for _ in range(RUNS):
        began = time.perf_counter()
        case("bream on steel", "scup", SCUP, **PAN, **MEDIUM, **fillet(19, 150, 5, 450, 290, 350))
        times.append(time.perf_counter() - began)
    one = statistics.median(times)
    print(f"scipy {scipy.__version__}: one course {one * 1000:.0f} ms, seven {7 * one * 1000:.0f} ms")


if __name__ == "__main__":
    main()
