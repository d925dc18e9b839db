"""Practice tracks: what is in the files is heard by measuring it."""
