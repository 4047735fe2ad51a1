"""Corrosion and protection."""
