#!/usr/bin/python3
"""Makes the demo: Alder Reach Park, which is invented, with its animals, watches, trees and maps.

Needs Debian's python3-numpy and python3-gdal. Run it in any folder; it writes beside itself. One seed drives
everything, so running it again gives the same bytes. Nothing here was measured anywhere: the park's coordinates
point at ordinary ground that has nothing to do with it.
"""
import csv
import json
import math
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from osgeo import gdal, osr

gdal.UseExceptions()
osr.UseExceptions()

SEED = 20260609
HERE = Path(__file__).resolve().parent
WIDTH, HEIGHT = 700, 500                       # metres, east and north of the origin
ORIGIN_E, ORIGIN_N = 575000, 5794600           # in EPSG:32630
EVENINGS = {"1": "2026-06-09", "2": "2026-06-13", "3": "2026-06-18", "wet": "2026-06-16"}
FIRST_FLIGHT = 21 * 3600 + 35 * 60             # local clock; the sun sets at about 21:30
LAST_FLIGHT = 25 * 3600
SCATTER, WRITING_ERROR, BEARING_ERROR = 4.5, 4.0, 15.0
FORAGING_PER_HOUR = 45.0
TRUTH_EVENINGS, TRUTH_HOURS = 60, 1.5


def stream(part):
    """A random stream for one part of the park, so that a change in one part leaves the others alone.
    RandomState, because numpy promises that its numbers never change."""
    return np.random.RandomState([SEED, part])


# --- where things are ------------------------------------------------------------------------------------------

def _transform(target, operation=None):
    def system(code):
        reference = osr.SpatialReference()
        reference.ImportFromEPSG(code)
        reference.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
        return reference
    options = osr.CoordinateTransformationOptions()
    if operation:
        options.SetOperation(operation)
    return osr.CoordinateTransformation(system(32630), system(target), options)


# The seven-parameter shift is written out, so that a machine with finer grids makes the same file.
TO_NATIONAL_GRID = _transform(27700, (
    "+proj=pipeline +step +inv +proj=utm +zone=30 +ellps=WGS84 +step +proj=push +v_3 +step +proj=cart +ellps=WGS84 "
    "+step +inv +proj=helmert +x=446.448 +y=-125.157 +z=542.06 +rx=0.15 +ry=0.247 +rz=0.842 +s=-20.489 "
    "+convention=position_vector +step +inv +proj=cart +ellps=airy +step +proj=pop +v_3 "
    "+step +proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy"))
TO_LONLAT = _transform(4326)


def lonlat(x, y):
    lon, lat, _ = TO_LONLAT.TransformPoint(ORIGIN_E + float(x), ORIGIN_N + float(y))
    return round(lon, 7), round(lat, 7)


def national_grid(x, y):
    easting, northing, _ = TO_NATIONAL_GRID.TransformPoint(ORIGIN_E + float(x), ORIGIN_N + float(y))
    return f"{easting:.2f}", f"{northing:.2f}"


def convergence():
    """True bearing minus grid bearing, degrees, in the middle of the park."""
    lon, lat = lonlat(WIDTH / 2, HEIGHT / 2)
    return math.degrees(math.atan(math.tan(math.radians(lon + 3)) * math.sin(math.radians(lat))))


def smooth(corners, step=2.0):
    """A smooth curve through the corners (Catmull-Rom), with a vertex every `step` metres."""
    p = np.array(corners, dtype=float)
    p = np.vstack([2 * p[0] - p[1], p, 2 * p[-1] - p[-2]])
    t = np.linspace(0, 1, 200, endpoint=False)[:, None]
    pieces = [0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
              for a, b, c, d in zip(p, p[1:], p[2:], p[3:])]
    fine = np.vstack(pieces + [p[-2:-1]])
    return resample(fine, step)


def resample(line, step):
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    marks = np.arange(0, along[-1], step)
    return np.column_stack([np.interp(marks, along, line[:, 0]), np.interp(marks, along, line[:, 1])])


def distance_to(line, points):
    points = np.atleast_2d(np.asarray(points, dtype=float))
    return np.hypot(points[:, None, 0] - line[None, :, 0], points[:, None, 1] - line[None, :, 1]).min(axis=1)


@dataclass
class Route:
    name: str
    flights_per_hour: float
    line: np.ndarray
    normal: np.ndarray = field(init=False)

    def __post_init__(self):
        along = np.gradient(self.line, axis=0)
        along /= np.hypot(along[:, 0], along[:, 1])[:, None]
        self.normal = np.column_stack([-along[:, 1], along[:, 0]])    # to the left of the way east or south

    def beside(self, x=None, y=None, left=0.0):
        """The place `left` metres to the left of the route where it passes x or y."""
        at = np.argmin(np.abs(self.line[:, 0] - x) if x is not None else np.abs(self.line[:, 1] - y))
        return self.line[at] + left * self.normal[at]


