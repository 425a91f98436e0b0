"""The text of the crop page: figures with their sources, own varieties, neighbours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape

from planner.crops import Crop
from planner.crops.families import family_words
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Origin, Provenance
from planner.crops.neighbours import GRADES, Mention, rules_for
from planner.desk.theme.palette import Look
from planner.garden import Variety
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.listings.crops import care_words
from planner.listings.figure_words import (
    FIELD_NAMES,
    GROUPS,
    entry_words,
    field_words,
    number_words,
    range_words,
)
from planner.listings.learned import (
    figure_name,
    own_of_crop,
    own_words,
    together_words,
    used_words,
    years_words,
)
from planner.listings.phrases import start_words
from planner.plan import Plan
from planner.plan.following import Follower, cleared_about
from planner.plan.own_years import OwnYears
from planner.season.counting_back import FALL_SOURCE
from planner.words import (
    capital,
    day_words,
    join_list,
    key_words,
    later,
    say,
    say_count,
    short_number,
    spoken_language,
    table_words,
    uncapital,
    work_words,
)

_PROVENANCE: dict[Provenance, str] = {
    "printed": later("printed"),
    "chosen": later("chosen in a printed range"),
    "derived": later("worked out from print"),
    "practice": later("common practice"),
    "estimate": later("estimate, or from memory"),
    "does not apply": later("does not apply"),
}
#: Crops named that can follow in the same year.
_MOST_FOLLOWERS = 12
_GRADES = {
    "trial": later("trial"),
    "advice": later("advice"),
    "laboratory": later("laboratory only"),
    "lore": later("folklore"),
}
_EFFECTS = {"good": later("good beside"), "bad": later("bad beside"), "none": later("no effect beside")}
#: What a rule does to the crop shown, and to the other.
_ON_THIS = {
    "good": later("helps this crop"),
    "bad": later("harms this crop"),
    "none": later("does nothing to this crop"),
}
_ON_OTHER = {
    "good": later("helps the other"),
    "bad": later("harms the other"),
    "none": later("does nothing to the other"),
}


class CropText:
    """Everything known of a crop as HTML, with links to its sources and own varieties.

    Links are ``source:KEY``, ``variety:ID``, and ``lore:`` to show or hide the rules that are only lore.

    Parameters
    ----------
    crop : Crop
    plan : Plan
        Of the garden whose units are used, whose own varieties are listed, and in which something follows the crop.
    look : Look
    latest : mapping of str to str
        By field, the last day to begin the crop in this garden, where only the autumn frost sets it.
    lore : bool
        Whether rules on neighbours that are only lore are shown.
    found : sequence of Follower, optional
        What can follow it in the same year; not given while that is still worked out.
    """

    def __init__(
        self,
        crop: Crop,
        plan: Plan,
        look: Look,
        latest: Mapping[str, str],
        *,
        lore: bool,
        found: Sequence[Follower] | None = None,
    ) -> None:
        self._crop, self._plan = crop, plan
        self._garden, self._catalogue = plan.garden, plan.catalogue
        self._look, self._latest, self._lore, self._found = look, latest, lore, found
        self._units = plan.garden.site.units
        self._mentions = rules_for(plan.catalogue, crop)
        self._numbers = {key: number for number, key in enumerate(self._source_keys(), start=1)}

    def html(self) -> str:
        """The whole text."""
        parts = (
            self._style(),
            self._own_years(),
            self._figures(),
            self._products(),
            self._aftercare(),
            self._toxic(),
            self._varieties(),
            self._neighbours(),
            self._following(),
            self._sources(),
        )
        return "".join(parts)

    def _style(self) -> str:
        pencil, accent = self._look.pencil.name(), self._look.accent.name()
        return (
            f"<style>td{{padding:3px 10px 3px 0;vertical-align:top}} table{{width:100%}} .g{{color:{pencil}}}"
            f" .o{{color:{accent}}} h3{{margin:16px 0 4px 0}} a{{color:{accent}}}</style>"
        )

    # -- figures ----------------------------------------------------------------------------

    def _figures(self) -> str:
        parts = []
        for number, (_, fields) in enumerate(GROUPS):
            rows = "".join(self._figure(field, field_words(field)) for field, _ in fields)
            if rows:
                parts.append(f"<h3>{say(GROUPS[number][0])}</h3><table>{rows}</table>")
        if spoken_language() != "en":
            text = say("Titles of sources, and notes that few figures have, are in English.")
            parts.append(f"<p class=g>{escape(text)}</p>")
        for note, without in self._without_meaning().items():
            text = say("Without meaning for it: {fields} ({why}).", fields="; ".join(without), why=note)
            parts.append(f"<p class=g>{escape(text)}</p>")
        absent = [field_words(field) for field in FIELD_NAMES if getattr(self._crop, field) is None]
        if absent:
            unknown = say("Not known: {fields}.", fields="; ".join(uncapital(words) for words in absent))
            parts.append(f"<p class=g>{escape(unknown)}</p>")
        return "".join(parts)

    def _own_years(self) -> str:
        """What this garden's own years say of the crop, beside what is in print, and whether plans use it."""
        rows = []
        for one in own_of_crop(self._plan, self._crop.key):
            published = own_words(one, one.published, self._units) if one.published is not None else ""
            beside = say("published {number}", number=published) if published else ""
            own = together_words(one, self._units) or own_words(one, one.own, self._units)
            rows.append(
                f"<tr><td width=190>{escape(capital(figure_name(one, self._units)))}</td>"
                f"<td width=130><b class=o>{escape(own)}</b></td><td width=130 class=g>{escape(beside)}</td>"
                f"<td class=g>{escape(self._own_used(one))}</td></tr>"
            )
        title = say("This garden's own figures")
        return f"<h3>{escape(title)}</h3><table>{''.join(rows)}</table>" if rows else ""

    def _own_used(self, one: OwnYears) -> str:
        """Of which start and years an own figure is, and whether plans use it."""
        return say(
            "{start}, years {years}; used: {used}",
            start=start_words(one.key.start),
            years=years_words(one),
            used=used_words(self._plan, one),
        )

    def _without_meaning(self) -> dict[str, list[str]]:
        """By the reason, the fields that have no meaning for the crop."""
        found: dict[str, list[str]] = {}
        for field in FIELD_NAMES:
            words = field_words(field)
            entry: Origin | None = getattr(self._crop, field)
            if entry is not None and not entry.applies and field not in self._latest:
                found.setdefault(table_words(entry.note or ""), []).append(uncapital(words))
        return found

    def _how(self, entry: Origin) -> str:
        """How a figure came about, with the number of its publication."""
        return (
            f"{say(_PROVENANCE[entry.provenance])} {self._link(entry.source)}".strip() if entry.source else ""
        )

    def _figure(self, field: str, words: str) -> str:
        """A row of the table: value, range, source and notes of a field."""
        entry: Origin | None = getattr(self._crop, field)
        if entry is None or (not entry.applies and field not in self._latest):
            return ""
        return self._entry(field, words, entry)

    def _entry(self, field: str, words: str, entry: Origin) -> str:
        value = escape(entry_words(field, entry, self._units))
        extent = escape(range_words(field, entry, self._units))
        source = self._how(entry)
        if not entry.applies:  # only the autumn of this garden ends it
            value = self._latest[field]
            worked_out = escape(say("worked out for this garden"))
            source = f"{worked_out} {self._link(FALL_SOURCE)}".strip()
        notes = [escape(table_words(entry.note))] if entry.note else []
        notes += self._other_readings(field, entry)
        return (
            f"<tr><td width=190>{words}</td><td width=130><b>{value}</b></td><td width=130 class=g>{extent}</td>"
            f"<td class=g>{source}{'; ' if source and notes else ''}{'; '.join(notes)}</td></tr>"
        )

    def _other_readings(self, field: str, entry: Origin) -> list[str]:
        """What further sources say."""
        if not isinstance(entry, Figure):
            return []
        found = []
        for reading in entry.other:
            if reading.value is not None:
                words = number_words(field, reading.value, self._units)
            elif reading.low is not None and reading.high is not None:
                low, high = (number_words(field, v, self._units) for v in (reading.low, reading.high))
                words = say("{low} to {high}", low=low, high=high)
            else:
                continue
            source = self._link(reading.source) or escape(say("another source"))
            found.append(say("{source} says {figure}", source=source, figure=escape(words)))
        return found

    def _products(self) -> str:
        """What else is harvested, with its own figures."""
        parts = []
        for one in self._crop.further_products:
            rows = "".join(self._entry(field, field_words(field), entry) for field, entry in one.entries())
            title = say("Also for its {product}", product=key_words(one.product))
            note = f"<p>{escape(capital(table_words(one.note)))}.</p>" if one.note else ""
            parts.append(f"<h3>{escape(title)}</h3>{note}<table>{rows}</table>")
        return "".join(parts)

    def _toxic(self) -> str:
        """Parts that poison or hurt, and whom."""
        rows = []
        for one in self._crop.toxic:
            harms = say("harmful to {whom}", whom=join_list(key_words(animal) for animal in one.harms))
            note = f"; {escape(table_words(one.note))}" if one.note else ""
            rows.append(
                f"<tr><td width=190>{escape(capital(key_words(one.part)))}</td><td width=270><b>{escape(harms)}</b></td>"
                f"<td class=g>{self._how(one)}{note}</td></tr>"
            )
        title = say("Poisonous parts")
        return f"<h3>{title}</h3><table>{''.join(rows)}</table>" if rows else ""

    def _aftercare(self) -> str:
        """The work that the crop needs between its start and its end."""
        rows = []
        for care in self._crop.aftercare:
            source = self._how(care)
            note = f"; {escape(care.note)}" if care.note else ""
            rows.append(
                f"<tr><td width=190>{escape(capital(work_words(care.task)))}</td><td width=270><b>{escape(care_words(care))}</b></td>"
                f"<td class=g>{source}{note}</td></tr>"
            )
        title = say("Aftercare")
        return f"<h3>{title}</h3><table>{''.join(rows)}</table>" if rows else ""

    # -- own varieties ----------------------------------------------------------------------

    def _varieties(self) -> str:
        rows = [self._variety(own) for own in self._garden.varieties if own.crop == self._crop.key]
        if not rows:
            return ""
        title = say("Own varieties of this garden")
        return f"<h3>{escape(title)}</h3><table>{''.join(rows)}</table>"

    def _variety(self, variety: Variety) -> str:
        figures = []
        for own in variety.figures:
            published = self._crop.number(own.field)
            usual = (
                say(" (the crop: {figure})", figure=number_words(own.field, published, self._units))
                if published is not None
                else ""
            )
            note = f", {escape(own.note)}" if own.note else ""
            figures.append(
                f"{field_words(own.field)} <span class=o>"
                f"{escape(number_words(own.field, own.value, self._units))}</span>{escape(usual)}{note}"
            )
        words = "; ".join(figures) or escape(say("as the crop"))
        return f"<tr><td><a href='variety:{variety.id}'>{escape(variety.name)}</a></td><td>{words}</td></tr>"

    # -- neighbours -------------------------------------------------------------------------

    def _neighbours(self) -> str:
        shown = [m for m in self._mentions if self._lore or m.rule.grade != "lore"]
        ordered = sorted(shown, key=lambda m: (GRADES.index(m.rule.grade), m.rule.effect))
        rows = [self._neighbour(mention) for mention in ordered]
        hidden = sum(m.rule.grade == "lore" for m in self._mentions)
        switch = ""
        if hidden:
            word = (
                say("hide the folklore")
                if self._lore
                else say_count(
                    "show {count} more that is folklore only",
                    "show {count} more that are folklore only",
                    hidden,
                )
            )
            switch = f"<p><a href='lore:'>{escape(word)}</a></p>"
        if not rows and not switch:
            return ""
        title = escape(say("Neighbours"))
        return f"<h3>{title}</h3><table>{''.join(rows)}</table>{switch}"

    def _neighbour(self, mention: Mention) -> str:
        rule = mention.rule
        if mention.affected and mention.acts:
            side = say("on both")
        else:
            side = say(_ON_THIS[rule.effect]) if mention.affected else say(_ON_OTHER[rule.effect])
        reach = (
            say("within {distance}", distance=_reach_words(rule.reach, self._units))
            if rule.reach
            else say("on the same ground")
        )
        remark = f"; {escape(table_words(rule.note))}" if rule.note else ""
        effect, grade = escape(say(_EFFECTS[rule.effect])), escape(say(_GRADES[rule.grade]))
        return (
            f"<tr><td>{effect}</td><td><b>{escape(self._plant(mention))}</b></td>"
            f"<td>{escape(table_words(rule.mechanism))}, {escape(reach)}; {escape(side)}{remark}</td>"
            f"<td class=g>{grade} {self._link(rule.source)}</td></tr>"
        )

    def _plant(self, mention: Mention) -> str:
        """What a rule calls the other plant."""
        other = mention.other
        if other.kind == "crop":
            crops = [self._catalogue.get(key) for key in other.names]
            return join_list([crop.name for crop in crops if crop is not None])
        return f"{other.latin} ({key_words(other.kind)})"

    def _following(self) -> str:
        """What goes well on its ground after it."""
        crop = self._crop
        found = self._found
        lines = []
        cleared = cleared_about(self._plan, crop) if found else None
        if found is None:
            lines.append(say("Looking at what can still be begun after it…"))
        elif found and cleared is not None:
            shown = found[:_MOST_FOLLOWERS]
            names = [_follower_words(one) for one in shown]
            text = say(
                "In the same year, once it is cleared about {day}: {crops}.",
                day=day_words(cleared),
                crops=join_list(names),
            )
            lines.append(escape(text))
            if any(one.suits for one in shown):
                lines.append(say("Those named first also suit what it leaves in the soil (common practice)."))
        years = crop.number("rotation_years")
        if years:
            text = say_count(
                "In the next year anything but {family}; the same ground again after {count} year.",
                "In the next years anything but {family}; the same ground again after {count} years.",
                round(years),
                family=family_words(crop.family),
            )
            lines.append(escape(text))
        body = "".join(f"<p>{line}</p>" for line in lines)
        title = say("What follows well")
        return f"<h3>{title}</h3>{body}" if lines else ""

    # -- sources ----------------------------------------------------------------------------

    def _source_keys(self) -> list[str]:
        """Keys of the publications named in the text, in the order of their first naming."""
        keys: list[str] = []
        for field in FIELD_NAMES:
            entry: Origin | None = getattr(self._crop, field)
            if entry is None:
                continue
            if field in self._latest:
                keys.append(FALL_SOURCE)
            keys.append(entry.source or "")
            if isinstance(entry, Figure):
                keys += [reading.source for reading in entry.other]
        keys += [entry.source or "" for _, entry in self._crop.entries()]
        further = (entry for one in self._crop.further_products for _, entry in one.entries())
        keys += [one.source or "" for one in (*further, *self._crop.aftercare, *self._crop.toxic)]
        keys += [mention.rule.source for mention in self._mentions]
        known = self._catalogue.sources
        return [key for key in dict.fromkeys(keys) if key in known and key not in (PRACTICE, ESTIMATE)]

    def _link(self, key: str | None) -> str:
        """Number of a publication, its citation on hover; empty where it has none."""
        if key is None or key not in self._numbers:
            return ""
        citation = escape(self._catalogue.source_line(key), quote=True)
        return f"<a href='source:{key}' title=\"{citation}\">[{self._numbers[key]}]</a>"

    def _sources(self) -> str:
        lines = []
        for key in self._numbers:
            source = self._catalogue.sources[key]
            note = f" <span class=g>{escape(source.note)}</span>" if source.note else ""
            lines.append(f"<li>{escape(source.citation)}{note}</li>")
        title = escape(say("Sources"))
        return f"<h3>{title}</h3><ol>{''.join(lines)}</ol>"


def _follower_words(one: Follower) -> str:
    day = day_words(one.latest)
    if one.raised:
        return say("{crop} (as young plants, until {day})", crop=one.crop.name, day=day)
    return say("{crop} (until {day})", crop=one.crop.name, day=day)


def _reach_words(metres: float, units: UnitSystem) -> str:
    """How far a rule reaches, as short as it can be read."""
    if units == "metric":
        return say("{number} m", number=short_number(metres))
    return show_length(metres, units)
