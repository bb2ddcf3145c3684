"""The codes of photographs and charts: reading their files, drawing them, putting them into the pack."""

from cutaway.problems.entry import Entry, Severity

_PHOTOGRAPH = "photographs:\n  cock:\n    file: {file}\n    rights: Own picture.\n    points:\n      {points}\n"
_CHART = "charts:\n  petrol: {{in: parked, show: [{show}]{more}}}\n"


def _photograph(points: str = "fuel cock: [50 %, 50 %]", file: str = "photographs/cock.png") -> str:
    return _PHOTOGRAPH.format(points=points, file=file)


def _pointed(severity: Severity, title: str, why: str, wrong: str, right: str = "fuel cock: [50 %, 50 %]") -> Entry:
    return Entry(severity, title, why, _photograph(wrong), _photograph(right), "photographs.yaml")


def _charted(title: str, why: str, wrong: str, right: str) -> Entry:
    return Entry("error", title, why, wrong, right, "charts.yaml")


def _chart(show: str = "fuel tank", more: str = "") -> str:
    return _CHART.format(show=show, more=more)


_FILES = {
    "H901": Entry(
        "error",
        "no such picture",
        "A photograph names a file of the type folder, so that the folder can be handed on whole.",
        _photograph(file="photographs/cok.png"),
        _photograph(),
        "photographs.yaml",
    ),
    "H902": Entry(
        "error",
        "not a picture that can be read",
        "JPEG, PNG, WebP and TIFF are read, up to 160 million dots.",
        _photograph(file="scripts/01-fuel.md"),
        _photograph(),
        "photographs.yaml",
    ),
    "H903": Entry(
        "error",
        "a picture outside the folder",
        "A type folder that is handed on must not read its reader's files.",
        _photograph(file="../cock.png"),
        _photograph(),
        "photographs.yaml",
    ),
    "H904": _pointed(
        "error",
        "a place on a photograph that is not understood",
        "A place is how far from the left and how far from the top, both in per cent or both in pixels.",
        "fuel cock: [50 %, 30]",
    ),
    "H905": _pointed(
        "error",
        "a point at a part that is not there",
        "A point is named by a part or a group; anything else is pointed at with words of its own.",
        "fuel cok: [50 %, 50 %]",
    ),
    "H906": _pointed(
        "warning",
        "two points in one place",
        "Two leaders to one place cannot be told apart.",
        "fuel cock: [50 %, 50 %]\n      fuel tank: [50 %, 50.1 %]",
        "fuel cock: [50 %, 50 %]\n      fuel tank: [20 %, 50 %]",
    ),
    "H907": _pointed(
        "warning",
        "words of one's own that are nearly a part",
        "Such words are shown, but the index does not find the part by them.",
        "fuel cok: {at: [50 %, 50 %], says: Turned by hand.}",
        "fuel cock: {at: [50 %, 50 %], says: Turned by hand.}",
    ),
    "H908": Entry(
        "warning",
        "a part that the photograph cannot show",
        "The standards or the airframe of the photograph have no such part.",
        "name: Sparrow\nmarks: [Mk 1, Mk 2]\n"
        "airframes: {S-3: {standard: Mk 2, missing: [fuel cock]}}\n, and a photograph `on: S-3` of the fuel cock",
        "the same photograph without `on`",
        "",
        "tests/handbook/test_photographs.py",
    ),
    "H909": Entry(
        "warning",
        "a photograph without rights",
        "By what right a picture is shown must be known before it is published; for a draft it can be left open.",
        "photographs: {cock: {file: photographs/cock.png}}\n",
        "photographs: {cock: {file: photographs/cock.png, rights: Own picture.}}\n",
        "photographs.yaml",
    ),
    "H910": _pointed(
        "error",
        "a point outside the picture",
        "Places are counted from the upper left corner of the picture as it is seen upright.",
        "fuel cock: [50 %, 130 %]",
    ),
    "H921": _charted(
        "a length of time that is not charted",
        "A chart goes on for some time, and its run ends while somebody still waits for it.",
        _chart(more=", for: 0 s"),
        _chart(more=", for: 30 s"),
    ),
}

_WORDS = {
    "L218": _charted(
        "nothing of that name to be charted",
        "A chart shows readings, states and controls of parts.",
        _chart("fuel tnak"),
        _chart(),
    ),
    "L219": Entry(
        "error",
        "a part that shows nothing against time",
        "Of such a part neither a reading nor a state nor a control is known; one of its ports may be meant.",
        "show: [fuel joint], where the fuel joint is a junction",
        "show: [fuel tank]",
        "",
        "tests/language/test_charts.py",
    ),
}

_DRAWN = {
    "D111": Entry(
        "warning",
        "words too long for a label",
        "A label stands in the margin of a photograph and has the width of a few words; more is hard to read there.",
        "a point named with a word of fifty letters",
        "a point with a short name, the rest under `says`",
        tested_by="tests/draw/test_callouts.py",
    ),
    "D112": Entry(
        "warning",
        "too many labels for one photograph",
        "On A4 the letters would be under seven points, which many cannot read.",
        "a photograph with eighty points",
        "several entries of the same file, each with some of the points",
        tested_by="tests/draw/test_callouts.py",
    ),
}

_PACK = {
    "K312": Entry(
        "error",
        "a photograph without rights in a pack to be published",
        "What is published must say by what right each photograph is shown. A draft can leave it open.",
        "`cutaway publish` of a pack with a photograph that has no `rights`",
        "the same with `rights: Own picture.`, made again",
        tested_by="tests/publish/test_photographs.py",
    ),
    "K601": Entry(
        "error",
        "a photograph that is damaged",
        "Its head says that it is a picture, but the rest cannot be read. The pack is made without it.",
        "a JPEG that was copied by half",
        "the same, copied again",
        tested_by="tests/publish/test_photographs.py",
    ),
}

_CHARTS = {
    "K611": Entry(
        "error",
        "a chart on a standard that has not what it shows",
        "A chart is made for each standard under its `on`, or for the first.",
        "a chart of the hand pump, which only Mk 2 has, without `on`",
        "the same with `on: Mk 2`",
        tested_by="tests/publish/test_charts.py",
    ),
    "K612": Entry(
        "warning",
        "a chart in which nothing changes",
        "A flat line is drawn and marked as unchanged; as a rule something was to be done, or it takes longer.",
        "charts: {petrol: {in: parked, show: [fuel tank]}}",
        "charts: {petrol: {in: flying, show: [fuel tank], for: 10 min}}",
        tested_by="tests/publish/test_charts.py",
    ),
}

_COMMAND = {
    "C123": Entry(
        "error",
        "no chart of that name",
        "Charts are named as `charts.yaml` names them.",
        "cutaway chart demo/whinchat --name 'selector of'",
        "cutaway chart demo/whinchat --name 'selector off'",
        tested_by="tests/cli/test_chart_of_a_run.py",
    ),
    "C131": Entry(
        "error",
        "no photographs",
        "Photographs are named in `photographs.yaml` of the type folder.",
        "`cutaway photographs` of a folder without that file",
        "the same with one photograph in it",
        tested_by="tests/cli/test_photographs.py",
    ),
    "C132": Entry(
        "error",
        "no photograph of that name",
        "Photographs are named as `photographs.yaml` names them.",
        "cutaway photographs demo/turnstone --name 'pilots panel'",
        'cutaway photographs demo/turnstone --name "pilot\'s panel"',
        tested_by="tests/cli/test_photographs.py",
    ),
}

ENTRIES: dict[str, Entry] = {**_FILES, **_WORDS, **_DRAWN, **_PACK, **_CHARTS, **_COMMAND}