CREEK = Route("creek", 19, smooth([(-20, 318), (60, 301), (130, 312), (210, 338), (290, 322), (370, 345), (460, 352),
                                   (560, 330), (650, 345), (720, 338)]))
AVENUE = Route("avenue", 16, smooth([(-20, 92), (80, 110), (180, 150), (280, 168), (360, 172), (440, 190), (540, 180),
                                     (640, 215), (720, 230)]))
RIDE = Route("ride", 11, smooth([(175, 520), (190, 450), (212, 390), (245, 330), (282, 265), (298, 205), (285, 160),
                                (258, 95), (246, 30), (244, -20)]))
ROUTES = [CREEK, AVENUE, RIDE]
LANE = smooth([(390, -10), (398, 60), (407, 130), (412, 190), (440, 245), (500, 275), (600, 285), (710, 290)], 5)
POWER_LINE = np.array([(62.0, 510.0), (70.0, 300.0), (84.0, -10.0)])
LAMPS = [(276, 172), (398, 20), (420, 75), (470, 250), (640, 270)]
POND = [(262 + 26 * math.cos(a), 352 + 13 * math.sin(a)) for a in np.linspace(0, 2 * math.pi, 24, endpoint=False)]
SHELTER = np.array([150.0, 272.0])             # the chestnut that animals circled in the rain
RECORDER = np.array([228.0, 424.0])
STATIONS = [(124, 298), (262, 148), (378, 188), (268, 312)]   # footbridge, avenue, lane, pond


# --- the animals -----------------------------------------------------------------------------------------------

@dataclass
class Flight:
    path: np.ndarray
    start: float                               # seconds after local midnight of the evening's date
    behaviour: str
    count: int
    speed: float = 6.0


def group_size(random):
    return int(random.choice([1, 1, 1, 1, 1, 1, 1, 2, 2, 3]))


def route_flight(route, start, random):
    line, normal = route.line, route.normal
    if random.random_sample() < 0.3:           # three in ten use only a part of the route
        part = int(len(line) * random.uniform(0.3, 0.7))
        first = random.randint(0, len(line) - part)
        line, normal = line[first:first + part], normal[first:first + part]
    phase = np.arange(len(line)) * 2.0 * 2 * math.pi / random.uniform(200, 400)
    a, b = random.normal(0, SCATTER, 2)
    path = line + (a * np.cos(phase) + b * np.sin(phase))[:, None] * normal
    return Flight(path if random.random_sample() < 0.5 else path[::-1], start, "commuting", group_size(random))


def foraging_flight(start, random):
    steps = random.randint(30, 70)
    heading = random.uniform(0, 2 * math.pi) + np.cumsum(random.normal(0, 0.35, steps))
    moves = 2.0 * np.column_stack([np.cos(heading), np.sin(heading)])
    return Flight(random.uniform([0, 0], [WIDTH, HEIGHT]) + np.cumsum(moves, axis=0), start, "foraging", 1, 4.0)


def flights_of_evening(random, hours, first=FIRST_FLIGHT, use=None):
    """All flights in the park on one evening. `use` fixes how busy each route is; else it is drawn."""
    flights = []
    for i, route in enumerate(ROUTES):
        drawn = math.exp(random.normal(0, 0.5) - 0.125) * (random.random_sample() > 0.125)
        busy = drawn if use is None else use[i]
        for _ in range(random.poisson(route.flights_per_hour * busy * hours)):
            flights.append(route_flight(route, first + random.uniform(0, hours * 3600), random))
    for _ in range(random.poisson(FORAGING_PER_HOUR * hours)):
        flights.append(foraging_flight(first + random.uniform(0, hours * 3600), random))
    return flights


def evenings_nobody_watched():
    """The same every time it is asked."""
    random = stream(9)
    return [flights_of_evening(random, TRUTH_HOURS) for _ in range(TRUTH_EVENINGS)]


def flights_near(points, reach=20.0):
    """Animals an hour whose path comes within `reach` of each point, each flight once, over the same evenings."""
    points, animals = np.asarray(points, dtype=float), np.zeros(len(points))
    for flight in (f for evening in evenings_nobody_watched() for f in evening):
        way = resample(flight.path, 0.5)
        beside = np.all((points > way.min(axis=0) - reach) & (points < way.max(axis=0) + reach), axis=1)
        for i in np.nonzero(beside)[0]:
            if np.hypot(*(way - points[i]).T).min() <= reach:
                animals[i] += flight.count
    return animals / (TRUTH_EVENINGS * TRUTH_HOURS)


def metres_flown_near(points, reach=10.0):
    """Metres flown within `reach` of each point per hour, over evenings that nobody watched; on 1 m cells."""
    margin = 60
    cells = np.zeros((HEIGHT + 2 * margin, WIDTH + 2 * margin))
    for flight in (f for evening in evenings_nobody_watched() for f in evening):
        way = resample(flight.path, 0.5)
        column, row = (np.floor(way).astype(int) + margin).T
        inside = (row >= 0) & (row < cells.shape[0]) & (column >= 0) & (column < cells.shape[1])
        np.add.at(cells, (row[inside], column[inside]), 0.5 * flight.count)
    rows, columns = np.indices(cells.shape)
    rate = []
    for x, y in points:
        r, c = int(y) + margin, int(x) + margin
        window = (slice(r - 12, r + 13), slice(c - 12, c + 13))
        near = np.hypot(columns[window] - margin + 0.5 - x, rows[window] - margin + 0.5 - y) <= reach
        rate.append(cells[window][near].sum() / (TRUTH_EVENINGS * TRUTH_HOURS))
    return rate


