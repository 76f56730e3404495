"""What was really said: captions in SubRip or WebVTT, or a plain transcript.

WebVTT is a W3C recommendation track document; SubRip is a de facto form: number, time line, words.
"""

from __future__ import annotations

import re
from typing import Final

_TIME: Final = re.compile(
    r"^(?P<start>(?:\d{1,3}:)?\d{2}:\d{2}[.,]\d{3}) +--> +(?:\d{1,3}:)?\d{2}:\d{2}[.,]\d{3}.*$"
)
_TAGS: Final = re.compile(r"<[^<>]{0,200}>|\{\\[^{}]{0,100}\}")


def are_captions(name: str, text: str) -> bool:
    """Whether a file holds captions.

    Parameters
    ----------
    name : str
        Its name.
    text : str
        Its text.

    Returns
    -------
    bool
        By its ending, or by its first lines.
    """
    return name.casefold().endswith((".srt", ".vtt")) or text.lstrip("\ufeff").startswith("WEBVTT")


def cues(text: str) -> list[tuple[str, str]]:
    """The captions of a file.

    Parameters
    ----------
    text : str
        SubRip or WebVTT.

    Returns
    -------
    list of (str, str)
        Time code at which each begins, and its words without mark-up; notes and styles left out.
    """
    found: list[tuple[str, str]] = []
    blocks = re.split(r"\n\s*\n", text.removeprefix("\ufeff").replace("\r\n", "\n"))
    for block in blocks:
        lines = block.strip().split("\n")
        at = next((i for i, line in enumerate(lines[:2]) if _TIME.match(line.strip())), None)
        if at is None:
            continue
        match = _TIME.match(lines[at].strip())
        words = _TAGS.sub("", " ".join(lines[at + 1 :])).strip()
        if match is not None and words:
            found.append((match["start"].replace(",", "."), words))
    return found
