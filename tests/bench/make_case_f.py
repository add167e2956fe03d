#!/usr/bin/python3
"""Makes the inputs of whole-job measurements: an invented site, all from one seed.

Usage: make_case_f.py DIR [f|g]      writes DIR/site.toml and the files it names
f  2 x 2 km: 100,000 passes and 144 watches on 12 evenings (CSV), 100,000 trees (GeoJSON), canopy heights on
   2,000 x 2,000 cells
g  4 x 4 km, watched all over, so that every tree is measured: 20,000 passes and 1,200 watches on 3 evenings, 100,000
   trees that could carry a box, canopy heights on 4,000 x 4,000 cells, 200 lamps, 20 roosts, 20 boxes, and 20 each of
   roads, streams and power lines
"""

import dataclasses
import datetime
import json
import sys
from pathlib import Path

import numpy as np
import pandas as pd
import rasterio
from pyproj import Transformer
from scipy.ndimage import gaussian_filter

CRS = "EPSG:32630"
WEST, SOUTH = 520_000.0, 5_700_000.0
TREES = 100_000


@dataclasses.dataclass
class Case:
    side: int  # metres
    stations: tuple[int, int]  # columns and rows of places watched
    first: tuple[int, int]  # metres from the corner
    step: tuple[int, int]
    jitter: float
    evenings: int
    passes: int
    range: float
    bad_trees: bool  # some trees too thin, too low or unfit
    neighbours: bool  # lamps, roosts, boxes, roads, water and power lines


CASES = {"f": Case(2000, (4, 3), (250, 340), (500, 660), 80.0, 12, 100_000, 70.0, True, False),
         "g": Case(4000, (20, 20), (100, 100), (200, 200), 30.0, 3, 20_000, 120.0, False, True)}
NEIGHBOURS = """lamps = "lamps.geojson"
roosts = "roosts.csv"
boxes = "boxes.csv"
roads = "roads.geojson"
water = "water.geojson"
"""
AVOID = """
[[avoid]]
file = "power_lines.geojson"
within_m = 10
reason = "overhead power line"
then = "settle first"
who = "network owner"
"""
SITE = """[site]
name = "Invented benchmark site"
timezone = "Europe/London"
animal = "small-crevice-bat"
crs = "EPSG:32630"

[inputs]
passes = "passes.csv"
watches = "watches.csv"
trees = "trees.geojson"
canopy = "canopy.tif"
{neighbours}
[activity]
bandwidth_m = 15
shrink_hours = 0.4

[choose]
sites = 6
{avoid}"""


def degrees(x, y):
    return Transformer.from_crs(CRS, "EPSG:4326", always_xy=True).transform(WEST + x, SOUTH + y)


def evening_start(n):
    return datetime.datetime(2031, 6, 1, 20, 0, tzinfo=datetime.timezone.utc) + datetime.timedelta(days=7 * int(n))


def make_watches(random, case):
    """The same stations every evening, on a jittered grid, two hours each."""
    columns, rows = case.stations
    stations = columns * rows
    east, north = np.meshgrid(np.arange(columns) * case.step[0] + case.first[0],
                              np.arange(rows) * case.step[1] + case.first[1])
    x = np.tile(east.ravel() + random.uniform(-case.jitter, case.jitter, stations), case.evenings)
    y = np.tile(north.ravel() + random.uniform(-case.jitter, case.jitter, stations), case.evenings)
    lon, lat = degrees(x, y)
    evening = np.repeat(np.arange(case.evenings), stations)
    start = [evening_start(n) for n in evening]
    return x, y, evening, pd.DataFrame({
        "watch": [f"e{n + 1:02d}s{s + 1:02d}" for n in range(case.evenings) for s in range(stations)],
        "lon": lon.round(7), "lat": lat.round(7),
        "start": [t.isoformat() for t in start], "end": [(t + datetime.timedelta(hours=2)).isoformat() for t in start],
        "range_m": case.range, "seen_by": "night-vision"})


