"""From the written score to what is heard: every sound with its time, repeats played out. MIDI and practice tracks start here."""
