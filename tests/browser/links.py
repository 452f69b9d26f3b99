"""Walks a site in a folder: links, anchors, and what pages may not contain.

Nothing is fetched. Each page is read once; then every address in it must be a
file of the folder, every anchor an id of its page, and nothing may be loaded
from anywhere else.
"""
import html.parser
import pathlib
import posixpath
import sys
import urllib.parse

POLICY = ("default-src 'none'; script-src 'self'; style-src 'self'; "
          "img-src 'self' data:; connect-src 'self'; manifest-src 'self'; "
          "worker-src 'self'; base-uri 'none'; form-action 'none'")
LOADING = {("link", "href"), ("script", "src"), ("img", "src"),
           ("source", "src"), ("iframe", "src"), ("object", "data"),
           ("use", "href"), ("image", "href"), ("embed", "src"),
           ("video", "src"), ("audio", "src"), ("form", "action")}
ALLOWED = {"http", "https", "mailto"}


class Page(html.parser.HTMLParser):
    """The addresses, ids and faults of one page."""

    def __init__(self, text):
        super().__init__()
        self.addresses = []
        self.ids = set()
        self.faults = []
        self.policy = None
        self.feed(text)
        self.close()
        if self.policy != POLICY:
            self.faults.append("has another policy, or none")

    def handle_starttag(self, tag, attrs):
        names = dict(attrs)
        if names.get("http-equiv") == "Content-Security-Policy":
            self.policy = names.get("content")
        if names.get("http-equiv") == "refresh":
            target = names.get("content", "").partition("url=")[2]
            self.addresses.append(("a", "href", target, ""))
        if tag == "style" or (tag == "script" and "src" not in names):
            self.faults.append(f"has an inline <{tag}>")
        for name, value in attrs:
            if name == "style" or name.startswith("on"):
                self.faults.append(f"has {name}= in a <{tag}>")
            if name == "id":
                if value in self.ids:
                    self.faults.append(f"has id {value} twice")
                self.ids.add(value)
            if name in ("href", "src", "action", "data", "xlink:href"):
                self.addresses.append((tag, name, value or "",
                                       names.get("rel", "")))


def look_outside(tag, name, address, rel):
    """What is wrong with an address that leads out of the folder."""
    scheme = urllib.parse.urlsplit(address).scheme.lower()
    if scheme not in ALLOWED:
        return f"leads to {address!r}"
    if (tag, name) in LOADING:
        return f"loads {address!r}"
    if "noopener" not in rel:
        return f"links {address!r} without noopener"
    return None


def look_inside(pages, files, name, address):
    """What is wrong with an address within the folder."""
    path, _, place = address.partition("#")
    target = name if path == "" else posixpath.normpath(
        posixpath.join(posixpath.dirname(name), urllib.parse.unquote(path)))
    if target not in files:
        return f"leads to {address!r}, which is not there"
    if place and target in pages and \
            urllib.parse.unquote(place) not in pages[target].ids:
        return f"leads to {address!r}, a place that is not there"
    return None


# The other parts of a guide, which a site built alone leads to all the same.
OTHER_PARTS = {"handbook.pdf", "guide.db", "tables/datapackage.json"}


def walk(folder, alone=False):
    """Faults of the site in the folder, and what was looked at."""
    folder = pathlib.Path(folder)
    files = (OTHER_PARTS if alone else set()) | {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*") if path.is_file()}
    pages = {name: Page((folder / name).read_text(encoding="utf-8"))
             for name in sorted(files) if name.endswith(".html")}
    faults, links = [], 0
    for name, page in pages.items():
        found = list(page.faults)
        for tag, attribute, address, rel in page.addresses:
            links += 1
            parts = urllib.parse.urlsplit(address)
            outside = parts.scheme or parts.netloc
            found.append(look_outside(tag, attribute, address, rel)
                         if outside else
                         look_inside(pages, files, name, address))
        faults += [f"{name}: {fault}" for fault in found if fault]
    for name in sorted(files):
        if name.endswith((".css", ".js", ".svg")) and "look/" in name:
            text = (folder / name).read_text(encoding="utf-8")
            text = text.replace("http://www.w3.org/2000/svg", "")
            for mark in ("http:", "https:", "//cdn", "@import"):
                if mark in text:
                    faults.append(f"{name}: has {mark}")
    return faults, len(pages), links


if __name__ == "__main__":
    wrong, page_count, link_count = walk(sys.argv[1])
    for line in wrong[:50]:
        print(line)
    print(f"{page_count} pages, {link_count} links, {len(wrong)} faults")
    sys.exit(1 if wrong else 0)
