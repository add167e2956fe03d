#!/usr/bin/python3
"""Sunsets on the clocks of places where clocks are unusual, and new moons, by PyEphem (libastro, the library of XEphem).

Usage: evenings.py DIR      writes DIR/sunsets.csv and DIR/new_moons.txt

sunsets.csv    the sunset (centre at -50', without refraction, at sea level) of the evening in which the clock of the zone
               shows 18:00 of the date, in UTC and on that clock. Zones by Python's zoneinfo.
new_moons.txt  the new moons of 2026 and 2037, UTC.
"""

import datetime
import sys
import zoneinfo
from pathlib import Path

import ephem

UTC = datetime.timezone.utc
PLACES = [
    ("Europe/London", 52.298, -1.897, ["2026-03-28", "2026-03-29", "2026-06-12", "2026-10-24", "2026-10-25"]),
    ("America/New_York", 40.78, -73.97, ["2026-03-07", "2026-03-08", "2026-10-31", "2026-11-01"]),
    ("Pacific/Auckland", -36.85, 174.76, ["2026-04-04", "2026-04-05", "2026-09-26", "2026-09-27"]),
    ("Australia/Lord_Howe", -31.55, 159.08, ["2026-04-04", "2026-04-05", "2026-10-03", "2026-10-04"]),
    ("Pacific/Chatham", -43.95, -176.55, ["2026-01-10"]),
    ("Pacific/Kiritimati", 1.87, -157.43, ["2026-07-01"]),
    ("Pacific/Pago_Pago", -14.28, -170.70, ["2026-07-01"]),
    ("Asia/Kolkata", 28.61, 77.21, ["2026-07-01"]),
    ("Asia/Urumqi", 43.83, 87.62, ["2026-06-21"]),
    ("Asia/Shanghai", 39.47, 75.99, ["2026-06-21"]),
    ("Europe/Helsinki", 60.17, 24.94, ["2026-06-21"]),
    ("America/St_Johns", 47.56, -52.71, ["2037-08-01"]),
]


def moment(date):
    return date.datetime().replace(tzinfo=UTC)


def sunset(zone, latitude, longitude, date):
    six = datetime.datetime.fromisoformat(date + "T18:00").replace(tzinfo=zoneinfo.ZoneInfo(zone))
    there = ephem.Observer()
    there.lat, there.lon, there.elevation, there.pressure, there.horizon = str(latitude), str(longitude), 0, 0, "-0:50"
    there.date = six.astimezone(UTC).replace(tzinfo=None)
    noon = there.previous_transit(ephem.Sun())
    there.date = noon
    return moment(there.next_setting(ephem.Sun(), use_center=True)).replace(microsecond=0)


def main():
    folder = Path(sys.argv[1])
    with open(folder / "sunsets.csv", "w", encoding="utf-8") as out:
        out.write("zone,latitude,longitude,date,sunset,on_the_clock\n")
        for zone, latitude, longitude, dates in PLACES:
            for date in dates:
                when = sunset(zone, latitude, longitude, date)
                local = when.astimezone(zoneinfo.ZoneInfo(zone)).isoformat()
                out.write(f"{zone},{latitude},{longitude},{date},{when.isoformat()[:19]}Z,{local}\n")
    with open(folder / "new_moons.txt", "w", encoding="utf-8") as out:
        for year in (2026, 2037):
            date = ephem.next_new_moon(str(year))
            while date.datetime().year == year:
                out.write(moment(date).isoformat()[:16] + "Z\n")
                date = ephem.next_new_moon(date)


main()
