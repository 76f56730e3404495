"""A saved web page that carries a schema.org Recipe, as JSON-LD or as microdata."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from typing import Any

from counterproof.errors import NotARecipe
from counterproof.marks import Mark
from counterproof.recipe.model import Recipe
from counterproof.recipe.schema_org import chosen, recipes_in
from counterproof.recipe.text import HOW_TO_WRITE_ONE

_VOID = frozenset(
    [
        "area",
        "base",
        "br",
        "col",
        "embed",
        "hr",
        "img",
        "input",
        "link",
        "meta",
        "param",
        "source",
        "track",
        "wbr",
    ]
)
_BLOCKS = frozenset(
    [
        "p",
        "li",
        "br",
        "div",
        "ol",
        "ul",
        "tr",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "dd",
        "dt",
        "section",
        "article",
    ]
)
_CLOSES_ITS_LIKE = frozenset(("li", "p", "dt", "dd", "tr", "td"))
_LISTS = frozenset(("ul", "ol", "dl", "table", "div", "section", "article", "blockquote"))
_DEEPEST = 1000  # elements open at once that are followed: assumed, real pages stay under a hundred
_HIDDEN = frozenset(("script", "style", "template", "noscript"))
_WRAPPED = re.compile(
    r"^\s*(?:<!--|/[/*]\s*<!\[CDATA\[(?:\s*\*/)?|<!\[CDATA\[)|(?:-->|/[/*]?\s*\]\]>(?:\s*\*/)?|\]\]>)\s*$"
)


def read_page(text: str, file: str | None = None) -> Recipe:
    """Read the recipe that a saved web page carries for machines.

    Parameters
    ----------
    text : str
        The page's HTML.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Recipe
        The first recipe with ingredients, JSON-LD before microdata; blocks of data that could
        not be read are counted in its marks.

    Raises
    ------
    NotARecipe
        If the page carries no recipe.
    """
    page = _Page()
    page.feed(text)
    page.close()
    found: list[dict[str, Any]] = []
    broken = 0
    for block in page.blocks:
        try:
            document = json.loads(_WRAPPED.sub("", block), strict=False)
        except (ValueError, RecursionError):
            broken += 1
            continue
        found += recipes_in(document)
    found += [one for one in page.items if one.get("@type") == "Recipe"]
    if not found:
        lost = f" {_blocks(broken)} could not be read." if broken else ""
        raise NotARecipe(
            f"The page carries no schema.org recipe.{lost}",
            remedy=f"Copy the recipe's words into a text file. {HOW_TO_WRITE_ONE}",
            file=file,
        )
    recipe = chosen(found, file)
    if not broken:
        return recipe
    note = Mark("note", "broken-block", f"{_blocks(broken)} in the page could not be read.")
    return replace(recipe, marks=(*recipe.marks, note))


def _blocks(count: int) -> str:
    return "1 block of data" if count == 1 else f"{count} blocks of data"


def _as_microdata(said: dict[str, str]) -> dict[str, str]:
    """Attributes of an element, those of RDFa Lite under their names in microdata."""
    if "typeof" in said and "itemscope" not in said:
        said |= {"itemscope": "", "itemtype": said["typeof"].removeprefix("schema:")}
    if "property" in said and "itemprop" not in said:
        said["itemprop"] = said["property"].replace("schema:", "")
    return said


@dataclass
class _Open:
    """An element not yet closed, with what microdata hangs on it."""

    tag: str
    item: dict[str, Any] | None = None  # the item that this element is
    owner: dict[str, Any] | None = None  # the item that its property belongs to
    names: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)


class _Page(HTMLParser):
    """Gathers JSON-LD blocks and microdata items."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.blocks: list[str] = []
        self.items: list[dict[str, Any]] = []
        self.open: list[_Open] = []
        self.hidden = 0
        self.block: list[str] | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = _as_microdata({name: value or "" for name, value in attrs})
        if tag in _BLOCKS:
            self._words("\n")
        if tag in _CLOSES_ITS_LIKE:
            self._close_like(tag)
        if tag == "script" and said.get("type", "").split(";")[0].strip().lower() == (
            "application/ld+json"
        ):
            self.block = []
        element = self._element(tag, said)
        if tag in _VOID:
            self._end(element, said)
            return
        if len(self.open) == _DEEPEST:
            return
        self.open.append(element)
        if tag in _HIDDEN:
            self.hidden += 1
        # A "content" or "datetime" speaks for the element, whatever it shows.
        if element.names and element.item is None and "content" in said:
            self._give(element, said["content"])
            element.names = []

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in _BLOCKS:
            self._words("\n")
        if tag not in [one.tag for one in self.open]:
            return
        while self.open:
            element = self.open.pop()
            if element.tag in _HIDDEN:
                self.hidden -= 1
            if element.tag == "script" and self.block is not None:
                self.blocks.append("".join(self.block))
                self.block = None
            self._end(element, {})
            if element.tag == tag:
                return

    def handle_data(self, data: str) -> None:
        if self.block is not None:
            self.block.append(data)
        elif not self.hidden:
            self._words(data)

    def close(self) -> None:
        super().close()
        if self.block is not None:
            self.block.append(self.rawdata)  # a page cut off inside the block
            self.blocks.append("".join(self.block))
        while self.open:
            self._end(self.open.pop(), {})

    def _close_like(self, tag: str) -> None:
        """End an element that HTML lets stand open until the next of its kind."""
        for element in reversed(self.open):
            if element.tag == tag:
                self.handle_endtag(tag)
                return
            if element.tag in _LISTS:
                return

    def _words(self, text: str) -> None:
        for element in self.open:
            if element.names and element.item is None:
                element.words.append(text)

    def _element(self, tag: str, said: dict[str, str]) -> _Open:
        owner = next((one.item for one in reversed(self.open) if one.item is not None), None)
        names = said.get("itemprop", "").split() if owner is not None else []
        item: dict[str, Any] | None = None
        if "itemscope" in said:
            kind = re.split(r"[/#]", said.get("itemtype", "").split(" ")[0].rstrip("/"))[-1]
            item = {"@type": kind}
            if not names:
                self.items.append(item)
        return _Open(tag, item, owner, names)

    def _end(self, element: _Open, said: dict[str, str]) -> None:
        if not element.names:
            return
        if element.item is not None:
            if element.item.get("@type") == "Recipe":
                self.items.append(element.item)
            self._give(element, element.item)
        elif element.tag in _VOID:
            self._give(element, said.get("content", said.get("href", said.get("src", ""))))
        else:
            lines = (" ".join(line.split()) for line in "".join(element.words).split("\n"))
            self._give(element, "\n".join(line for line in lines if line))

    def _give(self, element: _Open, value: Any) -> None:
        if element.owner is None or value == "":
            return
        for name in element.names:
            if name in {"recipeInstructions", "recipeIngredient", "ingredients"} and (
                isinstance(value, str)
            ):
                element.owner.setdefault(name, []).extend(value.split("\n"))
            elif name in element.owner:
                held = element.owner[name]
                element.owner[name] = [*(held if isinstance(held, list) else [held]), value]
            else:
                element.owner[name] = [value] if name == "recipeInstructions" else value
