"""Name to function: each writer turns a score into the text or bytes of one format."""
