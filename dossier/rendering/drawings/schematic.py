"""The schematic on its sheets: the circuit laid out, legend, notes, frame and title block.

Read in this order: ``circuit`` (what is drawn), ``ring`` and ``rows`` (how it is laid out), ``groups`` and
``strings`` (what stands on a line), ``cells``, ``sides``, ``joins``, ``riser`` (single pieces), ``pieces``
(a circuit too large for one sheet), ``links`` (what lies outside the tree).
"""

from dataclasses import replace

from dossier.notation.faults import PageFault
from dossier.rendering.drawings.cells import LOOKS, Look
from dossier.rendering.drawings.circuit import Circuit, Link, Parallel, SideCircuit
from dossier.rendering.drawings.furniture import furnished
from dossier.rendering.drawings.groups import natural_width
from dossier.rendering.drawings.links import has_connectors, linked
from dossier.rendering.drawings.pieces import (
    Cut,
    Piece,
    can_be_halved,
    is_moved,
    largest_group,
    part_name,
    rows_of,
    without_branch,
    without_half,
    without_rest,
)
from dossier.rendering.drawings.placing import shifted
from dossier.rendering.drawings.plane import Box
from dossier.rendering.drawings.plate import Furniture
from dossier.rendering.drawings.ring import sequence_of
from dossier.rendering.drawings.rows import Layout, fits_riser, laid
from dossier.rendering.drawings.shapes import Drawing, Shape
from dossier.rendering.drawings.sheet import Form
from dossier.rendering.drawings.strings import Surroundings

SPARE = 3.0  # room for what stands over the ends of a row: half a bar, half a line
LEADS = (4.0, 3.0, 2.2, 1.7, 1.35, 1.15)  # how much more than its least lead a look may be given
MOST_PARTS = 60


def schematic(circuit: Circuit, form: Form) -> tuple[Drawing, ...]:
    """The schematic of a circuit, one drawing for each sheet it needs.

    Raises PageFault where not even a single unit fits the paper.
    """
    waiting = [Piece("", sequence_of(circuit.ring), surroundings(circuit))]
    done: list[tuple[Piece, Layout, Furniture]] = []
    made = 0
    while waiting:
        piece = waiting.pop(0)
        furniture = furnished(piece, form)
        layout = fitted(piece, circuit.links, furniture.free)
        if layout is not None and has_connectors(layout.shapes):
            furniture = furnished(piece, form, lettered=True)
            layout = fitted(piece, circuit.links, furniture.free)
        if layout is not None:
            done.append((piece, layout, furniture))
            continue
        if made == MOST_PARTS:
            raise PageFault(f"the schematic does not fit {form.paper}: take larger paper")
        here = f"{form.word('part', 'part')} {piece.name}" if piece.name else form.word("main", "main part")
        there = part_name(made)
        cut = Cut(f"{form.word('part', 'part')} {there}", here, form.word("branches", "branches"))
        kept, moved = divided(piece, circuit.links, furniture.free, cut)
        made += 1
        waiting = [kept, *waiting, replace(moved, name=there)]
    return tuple(
        _sheet(layout, furniture, form, (n, len(done))) for n, (_, layout, furniture) in enumerate(done)
    )


def surroundings(circuit: Circuit) -> Surroundings:
    """What hangs on the tree, by tag."""
    sides: dict[str, tuple[SideCircuit, ...]] = {}
    for side in circuit.sides:
        sides[side.at] = (*sides.get(side.at, ()), side)
    around = Surroundings(sides)
    for join in circuit.joins:
        place = around.before if join.before else around.after
        tag = join.before or join.after
        place[tag] = (*place.get(tag, ()), join)
    for n, link in enumerate(circuit.links):
        around.link_starts[link.start] = (*around.link_starts.get(link.start, ()), n)
        around.link_ends[link.end] = (*around.link_ends.get(link.end, ()), n)
    return around


def fitted(piece: Piece, links: tuple[Link, ...], room: Box) -> Layout | None:
    """The roomiest layout that fits; None where even the tightest does not."""
    if not is_fitting(piece, links, room):
        return None
    for look in LOOKS:
        for with_riser in (True, False):
            if with_riser and not fits_riser(piece.sequence):
                continue
            tight = attempt(piece, links, look, room, with_riser=with_riser)
            if tight is None or not _is_within(tight, room):
                continue
            for factor in LEADS:
                wider = replace(look, lead=look.lead * factor)
                layout = attempt(piece, links, wider, room, with_riser=with_riser)
                if layout is not None and _is_within(layout, room):
                    return layout
            return tight
    return None


