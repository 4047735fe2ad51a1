"""The bank room: strict YAML with lines, the template model and its schema, prose with holes, the bank and its settings."""
