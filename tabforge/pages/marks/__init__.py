"""The marks of playing techniques on TAB, a module for each family; ``table`` says which technique is drawn by which."""
