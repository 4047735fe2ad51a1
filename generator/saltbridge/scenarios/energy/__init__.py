"""Energy of a cell, equilibrium and constants from potentials."""
