"""Reads a rebuild sheet as a tree, and finds the numbers on it that name no source."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element

import html5lib

# Numbers that count what stands on the sheet itself, names, and what is itself a source or a version.
OWN = {"own", "number", "name", "cite", "place-number", "sources", "versions", "next-of-unit"}
BLOCKS = {"li", "tr", "p", "figure", "caption", "h4"}


def tree_of(html: str) -> Element:
    """The document as a tree; raises on anything that is no well-formed HTML."""
    parser = html5lib.HTMLParser(
        tree=html5lib.getTreeBuilder("etree"), namespaceHTMLElements=False, strict=True
    )
    found: Element = parser.parse(html)
    return found


def text_of(element: Element) -> str:
    """The text of an element, one space between words."""
    return " ".join("".join(element.itertext()).split())


def classes(element: Element) -> set[str]:
    """The classes of an element."""
    return set((element.get("class") or "").split())


def with_class(tree: Element, name: str, tag: str = "*") -> list[Element]:
    """Every element of a class."""
    return [one for one in tree.iter() if (tag in ("*", one.tag)) and name in classes(one)]


def by_id(tree: Element, name: str) -> Element:
    """The element of an id."""
    (found,) = (one for one in tree.iter() if one.get("id") == name)
    return found


def untraced(tree: Element) -> list[str]:
    """Texts with a number that neither they nor what holds them trace to a source."""
    parents = {child: parent for parent in tree.iter() for child in parent}
    main = next(tree.iter("main"))
    return [
        text.strip()
        for element, text in _texts(main)
        if re.search(r"\d", text) and not _traced(element, parents)
    ]


def _texts(element: Element) -> Iterator[tuple[Element, str]]:
    if not isinstance(element.tag, str) or _plain(element) in ("style", "title"):
        return
    yield element, element.text or ""
    for child in element:
        yield from _texts(child)
        yield element, child.tail or ""


def _plain(element: Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _traced(element: Element, parents: dict[Element, Element]) -> bool:
    at: Element | None = element
    while at is not None:
        if classes(at) & OWN or _plain(at) in ("h1", "nav"):
            return True
        if _plain(at) == "h3" and "head" in classes(parents[at]):
            return True  # number and name of a place
        if _plain(at) in BLOCKS and _cites(at):
            return True
        if any("from" in classes(child) and _cites(child) for child in at):
            return True
        if _plain(at) == "table" and any(_cites(child) for child in at if _plain(child) == "caption"):
            return True
        if _plain(at) in ("article", "section", "main"):
            return False
        at = parents.get(at)
    return False


def _cites(element: Element) -> bool:
    return any("cite" in classes(one) for one in element.iter())
