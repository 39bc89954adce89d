"""How far from the median of its class a result must lie before it is flagged: limits by simulation, with their power.

Run:  pip install numpy==2.4.6 scipy==1.17.1
      python tests/vectors/flag_limits.py > tests/vectors/flag_limits.csv

The distance is in median absolute deviations, scaled by scipy to a standard deviation. Of honest classes, normally spread
and of any spread, one in four hundred has a result past the limit: a board holds four measures against it (yield,
trimming, size, price), so that at most one honest class in a hundred is troubled. `largest` is what scipy's Student t gives
for the largest of so many, each beside the others, at the same chance: not what is used, since one wrong result hides
another there, but what a robust limit has to lie above. `power` is the share of a slip of so many true deviations found.
"""

import numpy as np
import scipy
from scipy import stats

CHANCE = 1 / 400
SIZES = (5, 6, 7, 8, 9, 10, 12, 14, 16, 20, 24, 32, 48, 96, 300, 1_000, 5_000)
SLIPS = (4, 6, 8, 12, 20)


def distances(values):
    median = np.median(values, axis=1, keepdims=True)
    return np.abs(values - median) / stats.median_abs_deviation(values, axis=1, scale="normal")[:, None]


def drawn(random, size, classes):
    step = 2_000_000 // size
    for at in range(0, classes, step):
        yield random.standard_normal((min(step, classes - at), size))


def main():
    print(f"# scipy {scipy.__version__}, numpy {np.__version__}")
    print("results,limit,largest," + ",".join(f"power_{slip}" for slip in SLIPS))
    random = np.random.default_rng(14)
    for size in SIZES:
        classes = 400_000 if size < 40 else 6_000_000 // size + 20_000
        most = np.concatenate([distances(values).max(axis=1) for values in drawn(random, size, classes)])
        limit = np.quantile(most, 1 - CHANCE)
        largest = stats.t.ppf(1 - CHANCE / size / 2, size - 2) * np.sqrt(1 + 1 / (size - 1))
        powers = []
        for slip in SLIPS:
            found = []
            for values in drawn(random, size, min(20_000, 4_000_000 // size)):
                values[:, 0] -= slip
                found.append(distances(values)[:, 0] > limit)
            powers.append(np.concatenate(found).mean())
        print(size, f"{limit:.2f}", f"{largest:.2f}", *(f"{power:.3f}" for power in powers), sep=",")


if __name__ == "__main__":
    main()