def make_passes(random, case, x, y, evening, names):
    watch = random.integers(0, len(x), case.passes)
    away = np.minimum(case.range * np.sqrt(-2 * np.log(random.uniform(size=case.passes))), 2.9 * case.range)
    turn = random.uniform(0, 2 * np.pi, case.passes)
    lon, lat = degrees(x[watch] + away * np.sin(turn), y[watch] + away * np.cos(turn))
    seconds = random.integers(1, 7199, case.passes)
    times = [(evening_start(evening[w]) + datetime.timedelta(seconds=int(s))).isoformat() for w, s in zip(watch, seconds)]
    return pd.DataFrame({"time": times, "lon": lon.round(7), "lat": lat.round(7), "watch": names.to_numpy()[watch],
                         "count": random.integers(1, 4, case.passes)})


def collection(features):
    return json.dumps({"type": "FeatureCollection", "features": features})


def feature(kind, coordinates, properties):
    return {"type": "Feature", "geometry": {"type": kind, "coordinates": coordinates}, "properties": properties}


def write_trees(random, case, path):
    lon, lat = degrees(random.uniform(0, case.side, TREES), random.uniform(0, case.side, TREES))
    shares = [0.5, 0.3, 0.15, 0.05] if case.bad_trees else [0.6, 0.4, 0.0, 0.0]
    condition = random.choice(["good", "fair", "poor", "dead"], TREES, p=shares)
    species = random.choice(["oak", "lime", "ash", "beech", "maple"], TREES)
    dbh = random.uniform(8 if case.bad_trees else 26, 90, TREES).round(0)
    height = random.uniform(4 if case.bad_trees else 8, 28, TREES).round(1)
    radius = random.uniform(1.5, 8, TREES).round(1)
    path.write_text(collection([
        feature("Point", [round(lon[i], 7), round(lat[i], 7)],
                {"tree": f"T{i + 1:06d}", "species": str(species[i]), "dbh_cm": dbh[i], "height_m": height[i],
                 "crown_radius_m": radius[i], "condition": str(condition[i])})
        for i in range(TREES)]))


def write_canopy(random, case, path):
    rough = gaussian_filter(random.normal(size=(case.side, case.side)), 6)
    height = np.clip(10 + 9 * rough / rough.std(), 0, 30).astype(np.float32)
    with rasterio.open(path, "w", driver="GTiff", width=case.side, height=case.side, count=1, dtype="float32", crs=CRS,
                       transform=rasterio.transform.from_origin(WEST, SOUTH + case.side, 1, 1), tiled=True,
                       compress="deflate", nodata=-9999) as out:
        out.write(height, 1)


def write_neighbours(random, case, folder):
    def places(count):
        lon, lat = degrees(random.uniform(0, case.side, count), random.uniform(0, case.side, count))
        return np.column_stack([lon.round(7), lat.round(7)]).tolist()

    (folder / "lamps.geojson").write_text(collection([
        feature("Point", place, {"lumens": 4000, "height_m": 6}) for place in places(200)]))
    pd.DataFrame(places(20), columns=["lon", "lat"]).to_csv(folder / "roosts.csv", index=False)
    boxes = pd.DataFrame(places(20), columns=["lon", "lat"])
    boxes.insert(0, "box", [f"B{i + 1}" for i in range(len(boxes))])
    boxes.to_csv(folder / "boxes.csv", index=False)
    for name in ("power_lines", "roads", "water"):
        (folder / f"{name}.geojson").write_text(collection([
            feature("LineString", places(2), {}) for _ in range(20)]))


def main():
    folder, case = Path(sys.argv[1]), CASES[sys.argv[2] if len(sys.argv) > 2 else "f"]
    folder.mkdir(parents=True, exist_ok=True)
    random = np.random.default_rng(1)
    x, y, evening, watches = make_watches(random, case)
    watches.to_csv(folder / "watches.csv", index=False)
    make_passes(random, case, x, y, evening, watches["watch"]).to_csv(folder / "passes.csv", index=False)
    write_trees(random, case, folder / "trees.geojson")
    write_canopy(random, case, folder / "canopy.tif")
    if case.neighbours:
        write_neighbours(random, case, folder)
    (folder / "site.toml").write_text(SITE.format(neighbours=NEIGHBOURS if case.neighbours else "",
                                                  avoid=AVOID if case.neighbours else ""))


if __name__ == "__main__":
    main()
