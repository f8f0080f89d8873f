"""Section 6.6: how many litres are in it, and where?"""

from collections.abc import Iterator, Sequence

from dossier.notation import NotAssessed, Real
from dossier.rendering.adding_up import parts_of
from dossier.rendering.blocks import Align, Answer, Block, Cell, Column, Table
from dossier.rendering.draft import Draft
from dossier.rendering.sections.opening import grounds, heading, missing
from dossier.rendering.text import strong
from dossier.sizing.coolant import Content, Coolant
from dossier.sizing.coolant_groups import ContentGroup, content_groups

NUMBER = Align.NUMBER


def section(draft: Draft) -> Iterator[Block]:
    """The answer and the inventory."""
    words, mix = draft.words, draft.study.coolant
    if isinstance(mix, NotAssessed) or mix.volume is None:
        gap = mix if isinstance(mix, NotAssessed) else NotAssessed("", ("circuit.ring",))
        yield from missing(draft, "volume", "6.6", gap)
        return
    yield heading(draft, "volume", "6.6")
    yield grounds(draft, "volume", numbers=[mix.volume], chapters=["coolant"])
    groups = content_groups(mix.contents)
    largest = max(groups, key=lambda group: float(group.volume))
    yield Answer(
        draft.worked(mix.volume, words("volume.answer", volume=draft.said(mix.volume, "volume"))),
        words(
            "volume.answer_most", item=_item(draft, largest), share=draft.said(_share(largest, mix), "share")
        ),
    )
    yield _table(draft, mix, groups)


def _share(group: ContentGroup, mix: Coolant) -> float:
    return float(group.volume) / float(mix.volume or 1.0)


def _item(draft: Draft, group: ContentGroup) -> str:
    if group.length is not None:
        return str(draft.words("volume.pipe", size=group.name or str(draft.words("volume.own_size"))))
    return draft.named(group.name)


def _table(draft: Draft, mix: Coolant, groups: Sequence[ContentGroup]) -> Table:
    words = draft.words
    rows: list[Sequence[Cell]] = []
    volumes, together = parts_of(draft.numbers, [group.volume for group in groups], "volume", mix.volume)
    shares, whole = parts_of(draft.numbers, [_share(group, mix) for group in groups], "share")
    for group, volume, share in zip(groups, volumes, shares, strict=True):
        item = _item(draft, group)
        rows.append(
            [
                item[:1].upper() + item[1:],
                ", ".join(content.tag for content in group.contents) if group.length is None else "",
                _count(draft, group.contents, group.length),
                volume,
                share,
            ]
        )
    return Table(
        columns=[
            Column(words("volume.item")),
            Column(words("volume.tags")),
            Column(words("volume.extent"), align=NUMBER),
            Column(words("volume.content"), draft.numbers.unit("volume"), NUMBER, strong=True),
            Column(words("volume.share"), draft.numbers.unit("share"), NUMBER),
        ],
        rows=rows,
        totals=[[words("volume.together"), "", "", strong(together), strong(whole)]],
        caption=words("volume.caption"),
        key="table_volume",
        notes=words("volume.notes"),
    )


def _count(draft: Draft, contents: Sequence[Content], length: Real | None) -> str:
    """Length of pipes, number of units."""
    return str(len(contents)) if length is None else draft.said(length, "length_long")
