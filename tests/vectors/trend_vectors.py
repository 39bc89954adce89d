"""Reference trends by scipy: Theil-Sen slope and Kendall's exact two-sided probability, of values without ties.

Run:  pip install numpy scipy==1.17.1
      python tests/vectors/trend_vectors.py > tests/vectors/trends.csv
"""

import numpy as np
from scipy import stats


def main():
    random = np.random.default_rng(14)
    print("values,step,chance")
    for count in (2, 3, 4, 5, 6, 8, 12, 24, 32):
        for rise in (0.0, 0.004, -0.02):
            values = 0.44 + rise * np.arange(count) + random.normal(0, 0.015, count)
            step = stats.theilslopes(values).slope
            chance = stats.kendalltau(np.arange(count), values, method="exact").pvalue
            print(" ".join(map(repr, map(float, values))), repr(float(step)), repr(float(chance)), sep=",")


if __name__ == "__main__":
    main()
