"""A cached property without a lock."""

from __future__ import annotations

from functools import cached_property
from typing import Any, Self, TypeVar, overload

from typing_extensions import override

T = TypeVar("T")
_MISSING = object()


class lazy_property(cached_property[T]):  # noqa: N801  # used as a decorator, like the class it extends
    """A property worked out when it is first read, then read from the instance.

    Until Python 3.12 :class:`functools.cached_property` holds one lock for all instances of a class while it
    works: two threads that read different gardens wait for each other, and two that read in another order
    wait for ever.  Here two threads may both work out the same value, and one of the two stays.
    """

    @overload
    def __get__(self, instance: None, owner: type[Any] | None = None) -> Self: ...
    @overload
    def __get__(self, instance: object, owner: type[Any] | None = None) -> T: ...

    @override
    def __get__(self, instance: object | None, owner: type[Any] | None = None) -> Self | T:
        if instance is None:
            return self
        name = self.attrname
        if name is None:
            raise TypeError("lazy_property needs a name: use it as a decorator in a class")
        found: Any = instance.__dict__.get(name, _MISSING)
        if found is _MISSING:
            found = instance.__dict__.setdefault(name, self.func(instance))
        value: T = found
        return value
