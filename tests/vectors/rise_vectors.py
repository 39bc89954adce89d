"""Reference intervals for the next fish along a trend, by statsmodels, scipy and numpy.

Run:  pip install numpy==2.4.6 scipy==1.17.1 statsmodels==0.15.0
      python tests/vectors/rise_vectors.py > tests/vectors/rises.csv

Days of one fish, and the fish of one day, are a simple regression on their number: `statsmodels` gives the prediction
interval of the next number. Days of several fish: the line through their means by `numpy.linalg.lstsq`, the variance of
the next fish put together from its components, each mean square with its own degrees of freedom (Satterthwaite).
Whichever: the low end of a rise is that at the last day's place of the line (one step lower), the high end that of the
next; of a fall the other way round. Whether there is a trend is Kendall's exact test by `scipy`; rows without one say so.
"""

import numpy as np
import scipy
import statsmodels
import statsmodels.api as sm
from scipy import stats

SHARES = (0.8, 0.9, 0.95)


def regressed(values):
    """Prediction interval and slope of the next of single values."""
    numbers = np.arange(1, len(values) + 1)
    fit = sm.OLS(values, sm.add_constant(numbers)).fit()
    new = fit.get_prediction([[1, len(values) + 1]])
    interval = lambda share: new.conf_int(obs=True, alpha=1 - share)[0]
    return interval, fit.params[1]


def of_days(days):
    """The same of days of several fish."""
    count = len(days)
    sizes = np.array([len(own) for own in days])
    means = np.array([np.mean(own) for own in days])
    design = np.column_stack([np.ones(count), np.arange(1, count + 1)])
    (start, slope), *_ = np.linalg.lstsq(design, means, rcond=None)
    # What each mean adds to the line at the next number, and what the residuals leave of each.
    ahead = np.array([1, count + 1]) @ np.linalg.pinv(design)
    hat = design @ np.linalg.pinv(design)
    freedom, inside_freedom = count - 2, int(sizes.sum() - count)
    of_means = ((means - design @ [start, slope]) ** 2).sum() / freedom
    inside = sum(((np.array(own) - np.mean(own)) ** 2).sum() for own in days) / max(inside_freedom, 1)
    share = ((1 - np.diag(hat)) / sizes).sum() / freedom
    # between + inside for the new fish, between + inside / size for each mean; between = of_means - share * inside.
    times = 1 + (ahead**2).sum()
    parts = [(of_means * times, freedom)]
    parts.append((inside * max(1 + (ahead**2 / sizes).sum() - share * times, 0), max(inside_freedom, 1)))
    variance = sum(part for part, _ in parts)
    degrees = variance**2 / sum(part**2 / own for part, own in parts)
    new = stats.t(degrees, loc=start + slope * (count + 1), scale=np.sqrt(variance))
    return new.interval, slope


def main():
    print(f"# scipy {scipy.__version__}, numpy {np.__version__}, statsmodels {statsmodels.__version__}")
    print("deliveries,share,is_trend,low,high")
    random = np.random.default_rng(29)
    for sizes in ((1,) * 5, (1,) * 9, (7,), (12,), (2,) * 6, (1, 3, 2, 5, 1, 2), (4,) * 8, (1, 1, 1, 1, 9)):
        for rise in (0.0, 0.009, -0.012):
            days = []
            for nth, size in enumerate(sizes):
                own = 0.45 + rise * nth + (0.004 * random.normal() if len(sizes) > 1 else 0)
                along = rise * np.arange(size) if len(sizes) == 1 else 0
                days.append(np.round(own + along + random.normal(0, 0.006, size), 6))
            order = days[0] if len(days) == 1 else np.array([own.mean() for own in days])
            chance = stats.kendalltau(np.arange(len(order)), order, method="exact").pvalue
            interval, slope = regressed(order) if len(days) == 1 or set(sizes) == {1} else of_days(days)
            for share in SHARES:
                low, high = interval(share)
                low, high = low - max(slope, 0), high - min(slope, 0)
                written = ";".join(" ".join(map(str, own)) for own in days)
                print(written, share, int(chance <= 0.05), repr(float(low)), repr(float(high)), sep=",")


if __name__ == "__main__":
    main()
