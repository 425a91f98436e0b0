"""What is what on the pages of a PDF: headings, paragraphs, tables and pictures, for those who have it read aloud.

Everything drawn within :meth:`StructureTree.mark` belongs to an element of the tree (ISO 32000-1, 14.7 and 14.8); what is
drawn outside, as rules, feet and repeated heads, is an artifact, which readers pass over.  Elements follow each other as
they are drawn.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager, nullcontext
from typing import Any, Literal

from reportlab.pdfbase.pdfdoc import PDFArrayCompact, PDFDictionary, PDFObject, PDFString

#: The standard structure types that sheets use.
Role = Literal["Document", "H1", "H2", "P", "Table", "TR", "TH", "TD", "Figure"]

_ARTIFACT = "/Artifact BMC"
_END = "EMC"


class Element(PDFObject):  # type: ignore[misc] # reportlab has no types
    """An element of the tree.

    Parameters
    ----------
    role : str
    parent : Element or None
    key : object
        What it is about: what is drawn next and is about the same goes on with it.
    alt : str
        What a picture shows, in words.
    attributes : str
        Of a table's cell, as PDF writes them.
    """

    def __init__(
        self, role: Role, parent: Element | None, key: object = None, alt: str = "", attributes: str = ""
    ) -> None:
        self.role, self.parent, self.key, self.alt, self.attributes = role, parent, key, alt, attributes
        #: Elements, and pieces of pages: number of the page, and of the piece on it.
        self.kids: list[Element | tuple[int, int]] = []

    def __iter__(self) -> Iterator[Element]:
        """The element and all below it, in order."""
        yield self
        for kid in self.kids:
            if isinstance(kid, Element):
                yield from kid

    def format(self, document: Any) -> bytes:
        """The element as PDF writes it."""
        above = self.parent if self.parent is not None else document.Catalog.StructTreeRoot
        parts = [f"/S/{self.role}/P {_number(document, above)}"]
        page = next((kid[0] for kid in self.kids if isinstance(kid, tuple)), None)
        if page is not None:
            parts.append(f"/Pg {_number(document, document.Pages.pages[page])}")
        kids = [self._kid(document, kid, page) for kid in self.kids]
        if kids:
            parts.append(f"/K {kids[0]}" if len(kids) == 1 else f"/K[{' '.join(kids)}]")
        if self.attributes:
            parts.append(f"/A<</O/Table{self.attributes}>>")
        head = "".join(parts).encode()
        alt = b"/Alt" + PDFString(self.alt).format(document) if self.alt else b""
        return b"<<" + head + alt + b">>"

    @staticmethod
    def _kid(document: Any, kid: Element | tuple[int, int], page: int | None) -> str:
        if isinstance(kid, Element):
            return _number(document, kid)
        if kid[0] == page:
            return str(kid[1])
        return f"<</Type/MCR/Pg {_number(document, document.Pages.pages[kid[0]])}/MCID {kid[1]}>>"


def _number(document: Any, thing: Any) -> str:
    return str(document.Reference(thing).format(document).decode())


class StructureTree:
    """Collects the structure of a document while its pages are drawn."""

    def __init__(self) -> None:
        self.root = Element("Document", None)
        self.open = self.root
        #: Whether what is drawn is part of an element that is marked already, or passed over.
        self.closed = False
        #: The elements of the pieces of each page.
        self._pages: list[list[Element]] = [[]]

    # -- while pages are drawn --------------------------------------------------------------

    def mark(
        self, code: list[str], role: Role, key: object = None, alt: str = "", attributes: str = ""
    ) -> AbstractContextManager[object]:
        """Make what is drawn within the content of an element; within another element's content it is part of that.

        Parameters
        ----------
        code : list of str
            Operators of the page, to which those of the drawing are added.
        role : str
        key : object, optional
            The element before goes on where it has the same role and key.
        alt : str
            What a picture shows.
        attributes : str
        """
        if self.closed:
            return nullcontext()
        return _Content(self, code, self._next(role, key, alt, attributes))

    def group(self, role: Role, key: object = None, attributes: str = "") -> AbstractContextManager[object]:
        """Make the elements marked within those of an element, which has no content of its own."""
        if self.closed:
            return nullcontext()
        return _Group(self, self._next(role, key, "", attributes))

    def table_head(self, key: object) -> AbstractContextManager[object]:
        """Begin the table of a key with its heads; where that table is open they are drawn again, and passed over."""
        return _PassedOver(self) if self.goes_on(key) else self.group("Table", key)

    def goes_on(self, key: object) -> bool:
        """Whether the table of a key is what was drawn before."""
        last = self.open.kids[-1] if self.open.kids else None
        return isinstance(last, Element) and last.role == "Table" and last.key == key

    def _next(self, role: Role, key: object, alt: str, attributes: str) -> Element:
        kids = self.open.kids
        last = kids[-1] if key is not None and kids else None
        if isinstance(last, Element) and last.role == role and last.key == key:
            return last
        element = Element(role, self.open, key, alt, attributes)
        kids.append(element)
        return element

    def begin_piece(self, code: list[str], element: Element) -> None:
        """Begin a piece of the page that is the content of an element."""
        pieces = self._pages[-1]
        if pieces:
            _end_artifact(code)
        elif code:
            code.insert(0, _ARTIFACT)
            code.append(_END)
        element.kids.append((len(self._pages) - 1, len(pieces)))
        code.append(f"/{element.role} <</MCID {len(pieces)}>> BDC")
        pieces.append(element)

    def end_piece(self, code: list[str], element: Element) -> None:
        """End a piece; one in which nothing was drawn is left out, and what is no cell of a table with it."""
        if not code[-1].endswith(" BDC"):
            code += (_END, _ARTIFACT)
            return
        code.pop()
        self._pages[-1].pop()
        element.kids.pop()
        if not element.kids and element.role not in ("TD", "TH") and element.parent is not None:
            element.parent.kids.remove(element)
        if self._pages[-1]:
            code.append(_ARTIFACT)
        elif code:
            del code[0], code[-1]

    def end_page(self, code: list[str]) -> None:
        """End a page: what it draws outside of elements is an artifact.

        Parameters
        ----------
        code : list of str
            Its operators.
        """
        if self._pages[-1]:
            _end_artifact(code)
        elif code:
            code.insert(0, _ARTIFACT)
            code.append(_END)
        self._pages.append([])

    # -- when all are drawn -----------------------------------------------------------------

    def write(self, document: Any) -> None:
        """Enter the tree into a document.

        Parameters
        ----------
        document : reportlab.pdfbase.pdfdoc.PDFDocument
            All pages of which are ended.
        """
        catalog, numbers = document.Catalog, []
        catalog.MarkInfo = PDFDictionary({"Marked": "true"})
        top = catalog.StructTreeRoot = PDFDictionary({"Type": "/StructTreeRoot"})
        document.Reference(top)
        for element in self.root:
            document.Reference(element)
        for number, (page, elements) in enumerate(zip(document.Pages.pages, self._pages, strict=False)):
            if elements:
                page.__NoDefault__ = [*page.__NoDefault__, "StructParents"]
                page.StructParents = number
                numbers += [number, PDFArrayCompact([document.Reference(one) for one in elements])]
        top["K"] = document.Reference(self.root)
        top["ParentTree"] = PDFDictionary({"Nums": PDFArrayCompact(numbers)})
        top["ParentTreeNextKey"] = len(self._pages)


def _end_artifact(code: list[str]) -> None:
    """End the artifact that follows each piece; it is left out where nothing was drawn in it."""
    if code[-1] == _ARTIFACT:
        code.pop()
    else:
        code.append(_END)


class _Content:
    """What is drawn within is the content of an element."""

    __slots__ = ("_code", "_element", "_tree")

    def __init__(self, tree: StructureTree, code: list[str], element: Element) -> None:
        self._tree, self._code, self._element = tree, code, element

    def __enter__(self) -> None:
        self._tree.begin_piece(self._code, self._element)
        self._tree.closed = True

    def __exit__(self, *_: object) -> None:
        self._tree.end_piece(self._code, self._element)
        self._tree.closed = False


class _Group:
    """What is marked within belongs to an element."""

    __slots__ = ("_element", "_tree")

    def __init__(self, tree: StructureTree, element: Element) -> None:
        self._tree, self._element = tree, element

    def __enter__(self) -> None:
        self._tree.open = self._element

    def __exit__(self, *_: object) -> None:
        assert self._element.parent is not None
        self._tree.open = self._element.parent


class _PassedOver:
    """What is drawn within is in no element."""

    __slots__ = ("_tree",)

    def __init__(self, tree: StructureTree) -> None:
        self._tree = tree

    def __enter__(self) -> None:
        self._tree.closed = True

    def __exit__(self, *_: object) -> None:
        self._tree.closed = False
