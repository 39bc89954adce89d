"""Reference intervals for one fish of another delivery, by numpy and scipy.

Run:  pip install numpy==2.4.6 scipy==1.17.1
      python tests/vectors/delivery_vectors.py > tests/vectors/deliveries.csv

The variance components come first (between deliveries by the method of unweighted means, inside them pooled), and the
variance of the next fish is put together from them; the degrees of freedom are Satterthwaite's, each mean square with
its own. `scipy.stats.t` gives the interval. A component below nothing stays below nothing, so that nothing is lost.
"""

import numpy as np
import scipy
from scipy import stats


def outlook(deliveries):
    sizes = np.array([len(own) for own in deliveries])
    means = np.array([np.mean(own) for own in deliveries])
    count, one_in = len(sizes), np.mean(1 / sizes)
    of_means = np.var(means, ddof=1)
    freedom_inside = int(sizes.sum() - count)
    squares = sum(((np.array(own) - np.mean(own)) ** 2).sum() for own in deliveries)
    inside = squares / freedom_inside if freedom_inside else 0.0
    between = of_means - inside * one_in
    # The next fish: its own delivery and itself, and the mean that it is held against.
    variance = between + inside + of_means / count
    parts = [((1 + 1 / count) * of_means, count - 1), ((1 - one_in) * inside, freedom_inside)]
    freedom = sum(part for part, _ in parts) ** 2 / sum(part**2 / own for part, own in parts if own)
    return stats.t(freedom, loc=np.mean(means), scale=np.sqrt(variance))


def main():
    print(f"# scipy {scipy.__version__}, numpy {np.__version__}")
    print("deliveries,share,low,high,at_least")
    random = np.random.default_rng(11)
    for sizes in ((1, 1, 1), (2, 2, 2), (1, 3, 5), (4, 1, 1, 1), (3, 2, 1, 6, 2), (5,) * 8):
        for between, inside in ((0.0, 0.02), (0.02, 0.01)):
            deliveries = [
                np.round(0.46 + between * random.normal() + random.normal(0, inside, size), 4) for size in sizes
            ]
            new = outlook(deliveries)
            for share in (0.8, 0.9, 0.95):
                row = [*new.interval(share), new.ppf(1 - share)]
                written = ";".join(" ".join(map(str, own)) for own in deliveries)
                print(written, share, *(repr(float(value)) for value in row), sep=",")


if __name__ == "__main__":
    main()
