"""Name to function: each reader turns a source into a document and its origins."""
