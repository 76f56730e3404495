"""Mixed and hostile text, from a recipe's file to its footprint: nothing but clear errors may come.

    nice -n 19 python benchmarks/fuzz_reading.py --minutes 40 --seed 1

Every text is read as a recipe, marked, and worked out with 100 draws. What a person could not
understand (any exception that is not the program's own) is printed with its text, as is a line
dropped in silence and a recipe that took longer than a second of processor time. It ends with status 1 if there was
any. Found cases are kept as tests in `tests/reading/test_hostile.py`.
"""

from __future__ import annotations

import argparse
import json
import random
import traceback
from time import perf_counter, process_time

from counterproof.adapters.files import read_recipe
from counterproof.adapters.tables import load_tables
from counterproof.draws import Streams
from counterproof.errors import CounterproofError
from counterproof.reading.document import mark_document
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe
from counterproof.use_cases import Order, Workbench, assessed

DRAWS = 100
SLOW = 1.0  # [s] of processor time, a whole recipe of at most 30 lines
LONG = 10_000

AMOUNTS = (
    "2", "1½ kg", "250 g/9 oz", "1 cup (125 ml)", "2 x 400 g tins", "1 (14-ounce) can", "-3 g",
    "a handful of", "1 cup plus 2 tbsp", "2-3", "juice of ½", "1/0", "0 kg", "0/0 cups", "1e9 kg",
    "999999 l", "NaN g", "inf kg", "3 large", "½ of a", "1 ½ ½", "٣ g", "２５０ g", "Ⅳ", "²⁄₃ cup",
    "1,5 dl", "1.234.567 g", "250 g/2 lb", "3 (2 (1 (½", "1–2–3", "30%", "twice the", "5 cm",
)  # fmt: skip
NAMES = (
    "leeks", "white beans", "butter or margarine", "salt and pepper", "lemon", "double cream",
    "chicken, beef, or vegetable stock", "rye flour", "vоdka", "ѕugar", "сrеаm", "crème fraîche",
    "l\u0301emon", "oil/oil/oil", "egg whites", "eggs (meaning 3 eggs)", "(meaning )", "rhubarb",
    "dried, canned, frozen, smoked pears", "water", "of", "or", "and & and", "juice", "%", "tin",
    "half the onions", "the rest of the milk", "enough oil to cover", "to taste", "🍋", "🥕🥕🥕",
)  # fmt: skip
RESTS = (
    "", ", peeled and sliced", " (optional)", ", to taste", ", plus extra for dusting", "((((",
    ", cut into 2 cm pieces", "))))", " or 3 tbsp of something else", " (meaning 200 g butter)",
    " // see page 12", " <b>organic</b>", "&frac12;&nbsp;&amp;", " | 3 | 4", " – – –", ":", ";;;,,,",
)  # fmt: skip
STEPS = (
    "Simmer for 30 minutes.", "Bake at 180°C for 1 hour.", "Boil for ½-¾ hours at 9999999 °F.",
    "Leave overnight, then chill until cold.", "Fry, fry, fry.", "Strain out the rhubarb.",
    "Reduce by half for 0 minutes.", "Kühl stellen 🧊 for −5 minutes.", "Freeze for 1e400 days.",
)  # fmt: skip
ODD = (
    "\u200f", "\u202e", "\u200b", "\ufeff", "\u2028", "\u0085", "\x00", "\x1b[31m", "\x0c", "\t",
    "\ud7ff", "👩🏽‍🍳", "🫘", "٪", "ﷺ", "Ω", "ß", "ﬁ", "İ", "ı", "<script>", "</li>", "<li>", "<!--",
    "]]>", "&#0;", "&#x110000;", "{{", "}}", "%s", "\\", "'", '"', "`", "---", "# ", "- ", "* ",
    "\n", "\r", "\r\n\r\n", ": ", "0", "9" * 40, "½", "⁄", "/", "(", ")", "[", "]",
)  # fmt: skip
HEADS = (
    "", "# Stew\n\n", "---\ntitle: Stew\nserves: 4\n---\n", "---\nserves: 0\n---\n", "---\n",
    "---\nserves: [1, 2]\nkitchen: {range: yes}\n---\n", "Serves 4-6\n\nIngredients\n",
    "---\ntitle: Stew\nversions: {plain: {swap: {leeks: onions}}}\n---\n",
)  # fmt: skip


