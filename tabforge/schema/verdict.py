"""What the ``jsonschema`` library says is wrong with a document.

The library decides and words the errors; a few of its keywords are given here in a form that keeps to the places that are wrong
and to bounded memory, so that a hostile document of some megabytes cannot take minutes or gigabytes. Validity is not touched: the
tests compare both forms.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from itertools import islice
from typing import TYPE_CHECKING, Any, Final

from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.schema.compiled import Compiled
from tabforge.schema.keywords import Part, Unsupported
from tabforge.schema.values import repeated

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError

    Errors = Iterator[ValidationError]
    Keyword = Callable[[Any, Any, Any, Any], Errors]
    """A keyword of ``jsonschema``: validator, the keyword's value, instance, the schema it stands in."""

_PER_BRANCH: Final = 10
"""Errors kept of one alternative of an anyOf or oneOf."""


def errors(schema: dict[str, Any], document: object) -> list[ValidationError]:
    """The errors of a document, at most MAX_DIAGNOSTICS; empty if it is valid.

    Reference: JSON Schema 2020-12 as ``jsonschema.Draft202012Validator`` implements it. References are resolved within the schema
    alone; the network is never asked.
    """
    from jsonschema import Draft202012Validator, validators  # noqa: PLC0415  # only a mistake pays for the import
    from referencing import Registry  # noqa: PLC0415

    kind: Any = Draft202012Validator
    with suppress(Unsupported):
        extend: Any = validators.extend  # the library gives it no types
        kind = extend(Draft202012Validator, _keywords(Compiled(schema).part))
    validator = kind(schema, registry=Registry())  # an empty registry retrieves nothing
    return list(islice(validator.iter_errors(document), MAX_DIAGNOSTICS))


def _keywords(part: Part) -> dict[str, Keyword]:
    """The keywords replaced, for a schema that compiles."""
    from jsonschema import Draft202012Validator  # noqa: PLC0415
    from jsonschema.exceptions import ValidationError  # noqa: PLC0415

    library = Draft202012Validator.VALIDATORS

    def reference(validator: Any, target: str, instance: Any, within: Any) -> Errors:
        if not part(within)(instance):  # what is valid is passed over at the compiled validator's speed
            yield from library["$ref"](validator, target, instance, within)

    def items(validator: Any, each: Any, instance: Any, within: Any) -> Errors:
        if isinstance(instance, list):
            good = part(each)
            for index, item in enumerate(instance):
                if not good(item):
                    yield from validator.descend(item, each, path=index)

    def any_of(validator: Any, branches: list[Any], instance: Any, within: Any) -> Errors:
        found = _branches(validator, branches, instance)
        if found is not None:
            yield ValidationError("no alternative fits", context=found)

    def one_of(validator: Any, branches: list[Any], instance: Any, within: Any) -> Errors:
        found = _branches(validator, branches, instance)
        if found is not None:
            yield ValidationError("no alternative fits", context=found)
        elif sum(validator.evolve(schema=branch).is_valid(instance) for branch in branches) > 1:
            yield ValidationError("more than one alternative fits")

    def unique(validator: Any, wanted: bool, instance: Any, within: Any) -> Errors:
        if wanted and isinstance(instance, list) and repeated(instance):
            yield ValidationError("a value stands twice")  # the library's way is quadratic

    def pattern(validator: Any, wanted: str, instance: Any, within: Any) -> Errors:
        if isinstance(instance, str) and len(instance) <= within.get("maxLength", len(instance)):
            yield from library["pattern"](validator, wanted, instance, within)

    def additional(validator: Any, allowed: Any, instance: Any, within: Any) -> Errors:
        if isinstance(instance, dict):
            extra = [name for name in instance if name not in within.get("properties", {})]
            if allowed is False and extra:
                yield ValidationError("unknown keys")
            elif isinstance(allowed, dict):
                for name in extra:  # in the document's order; the library's is a set's
                    yield from validator.descend(instance[name], allowed, path=name)

    return {
        "$ref": reference,
        "items": items,
        "anyOf": any_of,
        "oneOf": one_of,
        "uniqueItems": unique,
        "pattern": pattern,
        "additionalProperties": additional,
    }


def _branches(validator: Any, branches: list[Any], instance: Any) -> list[ValidationError] | None:
    """The errors of every alternative, or None as soon as one fits."""
    found: list[ValidationError] = []
    for index, branch in enumerate(branches):
        wrong = list(islice(validator.descend(instance, branch, schema_path=index), _PER_BRANCH))
        if not wrong:
            return None
        found += wrong
    return found
