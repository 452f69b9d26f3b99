"""Population reports of the two services, from the certificates of the pieces.

A report also counts pieces that no list has seen, so that there are more
certificates than specimens with one. A piece that was graded twice counts twice.
"""

from chance import Chance
import pieces as piece_tools

REPORTS = [
    ("tamblyn-coyle", "2018-12-31", "tamblyn-report-2018"),
    ("tamblyn-coyle", "2025-06-30", "tamblyn-report-2025"),
    ("lichtkamer", "2019-03-01", "lichtkamer-report-2019"),
    ("lichtkamer", "2025-03-01", "lichtkamer-report-2025"),
]


def all_certificates(targets, corpus, plan):
    """(pairing, certificate) of every certified piece, seen or not."""
    found = []
    for target in targets:
        for piece in target.pieces:
            for made in piece.certificates:
                found.append((piece.pairing["id"], made))
    return found


def category_of(service, corpus, pairing):
    """The wording of the line, and whether it covers more than our pairings."""
    title = corpus.title(pairing["character"])
    back = corpus.cardbacks[pairing["cardback"]]
    if service == "tamblyn-coyle":
        return f"{title.upper()} / {back['number']} PICTURED"
    if back["market"] == "home":
        return f"{corpus.label(back['id'])} {title}"
    if back["market"] == "greece":
        return f"{title} (GR)"
    return f"{corpus.label(back['id'])} {title} ({back['market'][:3].upper()})"


def match_of(service, wording, members, corpus):
    """How the line fits the pairings that it is given for."""
    characters = {corpus.pairings[p]["character"] for p in members}
    if service == "tamblyn-coyle" and wording.startswith(("KEDGE", "WINDER")):
        return "unclear"
    if service == "lichtkamer" and wording.endswith("(GR)"):
        return "broader"
    if len(characters) == 1 and "37" in wording and service == "lichtkamer":
        return "narrower"
    return "exact"


def covered(service, corpus, pairing):
    """Every accepted pairing that falls under the same line."""
    wording = category_of(service, corpus, pairing)
    return [
        other["id"] for other in corpus.pairings.values()
        if other["character"] == pairing["character"]
        and other["concluded"] in ("accepted", "open")
        and category_of(service, corpus, other) == wording
    ]


def report(service, date, source, certificates, corpus):
    lines = {}
    for ident, made in certificates:
        if made["service"] != service or made["date"] > date[:7]:
            continue
        pairing = corpus.pairings[ident]
        wording = category_of(service, corpus, pairing)
        line = lines.setdefault(wording, dict(pairing=pairing, counts={}))
        step = made["grade"]
        line["counts"][step] = line["counts"].get(step, 0) + 1
    steps = corpus.scales[corpus.services[service]["scale"]]["steps"]
    categories = []
    for wording in sorted(lines):
        line = lines[wording]
        members = covered(service, corpus, line["pairing"])
        categories.append(dict(
            wording=wording, pairings=members,
            match=match_of(service, wording, members, corpus),
            counts=[dict(step=s, count=line["counts"][s])
                    for s in steps if s in line["counts"]]))
    return dict(id=source.replace("-report", ""), service=service, date=date,
                source=source, categories=categories)


def all_reports(targets, corpus, plan):
    certificates = all_certificates(targets, corpus, plan)
    return [report(*told, certificates, corpus) for told in REPORTS]
