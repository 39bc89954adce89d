"""Reference quantiles of Student's t and prediction intervals for one new fish, by numpy and scipy.

Run:  pip install numpy==2.4.6 scipy==1.17.1
      python tests/vectors/outlook_vectors.py > tests/vectors/outlooks.csv

The interval is not worked out from its textbook formula: the new fish's distance from the mean of the
earlier ones, over its standard error, is what `scipy.stats.t` is asked for, with that error as its scale.
"""

import numpy as np
import scipy
from scipy import stats


def main():
    print(f"# scipy {scipy.__version__}, numpy {np.__version__}")
    print("what,values,share,low,high,at_least")
    for freedom in (1, 2, 3, 4, 5, 9, 29, 99, 999, 9999):
        for share in (0.55, 0.8, 0.9, 0.95, 0.975, 0.999):
            print("t", freedom, share, repr(float(stats.t.ppf(share, freedom))), "", "", sep=",")
    random = np.random.default_rng(3)
    for count in (3, 4, 5, 12, 100):
        for deviation in (0.004, 0.03):
            yields = np.round(random.normal(0.46, deviation, count), 4)
            error = np.sqrt(np.var(yields, ddof=1) + stats.sem(yields) ** 2)
            new = stats.t(count - 1, loc=np.mean(yields), scale=error)
            for share in (0.8, 0.9, 0.95):
                low, high = new.interval(share)
                row = [low, high, new.ppf(1 - share)]
                print(
                    "outlook",
                    " ".join(map(str, yields)),
                    share,
                    *(repr(float(value)) for value in row),
                    sep=",",
                )


if __name__ == "__main__":
    main()
