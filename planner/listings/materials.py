"""Materials as lines: what is in use when, from the shed or to be bought, and how it is cut."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Callable, Container, Iterable, Mapping, Sequence

from planner.amounts.cuts import Cut, CutList, Joined
from planner.amounts.cutting import millimetres
from planner.amounts.materials import Cutting, Material, Sort
from planner.amounts.sharing import Pile, most_in_use
from planner.garden.site import UnitSystem
from planner.garden.typed_amounts import show_mesh, show_rate
from planner.garden.units import show_length
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import day_words, join_list, key_words, later, number_words, percent, say, say_count

#: Where pieces come from.
_FROM = {
    "shed": later("in the shed"),
    "lying": later("in use already"),
    "new": later("to get"),
    "ordered": later("ordered"),
}
#: So many jobs of a pile are named; the others are counted.
_NAMED = 3


def material_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (say("material"), say("size"), say("number"), say("where from"), say("serves"))


def size_words(size: Sequence[float], units: UnitSystem) -> str:
    """A size: ``4.80 × 1.20 m``, ``2.10 m``; empty for what is only counted. [m]"""
    if len(size) < 2:
        return show_length(size[0], units) if size else ""
    if units == "metric":
        return f"{number_words(size[0], 2)} × {show_length(size[1], units)}"
    return f"{show_length(size[0], units)} × {show_length(size[1], units)}"


def material_words(kind: str, sort: object, units: UnitSystem = "metric") -> str:
    """A material with the weight of its fleece or the mesh of its net: ``fleece of 17 g/m²``."""
    if isinstance(sort, Sort) and sort.weight is not None:
        return say("{material} of {size}", material=key_words(kind), size=show_rate(sort.weight, units))
    if isinstance(sort, Sort) and sort.mesh is not None:
        return say("{material} of {size}", material=key_words(kind), size=show_mesh(sort.mesh, units))
    return key_words(kind)


def material_table(
    plan: Plan, materials: Iterable[Material], names: Mapping[str, str], room: int | None
) -> list[str]:
    """A table of materials, a line for each that comes from one place and has one size.

    Parameters
    ----------
    plan : Plan
    materials : iterable of Material
    names : mapping of str to str
        What each job is, by its key.
    room : int, optional
        Width of the table. [columns]
    """
    ordered = {one.id for one in plan.garden.shed if one.ordered}
    rows = [
        (
            material_words(one.kind, pile.sort, plan.garden.site.units),
            size_words(pile.size, plan.garden.site.units),
            f"{most_in_use(pile)}",
            from_words(pile, ordered),
            _serves(pile, names, plan.year),
        )
        for one in materials
        for pile in one.piles
    ]
    return aligned(material_heads(), rows, right=(2,), room=room) if rows else []


def from_words(pile: Pile, ordered: Container[str] = ()) -> str:
    """Where the pieces of a pile come from; ids of what is ordered for the shed tell that from what is there."""
    cut = pile.cut + pile.cut_of_order
    if not cut:
        return say(_FROM["ordered" if pile.key in ordered else pile.origin])
    if cut < pile.number:
        if pile.cut_of_order:
            return say("to get, {count} of them cut from the shed or from what is ordered", count=cut)
        return say_count(
            "to get, {count} of them cut from the shed", "to get, {count} of them cut from the shed", cut
        )
    if not pile.cut_of_order:
        return say("cut from the shed")
    return say("cut from the shed and from what is ordered") if pile.cut else say("cut from what is ordered")


def _serves(pile: Pile, names: Mapping[str, str], year: int) -> str:
    """What pieces serve, in the order of days: "leek in North, then carrot in South from 4 Jul"."""
    jobs = list({use.job.key: use.job for use in pile.uses}.values())
    if len(jobs) > _NAMED:
        words = [names[job.key] for job in jobs[:_NAMED]]
        more = say_count("{count} more", "{count} more", len(jobs) - _NAMED)
        return join_list([*words, more])
    found, until = names[jobs[0].key], jobs[0].last
    for job in jobs[1:]:
        if job.first <= until:
            found = say("{one}, {other}", one=found, other=names[job.key])
        else:
            day = day_words(job.first, year)
            found = say("{one}, then {other} from {day}", one=found, other=names[job.key], day=day)
        until = max(until, job.last)
    return found


_PIECES: dict[str, Callable[[int, str], str]] = {
    "climbing net": lambda n, size: say_count(
        "{count} net of {size}", "{count} nets of {size}", n, size=size
    ),
    "hoop": lambda n, size: say_count("{count} hoop of {size}", "{count} hoops of {size}", n, size=size),
    "post": lambda n, size: say_count("{count} post of {size}", "{count} posts of {size}", n, size=size),
    "stick": lambda n, size: say_count("{count} stick of {size}", "{count} sticks of {size}", n, size=size),
    "stake": lambda n, size: say_count("{count} stake of {size}", "{count} stakes of {size}", n, size=size),
    "pole": lambda n, size: say_count("{count} pole of {size}", "{count} poles of {size}", n, size=size),
    "rail": lambda n, size: say_count("{count} rail of {size}", "{count} rails of {size}", n, size=size),
    "wire": lambda n, size: say_count("{count} wire of {size}", "{count} wires of {size}", n, size=size),
    "panel": lambda n, size: say_count("{count} panel of {size}", "{count} panels of {size}", n, size=size),
    "cage": lambda n, _: say_count("{count} cage", "{count} cages", n),
    "brushwood": lambda n, _: say_count("{count} bundle", "{count} bundles", n),
    "collar": lambda n, _: say_count("{count} collar", "{count} collars", n),
    "slug ring": lambda n, _: say_count("{count} ring", "{count} rings", n),
    "vole basket": lambda n, _: say_count("{count} basket", "{count} baskets", n),
    "tie": lambda n, _: say_count("{count} tie", "{count} ties", n),
    "drip line": lambda n, size: say_count(
        "{count} drip line of {size}", "{count} drip lines of {size}", n, size=size
    ),
    "water pipe": lambda n, size: say_count(
        "{count} pipe of {size}", "{count} pipes of {size}", n, size=size
    ),
    "drip branch": lambda n, _: say_count("{count} branch", "{count} branches", n),
    "drip stop": lambda n, _: say_count("{count} stop", "{count} stops", n),
    "pressure reducer": lambda n, _: say_count("{count} pressure reducer", "{count} pressure reducers", n),
}


def piece_words(kind: str, number: int, size: str) -> str:
    """Pieces in words: ``3 posts of 1.80 m``."""
    if kind in _PIECES:
        return _PIECES[kind](number, size)
    return say_count("{count} sheet of {size}", "{count} sheets of {size}", number, size=size)


def cut_lines(plan: Plan, materials: Iterable[Material], names: Mapping[str, str] | None = None) -> list[str]:
    """The cut list as lines, a paragraph for each material, then for which the sizes sold are an estimate; empty where
    nothing is cut.

    Parameters
    ----------
    plan : Plan
    materials : iterable of Material
    names : mapping of str to str, optional
        What each job is, by its key: named with what is joined.
    """
    lines: list[str] = []
    for one in materials:
        for cutting in one.cuttings:
            serves = serves_of(one, cutting, names or {})
            lines += _cutting_lines(one.kind, cutting, serves, plan.garden.site.units)
    estimated = estimated_words(plan, materials)
    return [*lines, f"  {estimated}"] if estimated else lines


def estimated_words(plan: Plan, materials: Iterable[Material]) -> str:
    """Of which materials the sizes sold are an estimate; empty where the garden names those of all that are cut."""
    named = {item.kind for item in plan.garden.shed if item.sold}
    estimated = [key_words(one.kind) for one in materials if one.cuttings and one.kind not in named]
    if not estimated:
        return ""
    return say(
        "Sizes sold are an estimate for {materials}; enter in the shed what you can buy",
        materials=join_list(estimated),
    )


def serves_of(material: Material, cutting: Cutting, names: Mapping[str, str]) -> dict[int, list[str]]:
    """What new pieces serve, by their length. [mm]"""
    found: dict[int, list[str]] = {}
    for pile in material.piles:
        if pile.origin == "new" and (not cutting.width or pile.sort == cutting.sort):
            of_length = found.setdefault(millimetres(pile.size[0]), [])
            words = dict.fromkeys(names[use.job.key] for use in pile.uses if use.job.key in names)
            of_length += [one for one in words if one not in of_length]
    return found


def _cutting_lines(
    kind: str, cutting: Cutting, serves: Mapping[int, Sequence[str]], units: UnitSystem
) -> list[str]:
    head, cuts = cutting_words(kind, cutting, units), cutting.cuts
    lines = []
    if head:
        lines = [f"  {head}", *(f"    {cut_words(cut, cutting, units)}" for cut in cuts.cuts)]
        lines += [f"    {line}" for line in joined_words(cutting, serves, units)]
    return [*lines, *(f"  {line}" for line in too_long_words(kind, cuts, units))]


def cutting_words(kind: str, cutting: Cutting, units: UnitSystem) -> str:
    """What is got and cut of one material, and how near that is to the least; empty where nothing is cut."""
    name = material_words(kind, cutting.sort, units)
    if cutting.width:
        name = say("{material} {width} wide", material=name, width=show_length(cutting.width, units))
    cuts = cutting.cuts
    bought, there = _bars_words(cuts, units), _there_words(cutting, units)
    if bought and there:
        head = say(
            "{material}: get {bars}; cut {there} from the shed", material=name, bars=bought, there=there
        )
    elif bought:
        head = say("{material}: get {bars}", material=name, bars=bought)
    else:
        head = say("{material}: cut {there} from the shed", material=name, there=there) if there else ""
    return f"{head}{_proof_words(cuts)}" if head else ""


def joined_words(cutting: Cutting, serves: Mapping[int, Sequence[str]], units: UnitSystem) -> list[str]:
    """What is joined of which parts, a line for each, with what it serves where that is known by its length [mm]."""
    return [_joined_words(one, serves.get(one.length, ()), units) for one in cutting.cuts.joined]


def too_long_words(kind: str, cuts: CutList, units: UnitSystem) -> list[str]:
    """Of pieces longer than any that is sold what to do, a sentence for each length."""
    return [
        say_count(
            "{pieces} is longer than any that is sold; enter in the shed what you can buy",
            "{pieces} are longer than any that is sold; enter in the shed what you can buy",
            number,
            pieces=piece_words(kind, number, _length(length, units)),
        )
        for length, number in cuts.too_long
    ]


def _length(length: int, units: UnitSystem) -> str:
    return show_length(length / 1000, units)


def _bars_words(cuts: CutList, units: UnitSystem) -> str:
    """Bars to get in words: "2 of 10.00 m and 1 of 5.00 m"; empty where there are none."""
    return join_list(
        say("{count} of {length}", count=number, length=_length(bar, units))
        for bar, number in cuts.bars(on_hand=False).items()
    )


def _there_words(cutting: Cutting, units: UnitSystem) -> str:
    """Pieces in the shed that are cut: "1 of 20.00 × 4.00 m"; several strips may be of one."""
    strips: Counter[tuple[int, int]] = Counter()
    for cut in cutting.cuts.cuts:
        if cut.on_hand:
            strips[cut.bar, cut.width] += cut.times
    return join_list(
        say(
            "{count} of {length}",
            count=-(-number // _lanes(width, cutting)),
            length=_there_size(length, width, units),
        )
        for (length, width), number in sorted(strips.items(), reverse=True)
    )


def _lanes(width: int, cutting: Cutting) -> int:
    """How many strips lie side by side on a piece in the shed of a width. [mm]"""
    return max(1, width // millimetres(cutting.strip)) if width and cutting.strip else 1


def _there_size(length: int, width: int, units: UnitSystem) -> str:
    return size_words([side / 1000 for side in (length, width) if side], units)


def _proof_words(cuts: CutList) -> str:
    """That nothing less can be bought, or how much less might do."""
    if not cuts.bought:
        return ""
    if cuts.proven:
        return say(", the least there can be")
    if not cuts.bound:
        return say(", perhaps more than the least")
    more = max(0.01, cuts.bought / cuts.bound - 1)  # not "0 %"
    return say(", at most {share} more than the least", share=percent(more))


def bar_words(cut: Cut, cutting: Cutting, units: UnitSystem) -> str:
    """A bar that is cut: ``2.40 m``; of a sheet in the shed its size, and that it is a strip where several lie beside each other."""
    bar = _there_size(cut.bar, cut.width, units)
    return say("strip of {size}", size=bar) if _lanes(cut.width, cutting) > 1 else bar


def cut_words(cut: Cut, cutting: Cutting, units: UnitSystem) -> str:
    """Bars that are cut alike, the pieces of each, and what is left."""
    bar = bar_words(cut, cutting, units)
    pieces = join_list(_pieces_cut(cut, units))
    if not cut.rest:
        return say("{count} × {bar}: {pieces}", count=cut.times, bar=bar, pieces=pieces)
    return say(
        "{count} × {bar}: {pieces}; {rest} left",
        count=cut.times,
        bar=bar,
        pieces=pieces,
        rest=_length(cut.rest, units),
    )


def _pieces_cut(cut: Cut, units: UnitSystem) -> list[str]:
    """Pieces of a bar in words; of a part also of what it is a part."""
    words = []
    for length, number in cut.pieces:
        parts = [one for one in cut.of if one[0] == length]
        whole = number - sum(many for _, _, many in parts)
        words += [_many(whole, _length(length, units))] if whole else []
        for _, of, many in parts:
            text = say("{length} (part of {whole})", length=_length(length, units), whole=_length(of, units))
            words.append(_many(many, text))
    return words


def _many(number: int, words: str) -> str:
    return words if number == 1 else say("{count} of {length}", count=number, length=words)


def _joined_words(one: Joined, serves: Sequence[str], units: UnitSystem) -> str:
    """Of which parts something is made, and by how much they overlap."""
    overlap = (sum(one.parts) - one.length) // max(1, len(one.parts) - 1)
    parts = join_list(_many(number, _length(part, units)) for part, number in Counter(one.parts).items())
    length, lap = _length(one.length, units), _length(overlap, units)
    if not serves:
        return say_count(
            "{length}: joined of {parts}, with an overlap of {overlap}",
            "{count} × {length}: each joined of {parts}, with overlaps of {overlap}",
            one.times,
            length=length,
            parts=parts,
            overlap=lap,
        )
    return say_count(
        "{length} for {use}: joined of {parts}, with an overlap of {overlap}",
        "{count} × {length} for {use}: each joined of {parts}, with overlaps of {overlap}",
        one.times,
        length=length,
        use=join_list(serves),
        parts=parts,
        overlap=lap,
    )


def crop_words(plan: Plan, crop: str, variety: str, beds: Sequence[str]) -> str:
    """What stands where: ``carrot Early in West 3``."""
    name = plan.catalogue.crops[crop].name if crop in plan.catalogue.crops else crop
    sort = f"{name} {variety}".strip()
    return say("{crop} in {bed}", crop=sort, bed=join_list(beds))


def day_cell(day: dt.date, plan: Plan) -> str:
    """A day in a table, with its year where that is not the growing year's."""
    return day_words(day, plan.year)
