"""Writes records as the YAML that the corpus is written in.

Flow mappings on as few lines as fit in 80 columns, and block mappings for what
is rich. Values are texts, lists and mappings; nothing else is needed here.
"""

SPECIAL = set("-?:,[]{}#&*!|>'\"%@`")


def scalar(value):
    text = str(value)
    risky = (
        not text
        or text[0] in SPECIAL
        or text != text.strip()
        or any(c in text for c in ',[]{}"?|#:')
    )
    if not risky:
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def flow(value):
    if isinstance(value, dict):
        parts = [f"{key}: {flow(item)}" for key, item in value.items()]
        return "{" + ", ".join(parts) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(item) for item in value) + "]"
    return scalar(value)


def break_lines(head, text, indent):
    """The head and the flow text, broken after commas outside quotes."""
    pieces, piece, quoted = [], "", False
    for char in text:
        piece += char
        if char == '"':
            quoted = not quoted
        if char == " " and not quoted and piece.endswith(", "):
            pieces.append(piece)
            piece = ""
    pieces.append(piece)
    lines, line = [], head
    for piece in pieces:
        if len(line) + len(piece.rstrip()) > 80 and line.strip() not in ("", "-"):
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
        else:
            lines += break_lines(f"  {key}: ", flow(value), 4)
    return ["- " + lines[0][2:]] + lines[1:]


def document(comment, records, style):
    lines = ["# " + line for line in comment]
    for record in records:
        lines += style(record)
    return "\n".join(lines) + "\n"
