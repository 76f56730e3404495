"""The words and signs of a batch record: what a time, a temperature, a jar, a share looks like."""

from __future__ import annotations

import re
from typing import Final

N: Final = r"\d+(?:[.,]\d+)?"
HEADING: Final = re.compile(r"#{1,6}\s+(?P<title>.*?)\s*#*\s*")
BULLET: Final = re.compile(r"\s*(?:[-*+•]\s+(?!\d+\s*$))?")
CLOCK: Final = re.compile(
    r"(?:^|\bat\s+|\s)(?P<h>[01]?\d|2[0-3]):(?P<m>[0-5]\d)(?:\s*(?P<half>am|pm)\b)?", re.IGNORECASE
)
SPAN: Final = rf"(?:(?P<h>{N})\s*(?:h|hours?|hrs?)\b)?\s*(?:(?P<m>{N})\s*(?:min|mins|minutes?)\b)?"
LATER: Final = re.compile(
    rf"(?:\bafter\s+|^\+?\s*)(?P<span>{N}\s*(?:h|hours?|hrs?|min|mins|minutes?)\b(?:\s*{N}\s*(?:min|mins|minutes?)\b)?)"
    r"(?:\s+later)?(?=\s*[:,;]|\s+(?:it|at|on|in|the|\d|later|stood)|\s*$)",
    re.IGNORECASE,
)
TEMPERATURE: Final = re.compile(
    rf"(?P<n>[-−]?{N})\s*(?:(?:°|º|deg(?:rees)?\.?)\s*(?P<u>celsius|fahrenheit|[CFK])?(?![a-z])|(?P<v>[CF])\b|(?P<w>celsius|fahrenheit)\b)",
    re.IGNORECASE,
)  # fmt: skip
BRIX: Final = re.compile(
    rf"(?P<n>{N})\s*(?:°\s*)?(?:Bx|Brix)\b|\bBrix\s*:?\s*(?P<m>{N})", re.IGNORECASE
)
METER: Final = re.compile(rf"(?P<a>{N})\s*(?:kWh)?\s*(?:→|->|to)\s*(?P<b>{N})\s*kWh", re.IGNORECASE)
KWH: Final = re.compile(rf"(?P<n>{N})\s*(?P<u>kWh|Wh)\b", re.IGNORECASE)
VOLUME: Final = re.compile(
    rf"(?P<n>{N})\s*(?P<u>ml|cl|dl|l|litres?|liters?|millilitres?|milliliters?)\b", re.IGNORECASE
)
JARS: Final = re.compile(
    r"\b(?P<n>\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|a dozen|twelve)\s*(?:[x×]\s*)?"
    r"(?P<what>(?:[a-z½-]+\s+){0,2}?(?:jars?|bottles?|tubs?|boxes|containers?|glasses))\b"
    rf"(?:\s*(?:of|at|with|filled to|to|,|:)*\s*(?P<each>{N})\s*(?P<u>ml|cl|l|litres?|liters?))?",
    re.IGNORECASE,
)
JARS_SIZED: Final = re.compile(
    rf"\b(?P<n>\d{{1,3}})\s*[x×]\s*(?P<each>{N})\s*(?P<u>ml|cl|l|litres?|liters?)\b(?:\s+(?P<what>jars?|bottles?|tubs?))?",
    re.IGNORECASE,
)
EATEN: Final = re.compile(
    rf"(?P<n>{N})\s*%\s*(?:was|were)?\s*(?:eaten|drunk)|\b(?:eaten|drunk|ate|drank)\s*:?\s*(?:about\s+)?(?:(?P<m>{N})\s*%|(?P<word>all|everything|half|three quarters|a quarter|two thirds|nothing))"
    r"|\b(?P<pre>all|everything|half|three quarters|a quarter|two thirds)\b[^,;.]{0,24}\b(?:eaten|drunk|gone)\b",
    re.IGNORECASE,
)  # fmt: skip
SHARES: Final = {
    "all": 1.0, "everything": 1.0, "half": 0.5, "three quarters": 0.75, "a quarter": 0.25,
    "two thirds": 2 / 3, "nothing": 0.0,
}  # fmt: skip
TASTED: Final = re.compile(
    r"(?:tasted|tastes?|tasting|flavou?r|looks?|colou?r|texture|verdict|smells?)\b\s*[:,–-]?\s*(?P<words>.*)",
    re.IGNORECASE,
)
LASTED: Final = re.compile(
    rf"\b(?P<what>simmer\w*|boil\w*|cook\w*|heat\w*(?: up)?|steep\w*|drip\w*|stood|hands[- ]on|stirr\w*)\s*:?\s*(?:it\s+)?(?:for\s+)?(?:about\s+)?(?P<span>{N}\s*(?:h|hours?|hrs?|min|mins|minutes?)\b(?:\s*{N}\s*(?:min|mins|minutes?)\b)?)",
    re.IGNORECASE,
)  # fmt: skip
SERVES: Final = re.compile(
    r"\b(?:made|cooked|batch|quantity)\s+(?:it\s+)?for\s+(?P<n>\d{1,4})\b|\bserves\s+(?P<m>\d{1,4})\b"
    r"|\b(?P<word>half|double|twice|three times)\s+(?:the\s+)?(?:recipe|quantity|amounts?|batch)\b",
    re.IGNORECASE,
)
TIMES: Final = {"half": 0.5, "double": 2.0, "twice": 2.0, "three times": 3.0}
EVENTS: Final[tuple[tuple[str, re.Pattern[str]], ...]] = tuple(
    (name, re.compile(pattern, re.IGNORECASE))
    for name, pattern in (
        ("ice bath", r"\b(?:ice[- ]?bath|iced? water|water and ice)\b"),
        ("fridge", r"\b(?:in|into|to)\s+the\s+fridge\b"),
        ("freezer", r"\b(?:in|into|to)\s+the\s+freezer\b"),
        ("jars", r"\b(?:jarred|bottled|into\s+(?:the\s+)?(?:\w+\s+){0,2}(?:jars|bottles|tubs)|filled)\b"),
        ("strained", r"\b(?:strain\w*|sieved?|into the cloth)\b"),
        ("off", r"\b(?:off(?:\s+the\s+(?:heat|hob))?|heat off|hob off|taken off|switched off)\b"),
        ("boil", r"\b(?:boils?|boiling|simmers?|simmering|comes? up|came up|at the boil|bubbl\w+)\b"),
        ("on", r"\b(?:on(?:\s+the\s+(?:heat|hob|ring))?|heat on|hob on|switched on|start(?:ed|s)?|begun)\b"),
    )
)  # fmt: skip
AMBIENT: Final = re.compile(
    r"\b(?P<where>fridge|refrigerator|freezer|room|hall|kitchen|tap|cold tap|tap water)\b[^\d°]{0,24}$",
    re.IGNORECASE,
)
INTO: Final = re.compile(r"\b(?:in|into|to)\s+the\s*$", re.IGNORECASE)
