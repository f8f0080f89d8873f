"""Pure formulas of the trade on SI numbers or arrays, each with its source."""
