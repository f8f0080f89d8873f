"""What the document is: its number, issue, people, rules; and the basis that holds for the file."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from dossier.notation import Basis
from dossier.project.model.entry import Entry, No
from dossier.project.model.values import Date

Status = Literal["draft", "for construction", "as built", "superseded"]
Reader = Literal["survey", "aboard", "yard"]


class Revision(Entry):
    """One issue of the document."""

    name_field: ClassVar[str] = "mark"
    example: ClassVar[str] = "{mark: A, date: 2026-09-02, by: The owner, what: First issue}"

    mark: Annotated[str | None, Field(description="Mark of the issue, as A, B, C")] = None
    date: Annotated[Date | None, Field(description="Date of the issue")] = None
    by: Annotated[str | None, Field(description="Who issued it")] = None
    what: Annotated[str | None, Field(description="What was changed")] = None


class Emergency(Entry):
    """Whom to call and where to gather; printed on the emergency card."""

    example: ClassVar[str] = '{channel: VHF 16, call_name: Marsh Heron, number: "112", muster: aft deck}'

    channel: Annotated[str | None, Field(description="Radio channel for a distress call")] = None
    call_name: Annotated[str | None, Field(description="Call name or call sign of the boat")] = None
    number: Annotated[str | None, Field(description="Emergency telephone number")] = None
    muster: Annotated[str | None, Field(description="Where everybody gathers")] = None


class Document(Entry):
    """The document's identification."""

    example: ClassVar[str] = (
        "{title: Heating installation dossier, number: MH-1, revision: A, date: 2026-11-20}"
    )

    title: Annotated[str | None, Field(description="Title of the document")] = None
    number: Annotated[str | None, Field(description="Number of the document, kept through all revisions")] = (
        None
    )
    revision: Annotated[str | None, Field(description="Mark of this revision")] = None
    date: Annotated[Date | None, Field(description="Date of this revision; the clock is never read")] = None
    language: Annotated[
        str | None, Field(description="Language of the pages: en (the default), or de for the aboard edition")
    ] = None
    prepared_by: Annotated[str | None, Field(description="Who made it")] = None
    approved_by: Annotated[str | None, Field(description='Who approved it; "" as long as nobody has')] = None
    addressed_to: Annotated[
        tuple[Reader, ...] | None, Field(description="Whom it is written for: survey, aboard, yard")
    ] = None
    status_wished: Annotated[
        Status | None, Field(description="Status wished for; the one printed is what the data allow")
    ] = None
    place: Annotated[str | None, Field(description="Where the document was made")] = None
    next_review: Annotated[Date | None, Field(description="When it is to be looked through again")] = None
    emergency: Annotated[Emergency | None, Field(description="Whom to call, for the emergency card")] = None
    revisions: Annotated[
        tuple[Revision, ...] | None, Field(description="All issues up to this one, in order")
    ] = None
    local_rules: Annotated[
        tuple[str, ...] | No | None,
        Field(description="Rules of flag, insurer, harbour; printed among the cautions"),
    ] = None


class Defaults(Entry):
    """What holds for the whole file unless a value says otherwise."""

    example: ClassVar[str] = "{basis: drawing}"

    basis: Annotated[Basis | None, Field(description="Basis of all values that state none")] = None
