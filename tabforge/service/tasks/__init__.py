"""The work of the service: each task is a pure function from a job to an answer.

It runs in a process of its own, so both can be pickled.
"""
