"""Practice tracks: plucked strings, a drone and a click as sound, tuned and in time."""
