"""Readings of the bench and of meters."""
