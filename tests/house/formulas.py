"""All formulas of the package, found where they are declared."""

import importlib
import pkgutil

import dossier
from dossier.notation import Formula


def modules():
    """Every module below sizing, checking and physics."""
    for name in ("physics", "sizing", "checking"):
        package = importlib.import_module(f"dossier.{name}")
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            yield importlib.import_module(found.name)


def all_formulas():
    """Formulas by module and name, each once, where it was made."""
    found = {}
    for module in modules():
        for name, thing in vars(module).items():
            if isinstance(thing, Formula) and thing.function.__module__ == module.__name__:
                found[f"{module.__name__.removeprefix(dossier.__name__ + '.')}.{name}"] = thing
    return found
