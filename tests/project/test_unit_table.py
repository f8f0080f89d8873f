"""The table of units holds what pint reads of the list."""

from dossier.project.unit_table import TABLE, unit_table


def test_table_is_what_pint_reads_of_the_list():
    assert TABLE.read_text(encoding="utf-8") == unit_table()
