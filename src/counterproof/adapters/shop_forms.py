"""How the tables of the shop are laid out; see `adapters.forms` for the others."""

from __future__ import annotations

from counterproof import shop_rows as rows
from counterproof.adapters.form import POSITIVE, Form

SHOP_FORMS: tuple[Form, ...] = (
    Form(
        file="packs_sold.csv",
        row=rows.PackSold,
        title="Packs in which foods are commonly sold",
        key=("food", "amount", "unit"),
        refers={"food": "foods.id"},
        limits={"amount": POSITIVE},
    ),
    Form(
        file="shop_parts.csv",
        row=rows.ShopPart,
        title="Where in a shop a class of foods stands",
        key=("food_class",),
        filled=("food_class", "part"),
    ),
)
