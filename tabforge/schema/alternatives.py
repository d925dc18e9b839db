"""The errors worth telling, out of those of an anyOf or oneOf: the ones of the alternative that was meant."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from tabforge.schema.values import TYPES

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError


def told(error: ValidationError) -> Iterator[ValidationError]:
    """The error itself, or those inside it that say more.

    The alternative that was meant is the first whose kind of value was given. If none was, or if what the alternatives differ in is the
    keys they require, the error itself says most.
    """
    branches: dict[Any, list[ValidationError]] = {}
    for inner in error.context or ():
        branches.setdefault(inner.relative_schema_path[0], []).append(inner)
    if all(_lacks_keys(branch) for branch in branches.values()):
        yield error
        return
    meant = next((branch for branch in branches.values() if not any(map(_wrong_kind, branch))), None)
    if meant is None:
        yield error
        return
    for inner in meant:
        yield from told(inner)


def _here(error: ValidationError) -> bool:
    return not error.relative_path


def _lacks_keys(branch: list[ValidationError]) -> bool:
    return all(_here(error) and error.validator in {"required", "not"} for error in branch)


def _wrong_kind(error: ValidationError) -> bool:
    if not _here(error):
        return False
    if error.validator == "type":
        return True
    if error.validator in {"enum", "const"}:
        return not any(_same_kind(value, error.instance) for value in choices(error))
    return False


def _same_kind(one: object, other: object) -> bool:
    return any(check(one) and check(other) for check in TYPES.values())


def choices(error: ValidationError) -> list[Any]:
    """The values an error of enum or const would have had."""
    value: Any = error.validator_value
    return list(value) if error.validator == "enum" else [value]