# --- the people ------------------------------------------------------------------------------------------------

@dataclass
class Watch:
    name: str
    evening: str
    place: tuple
    start: str
    end: str
    farthest_seen_m: float
    seen_by: str
    observer: str
    view: tuple = None                         # look_deg, view_deg (true)

    def seconds(self):
        hours = [sum(int(p) * s for p, s in zip(clock.split(":"), (3600, 60))) for clock in (self.start, self.end)]
        return hours[0], hours[1] + (86400 if hours[1] < hours[0] else 0)


def stations():
    footbridge, avenue, lane, pond = STATIONS
    watches = []
    for n, (end_f, end_a) in {"1": ("23:00", "22:50"), "2": ("23:00", "22:50"), "3": ("22:45", "22:20")}.items():
        watches.append(Watch(f"footbridge-{n}", n, footbridge, "21:25", end_f, 90, "thermal", "R.K."))
        watches.append(Watch(f"avenue-{n}", n, avenue, "21:30", end_a, 70, "night-vision", "T.M."))
        if n != "1":
            watches.append(Watch(f"pond-{n}", n, pond, "21:45", "22:35", 60, "night-vision", "L.O.", (340, 180)))
        if n != "3":
            watches.append(Watch(f"lane-{n}", n, lane, "21:30", "22:30", 50, "eye", "J.S."))
        watches.append(Watch(f"recorder-{n}", n, tuple(RECORDER), "21:15", "00:30", 50, "recorder", ""))
    watches.append(Watch("footbridge-wet", "wet", footbridge, "21:25", "22:50", 90, "thermal", "R.K."))
    watches.append(Watch("avenue-wet", "wet", avenue, "21:30", "22:20", 70, "night-vision", "T.M."))
    return watches


def notice(watch, flight, random):
    """The index on the path where the watch wrote the flight down, or None. Half-normal in the distance."""
    offset = flight.path - np.array(watch.place)
    distance = np.hypot(offset[:, 0], offset[:, 1])
    seconds = flight.start + np.arange(len(distance)) * 2.0 / flight.speed
    start, end = watch.seconds()
    seen = np.exp(-distance**2 / (2 * (watch.farthest_seen_m / 2) ** 2)) * ((seconds >= start) & (seconds <= end))
    if watch.view:
        look, width = watch.view
        bearing = np.degrees(np.arctan2(offset[:, 0], offset[:, 1])) + convergence()
        seen *= np.abs((bearing - look + 180) % 360 - 180) <= width / 2
    if random.random_sample() >= seen.max():
        return None
    return int(np.searchsorted(np.cumsum(seen), random.random_sample() * seen.sum()))


def clock(evening, seconds):
    day, seconds = divmod(int(seconds), 86400)
    date = str(np.datetime64(EVENINGS[evening]) + day)
    return date, f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}"


PASS_FIELDS = ["date", "time", "watch", "lon", "lat", "place_of", "count", "bearing_deg", "height_m", "accuracy_m",
               "behaviour"]


def pass_row(watch, flight, index, random):
    date, time = clock(watch.evening, flight.start + index * 2.0 / flight.speed)
    row = dict.fromkeys(PASS_FIELDS, "") | {"date": date, "time": time, "watch": watch.name, "count": flight.count}
    if watch.seen_by == "recorder":
        lon, lat = lonlat(*RECORDER)
        return row | {"lon": lon, "lat": lat, "place_of": "recorder", "count": 1}
    before, after = flight.path[max(index - 2, 0)], flight.path[min(index + 2, len(flight.path) - 1)]
    bearing = math.degrees(math.atan2(*(after - before))) + convergence() + random.normal(0, BEARING_ERROR)
    row["lon"], row["lat"] = lonlat(*(flight.path[index] + random.normal(0, WRITING_ERROR, 2)))
    if random.random_sample() > (0.1 if flight.behaviour == "commuting" else 0.6):
        row["bearing_deg"] = int(5 * round(bearing / 5)) % 360
    if random.random_sample() > 0.3:
        row["height_m"] = round(random.uniform(2.5, 8), 1)
    row["accuracy_m"] = 4 if watch.seen_by == "thermal" else ""
    row["behaviour"] = flight.behaviour if random.random_sample() > 0.15 else ""
    return row


