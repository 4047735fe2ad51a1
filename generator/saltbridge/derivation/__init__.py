"""The derivation: relations as data, a planner that searches them, and the graph that answers, workings and slips come from."""
