"""Seeded random records, and an ugly way to write them.

A record's fields and types are those of schema/; its texts hold what YAML
quarrels about. The writer picks any style that reads back the same, and puts
comments wherever one may stand, noting where each was put.
"""
import re
import unicodedata

import yaml

PIECES = ["word", "two words", ": ", " #", "'", '"', "\\", "  ", "-", "- ",
          "?", "? ", "[a]", "{b}", ", ", ",", "é", "e\u0301", "卡片", "：",
          "%", "@", "`", "&", "*", "|", ">", "~", "null", "yes", "1e3",
          "0x1F", "---", "...", "=", "<<", "\u00a0", "12", "1983-05", "a:b",
          "#", "!", ";", "(c)", "🎏", " ", " and so on ", " of the card "]
RARE = ["\t", "\u2028", "\u2029"]


def load(text):
    return yaml.load(text, Loader=yaml.BaseLoader)


def schema(folder):
    """Kind → fields, and vocabularies, as the schema's files have them."""
    files = {path.stem: load(path.read_text())
             for path in sorted(folder.glob("*.yaml"))}
    words = {v["name"]: [w["word"] for w in v["words"]]
             for v in files.pop("vocabularies")}
    every = files.pop("every")["fields"]
    kinds = {name: kind["fields"] + every for name, kind in files.items()
             if kind["chapter"] != "private" and name != "essay"}
    return kinds, words


class Values:
    """Random values by the type of a field."""

    def __init__(self, rng, kinds, words):
        self.rng, self.kinds, self.words = rng, kinds, words

    def text(self, longest=12):
        rng = self.rng
        size = rng.choice([1, 1, 2, 3, 5, longest])
        pieces = [rng.choice(RARE if rng.random() < .01 else PIECES)
                  for _ in range(size)]
        text = "".join(pieces)
        return text if text.strip() else "word"

    def prose(self):
        rng = self.rng
        lines = []
        for _ in range(rng.choice([1, 1, 1, 2, 3, 6])):
            line = self.text(30)
            if rng.random() < .1:
                line = " " * rng.randint(1, 4) + line
            lines += [line] + [""] * rng.choice([0, 0, 0, 1, 2])
        text = "\n".join(lines).strip("\n") + "\n" * rng.choice(
            [0, 0, 1, 1, 1, 2, 3])
        text = re.sub(r"[!<]|\]\(|\]\[|\]:", "x", text)
        return text if text.strip() else "word"

    def ident(self):
        return "-".join(self.rng.choice(["jory", "marl", "a", "18b", "tide",
                                         "winder", "nine", "x", "yes", "12"])
                        for _ in range(self.rng.randint(1, 4)))

    def reference(self, field):
        if len(field["to"]) == 1 and field["to"] != ["any"]:
            return self.ident()
        kind = self.rng.choice(sorted(self.kinds)
                               if field["to"] == ["any"] else field["to"])
        return f"{kind}/{self.ident()}"

    def one(self, field, depth):
        rng, kind = self.rng, field["type"]
        if kind == "text":
            text = self.prose() if rng.random() < .05 else self.text()
            return text.replace("\n", " ")
        if kind == "prose":
            return self.prose()
        if kind == "whole":
            return str(rng.randint(int(field.get("least", 0)),
                                   int(field.get("most", 99))))
        if kind == "quantity":
            return f"{rng.randint(1, 99)} {field['units'][0]}"
        if kind == "date":
            return rng.choice(["1983", "1983-11", "1983-11-05"])
        if kind == "yesno":
            return rng.choice(["yes", "no"])
        if kind == "word":
            return rng.choice(self.words[field["vocabulary"]])
        if kind in ("country", "language", "currency"):
            return {"country": "NO", "language": "el",
                    "currency": "DEM"}[kind]
        if kind == "barcode":
            return "036000291452"
        if kind == "translation":
            tags = rng.sample(["en", "nl", "fr", "el", "de", "no"],
                              rng.randint(1, 4))
            return {tag: self.text() for tag in tags}
        if kind == "reference":
            return self.reference(field)
        if kind == "identity":
            return self.identity(field)
        return self.group(field["fields"], depth + 1)

    def identity(self, field):
        some = [self.reference(field) for _ in range(self.rng.randint(2, 3))]
        return self.rng.choice(["unknown", some[0], {"one_of": some},
                                {"not": some}])

    def value(self, field, depth):
        if field.get("many") != "yes":
            return self.one(field, depth)
        return [self.one(field, depth)
                for _ in range(self.rng.choice([1, 1, 2, 3, 12]))]

    def group(self, fields, depth):
        given = {}
        for field in self.rng.sample(fields, len(fields)):
            often = .5 if depth == 0 else .3
            if field.get("required") == "yes" or self.rng.random() < often:
                given[field["name"]] = self.value(field, depth)
        if not given:
            given[fields[0]["name"]] = self.value(fields[0], depth)
        return given

    def record(self, kind, ident):
        record = list(self.group(self.kinds[kind], 0).items())
        record.insert(self.rng.randint(0, len(record)), ("id", ident))
        return dict(record)


