"""When the skin has dried, and how dry the flesh gets for one turn after another: solved as in heat_reference.py,
another way than the app.

Run:  pip install scipy CoolProp && python heat_skin.py > heat_skin.json

The skin: 1 mm, 65 % water, 1050 kg/m3 (as the app takes it), heat of boiling from CoolProp's IAPWS-95. It has dried when
the heat that the contact brings beyond what the flesh takes up at 100 deg C has boiled that water away. For each fillet
and wanted core: turns at shares of the pan time, each with the earliest lift (to the second) whose coldest depth reaches
the core within the longest rest; of each the share of the thickness that passes 65 deg C, and for how long in the mean.
"""

import json

import CoolProp
import numpy as np
import scipy
from CoolProp.CoolProp import PropsSI
from scipy.interpolate import CubicSpline

import heat_reference as reference

CELLS = 80
EACH = 2
REST_MOST = 300
DRY_C = 65.0
SHARES = [0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95]
BOILING = PropsSI("H", "P", 101325, "Q", 1, "Water") - PropsSI("H", "P", 101325, "Q", 0, "Water")
SKIN = 0.001 * 1050 * 0.65 * BOILING


def followed(case, turn, lift):
    """The coldest depth's peak, the dry share, its mean seconds, and when the skin has dried."""
    grid = np.arange(0.0, 121.0, 5.0)
    k = CubicSpline(grid, [reference.mixture(case["analysis"], t)[2] for t in grid])
    dx = case["thickness"] / CELLS
    peaks, secs = np.full(CELLS, -1e9), np.zeros(CELLS)
    boiled, dried, before = 0.0, None, 0.0

    def see(temps, stage, base):
        nonlocal peaks, boiled, dried, before
        if stage == "skin":
            g = 2 * k(temps[0]) / dx
            h = case["conductance"]
            flux = h * (base - 100) - g * (100 - temps[0]) if (h * base + g * temps[0]) / (h + g) > 100 else 0.0
            boiled += EACH * (flux + before) / 2
            before = flux
            see.at += EACH
            if dried is None and boiled >= SKIN:
                dried = see.at
            temps = temps[::-1]
        peaks = np.maximum(peaks, temps)
        secs[temps >= DRY_C] += EACH

    see.at = 0
    reference.CELLS = CELLS
    reference.course({**case, "turn": turn, "lift": lift, "rest": REST_MOST, "each": EACH, "see": see})
    return float(peaks.min()), float((peaks >= DRY_C).mean()), float(secs.mean()), dried


def pair(case, share, core_c):
    low, high = 10, 1200
    while high - low > 1:
        middle = (low + high) // 2
        if followed(case, round(middle * share), middle)[0] >= core_c:
            high = middle
        else:
            low = middle
    return round(high * share), high


def main():
    fillets = [
        ("12 mm to 55", "scup", reference.SCUP, reference.PAN, reference.MEDIUM, (12, 240, 5, 450), 55.0),
        ("15 mm to 50", "snapper", reference.SNAPPER, reference.PAN, reference.MEDIUM, (15, 260, 5, 420), 50.0),
        ("15 mm to 63", "scup", reference.SCUP, reference.PAN, reference.MEDIUM, (15, 260, 5, 450), 63.0),
        ("19 mm to 63", "snapper", reference.SNAPPER, reference.PAN, reference.MEDIUM, (19, 300, 5, 450), 63.0),
    ]
    cases = []
    for name, species, analysis, pan, heat, (mm, g, start, h), core_c in fillets:
        given = reference.entered(name, species, analysis, **pan, **heat, **reference.fillet(mm, g, start, h, 0, 0))
        kept = {key: given[key] for key in given if key != "analysis"}
        splits = []
        for share in SHARES:
            turn, lift = pair(given, share, core_c)
            _, dry, secs, _ = followed(given, turn, lift)
            splits.append({"turn": turn, "lift": lift, "dry": round(dry, 4), "mean_secs": round(secs, 1)})
        dried = followed(given, 400, 405)[3]
        cases.append({**kept, "wanted_c": core_c, "seen": [], "skin_dry_at": dried, "splits": splits})
    made = f"scipy {scipy.__version__}, CoolProp {CoolProp.__version__}, {CELLS} cells"
    print(json.dumps({"made_with": made, "cases": cases}))


if __name__ == "__main__":
    main()
