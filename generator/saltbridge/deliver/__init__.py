"""Delivering: folders, files and papers, written so that nothing is ever lost."""