def emerging_rows(roost, random):
    """Animals that came out of the roost tree, noticed from the footbridge on two evenings."""
    rows = []
    for evening in ("1", "3"):
        for _ in range(4):
            place, heading = roost + random.normal(0, 1, 2), random.uniform(0, 2 * math.pi)
            way = place + np.outer(np.arange(0, 20, 2.0), [math.sin(heading), math.cos(heading)])
            flight = Flight(way, FIRST_FLIGHT + random.uniform(300, 1500), "emerging", 1)
            watch = Watch(f"footbridge-{evening}", evening, (0, 0), "", "", 90, "thermal", "")
            row = pass_row(watch, flight, 1, random)
            rows.append(row | {"behaviour": "emerging"})
    return rows


def shelter_rows(random):
    """Animals circling a tree in the rain: many passes, at a place where they were seen twice on dry evenings."""
    rows = []
    for evening in ["wet"] * 44 + ["1"] * 2:
        way = np.tile(SHELTER + random.normal(0, 4, 2), (5, 1))
        flight = Flight(way, FIRST_FLIGHT + random.uniform(0, 4200), "commuting", 1)
        watch = Watch(f"footbridge-{evening}", evening, (0, 0), "", "", 90, "thermal", "")
        rows.append(pass_row(watch, flight, 2, random) | {"bearing_deg": "", "behaviour": ""})
    return rows


def spoil_four(rows):
    """Four rows as they come out of real notebooks."""
    swapped, worded, impossible, unwatched = [r for r in rows if r["watch"] == "footbridge-2"][1:16:4]
    swapped["lon"], swapped["lat"] = swapped["lat"], swapped["lon"]
    worded["count"] = "several"
    impossible["time"] = "25:70:00"
    unwatched |= {"date": "2026-06-14", "time": "02:40:00", "watch": ""}


def survey(roost):
    """What was written down: passes, tracks, watches."""
    animals, eyes, watches = stream(1), stream(2), stations()
    rows, noticed = [], []
    for evening, use in (("1", (1.1, 0.9, 1.0)), ("2", (0.75, 1.2, 0.8)), ("3", (1.2, 0.85, 1.1)), ("wet", (.1, .1, .1))):
        flights = flights_of_evening(animals, (LAST_FLIGHT - FIRST_FLIGHT) / 3600, use=use)
        for watch in (w for w in watches if w.evening == evening):
            for flight in flights:
                index = notice(watch, flight, eyes)
                if index is not None:
                    noticed.append((watch, flight, index))
    followed = [i for i, (w, f, _) in enumerate(noticed)
                if w.seen_by in ("thermal", "night-vision") and w.evening != "wet" and f.behaviour == "commuting"
                and len(stretch(w, f)) > 20]
    followed = set(eyes.choice(followed, 12, replace=False))
    tracks = [track_feature(w, f, eyes) for i, (w, f, _) in enumerate(noticed) if i in followed]
    rows = [pass_row(w, f, at, eyes) for i, (w, f, at) in enumerate(noticed) if i not in followed]
    rows += emerging_rows(roost, eyes) + shelter_rows(eyes)
    spoil_four(rows)
    rows.sort(key=lambda r: (r["date"], r["watch"], r["time"], r["lon"], str(r["count"])))
    return rows, tracks, watches


def stretch(watch, flight):
    """The indices of the path that were well in sight."""
    return np.flatnonzero(np.hypot(*(flight.path - np.array(watch.place)).T) <= 0.6 * watch.farthest_seen_m)


def track_feature(watch, flight, random):
    """The stretch of a flight that was followed on the screen, a vertex every 6 m."""
    at = stretch(watch, flight)
    way = flight.path[at[0]:at[-1] + 1:3]
    way = way + random.normal(0, 1.5, 2) + random.normal(0, 0.6, way.shape)
    date, time = clock(watch.evening, flight.start + at[0] * 2.0 / flight.speed)
    return {"time": f"{date}T{time}+01:00", "watch": watch.name, "count": flight.count}, line_geometry(way)


# --- the trees -------------------------------------------------------------------------------------------------

@dataclass
class Tree:
    asset: str
    place: np.ndarray
    species: str
    dbh: float
    height: float
    crown: float
    condition: int = 1                         # 1 good, 2 fair, 3 poor, 4 dead
    trap: str = ""
    in_canopy: bool = True
    cells: dict = field(default_factory=dict)  # what the council's row says otherwise

    def suitable(self):
        return self.dbh >= 25 and self.height >= 7.5 and self.condition <= 2


