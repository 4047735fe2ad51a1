"""Species, equations, half-reactions and cells: chemistry that knows nothing of questions."""
