"""The metals practical: the plan of a lesson, and what a class read."""
