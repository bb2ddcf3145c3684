"""Dates as books and people print them: a year, a month of a year, or a day."""

import calendar
import re
from dataclasses import dataclass

_NUMBERS = re.compile(r"(?P<year>\d{4})(?:-(?P<month>\d{1,2})(?:-(?P<day>\d{1,2}))?)?")
_PERIOD = re.compile(r"(?P<day>\d{1,2})[./](?P<month>\d{1,2})[./](?P<year>\d{4}|\d{2})")
_WORDS = re.compile(
    r"(?:(?P<day>\d{1,2})(?:st|nd|rd|th)?(?:\s+of)?\s+)?(?P<month>[a-z]{3,9})\.?,?\s+(?P<year>\d{4})"
    r"|(?P<month2>[a-z]{3,9})\.?\s+(?P<day2>\d{1,2})(?:st|nd|rd|th)?,?\s+(?P<year2>\d{4})"
)

Day = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Stretch:
    """The days that a date can mean, first and last: 'May 1939' is the whole month."""

    first: Day
    last: Day


def read_date(text: str) -> Stretch | None:
    """The days that some words mean; None where they are no date. Days come before months, as the period wrote.

    >>> read_date("September 1938").first, read_date("12th May, 1939").last, read_date("1940").last
    ((1938, 9, 1), (1939, 5, 12), (1940, 12, 31))
    >>> read_date("3.9.39").first, read_date("1939-05").last, read_date("in the autumn")
    ((1939, 9, 3), (1939, 5, 31), None)
    """
    words = " ".join(text.lower().split())
    for pattern in (_NUMBERS, _PERIOD, _WORDS):
        found = pattern.fullmatch(words)
        if found is not None:
            parts = {name.rstrip("2"): value for name, value in found.groupdict().items() if value}
            return _stretch(parts.get("year", ""), parts.get("month", ""), parts.get("day", ""))
    return None


def day_words(day: Day) -> str:
    """A day as one writes it.

    >>> day_words((1939, 12, 31))
    '31 December 1939'
    """
    year, month, date = day
    return f"{date} {calendar.month_name[month]} {year}"


def _stretch(year: str, month: str, day: str) -> Stretch | None:
    # '39' in a book of this trade is 1939.
    number = int(year) + (1900 if len(year) == 2 else 0)
    if not 1 <= number <= 9999:
        return None
    if not month:
        return Stretch((number, 1, 1), (number, 12, 31))
    at = int(month) if month.isdigit() else _month(month)
    if not 1 <= at <= 12:
        return None
    length = calendar.monthrange(number, at)[1]
    if not day:
        return Stretch((number, at, 1), (number, at, length))
    return Stretch((number, at, int(day)), (number, at, int(day))) if 1 <= int(day) <= length else None


def _month(name: str) -> int:
    full = [calendar.month_name[n].lower() for n in range(1, 13)]
    return next(
        (
            n
            for n, month in enumerate(full, 1)
            if month.startswith(name[:3]) and (month.startswith(name) or name == "sept")
        ),
        0,
    )
