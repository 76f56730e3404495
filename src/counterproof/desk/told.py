"""What a request tells: a JSON object, its words by name."""

from __future__ import annotations

import json
from typing import Any

from starlette.requests import Request

from counterproof.errors import UnreadableFile


async def told_by(request: Request) -> dict[str, Any]:
    """Return the JSON object of a request.

    Parameters
    ----------
    request : Request
        The request.

    Returns
    -------
    dict
        What it says.

    Raises
    ------
    UnreadableFile
        If it is no JSON object.
    """
    try:
        told = json.loads(await request.body())
    except (ValueError, RecursionError):
        told = None
    if not isinstance(told, dict):
        raise UnreadableFile("The request is no JSON object.", remedy="Load the page anew.")
    return told


def words(told: dict[str, Any], key: str) -> str:
    """Return the words a request says under a name.

    Parameters
    ----------
    told : dict
        What it says.
    key : str
        The name.

    Returns
    -------
    str
        Its words.

    Raises
    ------
    UnreadableFile
        If there are none.
    """
    value = told.get(key)
    if not isinstance(value, str):
        raise UnreadableFile(f"The request says no {key}.", remedy="Load the page anew.")
    return value
