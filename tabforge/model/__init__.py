"""The score as plain, frozen data: time, pitch, tuning, techniques, events. Nothing here reads, writes or decides."""