def story_trees():
    """The trees that the story is about. Everything else is drawn around them."""
    story = [
        ("0101", CREEK.beside(x=102, left=7), "Quercus robur", "roost"),
        ("0102", CREEK.beside(x=152, left=-6), "Salix fragilis", "felling"),
        ("0103", RIDE.beside(y=171, left=6), "Tilia x europaea", "lamp"),
        ("0104", AVENUE.beside(x=393, left=7), "Tilia x europaea", "road"),
        ("0105", CREEK.beside(x=126, left=6), "Fraxinus excelsior", "refused"),
        ("0106", CREEK.beside(x=75, left=-6), "Alnus glutinosa", "power line"),
        ("0107", SHELTER + (2, 1), "Aesculus hippocastanum", "wet evening"),
        ("0108", RECORDER + (1, -1), "Quercus robur", "recorder"),
        ("0109", CREEK.beside(x=425, left=6), "Salix fragilis", "tally"),
        ("0110", CREEK.beside(x=560, left=6), "Alnus glutinosa", "not watched"),
        ("0111", AVENUE.beside(x=590, left=-6), "Tilia x europaea", "not watched"),
        ("0112", CREEK.beside(x=630, left=-7), "Quercus robur", "not watched"),
        ("0113", CREEK.beside(x=140, left=6), "Alnus glutinosa", "impossible diameter"),
        ("0114", AVENUE.beside(x=236, left=6), "Tilia x europaea", "not in canopy"),
        ("0115", CREEK.beside(x=214, left=7), "Quercus robur", "hollow"),
        ("0116", np.array([330.0, 120.0]), "Fagus sylvatica", "no place"),
        ("0117", AVENUE.beside(x=178, left=6), "Tilia x europaea", "no height"),
        ("0118", np.array([205.0, 268.0]), "Fagus sylvatica", "number used twice"),
    ]
    good = [CREEK.beside(x=124, left=-6), CREEK.beside(x=196, left=-6), AVENUE.beside(x=204, left=6),
            AVENUE.beside(x=334, left=6), AVENUE.beside(x=350, left=-6), CREEK.beside(x=242, left=6),
            RIDE.beside(y=116, left=6), CREEK.beside(x=34, left=6), AVENUE.beside(x=316, left=-6)]
    story += [(f"{150 + i:04d}", place, "Alnus glutinosa" if place[1] > 250 else "Tilia x europaea", "")
              for i, place in enumerate(good)]
    random, trees = stream(3), []
    for asset, place, species, trap in story:
        dbh = round(random.uniform(38, 75), 1)
        trees.append(Tree(asset, np.asarray(place, dtype=float), species, dbh, round(random.uniform(12, 19), 1),
                          round(random.uniform(3.5, 5.0), 1), 1 + random.randint(0, 2), trap))
    tell_stories({t.trap: t for t in trees})
    return trees


def tell_stories(by_trap):
    by_trap["felling"].cells = {"works": "F", "work_due": "2028-11-01"}
    by_trap["refused"].cells = {"owner": "creek-side neighbour", "permission": "refused"}
    by_trap["impossible diameter"].cells = {"girth_cm": 14700}
    by_trap["hollow"].cells = {"hollow": "Y"}
    by_trap["not in canopy"].in_canopy = False
    by_trap["no place"].cells = {"easting": "", "northing": ""}
    by_trap["no height"].cells = {"ht_m": ""}
    by_trap["number used twice"].cells = {"asset_no": "0300"}


KINDS = [  # how many, species, share of mature trees, where
    (56, ["Tilia x europaea"], 0.40, "avenue"),
    (78, ["Alnus glutinosa", "Salix fragilis", "Fraxinus excelsior"], 0.38, "creek"),
    (40, ["Quercus robur", "Betula pendula", "Acer pseudoplatanus"], 0.40, "ride"),
    (60, ["Sorbus aucuparia", "Prunus avium", "Betula pendula"], 0.00, "new planting"),
    (400, ["Quercus robur", "Fagus sylvatica", "Acer pseudoplatanus", "Aesculus hippocastanum"], 0.42, "lawn"),
]


def draw_place(kind, random):
    if kind in ("creek", "ride"):
        route = CREEK if kind == "creek" else RIDE
        at = random.randint(len(route.line))
        return route.line[at] + random.choice([-1, 1]) * random.uniform(5, 15) * route.normal[at]
    if kind == "avenue":
        at = int(np.argmin(np.abs(AVENUE.line[:, 0] - (95 + 12 * random.randint(0, 50)))))
        return AVENUE.line[at] + random.choice([-6, 6]) * AVENUE.normal[at] + random.normal(0, 0.4, 2)
    if kind == "new planting":
        return np.array([500 + 12 * random.randint(0, 12), 40 + 12 * random.randint(0, 8)]) + random.normal(0, 0.5, 2)
    return random.uniform([5, 5], [WIDTH - 5, HEIGHT - 5])


def room_for(place, trees):
    x, y = place
    if not (4 < x < WIDTH - 4 and 4 < y < HEIGHT - 4) or in_wood(x, y):
        return False
    if distance_to(LANE, place) < 7 or distance_to(resample(POWER_LINE, 2), place) < 4 or distance_to(CREEK.line, place) < 4:
        return False
    if ((x - 262) / 30) ** 2 + ((y - 352) / 17) ** 2 < 1 or distance_to(np.array(STATIONS), place) < 10:
        return False
    away = {"roost": 22, "wet evening": 16, "recorder": 14}
    return all(np.hypot(*(place - t.place)) > away.get(t.trap, 8 if t.asset < "0200" else 4.5) for t in trees)


