"""What an own crop is: its family, how it grows, and the crop that it is like."""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

from PySide6.QtWidgets import QLabel, QWidget

from planner.crops.vocabulary import GrowthForm, LifeCycle
from planner.desk.forms.fields import ChoiceField, TypedField, text_field
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.crop_names import crop_title, crops_by_name
from planner.desk.model.document import Document
from planner.garden import OwnCrop
from planner.words import key_words, say


class OwnCropRows(QWidget):
    """Fields of an own crop besides its name and figures.

    Parameters
    ----------
    document : Document
    change : callable
        Called with the changed fields by name.
    """

    def __init__(self, document: Document, change: Callable[..., None]) -> None:
        super().__init__()
        self._document, self._change = document, change
        flow = FlowLayout()
        self.setLayout(flow)
        self.like = ChoiceField(say("Crop that it is like"), ())
        self.latin = text_field(say("Latin name"), may_be_empty=True)
        self.family = text_field(say("Botanical family"), may_be_empty=True)
        self.life_cycle = ChoiceField(
            say("How long it lives"), [(word, key_words(word)) for word in get_args(LifeCycle)]
        )
        self.growth_form = ChoiceField(
            say("How it grows"), [(word, key_words(word)) for word in get_args(GrowthForm)]
        )
        rows: tuple[tuple[str, str, TypedField | ChoiceField], ...] = (
            (say("Like"), "like", self.like),
            (say("Latin"), "latin", self.latin),
            (say("Family"), "family", self.family),
            (say("Life"), "life_cycle", self.life_cycle),
            (say("Form"), "growth_form", self.growth_form),
        )
        for words, name, field in rows:
            flow.add_group(QLabel(words), field)
            signal = field.chosen if isinstance(field, ChoiceField) else field.typed
            signal.connect(lambda value, name=name: self._change(**{name: value or ""}))

    def show_crop(self, crop: OwnCrop) -> None:
        """Show another own crop."""
        others = [one for one in crops_by_name(self._document.catalogue) if not one.key.startswith("own_")]
        self.like.offer([("", say("no other")), *((one.key, crop_title(one)) for one in others)])
        self.like.show_value(crop.like)
        self.latin.show_value(crop.latin or None)
        self.family.show_value(crop.family or None, say("of no known family"))
        self.life_cycle.show_value(crop.life_cycle)
        self.growth_form.show_value(crop.growth_form)
