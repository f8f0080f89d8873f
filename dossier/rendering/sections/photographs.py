"""Photographs: beside the checks they support, the others with the view of the installation."""

from collections.abc import Container, Iterator, Sequence
from itertools import islice

from dossier.notation import PageFault
from dossier.project.model.papers import Picture
from dossier.rendering.blocks import Block, Figure, Pair, Together
from dossier.rendering.draft import Draft
from dossier.rendering.photographs import photograph
from dossier.rendering.text import Text

MM = 72 / 25.4
WIDTH, HEIGHT = 80 * MM, 75 * MM
WIDTH_A5 = 56 * MM


def photographs(draft: Draft, checks: Container[str] | None) -> Iterator[Block]:
    """The photographs of some checks, two in a row; with None those that belong to no check."""
    every = draft.project.pictures or ()
    shown = [
        (number, picture)
        for number, picture in enumerate(every, 1)
        if (picture.check is None if checks is None else picture.check in checks)
    ]
    rest = iter([_figure(draft, number, picture) for number, picture in shown])
    while row := list(islice(rest, 2)):
        yield Together([Pair([row[0]], row[1:])])


def _figure(draft: Draft, number: int, picture: Picture) -> Figure:
    file = next(file for file in draft.project.files if file.name == picture.file)
    width = WIDTH if draft.paper != "A5" else WIDTH_A5
    try:
        drawing = photograph(draft.project.content(file), picture.file, width, HEIGHT)
    except PageFault as fault:
        line = draft.project.where(f"pictures.{picture.file}.file")
        raise PageFault(f"{line.file}:{line.line}:{line.column}: {fault}") from fault
    return Figure(drawing, _caption(draft, picture), _told(draft, picture), key=f"photograph_{number}")


def _facts(picture: Picture) -> Sequence[tuple[str, str]]:
    facts = (("tag", picture.tag), ("looking", picture.looking), ("date", picture.date))
    return [(name, str(fact)) for name, fact in facts if fact]


def _caption(draft: Draft, picture: Picture) -> Text:
    facts = [str(draft.words(f"photographs.{name}", fact=fact)) for name, fact in _facts(picture)]
    caption = picture.caption or str(draft.words("photographs.no_caption"))
    return draft.words("photographs.caption", caption=caption, facts=", ".join(facts))


def _told(draft: Draft, picture: Picture) -> str:
    return str(draft.words("photographs.told", caption=picture.caption or picture.file))
