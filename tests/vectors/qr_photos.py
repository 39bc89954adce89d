#!/usr/bin/env python3
"""Makes qr_photos/: pictures of result links as QR codes, as a phone takes them of a screen or of a printed card, and what
each says in qr_photos.csv. Turned, from the side, out of focus, in low light, grainy, under a lamp, far away, bent, and all of
it at once; and pictures without a code. Made with segno 1.6.6, numpy 2.4.6 and Pillow 13.0.0; the codes are the invented ones
of class_thirty.txt.

    python3 qr_photos.py
"""
import csv
import math
from pathlib import Path

import numpy as np
import segno
from PIL import Image, ImageFilter

HERE = Path(__file__).parent
FOLDER = HERE / "qr_photos"
# Of each kind so many.
EACH = 7
QUIET = 4
# So many points of the drawing are one module, and so many points of it one point of the picture.
FINE = 16
random = np.random.default_rng(20260309)


def between(low, high):
    return float(random.uniform(low, high))


def links():
    lines = (HERE / "class_thirty.txt").read_text().splitlines()
    codes = [line.split(": ")[1].replace("-", "") for line in lines]
    hosts = ["https://host.example/", "https://kitchen.school.example/fish/", "http://127.0.0.1:8080/"]
    while True:
        yield f"{hosts[random.integers(len(hosts))]}#/c/{codes[random.integers(len(codes))]}"


def drawn(text):
    """The code as a square of light and dark, with its quiet modules."""
    rows = segno.make(text, error="m", micro=False, boost_error=False).matrix
    dark = np.pad(np.array(rows, dtype=bool), QUIET)
    return Image.fromarray(np.where(dark, 0, 255).astype(np.uint8)).resize(
        (len(dark) * FINE, len(dark) * FINE), Image.Resampling.NEAREST
    ), len(dark)


def seen(paper, corners, size):
    """The paper in the picture, its four corners (from the top left, with the sun) where they are said to be."""
    wide, high = paper.size
    rows, goal = [], []
    for (x, y), (u, v) in zip(corners, ((0, 0), (wide, 0), (wide, high), (0, high))):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        goal += [u, v]
    back = np.linalg.solve(np.array(rows), np.array(goal))
    layers = Image.merge("LA", (paper, Image.new("L", paper.size, 255)))
    return layers.transform(size, Image.Transform.PERSPECTIVE, tuple(back), Image.Resampling.BILINEAR)


def bench(size):
    """What lies around: a worktop with soft patches."""
    wide, high = size
    patches = Image.fromarray(random.integers(70, 190, (5, 4)).astype(np.uint8))
    return patches.resize((wide, high), Image.Resampling.BICUBIC)


def bent(paper, by):
    """The paper as it lies over something round: lines across it become curves."""
    values = np.asarray(paper)
    high, wide = values.shape
    x = np.linspace(-1, 1, wide)
    shift = (by * FINE * (1 - x * x)).astype(int)
    rows = np.clip(np.arange(high)[:, None] - shift[None, :], 0, high - 1)
    return Image.fromarray(values[rows, np.arange(wide)[None, :]])


def photo(text, *, size=(270, 360), module=4.5, turn=0.0, lean=0.0, blur=0.0, shake=0.0, dark=1.0, grain=3.0, lamp=0.0, bend=0.0, flat=1.0):
    """One picture. Lengths are in modules, `module` is one in points of the picture."""
    paper, modules = drawn(text)
    if bend:
        paper = bent(paper, bend)
    grow = 3
    wide, high = size[0] * grow, size[1] * grow
    side = min(module * modules * grow, 0.97 * min(wide, high))
    angle, lying = math.radians(turn), between(0, 2 * math.pi)
    centre = (wide / 2 + between(-0.03, 0.03) * wide, high / 2 + between(-0.03, 0.03) * high)
    reach = side / math.sqrt(2)
    fit = 1.0
    while True:
        corners = []
        for nth in range(4):
            at = angle + math.pi * (nth / 2 - 0.75)
            # What lies further away is smaller.
            near = 1 + lean * math.cos(at - lying)
            squeeze = 1 - abs(lean) * 0.5
            x, y = reach * fit * math.cos(at) * near, reach * fit * math.sin(at) * near
            along = x * math.cos(lying) + y * math.sin(lying)
            x -= (1 - squeeze) * along * math.cos(lying)
            y -= (1 - squeeze) * along * math.sin(lying)
            corners.append((centre[0] + x, centre[1] + y))
        if all(0 <= x < wide and 0 <= y < high for x, y in corners):
            break
        fit *= 0.97
    of = side * fit / modules
    layers = seen(paper, corners, (wide, high))
    scene = bench((wide, high))
    light, there = layers.split()
    # Ink is not black and paper not white.
    light = light.point(lambda value: int(25 + value * 205 / 255))
    scene.paste(light, (0, 0), there)
    if blur:
        scene = scene.filter(ImageFilter.GaussianBlur(blur * of))
    if shake:
        reach = max(int(shake * of), 1)
        values = np.asarray(scene, dtype=float)
        scene = Image.fromarray((sum(np.roll(values, step, axis=1) for step in range(reach)) / reach).astype(np.uint8))
    scene = scene.resize(size, Image.Resampling.BOX)
    values = np.asarray(scene, dtype=float)
    y, x = np.mgrid[0:size[1], 0:size[0]]
    if lamp:
        place, wanders = (between(0, size[0]), between(0, size[1])), 0.55 * max(size)
        values = values * (1 - lamp + lamp * np.exp(-((x - place[0]) ** 2 + (y - place[1]) ** 2) / wanders**2) * 1.4)
    values = 128 + (values - 128) * flat
    values = values * dark + random.normal(0, grain, values.shape)
    return Image.fromarray(np.clip(values, 0, 255).astype(np.uint8))


