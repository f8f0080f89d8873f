"""Drawings made of our own shapes, in exact millimetres."""
