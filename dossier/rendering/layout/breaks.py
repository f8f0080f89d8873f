"""Sets page breaks and turns of the sheet."""

from dossier.rendering.blocks import NewSheet, PageBreak
from dossier.rendering.layout.item import Break, Item
from dossier.rendering.layout.measures import leaf_sheet, sheet
from dossier.rendering.layout.setting import Room, Setting, sets


@sets(PageBreak)
def page_break(block: PageBreak, setting: Setting, room: Room) -> list[Item]:
    """The next block starts a new sheet."""
    del block, setting, room
    return [Break()]


@sets(NewSheet)
def new_sheet(block: NewSheet, setting: Setting, room: Room) -> list[Item]:
    """The next block starts a new sheet of another kind."""
    del room
    paper = block.paper or setting.paper
    if block.leaf:
        return [setting.turn(leaf_sheet(paper, landscape=block.landscape), lasting=True)]
    return [setting.turn(sheet(paper, landscape=block.landscape, outer=block.outer), lasting=True)]
