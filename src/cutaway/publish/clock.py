"""How a moment of a film is written for people."""


def clock(seconds: float) -> str:
    """Minutes and seconds, hours only where there are any.

    >>> clock(61.4), clock(3725.0)
    ('1:01', '1:02:05')
    """
    whole = round(seconds)
    minutes, rest = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
