"""A moment of a film is written in one way everywhere: the second that has begun, as a player shows it."""

import csv
import json
import re
from pathlib import Path

from cutaway.api.letters import letters, letters_text
from cutaway.narrate.clock import clock


def test_every_output_names_the_second_in_which_the_caption_begins(home: Path, made, edit) -> None:
    (home / "letters.yaml").write_text(
        "letters:\n  the cock:\n    objects to: The cock is fitted on every mark that was ever built.\n"
        "    decision: Kept.\n    because: So it is.\n",
        encoding="utf-8",
    )
    made()
    pack = home / "pack"
    caption = (pack / "captions" / "01-fuel.vtt").read_text(encoding="utf-8")
    start = re.search(r"(\d\d):(\d\d):(\d\d)\.(\d{3}) --> \S+\nThe cock is fitted", caption)
    assert start is not None and int(start[4]) >= 500, "a time that rounding would carry into the next second"
    shown = f"{int(start[2])}:{start[3]}"
    post, _ = letters(home, rests=False)
    assert post is not None and f"at {shown}" in letters_text(post)
    row = r"([\d:]+)</td><td>The cock is fitted"
    assert re.findall(row, (pack / "shots" / "01-fuel.html").read_text(encoding="utf-8")) == [shown]
    prompter = (pack / "prompter" / "01-fuel.html").read_text(encoding="utf-8")
    assert re.findall(r"([\d:]+)</span>\s*The cock is fitted", prompter) == [shown]
    assert re.search(rf">{shown}<", (pack / "index.html").read_text(encoding="utf-8"))
    with (pack / "shots" / "01-fuel.csv").open(encoding="utf-8-sig", newline="") as file:
        seconds = [float(line["from"]) for line in csv.DictReader(file) if line["sentence"].startswith("The cock")]
    assert [clock(one) for one in seconds] == [shown]
    record = json.loads((pack / "record.json").read_bytes())
    assert clock(record["scripts"][0]["sentences"][1]["start"]) == shown


def test_seconds_that_are_reckoned_a_hair_short_are_not_a_second_short() -> None:
    assert clock(59.999_999_9) == "1:00" and clock(59.999) == "0:59" and clock(0.0) == "0:00"