def kinds():
    turn = lambda: between(0, 360)
    little = lambda: between(-12, 12)
    yield "as it is", lambda: dict(size=(240, 320), module=between(3, 4.5), grain=0)
    yield "turned", lambda: dict(turn=turn(), module=between(3.5, 5))
    yield "from the side", lambda: dict(turn=little(), lean=between(0.12, 0.3), module=between(4, 6))
    yield "out of focus", lambda: dict(turn=little(), blur=between(0.2, 0.45), module=between(4, 5.5))
    yield "shaken", lambda: dict(turn=little(), shake=between(0.7, 1.3), module=between(4, 5.5))
    yield "low light", lambda: dict(turn=little(), dark=between(0.12, 0.25), grain=between(3, 6), module=between(4, 5.5))
    yield "grainy", lambda: dict(turn=little(), grain=between(15, 30), module=between(3.5, 4.5), size=(240, 320))
    yield "under a lamp", lambda: dict(turn=little(), lamp=between(0.55, 0.8), module=between(3.5, 5))
    yield "far away", lambda: dict(turn=turn(), module=between(2.2, 2.8), grain=2)
    yield "bent", lambda: dict(turn=little(), bend=between(0.3, 1.2), module=between(4, 5.5))
    yield "pale", lambda: dict(turn=little(), flat=between(0.15, 0.3), grain=4, module=between(4, 5.5))
    yield "all of it", lambda: dict(
        turn=turn(), lean=between(0.05, 0.18), blur=between(0.2, 0.4), dark=between(0.4, 0.7), grain=between(5, 10), lamp=between(0.2, 0.5), module=between(4, 5.5)
    )


def nothing():
    """Pictures without a code, some of which look like one here and there."""
    size = (300, 400)
    yield bench(size)
    yield Image.fromarray(random.integers(0, 256, (150, 120)).astype(np.uint8))
    yield Image.fromarray(np.where(random.random((60, 45)) < 0.5, 0, 255).astype(np.uint8)).resize((270, 360), Image.Resampling.NEAREST)
    whole = np.asarray(drawn(next(links()))[0].resize((260, 260), Image.Resampling.BOX)).copy()
    # One corner torn off, and one half in the dark.
    torn = whole.copy()
    torn[:110, :110] = 255
    yield Image.fromarray(torn)
    half = whole.copy()
    half[:, 120:] = 20
    yield Image.fromarray(half)
    stripes = np.where(np.mgrid[0:300, 0:240][1] // 7 % 2 == 0, 30, 220).astype(np.uint8)
    yield Image.fromarray(stripes)


FOLDER.mkdir(exist_ok=True)
for old in FOLDER.glob("*.jpg"):
    old.unlink()
rows, texts = [], links()
for kind, how in kinds():
    for nth in range(EACH):
        text = next(texts)
        rows.append((photo(text, **how()), kind, text))
rows += [(picture, "no code", "") for picture in nothing()]
with open(HERE / "qr_photos.csv", "w", newline="") as table:
    out = csv.writer(table, lineterminator="\n")
    out.writerow(("picture", "kind", "says"))
    for nth, (picture, kind, text) in enumerate(rows, 1):
        name = f"{nth:02}.jpg"
        picture.save(FOLDER / name, quality=50, optimize=True)
        out.writerow((name, kind, text))
