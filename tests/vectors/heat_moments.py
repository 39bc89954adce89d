"""Courses that went otherwise than planned, for the heat tests: solved as in heat_reference.py, another way than the app.

Run:  pip install scipy CoolProp && python heat_moments.py > heat_moments.json

For each fillet, planned to be turned and lifted at given seconds: turned late or early, its timer held (it goes on
cooking, so that is a late turn as well), lifted early or late. Of a fillet that is still in the pan: the earliest whole
second at which it can be lifted so that its coldest depth still reaches the wanted core while it rests. Of one that is
lifted: how hot its coldest depth gets.
"""

import json

import CoolProp
import numpy as np
import scipy

import heat_reference as reference

CELLS = 160
REST_MOST = 300
FINISH_LEAST = 5
FINISH_MOST = 180


def coldest_peak(case, turn, lift):
    """The peak of the coldest depth within the longest rest, deg C."""
    peaks = np.full(CELLS, -1e9)

    def see(temps, stage, _):
        nonlocal peaks
        temps = temps[::-1] if stage == "skin" else temps
        peaks = np.maximum(peaks, temps)

    reference.CELLS = CELLS
    reference.course({**case, "turn": turn, "lift": lift, "rest": REST_MOST, "each": 2, "see": see})
    return float(peaks.min())


def earliest_lift(case, turn, now, core_c):
    low = max(now, turn + FINISH_LEAST)
    high = max(low, turn + FINISH_MOST)
    if coldest_peak(case, turn, low) >= core_c:
        return low, coldest_peak(case, turn, low)
    if coldest_peak(case, turn, high) < core_c:
        return high, coldest_peak(case, turn, high)
    while high - low > 1:
        middle = (low + high) // 2
        if coldest_peak(case, turn, middle) >= core_c:
            high = middle
        else:
            low = middle
    return high, coldest_peak(case, turn, high)


def main():
    fillets = [
        ("bream", "scup", reference.SCUP, reference.PAN, reference.MEDIUM, (19, 150, 5, 450), (270, 330), 52.0),
        ("cod", "cod", reference.COD, reference.LIGHT, reference.MEDIUM, (22, 300, 3, 300), (360, 440), 52.0),
        ("thin", "scup", reference.SCUP, reference.PAN, reference.MEDIUM, (12, 120, 5, 450), (110, 145), 55.0),
        ("salmon", "salmon", reference.SALMON, reference.PAN, reference.LOW, (25, 180, 8, 420), (420, 520), 50.0),
    ]
    cases = []
    for name, species, analysis, pan, heat, (mm, g, start, h), (turn, lift), core_c in fillets:
        fillet = reference.fillet(mm, g, start, h, turn, lift)
        given = reference.entered(name, species, analysis, **pan, **heat, **fillet)
        kept = {key: given[key] for key in given if key != "analysis"}
        tries = []
        for what, turned, now, lifted in [
            ("as planned", turn, turn, None),
            ("turned 60 s late", turn + 60, turn + 60, None),
            ("turned 40 s early", turn - 40, turn - 40, None),
            ("timer held 45 s, skin side down", turn + 45, turn + 45, None),
            ("timer held 30 s after the turn", turn, lift + 30, None),
            ("lifted as planned", turn, lift, lift),
            ("lifted 30 s early", turn, lift - 30, lift - 30),
            ("lifted 60 s late", turn, lift + 60, lift + 60),
            ("turned 60 s late, lifted at once", turn + 60, turn + 80, turn + 80),
        ]:
            if lifted is None:
                best, peak = earliest_lift(given, turned, now, core_c)
            else:
                best, peak = lifted, coldest_peak(given, turned, lifted)
            tries.append(
                {"what": what, "turned": turned, "now": now, "lifted": lifted, "lift": best, "core_c": round(peak, 3)}
            )
        cases.append({**kept, "wanted_c": core_c, "seen": [], "tries": tries})
    made = f"scipy {scipy.__version__}, CoolProp {CoolProp.__version__}, {CELLS} cells"
    print(json.dumps({"made_with": made, "cases": cases}))


if __name__ == "__main__":
    main()
