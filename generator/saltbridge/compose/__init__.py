"""Composing: a template and its solved graph become a document; the only room that knows both sides."""
