#!/usr/bin/python3
"""The main job as a good analyst would script it: pandas, geopandas, rasterio, NumPy and SciPy.

Usage: analyst.py IN OUT [json]
Reads IN/passes.csv, watches.csv, trees.geojson and canopy.tif; writes OUT/flight_density.tif, OUT/watch_hours.tif and
OUT/ranked_sites.geojson. Effort-corrected flight density on 1 m cells by a Gaussian filter of 15 m, trees sampled from
it, masked by trunk, height, condition and canopy gaps, scored with the evenings used, ranked, six chosen 30 m apart.
Trees are read by geopandas, as most scripts do; with `json` by a JSON parser, which is some ten times faster and serves
plain points only.
"""

import json
import sys
from pathlib import Path

import geopandas as gpd
import numpy as np
import pandas as pd
import rasterio
from pyproj import Transformer
from scipy import ndimage
from scipy.spatial import cKDTree

H, SHRINK, CELL = 15.0, 0.4, 1.0
MIN_WATCH_HOURS, SITES, SPACING = 0.25, 6, 30.0


def read_table(path, crs, *times):
    table = pd.read_csv(path)
    for column in times:
        table[column] = pd.to_datetime(table[column], utc=True)
    to_plane = Transformer.from_crs("EPSG:4326", crs, always_xy=True)
    table["x"], table["y"] = to_plane.transform(table["lon"].to_numpy(), table["lat"].to_numpy())
    return table


def read_features(path):
    features = gpd.read_file(path)
    trees = pd.DataFrame(features.drop(columns="geometry"))
    trees["lon"], trees["lat"] = features.geometry.x, features.geometry.y
    return trees


def read_json(path):
    features = json.loads(path.read_bytes())["features"]
    trees = pd.DataFrame([feature["properties"] for feature in features])
    trees["lon"], trees["lat"] = np.array([feature["geometry"]["coordinates"] for feature in features]).T
    return trees


def read_trees(path, crs, read):
    trees = read(path)
    to_plane = Transformer.from_crs("EPSG:4326", crs, always_xy=True)
    trees["x"], trees["y"] = to_plane.transform(trees["lon"].to_numpy(), trees["lat"].to_numpy())
    return trees


class Ground:
    """Square cells over everything watched."""

    def __init__(self, watches):
        reach = 3.1 * watches["range_m"].max() + 4 * H
        self.west = np.floor(watches["x"].min() - reach)
        self.north = np.ceil(watches["y"].max() + reach)
        self.columns = int(np.ceil(watches["x"].max() + reach - self.west) / CELL)
        self.rows = int(np.ceil(self.north - watches["y"].min() + reach) / CELL)
        self.transform = rasterio.transform.from_origin(self.west, self.north, CELL, CELL)

    def cells(self, x, y):
        return ((self.north - y) / CELL).astype(int), ((x - self.west) / CELL).astype(int)

    def half_normal(self, watch, variance):
        dx = self.west + (np.arange(self.columns) + 0.5) * CELL - watch.x
        dy = self.north - (np.arange(self.rows) + 0.5) * CELL - watch.y
        return np.outer(np.exp(-dy * dy / (2 * variance)), np.exp(-dx * dx / (2 * variance)))


def flight_density(passes, watches, ground):
    metres = passes["count"] * passes["range_m"]
    row, column = ground.cells(passes["x"], passes["y"])
    binned = np.bincount(row * ground.columns + column, metres, ground.rows * ground.columns)
    flown = ndimage.gaussian_filter(binned.reshape(ground.rows, ground.columns).astype(np.float32), H / CELL,
                                    mode="constant") / CELL**2
    # Stations repeat: their hours add up.
    stations = watches.groupby(["x", "y", "range_m"], as_index=False)["hours"].sum()
    watched, smoothed = np.zeros(flown.shape, np.float32), np.zeros(flown.shape, np.float32)
    for station in stations.itertuples():
        squared = station.range_m**2
        watched += station.hours * ground.half_normal(station, squared)
        smoothed += station.hours * squared / (squared + H * H) * ground.half_normal(station, squared + H * H)
    mean = metres.sum() / (watches["hours"] * 2 * np.pi * watches["range_m"] ** 2).sum()
    return (flown + SHRINK * mean) / (smoothed + SHRINK), watched


def in_canopy_gap(trees, canopy_file):
    with rasterio.open(canopy_file) as canopy:
        height = canopy.read(1)
        row, column = rasterio.transform.rowcol(canopy.transform, trees["x"].to_numpy(), trees["y"].to_numpy())
    gap, count = ndimage.label(height <= 2.0)
    area = ndimage.sum_labels(np.ones_like(height), gap, np.arange(count + 1))
    wide = (gap > 0) & (area[gap] >= 25)
    to_canopy = ndimage.distance_transform_edt(wide)
    row = np.clip(np.asarray(row), 0, height.shape[0] - 1)
    column = np.clip(np.asarray(column), 0, height.shape[1] - 1)
    return to_canopy[row, column] > trees["crown_radius_m"].to_numpy()


