"""Instruments, necks, layouts and placement: where on the neck a pitch is played."""
