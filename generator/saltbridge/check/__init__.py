"""The independent route: plain formulas written apart from the derivations, so that two hands agree on every number."""
