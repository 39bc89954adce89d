"""Reference courses for the heat tests: the same physics solved another way.

Run:  pip install scipy CoolProp && python heat_reference.py > heat_reference.json

Independent of the product code: cell-centred volumes on a fine grid, method of lines with scipy's
BDF at tight tolerance, faces eliminated algebraically; flesh from CoolProp's food components
(INCOMP::FoodWater, ...; Choi & Okos by way of ASHRAE 2006) and vapour pressure from CoolProp's
IAPWS-95 water. Constants of the course (air film, paper, humidity, burner band) are inputs here.
"""

import json

import CoolProp
import numpy as np
import scipy
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq

CELLS = 320
COMPONENTS = ["FoodWater", "FoodProtein", "FoodFat", "FoodAsh"]
SCUP = [75.37, 18.88, 2.73, 1.21]  # USDA SR28 15090, g per 100 g
SALMON = [64.89, 20.42, 13.42, 1.13]  # USDA SR28 15236
COD = [81.22, 17.81, 0.67, 1.16]  # USDA SR28 15015
SNAPPER = [76.87, 20.51, 1.34, 1.31]  # USDA SR28 15101


def component(name, what, t):
    return PropsSI(what, "T", t + 273.15, "P", 101325, f"INCOMP::{name}")


def mixture(analysis, t):
    """Density, heat capacity, conductivity in parallel and in series at t deg C."""
    x = np.array(analysis) / sum(analysis)
    rho, cp, k = (
        np.array([component(c, what, t) for c in COMPONENTS]) for what in ("D", "C", "L")
    )
    density = 1 / (x / rho).sum()
    phi = x * density / rho
    return density, (x * cp).sum(), (phi * k).sum(), 1 / (phi / k).sum()


def vapour_table():
    t = np.arange(0.1, 110.0, 1.0)
    return CubicSpline(t, [PropsSI("P", "T", x + 273.15, "Q", 0, "Water") for x in t])


VAPOUR = vapour_table()


