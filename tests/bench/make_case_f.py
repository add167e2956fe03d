#!/usr/bin/python3
"""Makes the inputs of the whole-job comparison: an invented site of 2 x 2 km, all from one seed.

Usage: make_case_f.py DIR      writes DIR/site.toml and the files it names
100,000 passes and 144 watches on 12 evenings (CSV), 100,000 trees (GeoJSON), canopy heights on 2,000 x 2,000 cells.
"""

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
WEST, SOUTH, SIDE = 520_000.0, 5_700_000.0, 2000
EVENINGS, STATIONS, PASSES, TREES = 12, 12, 100_000, 100_000
RANGE = 70.0
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

[activity]
bandwidth_m = 15
shrink_hours = 0.4

[choose]
sites = 6
"""


def degrees(x, y):
    return Transformer.from_crs(CRS, "EPSG:4326", always_xy=True).transform(WEST + x, SOUTH + y)


def evening_start(n):
    return datetime.datetime(2031, 6, 1, 20, 0, tzinfo=datetime.timezone.utc) + datetime.timedelta(days=7 * int(n))


def make_watches(random):
    """The same twelve stations every evening, on a jittered grid, two hours each."""
    east, north = np.meshgrid(np.arange(4) * 500 + 250, np.arange(3) * 660 + 340)
    x = np.tile(east.ravel() + random.uniform(-80, 80, STATIONS), EVENINGS)
    y = np.tile(north.ravel() + random.uniform(-80, 80, STATIONS), EVENINGS)
    lon, lat = degrees(x, y)
    evening = np.repeat(np.arange(EVENINGS), STATIONS)
    start = [evening_start(n) for n in evening]
    return x, y, evening, pd.DataFrame({
        "watch": [f"e{n + 1:02d}s{s + 1:02d}" for n in range(EVENINGS) for s in range(STATIONS)],
        "lon": lon.round(7), "lat": lat.round(7),
        "start": [t.isoformat() for t in start], "end": [(t + datetime.timedelta(hours=2)).isoformat() for t in start],
        "range_m": RANGE, "seen_by": "night-vision"})


def make_passes(random, x, y, evening, names):
    watch = random.integers(0, len(x), PASSES)
    away = np.minimum(RANGE * np.sqrt(-2 * np.log(random.uniform(size=PASSES))), 2.9 * RANGE)
    turn = random.uniform(0, 2 * np.pi, PASSES)
    lon, lat = degrees(x[watch] + away * np.sin(turn), y[watch] + away * np.cos(turn))
    seconds = random.integers(1, 7199, PASSES)
    times = [(evening_start(evening[w]) + datetime.timedelta(seconds=int(s))).isoformat() for w, s in zip(watch, seconds)]
    return pd.DataFrame({"time": times, "lon": lon.round(7), "lat": lat.round(7), "watch": names.to_numpy()[watch],
                         "count": random.integers(1, 4, PASSES)})


def write_trees(random, path):
    lon, lat = degrees(random.uniform(0, SIDE, TREES), random.uniform(0, SIDE, TREES))
    condition = random.choice(["good", "fair", "poor", "dead"], TREES, p=[0.5, 0.3, 0.15, 0.05])
    species = random.choice(["oak", "lime", "ash", "beech", "maple"], TREES)
    dbh, height = random.uniform(8, 90, TREES).round(0), random.uniform(4, 28, TREES).round(1)
    radius = random.uniform(1.5, 8, TREES).round(1)
    features = [
        {"type": "Feature", "geometry": {"type": "Point", "coordinates": [round(lon[i], 7), round(lat[i], 7)]},
         "properties": {"tree": f"T{i + 1:06d}", "species": str(species[i]), "dbh_cm": dbh[i], "height_m": height[i],
                        "crown_radius_m": radius[i], "condition": str(condition[i])}}
        for i in range(TREES)]
    path.write_text(json.dumps({"type": "FeatureCollection", "features": features}))


def write_canopy(random, path):
    rough = gaussian_filter(random.normal(size=(SIDE, SIDE)), 6)
    height = np.clip(10 + 9 * rough / rough.std(), 0, 30).astype(np.float32)
    with rasterio.open(path, "w", driver="GTiff", width=SIDE, height=SIDE, count=1, dtype="float32", crs=CRS,
                       transform=rasterio.transform.from_origin(WEST, SOUTH + SIDE, 1, 1), tiled=True,
                       compress="deflate", nodata=-9999) as out:
        out.write(height, 1)


def main():
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    random = np.random.default_rng(1)
    x, y, evening, watches = make_watches(random)
    watches.to_csv(folder / "watches.csv", index=False)
    make_passes(random, x, y, evening, watches["watch"]).to_csv(folder / "passes.csv", index=False)
    write_trees(random, folder / "trees.geojson")
    write_canopy(random, folder / "canopy.tif")
    (folder / "site.toml").write_text(SITE)


if __name__ == "__main__":
    main()
