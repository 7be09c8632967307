"""`@frozen`: a class of named values that never change, cheap to declare and quick to make.

The standard dataclass writes and compiles source for every class, some 0.4 ms each: for a program
that lives half a second and has a hundred of them that was a tenth of its time.  These classes
share one set of methods instead.  To the standard library they are dataclasses all the same:
`dataclasses.replace`, `fields` and `asdict` work, and copying and pickling do.

    @frozen                      values by keyword only
    @frozen(kw_only=False)       by place as well

A class may have a `__post_init__`, plain defaults, `field(...)` and cached properties.  Values
live in the instance's own dictionary: filling it at one stroke is quicker than filling slots.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import wraps
from operator import attrgetter
from typing import Any, NamedTuple, TypeVar, dataclass_transform, overload

T = TypeVar("T")
_store = object.__setattr__


class Field(NamedTuple):
    """How a value is treated: see `field`."""

    default_factory: Callable[[], Any] | None
    init: bool
    compare: bool


class Layout(NamedTuple):
    """What the shared methods need to know of a class; `given` are the names that it is made of."""

    given: tuple[str, ...]
    defaults: Mapping[str, Any]
    factories: Mapping[str, Callable[[], Any]]
    compared: tuple[str, ...]


def field(
    *, default_factory: Callable[[], Any] | None = None, init: bool = True, compare: bool = True
) -> Any:
    """A value made afresh for each instance, or one that isn't given, or not compared and shown."""
    return Field(default_factory, init, compare)


@overload
def frozen(cls: type[T], /) -> type[T]: ...


@overload
def frozen(*, kw_only: bool = True, eq: bool = True) -> Callable[[type[T]], type[T]]: ...


@dataclass_transform(kw_only_default=True, frozen_default=True, field_specifiers=(field,))
def frozen(cls: Any = None, /, *, kw_only: bool = True, eq: bool = True) -> Any:
    """Turn a class of annotated names into one of values that never change.

    With `eq` false an instance equals itself alone.
    """
    if cls is None:
        return lambda later: _made(later, kw_only=kw_only, eq=eq)
    return _made(cls, kw_only=kw_only, eq=eq)


def kept(method: Callable[[Any], T]) -> Callable[[Any], T]:
    """A method without arguments whose answer an instance keeps: nothing in it can change."""
    name = f"_{method.__name__}_kept"

    @wraps(method)
    def once(self: Any) -> T:
        own = self.__dict__
        if name not in own:
            own[name] = method(self)
        found: T = own[name]
        return found

    return once


def replace(made: T, **changes: Any) -> T:
    """A copy with some values changed; quicker than the standard one.

    Raises:
        TypeError: a change names no value that the class is made of.
    """
    own = made.__dict__
    layout: Layout = type(made)._layout  # type: ignore[attr-defined]  # set by `frozen`
    return type(made)(**{**{name: own[name] for name in layout.given}, **changes})


def _made(cls: Any, *, kw_only: bool, eq: bool) -> Any:
    layout = cls._layout = _layout(cls)
    cls._values = attrgetter(*layout.compared)
    cls.__dataclass_fields__ = _StandardFields()
    type.__setattr__(cls, "__match_args__", () if kw_only else layout.given)
    cls.__init__ = _initialiser(layout, kw_only, getattr(cls, "__post_init__", None))
    cls.__setattr__, cls.__delattr__, cls.__repr__ = _refuse, _refuse, _repr
    if eq:
        cls.__eq__, cls.__hash__ = _equal, _hash
    return cls


def _layout(cls: Any) -> Layout:
    own = cls.__dict__
    names = tuple(own.get("__annotations__", ()))
    defaults = {name: own[name] for name in names if name in own}
    special = {name: f for name, f in defaults.items() if isinstance(f, Field)}
    if not special:
        return Layout(names, defaults, {}, names)
    for name in special:
        del defaults[name]
        delattr(cls, name)
    return Layout(
        tuple(n for n in names if n not in special or special[n].init),
        defaults,
        {n: f.default_factory for n, f in special.items() if f.default_factory is not None},
        tuple(n for n in names if n not in special or special[n].compare),
    )


def _initialiser(layout: Layout, kw_only: bool, after: Callable[[Any], None] | None) -> Any:
    names, whole = layout.given, dict.fromkeys(layout.given).keys()
    count = len(names)

    def by_keyword(self: Any, **given: Any) -> None:
        _store(self, "__dict__", given if given.keys() == whole else _filled(self, given))

    def by_place(self: Any, *places: Any, **given: Any) -> None:
        if len(places) == count and not given:  # by far the most frequent
            _store(self, "__dict__", dict(zip(names, places)))  # noqa: B905  # just seen
            return
        if places:
            if len(places) > count or not given.keys().isdisjoint(names[: len(places)]):
                raise TypeError(f"{type(self).__name__} is given too many values")
            given.update(zip(names, places))  # noqa: B905  # just seen not to be longer
        _store(self, "__dict__", given if given.keys() == whole else _filled(self, given))

    def checked(self: Any, *places: Any, **given: Any) -> None:
        start(self, *places, **given)
        after(self)  # type: ignore[misc]  # only used where there is one

    start: Callable[..., None] = by_keyword if kw_only else by_place
    return start if after is None else checked


def _filled(self: Any, given: dict[str, Any]) -> dict[str, Any]:
    """All values: those given, and defaults for the others."""
    layout: Layout = self._layout
    full = {**layout.defaults, **given}
    for name, factory in layout.factories.items():
        if name not in full:
            full[name] = factory()
    if len(full) != len(layout.given) or not full.keys() <= set(layout.given):
        raise TypeError(
            f"{type(self).__name__} needs {', '.join(layout.given)}; it got {', '.join(given)}"
        )
    return full


def _refuse(self: Any, name: str, *_: object) -> None:
    raise AttributeError(f"{type(self).__name__} is frozen: {name} can't be changed")


def _equal(self: Any, other: Any) -> Any:
    if self.__class__ is not other.__class__:
        return NotImplemented
    return self._values(self) == self._values(other)


def _hash(self: Any) -> int:
    return hash(self._values(self))


def _repr(self: Any) -> str:
    inner = ", ".join(f"{name}={getattr(self, name)!r}" for name in self._layout.compared)
    return f"{type(self).__qualname__}({inner})"


class _StandardFields:
    """What the standard library asks of a dataclass, made when it is asked for."""

    def __get__(self, made: Any, owner: Any) -> dict[str, Any]:
        found: dict[str, Any] | None = owner.__dict__.get("_standard")
        if found is None:
            found = owner._standard = _standard(owner)
        return found


def _standard(owner: Any) -> dict[str, Any]:
    """The same names, defaults and comparisons, declared to the standard library's liking."""
    import dataclasses

    layout: Layout = owner._layout
    space: dict[str, Any] = {}
    for name in owner.__annotations__:
        kind: dict[str, Any] = {"init": name in layout.given, "compare": name in layout.compared}
        if name in layout.factories:
            kind["default_factory"] = layout.factories[name]
        elif name in layout.defaults:
            kind["default"] = layout.defaults[name]
        space[name] = dataclasses.field(repr=kind["compare"], kw_only=True, **kind)
    space["__annotations__"] = dict(owner.__annotations__)
    twin: Any = dataclasses.dataclass(type(owner.__name__, (), space))
    return {f.name: f for f in dataclasses.fields(twin)}
