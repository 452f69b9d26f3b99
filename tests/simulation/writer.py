"""Writes records as the YAML that the corpus is written in.

Flow mappings on as few lines as fit in 80 columns, and block mappings for what
is rich. Values are texts, lists and mappings; nothing else is needed here.
"""

WIDTH = 80
SPECIAL = set("-?:,[]{}#&*!|>'\"%@`")


def quote(value, risky):
    """The value as a scalar, in quotes if it has one of the risky characters."""
    text = str(value)
    plain = (
        text
        and text[0] not in SPECIAL
        and text == text.strip()
        and not any(c in text for c in risky)
        and ": " not in text
        and " #" not in text
        and not text.endswith(":")
    )
    if plain:
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def flow(value):
    if isinstance(value, dict):
        parts = [f"{key}: {flow(item)}" for key, item in value.items()]
        return "{" + ", ".join(parts) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(item) for item in value) + "]"
    return quote(value, ',[]{}"?|#:')


def pieces_of(text, depth):
    """The flow text cut after its commas, those within `depth` brackets."""
    pieces, piece, quoted, level = [], "", False, 0
    for char in text:
        piece += char
        if char == '"':
            quoted = not quoted
        if quoted:
            continue
        level += (char in "[{") - (char in "]}")
        if char == " " and piece.endswith(", ") and level <= depth:
            pieces.append(piece)
            piece = ""
    return pieces + [piece]


def break_lines(head, text, indent):
    """The head and the flow text, broken after commas, outer ones first."""
    pieces = []
    for piece in pieces_of(text, 1):
        whole = len(piece.rstrip()) + indent <= WIDTH
        pieces += [piece] if whole else pieces_of(piece, 9)
    lines, line = [], head
    for at, piece in enumerate(pieces):
        if at and len(line) + len(piece.rstrip()) > WIDTH:
            lines.append(line.rstrip())
            line = " " * indent
        line += piece
    return lines + [line.rstrip()]


def compact(record):
    """A record as one flow mapping of a list."""
    return break_lines("- ", flow(record), 3)


def block(record):
    """A record as a block mapping of a list, its lists in flow style."""
    lines = []
    for key, value in record.items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            lines.append(f"  {key}:")
            for item in value:
                lines += break_lines("    - ", flow(item), 7)
        elif isinstance(value, str):
            lines.append(f"  {key}: {quote(value, '')}")
        else:
            lines += break_lines(f"  {key}: ", flow(value), 4)
    return ["- " + lines[0][2:]] + lines[1:]


def document(comment, records, style):
    lines = ["# " + line for line in comment]
    for record in records:
        lines += style(record)
    return "\n".join(lines) + "\n"
