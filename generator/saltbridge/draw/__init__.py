"""The draw room: values from hashes, who gets which, and what was rejected."""
