"""Electrolysis: one product, baths of a salt, coats, plants."""
