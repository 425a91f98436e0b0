"""Notes written down outside on the pocket page: what page and reader agree on."""

from __future__ import annotations

import hashlib
import re

from planner.garden.site import Site

#: Name and version of the file in which notes leave the page.
NOTES_FORMAT = "bedwright-notes"
NOTES_VERSION = 1
#: Ids of notes are made on the phone at random; a record that is made of a note has the note's id, so that a garden
#: knows which notes it has.
NOTE_ID = re.compile(r"note-[0-9a-f]{32}")
#: So many ids of notes are remembered whose records were removed: the latest.
MOST_REMOVED_NOTES = 1_000
#: Longest words of a note. [characters]
LONGEST_WORDS = 2_000


def garden_key(site: Site) -> str:
    """Key of a garden, by which its notes are told from those of other gardens: from its name and place.

    It stays while the garden is edited or renamed, so that a page made anew finds the notes written on the one before.

    Parameters
    ----------
    site : Site
    """
    place = [None if value is None else round(value, 2) for value in (site.latitude, site.longitude)]
    return hashlib.sha256(repr((site.known_as or site.name, *place)).encode()).hexdigest()[:16]
