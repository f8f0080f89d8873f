"""The commands. Each has a module here that parses, calls and prints; the work is done in the layers below.

Read in this order: ``parser`` (which commands there are), ``files`` (what they share), then any command.
Exit status: 0 done; 1 at least one check is not met (``check`` alone); 2 a fault that the message explains.
"""

import gc
import os
import sys
from collections.abc import Sequence

from dossier.cli.status import DONE, FAULT
from dossier.cli.streams import prepare
from dossier.notation import DossierError

SELDOM = 2_000_000
"""Objects made between two looks for garbage: a command lives for seconds, and what it makes it keeps."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status."""
    from dossier.cli.parser import FIRST_STEPS, parser

    prepare(sys.stdout, sys.stderr)
    gc.set_threshold(SELDOM)
    asked = parser().parse_args(arguments)
    if asked.command is None:
        print(FIRST_STEPS)
        return DONE
    try:
        status = int(asked.run(asked))
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader of a pipe has had enough; nothing more may be written, not even at the interpreter's end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except (DossierError, KeyboardInterrupt, OSError) as fault:
        print(_told(fault), file=sys.stderr)
        return FAULT
    return status


def _told(fault: BaseException) -> str:
    """What went wrong, for people."""
    if isinstance(fault, OSError):
        return f"{fault.filename or 'dossier'}: {fault.strerror or fault}"
    return str(fault) or "stopped"
