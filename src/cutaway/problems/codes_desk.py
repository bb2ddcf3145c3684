"""The codes of the script desk, of letters, of what is published and of the manuscript."""

from cutaway.problems.entry import Entry, Severity


def _told(severity: Severity, title: str, why: str, wrong: str, right: str, test: str) -> Entry:
    return Entry(severity, title, why, wrong, right, tested_by=test)


_SCRIPT = "# The cock\n\nThe petrol is in one tank. `{}` The cock is fitted on every mark.\n"
_HANDBOOK: dict[str, Entry] = {
    "H607": Entry(
        "error",
        "a mark of the script desk that does not say what",
        "A mark such as `promise:` or `show:` names what is promised or shown.",
        _SCRIPT.format("promise:"),
        _SCRIPT.format("promise: the lamp"),
        "scripts/01-fuel.md",
    ),
    "H702": Entry(
        "error",
        "a letter about a film of which there is no script",
        "A letter names the film by the name of its script, so that the sentence and its moment can be found.",
        "letters:\n  the tank: {objects to: The petrol is in one tank., film: 09-nothing}\n",
        "letters:\n  the tank: {objects to: The petrol is in one tank., film: 01-fuel}\n",
        "letters.yaml",
    ),
    "H703": Entry(
        "error",
        "no moment in a film",
        "A moment is minutes and seconds from the beginning of the film.",
        "letters:\n  the tank: {objects to: The petrol is in one tank., film: 01-fuel, at: near the end}\n",
        "letters:\n  the tank: {objects to: The petrol is in one tank., film: 01-fuel, at: '0:02'}\n",
        "letters.yaml",
    ),
}

_TERMS = "tests/narrate/desk/test_terms.py"
_PROMISES = "tests/narrate/desk/test_promises.py"
_SHOTS = "tests/narrate/desk/test_shots.py"
_DESK: dict[str, Entry] = {
    "N901": _told(
        "warning",
        "a term used before it is introduced",
        "Who sees the films in order hears a word of the trade that nobody has explained yet.",
        "'magneto' in 01-fuel, and `introduced: 02-current` in glossary.yaml",
        "the term introduced in the first film that uses it",
        _TERMS,
    ),
    "N902": _told(
        "warning",
        "a term that is not used where it is introduced",
        "The glossary says that a script introduces the term, and the script never speaks of it.",
        "`introduced: 01-fuel` for a word that stands in no sentence of 01-fuel",
        "`introduced:` with the script that explains it",
        _TERMS,
    ),
    "N903": _told(
        "warning",
        "a term that nobody introduces",
        "A term of the glossary is spoken of, and neither the glossary nor a mark says where it is explained.",
        "`magneto: {means: …}`, and 'magneto' in a script",
        "`magneto: {means: …, introduced: 02-current}`",
        _TERMS,
    ),
    "N904": _told(
        "warning",
        "an introduction of something that is no term",
        "A mark `introduces:` names a term of the glossary.",
        "`introduces: magnetoe` behind a sentence",
        "`introduces: magneto`",
        _TERMS,
    ),
    "N911": _told(
        "warning",
        "a promise that no script settles",
        "A viewer was told that something would be covered, and nothing says that it was.",
        "`promise: the battery` in 01-fuel, and no `settles: the battery`",
        "`settles: the battery` behind the sentence that covers it",
        _PROMISES,
    ),
    "N912": _told(
        "warning",
        "something settled that nobody promised",
        "A mark `settles:` names what an earlier sentence promised, in the same words.",
        "`settles: the batery`, where `promise: the battery` was made",
        "`settles: the battery`",
        _PROMISES,
    ),
    "N913": _told(
        "warning",
        "a promise settled before it was made",
        "What has been covered already is no promise.",
        "`settles: the battery` in 01-fuel and `promise: the battery` in 02-current",
        "the promise in the earlier film",
        _PROMISES,
    ),
    "N914": _told(
        "warning",
        "a sentence that sounds like a promise",
        "A promise without a mark is not tracked, and may be forgotten.",
        "A later film covers the battery.",
        "A later film covers the battery. `promise: the battery`",
        _PROMISES,
    ),
    "N921": _told(
        "warning",
        "a picture of something that there is not",
        "A mark `show:` names a system, and if need be a standard and a situation, of which there is a sheet; a "
        "mark `call-out:` names a part. Words in quotation marks are taken for a picture of your own.",
        "`show: Feul, Mk 1`",
        "`show: Fuel, Mk 1`",
        _SHOTS,
    ),
}

