"""What a calculation could not do, and which inputs it waits for."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NotAssessed:
    """A calculation that was not made: what it would have answered, and the keys of the file it needs."""

    question: str
    needs: tuple[str, ...]
    why: str = ""

    def __str__(self) -> str:
        needs = ", ".join(self.needs)
        return (
            f"{self.question}: not assessed"
            + (f"; needs {needs}" if needs else "")
            + (f" ({self.why})" if self.why else "")
        )
