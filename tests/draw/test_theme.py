"""Contrast by the published formula, in both themes."""

import pytest

from cutaway.draw.pipes import strokes
from cutaway.draw.theme import (
    GLOW_RULES,
    GROUNDS,
    INKED_RULES,
    MEDIA,
    MEDIUM_RULES,
    RULES,
    TEXT_RULES,
    THEMES,
    Theme,
    contrast,
)

BOTH = pytest.mark.parametrize("theme", THEMES.values(), ids=lambda t: t.name)


@pytest.mark.parametrize(
    ("colour", "printed"),
    [("#777777", 4.48), ("#767676", 4.54), ("#949494", 3.03), ("#595959", 7.00), ("#0000ff", 8.59), ("#000000", 21.0)],
)
def test_formula_gives_the_published_ratios(colour: str, printed: float) -> None:
    assert abs(contrast(colour, "#ffffff") - printed) <= 0.005


@BOTH
def test_words_can_be_read(theme: Theme) -> None:
    for rule in TEXT_RULES:
        for ground in GROUNDS:
            assert contrast(theme.ink(rule.fill), theme.ink(ground)) >= 4.5, (rule.role, ground)


@BOTH
def test_lines_and_marks_can_be_seen(theme: Theme) -> None:
    for rule in (*INKED_RULES, *MEDIUM_RULES):
        inks = [ink for ink in (rule.stroke or rule.fill,) if ink not in ("", "none")]
        if rule.role.startswith("core") or rule.role == "grain current":
            continue  # the inside of a double line is the paper itself, and so are the beads of a live wire
        for ink in inks or [rule.fill]:
            for ground in GROUNDS:
                assert contrast(theme.ink(ink), theme.ink(ground)) >= 3.0, (rule.role, ground)


@BOTH
def test_beads_are_seen_on_a_live_wire(theme: Theme) -> None:
    rules = {rule.role: rule for rule in MEDIUM_RULES}
    assert contrast(theme.ink(rules["grain current"].stroke), theme.ink(rules["casing current"].stroke)) >= 3.0


def test_in_grey_no_two_lines_of_a_sheet_look_alike() -> None:
    """Width, dash and what lies within tell them apart where colour does not."""
    rules = {rule.role: tuple(rule.rest) for rule in MEDIUM_RULES}
    looks: dict[tuple[object, ...], str] = {}
    for medium in MEDIA:
        for live, flowing, low in ((True, False, False), (False, False, False), (False, True, False)):
            roles = strokes(medium, live, flowing, low)
            what = "flowing" if flowing else "live" if live else "at rest"
            wire = " wire" if medium == "current" and not flowing else ""
            look = tuple(rules[role] for role in roles)
            known = looks.setdefault(look, what + wire)
            assert known == what + wire, (medium, what, known)
    assert len(looks) > 5


@BOTH
def test_marks_on_a_lit_lamp_can_be_seen(theme: Theme) -> None:
    for rule in GLOW_RULES:
        assert contrast(theme.ink(rule.fill), theme.ink("glow")) >= 4.5
    assert contrast(theme.ink("onglow"), theme.ink("glow")) >= 3.0


def test_both_themes_have_the_same_inks() -> None:
    names = [tuple(name for name, _ in theme.inks) for theme in THEMES.values()]
    assert len(set(names)) == 1


def test_every_ink_is_used() -> None:
    used = {ink for rule in (*RULES, *TEXT_RULES) for ink in (rule.fill, rule.stroke)} - {"", "none"}
    assert used == {name for name, _ in THEMES["light"].inks}


def test_live_lines_of_each_fluid_differ_in_dash() -> None:
    grain = {rule.role.split()[1]: dict(rule.rest)["stroke-dasharray"] for rule in MEDIUM_RULES if "grain" in rule.role}
    assert len(set(grain.values())) == len(grain)
    assert "petrol" not in grain and "oil" in grain and "air" in grain
