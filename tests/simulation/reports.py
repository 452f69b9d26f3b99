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
    """(pairing, combination, certificate) of every certified piece."""
    found = []
    for target in targets:
        for piece in target.pieces:
            for made in piece.certificates:
                found.append((piece.pairing["id"], piece.combination, made))
    return found


# What a service names beside the card back: service, field of the combination,
# record, words on the line.
NAMED = [
    ("tamblyn-coyle", "variant", "jory-marl-kowloon", " / OPEN HAND"),
    ("tamblyn-coyle", "variant", "winder-nine-four-rivets", " / 4 RIVETS"),
    ("lichtkamer", "variant", "hesper-rudd-kowloon", ", cloth cape"),
    ("lichtkamer", "blister", "staple", ", stapled"),
]


def named(service, combination):
    """What the service's line says of a combination, or nothing."""
    return "".join(words for of, field, ident, words in NAMED
                   if of == service and combination.get(field) == ident)


def category_of(service, corpus, pairing, combination):
    """The wording of the line that such a piece is counted in."""
    title = corpus.title(pairing["character"])
    back = corpus.cardbacks[pairing["cardback"]]
    more = named(service, combination)
    if service == "tamblyn-coyle":
        return f"{title.upper()} / {back['number']} PICTURED{more}"
    if back["market"] == "home":
        return f"{corpus.label(back['id'])} {title}{more}"
    if back["market"] == "greece":
        return f"{title}{more} (GR)"
    market = back["market"][:3].upper()
    return f"{corpus.label(back['id'])} {title}{more} ({market})"


def match_of(service, wording, members, corpus):
    """How the line fits the pairings that it is given for."""
    characters = {corpus.pairings[p.split(".")[0]]["character"]
                  for p in members}
    if service == "tamblyn-coyle" and wording.startswith(("KEDGE", "WINDER")) \
            and not wording.endswith("RIVETS"):
        return "unclear"
    if service == "lichtkamer" and wording.endswith("(GR)"):
        return "broader"
    if len(characters) == 1 and "37" in wording and service == "lichtkamer":
        return "narrower"
    return "exact"


def covered(service, corpus, pairing, combination):
    """What falls under the same line: accepted pairings, or combinations of
    them where the line takes only some."""
    wording = category_of(service, corpus, pairing, combination)
    found = []
    for other in corpus.pairings.values():
        if other["character"] != pairing["character"] or \
                other["concluded"] not in ("accepted", "open"):
            continue
        combinations = other.get("combinations", [])
        ours = [c for c in combinations
                if category_of(service, corpus, other, c) == wording]
        if combinations and len(ours) < len(combinations):
            found += [f"{other['id']}.{c['key']}" for c in ours]
        elif category_of(service, corpus, other,
                         (combinations or [{}])[0]) == wording:
            found.append(other["id"])
    return found


def report(service, date, source, certificates, corpus):
    lines = {}
    for ident, combination, made in certificates:
        if made["service"] != service or made["date"] > date[:7]:
            continue
        pairing = corpus.pairings[ident]
        wording = category_of(service, corpus, pairing, combination)
        line = lines.setdefault(wording, dict(
            pairing=pairing, combination=combination, counts={}))
        step = made["grade"]
        line["counts"][step] = line["counts"].get(step, 0) + 1
    steps = corpus.scales[corpus.services[service]["scale"]]["steps"]
    categories = []
    for wording in sorted(lines):
        line = lines[wording]
        members = covered(service, corpus, line["pairing"],
                          line["combination"])
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
