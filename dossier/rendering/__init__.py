"""Sets the dossier: sections, tables, drawings and forms on pages."""
