"""Reads the project file: text, numbers with units, model, references, faults."""
