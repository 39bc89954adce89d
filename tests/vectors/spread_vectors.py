"""Reference spreads by numpy and scipy: quantiles of type 7, sample deviation, scaled median deviation.

Run:  pip install numpy==2.4.6 scipy==1.17.1
      python tests/vectors/spread_vectors.py > tests/vectors/spreads.csv
"""

import numpy as np
from scipy import stats


def main():
    random = np.random.default_rng(24)
    print("values,least,lower_quartile,median,upper_quartile,most,mean,deviation,robust_deviation")
    for count in (2, 3, 4, 5, 6, 7, 24, 30, 101):
        for nth in range(3):
            values = np.round(random.normal(0.46, 0.03, count), 4)
            if nth == 1:
                values[0] *= 10
            if nth == 2:
                values = np.round(values, 2)  # ties
            row = [
                values.min(),
                *np.quantile(values, (0.25, 0.5, 0.75), method="linear"),
                values.max(),
                values.mean(),
                values.std(ddof=1),
                stats.median_abs_deviation(values, scale="normal"),
            ]
            print(" ".join(map(str, values)), *(repr(float(value)) for value in row), sep=",")


if __name__ == "__main__":
    main()
