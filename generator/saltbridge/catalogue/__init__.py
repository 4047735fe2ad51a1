"""Quantities, relations, slips and ideas: readers of the shipped data and of a bank's own."""
