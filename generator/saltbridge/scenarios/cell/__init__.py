"""Galvanic cells."""
