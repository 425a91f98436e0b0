"""What is known of the soil, as rows of a form: of a bed, or of the whole garden."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, get_args

from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.garden import Soil
from planner.garden.edits.common import EditError, checked
from planner.garden.soil import Texture
from planner.words import full_day_words, key_words, say, short_number


class SoilRows:
    """Rows for texture, acidity, depth, and the numbers of a soil test.

    Parameters
    ----------
    form : Form
        Gets the rows.
    put : callable
        Called with the soil as changed.
    """

    def __init__(self, form: Form, put: Callable[[Soil], None]) -> None:
        self._form, self._put = form, put
        self._soil = Soil()
        form.section(say("Soil"))
        self.texture = fields.ChoiceField(
            say("Texture of the soil"), [(None, ""), *((word, key_words(word)) for word in get_args(Texture))]
        )
        form.row(say("Texture"), self.texture)
        self.texture.chosen.connect(lambda value: self._change(texture=value))
        self.ph = fields.number_field(say("pH of the soil"), may_be_empty=True)
        form.row(say("pH"), self.ph)
        self.depth = fields.length_field(say("Depth that roots find"), lambda: form.units, may_be_empty=True)
        self._depth_label = form.row(say("Roots find"), self.depth)
        self.depth.typed.connect(lambda value: self._change(depth=value))
        self.tested = form.date_field(say("Day of the soil test"))
        form.row(say("Tested on"), self.tested)
        self.laboratory = fields.text_field(say("Who tested the soil"), may_be_empty=True)
        form.row(say("By"), self.laboratory)
        self.laboratory.typed.connect(lambda value: self._change(laboratory=value or ""))
        self.organic = fields.number_field(say("Organic matter, percent"), after=" %", may_be_empty=True)
        form.row(say("Organic matter"), self.organic)
        self.organic.typed.connect(lambda value: self._change(organic=None if value is None else value / 100))
        self.phosphorus = fields.number_field(say("Phosphorus, mg/kg"), may_be_empty=True)
        self.potassium = fields.number_field(say("Potassium, mg/kg"), may_be_empty=True)
        self.magnesium = fields.number_field(say("Magnesium, mg/kg"), may_be_empty=True)
        form.row(say("P, mg/kg"), self.phosphorus)
        form.row(say("K, mg/kg"), self.potassium)
        form.row(say("Mg, mg/kg"), self.magnesium)
        for name in ("ph", "tested", "phosphorus", "potassium", "magnesium"):
            getattr(self, name).typed.connect(lambda value, name=name: self._change(**{name: value}))

    def _change(self, **changes: Any) -> None:
        try:
            soil = checked(lambda: self._soil.with_(**changes), say("the soil"))
        except EditError as error:
            self._form.refuse(str(error))
            return
        self._put(soil)

    def show(self, soil: Soil, wider: Soil, *, with_depth: bool = True) -> None:
        """Show some soil.

        Parameters
        ----------
        soil : Soil
            Its own fields.
        wider : Soil
            What it is taken to be where its own are not given, shown as hints.
        with_depth : bool
            Whether the depth that roots find is asked for.
        """
        self._soil, around = soil, soil.over(wider)
        unknown = say("not known")
        self.texture.setItemText(0, key_words(around.texture) if around.texture else unknown)
        self.texture.show_value(soil.texture)
        self.ph.show_value(soil.ph, short_number(around.ph) if around.ph is not None else unknown)
        for widget in (self.depth, self._depth_label):
            widget.setVisible(with_depth)
        self.depth.show_value(soil.depth, unknown)
        self.tested.show_value(
            soil.tested, full_day_words(around.tested) if around.tested else say("not tested")
        )
        self.laboratory.show_value(soil.laboratory or None, around.laboratory)
        self.organic.show_value(None if soil.organic is None else 100 * soil.organic)
        for name in ("phosphorus", "potassium", "magnesium"):
            getattr(self, name).show_value(getattr(soil, name))