def draw_tree(kind, species, mature, place, random):
    if random.random_sample() < mature:
        dbh = 25 + random.gamma(3.0, 9.0)
    else:
        dbh = random.uniform(5, 12) if kind == "new planting" else random.uniform(9, 30)
    height = min(3.0 + 0.42 * dbh ** 0.9 * random.uniform(0.8, 1.2), 24)
    crown = min(1.0 + 0.085 * dbh * random.uniform(0.85, 1.15), 6.5)
    condition = int(random.choice([1, 1, 1, 1, 2, 2, 2, 3, 3, 4]))
    return Tree("", place, str(random.choice(species)), round(dbh, 1), round(height, 1), round(crown, 1), condition)


def inventory():
    trees, random = story_trees(), stream(4)
    for number, species, mature, kind in KINDS:
        placed = tries = 0
        while placed < number and len(trees) < 400 and tries < 4000:
            tries += 1
            place = draw_place(kind, random)
            if room_for(place, trees):
                trees.append(draw_tree(kind, species, mature, place, random))
                placed += 1
    drawn = sorted((t for t in trees if not t.asset), key=lambda t: (round(t.place[0], 2), round(t.place[1], 2)))
    for i, tree in enumerate(drawn):
        tree.asset = f"{200 + i:04d}"
    return sorted(trees, key=lambda t: t.asset)


TREE_COLUMNS = ["asset_no", "species", "girth_cm", "ht_m", "crown_r_m", "cond", "hazard", "inspected", "hollow", "tpo",
                "owner", "permission", "works", "work_due", "status", "easting", "northing"]


def council_row(tree, random):
    inspected = np.datetime64("2024-05-01") + random.randint(0, 700)
    easting, northing = national_grid(*tree.place)
    row = dict(zip(TREE_COLUMNS, [
        tree.asset, tree.species, round(tree.dbh * math.pi), tree.height, tree.crown, tree.condition, "improbable",
        inspected, "N", "N", "council", "given", "", "", "standing", easting, northing]))
    odd = random.random_sample()
    if tree.asset >= "0200":
        changes = [(0.015, {"girth_cm": 0}), (0.03, {"works": "R", "work_due": "2027-02-01"}), (0.04, {"tpo": "Y"}),
                   (0.055, {"hazard": "possible"}), (0.07, {"inspected": "2019-03-11"}),
                   (0.085, {"owner": "creek-side neighbour", "permission": "asked"}), (0.095, {"hollow": "Y"})]
        row |= next((change for limit, change in changes if odd < limit), {})
    return row | tree.cells


def council_rows(trees):
    random = stream(5)
    rows = [council_row(t, random) for t in trees]
    extra = [Tree(f"{900 + i:04d}", draw_place("lawn", random), "Fraxinus excelsior", round(random.uniform(30, 60), 1),
                  14.0, 4.5) for i in range(12)]
    return rows + [council_row(t, random) | {"status": "felled"} for t in extra]


# --- the canopy ------------------------------------------------------------------------------------------------

GLADES = [(60, 440, 16, 11), (105, 410, 9, 13), (120, 468, 11, 7), (30, 400, 5, 4), (88, 462, 4, 3)]


def in_wood(x, y):
    """The wood in the north-west, which the council does not list tree by tree. Its edge is uneven."""
    edge = 6 * math.sin(x / 17) + 4 * math.sin(x / 7 + 1)
    return x < 158 + 7 * math.sin(y / 15) and y > 372 + edge


def thickets(random):
    """Trees that no inventory lists: the wood with its glades, scrub by the creek, the south hedge."""
    plants = []
    for x, y in random.uniform([0, 360], [170, HEIGHT], (2600, 2)):
        in_glade = any(((x - a) / p) ** 2 + ((y - b) / q) ** 2 < 1 for a, b, p, q in GLADES)
        if in_wood(x, y) and not in_glade and all(math.hypot(x - p[0], y - p[1]) > 3.2 for p in plants):
            plants.append((x, y, random.uniform(11, 20), random.uniform(2.4, 4.2)))
    for at in range(0, len(CREEK.line), 3):
        if random.random_sample() < 0.45:
            x, y = CREEK.line[at] + random.choice([-1, 1]) * random.uniform(10, 16) * CREEK.normal[at]
            if 0 < x < WIDTH:
                plants.append((x, y, random.uniform(2.5, 5.5), random.uniform(1.2, 2.6)))
    for x in np.arange(5, 385, 3.0):
        if random.random_sample() < 0.9:
            plants.append((x, 6 + 1.5 * math.sin(x / 30), random.uniform(2.2, 3.4), random.uniform(1.6, 2.2)))
    return plants


def blur(noise, passes):
    for _ in range(passes):
        noise = (noise + np.roll(noise, 1, 0) + np.roll(noise, -1, 0) + np.roll(noise, 1, 1) + np.roll(noise, -1, 1)) / 5
    return noise / noise.std()


