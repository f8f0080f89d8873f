"""A boat for the year and its nights: a box of 100 W/K."""

from dossier.project import load

BOX = """
format: 1
document: {{number: T-1, revision: A, date: 2026-11-20}}
conditions: {{outside_air: -10 degC, sea: 2 degC, {conditions}}}
zones:
  - id: cabin
    target: 20 degC
    volume: 20 m3
    air_changes: 0 1/h
    sections:
      - {{name: Deck, u_value: 2 W/m2K, area: 50 m2, faces: air}}
      {more}
components:
  B1: {{kind: burner, output: {{{output}}}, efficiency: 80 %}}
{rest}
"""
UA = 100.0
"""Of the box (W/K): 2 W/m2K over 50 m2, no air changes."""


def box(folder, conditions, *, more="", output="max: 5 kW", rest=""):
    """A box that loses 100 W for each kelvin."""
    text = BOX.format(conditions=conditions, more=more, output=output, rest=rest)
    (folder / "boat.yaml").write_text(text, encoding="utf-8")
    return load(folder / "boat.yaml")
