"""Strict YAML with lines, fields and value types, prose with holes, conditions, and their messages."""