class Scalars:
    """Ways to write a text, checked one by one."""

    def __init__(self, rng):
        self.rng = rng

    def broken(self, text, indent, extra=""):
        """Some single blanks turned into line breaks."""
        return re.sub(
            r"(?<=[^\s]) (?=[^\s])",
            lambda _: "\n" + " " * (indent + self.rng.randint(1, 4)) + extra
            if self.rng.random() < .3 else " ", text)

    def plain(self, text, indent):
        return self.broken(text, indent)

    def single(self, text, indent):
        return "'" + self.broken(text.replace("'", "''"), indent) + "'"

    def double(self, text, indent):
        rng, made = self.rng, ""
        for char in text:
            if char in '"\\':
                made += "\\" + char
            elif char in "\n\t\u2028\u2029" or rng.random() < .03:
                made += f"\\U{ord(char):08x}" if rng.random() < .5 or \
                    ord(char) > 0xFFFF else f"\\u{ord(char):04X}"
            else:
                made += char
        return '"' + self.broken(made, indent) + '"'

    def block(self, text, indent, remark):
        """A literal or folded block; lines of a folded one are broken."""
        folded = self.rng.random() < .5
        body = text.rstrip("\n")
        ends = len(text) - len(body)
        inner = indent + self.rng.randint(1, 4)
        mark = str(inner - indent) if body.startswith((" ", "\n")) or \
            self.rng.random() < .1 else ""
        lines = body.split("\n")
        if folded:
            body = "\n\n".join(lines)
            lines = self.broken(body, 0).split("\n")
            lines = [line if not line.startswith(" ") or
                     self.rng.random() < .02 else line.strip(" ")
                     for line in lines]
        chomp = {0: "-", 1: ""}.get(ends, "+")
        made = (">" if folded else "|") + mark + chomp + remark
        for line in lines:
            made += "\n" + (" " * inner + line if line else "")
        return made + "\n" * max(0, ends - 1)

    def write(self, text, indent, flow, remark=""):
        """The text in some style, and whether it is a block."""
        styles = [self.plain, self.plain, self.single, self.double]
        for _ in range(8):
            if not flow and self.rng.random() < .4:
                made = self.block(text, indent, remark)
                if self.reads(made, indent, text, flow):
                    return made, True
            made = self.rng.choice(styles)(text, indent)
            if self.reads(made, indent, text, flow):
                return made, False
        made = self.double(text, indent + 20)
        return made, False

    def reads(self, made, indent, text, flow):
        if "\u2028" in made or "\u2029" in made:
            return False
        # A dash alone in brackets is refused; PyYAML lets it be.
        if flow and made == "-":
            return False
        # PyYAML lets a block begin with a tab, libyaml does not.
        if made[0] in "|>" and re.match(r"\s*\t", text):
            return False
        pad = " " * indent
        try:
            if flow:
                return load(f"{pad}k: [{made}]\n") == {"k": [text]}
            return load(f"{pad}k: {made}\n{pad}l: x\n") == {
                "k": text, "l": "x"}
        except yaml.YAMLError:
            return False