def attempt(
    piece: Piece, links: tuple[Link, ...], look: Look, room: Box, *, with_riser: bool
) -> Layout | None:
    """One layout with its links; None where something is wider than the room."""
    layout = laid(piece.sequence, piece.around, look, room.width - SPARE, with_riser=with_riser)
    if layout is None or not links:
        return layout
    return Layout.of(linked(layout.shapes, links))


def _is_within(layout: Layout, room: Box) -> bool:
    return layout.box.width <= room.width and layout.box.height <= room.height


def divided(piece: Piece, links: tuple[Link, ...], room: Box, cut: Cut) -> tuple[Piece, Piece]:
    """The piece made smaller, and what was taken off it."""
    tight = attempt(piece, links, LOOKS[-1], room, with_riser=False)
    step = largest_group(piece.sequence) if tight else _widest_step(piece)
    group = piece.sequence.steps[step][1] if step is not None else None
    if step is None or not isinstance(group, Parallel):
        return _halved(piece, cut)
    open_branches = [n for n, branch in enumerate(group.branches) if not is_moved(branch)]
    if tight is None:
        widths = [_width(piece, step, n) for n in open_branches]
        return without_branch(piece, step, open_branches[widths.index(max(widths))], cut)
    kept = _most_kept(piece, links, room, step)
    if kept and any(n >= kept for n in open_branches):
        return without_rest(piece, step, kept, cut)
    bare, _ = without_rest(piece, step, 0, cut)
    if open_branches and (kept or is_fitting(bare, links, room)):
        tallest = max(open_branches, key=lambda n: (rows_of(group.branches[n].items), -n))
        return without_branch(piece, step, tallest if kept else open_branches[0], cut)
    return _halved(piece, cut)


def _most_kept(piece: Piece, links: tuple[Link, ...], room: Box, step: int) -> int:
    """How many branches of a group may stay, halving the doubt each time; 0 where not one may."""
    group = piece.sequence.steps[step][1]
    low, high = 0, len(group.branches) if isinstance(group, Parallel) else 0
    while high - low > 1:
        middle = (low + high) // 2
        smaller, _ = without_rest(piece, step, middle, Cut("part", "part"))
        if is_fitting(smaller, links, room):
            low = middle
        else:
            high = middle
    return low


def is_fitting(piece: Piece, links: tuple[Link, ...], room: Box) -> bool:
    """Whether the tightest layout fits."""
    risers = (True, False) if fits_riser(piece.sequence) else (False,)
    layouts = (attempt(piece, links, LOOKS[-1], room, with_riser=riser) for riser in risers)
    return any(layout is not None and _is_within(layout, room) for layout in layouts)


def _halved(piece: Piece, cut: Cut) -> tuple[Piece, Piece]:
    if not can_be_halved(piece):
        raise PageFault("a unit of the schematic is larger than the sheet: take larger paper")
    return without_half(piece, cut)


def _widest_step(piece: Piece) -> int | None:
    widths = [natural_width(item, run.side, piece.around, LOOKS[-1]) for run, item in piece.sequence.steps]
    return widths.index(max(widths)) if widths else None


def _width(piece: Piece, step: int, number: int) -> float:
    """How wide a group would be with one of its branches alone."""
    run, group = piece.sequence.steps[step]
    if not isinstance(group, Parallel):
        raise TypeError("only a group has branches")
    alone = replace(group, branches=(group.branches[number],))
    return natural_width(alone, run.side, piece.around, LOOKS[-1])


def _sheet(layout: Layout, furniture: Furniture, form: Form, place: tuple[int, int]) -> Drawing:
    """One sheet: the layout set into its free room, under the frame and over the title block."""
    number, of = place
    room = furniture.free
    dx = room.left + (room.width - layout.box.width) / 2 - layout.box.left
    dy = room.top - (room.height - layout.box.height) * 0.3 - layout.box.top
    shapes: list[Shape] = [shifted(shape, dx, dy) for shape in layout.shapes]
    title = form.title
    if number < len(form.sheets):
        title = replace(title, sheet=form.sheets[number])
    if of > 1:
        part = f"{form.word('sheet_of_drawing', 'sheet')} {number + 1} {form.word('of', 'of')} {of}"
        title = replace(title, document_type=f"{title.document_type}, {part}".lstrip(", "))
    return furniture.drawing(shapes, title)
