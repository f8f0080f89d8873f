"""Where in the text of a project file a key stands, or a new one belongs."""

import yaml

from dossier.notation import Line
from dossier.project.editing import CannotEdit, FileText, pairs_of
from dossier.project.project import Project

VALUE, TABLE = "is", "from"


def own_line(project: Project, key: str) -> Line:
    """Where a key stands. Raises CannotEdit for one of another file."""
    line = project.where(key)
    if line.file not in {"", project.files[0].name}:
        raise CannotEdit(f"it stands in {line.file}, line {line.line}: enter it there")
    return line


def value_of(text: FileText, line: Line, key: str) -> yaml.Node:
    """All that stands behind a key. Raises CannotEdit where that is a table of its own."""
    name, place = key.rpartition(".")[2], (line.line or 1, line.column or 1)
    found = text.behind(*place, name) or text.at(*place, name, mapping=False)
    keys = {said for said, _ in pairs_of(found)} if isinstance(found, yaml.MappingNode) else set()
    if found is None or TABLE in keys:
        raise CannotEdit("the file has it in a table of its own: enter it there")
    return found


def standing_value(text: FileText, line: Line, key: str) -> tuple[yaml.Node, yaml.Node]:
    """The value of a key that the file has, and the same with its basis and note. Raises CannotEdit."""
    name, place = key.rpartition(".")[2], (line.line or 1, line.column or 1)
    node = text.at(*place, name, mapping=False)
    if node is not None:
        return node, text.long_form_of(node)
    whole = text.at(*place, name, mapping=True)
    for said, inner in pairs_of(whole) if whole is not None else ():
        if said == VALUE and whole is not None:
            return inner, whole
    raise CannotEdit("the file says it with more than one value: change it by hand")


def check_replaceable(text: FileText, whole: yaml.Node, told: str, node: yaml.Node) -> None:
    """Refuse what a change would tear: values on several lines, short forms that say more than this key."""
    text.replaced(whole, "")
    written = str(node.value) if isinstance(node, yaml.ScalarNode) else ""
    if written and " ".join(written.split()) != " ".join(told.split()):
        raise CannotEdit(f"it comes from the short form '{written[:40]}': change that by hand")


def place_for(project: Project, text: FileText, key: str) -> tuple[yaml.MappingNode, tuple[str, ...]]:
    """The innermost mapping of the file round a key that is not there, and the keys to write into it."""
    parts = key.split(".")
    for cut in range(len(parts) - 1, 0, -1):
        outer = ".".join(parts[:cut])
        line = project.where(outer)
        if line.key != outer or not line.line:
            continue
        node = text.at(line.line, line.column or 1, parts[cut - 1], mapping=True)
        if isinstance(node, yaml.MappingNode):
            return node, tuple(parts[cut:])
        if line.text:
            raise CannotEdit(f"the file says {outer}: {line.text}")
        raise CannotEdit(f"{outer} is a list in the file: enter it there")
    return text.root, tuple(parts)
