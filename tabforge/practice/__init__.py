"""Practice plans: how to work through a study, day by day, tempo by tempo, key by key."""