_LETTERS_TEST = "tests/narrate/desk/test_letters.py"
_LETTERS: dict[str, Entry] = {
    "N701": _told(
        "warning",
        "a letter about a sentence that is in no script",
        "The sentence objected to is neither in a script of today nor in anything published.",
        "`objects to:` a sentence that was never said",
        "`objects to:` the sentence as it stands in the script",
        _LETTERS_TEST,
    ),
    "N702": _told(
        "warning",
        "a letter whose moment is not that of its sentence",
        "The moment that the letter names is not where the sentence is spoken, so that one of them may be wrong.",
        "`at: 9:10` for a sentence spoken at 0:14",
        "`at: 0:14`",
        _LETTERS_TEST,
    ),
    "N703": _told(
        "warning",
        "a letter on which nothing is decided",
        "Somebody waits for an answer.",
        "a letter without `decision:`",
        "the same with `decision:` and `because:`",
        _LETTERS_TEST,
    ),
}

_PUBLISHED = "tests/publish/corrections/test_published.py"
_PUBLISH: dict[str, Entry] = {
    "K301": _told(
        "error",
        "no pack to publish",
        "Only a pack that Cutaway made can be marked as published, since only that is known in every sentence.",
        "`cutaway publish` before `cutaway make`",
        "`cutaway make`, then `cutaway publish`",
        _PUBLISHED,
    ),
    "K302": _told(
        "error",
        "a pack that was changed by hand",
        "What is marked as published must be what was made; else a later correction would compare with something else.",
        "`index.html` of the pack edited, then `cutaway publish`",
        "the change made in the type folder, `cutaway make`, then `cutaway publish`",
        _PUBLISHED,
    ),
    "K303": _told(
        "warning",
        "the pack is published already",
        "The same files were marked as published before, so nothing is written.",
        "`cutaway publish` twice",
        "`cutaway publish` after something was changed and made",
        _PUBLISHED,
    ),
    "K304": _told(
        "error",
        "a date before the last publication",
        "What is published later has the later date; corrections are told in that order.",
        "`cutaway publish --on 2026-01-01` after one on 2026-03-01",
        "`cutaway publish --on 2026-03-02`",
        _PUBLISHED,
    ),
    "K305": _told(
        "error",
        "a record of a publication that cannot be read",
        "It was changed by hand or cut short, so that it is not known what was published.",
        "a file of `published/` with half a record in it",
        "the file as `cutaway publish` wrote it, from a copy",
        _PUBLISHED,
    ),
    "K306": _told(
        "error",
        "the record of a publication could not be written",
        "The disk or its permissions refuse. Nothing was marked as published.",
        "a type folder that may only be read",
        "a type folder of one's own",
        _PUBLISHED,
    ),
    "K307": _told(
        "warning",
        "films that are held to be made again",
        "A publication without --same-films is of new films, on the times of the pack; captions of the old ones are no "
        "longer corrected.",
        "a sentence edited and `cutaway publish`, where the film on the web stays as it is",
        "the same with `cutaway publish --same-films`",
        "tests/publish/corrections/test_captions.py",
    ),
    "K308": _told(
        "warning",
        "captions of a film that has other words than its script",
        "The times of a film are taken from `captions/` of the type folder, but only from captions of this script.",
        "`captions/01-fuel.vtt` of a film on another subject",
        "`cutaway captions 01-fuel --recording talk.wav --replace`, then `cutaway publish`",
        "tests/publish/corrections/test_film_captions.py",
    ),
    "K310": _told(
        "warning",
        "something published that reads otherwise now",
        "A sentence, caption, drawing or figure that is out in the world differs from the type folder of today.",
        "a sentence of a published script edited",
        "the same after the errata page was handed on and `cutaway publish` was said again",
        "tests/publish/corrections/test_errata.py",
    ),
    "K311": _told(
        "warning",
        "a sentence for which a published film has no room",
        "It was put in after the film was published, so that the corrected captions cannot show it.",
        "a new sentence in a published script",
        "the film made again, then `cutaway publish`",
        "tests/publish/corrections/test_captions.py",
    ),
    "K313": _told(
        "error",
        "a pack with something wrong in it",
        "The folder that it was made of has errors, or a claim in it fails; nothing that is known to be wrong is "
        "published unasked.",
        "`cutaway publish` of a pack with a claim that fails",
        "the sentence mended, `cutaway make`, `cutaway publish`; or `cutaway publish --as-it-is`, which is recorded",
        _PUBLISHED,
    ),
}

