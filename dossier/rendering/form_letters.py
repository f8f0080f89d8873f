"""Makes ``form-letters.ttf``, the font in which electronic forms are filled in, from the regular cut.

A form's font must hold every letter that may be typed, so it is kept to those of Windows-1252. The licence
reserves the name "Source" for unaltered files; the altered one is called Dossier Form. Run once, when the
regular cut changes: ``python -m dossier.rendering.form_letters``.
"""

from pathlib import Path

from fontTools.subset import Options, Subsetter  # type: ignore[import-untyped]  # has no types
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # has no types

FOLDER = Path(__file__).parent / "fonts"
NAME = "Dossier Form"


def make() -> None:
    """Write the font into the folder of fonts."""
    font = TTFont(FOLDER / "SourceSans3-Regular.ttf", recalcTimestamp=False)
    letters = {c for c in bytes(range(32, 256)).decode("cp1252", "ignore") if c.isprintable()} | {"\u00a0"}
    options = Options(
        layout_features=[], hinting=False, notdef_outline=True, name_IDs=[1, 2, 3, 4, 6, 13, 14]
    )
    subsetter = Subsetter(options)
    subsetter.populate(text="".join(sorted(letters)))
    subsetter.subset(font)
    names = {1: NAME, 2: "Regular", 3: NAME, 4: NAME, 6: NAME.replace(" ", "")}
    for record in font["name"].names:
        if record.nameID in names:
            record.string = names[record.nameID]
    font.save(FOLDER / "form-letters.ttf", reorderTables=True)


if __name__ == "__main__":
    make()
