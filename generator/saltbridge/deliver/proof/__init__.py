"""The moderator's report: every template drawn many times and every variant checked, so that a bank can be signed."""