def hostile_line(dice: random.Random) -> str:
    """Return one line, from nearly usual to nothing but noise."""
    kind = dice.random()
    if kind < 0.05:
        return " ".join(str(dice.randint(0, 10**9)) for _ in range(dice.randint(1, 30)))
    if kind < 0.10:
        return "".join(chr(dice.choice((dice.randint(1, 0xD7FF), dice.randint(0xE000, 0x1FFFF))))
                       for _ in range(dice.randint(1, 60)))  # fmt: skip
    line = f"{dice.choice(AMOUNTS)} {dice.choice(NAMES)}{dice.choice(RESTS)}"
    for _ in range(dice.choice((0, 0, 0, 1, 2, 5))):
        at = dice.randint(0, len(line))
        line = line[:at] + dice.choice((*ODD, *AMOUNTS, *NAMES, *RESTS)) + line[at:]
    if kind < 0.13:
        piece = dice.choice((line, *ODD, *AMOUNTS, *RESTS)) or " "
        line = (piece * (LONG // len(piece) + 1))[:LONG]
    if kind > 0.97:
        line = "".join(dice.sample(line, len(line)))
    return line


def hostile_recipe(dice: random.Random) -> str:
    """Return the text of a recipe, or of something that is none."""
    lines = [hostile_line(dice) for _ in range(dice.randint(1, 12))]
    steps = [dice.choice((*STEPS, hostile_line(dice))) for _ in range(dice.randint(0, 4))]
    shape = dice.random()
    if shape < 0.15:
        page = {"@context": "https://schema.org", "@type": "Recipe", "name": "Stew",
                "recipeIngredient": lines, "recipeInstructions": steps}  # fmt: skip
        text = json.dumps(page)
        if dice.random() < 0.5:
            text = f'<html><script type="application/ld+json">{text}</script></html>'
    else:
        mark = dice.choice(("- ", "* ", ""))
        body = "\n".join(mark + line for line in lines)
        method = "\n".join(f"{at}. {step}" for at, step in enumerate(steps, start=1))
        text = f"{dice.choice(HEADS)}{body}\n\n{dice.choice(('', 'Method', '## Method'))}\n{method}"
    if shape > 0.95:
        at = dice.randint(0, len(text))
        text = text[:at] + dice.choice(ODD) + text[dice.randint(at, len(text)) :]
    return text


def worked_out(text: str, bench: Workbench, streams: Streams) -> Recipe:
    """Take a text the whole way to its footprint.

    Parameters
    ----------
    text : str
        Of a recipe, or of anything.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Held draws.

    Returns
    -------
    Recipe
        As it was read.

    Raises
    ------
    CounterproofError
        If it is no recipe, or a broken one.
    """
    recipe = read_recipe(text.encode("utf-8", "replace"), "hostile.md")
    order = Order(recipe, Kitchen())
    done = assessed(order, bench, streams)
    json.dumps(done.to_dict(), allow_nan=False)
    json.dumps(mark_document(done.reading, bench.tables, streams), allow_nan=False)
    if len(done.reading.lines) != len(recipe.lines):
        raise AssertionError("a line was dropped")
    return recipe


def main() -> int:
    """Read hostile recipes until the time is over; print what went wrong."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--minutes", type=float, default=1.0)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    dice = random.Random(options.seed)  # noqa: S311 (no secret)
    bench = Workbench.over(load_tables())
    begun = perf_counter()
    texts = lines = refused = 0
    found: set[str] = set()
    while perf_counter() - begun < 60 * options.minutes:
        text = hostile_recipe(dice)
        texts += 1
        started = process_time()
        try:
            lines += len(worked_out(text, bench, Streams(seed=1, n=DRAWS)).lines)
        except CounterproofError:
            refused += 1
        except Exception as fault:  # noqa: BLE001 (whatever it is, it is looked for)
            where = traceback.extract_tb(fault.__traceback__)[-1]
            name = f"{type(fault).__name__} at {where.filename.rpartition('/')[2]}:{where.lineno}"
            if name not in found:
                found.add(name)
                print(f"{name}: {fault}\n{text[:3000]!a}\n", flush=True)
                traceback.print_exception(fault)
        if process_time() - started > SLOW:
            print(f"slow, {process_time() - started:.1f} s: {text[:20_000]!a}\n", flush=True)
            found.add("slow")
        if texts % 1000 == 0:
            print(f"{texts} texts, {perf_counter() - begun:.0f} s", flush=True)
    minutes = (perf_counter() - begun) / 60
    print(f"{texts} texts ({refused} refused), {lines} lines, {minutes:.1f} minutes")
    print("found: " + ("; ".join(sorted(found)) or "nothing"))
    return 1 if found else 0


if __name__ == "__main__":
    raise SystemExit(main())
