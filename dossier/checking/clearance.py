"""Is there room to work, does everything fit, and is what burns or gasses kept off what is hot?"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from dossier.checking.aboard import circuit_is_written, is_sealed, of_kind
from dossier.checking.finding import Finding, Limit, judge, not_applicable, not_assessed
from dossier.checking.judging import (
    at_least,
    for_a_burner,
    met,
    not_met,
    together,
    with_maker_silent,
)
from dossier.checking.stated import silent, stated
from dossier.notation import NotAssessed
from dossier.physics.boxes import least_distance
from dossier.sizing.header_margins import header_of
from dossier.sizing.placement import in_degrees

if TYPE_CHECKING:
    from dossier.sizing.placement import PlacedPart
    from dossier.sizing.study import Study


def service(study: "Study", limit: Limit) -> Finding:
    """What cannot be reached is not serviced."""
    if isinstance(study.placement, NotAssessed):
        return not_assessed(limit, study.placement)
    found = [pair for part in study.placement.parts.values() for pair in _room(limit, part)]
    unplaced = [b.tag for b in of_kind(study.project, "burner") if b.tag not in study.placement.parts]
    found += [(tag, not_assessed(limit, [f"layout.places.{tag}"])) for tag in unplaced]
    return together(limit, found, none="no part listed names a side to keep free")


def _room(limit: Limit, part: "PlacedPart") -> Iterator[tuple[str, Finding]]:
    """Room on the sides a part names; without a named side, whether any side has room at all."""
    key = f"layout.places.{part.tag}"
    for space in part.spaces:
        if space.asked is None:
            continue
        by = limit.by_maker(float(space.asked), "service space stated for the part")
        name, here = f"{part.tag} {space.side}", f"{key}.keep_free.{space.side}"
        if space.free is None:
            yield name, not_assessed(limit, ["layout.compartments"], f"what bounds {name} is not drawn")
        else:
            yield name, at_least(by, space.free, by.value or 0.0, "m", key=here)
    if part.spaces:
        return
    if part.kind == "burner":
        yield part.tag, not_assessed(limit, [f"{key}.keep_free"], "which side opens")
        return
    free = [space.free for space in part.sides]
    widest = max((float(side) for side in free if side is not None), default=0.0)
    if None not in free and widest < (limit.value or 0.0):
        yield (
            part.tag,
            at_least(limit, widest, limit.value or 0.0, "m", key=key, place=f"{part.tag}, widest side"),
        )


def inside(study: "Study", limit: Limit) -> Finding:
    """A part that sticks out of its compartment on paper, or into another part, does not go in aboard."""
    if isinstance(study.placement, NotAssessed):
        return not_assessed(limit, study.placement)
    found = []
    for part in study.placement.parts.values():
        key = f"layout.places.{part.tag}"
        why = "" if part.compartment else "its middle lies in none of the compartments drawn"
        missing = ["layout.compartments"]
        found.append((part.tag, judge(limit, part.inside, key=key, missing=missing, why=why)))
    for one, other in study.placement.clashes:
        said = f"{one} and {other} reach into each other"
        found.append((one, not_met(limit, said, "a place of its own", key=f"layout.places.{one}")))
    return together(limit, found) if found else not_assessed(limit, ["layout.places"])


def access(study: "Study", limit: Limit) -> Finding:
    """In smoke and darkness only what a bare hand reaches can be shut."""
    project = study.project
    wanted: list[tuple[str, str]] = []
    needs: list[str] = []
    tag = stated(project, "fuel.shut_off")
    if tag is None and of_kind(project, "burner"):
        needs.append("fuel.shut_off")
    elif tag:
        wanted.append(("fuel shut-off", tag))
    isolators = [c.isolator for c in stated(project, "electrics.circuits") or () if c.isolator]
    isolators += [part.tag for part in of_kind(project, "isolator")]
    wanted += [("isolator", isolator) for isolator in dict.fromkeys(isolators)]
    if not isolators:
        needs.append("electrics.circuits.isolator")
    header = header_of(project)
    if header is not None:
        wanted.append(("header", header))
    elif not is_sealed(project) and not circuit_is_written(project):
        needs.append("circuit.header.unit")
    key = "layout.reached_without_tools"
    reached = stated(project, key)
    if reached is None:
        return not_assessed(limit, [key])
    lacking = [f"{what} {name}" for what, name in wanted if name not in reached]
    if lacking:
        return not_met(limit, f"not listed as reached: {', '.join(lacking)}", ", ".join(lacking), key=key)
    if needs:
        return not_assessed(limit, needs)
    return met(limit, ", ".join(f"{what} {name}" for what, name in wanted), key=key)


@for_a_burner
def flooding(study: "Study", limit: Limit) -> Finding:
    """Bilge water in burner or pump ends the heating on the night the boat already leaks."""
    key = "layout.flooding_level"
    if stated(study.project, key) is None:
        return not_assessed(limit, [key])
    if isinstance(study.placement, NotAssessed):
        return not_assessed(limit, study.placement)
    found = []
    concerned = of_kind(study.project, "burner", "pump")
    for part in concerned:
        placed = study.placement.parts.get(part.tag)
        place = f"layout.places.{part.tag}"
        if placed is None:
            found.append((part.tag, not_assessed(limit, [place])))
            continue
        for height in placed.heights:
            how = f"heeled {in_degrees(height.angle)}°" if height.angle else "upright"
            found.append((f"{part.tag} {how}", judge(limit, height.height, key=place)))
    if stated(study.project, "vessel.heel_angles") is None:
        found.append(("heeled", not_assessed(limit, ["vessel.heel_angles"])))
    return together(limit, found, none="neither burner nor pump is aboard")


@for_a_burner
def burner_combustible(study: "Study", limit: Limit) -> Finding:
    """Wood kept warm for months takes fire at temperatures that once did it no harm."""
    key = "clearances.burner"
    finding = judge(limit, stated(study.project, key), key=key, missing=[key])
    return with_maker_silent(limit, finding)


@for_a_burner
def fuel(study: "Study", limit: Limit) -> Finding:
    """Fuel that leaks near a hot part does not stay a leak."""
    key = "clearances.hot_to_fuel"
    told = stated(study.project, key)
    drawn = None if isinstance(study.placement, NotAssessed) else study.placement.hot_to_fuel
    known = [distance for distance in (told, drawn) if distance is not None]
    least = least_distance(*known) if len(known) > 1 else (known[0] if known else None)
    if stated(study.project, "clearances.fuel_screen"):
        return met(limit, "a metal screen stands between", key="clearances.fuel_screen")
    bound = limit.value or 0.0
    if least is None or (told is None and float(least) >= bound):
        # What is drawn holds only the parts that are drawn; nearness it shows, distance it does not prove.
        return not_assessed(limit, [key])
    finding = judge(limit, least, key=key)
    return with_maker_silent(limit, finding)


@for_a_burner
def stowage(study: "Study", limit: Limit) -> Finding:
    """A fender on a hot pipe smoulders for hours before anybody smells it."""
    if isinstance(study.placement, NotAssessed):
        return not_assessed(limit, ["layout.places", "layout.compartments"])
    hot = study.placement.hot.compartments
    if not hot:
        return not_assessed(limit, ["layout.compartments"], "in which compartments burner and exhaust lie")
    found = []
    for name in sorted(hot):
        keys = [f"layout.compartments.{name}.{key}" for key in ("stowage", "guard")]
        stowed, guarded = (stated(study.project, key) for key in keys)
        if guarded:
            found.append((name, met(limit, "guarded", key=keys[1])))
        elif stowed is False:
            found.append((name, not_applicable(limit, f"nothing is stowed in {name}")))
        elif stowed is None or guarded is None:
            found.append((name, not_assessed(limit, silent(study.project, keys))))
        else:
            found.append((name, not_met(limit, "stowage without guard", "the guard", key=keys[1])))
    return together(limit, found)


@for_a_burner
def battery(study: "Study", limit: Limit) -> Finding:
    """Battery gas explodes at a hot part, and fuel on a battery finds its sparks."""
    if isinstance(study.placement, NotAssessed) or not study.placement.of_kind("battery"):
        return not_assessed(limit, ["layout.places"], "where the battery stands is not drawn")
    hot, key = study.placement.hot, "layout.places"
    found = []
    if hot.over_battery:
        over = hot.over_battery[0]
        found.append(
            (over.above, not_met(limit, f"{over.above} over {over.below}", "a battery aside", key=key))
        )
    for pair in hot.fuel_and_battery:
        said = f"{pair.above} above {pair.below}"
        found.append((pair.above, not_met(limit, said, "one of them aside", key=key)))
    for line in hot.line_over_battery:
        said, line_key = "an insulated line may come nearer", "fuel.line.route"
        near = at_least(limit, line.height, limit.value or 0.0, "m", key=line_key, remark=said)
        found.append((f"fuel line over {line.below}", near))
    if found:
        return together(limit, found)
    return met(limit, "nothing hot over it, no fuel above or below, for the parts drawn", key=key)
