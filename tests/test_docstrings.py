"""Every public function says what goes in, in which unit, and what comes out."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import counterproof

# The command line documents itself through --help, which its own tests read.
_UNIT = re.compile(r"\[[^\]]+\]")
_RETURNS = re.compile(r"^(?:Returns|Yields)$", re.MULTILINE)
_PHYSICAL = re.compile(r"(?:float|Draws|float \| Draws|Draws \| float)(?: \| None)?")
UNREAD = ("counterproof.cli", "counterproof.__main__")


def _modules() -> Iterator[Any]:
    for found in pkgutil.walk_packages(counterproof.__path__, "counterproof."):
        if not found.name.startswith(UNREAD):
            yield importlib.import_module(found.name)


def _public() -> Iterator[tuple[str, Callable[..., Any]]]:
    for module in _modules():
        for name, member in vars(module).items():
            if name.startswith("_") or getattr(member, "__module__", "") != module.__name__:
                continue
            if inspect.isfunction(member):
                yield f"{module.__name__}.{name}", member
            elif inspect.isclass(member):
                for inner, method in vars(member).items():
                    function = getattr(method, "__func__", method)
                    if not inner.startswith("_") and inspect.isfunction(function):
                        yield f"{module.__name__}.{name}.{inner}", function


PUBLIC = dict(_public())


@pytest.mark.parametrize("name", PUBLIC)
def test_a_public_function_documents_arguments_units_and_result(name: str) -> None:
    function = PUBLIC[name]
    text = inspect.getdoc(function) or ""
    assert text, f"{name} has no docstring"
    signature = inspect.signature(function)
    arguments = [p for p in signature.parameters if p not in {"self", "cls"}]
    faults = []
    for argument in arguments:
        entry = re.search(
            rf"^(?:\w+, )*\*{{0,2}}{argument}(?:, \w+)* : .*\n((?:    .*\n?|\n(?=    ))*)",
            text,
            re.MULTILINE,
        )
        if entry is None:
            faults.append(f"argument {argument} is not documented")
        elif _is_physical(signature.parameters[argument]) and not _UNIT.search(entry[0]):
            faults.append(f"argument {argument} has no [unit]")
    silent = str(signature.return_annotation) in {"None", "Never", "NoReturn"}
    if arguments and not silent and not _RETURNS.search(text):
        faults.append("what it returns is not documented")
    assert not faults, f"{name}: " + "; ".join(faults)


def _is_physical(argument: inspect.Parameter) -> bool:
    return bool(_PHYSICAL.fullmatch(str(argument.annotation)))
