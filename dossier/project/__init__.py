"""Reads the project file: text, figures with units, model, references, faults.

A tour: ``source_file`` (bytes to clean text, nothing outside the folder), ``syntax`` (text to ``nodes`` that
keep their place), ``overlay`` (included files, alternatives), ``short_forms`` (written out before they are
read), ``figures``, ``units`` and ``quantities`` (numbers as people write them), ``fields`` (how each key of
the ``model`` is read), ``reader`` with ``entries``, ``lists``, ``scalars``, ``ring``, ``csv_table``,
``weather`` and ``places`` (the walk), ``references`` (names and what the parts say against each other),
``load`` (all of it in order), ``project`` (what comes out).
"""

from dossier.project.load import load
from dossier.project.model import NONE
from dossier.project.project import Project
from dossier.project.source_file import SourceFile

__all__ = ["NONE", "Project", "SourceFile", "load"]
