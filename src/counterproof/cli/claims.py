"""Commands that make figures fit to be said: liken a quantity, vet a script."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.numbers import number
from counterproof.cli.options import DrawCount, Json, KitchenFile, Seed
from counterproof.errors import InputError, UsageFault

family = typer.Typer()


@family.command()
def liken(
    quantity: Annotated[
        list[str],
        typer.Argument(
            metavar="QUANTITY", help="Such as 0.8kgCO2, 550gCO2e, 7L, 1.2kWh.", show_default=False
        ),
    ],
    recipe: Annotated[
        str | None,
        typer.Option("--in", metavar="RECIPE", help="Take QUANTITY as words about this recipe."),
    ] = None,
    celsius: Annotated[
        float, typer.Option("--celsius", metavar="C", help="Temperature of a gas.")
    ] = 20.0,
    drawing: Annotated[
        str | None,
        typer.Option("--draw", metavar="FILE", help="Draw the best one to scale, as SVG."),
    ] = None,
    beside: Annotated[
        str | None,
        typer.Option("--beside", metavar="QUANTITY", help="Draw a second quantity beside it."),
    ] = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """Liken a quantity to things people can see."""
    from counterproof import vetting_cases

    said = " ".join(quantity)
    episode = None if recipe is None else opening.episode(Path(recipe), kitchen)
    place = opening.kitchen(kitchen) if episode is None else episode.order.kitchen
    bench, streams = opening.bench(place), opening.streams(seed, draws)
    figure, seen = vetting_cases.likened_quantity(
        said, place, bench, streams, celsius=celsius, episode=episode
    )
    if drawing is not None:
        from counterproof.adapters.writing import write_atomically
        from counterproof.press.likenesses import to_scale

        pictured = [seen]
        if beside is not None:
            _, other = vetting_cases.likened_quantity(
                beside, place, bench, streams, celsius=celsius, episode=episode
            )
            pictured.append(other)
        drawn = vetting_cases.drawn_alike(pictured)
        if not drawn:
            raise InputError(
                f"Nothing that can be drawn pictures {' and '.join(filter(None, (said, beside)))}.",
                remedy="Give amounts that make between 1 and 300 balloons, pots or bottles.",
            )
        title = said if beside is None else f"{said} beside {beside}"
        write_atomically(Path(drawing), to_scale(drawn, title).encode())
    if as_json:
        outcome.print_json({"quantity": said, "likenesses": [one.to_dict() for one in seen]})
    else:
        from counterproof.adapters.claims_terminal import print_likenesses

        print_likenesses(said, figure, seen, outcome.console())
    outcome.leave(() if seen else ("doubt",))


@family.command()
def vet(
    script: Annotated[
        str | None,
        typer.Argument(
            metavar="SCRIPT", help="A script, an episode's folder, or captions.", show_default=False
        ),
    ] = None,
    their: Annotated[
        str | None,
        typer.Option(
            "--their", metavar="TEXT", help="Someone else's number: which choices give it."
        ),
    ] = None,
    recipe: Annotated[
        str | None,
        typer.Option("--recipe", metavar="RECIPE", help="The recipe, where none stands beside."),
    ] = None,
    resolved: Annotated[
        str | None,
        typer.Option("--resolved", metavar="FILE", help="Write the script as it will be said."),
    ] = None,
    level: Annotated[
        float, number("--level", 0.5, 0.999, "Share from which a claim is kept.")
    ] = 0.9,
    us_units: Annotated[
        bool, typer.Option("--us-units", help="Say pounds, ounces, quarts and miles.")
    ] = False,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """Vet a script: every figure, every claim, every loose number."""
    from counterproof import vetting_cases
    from counterproof.adapters import claims_terminal
    from counterproof.adapters.contents import content_of_stream, decoded
    from counterproof.adapters.files import load_text
    from counterproof.adapters.writing import write_atomically
    from counterproof.claims.captions import are_captions

    streams = opening.streams(seed, draws)
    if their is not None:
        bench = opening.bench(opening.kitchen(kitchen))
        theirs = vetting_cases.vetted_theirs(their, bench, streams)
        if as_json:
            outcome.print_json(theirs.to_dict())
        else:
            claims_terminal.print_theirs(theirs, outcome.console())
        outcome.leave(() if theirs.verdict == "holds" else ("doubt",))
        return
    if script is None:
        raise UsageFault(
            "No script was named.", remedy="Name one, or give --their “99 kg per kg beef”."
        )
    if script == "-":
        text, place = decoded(content_of_stream(sys.stdin.buffer), "-"), Path("script.md")
    else:
        place = Path(script) / "script.md" if Path(script).is_dir() else Path(script)
        text = load_text(place)
    episode = opening.episode(Path(recipe) if recipe else place.parent, kitchen)
    bench = opening.bench(episode.order.kitchen)
    if are_captions(place.name, text):
        beside = place.parent / "script.md"
        written = load_text(beside) if beside.is_file() else None
        found = vetting_cases.vetted_captions(text, written, episode, bench, streams)
    else:
        found = vetting_cases.vetted_script(
            text,
            episode,
            bench,
            streams,
            file=str(place),
            level=level,
            system="us" if us_units else "metric",
        )
    if resolved is not None:
        write_atomically(Path(resolved), found.resolved.encode())
    if as_json:
        outcome.print_json(found.to_dict())
    else:
        claims_terminal.print_vetted(found, outcome.console())
    outcome.leave(("doubt",) if found.attention else ())
