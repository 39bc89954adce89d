"""Reference words of the result code, by an independent library for finite fields.

Run:  pip install galois==0.4.11 numpy base32-crockford==0.3.0
      python tests/vectors/code_vectors.py > tests/vectors/code_words.csv

The field of 1024 elements is galois's own GF(2^10) (another basis than the product's pairs); the field of the
letters is found inside it, and the check letters are the remainder by the product of (x - root) over the roots
u^0, u^1, u^2, u^3, u^4 and their conjugates, computed with galois.Poly. Letters come from base32-crockford.
"""

import base32_crockford
import galois
import numpy as np

LETTERS = base32_crockford.symbols[:32]
BIG = galois.GF(2**10)
CHECKS = 8


def embedded():
    """The 32 letters' values as elements of the larger field: x is a root of x^5 + x^2 + 1."""
    step = BIG.primitive_element ** 33
    x = next(step**k for k in range(31) if (step**k) ** 5 + (step**k) ** 2 + BIG(1) == 0)
    values = []
    for value in range(32):
        total = BIG(0)
        for bit in range(5):
            if value >> bit & 1:
                total = total + x**bit
        values.append(total)
    return values


VALUES = embedded()
BACK = {int(element): value for value, element in enumerate(VALUES)}
U = next(BIG(k) for k in range(1, 1024) if BIG(k) ** 2 == VALUES[2] * BIG(k) + VALUES[4])
assert U.multiplicative_order() == 93
ROOTS = sorted({int(U ** (j * power)) for j in range(5) for power in (1, 32)})
GENERATOR = galois.Poly.Roots(BIG(ROOTS))
assert GENERATOR.degree == CHECKS


def sealed(carried):
    """Carried values to the whole word as values, masked as it is read aloud."""
    length = len(carried) + CHECKS
    message = [length // 4, *carried] + [0] * CHECKS
    remainder = galois.Poly(BIG([int(VALUES[v]) for v in message])) % GENERATOR
    checks = [BACK[int(c)] for c in remainder.coefficients(CHECKS)]
    x = VALUES[2]
    return [
        BACK[int(VALUES[value] + x**place)] for place, value in enumerate([*carried, *checks])
    ]


def text(values):
    return "".join(LETTERS[v] for v in values)


def main():
    random = np.random.default_rng(6)
    print("carried,code,heard,places")
    for length in range(24, 49, 4):
        for nth in range(12):
            carried = [int(v) for v in random.integers(0, 32, length - CHECKS)]
            if nth == 0:
                carried = [0] * len(carried)
            word = sealed(carried)
            places = sorted(int(p) for p in random.choice(length, nth % 3, replace=False))
            heard = list(word)
            for place in places:
                heard[place] ^= int(random.integers(1, 32))
            print(text(carried), text(word), text(heard), " ".join(map(str, places)), sep=",")


if __name__ == "__main__":
    main()
