"""The exporter as a service: an HTTP API and a live page, on this machine or one's own server. The extra ``service`` brings what serves.

- ``app`` puts an application together, ``server`` runs it; ``settings`` has what it may be told, and its limits.
- ``guards/`` is what a request must pass before anything looks at it; ``problems`` is how everything is refused (RFC 9457).
- ``inputs`` says what may be posted, ``bodies`` reads it; ``api/`` answers; ``describing`` tells all of it as OpenAPI.
- ``tasks/`` is the work itself: pure, from a study's bytes to an answer's. ``crew`` has it done in processes that can be ended,
  ``desk`` does nothing twice.
- ``folder`` reads the watched folder, ``watching`` notices changes, ``events`` tells the pages; ``logbook`` what is logged.

Nothing here is imported before a server is started.
"""
