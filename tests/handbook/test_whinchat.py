"""The demo type loads whole, without a complaint, and is frozen through and through."""

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.ports import port_named, ports_of
from cutaway.handbook.records import Folder, lines_on, paragraph, parts_on
from cutaway.parts.library import KINDS
from tests.handbook.folders import WHINCHAT


@pytest.fixture(scope="module")
def whinchat() -> Folder:
    folder, problems = load_folder(WHINCHAT)
    assert problems == ()
    assert folder is not None
    return folder


def test_nothing_in_the_folder_can_be_changed(whinchat):
    again, _ = load_folder(WHINCHAT)
    assert again == whinchat
    assert hash(again) == hash(whinchat)


def test_nothing_was_left_out(whinchat):
    assert whinchat.left_out == frozenset()


def test_every_line_ends_at_ports_that_both_parts_have_on_its_standards(whinchat):
    assert whinchat.lines
    for standard in whinchat.type.standards:
        parts = {part.name: part for part in parts_on(whinchat, standard.name)}
        for line in lines_on(whinchat, standard.name):
            for end in (line.start, line.end):
                part = parts[end.part]
                assert port_named(end.inner, ports_of(part, KINDS[part.kind])) is not None


def test_every_coupling_leads_to_a_part_of_its_standards(whinchat):
    for part in whinchat.parts:
        for link in part.links:
            assert link.on.names
            others = [other for other in whinchat.parts if other.name == link.target.part]
            assert link.on.names <= part.on.names
            assert link.on.names <= frozenset().union(*(other.on.names for other in others))


def test_every_required_figure_is_there_on_every_standard(whinchat):
    for part in whinchat.parts:
        said = {value.name: value for value in part.values}
        for want in KINDS[part.kind].wants:
            if not want.default:
                covered = frozenset().union(*(given.on.names for given in said[want.name].givens))
                assert covered == part.on.names


def test_no_two_values_are_for_one_standard(whinchat):
    for part in whinchat.parts:
        for value in part.values:
            names = [name for given in value.givens for name in given.on.names]
            assert len(names) == len(set(names))


def test_every_citation_can_be_followed_and_marks_its_own_words(whinchat):
    cites = [cite for part in whinchat.parts for cite in part.cites]
    cites += [cite for line in whinchat.lines for cite in line.cites]
    cites += [cite for script in whinchat.scripts for one in script.sentences for cite in one.cites]
    assert len(cites) > 50
    for cite in cites:
        assert paragraph(whinchat, cite) is not None
        assert cite.number in cite.span.file.text[cite.span.start : cite.span.end]


def test_what_is_decided_is_marked_on_its_value(whinchat):
    decided = [g for p in whinchat.parts for v in p.values for g in v.givens if g.decided]
    assert [given.decided for given in decided] == [one.because for one in whinchat.decided]


def test_the_names_of_a_figure_are_marked_where_they_stand(whinchat):
    for part in whinchat.parts:
        for value in part.values:
            for given in value.givens:
                assert given.span.file.text[given.span.start : given.span.end] == given.quantity.text
