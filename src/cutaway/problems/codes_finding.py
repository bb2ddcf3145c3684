"""The codes of sentences held against the books alone, of what the books say of themselves, and of proposals."""

from cutaway.problems.entry import Entry

_FIRST = "tests/narrate/sentence_first/test_differences.py"
_LINK = "tests/narrate/sentence_first/test_linking.py"

ENTRIES: dict[str, Entry] = {
    "N801": Entry(
        "warning",
        "a figure that the likeliest paragraph gives otherwise",
        why="The sentence and the paragraph that it most likely comes from have different figures for the same sort of "
        "thing. The paragraph was found by its words, so a person has to look.",
        wrong="Each tank holds 12 gallons, where §21 says that each tank holds 11 gallons",
        right="Each tank holds 11 gallons, or the sentence with a `cite` to the paragraph that has its figure",
        tested_by=_FIRST,
    ),
    "N802": Entry(
        "warning",
        "a unit that the likeliest paragraph gives otherwise",
        why="The number stands in the paragraph, with another unit.",
        wrong="The reservoir holds 3 gallons, where §37 says that it holds 3 pints",
        right="The reservoir holds 3 pints",
        tested_by=_FIRST,
    ),
    "N803": Entry(
        "warning",
        "a mark that the likeliest paragraph is not for",
        why="What a book says of one mark need not be so on another.",
        wrong="On the Mk 1 a hand pump is fitted, where §27 is for Mk 2",
        right="On the Mk 2 a hand pump is fitted",
        tested_by=_FIRST,
    ),
    "N804": Entry(
        "warning",
        "a term that the books do not use",
        why="A listener who opens the book will look for its own word.",
        wrong="The strainer is washed every thirty hours, where the books say 'filter'",
        right="The filter is washed every thirty hours, or 'strainer' in the glossary as another word for it",
        tested_by=_FIRST,
    ),
    "N805": Entry(
        "warning",
        "a small word that turns the book round",
        why="May for must, before for after, a 'not' left out: the words are the book's and the meaning is not.",
        wrong="Take the lead off the battery after working on the wiring, where §12 says before",
        right="Take the lead off the battery before working on the wiring",
        tested_by=_FIRST,
    ),
    "N806": Entry(
        "warning",
        "said only by a paragraph that was altered",
        why="A later paragraph of the book alters or replaces the one that the sentence agrees with, for a mark that "
        "the sentence speaks of, so that the book says so no longer.",
        wrong="On the Mk 2 the lamp lights below 2 lb/sq in, where §25a alters §25 for Mk 2 and has 3 lb/sq in",
        right="On the Mk 1 the lamp lights below 2 lb/sq in, or 3 lb/sq in on the Mk 2",
        tested_by="tests/narrate/sentence_first/test_stated.py",
    ),
    "N807": Entry(
        "warning",
        "words that the claims under them do not say",
        why="A claim is what is judged; a listener hears the words. A figure or a mark of the sentence must be that of "
        "a claim under it, or stand in the paragraph that it cites or most likely comes from.",
        wrong="On the Mk 2 the lamp lights at four pounds, over the claim `fuel lamp lights at 3 lb/sq in falling`",
        right="On the Mk 2 the lamp lights at three pounds, over the same claim",
        tested_by="tests/narrate/sentence_first/test_claimed.py",
    ),
    "C111": Entry(
        "error",
        "a proposal that there is not",
        why="Proposals are numbered as `cutaway link` lists them; when the script changes they are numbered anew.",
        wrong="cutaway link 01-fuel --accept 99",
        right="cutaway link 01-fuel --accept 1",
        tested_by=_LINK,
    ),
    "C112": Entry(
        "error",
        "a file that changed while proposals were looked at",
        why="A proposal says where it goes in the text that was read. The text is another now, so nothing was written.",
        wrong="a script saved in an editor while its proposals were being answered",
        right="the same after `cutaway link` was run again",
        tested_by=_LINK,
    ),
    "C114": Entry(
        "error",
        "a claim about a part that was not accepted",
        why="A claim about a part that the folder does not have says nothing.",
        wrong="cutaway link 01-fuel --accept 3, where 3 is about the part that 2 proposes",
        right="cutaway link 01-fuel --accept 2 --accept 3",
        tested_by=_LINK,
    ),
    "C113": Entry(
        "error",
        "a date that is not understood",
        why="Amendments are in force from a date on: a year, a month of a year, or a day.",
        wrong="cutaway sources --at 'last summer'",
        right="cutaway sources --at 'May 1939'",
        tested_by="tests/handbook/test_amendments.py",
    ),
    "H231": Entry(
        "warning",
        "an amendment whose date is not understood",
        why="Whether it is in force at a date cannot be told, so it is taken to be always in force.",
        wrong="amendments: {A.L. 1: {date: in the autumn}}",
        right="amendments: {A.L. 1: {date: September 1938}}",
        tested_by="tests/handbook/test_amendments.py",
    ),
}
