#!/usr/bin/python3
"""What the icalendar library reads in a calendar, a line an event.

Usage: read_calendar.py FILE
Times are told in UTC twice: by the zone of that name, and by the zone that the file itself describes.
"""

import sys

import icalendar
import pytz


def utc(moment):
    return moment.astimezone(pytz.utc).strftime("%Y-%m-%dT%H:%M:%SZ")


with open(sys.argv[1], "rb") as file:
    calendar = icalendar.Calendar.from_ical(file.read())
(zone,) = [part.to_tz() for part in calendar.walk("VTIMEZONE")]
for event in calendar.walk("VEVENT"):
    begin, end = event["dtstart"].dt, event["dtend"].dt
    described = zone.localize(begin.replace(tzinfo=None))
    (alarm,) = event.walk("VALARM")
    print("|".join([str(event["uid"]), utc(begin), utc(described), utc(end), str(event["status"]),
                    str(alarm["trigger"].dt.total_seconds()), str(event["location"]), event["dtstamp"].dt.isoformat(),
                    ";".join(str(degrees) for degrees in event["geo"].to_ical().split(";"))]))