def canopy_height(trees):
    """Height of the canopy above ground, 1 m cells, row 0 in the south; not-a-number where the survey saw nothing."""
    random = stream(6)
    plants = [(*t.place, t.height, t.crown) for t in trees if t.in_canopy] + thickets(random)
    meadow = blur(random.normal(size=(HEIGHT, WIDTH)), 40)
    height = np.where(meadow > 0.4, 0.25 + 0.15 * meadow, 0.0)
    rough = blur(random.normal(size=(HEIGHT, WIDTH)), 1)
    pits = random.random_sample((HEIGHT, WIDTH)) < 0.006
    for x, y, top, radius in plants:
        reach = int(radius * 1.4) + 2
        rows = slice(max(int(y) - reach, 0), min(int(y) + reach + 1, HEIGHT))
        columns = slice(max(int(x) - reach, 0), min(int(x) + reach + 1, WIDTH))
        north, east = np.mgrid[rows, columns] + 0.5
        angle, far = np.arctan2(north - y, east - x), np.hypot(east - x, north - y)
        turn = random.uniform(0, 2 * math.pi, 2)
        outline = radius * (1 + 0.13 * np.sin(3 * angle + turn[0]) + 0.08 * np.sin(5 * angle + turn[1]))
        crown = top * (1 - 0.55 * (far / outline) ** 2) + 0.5 * rough[rows, columns] * min(top / 8, 1)
        crown[(far > outline) | pits[rows, columns]] = 0
        height[rows, columns] = np.maximum(height[rows, columns], crown)
    north, east = np.mgrid[0:HEIGHT, 0:WIDTH] + 0.5
    still_water = ((east - 262) / 24) ** 2 + ((north - 352) / 11) ** 2 < 1
    beyond_the_flight = east + 0.6 * north > 965
    height = np.round(np.clip(height, 0, None) * 8) / 8
    return np.where(still_water | beyond_the_flight, np.nan, height)


def place_on_earth(raster):
    raster.SetGeoTransform((ORIGIN_E, 1, 0, ORIGIN_N + HEIGHT, 0, -1))
    reference = osr.SpatialReference()
    reference.ImportFromEPSG(32630)
    raster.SetProjection(reference.ExportToWkt())


def write_canopy(height):
    path = HERE / "canopy_height.tif"
    path.unlink(missing_ok=True)
    raster = gdal.GetDriverByName("GTiff").Create(str(path), WIDTH, HEIGHT, 1, gdal.GDT_Float32,
                                                  ["COMPRESS=DEFLATE", "ZLEVEL=9", "TILED=YES"])
    place_on_earth(raster)
    raster.SetMetadataItem("TIFFTAG_IMAGEDESCRIPTION", "Alder Reach Park (invented): canopy height above ground, m")
    band = raster.GetRasterBand(1)
    band.SetNoDataValue(-9999)
    band.WriteArray(np.where(np.isnan(height), -9999, height)[::-1].astype(np.float32))


# --- the picture from above ------------------------------------------------------------------------------------

def picture_from_above(height):
    """Red, green and blue of each cell of the canopy, lit from the south-west: grass, crowns, lane, creek and pond."""
    top = np.nan_to_num(height)
    north, east = np.gradient(top)
    light = np.clip(0.5 + 0.12 * (north + east), 0.15, 1.0)[..., None]
    mottled = 6 * blur(stream(8).normal(size=(HEIGHT, WIDTH)), 6)[..., None]
    grass = np.array([139.0, 150, 98]) + mottled + 14 * np.clip(top, 0, 0.5)[..., None] * np.array([1, 0.6, -0.5])
    crowns = (np.array([52.0, 74, 40]) + 1.5 * top[..., None]) * (0.55 + 0.9 * light)
    colours = np.where(top[..., None] > 1.5, crowns, grass)
    places = np.stack(np.mgrid[0:HEIGHT, 0:WIDTH][::-1], axis=-1).reshape(-1, 2) + 0.5
    for line, half, colour in [(LANE, 3.0, (150, 146, 140)), (CREEK.line, 2.2, (70, 92, 100))]:
        on_it = (distance_to(line, places) < half).reshape(HEIGHT, WIDTH) & (top < 1.5)
        colours[on_it] = np.array(colour) + mottled[on_it] / 2
    row, column = np.mgrid[0:HEIGHT, 0:WIDTH] + 0.5
    colours[((column - 262) / 26) ** 2 + ((row - 352) / 13) ** 2 < 1] = (62, 84, 94)
    return np.clip(np.round(colours), 0, 255).astype(np.uint8)


def write_picture(colours):
    path = HERE / "from_above.tif"
    path.unlink(missing_ok=True)
    raster = gdal.GetDriverByName("GTiff").Create(str(path), WIDTH, HEIGHT, 3, gdal.GDT_Byte,
                                                  ["COMPRESS=JPEG", "JPEG_QUALITY=70", "PHOTOMETRIC=YCBCR", "TILED=YES"])
    place_on_earth(raster)
    raster.SetMetadataItem("TIFFTAG_IMAGEDESCRIPTION", "Alder Reach Park (invented): seen from above, drawn from its canopy")
    for band in range(3):
        raster.GetRasterBand(band + 1).WriteArray(colours[::-1, :, band])


