"""How a moment of a film is written for people: one rule for every page, list and letter."""


def clock(seconds: float) -> str:
    """Minutes and seconds, hours only where there are any. The second that has begun, as a player shows it: what a
    caption file has at 1:48.900 is 1:48 everywhere.

    >>> clock(61.4), clock(108.9), clock(3725.0)
    ('1:01', '1:48', '1:02:05')
    """
    # Cut at a thousandth first, as caption files are, so that 60 s reckoned as 59.9999999 is not 0:59.
    minutes, rest = divmod(round(seconds * 1000.0) // 1000, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
