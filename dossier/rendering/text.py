"""Text with markup: the only way to set a word strong, low, high, linked, or to put a sign in a line.

A plain ``str`` is always text, never markup: what a user writes cannot become a tag. Markup is a tuple of
runs, made by the functions below or read from a template (see ``tags``).
"""

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum
from html import escape
from typing import TypeAlias


class Face(str, Enum):
    """Weight and slope of a run."""

    REGULAR = "regular"
    STRONG = "strong"
    HEAVY = "heavy"
    ITALIC = "italic"


class Refers(str, Enum):
    """What a reference prints about the place it leads to."""

    FULL = "full"
    """``section 6.7, page 17``"""
    NAME = "name"
    """``Table 14``, ``section 6.7``"""
    PAGE = "page"
    """``17``"""


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of text in one face.

    ``rise`` is 1 for a superscript and -1 for a subscript. ``own`` marks our own words, in which a character
    that the font lacks is a fault; in any other text it is shown by its code. ``link`` is the key of the
    place the run leads to, ``refers`` makes the renderer write what stands there, ``target`` makes the run
    such a place. ``sign`` is a small drawing in the line: ``status met``, ``severity danger``, ``boxed W``,
    ``pattern dots``, ``dot 1`` (a number on a black dot), ``tick``, ``line``, ``blank`` (a box to write in),
    or ``break``, the end of the line.
    """

    text: str
    face: Face = Face.REGULAR
    rise: int = 0
    own: bool = False
    link: str = ""
    refers: Refers | None = None
    target: str = ""
    sign: str = ""

    def saying(self, words: str) -> "Run":
        """The same with other words; ``replace`` takes five times as long, and every text asks for this."""
        return Run(words, self.face, self.rise, self.own, self.link, self.refers, self.target, self.sign)

    def set_in(self, face: Face) -> "Run":
        """The same in another face."""
        return Run(self.text, face, self.rise, self.own, self.link, self.refers, self.target, self.sign)

    def owned(self) -> "Run":
        """The same as our own words."""
        if self.own:
            return self
        link, refers, target, sign = self.link, self.refers, self.target, self.sign
        return Run(
            self.text, self.face, self.rise, own=True, link=link, refers=refers, target=target, sign=sign
        )


@dataclass(frozen=True, slots=True)
class Markup:
    """Runs of text, in order. ``str()`` gives the bare text, ``+`` joins."""

    runs: tuple[Run, ...] = ()

    def __str__(self) -> str:
        return "".join(run.text for run in self.runs)

    def __bool__(self) -> bool:
        return any(run.text or run.sign or run.refers for run in self.runs)

    def __add__(self, other: "Text") -> "Markup":
        return Markup(self.runs + text(other).runs)

    def __radd__(self, other: str) -> "Markup":
        return Markup(text(other).runs + self.runs)

    def __html__(self) -> str:
        """The same text in the tags of a template, so that markup given to a template stays markup."""
        return "".join(map(_tagged, self.runs))


_TAGS = {Face.STRONG: "b", Face.ITALIC: "i", Face.HEAVY: "heavy"}


def _tagged(run: Run) -> str:
    """One run in the tags that ``tags.parsed`` reads."""
    if run.refers is not None:
        inner = f'<ref key="{escape(run.link)}" as="{run.refers.value}"></ref>'
    elif run.sign:
        inner = f'<sign is="{escape(run.sign)}"></sign>'
        inner = inner if run.own else f"<given>{inner}</given>"
    else:
        inner = escape(run.text) if run.own else f"<given>{escape(run.text)}</given>"
        if run.link:
            inner = f'<a href="#{escape(run.link)}">{inner}</a>'
    if run.target:
        inner = f'<place key="{escape(run.target)}">{inner}</place>'
    if run.rise:
        tag = "sub" if run.rise < 0 else "sup"
        inner = f"<{tag}>{inner}</{tag}>"
    tag = _TAGS.get(run.face, "")
    return f"<{tag}>{inner}</{tag}>" if tag else inner


Text: TypeAlias = str | Markup
"""What a block takes wherever people read words."""


def text(*parts: Text) -> Markup:
    """Join plain strings and markup.

    >>> str(text("U of the wall ", strong("1.08")))
    'U of the wall 1.08'
    """
    runs: list[Run] = []
    for part in parts:
        if isinstance(part, Markup):
            runs.extend(part.runs)
        elif part:
            runs.append(Run(part))
    return Markup(tuple(runs))


def capital(words: Text) -> Text:
    """Words with a capital at their beginning.

    >>> str(capital("route of the exhaust"))
    'Route of the exhaust'
    """
    if isinstance(words, str):
        return words[:1].upper() + words[1:]
    first = next((n for n, run in enumerate(words.runs) if run.text), None)
    if first is None:
        return words
    run = words.runs[first]
    opened = run.saying(run.text[:1].upper() + run.text[1:])
    return Markup((*words.runs[:first], opened, *words.runs[first + 1 :]))


def _each(parts: tuple[Text, ...], change: Callable[[Run], Run]) -> Markup:
    return Markup(tuple(change(run) for run in text(*parts).runs))


def strong(*parts: Text) -> Markup:
    """Set semibold."""
    return _each(parts, lambda run: run.set_in(Face.STRONG))


def heavy(*parts: Text) -> Markup:
    """Set bold, for white words on black."""
    return _each(parts, lambda run: run.set_in(Face.HEAVY))


def italic(*parts: Text) -> Markup:
    """Set italic."""
    return _each(parts, lambda run: run.set_in(Face.ITALIC))


def sub(*parts: Text) -> Markup:
    """Set as a subscript."""
    return _each(parts, lambda run: replace(run, rise=-1))


def sup(*parts: Text) -> Markup:
    """Set as a superscript."""
    return _each(parts, lambda run: replace(run, rise=1))


def own(*parts: Text) -> Markup:
    """Mark as our own words: a character the font lacks is then a fault and not shown by its code."""
    return _each(parts, Run.owned)


def link(key: str, *parts: Text) -> Markup:
    """Lead to the place of a key; on paper the words stand alone."""
    return _each(parts, lambda run: replace(run, link=key))


def target(key: str, *parts: Text) -> Markup:
    """Make the text the place of a key, so that references lead to it."""
    runs = text(*parts).runs or (Run(""),)
    return Markup((replace(runs[0], target=key), *runs[1:]))


def reference(key: str, refers: Refers = Refers.FULL) -> Markup:
    """Write where the place of a key stands: ``section 6.7, page 17``."""
    return Markup((Run("", link=key, refers=refers, own=True),))


def page_of(key: str) -> Markup:
    """Write the page of a key, as for the column "sheet"."""
    return reference(key, Refers.PAGE)


def name_of(key: str) -> Markup:
    """Write the name of a key: ``Table 14``, ``section 6.7``."""
    return reference(key, Refers.NAME)


def status_mark(status: str) -> Markup:
    """The drawn mark of a result (``met``, ``not met``, …), without its word."""
    return Markup((Run("", sign=f"status {str.__str__(status)}"),))


def severity_blocks(severity: str) -> Markup:
    """The drawn blocks of a grade (``danger``, ``fault``, ``attention``), without its word."""
    return Markup((Run("", sign=f"severity {str.__str__(severity)}"),))


def boxed(letter: str) -> Markup:
    """A letter in a small box, such as the W of the worst branch."""
    return Markup((Run(letter, face=Face.STRONG, sign=f"boxed {letter}"),))


def dotted(number: str) -> Markup:
    """A number on a black dot, as a place bears on the plan of the emergency card."""
    return Markup((Run(number, face=Face.HEAVY, sign=f"dot {number}"),))


def pattern_box(pattern: str) -> Markup:
    """A small field filled with a pattern of ``patterns``, as a table's key to a figure of bars."""
    return Markup((Run("", sign=f"pattern {str.__str__(pattern)}"),))


