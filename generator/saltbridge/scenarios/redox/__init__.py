"""Oxidation numbers, half-equations and redox equations."""