def course(case):
    """Temperatures of skin face, middle and flesh face and of the base at the asked seconds."""
    grid = np.arange(0.0, 121.0, 1.0)
    _, cp_at, k_at, _ = zip(*(mixture(case["analysis"], t) for t in grid))
    cp, k = CubicSpline(grid, cp_at), CubicSpline(grid, k_at)
    rho = mixture(case["analysis"], case["start_c"])[0]
    dx = case["thickness"] / CELLS
    room, h = case["room_c"], case["conductance"]
    film = case["convection"] + case["radiation"]
    lewis = case["latent"] * case["lewis"] * case["convection"]
    air_pa = case["humidity"] * float(VAPOUR(room))

    def top_flux(last, wet):
        g = 2 * k(last) / dx

        def balance(s):
            drive = float(VAPOUR(s)) - air_pa
            return g * (last - s) - film * (s - room) - (lewis * max(drive, 0.0) if wet else 0.0)

        s = brentq(balance, 0.2, 105.0, xtol=1e-10)
        return g * (last - s), s

    def faces(y, stage):
        base, t = y[0], y[1:]
        contact = h if stage != "rest" else case["paper"]
        g = 2 * k(t[0]) / dx
        bottom = min(100.0, (contact * base + g * t[0]) / (contact + g))
        wet = stage == "skin" or not case["skin"]
        return contact, g, bottom, *top_flux(t[-1], wet)

    def rate(_, y, stage):
        base, t = y[0], y[1:]
        contact, g, bottom, out, _ = faces(y, stage)
        flux = np.empty(CELLS + 1)
        flux[0] = g * (bottom - t[0])
        flux[1:-1] = k((t[1:] + t[:-1]) / 2) * (t[:-1] - t[1:]) / dx
        flux[-1] = out
        d = np.empty_like(y)
        d[1:] = (flux[:-1] - flux[1:]) / (rho * cp(t) * dx)
        if stage == "rest":
            d[0] = 0.0
        else:
            power = 0.0
            if stage == "skin":
                power = case["power"] * min(1.0, max(0.0, (case["set_c"] - base) / 10.0))
            d[0] = (power - case["loss"] * (base - room) - contact * (base - bottom)) / case[
                "capacity"
            ]
        return d

    band = np.zeros((CELLS + 1, CELLS + 1), dtype=int)
    for i in range(CELLS + 1):
        band[i, max(0, i - 1) : i + 2] = 1

    def look(secs, y, stage):
        *_, bottom, _, top = faces(y, stage)
        middle = (y[CELLS // 2] + y[CELLS // 2 + 1]) / 2
        skin, flesh = (bottom, top) if stage == "skin" else (top, bottom)
        return [int(secs), *(round(float(v), 4) for v in (skin, middle, flesh, y[0]))]

    y = np.concatenate([[case["set_c"]], np.full(CELLS, float(case["start_c"]))])
    seen = []
    ends = [("skin", 0, case["turn"]), ("finish", case["turn"], case["lift"])]
    ends.append(("rest", case["lift"], case["lift"] + case.get("rest", 240)))
    for stage, begin, end in ends:
        if stage == "finish":
            y = np.concatenate([[y[0]], y[:0:-1]])
        if stage == "rest":
            y = np.concatenate([[room], y[1:]])
        each = case.get("each", 30)
        times = [t for t in range(begin + each, end + 1, each)]
        if not times or times[-1] != end:
            times.append(end)
        run = solve_ivp(
            rate,
            (begin, end),
            y,
            method="BDF",
            args=(stage,),
            t_eval=times,
            rtol=1e-6,
            atol=1e-6,
            jac_sparsity=band,
            max_step=5.0,
        )
        seen += [look(t, run.y[:, i], stage) for i, t in enumerate(run.t)]
        if "see" in case:
            for i in range(len(run.t)):
                case["see"](run.y[1:, i], stage, run.y[0, i])
        y = run.y[:, -1]
    return seen


COMMON = {
    "convection": 8.0,
    "radiation": 6.6,
    "humidity": 0.5,
    "latent": 2.36e6,
    "lewis": 0.018015 / (8.314 * 313.0) / (1.127 * 1007.0 * 0.897),
    "paper": 10.0,
    "room_c": 24.0,
}


def entered(name, species, analysis, **given):
    """One fillet; the pan's figures per square metre of fish follow from the given ones."""
    given = {**COMMON, **given, "name": name, "species": species, "analysis": analysis}
    area = given["mass_g"] / 1000 / mixture(analysis, given["start_c"])[0] / given["thickness"]
    base = np.pi * (given["base_mm"] / 2000) ** 2
    given["capacity"] = given["pan_g"] / 1000 * given["pan_cp"] / area
    given["loss"] = 25.0 * base / area
    given["power"] = given["power_w"] / area
    return given


def case(name, species, analysis, **given):
    """The same, followed to its end."""
    given = entered(name, species, analysis, **given)
    given["seen"] = course(given)
    return given


PAN = {"pan_g": 1200.0, "pan_cp": 460.0, "base_mm": 220.0}
LIGHT = {"pan_g": 700.0, "pan_cp": 880.0, "base_mm": 240.0}
MEDIUM = {"set_c": 175.0, "power_w": 1000.0}
LOW = {"set_c": 140.0, "power_w": 600.0}
HIGH = {"set_c": 230.0, "power_w": 1800.0}


def fillet(mm, mass_g, start_c, conductance, turn, lift, skin=True):
    return {
        "thickness": mm / 1000,
        "mass_g": float(mass_g),
        "start_c": float(start_c),
        "conductance": float(conductance),
        "turn": turn,
        "lift": lift,
        "skin": skin,
    }


def main():
    cases = [
        case("bream on steel", "scup", SCUP, **PAN, **MEDIUM, **fillet(19, 150, 5, 450, 290, 350)),
        case("thin", "scup", SCUP, **PAN, **MEDIUM, **fillet(8, 100, 5, 450, 44, 64)),
        case("salmon", "salmon", SALMON, **PAN, **LOW, **fillet(25, 180, 8, 420, 500, 600)),
        case("on paper", "cod", COD, **LIGHT, **MEDIUM, **fillet(22, 300, 3, 120, 400, 520)),
        case("skinless", "cod", COD, **LIGHT, **HIGH, **fillet(15, 250, 10, 600, 180, 240, False)),
    ]
    fish = {"snapper": SNAPPER, "salmon": SALMON, "cod": COD, "scup": SCUP}
    mixtures = [
        [name, t, *(float(v) for v in mixture(analysis, t))]
        for name, analysis in fish.items()
        for t in (1.0, 5.0, 20.0, 40.0, 60.0, 80.0, 100.0)
    ]
    vapour = [[t, float(PropsSI("P", "T", t + 273.15, "Q", 0, "Water"))] for t in range(1, 101, 9)]
    made = f"scipy {scipy.__version__}, CoolProp {CoolProp.__version__}, {CELLS} cells"
    print(json.dumps({"made_with": made, "cases": cases, "mixtures": mixtures, "vapour": vapour}))


if __name__ == "__main__":
    main()
