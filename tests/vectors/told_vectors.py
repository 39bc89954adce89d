"""Reference codes of versions 3 and 4, which carry what the cook said of the filleting, packed by a second program
written from the bit table in src/code/layout.rs.

Run:  pip install galois==0.4.11 numpy base32-crockford==0.3.0 pycountry
      python tests/vectors/told_vectors.py > tests/vectors/code_told.csv

The readings are drawn as those of sheet_vectors.py and mean nothing; the currencies stand in the order of the letters
that pycountry's copy of ISO 4217 sorts them into. Once committed, a row is never changed: these codes open for ever.
"""

from datetime import date

import numpy as np
import pycountry
from code_vectors import sealed, text
from sheet_vectors import COLUMNS, CURRENCIES, DIVISIONS, FORMS, drawn, number_of

SKIN = ["", "skin on", "skin off"]
KNIFE = ["", "flexible knife", "stiff knife"]
CUT = ["", "pin bones pulled", "pin bones cut out", "pin bones left in", "four fillets", "two fillets"]
KNOWN = sorted(pycountry.currencies.get(alpha_3=letters).alpha_3 for letters in CURRENCIES)
TOLD = [c for c in COLUMNS if c not in ("skin_on", "pin_bones_cut", "code")] + ["told", "code"]


def packed(row, steps, price, told):
    """The carried values of a row; `steps` are its weights in scale steps, or None for ten milligrams."""
    fields = []
    late = row["nickname"] != "" and row["test"] > 8
    fields.append((4 if late else 3, 4))
    fields += [(int(row[c] != ""), 1) for c in ("off_bone_mg", "price", "nickname", "dish")]
    fields.append((int(row["count"] > 1), 1))
    fields += [(row["fish"], 7), (FORMS.index(row["form"]), 3), (DIVISIONS[row["division"]][0], 4)]
    if steps is None:
        grain, width = 3, 22
        steps = [row[c] if row[c] == "" else row[c] // 10 for c in ("delivered_mg", "ready_mg", "off_bone_mg")]
    else:
        most = max(s for s in steps if s != "")
        grain, width = next((g, w) for g, w in enumerate((11, 15, 20)) if most < 1 << w)
    fields.append((grain, 2))
    fields += [(step, width) for step in steps if step != ""]
    fields += [(row["portions"] or 0, 6), (int(row["missing"], 2), 5)]
    skin, knife, cut = told
    fields.append((18 * skin + 6 * knife + cut, 6))
    fields.append(((date.fromisoformat(row["date"]) - date(2020, 1, 1)).days, 14))
    if row["price"] != "":
        fields += [(price[0], 17), (price[1], 2), (int(row["per"] == "pound"), 1), (KNOWN.index(row["currency"]), 6)]
    if row["nickname"] != "":
        tests, width = (32, 24) if late else (8, 22)
        fields.append((tests * number_of(row["nickname"]) + row["test"] - 1, width))
    if row["dish"] != "":
        fields += [(row["dish"], 4), (row["skin_side_s"] // 5, 7), (row["finish_s"] // 5, 6), (row["rest_s"] // 10, 6)]
    if row["count"] > 1:
        fields.append((row["count"] - 1, 5))
    whole, length = 0, 0
    for value, width in fields:
        assert 0 <= value < 1 << width, (value, width)
        whole, length = whole << width | value, length + width
    filled = -(-length // 20) * 20
    whole <<= filled - length
    return [whole >> at & 31 for at in range(filled - 5, -5, -5)]


def main():
    random = np.random.default_rng(333)
    print(",".join(TOLD))
    for nth in range(159):
        row, steps, price = drawn(random, nth)
        # Every answer beside every other, but for none at all.
        number = nth % 53 + 1
        told = number // 18, number // 6 % 3, number % 6
        if row["nickname"] != "" and nth % 2:
            row["test"] = int(random.integers(9, 33))
        row["told"] = ";".join(filter(None, (SKIN[told[0]], KNIFE[told[1]], CUT[told[2]])))
        row["code"] = text(sealed(packed(row, steps, price, told)))
        print(",".join(str(row[column]) for column in TOLD))


if __name__ == "__main__":
    main()
