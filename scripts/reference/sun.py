#!/usr/bin/python3
"""The sun by PyEphem (libastro, the library of XEphem; VSOP87) at 1,000 random places and moments, 1950-2050.

Usage: sun.py DIR      writes DIR/positions.csv and DIR/evenings.csv

positions.csv  true azimuth and elevation of the sun's centre, topocentric, without refraction.
evenings.csv   solar noon, and between it and solar midnight the moments when the sun's centre passes -50' and -6
               degrees, without refraction, seen at sea level; empty where it does not.
"""

import math
import random
import sys
from pathlib import Path

import ephem

YEARS = (ephem.Date("1950/1/1"), ephem.Date("2051/1/1"))


def observer(latitude, longitude, height, date):
    there = ephem.Observer()
    there.lat, there.lon = str(latitude), str(longitude)
    there.elevation, there.pressure, there.date = height, 0, date
    return there


def moment(date):
    """ISO 8601 in UTC, to the millisecond."""
    year, month, day, hour, minute, second = ephem.Date(date).tuple()
    milliseconds = min(int(second * 1000 + 0.5), 59999)
    return f"{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{milliseconds / 1000:06.3f}Z"


def places(count):
    """Spread evenly over the globe, up to 4,000 m high, at whole seconds."""
    spread = random.Random(2031)
    for _ in range(count):
        latitude = round(math.degrees(math.asin(spread.uniform(-1, 1))), 5)
        longitude = round(spread.uniform(-180, 180), 5)
        seconds = round(spread.uniform(*YEARS) * 86400)
        yield latitude, longitude, round(spread.uniform(0, 4000)), ephem.Date(seconds / 86400)


def passes(there, noon, level):
    """When the sun's centre sinks below the level before midnight, else nothing."""
    there.date, there.horizon = noon, level
    try:
        setting = there.next_setting(ephem.Sun(), use_center=True)
    except ephem.CircumpolarError:
        return ""
    return moment(setting) if setting < noon + 0.5 else ""


def write(path, header, rows):
    path.write_text("\n".join([header] + [",".join(map(str, row)) for row in rows]) + "\n")


def main():
    folder = Path(sys.argv[1])
    positions, evenings = [], []
    for latitude, longitude, height, date in places(1000):
        sun = ephem.Sun(observer(latitude, longitude, height, date))
        positions.append((moment(date), latitude, longitude, height,
                          f"{math.degrees(sun.az):.6f}", f"{math.degrees(sun.alt):.6f}"))
        there = observer(latitude, longitude, 0, date)
        noon = there.next_transit(ephem.Sun())
        evenings.append((latitude, longitude, moment(noon), passes(there, noon, "-0:50"), passes(there, noon, "-6")))
    write(folder / "positions.csv", "utc,latitude,longitude,height_m,azimuth,elevation", positions)
    write(folder / "evenings.csv", "latitude,longitude,noon,sunset,civil_dusk", evenings)


if __name__ == "__main__":
    main()
