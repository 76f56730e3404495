"""How the tables of packs, bins and carriage are laid out; see `adapters.forms` for the others."""

from __future__ import annotations

from counterproof import life_cycle_rows as rows
from counterproof.adapters.form import POSITIVE, SPREAD, Form, Limits

SHARE = Limits(low=0, high=1)
WORTH = Limits(low=0, high=20)
MATERIAL = {"material": "materials.id"}
CONTAINER_KINDS = ("can", "bottle", "jar", "tub", "carton", "tin", "tray", "bag")

LIFE_CYCLE_FORMS: tuple[Form, ...] = (
    Form(
        file="materials.csv",
        row=rows.Material,
        title="What packs are made of, and what making a kilogram of it emits",
        key=("id",),
        limits={"primary": WORTH, "recycled": WORTH, "stack": WORTH, "spread": SPREAD},
        filled=("id", "name", "family"),
    ),
    Form(
        file="recycled_content.csv",
        row=rows.RecycledContent,
        title="Share of a pack's material that has been something before",
        key=("material", "region"),
        refers=MATERIAL,
        limits={"share": SHARE},
        filled=("region",),
    ),
    Form(
        file="containers.csv",
        row=rows.Container,
        title="Packs as they are sold or kept",
        key=("id",),
        refers=MATERIAL,
        limits={"litres": POSITIVE},
        closed={"kind": CONTAINER_KINDS},
        filled=("id", "name"),
    ),
    Form(
        file="container_parts.csv",
        row=rows.ContainerPart,
        title="The parts of a pack and what they weigh",
        key=("container", "part"),
        refers={**MATERIAL, "container": "containers.id"},
        limits={"kg": POSITIVE, "spread": SPREAD},
    ),
    Form(
        file="disposal.csv",
        row=rows.Disposal,
        title="What a kilogram of a material or of food waste emits on its way out, by fate",
        key=("material", "region", "fate"),
        limits={"kgco2e_per_kg": WORTH},
        filled=("material", "region"),
    ),
    Form(
        file="fates.csv",
        row=rows.FateShare,
        title="Which way packs and food waste go, by region and year",
        key=("family", "region", "fate"),
        limits={"share": SHARE, "year": Limits(low=1990, high=2100)},
        filled=("family", "region"),
    ),
    Form(
        file="regions.csv",
        row=rows.Region,
        title="Regions by whose rows a kitchen is valued, and whose rows may stand in",
        key=("id",),
        filled=("id", "name"),
    ),
    Form(
        file="grid_losses.csv",
        row=rows.GridLoss,
        title="Share of what power stations send out that is lost on the way",
        key=("region",),
        refers={"region": "regions.id"},
        limits={"share": Limits(low=0, high=0.6), "year": Limits(low=1990, high=2100)},
    ),
    Form(
        file="burdens.csv",
        row=rows.Burden,
        title="What foods of the global set take besides their greenhouse gases",
        key=("item", "kind"),
        limits={name: Limits(low=0, high=100_000) for name in ("mean", "p05", "p50", "p95")},
        filled=("item", "unit"),
    ),
    Form(
        file="carriage.csv",
        row=rows.Carriage,
        title="What a tonne-kilometre of freight emits, by mode",
        key=("mode", "region"),
        limits={"direct": WORTH, "upstream": WORTH, "spread": SPREAD},
        filled=("mode", "region"),
    ),
    Form(
        file="chains.csv",
        row=rows.Leg,
        title="The usual chain of carriage of a kind of goods",
        key=("chain", "leg"),
        limits={"km": POSITIVE, "spread": SPREAD},
        filled=("chain", "mode"),
    ),
)
