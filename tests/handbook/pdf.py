"""A finished PDF as other programs see it: qpdf and poppler, nothing of ours.

Places are in points from the top left corner of a page; pages count from 0.
"""
import html
import json
import re
import subprocess

WORD = re.compile(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" '
                  r'xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>')


def run(*words):
    # Poppler writes a pair of surrogates for letters beyond U+FFFF.
    return subprocess.run(words, check=True, capture_output=True,
                          encoding="utf-8", errors="replace").stdout


class Word:
    def __init__(self, match):
        self.left, self.top, self.right, self.bottom = map(
            float, match.groups()[:4])
        self.text = html.unescape(match[5])


class Pdf:
    def __init__(self, path):
        self.path = str(path)
        self.tab = 20  # of the thumb index, from the very edge
        data = json.loads(run("qpdf", "--json", "--json-key=pages",
                              "--json-key=pagelabels", "--json-key=outlines",
                              "--json-key=qpdf", self.path))
        self.objects = {name[4:]: value.get("value",
                                            value.get("stream", {}))
                        for name, value in data["qpdf"][1].items()
                        if name != "trailer"}
        self.refs = [page["object"] for page in data["pages"]]
        self.index = {ref: i for i, ref in enumerate(self.refs)}
        self.outlines = data["outlines"]
        self.labels = self._labels(data["pagelabels"])
        self.dests = {}
        catalog = next(value for value in self.objects.values()
                       if isinstance(value, dict)
                       and value.get("/Type") == "/Catalog")
        names = self.resolve(catalog.get("/Names"))
        if names:
            self._dests(self.resolve(names["/Dests"]))
        self.words = []
        text = run("pdftotext", "-bbox", self.path, "-")
        for page in text.split("<page ")[1:]:
            self.words.append([Word(m) for m in WORD.finditer(page)])
        self.boxes = [tuple(map(float, m)) for m in re.findall(
            r'<page width="([\d.]+)" height="([\d.]+)">', text)]

    def resolve(self, value):
        while isinstance(value, str) and re.fullmatch(r"\d+ \d+ R", value):
            value = self.objects[value]
        return value

    def _labels(self, ranges):
        labels = []
        for i in range(len(self.refs)):
            best = max((r for r in ranges if r["index"] <= i),
                       key=lambda r: r["index"])
            label = best["label"]
            number = i - best["index"] + label.get("/St", 1)
            prefix = label.get("/P", "u:")[2:]
            style = label.get("/S")
            labels.append(prefix + (str(number) if style == "/D" else
                                    roman(number) if style == "/r" else ""))
        return labels

    def _dests(self, node):
        for kid in node.get("/Kids", []):
            self._dests(self.resolve(kid))
        names = node.get("/Names", [])
        for name, dest in zip(names[::2], names[1::2]):
            dest = self.resolve(dest)
            if isinstance(dest, dict):
                dest = self.resolve(dest["/D"])
            self.dests[name[2:]] = self.index[dest[0]]

    def links(self, i):
        """The links of a page: rectangle and target, a name or an address."""
        height = self.boxes[i][1]
        page = self.resolve(self.refs[i])
        for ref in self.resolve(page.get("/Annots", [])):
            note = self.resolve(ref)
            left, bottom, right, top = note["/Rect"]
            target = note.get("/Dest")
            if target is None:
                target = self.resolve(note["/A"]).get("/URI")
            yield (left, height - top, right, height - bottom), target[2:]

    def words_in(self, i, box):
        """Words of a page whose middle lies within a rectangle."""
        return [word for word in self.words[i]
                if box[0] <= (word.left + word.right) / 2 <= box[2]
                and box[1] <= (word.top + word.bottom) / 2 <= box[3]]

    def rows(self, i, leave=2.0):
        """Words of a page in rows from the top down, each from the left;
        without the thumb index at the very edge."""
        rows, edge = [], self.boxes[i][0] - self.tab
        inside = [w for w in self.words[i] if w.right > self.tab and w.left < edge]
        for word in sorted(inside, key=lambda w: w.bottom):
            if rows and abs(rows[-1][0].bottom - word.bottom) <= leave:
                rows[-1].append(word)
            else:
                rows.append([word])
        return [sorted(row, key=lambda w: w.left) for row in rows]

    def lines(self, i):
        """Texts of a page that stand in one row without a wide gap."""
        lines = []
        for row in self.rows(i):
            line = [row[0]]
            for word in row[1:]:
                if word.left - line[-1].right > 8:
                    lines.append(" ".join(w.text for w in line))
                    line = []
                line.append(word)
            lines.append(" ".join(w.text for w in line))
        return lines


def roman(number):
    text = ""
    for value, digits in ((100, "c"), (90, "xc"), (50, "l"), (40, "xl"),
                          (10, "x"), (9, "ix"), (5, "v"), (4, "iv"),
                          (1, "i")):
        text += digits * (number // value)
        number %= value
    return text


def contents(pdf, first, last):
    """Lines of the contents on pages `first` to `last`: title and label.

    A label is a number at the right of its line, away from the title; what
    stands before it on the line, up to the label before, is the title.
    """
    labels = set(pdf.labels)
    for i in range(first, last + 1):
        for row in pdf.rows(i, 3.0):
            title, before = [], None
            for word in row:
                far = before is None or word.left - before.right > 6
                if title and far and word.text in labels:
                    yield " ".join(title), word.text
                    title = []
                else:
                    title.append(word.text)
                before = word


def index_entries(pdf, first, last):
    """Entries of the index on pages `first` to `last`: heading, the labels of
    its references, and the heading it leads to. A line that begins further
    right than its column goes on with the entry before."""
    lines = []
    for i in range(first, last + 1):
        parts = []
        for row in pdf.rows(i)[1:-1]:	# without running head and folio
            parts.append([row[0]])
            for before, word in zip(row, row[1:]):
                if word.left - before.right > 8:
                    parts.append([])
                parts[-1].append(word)
        edges = []
        for left in sorted({round(part[0].left) for part in parts}):
            if not edges or left > edges[-1] + 60:
                edges.append(left)
        columns = {edge: [] for edge in edges}
        for part in parts:
            columns[max(edge for edge in edges
                        if edge <= part[0].left + 1)].append(part)
        for edge, column in columns.items():
            for part in column:
                text = " ".join(word.text for word in part)
                if part[0].left > edge + 3 and lines:
                    lines[-1] += " " + text
                else:
                    lines.append(text)
    number = r"(?:\d+|[ivxlc]+)"
    for line in lines:
        match = re.fullmatch(
            rf"(.*?)((?:, {number}(?:–{number})?)*)"
            r"(?:[;,] see (?:also )?(.*))?", line)
        yield (match[1], re.findall(rf"{number}(?:–{number})?", match[2]),
               match[3])


def linked_contents(pdf, first, last):
    """The same where titles may take several lines of a column: words that
    lead to one place belong together, and the last one is the label."""
    for i in range(first, last + 1):
        entries = {}
        for box, target in pdf.links(i):
            entries.setdefault(target, []).extend(pdf.words_in(i, box))
        for words in entries.values():
            words.sort(key=lambda w: (round(w.bottom / 3), w.left))
            if words:
                yield " ".join(w.text for w in words[:-1]), words[-1].text
