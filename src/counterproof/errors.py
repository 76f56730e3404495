"""Every error a person can meet, as one tree.

CounterproofError
├── InputError            what was given cannot be used; names the file, the line and the remedy
│   ├── UnreadableFile        not there, not text, too large
│   ├── NotARecipe            text without ingredients, a page without a recipe
│   ├── BrokenFrontMatter     YAML that cannot be read, or a value of the wrong kind
│   ├── BrokenSettings        the same in a kitchen or season file
│   ├── OutsideFolder         a path that leads out of the folder that is open
│   ├── ChangedOnDisk         a save that would write over what someone else saved
│   ├── ReadOnly              a change to the demo season, which is kept by keeping a copy
│   ├── AlreadyThere          a folder or file that would be written over
│   ├── NotAPressFolder       a folder to be verified that the press did not make
│   ├── NotFilledIn           entries of a form that cannot be used
│   ├── UnknownVersion        RECIPE+VERSION where the recipe has no such version
│   ├── SwapNotFound          a version swaps a line that is not in the recipe
│   └── NotUnderstood         words in a script that its small language does not know
├── UsageFault            a command or an option that is not there, or not so
├── QuantityError         a quantity on the command line without a unit, or with an unknown one
├── OutOfRange            a result that does not exist for these inputs
├── SettingFailed         a page or picture that the typesetter refuses
└── TableError            a data table that breaks its own rules (ours or the user's)
"""

from __future__ import annotations


class CounterproofError(Exception):
    """What went wrong, where, and what to do next.

    Parameters
    ----------
    message : str
        What was found and what is allowed.
    remedy : str
        What to do next.
    file : str or None
        The file it was found in, as the person named it.
    line : int or None
        Line in that file, counted from 1.
    """

    def __init__(
        self, message: str, *, remedy: str, file: str | None = None, line: int | None = None
    ) -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy
        self.file = file
        self.line = line

    @property
    def kind(self) -> str:
        """The technical name, last in every message."""
        return type(self).__name__

    def __str__(self) -> str:
        where = self.file or ""
        if self.line is not None:
            where = f"{where}, line {self.line}" if where else f"line {self.line}"
        lead = f"{where}: " if where else ""
        return f"{lead}{self.message} {self.remedy} ({self.kind})"

    def to_dict(self) -> dict[str, str | int | None]:
        """Return the JSON form of the error, as contracts promise it."""
        return {
            "kind": self.kind,
            "file": self.file,
            "line": self.line,
            "message": self.message,
            "remedy": self.remedy,
        }


class InputError(CounterproofError):
    """What was given cannot be used."""


class UnreadableFile(InputError):
    """The file is not there, is not text, or is too large."""


class NotARecipe(InputError):
    """The text has no ingredients, or the page has no recipe."""


class BrokenFrontMatter(InputError):
    """The YAML cannot be read, or a value is of the wrong kind."""


class BrokenSettings(InputError):
    """A kitchen or season file: YAML that cannot be read, or a value of the wrong kind."""


class OutsideFolder(InputError):
    """A path that leads out of the folder that is open."""


class ChangedOnDisk(InputError):
    """The file changed on disk since it was opened, and nothing is written over."""


class ReadOnly(InputError):
    """What is open can be looked at and not changed."""


class AlreadyThere(InputError):
    """What would be written is there already, and nothing is written over."""


class NotAPressFolder(InputError):
    """The folder that is to be held against today's recipe was not made by the press."""


class UnknownVersion(InputError):
    """The recipe has no version of that name."""


class CircularRecipe(InputError):
    """Two recipes each need the other."""


class SwapNotFound(InputError):
    """A version swaps a line that is not in the recipe."""


class NotUnderstood(InputError):
    """Words in a script that its small language does not know, or too many of them."""


class UsageFault(CounterproofError):
    """A command or an option that is not there, or is not used so."""


class NotFilledIn(InputError):
    """A form in which some entries cannot be used.

    Parameters
    ----------
    faults : dict of str to str
        Entry → what is wrong with it.
    """

    def __init__(self, faults: dict[str, str]) -> None:
        super().__init__(" ".join(faults.values()), remedy="Correct what is marked and ask again.")
        self.faults = faults


class QuantityError(CounterproofError):
    """A quantity without a unit, or with a unit that is not known here."""


class OutOfRange(CounterproofError):
    """The result does not exist for these inputs."""


class SettingFailed(CounterproofError):
    """The typesetter refuses a page or a picture of the press."""


class TableError(CounterproofError):
    """A data table breaks its own rules."""
