"""Validation against the W3C's MusicXML 4.0 schema, without the network.

The schema is the file that the package ``musicxml`` (PyPI) carries; it is found through the package's metadata, and none of its code runs.
That file imports two schemas of ``xml:`` and ``xlink:`` attributes from the standard's web address; two small ones of our own stand in for
them, written from the W3C's recommendations XML 1.0 and XLink 1.1.
"""

from __future__ import annotations

from functools import cache
from importlib.metadata import distribution
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

_XML = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="http://www.w3.org/XML/1998/namespace">
<xs:attribute name="lang" type="xs:language"/>
<xs:attribute name="space"><xs:simpleType><xs:restriction base="xs:NCName">
<xs:enumeration value="default"/><xs:enumeration value="preserve"/></xs:restriction></xs:simpleType></xs:attribute>
</xs:schema>"""

_XLINK = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="http://www.w3.org/1999/xlink">
<xs:attribute name="href" type="xs:anyURI"/>
<xs:attribute name="type" type="xs:string" fixed="simple"/>
<xs:attribute name="role" type="xs:token"/>
<xs:attribute name="title" type="xs:token"/>
<xs:attribute name="show"><xs:simpleType><xs:restriction base="xs:token"><xs:enumeration value="new"/>
<xs:enumeration value="replace"/><xs:enumeration value="embed"/><xs:enumeration value="other"/><xs:enumeration value="none"/>
</xs:restriction></xs:simpleType></xs:attribute>
<xs:attribute name="actuate"><xs:simpleType><xs:restriction base="xs:token"><xs:enumeration value="onRequest"/>
<xs:enumeration value="onLoad"/><xs:enumeration value="other"/><xs:enumeration value="none"/>
</xs:restriction></xs:simpleType></xs:attribute>
</xs:schema>"""


def schema_path() -> Path:
    """Where the schema file lies."""
    from pathlib import Path

    return Path(str(distribution("musicxml").locate_file("musicxml/generate_classes/musicxml_4_0.xsd")))


@cache
def schema() -> Any:
    """The compiled schema (an lxml XMLSchema)."""
    from lxml import etree

    class _Local(etree.Resolver):
        def resolve(self, url: str, public_id: str, context: Any) -> Any:
            if url.endswith("/xml.xsd"):
                return self.resolve_string(_XML, context)
            if url.endswith("/xlink.xsd"):
                return self.resolve_string(_XLINK, context)
            return None

    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(_Local())
    return etree.XMLSchema(etree.parse(str(schema_path()), parser))


def problems(document: bytes) -> list[str]:
    """What the standard's schema has to say against a document: a line for each error; none if it is valid."""
    from lxml import etree

    parser = etree.XMLParser(no_network=True, load_dtd=False, resolve_entities=False)
    try:
        tree = etree.fromstring(document, parser)
    except etree.XMLSyntaxError as error:
        return [str(error)]
    validator = schema()
    if validator.validate(tree):
        return []
    return [f"line {error.line}: {error.message}" for error in validator.error_log]
