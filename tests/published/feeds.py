#!/usr/bin/env python3
"""Hold feed.xml and sitemap.xml of a published folder against schemas that others wrote.

    python3 feeds.py PUBLISHED NODE_MODULES

Feed: the RELAX NG schema of RFC 4287, appendix B, with its three Schematron rules by hand; identifiers each once. Sitemap: the XML Schema of the
protocol, from the npm package sitemap. By Jing, as the Nu HTML checker holds it, and by libxml2; each schema must refuse what is spoilt on purpose.
"""
import pathlib
import subprocess
import sys
import tempfile

from lxml import etree

ATOM = {"a": "http://www.w3.org/2005/Atom"}
SPOILT_FEED = [("<updated>", "<updated>on "), ("<id>", "<ident>x</ident><id>"), (' href="', ' hreflang="no tag" href="'), ("</author>", "</author><title>two</title>")]
SPOILT_MAP = [("<loc>", "<loc/><loc>"), ("</url>", "<priority>2</priority></url>"), ("</loc>", "</loc><lastmod>soon</lastmod>")]


COMPACT = pathlib.Path(__file__).parent.parent / "reference" / "atom" / "atom.rnc"
JING = "nu.validator.vendor.thaiopensource.relaxng.util.Driver"


def faults_of(name, text, complaints, spoilt):
    """What the schema says of the text, and each spoilt copy that it lets through."""
    faults = [f"{name}: {complaint}" for complaint in complaints(text)][:5]
    for a, b in spoilt:
        copy = text.replace(a, b, 1)
        if copy == text or not complaints(copy):
            faults.append(f"{name}: the schema lets {b!r} through")
    return faults


def main():
    folder, packages = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    jing = ["java", "-cp", str(packages / "vnu-jar/build/dist/vnu.jar"), JING, "-c", str(COMPACT)]
    sitemap = etree.XMLSchema(etree.parse(str(packages / "sitemap/schema/sitemap.xsd")))

    def by_rfc(text):
        with tempfile.NamedTemporaryFile("w", encoding="utf-8", suffix=".xml") as file:
            file.write(text)
            file.flush()
            done = subprocess.run([*jing, file.name], stdout=subprocess.PIPE, text=True)
        return done.stdout.splitlines() or (["refused"] if done.returncode else [])

    def by_protocol(text):
        return [] if sitemap.validate(etree.fromstring(text.encode())) else [f"{e.message} (line {e.line})" for e in sitemap.error_log]

    text = (folder / "feed.xml").read_text(encoding="utf-8")
    faults = faults_of("feed.xml", text, by_rfc, SPOILT_FEED)
    feed = etree.fromstring(text.encode())
    entries = feed.findall("a:entry", ATOM)
    if feed.find("a:author", ATOM) is None:
        faults.append("feed.xml: neither the feed nor each entry has an author")
    faults += [f"feed.xml: entry {n} has no alternate link" for n, e in enumerate(entries) if not e.xpath("a:link[@rel='alternate']", namespaces=ATOM)]
    ids = feed.xpath("//a:id/text()", namespaces=ATOM)
    if len(set(ids)) != len(ids) or not entries:
        faults.append(f"feed.xml: {len(ids)} identifiers, {len(set(ids))} different")
    text = (folder / "sitemap.xml").read_text(encoding="utf-8")
    faults += faults_of("sitemap.xml", text, by_protocol, SPOILT_MAP)
    places = etree.fromstring(text.encode()).xpath("//*[local-name()='loc']/text()")
    # The protocol: at most 50,000 addresses and 50 MB, each once.
    if len(places) > 50_000 or len(set(places)) != len(places):
        faults.append(f"sitemap.xml: {len(places)} addresses, {len(set(places))} different")
    print("\n".join(faults) if faults else f"feed of {len(entries)} entries by RFC 4287, sitemap of {len(places)} addresses by its protocol")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
