"""The option tables of the kitchen questions' page, made from the options themselves.

`python -m counterproof.cli.option_tables docs/physics_questions.md` renews them in place.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Any, Final, get_args

import typer

from counterproof.cli.physics import physics

_BLOCK: Final = re.compile(r"(<!-- options: (\w+) -->\n).*?(<!-- end -->)", re.DOTALL)


def commands() -> dict[str, Any]:
    """Every kitchen question by its name."""
    group: Any = typer.main.get_command(physics)
    return dict(group.commands)


def table(command: Any) -> str:
    """The options of one question as a table."""
    rows = ["| option | takes | says |", "| --- | --- | --- |"]
    for option in command.params:
        if option.name == "help":
            continue
        if option.param_type_name == "argument":
            names, takes = "parts", option.metavar
        else:
            names = " / ".join(f"`{name}`" for name in (*option.opts, *option.secondary_opts))
            flag = option.is_flag
            kinds = get_args(option.type_descriptor.annotation)
            takes = "" if flag else option.metavar or "|".join(kinds)
        takes = f"`{takes}`" if takes else ""
        need = " **Needed.**" if option.required else ""
        shown = f"{takes}".replace("|", "` or `")
        rows.append(f"| {names} | {shown} | {option.help or ''}{need} |")
    return "\n".join(rows) + "\n"


def renewed(page: str) -> str:
    """A page with every option table made anew."""
    known = commands()

    def block(found: re.Match[str]) -> str:
        return f"{found[1]}{table(known[found[2]])}{found[3]}"

    return _BLOCK.sub(block, page)


if __name__ == "__main__":
    place = Path(sys.argv[1])
    place.write_text(renewed(place.read_text(encoding="utf-8")), encoding="utf-8")