def evenings(trees, passes, watches):
    """On how many evenings each tree was watched, and on how many of those a flight came near."""
    x, y = trees["x"].to_numpy(), trees["y"].to_numpy()
    watched_on, used_on = np.zeros(len(trees), int), np.zeros(len(trees), int)
    passes_of = dict(list(passes.groupby(passes["time"].dt.date)))
    for date, evening in watches.groupby(watches["start"].dt.date):
        hours = sum(watch.hours * np.exp(-((x - watch.x) ** 2 + (y - watch.y) ** 2) / (2 * watch.range_m**2))
                    for watch in evening.itertuples())
        watched = hours >= MIN_WATCH_HOURS / 2
        watched_on += watched
        if date in passes_of:
            flights = cKDTree(passes_of[date][["x", "y"]].to_numpy())
            distance, _ = flights.query(np.column_stack([x, y]), distance_upper_bound=2 * H, workers=-1)
            used_on += watched & np.isfinite(distance)
    return used_on, watched_on


def choose(ranked):
    chosen = []
    for tree in ranked.itertuples():
        if all((tree.x - other.x) ** 2 + (tree.y - other.y) ** 2 >= SPACING**2 for other in chosen):
            chosen.append(tree)
        if len(chosen) == SITES:
            break
    return {tree.tree for tree in chosen}


def write_raster(path, values, known, ground, crs):
    with rasterio.open(path, "w", driver="GTiff", width=ground.columns, height=ground.rows, count=1, dtype="float32",
                       crs=crs, transform=ground.transform, tiled=True, compress="deflate", nodata=-9999) as out:
        out.write(np.where(known, values, -9999).astype(np.float32), 1)


def main():
    source, target = Path(sys.argv[1]), Path(sys.argv[2])
    target.mkdir(parents=True, exist_ok=True)
    with rasterio.open(source / "canopy.tif") as canopy:
        crs = canopy.crs
    watches = read_table(source / "watches.csv", crs, "start", "end")
    watches["hours"] = (watches["end"] - watches["start"]).dt.total_seconds() / 3600
    passes = read_table(source / "passes.csv", crs, "time").merge(watches[["watch", "range_m"]], on="watch")
    trees = read_trees(source / "trees.geojson", crs, read_json if sys.argv[3:] == ["json"] else read_features)

    ground = Ground(watches)
    density, watched = flight_density(passes, watches, ground)
    row, column = ground.cells(trees["x"].to_numpy(), trees["y"].to_numpy())
    inside = (row >= 0) & (row < ground.rows) & (column >= 0) & (column < ground.columns)
    row, column = np.clip(row, 0, ground.rows - 1), np.clip(column, 0, ground.columns - 1)
    trees["flight_density"] = density[row, column] * 1e4
    trees["watch_hours"] = np.where(inside, watched[row, column], 0)

    suitable = ((trees["dbh_cm"] >= 25) & (trees["height_m"] >= 7.5) & trees["condition"].isin(["good", "fair"])
                & (trees["watch_hours"] >= MIN_WATCH_HOURS) & ~in_canopy_gap(trees, source / "canopy.tif"))
    ranked = trees[suitable].copy()
    ranked["evenings_used"], ranked["evenings_watched"] = evenings(ranked, passes, watches)
    by_flight = ranked["flight_density"] / ranked["flight_density"].max()
    by_evenings = (ranked["evenings_used"] + 1) / (ranked["evenings_watched"] + 2)
    ranked["score"] = ((5 * by_flight + by_evenings) / 6).round(6)
    ranked = ranked.sort_values(["score", "flight_density", "tree"], ascending=[False, False, True])
    ranked.insert(0, "rank", np.arange(1, len(ranked) + 1))
    ranked["chosen"] = ranked["tree"].isin(choose(ranked))

    write_raster(target / "flight_density.tif", density * 1e4, watched >= MIN_WATCH_HOURS, ground, crs)
    write_raster(target / "watch_hours.tif", watched, watched >= 0.01, ground, crs)
    places = gpd.points_from_xy(ranked["lon"], ranked["lat"])
    ranked = gpd.GeoDataFrame(ranked.drop(columns=["x", "y", "lon", "lat"]), geometry=places, crs="EPSG:4326")
    ranked.to_file(target / "ranked_sites.geojson", driver="GeoJSON")


if __name__ == "__main__":
    main()
