"""Standard potentials compared."""
