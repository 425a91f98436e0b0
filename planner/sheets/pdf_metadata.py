"""What a PDF says about itself: title, language, what made it and when, and how it wants to be printed.

No author is named: the program does not know who prints.
"""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Iterator
from contextvars import ContextVar
from typing import Any
from xml.sax.saxutils import escape

from planner import __version__
from planner.words import spoken_language

CREATOR = f"Bedwright {__version__}"
#: When the PDF is made that is written now; None leaves it out, and the same drawing gives the same bytes.
_made: ContextVar[dt.datetime | None] = ContextVar("made", default=None)


@contextlib.contextmanager
def made_at(moment: dt.datetime | None) -> Iterator[None]:
    """Say in the PDFs written within when they were made; without a moment the same drawing gives the same bytes.

    Parameters
    ----------
    moment : datetime or None
        With its offset from UTC.
    """
    before = _made.set(moment)
    try:
        yield
    finally:
        _made.reset(before)


def now() -> dt.datetime:
    """The present moment with its offset from UTC, to the second."""
    return dt.datetime.now().astimezone().replace(microsecond=0)


def describe(canvas: Any, title: str) -> None:
    """Enter what a PDF says about itself.

    Parameters
    ----------
    canvas : reportlab.pdfgen.canvas.Canvas
    title : str
    """
    import reportlab
    from reportlab.pdfbase import pdfdoc

    document, moment, language = canvas._doc, _made.get(), spoken_language()
    producer = f"ReportLab {reportlab.__version__}"
    about = {"Title": title, "Creator": CREATOR, "Producer": producer}
    if moment is not None:
        about |= {"CreationDate": _pdf_date(moment), "ModDate": _pdf_date(moment)}
    document.info = pdfdoc.PDFDictionary({key: pdfdoc.PDFString(text) for key, text in about.items()})
    catalog = document.Catalog
    catalog.Lang = pdfdoc.PDFString(language)
    packet = _packet(title, language, producer, moment)
    catalog.Metadata = pdfdoc.XMP(creator=lambda _: packet)
    canvas.setViewerPreference("DisplayDocTitle", "true")
    canvas.setViewerPreference(
        "PrintScaling", "None"
    )  # else a reader fits pages to the paper: no scale holds


def _pdf_date(moment: dt.datetime) -> str:
    """A moment as PDF has it: ``D:20260301081500+01'00'``."""
    offset = f"{moment:%z}" or "+0000"
    return f"D:{moment:%Y%m%d%H%M%S}{offset[:3]}'{offset[3:5]}'"


def _packet(title: str, language: str, producer: str, moment: dt.datetime | None) -> bytes:
    """The metadata as XMP (ISO 16684-1)."""
    date = moment.isoformat() if moment is not None else ""
    dates = f"<xmp:CreateDate>{date}</xmp:CreateDate><xmp:ModifyDate>{date}</xmp:ModifyDate>" if date else ""
    return f"""<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/"><dc:format>application/pdf</dc:format>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escape(_xml(title))}</rdf:li></rdf:Alt></dc:title>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
{dates}<xmp:CreatorTool>{CREATOR}</xmp:CreatorTool><pdf:Producer>{producer}</pdf:Producer>
</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end="w"?>""".encode()


def _xml(text: str) -> str:
    """Text without the signs that XML has not."""
    return "".join(char for char in text if char >= " " and char not in "\ufffe\uffff")
