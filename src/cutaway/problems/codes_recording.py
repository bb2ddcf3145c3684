"""The codes of captions that are read, of recordings, and of words that are taken in as a script."""

from cutaway.problems.entry import Entry

_SOUND = "tests/narrate/recording/test_bad_sound.py"
_READING = "tests/narrate/test_caption_reading.py"
_IMPORT = "tests/narrate/test_imported.py"

ENTRIES: dict[str, Entry] = {
    "N401": Entry(
        "error",
        "a file that holds no captions",
        why="Captions are WebVTT or SRT: times with an arrow between them, and text under them.",
        wrong="a plain letter named `talk.vtt`",
        right="a file with `00:00:01.000 --> 00:00:03.000` and a line of text under it",
        tested_by=_READING,
    ),
    "N402": Entry(
        "error",
        "a caption whose times cannot be read",
        why="The caption is left out, as a player would leave it out: nobody can say when it stands.",
        wrong="00:00:1.0 --> 00:00:3",
        right="00:00:01.000 --> 00:00:03.000",
        tested_by=_READING,
    ),
    "N403": Entry(
        "warning",
        "a caption that ends before it begins",
        why="Players keep such a caption and never show it. Its words are read all the same.",
        wrong="00:00:05.000 --> 00:00:04.000",
        right="00:00:04.000 --> 00:00:05.000",
        tested_by=_READING,
    ),
    "N404": Entry(
        "warning",
        "captions whose times run backwards",
        why="Captions stand in the order in which they are said; the order of the file is kept.",
        wrong="a caption at 00:01:10.000 and after it one at 00:00:50.000",
        right="the one at 00:00:50.000 first",
        tested_by=_READING,
    ),
    "N405": Entry(
        "error",
        "WebVTT without its signature",
        why="A player looks at the first line alone. Without the signature it takes nothing from the file, and says so "
        "to nobody.",
        wrong="Webvtt in the first line of `talk.vtt`",
        right="WEBVTT in the first line of `talk.vtt`",
        tested_by=_READING,
    ),
    "N501": Entry(
        "error",
        "no such recording",
        why="The recording that was named is not there, or is a folder.",
        wrong="cutaway captions 01-fuel --recording naration.wav",
        right="cutaway captions 01-fuel --recording narration.wav",
        tested_by=_SOUND,
    ),
    "N502": Entry(
        "error",
        "a file with no sound that can be read",
        why="The file is broken, is no recording, or is in a form that the sound reader does not know.",
        wrong="a photograph given as the recording",
        right="a WAV, MP3, FLAC or a film with sound",
        tested_by=_SOUND,
    ),
    "N503": Entry(
        "error",
        "what listens to recordings is not installed",
        why="It is large and not everybody needs it, so it is installed by itself.",
        wrong="pip install cutaway",
        right="pip install -c constraints.txt -e '.[recording]'",
        tested_by=_SOUND,
    ),
    "N504": Entry(
        "error",
        "a recording with nothing to hear",
        why="A silent or very short recording has no words to put times to.",
        wrong="a muted track",
        right="the narration itself",
        tested_by=_SOUND,
    ),
    "N505": Entry(
        "error",
        "a recording that is not of this script",
        why="Hardly any of the script's words were heard in their order, and hardly anything that was heard is of the "
        "script: it is music, noise or another text. Captions with such times would be worse than none.",
        wrong="cutaway captions 01-fuel --recording organ.wav",
        right="cutaway captions 01-fuel --recording fuel-narration.wav",
        tested_by=_SOUND,
    ),
    "N506": Entry(
        "warning",
        "a recording that was heard badly",
        why="A strong accent, noise or a far microphone: the times between the words that were heard are estimated, "
        "and many of the departures are none.",
        wrong="a narration in a hangar with the engine running",
        right="the same near the microphone",
        tested_by=_SOUND,
    ),
    "N507": Entry(
        "warning",
        "a recording of a part of the script",
        why="Only what is in the recording has captions and chapters; the rest of the script is listed as not in it. "
        "Such captions are right for the part and wrong for a film of the whole.",
        wrong="cutaway captions 01-fuel --recording second-chapter.wav",
        right="cutaway captions 01-fuel --recording second-chapter.wav --out second-chapter",
        tested_by="tests/narrate/recording/test_part_of_script.py",
    ),
    "N601": Entry(
        "error",
        "words that cannot be taken in",
        why="Words are taken from WebVTT, SRT, Markdown, plain text and DOCX.",
        wrong="cutaway import-words talk.odt",
        right="cutaway import-words talk.docx",
        tested_by=_IMPORT,
    ),
    "N602": Entry(
        "error",
        "a script of that name is there already",
        why="A script may have claims in it that took days; nothing is written over.",
        wrong="cutaway import-words talk.srt, where scripts/talk.md is there",
        right="cutaway import-words talk.srt --name talk-2",
        tested_by=_IMPORT,
    ),
    "N604": Entry(
        "error",
        "a file that is there already",
        why="Captions may have been corrected by hand; they are replaced only when that is asked for.",
        wrong="cutaway captions 01-fuel, where captions/01-fuel.vtt is there and differs",
        right="cutaway captions 01-fuel --replace",
        tested_by=_IMPORT,
    ),
    "N605": Entry(
        "error",
        "a repair of that number is not there",
        why="Repairs are numbered as they are shown; only those that were shown can be applied.",
        wrong="--apply 9, where there are 3 repairs",
        right="--apply 1,3",
        tested_by="tests/narrate/test_repair.py",
    ),
    "N606": Entry(
        "error",
        "no such file of words",
        why="It is not there, or the system does not let you read it.",
        wrong="cutaway import-words tolk.srt, where the file is called talk.srt",
        right="cutaway import-words talk.srt",
        tested_by=_IMPORT,
    ),
    "N607": Entry(
        "error",
        "no name for a script",
        why="The name of a script is that of its file, and is typed on the command line.",
        wrong="cutaway import-words talk.srt --name 'My talk'",
        right="cutaway import-words talk.srt --name my-talk",
        tested_by=_IMPORT,
    ),
    "N608": Entry(
        "warning",
        "not spoken, and left out",
        why="Captions name sounds, music and speakers, and manuscripts have title pages and figures; a script has what "
        "is said.",
        wrong="[MUSIC] GUIDE: She has two tanks.",
        right="She has two tanks.",
        tested_by=_IMPORT,
    ),
    "N609": Entry(
        "warning",
        "sentences that were guessed",
        why="Captions made by a machine often have no full stops. A script is checked sentence by sentence, so that "
        "ends are put where a caption ends with a pause or the words have become many.",
        wrong="captions without a full stop in a hundred words",
        right="the same with full stops",
        tested_by=_IMPORT,
    ),
}
