"""Writes records in the layout that `hangtab tidy` gives them.

The rules are those of schema/README.md, as far as the simulation's records
need them: texts of one line, lists and groups, in the order of the schema.
"""
import functools
import pathlib

import yaml

SCHEMA = pathlib.Path(__file__).resolve().parent.parent.parent / "schema"

WIDTH = 80
SPECIAL = set(",[]{}#&*!|>'\"%@`")


def is_plain(text, flow):
    """Whether the text can stand without quotes."""
    if not text or text[0] in SPECIAL or text != text.strip() or \
            text[0] in "-?:":
        return False
    if ": " in text or text.endswith(":") or " #" in text:
        return False
    return not (flow and any(c in text for c in ",[]{}?"))


def quote(value, flow):
    text = str(value)
    if is_plain(text, flow):
        return text
    if '"' in text or "\\" in text:
        return f"'{text}'"
    return f'"{text}"'


def can_flow(value):
    """Whether it may stand between brackets: what needs no quotes there."""
    if isinstance(value, dict):
        return all(can_flow(item) for item in value.values())
    if isinstance(value, list):
        return all(not isinstance(item, (list, dict)) and can_flow(item)
                   for item in value)
    return is_plain(str(value), True)


def flow(value):
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(item)}"
                               for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(item) for item in value) + "]"
    return quote(value, True)


def is_word_list(value):
    return isinstance(value, list) and value and all(
        not isinstance(item, (list, dict)) and " " not in str(item)
        and is_plain(str(item), True) for item in value)


def fill(head, pieces, indent):
    """The pieces one behind the other, in lines that fit."""
    lines, line = [], head
    for at, piece in enumerate(pieces):
        gap = " " if at else ""
        if at and len(line) + len(gap) + len(piece) > WIDTH:
            lines.append(line)
            line, gap = " " * indent, ""
        line += gap + piece
    return lines + [line]


def words(head, value, indent):
    pieces = [f"{item}," for item in value]
    return fill(f"{head} [", pieces[:-1] + [f"{value[-1]}]"], indent + 2)


def text(head, value, indent):
    line = f"{head} {quote(value, False)}"
    if len(line) <= WIDTH or " " not in str(value):
        return [line]
    return [f"{head} >-", *fill(" " * (indent + 2), str(value).split(" "),
                                indent + 2)]


def entry(head, value, indent):
    """The lines of a value behind `head`, at the indentation of its line."""
    if not isinstance(value, (list, dict)):
        return text(head, value, indent)
    if is_word_list(value):
        return words(head, value, indent)
    if can_flow(value) and len(head) + 1 + len(flow(value)) <= WIDTH:
        return [f"{head} {flow(value)}"]
    if isinstance(value, dict):
        return [head, *mapping(value, indent + 2)]
    return [head, *items(value, indent + 2)]


def mapping(value, indent):
    pad, lines = " " * indent, []
    for key, item in value.items():
        lines += entry(f"{pad}{key}:", item, indent)
    return lines


def items(value, indent):
    pad, lines = " " * indent, []
    braced = all(isinstance(item, dict) and can_flow(item)
                 and indent + 2 + len(flow(item)) <= WIDTH for item in value)
    for item in value:
        if braced:
            lines.append(f"{pad}- {flow(item)}")
        elif isinstance(item, dict):
            inner = mapping(item, indent + 2)
            lines += [f"{pad}- {inner[0].lstrip()}", *inner[1:]]
        else:
            lines += text(f"{pad}-", item, indent)
    return lines


@functools.cache
def fields_of(kind):
    """The names of a kind's fields, in order."""
    fields = []
    for name in (kind, "every"):
        text = (SCHEMA / f"{name}.yaml").read_text(encoding="utf-8")
        fields += yaml.load(text, Loader=yaml.BaseLoader)["fields"]
    return ["id"] + [field["name"] for field in fields]


def document(comment, kind, records):
    lines = ["# " + line for line in comment]
    order = fields_of(kind)
    for record in records:
        inner = mapping(dict(sorted(
            record.items(), key=lambda item: order.index(item[0]))), 2)
        lines += ["- " + inner[0].lstrip(), *inner[1:]]
    return "\n".join(lines) + "\n"
