"""What to do when another program has changed the file of the garden that is open."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from planner.desk.main_window.prompts import Prompts
from planner.desk.model.document import Document
from planner.garden.differences import difference_words
from planner.garden.join import join
from planner.storage import GardenFile
from planner.words import say, say_count


def settle_changed_file(
    window: QWidget,
    prompts: Prompts,
    document: Document,
    known: GardenFile,
    theirs: GardenFile,
    tell: Callable[[str], None],
) -> str:
    """Ask what is to become of the garden and of what another program wrote; do it, as one step.

    Parameters
    ----------
    window : QWidget
        Parent of the dialog.
    prompts : Prompts
    document : Document
    known : GardenFile
        What the file held when it was read or written here last.
    theirs : GardenFile
        What it holds now.
    tell : callable
        Shows a line.

    Returns
    -------
    str
        ``join`` or ``theirs``, which are done; ``both`` and ``stay``, which leave all as it is.
    """
    mine = document.stable
    text = say(
        "{file} was changed by another program while it was open here. Yours, since it was read: {mine}. Theirs: {theirs}.",
        file=theirs.path.name,
        mine=difference_words(known.garden, mine),
        theirs=difference_words(known.garden, theirs.garden),
    )
    answer = prompts.changed_on_disk(window, text)
    if answer == "theirs":
        document.commit(say("Take the changed file"), theirs.garden)
        tell(say("This is what the other program wrote. Undo brings yours back."))
    elif answer == "join":
        joined = join(known.garden, mine, theirs.garden)
        document.commit(say("Join with the changed file"), joined.garden)
        number = len(joined.conflicts)
        tell(
            say_count(
                "Joined; {count} difference is among the findings, to be settled. Save when it looks right.",
                "Joined; {count} differences are among the findings, to be settled. Save when it looks right.",
                number,
            )
            if number
            else say("Joined. Save when it looks right; Undo brings yours back.")
        )
    return answer