def tick_box() -> Markup:
    """An empty box to tick, in a line."""
    return Markup((Run("", sign="tick"),))


def writing_line() -> Markup:
    """A rule from here to the end of the line, to write on."""
    return Markup((Run("", sign="line"),))


def blank() -> Markup:
    """A small box in the line, to write a few letters in."""
    return Markup((Run("", sign="blank"),))


def line_break() -> Markup:
    """The end of the line; what follows starts a new one."""
    return Markup((Run("", sign="break"),))


_SUBSCRIPTS = str.maketrans("₀₁₂₃₄₅₆₇₈₉₊₋", "0123456789+−")
_LETTERS = r"[^\W_⁰¹²³⁴⁵⁶⁷⁸⁹]+"
_INDEX = re.compile(
    rf"_(?:\{{([^{{}}]*)\}}|({_LETTERS}(?:,{_LETTERS})*))"
    r"|\^(?:\{([^{}]*)\}|\(([^()_^]*)\)|([−+-]?\w+(?:\.\d+)?))"
)
_POWER_OF_E = re.compile(r"(?<![\w_])e\^\(")


def formula_text(formula: str) -> Markup:
    """Typeset a formula as it stands in the program: ``θ_i`` and ``R_si`` get indices, ``x^2`` a power.

    A power of e that holds more than one sign is written ``exp(…)``.

    >>> [(run.text, run.rise) for run in formula_text("Φ_T = U · A").runs]
    [('Φ', 0), ('T', -1), (' = U · A', 0)]
    """
    runs: list[Run] = []
    place = 0
    formula = _POWER_OF_E.sub("exp(", formula)
    for found in _INDEX.finditer(formula):
        if found.start() > place:
            runs.append(Run(formula[place : found.start()]))
        low = found[1] if found[1] is not None else found[2]
        high = next((part for part in found.groups()[2:] if part is not None), "")
        runs.append(Run(low, rise=-1) if low is not None else Run(high.replace("-", "−"), rise=1))
        place = found.end()
    if place < len(formula):
        runs.append(Run(formula[place:]))
    return Markup(tuple(run.owned() for run in runs))
