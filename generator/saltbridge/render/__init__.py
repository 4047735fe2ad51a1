"""Writers: one file an output; they see only the document and the words."""
