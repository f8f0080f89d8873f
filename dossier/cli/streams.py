"""Output that any terminal and pipe can take: a sign it lacks is spelled out, never dropped.

A minus sign that a terminal shows as a question mark makes a warm night of a cold one.
"""

import codecs
import unicodedata
from typing import Any

SPELLED = {
    "−": "-", "–": "-", "—": "-", "…": "...", "×": "x", "·": "*", "≤": "<=", "≥": ">=", "≈": "~", "→": "->",
    "Δ": "d", "Σ": "sum ", "√": "sqrt ", "∞": "inf", "°": "deg ", "Ω": "ohm", "ε": "epsilon", "η": "eta",
    "θ": "theta", "λ": "lambda", "μ": "mu", "µ": "u", "ν": "nu", "π": "pi", "ρ": "rho", "τ": "tau",
    "φ": "phi", "ϕ": "phi", "Φ": "Phi", "ζ": "zeta", "ξ": "xi", "α": "alpha", "β": "beta", "γ": "gamma",
    "δ": "delta", "κ": "kappa", "σ": "sigma", "ψ": "psi", "χ": "chi", "ω": "omega", "ß": "ss", "’": "'",
    "‘": "'", "“": '"', "”": '"', "„": '"', "✓": "yes", "✗": "no", "′": "'", "″": "''", "\u00a0": " ",
    "ø": "o", "Ø": "O", "æ": "ae", "Æ": "AE", "ð": "d", "þ": "th", "ł": "l", "Ł": "L", "₂": "2",
}  # fmt: skip


def spelled(letter: str) -> str:
    """A letter in ASCII: its spelling, its letter without marks, else a question mark.

    >>> spelled("−"), spelled("θ"), spelled("ü"), spelled("²")
    ('-', 'theta', 'u', '2')
    """
    if letter in SPELLED:
        return SPELLED[letter]
    plain = "".join(part for part in unicodedata.normalize("NFKD", letter) if part.isascii())
    return plain or "?"


def _spell(fault: UnicodeError) -> tuple[str, int]:
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    return "".join(map(spelled, fault.object[fault.start : fault.end])), fault.end


def prepare(*streams: Any) -> None:
    """Let streams spell out what their encoding lacks."""
    codecs.register_error("spelled", _spell)
    for stream in streams:
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="spelled")
