"""Holds results against limits, one module for each group of the catalogue."""