# --- writing ---------------------------------------------------------------------------------------------------

def line_geometry(points):
    return {"type": "LineString", "coordinates": [lonlat(x, y) for x, y in points]}


def point_geometry(place):
    return {"type": "Point", "coordinates": lonlat(*place)}


def ring_geometry(points):
    ring = [lonlat(x, y) for x, y in points]
    return {"type": "Polygon", "coordinates": [ring + ring[:1]]}


def write_geojson(name, features):
    body = [json.dumps({"type": "Feature", "properties": p, "geometry": g}) for p, g in features]
    text = '{"type": "FeatureCollection", "features": [\n' + ",\n".join(body) + "\n]}\n"
    (HERE / name).write_text(text, encoding="utf-8")


def write_csv(name, fields, rows):
    with open(HERE / name, "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, fields, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


WEATHER = {"1": (15, 1.5, "no"), "2": (17, 2.0, "no"), "3": (14, 2.5, "no"), "wet": (11, 4.0, "yes")}
WATCH_FIELDS = ["watch", "lon", "lat", "date", "start", "end", "farthest_seen_m", "look_deg", "view_deg", "observer",
                "seen_by", "temp_c", "wind_ms", "rain"]


def watch_row(watch):
    look, view = watch.view or ("", "")
    return dict(zip(WATCH_FIELDS, [watch.name, *lonlat(*watch.place), EVENINGS[watch.evening], watch.start, watch.end,
                                   watch.farthest_seen_m, look, view, watch.observer, watch.seen_by,
                                   *WEATHER[watch.evening]]))


def write_survey(trees):
    roost = next(t for t in trees if t.trap == "roost")
    passes, tracks, watches = survey(roost.place)
    write_csv("passes.csv", PASS_FIELDS, passes)
    write_geojson("tracks.geojson", tracks)
    weir = Watch("weir-2", "2", (418, 338), "21:30", "22:30", 60, "eye", "A.B.")
    write_csv("watches.csv", WATCH_FIELDS, [watch_row(w) for w in [*watches, weir]])
    write_csv("tallies.csv", ["watch", "start", "end", "count", "along", "share", "both_ways"], [
        {"watch": "weir-2", "start": "2026-06-13T21:30+01:00", "end": "2026-06-13T22:30+01:00", "count": 12,
         "along": "creek", "share": "mostly", "both_ways": "yes"}])
    lon, lat = lonlat(*roost.place)
    write_csv("roosts.csv", ["roost", "lon", "lat", "date", "count"],
              [{"roost": "oak by the footbridge", "lon": lon, "lat": lat, "date": EVENINGS["1"], "count": 4}])


def write_maps():
    write_geojson("area.geojson", [({"name": "Alder Reach Park (invented)"}, ring_geometry(
        [(2, 2), (386, 2), (430, 12), (698, 16), (698, 498), (2, 498)]))])
    write_geojson("power_lines.geojson", [({"what": "overhead line"}, line_geometry(POWER_LINE))])
    write_geojson("roads.geojson", [({"name": "the lane"}, line_geometry(LANE))])
    write_geojson("paths.geojson", [({"name": "avenue path"}, line_geometry(AVENUE.line[20:280:4])),
                                    ({"name": "creek path"}, line_geometry(CREEK.line[5:230:4] - (0, 18)))])
    creek = CREEK.line[::4] + 1.5 * np.sin(np.arange(len(CREEK.line[::4])))[:, None]
    write_geojson("water.geojson", [({"name": "the creek"}, line_geometry(creek)),
                                    ({"name": "the pond"}, ring_geometry(POND))])
    write_geojson("lamps.geojson", [({"lamp": i + 1, "lumens": 4000, "height_m": 5}, point_geometry(p))
                                    for i, p in enumerate(LAMPS)])
    write_geojson("routes.geojson", [({"name": "creek"}, line_geometry(creek))])
    write_geojson("truth_routes.geojson", [({"route": r.name, "flights_per_hour": r.flights_per_hour},
                                            line_geometry(r.line[::4])) for r in ROUTES])


def main():
    trees = inventory()
    write_csv("trees.csv", TREE_COLUMNS, council_rows(trees))
    height = canopy_height(trees)
    write_canopy(height)
    write_picture(picture_from_above(height))
    write_survey(trees)
    write_maps()
    places = [t.place for t in trees]
    write_csv("truth_trees.csv", ["tree", "flown_m_per_hour", "suitable", "trap", "flights_per_hour"],
              [{"tree": t.cells.get("asset_no", t.asset), "flown_m_per_hour": f"{m:.1f}", "suitable": "yes" if t.suitable() else "no",
                "trap": t.trap, "flights_per_hour": f"{n:.1f}"}
               for t, m, n in zip(trees, metres_flown_near(places), flights_near(places))])


if __name__ == "__main__":
    main()
