"""Electrodes, lines of potentials and cells whose concentrations move."""
