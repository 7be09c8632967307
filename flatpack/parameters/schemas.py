"""JSON Schema (draft 2020-12) of a family's parameter file, for completion in editors.

A schema can't compare the length that a text states with a range: such text is checked for its
form here and for its value on reading.
"""

from __future__ import annotations

from typing import Any

from flatpack.parameters.commenting import toml_value
from flatpack.parameters.inheriting import KEY
from flatpack.parameters.records import specs_of
from flatpack.parameters.specs import UNSET, WIDEST_NUMBER, BoardChoice, Spec
from flatpack.parameters.sums import NAME

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_AMOUNT = r"(\d+(\s+|-)\d+/\d+|\d+/\d+|\d+(\.\d+)?|\.\d+)"
_LENGTH_TEXT = (
    rf"^\s*{_AMOUNT}\s*(mm|cm|m|in|inch|inches|\"|ft|foot|feet|')"
    rf"(\s*{_AMOUNT}\s*(in|inch|inches|\"))?\s*$"
)


def schema(cls: Any, family: str) -> dict[str, Any]:
    """The schema of one family's file."""
    body = _object(cls)
    body["properties"] = {"family": {"const": family}, **body["properties"]}
    body["required"] = ["family", *body.get("required", [])]
    return {"$schema": DIALECT, "title": f"flatpack {family}", **body}


def _object(cls: Any) -> dict[str, Any]:
    specs = specs_of(cls)
    needed = [n for n, spec in specs.items() if spec.default is UNSET or spec.left_out == "must"]
    made: dict[str, Any] = {
        "type": "object",
        "description": " ".join((cls.__doc__ or "").split()),
        "properties": {name: _property(spec) for name, spec in specs.items()},
        "additionalProperties": False,
    }
    return {**made, "required": needed} if needed else made


def _property(spec: Spec) -> dict[str, Any]:
    one = _object(spec.record) if spec.record is not None else _SHAPES[spec.kind](spec)
    if spec.named:
        names = {f"^{NAME}$": one}
        one = {"type": "object", "patternProperties": names, "additionalProperties": False}
    elif spec.many:
        lone = [one] if spec.lone else []
        one = {"type": "array", "items": one, "minItems": spec.fewest, "maxItems": spec.most_count}
        one = {"anyOf": [*lone, one]} if lone else one
    unit = f" ({spec.unit})" if spec.unit else ""
    if spec.does:
        one = {
            "description": spec.does + unit,
            **{k: v for k, v in one.items() if k != "description"},
        }
    plain = spec.record is None and spec.kinds is None and not spec.named
    return _with_default(one, spec) if plain and spec.default not in (None, UNSET) else one


def _with_default(one: dict[str, Any], spec: Spec) -> dict[str, Any]:
    import tomllib

    return {**one, "default": tomllib.loads(f"value = {toml_value(spec.default)}")["value"]}


def _number(spec: Spec) -> dict[str, Any]:
    made: dict[str, Any] = {"type": "number"}
    if spec.least > -WIDEST_NUMBER:
        made["minimum"] = spec.least
    return {**made, "maximum": spec.most} if spec.most < WIDEST_NUMBER else made


def _length(spec: Spec) -> dict[str, Any]:
    return {"anyOf": [_number(spec), {"type": "string", "pattern": _LENGTH_TEXT}]}


def _board(spec: Spec) -> dict[str, Any]:
    profile, measured = BoardChoice._fields
    table = {
        "type": "object",
        "properties": {profile: {"type": "string"}, measured: _length(spec)},
        "required": [profile],
        "additionalProperties": False,
    }
    return {"anyOf": [{"type": "string"}, table]}


def _kinds(spec: Spec) -> dict[str, Any]:
    """One of several objects, told by a word.  An entry that is `like` another may lack any key."""
    made = []
    for kind, cls in spec.kinds.items():
        one = _object(cls)
        one["properties"] = {spec.pick: {"const": kind}, **one["properties"]}
        one["required"] = [spec.pick, *one.get("required", [])]
        made.append(one)
    if not spec.named:
        return {"oneOf": made}
    follower = {"type": "object", "properties": {KEY: {"type": "string"}}, "required": [KEY]}
    return {"anyOf": [*made, follower]}


def _text(spec: Spec) -> dict[str, Any]:
    made = {"type": "string", "maxLength": spec.longest}
    return {**made, "pattern": f"^(?:{spec.pattern})$"} if spec.pattern else made


_SHAPES: dict[str, Any] = {
    "length": _length,
    "total": lambda spec: {"anyOf": [_number(spec), {"type": "string", "maxLength": 200}]},
    "place": lambda spec: {"anyOf": [_number(spec), {"type": "string", "maxLength": 200}]},
    "kinds": _kinds,
    "pair": lambda spec: {"type": "array", "items": _length(spec), "minItems": 2, "maxItems": 2},
    "angle": _number,
    "number": _number,
    "count": lambda spec: {"type": "integer", "minimum": spec.least, "maximum": spec.most},
    "choice": lambda spec: {"enum": list(spec.choices)},
    "flag": lambda _: {"type": "boolean"},
    "text": _text,
    "date": lambda _: {"type": "string"},
    "board": _board,
    "item": lambda _: {"type": "string"},
    "notes": lambda _: {"type": "object", "additionalProperties": {"type": "string"}},
}
