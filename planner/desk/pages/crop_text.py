"""The text of the crop page: figures with their sources, own varieties, neighbours."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from planner.crops import Catalogue, Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Origin
from planner.crops.neighbours import GRADES, Mention, rules_for
from planner.desk.pages.figure_words import FIELD_NAMES, GROUPS, entry_words, number_words, range_words
from planner.desk.theme.palette import Look
from planner.garden import Garden, Variety
from planner.listings.crops import care_words
from planner.season.counting_back import FALL_SOURCE
from planner.words import capital, say

_PROVENANCE = {
    "published": "published",
    "practice": "common practice",
    "estimate": "estimate, or from memory",
    "none": "does not apply",
}
_GRADES = {"trial": "trial", "advice": "advice", "lore": "hearsay"}
_EFFECTS = {"good": "good beside", "bad": "bad beside", "none": "no effect beside"}
_VERBS = {"good": "helps", "bad": "harms", "none": "does nothing to"}


class CropText:
    """Everything known of a crop as HTML, with links to its sources and own varieties.

    Links are ``source:KEY``, ``variety:ID``, and ``lore:`` to show or hide the rules that are only lore.

    Parameters
    ----------
    crop : Crop
    garden : Garden
        Its units are used, and its own varieties are listed.
    catalogue : Catalogue
    look : Look
    latest : mapping of str to str
        By field, the last day to begin the crop in this garden, where only the autumn frost sets it.
    lore : bool
        Whether rules on neighbours that are only lore are shown.
    """

    def __init__(
        self,
        crop: Crop,
        garden: Garden,
        catalogue: Catalogue,
        look: Look,
        latest: Mapping[str, str],
        *,
        lore: bool,
    ) -> None:
        self._crop, self._garden, self._catalogue = crop, garden, catalogue
        self._look, self._latest, self._lore = look, latest, lore
        self._units = garden.site.units
        self._mentions = rules_for(catalogue, crop)
        self._numbers = {key: number for number, key in enumerate(self._source_keys(), start=1)}

    def html(self) -> str:
        """The whole text."""
        parts = (
            self._style(),
            self._figures(),
            self._aftercare(),
            self._varieties(),
            self._neighbours(),
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
        for title, fields in GROUPS:
            rows = "".join(self._figure(field, words) for field, words in fields)
            parts.append(f"<h3>{title}</h3><table>{rows}</table>")
        return "".join(parts)

    def _figure(self, field: str, words: str) -> str:
        """A row of the table: value, range, source and notes of a field."""
        entry: Origin | None = getattr(self._crop, field)
        if entry is None:
            return (
                f"<tr><td width=190>{words}</td><td width=130 class=g>not known</td>"
                "<td width=130></td><td></td></tr>"
            )
        value = escape(entry_words(field, entry, self._units))
        extent = escape(range_words(field, entry, self._units))
        source = f"{_PROVENANCE[entry.provenance]} {self._link(entry.source)}".strip() if entry.source else ""
        if not entry.applies:
            source = "does not apply"
            if field in self._latest:
                value = self._latest[field]
                source = f"worked out for this garden {self._link(FALL_SOURCE)}".strip()
        notes = [escape(entry.note)] if entry.note else []
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
                words = f"{low} to {high}"
            else:
                continue
            found.append(f"{self._link(reading.source) or 'another'} says {escape(words)}")
        return found

    def _aftercare(self) -> str:
        """The work that the crop needs between its start and its end."""
        rows = []
        for care in self._crop.aftercare:
            source = f"{_PROVENANCE[care.provenance]} {self._link(care.source)}".strip()
            note = f"; {escape(care.note)}" if care.note else ""
            rows.append(
                f"<tr><td width=190>{escape(capital(care.task))}</td><td width=270><b>{escape(care_words(care))}</b></td>"
                f"<td class=g>{source}{note}</td></tr>"
            )
        title = say("Aftercare")
        return f"<h3>{title}</h3><table>{''.join(rows)}</table>" if rows else ""

    # -- own varieties ----------------------------------------------------------------------

    def _varieties(self) -> str:
        rows = [self._variety(own) for own in self._garden.varieties if own.crop == self._crop.key]
        if not rows:
            return ""
        return f"<h3>Own varieties of this garden</h3><table>{''.join(rows)}</table>"

    def _variety(self, variety: Variety) -> str:
        figures = []
        for own in variety.figures:
            published = self._crop.number(own.field)
            usual = (
                f" (the crop: {number_words(own.field, published, self._units)})"
                if published is not None
                else ""
            )
            note = f", {escape(own.note)}" if own.note else ""
            figures.append(
                f"{FIELD_NAMES.get(own.field, own.field)} <span class=o>"
                f"{escape(number_words(own.field, own.value, self._units))}</span>{escape(usual)}{note}"
            )
        words = "; ".join(figures) or "as the crop"
        return f"<tr><td><a href='variety:{variety.id}'>{escape(variety.name)}</a></td><td>{words}</td></tr>"

    # -- neighbours -------------------------------------------------------------------------

    def _neighbours(self) -> str:
        shown = [m for m in self._mentions if self._lore or m.rule.grade != "lore"]
        ordered = sorted(shown, key=lambda m: (GRADES.index(m.rule.grade), m.rule.effect))
        rows = [self._neighbour(mention) for mention in ordered]
        hidden = sum(m.rule.grade == "lore" for m in self._mentions)
        switch = ""
        if hidden:
            word = "hide the hearsay" if self._lore else f"show {hidden} more that are hearsay only"
            switch = f"<p><a href='lore:'>{word}</a></p>"
        if not rows and not switch:
            return ""
        return f"<h3>Neighbours</h3><table>{''.join(rows)}</table>{switch}"

    def _neighbour(self, mention: Mention) -> str:
        rule, verb = mention.rule, _VERBS[mention.rule.effect]
        if mention.affected and mention.acts:
            side = "on both"
        else:
            side = f"{verb} this crop" if mention.affected else f"{verb} the other"
        reach = f"within {rule.reach:g} m" if rule.reach else "on the same ground"
        remark = f"; {escape(rule.note)}" if rule.note else ""
        return (
            f"<tr><td>{_EFFECTS[rule.effect]}</td><td><b>{escape(self._plant(mention))}</b></td>"
            f"<td>{escape(rule.mechanism)}, {reach}; {side}{remark}</td>"
            f"<td class=g>{_GRADES[rule.grade]} {self._link(rule.source)}</td></tr>"
        )

    def _plant(self, mention: Mention) -> str:
        """What a rule calls the other plant."""
        other = mention.other
        if other.kind == "crop":
            crop = self._catalogue.get(other.name)
            return crop.name if crop is not None else other.name
        return f"{other.name} ({other.kind})"

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
        keys += [care.source or "" for care in self._crop.aftercare]
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
        return f"<h3>Sources</h3><ol>{''.join(lines)}</ol>"
