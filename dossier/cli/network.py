"""``dossier network``: the circuit as an EPANET input file."""

from typing import Any

from dossier.cli.files import FILE, assessed, new_command, put
from dossier.cli.status import DONE

HELP = """
Write the circuit of one mode as an input file of EPANET 2.2, so that another
program can find the flows: every pipe, valve, unit and pump as a link that
bears its tag. EPANET knows one liquid at one temperature; flows agree to about
a hundredth where the temperatures round the ring do not differ much.

examples:
  dossier network boat.yaml -o circuit.inp
  dossier network boat.yaml --mode "tap water only" -o tap.inp

exit status: 0 done; 2 a fault, told in words
"""


def add(commands: Any) -> None:
    """Declare the command."""
    command = new_command(commands, "network", "write the circuit as an EPANET input file", HELP)
    command.add_argument("file", **FILE)
    command.add_argument("--mode", metavar="MODE", default="heating", help="mode of use (heating)")
    command.add_argument("-o", "--out", metavar="OUT", help="file to write to (print it)")
    command.set_defaults(run=run)


def run(asked: Any) -> int:
    """Print or write the input file."""
    from dossier.sizing.epanet_input import epanet_input

    assessment = assessed(asked.file)
    vessel, document = assessment.project.vessel, assessment.project.document
    names = (vessel.name if vessel else "", document.number if document else "", "heating circuit")
    put(epanet_input(assessment.study, asked.mode, title=", ".join(filter(None, names))), asked.out)
    return DONE
