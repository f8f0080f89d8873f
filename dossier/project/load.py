"""From a path to a project: files, overlays, short forms, sections, references; all faults in one go."""

from pathlib import Path

from dossier.notation import Basis, Fault, Line, ProjectFaults
from dossier.project.alternatives import at, default_basis, read_alternatives
from dossier.project.fault_places import with_places
from dossier.project.fields import keys_of
from dossier.project.model.file import ProjectFile
from dossier.project.nodes import List, Map, Text, in_layer, shortened, words
from dossier.project.overlay import merged
from dossier.project.project import Project
from dossier.project.record import KEY, MISSING, REFERENCE, UNREADABLE
from dossier.project.sections import Reading, read_sections
from dossier.project.source_file import LARGEST_PROJECT, Folder, SourceFile, clean_text, refusal, source_file
from dossier.project.syntax import compose

FORMAT = "1"
MOST_TOLD = 200


def load(path: str | Path) -> Project:
    """Read a project file with all it names.

    Raises ProjectFaults with every fault of the files, most important first.
    """
    path = Path(path)
    return load_content(source_file(path, path.name or str(path), LARGEST_PROJECT), path.parent)


def load_content(source: SourceFile, place: Path) -> Project:
    """Read a project whose file need not be on disk; what it names lies in ``place``. Raises as ``load``."""
    folder = Folder(place, [source])
    root, faults = _root(clean_text(source.content or b"", source.name), source.name)
    _check_format(root, faults)
    root, defaults = _with_includes(root, folder, faults)
    reading = read_sections(root, folder, defaults)
    faults += reading.faults
    alternatives = read_alternatives(root, folder, defaults, reading, faults)
    if faults:
        raise ProjectFaults(with_places(_first(faults), root))
    project = _project(reading, folder, root)
    for alternative, other in alternatives.items():
        project._alternatives[alternative] = _project(other, folder, root)  # noqa: SLF001 - load alone makes projects
    return project


def _first(faults: list[Fault]) -> list[Fault]:
    """The most important faults, and how many more there are."""
    ordered = ProjectFaults(dict.fromkeys(faults)).faults
    more = len(ordered) - MOST_TOLD
    if more <= 0:
        return list(ordered)
    return [*ordered[:MOST_TOLD], Fault(f"there are {more} more faults", "mend these first", ordered[0].file)]


def _root(text: str, name: str) -> tuple[Map, list[Fault]]:
    """Top mapping of a file."""
    root, faults = compose(text, name)
    if root is None or (isinstance(root, Text) and not root.text.strip()):
        raise refusal(name, "the file is empty", "begin it with format: 1")
    if not isinstance(root, Map):
        raise refusal(
            name,
            f"the file is {words(root)}, not a mapping of keys",
            "begin it with format: 1",
            root.spot.line,
        )
    return root, faults


def _check_format(root: Map, faults: list[Fault]) -> None:
    """A file says which format it is written in."""
    said = root.get("format")
    if said is None:
        faults.append(
            Fault("format is missing", "write format: 1 as the first line", root.spot.file, 1, 1, MISSING)
        )
    elif not isinstance(said, Text) or said.text.strip() != FORMAT:
        spot = said.spot
        newer = isinstance(said, Text) and said.text.strip().isdigit() and int(said.text.strip()[:9]) > 1
        what = f"format {shortened(words(said), 20)} is not known" + (
            " (it is newer than this program)" if newer else ""
        )
        instead = "use a newer version of the program" if newer else "write format: 1"
        faults.append(Fault(what, instead, spot.file, spot.line, spot.column, UNREADABLE))


def _with_includes(root: Map, folder: Folder, faults: list[Fault]) -> tuple[Map, dict[int, Basis]]:
    """The project laid over the files it includes, and the default basis of each layer."""
    defaults: dict[int, Basis] = {}
    own = default_basis(root)
    if own:
        defaults[0] = own
    named = root.get("include")
    base: Map | None = None
    for place, item in enumerate(named.items if isinstance(named, List) else [], 1):
        if not isinstance(item, Text):
            continue
        included = _included(item, folder, faults)
        if included is None:
            continue
        layer = -place
        defaults[layer] = default_basis(included) or Basis.ASSUMED
        included.pairs = {
            key: pair for key, pair in included.pairs.items() if key not in {"format", "defaults"}
        }
        laid = in_layer(included, layer)
        if isinstance(laid, Map):
            base = laid if base is None else merged(base, laid)
    return (merged(base, root) if base else root), defaults


def _included(item: Text, folder: Folder, faults: list[Fault]) -> Map | None:
    path = folder.path_of(item.text)
    if isinstance(path, str):
        faults.append(at(item, REFERENCE, f"'{shortened(item.text)}': {path}", "check the name of the file"))
        return None
    try:
        source = folder.read(item.text, LARGEST_PROJECT)
        root, more = _root(clean_text(source.content or b"", source.name), source.name)
    except ProjectFaults as error:
        faults.extend(error.faults)
        return None
    faults.extend(more)
    for key in ("include", "alternatives", "document"):
        if key in root.pairs:
            faults.append(
                at(
                    root.pairs[key].node,
                    KEY,
                    f"an included file has no {key}",
                    "write it in the project file",
                )
            )
            del root.pairs[key]
    return root


def _project(reading: Reading, folder: Folder, root: Map | None = None) -> Project:
    """A project out of sections that have no fault."""
    keys = keys_of(ProjectFile)
    values = {
        keys[name].attribute: section.content
        for name, section in reading.sections.items()
        if section.content is not None
    }
    project = Project.model_construct(None, format=1.0, **values)
    lines: dict[str, Line] = {}
    numbers: list[Line] = []
    for record in reading.records:
        lines.update(record.lines)
        numbers += record.numbers
    project._folder = folder.root  # noqa: SLF001 - load alone makes projects
    project._files = tuple(folder.files)  # noqa: SLF001
    project._lines = lines  # noqa: SLF001
    project._inputs = tuple(numbers)  # noqa: SLF001
    doubts = dict.fromkeys(sorted(reading.doubts, key=lambda d: (d.file, d.line, d.column)))
    project._warnings = tuple(with_places(doubts, root) if root is not None else doubts)  # noqa: SLF001
    return project
