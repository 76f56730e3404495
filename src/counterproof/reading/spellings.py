"""Words of a food's name, made comparable: case, accents, plurals, spellings.

The same treatment is given to the names in the food table and to what the cook wrote, so it only
has to be consistent: a singular it invents meets the same invention on the other side.
"""

from __future__ import annotations

import re
import unicodedata

# Spellings of one word, by the singular this module makes; common knowledge of English.
SPELLINGS = {
    "chile": "chilli",
    "chili": "chilli",
    "chilly": "chilli",
    "yoghurt": "yogurt",
    "yoghourt": "yogurt",
    "whisky": "whiskey",
    "filet": "fillet",
    "gelatine": "gelatin",
    "catsup": "ketchup",
    "bulghur": "bulgur",
    "bulgar": "bulgur",
    "bulghar": "bulgur",
    "houmous": "hummus",
    "doughnut": "donut",
    "omelette": "omelet",
    "flavored": "flavoured",
    "flavor": "flavour",
    "colored": "coloured",
    "coloring": "colouring",
    "flavoring": "flavouring",
    "aluminum": "aluminium",
    "tinned": "canned",
    "can": "tin",
    "wholewheat": "wholemeal",
    "wholegrain": "wholemeal",
    "parmigiano": "parmesan",
    "raising": "rising",
    "soy": "soya",
    "bicarb": "bicarbonate",
    "powdered": "powder",
    "pwd": "powder",
    "pwdr": "powder",
    "pdr": "powder",
    "pd": "powder",
    "veg": "vegetable",
    "choc": "chocolate",
    "tumeric": "turmeric",
    "spud": "potato",
    "tattie": "potato",
    "neep": "swede",
    "shroom": "mushroom",
    "avo": "avocado",
    "cuke": "cucumber",
    "codfish": "cod",
    "avacado": "avocado",
    "parsely": "parsley",
    "cardamon": "cardamom",
    "rasberry": "raspberry",
    "worchestershire": "worcestershire",
    "worcester": "worcestershire",
    "kalamansi": "calamansi",
    "beet": "beetroot",
    "mayo": "mayonnaise",
    "marg": "margarine",
    "lowfat": "low fat",
    "nonfat": "non fat",
    "gingerroot": "root ginger",
    "crystallized": "crystallised",
    "sr": "self rising",
    "ap": "all purpose",
    "mozz": "mozzarella",
    "parm": "parmesan",
}

# Words whose singular no rule gives, and words that only look like plurals.
SINGULARS = {
    "leaves": "leaf",
    "loaves": "loaf",
    "halves": "half",
    "calves": "calf",
    "geese": "goose",
    "cookies": "cookie",
    "brownies": "brownie",
    "roes": "roe",
    "smokies": "smokie",
    "queenies": "queenie",
    "veggies": "vegetable",
    "swiss": "swiss",
    "molasses": "molasses",
    "brussels": "brussels",
    "schnapps": "schnapps",
    "bitters": "bitters",
    "calvados": "calvados",
    "thermos": "thermos",
    "herbes": "herb",
}

_POSSESSIVES = re.compile(r"[’'`´ʼ]s?(?=\W|$)|[’'`´ʼ]")
_QUOTES = frozenset("’'`´ʼ")
_FREE_RANGE = re.compile(r"free[- ]range")
_FREE = re.compile(
    r"\b(dairy|milk|egg|meat|gluten)[- ]free"
)  # one word: something else in its place
_MOST_HELD = 50_000  # names, and words, that a speller holds: some megabytes
_WORD = re.compile(r"[a-z]+|\d+ ?%|\b00\b")
_LIGATURES = str.maketrans(
    {"œ": "oe", "æ": "ae", "ø": "o", "ß": "ss", "ł": "l", "đ": "d", "ı": "i"}
)


def plain(text: str) -> str:
    """Text in lower case without accents.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The same words, comparable.
    """
    if text.isascii():
        return text.lower()
    folded = unicodedata.normalize("NFKD", text.casefold()).translate(_LIGATURES)
    return "".join(letter for letter in folded if not unicodedata.combining(letter))


def singular(word: str) -> str:
    """A word in the singular, by rule.

    Parameters
    ----------
    word : str
        One word in lower case without accents.

    Returns
    -------
    str
        Its singular, or the word itself.
    """
    found = SINGULARS.get(word)
    if found is not None:
        return found
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us")):
        return word
    if word.endswith("leaves"):
        return word[:-3] + "f"
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "xes", "sses", "zzes")):
        return word[:-2]
    return word[:-1]


def words(text: str) -> tuple[str, ...]:
    """The comparable words of a name.

    Parameters
    ----------
    text : str
        A food's name, by the table or by the cook.

    Returns
    -------
    tuple of str
        Lower case, without accents, singular, in one spelling; of numbers only percentages
        and the flour grade 00 are kept.
    """
    return tuple(one for word in _written(text) for one in _comparable(word))


def _written(text: str) -> list[str]:
    """The words of a name in lower case, without accents and quotation marks."""
    bare = plain(text)
    if bare.isascii() and bare.replace(" ", "").isalpha() and "free" not in bare:
        return bare.split()  # as most names are: letters and blanks
    if not _QUOTES.isdisjoint(bare):
        bare = _POSSESSIVES.sub("", bare)
    if "free" in bare:
        bare = _FREE.sub(r"\1free", _FREE_RANGE.sub("freerange", bare))
    return _WORD.findall(bare)


def _comparable(word: str) -> tuple[str, ...]:
    """One word in the singular and in one spelling, which may be two words."""
    one = word.replace(" ", "") if word[0].isdigit() else singular(word)
    spelt = SPELLINGS.get(one, one)
    return tuple(spelt.split()) if " " in spelt else (spelt,)


class Speller:
    """Gives the comparable words of names as `words` does, each word and each name worked out once.

    Whoever reads many names holds one. What it holds changes no answer, and is bounded.
    """

    __slots__ = ("_names", "_words")

    def __init__(self) -> None:
        self._names: dict[str, tuple[str, ...]] = {}
        self._words: dict[str, tuple[str, ...]] = {}

    def words(self, text: str) -> tuple[str, ...]:
        """The comparable words of a name.

        Parameters
        ----------
        text : str
            A food's name, by the table or by the cook.

        Returns
        -------
        tuple of str
            As the function `words`.
        """
        held = self._names.get(text)
        if held is not None:
            return held
        if len(self._names) >= _MOST_HELD or len(self._words) >= _MOST_HELD:
            self._names.clear()
            self._words.clear()
        known = self._words
        found: list[str] = []
        for word in _written(text):
            own = known.get(word)
            if own is None:
                own = known[word] = _comparable(word)
            found += own
        said = self._names[text] = tuple(found)
        return said
