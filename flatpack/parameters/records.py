"""`@record`: a frozen, slotted, keyword-only class whose keys are `Spec`s.

The standard dataclass writes and compiles source for each class, which costs more than reading a
whole parameter file; these classes share one set of methods, so that declaring is nearly free.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any, NamedTuple, TypeVar, dataclass_transform

from flatpack.parameters.specs import UNSET, Spec

T = TypeVar("T")
_set = object.__setattr__


@dataclass_transform(kw_only_default=True, frozen_default=True)
def record(cls: type[T]) -> type[T]:
    """Turn a class of `Spec`s into a frozen record; its docstring describes the table."""
    own = dict(vars(cls))
    specs = {name: value for name, value in own.items() if isinstance(value, Spec)}
    space = {k: v for k, v in own.items() if k not in specs and k not in _DROPPED}
    space.update(_METHODS)
    space["__slots__"] = tuple(specs)
    space["record_specs"] = MappingProxyType(specs)
    made: type[T] = type(cls.__name__, cls.__bases__, space)
    return made


def specs_of(cls: Any) -> Mapping[str, Spec]:
    """The keys of a record class (or of a record) in the order in which they were declared."""
    specs: Mapping[str, Spec] = cls.record_specs
    return specs


def replace(made: T, **changes: object) -> T:
    """A copy of a record with some values changed.

    Raises:
        TypeError: a change names no key of the record.
    """
    return type(made)(**{**_values(made), **changes})


class FieldOf(NamedTuple):
    """One key met by `fields_of`: dotted path, its spec, and the record class that holds it."""

    path: str
    spec: Spec
    owner: Any


def fields_of(cls: Any, prefix: str = "") -> Iterator[FieldOf]:
    """Every key of a record class, nested tables included, parents before their children.

    What stands under names of the writer's choice has no path of its own.
    """
    for name, spec in specs_of(cls).items():
        yield FieldOf(prefix + name, spec, cls)
        if spec.record is not None and not spec.named:
            yield from fields_of(spec.record, f"{prefix}{name}.")


def _values(made: Any) -> dict[str, Any]:
    return {name: getattr(made, name) for name in made.record_specs}


def _init(self: Any, **values: Any) -> None:
    for name, spec in self.record_specs.items():
        value = values.pop(name, spec.default)
        if value is UNSET:
            raise TypeError(f"{type(self).__name__} needs {name}")
        _set(self, name, value)
    if values:
        raise TypeError(f"{type(self).__name__} has no {', '.join(sorted(values))}")


def _frozen(self: Any, name: str, *_: object) -> None:
    raise AttributeError(f"{type(self).__name__} is frozen: {name} can't be changed")


def _equal(self: Any, other: object) -> Any:
    return _values(self) == _values(other) if type(self) is type(other) else NotImplemented


def _hash(self: Any) -> int:
    return hash((type(self).__qualname__, *_values(self).values()))


def _repr(self: Any) -> str:
    inner = ", ".join(f"{name}={value!r}" for name, value in _values(self).items())
    return f"{type(self).__name__}({inner})"


def _rebuilt(cls: Any, values: dict[str, Any]) -> Any:
    return cls(**values)


def _reduce(self: Any) -> tuple[Any, ...]:
    # Worker processes send records to each other; a frozen slot can't be set by the default way.
    return _rebuilt, (type(self), _values(self))


_DROPPED = frozenset(("__dict__", "__weakref__"))
_METHODS = {
    "__init__": _init,
    "__setattr__": _frozen,
    "__delattr__": _frozen,
    "__eq__": _equal,
    "__hash__": _hash,
    "__repr__": _repr,
    "__reduce__": _reduce,
}