_WRITING = "tests/publish/test_manuscript.py"
_MANUSCRIPT: dict[str, Entry] = {
    "K401": _told(
        "error",
        "the library for manuscripts is not installed",
        "A manuscript in DOCX is written with python-docx, which is an extra of this package.",
        "`cutaway manuscript` in an installation without the extra",
        "`pip install -c constraints.txt -e '.[manuscript]'`, then the same",
        _WRITING,
    ),
    "K402": _told(
        "error",
        "a file that is there already",
        "It may be somebody's work, so that it is only written over where that is asked for.",
        "`cutaway manuscript 01-fuel.md --out book.docx`, where book.docx is there",
        "another name, or `--replace`",
        "tests/publish/test_single_file.py",
    ),
    "K403": _told(
        "error",
        "scripts of several type folders",
        "One manuscript has one list of books and one notice.",
        "`cutaway manuscript whinchat/scripts/01-fuel.md wren/scripts/01-fuel.md`",
        "a manuscript for each",
        _WRITING,
    ),
    "K404": _told(
        "error",
        "a file that could not be written",
        "The disk or its permissions refuse.",
        "`--out` in a folder that may only be read",
        "`--out` in a folder of one's own",
        "tests/publish/test_single_file.py",
    ),
    "K405": _told(
        "warning",
        "figures without drawings",
        "The drawings of a manuscript are the sheets of the pack, so that both show the same; a pack that is missing "
        "or older than the type folder has not the right ones.",
        "`cutaway manuscript` before `cutaway make`",
        "`cutaway make`, then `cutaway manuscript`",
        _WRITING,
    ),
    "K406": _told(
        "error",
        "a manuscript that is no DOCX",
        "A word processor goes by the ending of a file, and a DOCX that is called otherwise opens as rubbish.",
        "`cutaway manuscript demo/whinchat --out book.txt`",
        "`cutaway manuscript demo/whinchat --out book.docx`",
        "tests/publish/test_manuscript.py",
    ),
}

_COMMAND: dict[str, Entry] = {
    "C201": _told(
        "error",
        "a file of one script asked for with several",
        "A prompter or a shot list is of one script.",
        "`cutaway desk demo/whinchat --prompter fuel.html`",
        "`cutaway desk demo/whinchat/scripts/01-fuel.md --prompter fuel.html`",
        "tests/narrate/desk/test_desk.py",
    ),
    "C203": _told(
        "error",
        "a file of the desk with an ending that says otherwise",
        "The ending says what a file is: a prompter is a page, a shot list a table for a spreadsheet or a page.",
        "`cutaway desk demo/whinchat/scripts/01-fuel.md --shots fuel.txt`",
        "`cutaway desk demo/whinchat/scripts/01-fuel.md --shots fuel.csv`",
        "tests/narrate/desk/test_desk.py",
    ),
    "C202": _told(
        "error",
        "no such letter",
        "A letter is named as in letters.yaml.",
        '`cutaway letters --reply "the lamps figure"`',
        '`cutaway letters --reply "the lamp\'s figure"`',
        _LETTERS_TEST,
    ),
}

ENTRIES: dict[str, Entry] = {**_HANDBOOK, **_DESK, **_LETTERS, **_PUBLISH, **_MANUSCRIPT, **_COMMAND}
