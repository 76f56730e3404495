"""Locking up the forme: what one episode brings to the press, from the results of the use cases."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from counterproof.calendar_days import appointments
from counterproof.draws import Streams
from counterproof.footprint.held import Held
from counterproof.footprint.matrices import product_system
from counterproof.forme import Forme, Trim
from counterproof.galley import script_set
from counterproof.measured_out import measured_out
from counterproof.picturing import pictured
from counterproof.proof import Derivation, Edition
from counterproof.recipe.schema_org_written import to_json_ld
from counterproof.script_proof import ScriptProof
from counterproof.typesetting import source_line
from counterproof.use_cases import Workbench, assessed, proof_of, results, versions_beside
from counterproof.vetting_cases import Episode, material_of, vetted_script


@dataclass(frozen=True)
class Manuscript:
    """What stands in an episode's folder.

    Parameters
    ----------
    episode : Episode
        The recipe with its kitchen, version and servings, the season's others, the audience.
    script : str or None
        Text of the script; None where there is none.
    script_file : str or None
        Its name, for messages.
    """

    episode: Episode
    script: str | None = None
    script_file: str | None = None


def locked_up(
    manuscript: Manuscript,
    bench: Workbench,
    streams: Streams,
    *,
    date: str,
    language: str = "en",
    trim: Trim | None = None,
) -> Forme:
    """One episode, ready for the press.

    Parameters
    ----------
    manuscript : Manuscript
        What stands in the episode's folder.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    date : str
        The day it is pressed for, ISO 8601.
    language : str
        Of the fixed words.
    trim : Trim or None
        How the card is cut and measured.

    Returns
    -------
    Forme
        Everything the press needs.
    """
    held = Held()
    base = assessed(manuscript.episode.order, bench, streams, held=held)
    versions = versions_beside(base, bench, streams, held)
    edition = proof_of(base, bench, streams, date=date, held=held, versions=versions)
    pictures = pictured(base, edition, versions, bench, streams, held)
    edition = _enlarged(edition, pictures.derivations, (), bench)
    script, edition = _script(manuscript, bench, streams, edition, held)
    return Forme(
        edition=edition,
        date=date,
        language=language,
        trim=trim or Trim(),
        card=measured_out(base.reading, bench.tables),
        script=script,
        results=results(base, edition),
        matrices=product_system(base.footprint).files(),
        linked_data=to_json_ld(base.reading.recipe),
        credits=base.reading.recipe.credits,
        appointments=appointments(base.reading, base.plan, date),
        likened=pictures.likened,
        courses=pictures.courses,
        positions=pictures.positions,
    )


def _enlarged(
    edition: Edition, added: Sequence[Derivation], named: Iterable[str], bench: Workbench
) -> Edition:
    """The proof with further derivations, and the sources that they and others name."""
    asked = {*named, *(term.source for one in added for term in one.terms)}
    listed = {source.id for source in edition.sources}
    more = (
        source_line(one)
        for name in sorted(asked - listed)
        if (one := bench.tables.sources.get(name)) is not None
    )
    return replace(
        edition,
        derivations=(*edition.derivations, *added),
        sources=tuple(sorted((*edition.sources, *more), key=lambda source: source.id)),
    )


def _script(
    manuscript: Manuscript, bench: Workbench, streams: Streams, edition: Edition, held: Held
) -> tuple[ScriptProof | None, Edition]:
    """The script as it will be said, and the proof with what it adds: derivations, sources."""
    if manuscript.script is None:
        return None, edition
    episode = manuscript.episode
    material = material_of(episode, bench, streams, held)
    vetted = vetted_script(
        manuscript.script, episode, bench, streams, file=manuscript.script_file, material=material
    )
    script, added = script_set(vetted, material, edition)
    named = {source for spoken in script.spoken for source in spoken.sources}
    return script, _enlarged(edition, added, named, bench)
