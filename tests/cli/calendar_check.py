# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads a calendar on standard input with an independent parser (python3-icalendar) and prints one line for each
event: date, identifier, summary, SEQUENCE, STATUS (- where it has none). Calendars named as arguments are read instead, and
what is in NAME.ics goes into NAME.events. Exit status 1 if one of them is not a calendar by the rules of RFC 5545 that we use."""
import re
import sys

import icalendar


def read(raw, out):
    problems = []
    if re.search(rb"(?<!\r)\n", raw) or re.search(rb"\r(?!\n)", raw):
        problems.append("a line does not end with CR LF")
    if any(len(line) > 75 for line in raw.split(b"\r\n")):
        problems.append("a line has more than 75 octets")
    calendar = icalendar.Calendar.from_ical(raw)
    for key in ("VERSION", "PRODID"):
        if key not in calendar:
            problems.append("no " + key)
    seen = set()
    for event in calendar.walk("VEVENT"):
        for key in ("UID", "DTSTAMP", "DTSTART", "SUMMARY", "SEQUENCE"):
            if key not in event:
                problems.append("an event without " + key)
        if event["UID"] in seen:
            problems.append("a UID twice: " + event["UID"])
        seen.add(event["UID"])
        if str(event["DTSTAMP"].dt.tzinfo) != "UTC":
            problems.append("DTSTAMP is not in UTC")
        print(event["DTSTART"].dt.isoformat(), event["UID"], event["SUMMARY"], event["SEQUENCE"], event.get("STATUS", "-"),
              sep="\t", file=out)
    for component in [calendar] + calendar.walk("VEVENT"):
        for problem in component.errors:
            problems.append(str(problem))
    return problems


if len(sys.argv) < 2:
    found = read(sys.stdin.buffer.read(), sys.stdout)
else:
    found = []
    for path in sys.argv[1:]:
        with open(path, "rb") as file, open(path[:-len(".ics")] + ".events", "w", encoding="utf-8") as out:
            found += read(file.read(), out)
print("\n".join(found), file=sys.stderr)
sys.exit(1 if found else 0)
