"""An exam to a blueprint: which templates make it, and the pack for those who moderate it."""
