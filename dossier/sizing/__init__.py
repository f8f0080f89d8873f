"""Calculations of the trade, each a frozen result."""
