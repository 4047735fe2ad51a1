"""Redox titration."""
