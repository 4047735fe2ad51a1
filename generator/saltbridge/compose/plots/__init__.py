"""Plots of a variant: each a small file that draws a figure from the numbers of the graph."""
