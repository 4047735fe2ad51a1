"""Expression trees in the author's order: reading, rearranging, rounding; the only room that knows SymPy beside chemistry."""
