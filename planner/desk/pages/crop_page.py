"""Everything known of a crop on one page: figures with their sources, its year, its neighbours."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from planner.crops import Crop
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Origin
from planner.desk.model.document import Document
from planner.desk.pages.figure_words import GROUPS, entry_words, number_words, range_words
from planner.desk.pages.plots import GerminationPlot, YearBar
from planner.desk.panels.crop_list import crop_picture, name_of
from planner.desk.theme.palette import LookSwitch, letters
from planner.season.counting_back import FALL_SOURCE

_STANDING = {
    "published": "published",
    "practice": "common practice",
    "estimate": "estimate, or from memory",
    "none": "does not apply",
}
_GRADES = {"trial": "trial", "advice": "advice", "lore": "lore"}


class _Text(QTextBrowser):
    """Rich text that is as high as what it says."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QTextBrowser.Shape.NoFrame)
        self.setOpenLinks(False)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.document().contentsChanged.connect(self._fit)

    def _fit(self) -> None:
        self.setFixedHeight(round(self.document().size().height()) + 6)

    def resizeEvent(self, event: object) -> None:  # Qt's name
        super().resizeEvent(event)  # type: ignore[arg-type]
        self._fit()


class CropPage(QScrollArea):
    """The page of one crop.

    Signals
    -------
    variety_wanted : str, str
        Crop key and the id of an own variety to edit, empty for a new one.
    plant_wanted : object
        The crop, to be held over the sheet.
    """

    variety_wanted = Signal(str, str)
    plant_wanted = Signal(object)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.garden, self.look = document, look
        self.crop: Crop | None = None
        self.lore = False
        self._numbers: dict[str, int] = {}
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setAccessibleName("Crop")
        page = QWidget()
        page.setMaximumWidth(1040)
        column = QVBoxLayout(page)
        column.setContentsMargins(26, 18, 26, 26)
        column.setSpacing(8)
        head = QHBoxLayout()
        self.picture = QLabel()
        self.name = QLabel("Choose a crop at the left")
        self.name.setFont(letters(20, bold=True))
        self.plant = QPushButton("Plant it…")
        self.plant.clicked.connect(lambda: self.crop is not None and self.plant_wanted.emit(self.crop))
        self.own = QPushButton("New variety of it…")
        self.own.clicked.connect(
            lambda: self.crop is not None and self.variety_wanted.emit(self.crop.key, "")
        )
        head.addWidget(self.picture)
        head.addWidget(self.name, 1)
        head.addWidget(self.plant)
        head.addWidget(self.own)
        column.addLayout(head)
        self.under = QLabel()
        self.under.setProperty("second", True)
        self.under.setWordWrap(True)
        column.addWidget(self.under)
        self.cautions = QLabel()
        self.cautions.setWordWrap(True)
        self.cautions.setProperty("warn", True)
        column.addWidget(self.cautions)
        self.year = YearBar(document, look)
        column.addWidget(self.year)
        self.plot = GerminationPlot(look)
        column.addWidget(self.plot)
        self.text = _Text()
        self.text.setAccessibleName("Figures with their sources")
        self.text.anchorClicked.connect(self._follow)
        column.addWidget(self.text)
        column.addStretch(1)
        self.setWidget(page)
        for widget in (self.plant, self.own, self.year, self.plot, self.cautions, self.under):
            widget.hide()
        document.garden_settled.connect(self._refresh)
        look.changed.connect(self._refresh)

    def show_crop(self, crop: Crop) -> None:
        """Show another crop."""
        if crop is not self.crop:
            self.crop = crop
            self.verticalScrollBar().setValue(0)
            self._refresh()

    def _refresh(self) -> None:
        crop = self.crop
        if crop is None or not self.isVisible():
            return
        units = self.garden.garden.site.units
        for widget in (self.plant, self.own, self.year, self.under):
            widget.show()
        ratio = self.devicePixelRatioF()
        self.picture.setPixmap(crop_picture(crop, 44, self.look.now.dark, ratio))
        self.name.setText(name_of(crop))
        also = f"Also called {', '.join(crop.also)}. " if crop.also else ""
        self.under.setText(f"{crop.latin}, {crop.family}, {crop.life_cycle}. {also}")
        self.year.show_crop(crop)
        self.plot.setVisible(self.plot.show_crop(crop, celsius=units == "metric"))
        words = [text for text, _ in self._cautions(crop)]
        self.cautions.setText("\n".join(f"⚠ {text}" for text in words))
        self.cautions.setVisible(bool(words))
        self.text.setHtml(self._html(crop))

    def showEvent(self, event: object) -> None:  # Qt's name
        super().showEvent(event)  # type: ignore[arg-type]
        self._refresh()

    # -- words ------------------------------------------------------------------------------

    def _cautions(self, crop: Crop) -> list[tuple[str, str]]:
        from planner.crops.cautions import cautions_of

        return [(caution.text, caution.source) for caution in cautions_of(self.garden.catalogue, crop)]

    def _html(self, crop: Crop) -> str:
        look = self.look.now
        style = (
            f"<style>td{{padding:3px 10px 3px 0;vertical-align:top}} table{{width:100%}} .g{{color:{look.pencil.name()}}}"
            f" .o{{color:{look.accent.name()}}} h3{{margin:16px 0 4px 0}} a{{color:{look.accent.name()}}}</style>"
        )
        self._numbers = {key: number for number, key in enumerate(self._source_keys(crop), start=1)}
        parts = [
            style,
            *self._groups(crop),
            self._varieties(crop),
            self._neighbours(crop),
            self._sources(crop),
        ]
        return "".join(part for part in parts if part)

    def _groups(self, crop: Crop) -> list[str]:
        units = self.garden.garden.site.units
        parts = []
        for title, fields in GROUPS:
            rows = []
            for field, words in fields:
                entry: Origin | None = getattr(crop, field)
                if entry is None:
                    rows.append(
                        f"<tr><td width=190>{words}</td><td width=130 class=g>not known</td><td width=130></td><td></td></tr>"
                    )
                    continue
                value = escape(entry_words(field, entry, units))
                extent = escape(range_words(field, entry, units))
                source = (
                    f"{_STANDING[entry.provenance]} {self._link(entry.source)}".strip()
                    if entry.source
                    else ""
                )
                if not entry.applies:
                    source = "does not apply"
                    latest = self.year.counted_back(field)
                    if latest is not None:
                        value, source = (
                            latest,
                            f"worked out for this garden {self._link(FALL_SOURCE)}".strip(),
                        )
                notes = [escape(entry.note)] if entry.note else []
                notes += self._others(field, entry)
                rows.append(
                    f"<tr><td width=190>{words}</td><td width=130><b>{value}</b></td>"
                    f"<td width=130 class=g>{extent}</td><td class=g>{source}{'; ' if source and notes else ''}{'; '.join(notes)}</td></tr>"
                )
            parts.append(f"<h3>{title}</h3><table>{''.join(rows)}</table>")
        return parts

    def _source_keys(self, crop: Crop) -> list[str]:
        """Keys of the publications named on the page, in the order of their first naming."""
        from planner.crops.neighbours import rules_for

        keys = []
        for _, fields in GROUPS:
            for field, _words in fields:
                entry = getattr(crop, field)
                if entry is not None:
                    if self.year.counted_back(field) is not None:
                        keys.append(FALL_SOURCE)
                    keys += [entry.source, *(reading.source for reading in getattr(entry, "other", ()))]
        keys += [key for _, entry in crop.entries() for key in [entry.source]]
        keys += [mention.rule.source for mention in rules_for(self.garden.catalogue, crop)]
        sources = self.garden.catalogue.sources
        return [k for k in dict.fromkeys(keys) if k in sources and k not in (PRACTICE, ESTIMATE)]

    def _link(self, key: str) -> str:
        """Number of a publication, its citation on hover."""
        if key not in self._numbers:
            return ""
        citation = escape(self.garden.catalogue.source_line(key), quote=True)
        return f"<a href='source:{key}' title=\"{citation}\">[{self._numbers[key]}]</a>"

    def _others(self, field: str, entry: Origin) -> list[str]:
        """What further sources say."""
        if not isinstance(entry, Figure):
            return []
        units = self.garden.garden.site.units
        found = []
        for reading in entry.other:
            if reading.value is not None:
                words = number_words(field, reading.value, units)
            elif reading.low is not None and reading.high is not None:
                words = (
                    f"{number_words(field, reading.low, units)} to {number_words(field, reading.high, units)}"
                )
            else:
                continue
            found.append(f"{self._link(reading.source) or 'another'} says {escape(words)}")
        return found

    def _varieties(self, crop: Crop) -> str:
        units = self.garden.garden.site.units
        rows = []
        for variety in self.garden.garden.varieties:
            if variety.crop != crop.key:
                continue
            figures = []
            names = {field: words for _, fields in GROUPS for field, words in fields}
            for own in variety.figures:
                published = crop.number(own.field)
                usual = (
                    f" (the crop: {number_words(own.field, published, units)})"
                    if published is not None
                    else ""
                )
                note = f", {escape(own.note)}" if own.note else ""
                figures.append(
                    f"{names.get(own.field, own.field)} <span class=o>"
                    f"{escape(number_words(own.field, own.value, units))}</span>{escape(usual)}{note}"
                )
            words = "; ".join(figures) or "as the crop"
            rows.append(
                f"<tr><td><a href='variety:{variety.id}'>{escape(variety.name)}</a></td><td>{words}</td></tr>"
            )
        if not rows:
            return ""
        return f"<h3>Own varieties of this garden</h3><table>{''.join(rows)}</table>"

    def _neighbours(self, crop: Crop) -> str:
        from planner.crops.neighbours import GRADES, rules_for

        mentions = rules_for(self.garden.catalogue, crop)
        shown = [m for m in mentions if self.lore or m.rule.grade != "lore"]
        rows = []
        for mention in sorted(shown, key=lambda m: (GRADES.index(m.rule.grade), m.rule.effect)):
            rule = mention.rule
            word = {"good": "good beside", "bad": "bad beside", "none": "no effect beside"}[rule.effect]
            whom = (
                "helps" if rule.effect == "good" else "harms" if rule.effect == "bad" else "does nothing to"
            )
            if mention.affected and mention.acts:
                side = "on both"
            elif mention.affected:
                side = f"{whom} this crop"
            else:
                side = f"{whom} the other"
            reach = f"within {rule.reach:g} m" if rule.reach else "on the same ground"
            remark = f"; {escape(rule.note)}" if rule.note else ""
            rows.append(
                f"<tr><td>{word}</td><td><b>{escape(self._plant(mention.other))}</b></td>"
                f"<td>{escape(rule.mechanism)}, {reach}; {side}{remark}</td>"
                f"<td class=g>{_GRADES[rule.grade]} {self._link(rule.source)}</td></tr>"
            )
        hidden = sum(m.rule.grade == "lore" for m in mentions)
        switch = ""
        if hidden:
            word = "hide the lore" if self.lore else f"show {hidden} more that are lore only"
            switch = f"<p><a href='lore:'>{word}</a></p>"
        if not rows and not switch:
            return ""
        return f"<h3>Neighbours</h3><table>{''.join(rows)}</table>{switch}"

    def _plant(self, selector) -> str:
        """What a rule calls a plant."""
        if selector.kind == "crop":
            crop = self.garden.catalogue.get(selector.name)
            return crop.name if crop is not None else selector.name
        return f"{selector.name} ({selector.kind})"

    def _sources(self, crop: Crop) -> str:
        lines = []
        for key in self._numbers:
            source = self.garden.catalogue.sources[key]
            note = f" <span class=g>{escape(source.note)}</span>" if source.note else ""
            lines.append(f"<li>{escape(source.citation)}{note}</li>")
        return f"<h3>Sources</h3><ol>{''.join(lines)}</ol>"

    def _follow(self, url: QUrl) -> None:
        kind, _, rest = url.toString().partition(":")
        if kind == "source":
            source = self.garden.catalogue.sources.get(rest)
            if source is not None:
                from PySide6.QtGui import QCursor
                from PySide6.QtWidgets import QToolTip

                QToolTip.showText(QCursor.pos(), source.citation, self.text)
        elif kind == "variety" and self.crop is not None:
            self.variety_wanted.emit(self.crop.key, rest)
        elif kind == "lore":
            self.lore = not self.lore
            self._refresh()
        elif kind in ("http", "https"):
            QDesktopServices.openUrl(url)
