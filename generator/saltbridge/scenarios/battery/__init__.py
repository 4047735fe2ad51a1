"""Batteries, cells under load and fuel cells."""
