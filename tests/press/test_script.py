"""The script in all its forms: read aloud, as captions read by other programs, with its notes."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace

import pytest
import srt  # type: ignore[import-untyped] # it ships no types
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.files import demo_season, episodes
from counterproof.claims.numbers_in_words import number_at
from counterproof.forme import Forme
from counterproof.press import script
from counterproof.press.aloud import aloud, in_words
from counterproof.press.captions import LINE, LINES, as_subrip, as_webvtt, cues
from counterproof.press.figures import text_of
from counterproof.press.fixed_words import LANGUAGES, words_in
from counterproof.press.part import Setting
from counterproof.press.script_copy import Paragraph, Run, paragraphs, seconds_said, words_said
from counterproof.script_proof import Passage, ScriptProof, Spoken

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]


def made(forme: Forme) -> dict[str, bytes | Setting]:
    found = script.pieces(forme, words_in(forme.language))
    return {piece.name: piece.content for piece in found}


def text(forme: Forme, name: str) -> str:
    content = made(forme)[name]
    assert isinstance(content, bytes)
    return content.decode()


def spoken_script(forme: Forme) -> ScriptProof:
    assert forme.script is not None
    return forme.script


def passage(*runs: str | Spoken) -> ScriptProof:
    return ScriptProof("", (Passage("speech", 1, runs),), runs)


@pytest.mark.published
@pytest.mark.parametrize(
    ("text", "said"),
    [
        # New Hart's Rules (Oxford, 2014), 11.1: hundreds joined to what follows by "and",
        # compound numbers hyphenated; decimals are read digit by digit.
        ("640 g CO₂e", "six hundred and forty grams of CO₂ equivalent"),
        ("12.6 kg CO₂e", "twelve point six kilograms of CO₂ equivalent"),
        ("1 kWh", "one kilowatt hour"),
        ("44\N{NO-BREAK SPACE}%", "forty-four per cent"),
        ("7–9 minutes", "seven to nine minutes"),
        ("121000", "one hundred and twenty-one thousand"),
        ("1204", "one thousand two hundred and four"),
        ("−3 °C", "minus three degrees Celsius"),
        ("<0.1 g", "less than zero point one grams"),
        ("8.0 kg CO₂e", "eight kilograms of CO₂ equivalent"),
        ("about five times", "about five times"),
        ("2.5.1 and 1e5", "2.5.1 and 1e5"),
    ],
)
def test_figures_are_read_as_people_read_them(text: str, said: str) -> None:
    assert aloud(text) == said


@pytest.mark.property
@given(st.integers(0, 999_999))
def test_a_number_in_words_is_understood_as_the_same_number(value: int) -> None:
    found = number_at(in_words(str(value)))
    assert found is not None
    assert found[0] == value


def test_a_number_beyond_words_stays_in_digits() -> None:
    assert in_words("1000000000") == "1000000000"
    assert in_words("999999999").startswith("nine hundred and ninety-nine million")


@pytest.mark.parametrize("name", EPISODES)
def test_captions_are_read_by_programs_that_are_not_ours(name: str, demo_forme: MadeForme) -> None:
    forme = demo_forme(name)
    copy = paragraphs(spoken_script(forme))
    found = cues(copy)
    subtitles = list(srt.parse(text(forme, "script/captions.srt")))
    captions = webvtt.from_buffer(io.StringIO(text(forme, "script/captions.vtt")))
    assert len(subtitles) == len(captions.captions) == len(found) > 3
    for number, (subtitle, caption, cue) in enumerate(
        zip(subtitles, captions.captions, found, strict=True), start=1
    ):
        assert subtitle.index == number
        assert subtitle.start.total_seconds() == pytest.approx(cue.start, abs=0.0011)
        assert subtitle.end > subtitle.start
        assert subtitle.content == "\n".join(cue.lines)
        assert caption.text == subtitle.content
        assert caption.start_in_seconds == int(cue.start + 0.0005)
        assert len(cue.lines) <= LINES
        assert all(len(line) <= LINE for line in cue.lines)
    said = re.sub(r"\s+", " ", " ".join(subtitle.content for subtitle in subtitles))
    spoken = "".join(
        f" {run.text}" if place == 0 else run.text
        for one in copy
        if one.of == "speech"
        for place, run in enumerate(run for run in one.runs if run.kind != "direction")
    )
    assert said == re.sub(r"\s+", " ", spoken).strip()
    assert "150 words a minute" in text(forme, "script/captions.vtt")


def test_the_time_of_a_caption_is_that_of_the_words_said_for_it() -> None:
    # 150 words a minute are 0.4 s a word; "640 g CO₂e" is said in eight words.
    figure = Run("figure", "640\N{NO-BREAK SPACE}g CO₂e", aloud("640 g CO₂e"), 1)
    copy = [Paragraph("speech", (Run("words", "It is ", "It is "), figure, Run("words", ".", ".")))]
    (cue,) = cues(copy)
    assert cue.lines == ("It is 640\N{NO-BREAK SPACE}g CO₂e.",)
    assert words_said(copy[0].runs) == 10
    assert cue.end == pytest.approx(seconds_said(10)) == pytest.approx(4.0)


WORDS = st.lists(
    st.text(alphabet="abcdefgABC.,;!?<>&-–'“”éßØ漢", min_size=1, max_size=60), max_size=60
)


@pytest.mark.property
@given(WORDS)
def test_whatever_is_said_comes_back_from_the_captions(said: list[str]) -> None:
    line = " ".join(said)
    found = cues([Paragraph("speech", (Run("words", line, line),))])
    subtitles = list(srt.parse(as_subrip(found).decode()))
    assert " ".join(one.content.replace("\n", " ") for one in subtitles) == line.replace("-->", "→")
    captions = webvtt.from_buffer(io.StringIO(as_webvtt(found, "a note").decode()))
    assert len(captions.captions) == len(found)
    for cue in found:
        assert len(cue.lines) <= LINES or max(map(len, said)) > LINE


def test_a_sentence_of_thousands_of_words_is_cut_into_captions() -> None:
    line = " ".join(["word,"] * 20_000)
    found = cues([Paragraph("speech", (Run("words", line, line),))])
    assert len(found) > 1000
    assert all(len(cue.lines) <= LINES for cue in found)


def test_directions_links_and_stress_are_read_as_a_speaker_needs_them() -> None:
    (one,) = paragraphs(
        passage(
            "- Say *this* and **that**, not [the page](https://example.org) [Wave.] 2 \\* 3 [^1] a_b_c"
        )
    )
    told = [(run.kind, run.text) for run in one.runs]
    assert ("stress", "this") in told
    assert ("stress", "that") in told
    assert ("direction", "[Wave.]") in told
    said = re.sub(r"\s+", " ", "".join(run.said for run in one.runs))
    assert said == "Say this and that, not the page 2 * 3 a_b_c"


@pytest.mark.parametrize("name", EPISODES)
def test_every_figure_has_the_footnote_of_its_colophon_number(
    name: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(name)
    notes = text(forme, "script/notes.md")
    page = text(forme, "script/notes.html")
    feet = dict(re.findall(r"^\[\^c(\d+)\]: (.*)$", notes, re.MULTILINE))
    for one in spoken_script(forme).spoken:
        assert one.number is not None
        derivation = forme.edition.derivations[one.number - 1]
        foot = feet[str(one.number)]
        assert f"(../colophon/colophon.html#n{one.number})" in foot
        assert notes.count(f"[^c{one.number}]") >= 2  # where it stands, and the note itself
        assert f'id="n{one.number}"' in page
        if one.kind == "figure":
            assert text_of(derivation, forme.edition.middle) in foot
        else:
            assert one.verdict in foot
    said = re.sub(r"\[\^c\d+\]", "", notes)
    for run in spoken_script(forme).text:
        if isinstance(run, str):
            assert run.strip() in said


def test_what_could_not_be_worked_out_stands_as_written_and_says_so(demo_forme: MadeForme) -> None:
    lost = Spoken("figure", 3, "[= one serving of moon]", "[= one serving of moon]", None)
    forme = demo_forme(EPISODES[0], script=passage("That is ", lost, "."))
    notes = text(forme, "script/notes.md")
    mark = len(forme.edition.derivations) + 1
    assert f"\\[= one serving of moon\\][^c{mark}]." in notes
    assert f"[^c{mark}]: Could not be worked out" in notes
    assert "[= one serving of moon]" in text(forme, "script/reading.html")


def test_an_episode_without_a_script_has_no_such_part(demo_forme: MadeForme) -> None:
    assert made(demo_forme(EPISODES[0], script=None)) == {}


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_of_a_script_cannot_leave_their_place(language: str, demo_forme: MadeForme) -> None:
    nasty = '</script><img src=x onerror=alert(1)> #read("x") \N{RIGHT-TO-LEFT OVERRIDE}'
    hostile = replace(passage(nasty), title=nasty)
    forme = demo_forme(EPISODES[0], script=hostile, language=language)
    for name in ("script/reading.html", "script/notes.html"):
        page = text(forme, name)
        assert "<img" not in page
        assert "\N{RIGHT-TO-LEFT OVERRIDE}" not in page
        assert "http" not in re.sub(r"xmlns=\"[^\"]*\"", "", page.split("</style>")[1])
    job = made(forme)["script/reading.pdf"]
    assert isinstance(job, Setting)
    assert "onerror" not in job.source
