"""The course of a planting in its form: where it came from, what it replaces, how it ended."""

from __future__ import annotations

from collections.abc import Callable

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.form import Form
from planner.desk.forms.wrapped import WrappedButton
from planner.garden import Planting
from planner.garden.planting import CameFrom
from planner.listings.course_words import CAME_FROM_WORDS, course_lines
from planner.words import say


class CourseRows:
    """Rows of a form about how a planting came to its plot and how it ended.

    Parameters
    ----------
    form : Form
    change : callable
        Called with where it came from, when that is chosen.

    Attributes
    ----------
    ended, anew : WrappedButton
        Say that it ended; sow it anew.
    """

    def __init__(self, form: Form, change: Callable[[CameFrom | None], None]) -> None:
        self._form = form
        choices = (
            (None, say("sown or bought")),
            *((key, say(CAME_FROM_WORDS[key])) for key in CAME_FROM_WORDS),
        )
        self.came_from = ChoiceField(say("Where it came from"), choices)
        form.row(say("Came from"), self.came_from)
        self.came_from.chosen.connect(change)
        self.lines = form.words()
        self.ended, self.anew = WrappedButton(say("It ended…")), WrappedButton(say("Sow it anew…"))
        form.widget(self.ended)
        form.widget(self.anew)

    def show(self, planting: Planting) -> None:
        """Show the course of a planting."""
        plan = self._form.document.plan
        self.came_from.show_value(planting.came_from)
        lines = course_lines(plan, planting)
        self.lines.setText("\n".join(lines))
        self.lines.setVisible(bool(lines))
        over = plan.garden.outcome(planting) is not None
        self.ended.setVisible(not over)
        self.anew.setVisible(not over)