class Writer:
    """Writes data as ugly YAML; `places` maps a comment to what it stands by.

    A place is (how, path): before or behind the thing at that path, or
    somewhere.
    """

    def __init__(self, rng, remarks=True):
        self.rng, self.scalars = rng, Scalars(rng)
        self.odds = .15 if remarks else 0
        self.places = {}

    def remark(self, how, path):
        name = f"#{self.rng.choice(['', ' ', '  '])}c{len(self.places)} é#"
        self.places[name] = (how, path)
        return name

    def maybe(self, odds=1.0):
        return self.rng.random() < self.odds * odds

    def above(self, pad, path):
        """Lines above a thing: blank ones and comments."""
        made = ""
        while self.rng.random() < .1:
            made += self.rng.choice(["\n", "  \n"])
        while self.maybe():
            made += pad + self.remark("before", path) + \
                self.rng.choice(["", " ", "\t"]) + "\n"
            if self.rng.random() < .2:
                made += "\n"
        return made

    def behind(self, path):
        if not self.maybe():
            return ""
        return self.rng.choice([" ", "   ", " \t"]) + \
            self.remark("behind", path)

    def key(self, key):
        return self.rng.choice([key] * 6 + [f'"{key}"', f"'{key}'"]) + \
            self.rng.choice([":", ":", ":", " :"])

    def is_flow(self, value):
        return not value or self.rng.random() < .4

    def flow_gap(self, pad):
        """What may stand between two things in brackets."""
        if self.maybe(.5):
            return " " + self.remark("somewhere", None) + "\n" + pad + "  "
        return self.rng.choice(["", " ", " ", "\n" + pad + "  "])

    def flow(self, value, indent, path):
        pad = " " * indent
        if isinstance(value, str):
            return self.scalars.write(value, indent, True)[0]
        parts = []
        is_list = isinstance(value, list)
        for at, item in enumerate(value) if is_list else value.items():
            inner = self.flow(item, indent, path + (at,))
            head = "" if is_list else self.rng.choice([at, f'"{at}"']) + ": "
            parts.append(head + inner)
        made = ""
        for at, part in enumerate(parts):
            comma = ", " if at + 1 < len(parts) else \
                self.rng.choice(["", "", ","])
            made += self.flow_gap(pad) + part + self.rng.choice(
                ["", " "]) + comma
        made += self.flow_gap(pad)
        return ("[" if is_list else "{") + made + ("]" if is_list else "}")

    def value(self, value, indent, path, lead):
        """The rest of a line that ends with `lead`, and lines below."""
        pad = " " * indent
        if isinstance(value, str):
            remark = self.behind(path)
            made, block = self.scalars.write(value, indent, False, remark)
            if block:
                return " " + made + "\n"
            if lead == ":" and self.rng.random() < .1:
                gap = "\n" + pad + " "
                if self.maybe(2):
                    gap = " " + self.remark("behind", path) + gap
                return gap + made + remark + "\n"
            return " " + made + remark + "\n"
        if self.is_flow(value):
            return " " + self.flow(value, indent, path) + \
                self.behind(path) + "\n"
        if lead == "-" and isinstance(value, dict):
            return self.rng.choice([" ", "   "]), value
        return self.behind(path) + "\n" + self.block(
            value, indent + self.rng.choice([1, 2, 4]) if isinstance(
                value, dict) else indent + self.rng.choice([0, 2, 3]), path)

    def entry(self, key, value, indent, path):
        return self.key(key) + self.value(value, indent, path + (key,), ":")

    def mapping(self, value, indent, path, begun=False):
        pad, made = " " * indent, ""
        for at, (key, item) in enumerate(value.items()):
            if at or not begun:
                made += self.above(pad, path + (key,)) + pad
            made += self.entry(key, item, indent, path)
        if self.maybe(.5):
            made += pad + self.remark("somewhere", None) + "\n"
        return made

    def items(self, value, indent, path):
        pad, made = " " * indent, ""
        for at, item in enumerate(value):
            here = path + (at,)
            made += self.above(pad, here) + pad + "-"
            rest = self.value(item, indent, here, "-")
            if isinstance(rest, str):
                made += rest
                continue
            inner = indent + 1 + len(rest[0])
            if self.maybe(.5):
                made += " " + self.remark("before", here) + "\n" + \
                    " " * inner
            else:
                made += rest[0]
            made += self.mapping(item, inner, here, True)
        return made

    def block(self, value, indent, path):
        if isinstance(value, dict):
            return self.mapping(value, indent, path)
        return self.items(value, indent, path)

    def document(self, data):
        """The bytes of a file."""
        made = self.rng.choice(["", "", "---\n"])
        if self.maybe(2):
            made += self.remark("head", None) + "\n\n"
        made += self.block(data, 0, ())
        if made.endswith("\n") and self.maybe(2):
            made += "\n" * self.rng.randint(0, 2) + self.remark(
                "foot", None) + self.rng.choice(["", "\n", "\n\n\n"])
        text = made
        if self.rng.random() < .2:
            text = text.replace("\n", "\r\n")
        return (b"\xef\xbb\xbf" if self.rng.random() < .1 else b"") + \
            text.encode()


def columns(text):
    """Columns on a terminal."""
    return sum(0 if unicodedata.combining(c) else
               2 if unicodedata.east_asian_width(c) in "WF" else 1
               for c in text)
