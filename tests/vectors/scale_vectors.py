"""What a scale's steps and its zero leave open in a yield, by simulation with numpy and convolution with scipy.

Run:  pip install numpy==2.4.6 scipy==1.17.1
      python tests/vectors/scale_vectors.py > tests/vectors/scale_doubts.csv

A true fish lies on a scale whose zero is off by up to five steps. The scale shows every load, that zero included, to the
nearest step. What it shows empty is read as well, and taken off both weights: `each`, where it is set or read anew before
each weight; `once`, where the first reading of it holds for both. Told are the standard uncertainty, the furthest yields
and what 95 in 100 stay within (by convolving densities), and what the simulation found: the 95th of 100 errors, and the
largest as a share of what the two weights of its own draw allow.
"""

import numpy as np
import scipy
from scipy import signal

DRAWS = 400_000


def convolved(ratio, cells=4000):
    """What one, one, `ratio` and `ratio` steps, each evenly spread, stay within in 95 of 100 cases."""
    grid = 1 / cells
    box = lambda width: np.ones(max(round(width / grid), 1))
    shape = np.ones(1)
    for width in (1, 1, ratio, ratio):
        shape = signal.fftconvolve(shape, box(width))
    share = np.cumsum(shape) / shape.sum()
    at = (np.arange(len(shape)) - (len(shape) - 1) / 2) * grid
    return np.interp(0.975, share, at) + grid / 2


def simulated(random, delivered, ready, step, is_once):
    true = [weight + random.uniform(-3, 3, DRAWS) * step for weight in (delivered, ready)]
    zero = random.uniform(-5, 5, DRAWS) * step
    zeros = (zero, zero if is_once else random.uniform(-5, 5, DRAWS) * step)
    shown = lambda load: np.round(load / step) * step
    read = [shown(load + off) - shown(off) for load, off in zip(true, zeros)]
    told = read[1] / read[0]
    error = np.abs(told - true[1] / true[0])
    highest, lowest = (read[1] + step) / (read[0] - step), (read[1] - step) / (read[0] + step)
    return np.quantile(error, 0.95), (error / np.maximum(highest - told, told - lowest)).max()


def main():
    print(f"# scipy {scipy.__version__}, numpy {np.__version__}, {DRAWS} draws")
    print("delivered_g,ready_g,step_g,standard,lowest,highest,mostly,each_95,each_most_share,once_95,once_most_share")
    random = np.random.default_rng(23)
    for delivered, ready, step in (
        (648, 302, 1),
        (648, 302, 2),
        (1500, 660, 10),
        (2350, 1034, 2),
        (354, 214, 5),
        (412, 196, 0.1),
        (2000, 100, 5),
        (900, 860, 2),
    ):
        ratio = ready / delivered
        standard = step / np.sqrt(6) / delivered * np.hypot(1, ratio)
        ends = ((ready - step) / (delivered + step), (ready + step) / (delivered - step))
        mostly = convolved(ratio) * step / delivered
        found = [figure for once in (False, True) for figure in simulated(random, delivered, ready, step, once)]
        print(delivered, ready, step, *(repr(float(figure)) for figure in (standard, *ends, mostly, *found)), sep=",")


if __name__ == "__main__":
    main()
