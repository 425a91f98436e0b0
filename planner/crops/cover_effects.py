from typing import NamedTuple


class CoverEffect(NamedTuple):
    maximum_gain: tuple
    minimum_gain: tuple
    soil_gain: float
    frost_gain: float
    light: float


_K = {
    "glasshouse": CoverEffect((3.0, 5.0, 3.0, 4.0), (2.0, 2.0, 2.0, 2.0), 2.0, 2.0, 0.85),
    "fleece": CoverEffect((2.0, 4.0, 2.0, 3.0), (1.0, 1.0, 1.0, 1.0), 1.0, 1.5, 0.85),
    "low tunnel": CoverEffect((3.0, 5.0, 3.0, 4.0), (1.0, 1.0, 1.0, 1.0), 2.0, 1.5, 0.85),
    "cloche": CoverEffect((3.0, 5.0, 3.0, 4.0), (1.0, 1.0, 1.0, 1.0), 2.0, 1.5, 0.85),
    "film": CoverEffect((0.0, 0.0, 0.0, 0.0), (0.3, 0.3, 0.3, 0.3), 2.0, 0.0, 1.0),
    "netting": CoverEffect((0.0, 0.0, 0.0, 0.0), (0.0, 0.0, 0.0, 0.0), 0.0, 0.0, 0.9),
}


def effect(kind):
    return _K.get(kind)


def together(es):
    return es[0]
