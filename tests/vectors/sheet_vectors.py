"""Reference codes of whole sheets, packed by a second program written from the bit table in src/code/layout.rs.

Run:  pip install galois==0.4.11 numpy base32-crockford==0.3.0 pycountry
      python tests/vectors/sheet_vectors.py > tests/vectors/code_version_1.csv

Currency numbers are pycountry's copy of ISO 4217, dates the standard library's, check letters those of
code_vectors.py. The readings are drawn at random and mean nothing. Once committed, a row is never changed:
a code of version 1 opens for ever.
"""

from datetime import date, timedelta

import numpy as np
import pycountry
from code_vectors import sealed, text

DIVISIONS = {  # tenths of a milligram
    "0.1 g": (0, 1_000), "0.2 g": (1, 2_000), "0.5 g": (2, 5_000), "1 g": (3, 10_000), "2 g": (4, 20_000),
    "5 g": (5, 50_000), "10 g": (6, 100_000), "20 g": (7, 200_000), "50 g": (8, 500_000),
    "0.1 oz": (9, 28349.523125), "0.25 oz": (10, 70873.8078125),
}  # fmt: skip
CURRENCIES = (
    "AUD BRL CAD CHF CZK DKK EUR GBP HKD HUF INR ISK JPY KRW MXN NOK NZD PLN SEK SGD THB TRY USD VND ZAR"
).split()
FORMS = ["whole", "gutted", "gutted_scaled", "headed_gutted"]
COLUMNS = (
    "fish form division delivered_mg off_bone_mg ready_mg portions missing skin_on pin_bones_cut date "
    "price per currency nickname test dish skin_side_s finish_s rest_s count code"
).split()


def number_of(nickname):
    number = 0
    for letter in nickname:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


def packed(row, steps, price):
    """The carried values of a row; `steps` are its weights in scale steps, or None for ten milligrams."""
    bits = ""

    def put(value, width):
        nonlocal bits
        assert 0 <= value < 1 << width, (value, width)
        bits += f"{value:0{width}b}"

    put(1, 4)
    for column in ["off_bone_mg", "price", "nickname", "dish"]:
        put(int(row[column] != ""), 1)
    put(int(row["count"] > 1), 1)
    put(row["fish"], 7)
    put(FORMS.index(row["form"]), 3)
    put(DIVISIONS[row["division"]][0], 4)
    if steps is None:
        grain, width = 3, 22
        steps = [row[c] if row[c] == "" else row[c] // 10 for c in ("delivered_mg", "ready_mg", "off_bone_mg")]
    else:
        most = max(s for s in steps if s != "")
        grain, width = next((g, w) for g, w in enumerate((11, 15, 20)) if most < 1 << w)
    put(grain, 2)
    for step in steps:
        if step != "":
            put(step, width)
    put(row["portions"] or 0, 6)
    bits += row["missing"]
    put(row["skin_on"], 1)
    put(row["pin_bones_cut"], 1)
    put((date.fromisoformat(row["date"]) - date(2020, 1, 1)).days, 14)
    if row["price"] != "":
        put(price[0], 17)
        put(price[1], 2)
        put(int(row["per"] == "pound"), 1)
        put(int(pycountry.currencies.get(alpha_3=row["currency"]).numeric), 10)
    if row["nickname"] != "":
        put(8 * number_of(row["nickname"]) + row["test"] - 1, 22)
    if row["dish"] != "":
        put(row["dish"], 4)
        put(row["skin_side_s"] // 5, 7)
        put(row["finish_s"] // 5, 6)
        put(row["rest_s"] // 10, 6)
    if row["count"] > 1:
        put(row["count"] - 1, 5)
    while len(bits) % 20 != 0:
        bits += "0"
    return [int(bits[at : at + 5], 2) for at in range(0, len(bits), 5)]


def drawn(random, nth):
    def some(low, high):
        return int(random.integers(low, high + 1))

    row = dict.fromkeys(COLUMNS, "")
    row["fish"] = nth % 29
    row["form"] = FORMS[nth % 4]
    row["division"] = list(DIVISIONS)[nth % 11]
    tenths = DIVISIONS[row["division"]][1]
    most = [2_047, 32_767, 900_000][some(0, 2)]
    most = min(most, int(1_000_000_000 // tenths))  # 100 kg
    steps = [some(1, most), some(0, most), some(0, most) if nth % 3 else ""]
    mg = [s if s == "" else int(s * tenths / 10 + 0.5) for s in steps]
    if nth % 7 == 3 and row["division"] in ("1 g", "2 g", "5 g"):
        steps, mg = None, [10 * some(1, 4_000_000) for _ in range(3)]
        mg[0] = mg[0] // 1_000 * 1_000 + 510  # on no scale's step
    row["delivered_mg"], row["ready_mg"], row["off_bone_mg"] = mg
    row["portions"] = some(1, 63) if nth % 5 else ""
    row["missing"] = f"{some(0, 31):05b}"
    row["skin_on"], row["pin_bones_cut"] = some(0, 1), some(0, 1)
    row["date"] = (date(2020, 1, 1) + timedelta(some(0, 16_383))).isoformat()
    price = None
    if nth % 4 != 1:
        row["per"], row["currency"] = ["kilo", "pound"][some(0, 1)], CURRENCIES[nth % 25]
        power = [0, 1, 3][some(0, 2)]
        if power == 0:
            figure = some(1, 131_071)
            row["price"] = f"{figure // 100}.{figure % 100:02d}"
        elif power == 1:  # more than hundredths hold
            figure = 10 * some(1_311, 13_000) + some(1, 9)
            row["price"] = f"{figure // 10}.{figure % 10}"
        else:
            figure = 10 * some(132, 9_999) + some(1, 9)
            row["price"] = f"{figure}00"
        price = (figure, power)
    if nth % 6 != 2:
        row["nickname"] = "".join(chr(65 + some(0, 25)) for _ in range(some(1, 4)))
        row["test"] = some(1, 8)
    if nth % 5 != 3:
        row["dish"] = some(0, 15)
        row["skin_side_s"], row["finish_s"], row["rest_s"] = 5 * some(0, 127), 5 * some(0, 63), 10 * some(0, 63)
    row["count"] = some(2, 32) if nth % 8 == 5 else 1
    return row, steps, price


def main():
    random = np.random.default_rng(66)
    print(",".join(COLUMNS))
    for nth in range(150):
        row, steps, price = drawn(random, nth)
        row["code"] = text(sealed(packed(row, steps, price)))
        print(",".join(str(row[column]) for column in COLUMNS))


if __name__ == "__main__":
    main()
