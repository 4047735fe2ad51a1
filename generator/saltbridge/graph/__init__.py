"""Laws, planner, graph, routes, slips and walk: one derivation from which all answers follow."""
