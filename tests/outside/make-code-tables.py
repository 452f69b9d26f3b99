#!/usr/bin/env python3
"""Makes compiler/sense/table_*.c: codes of countries, currencies, languages.

    tests/outside/make-code-tables.py CLDR REGISTRY [ISO-CODES]

Run by hand when the standards have moved; the tables are committed, so that
nothing is read from the system when the program runs. Needs:

  ISO-CODES  Debian's package iso-codes, by default under /usr/share: ISO
             3166-1, 3166-3, 639-2 and 4217, the historic codes of 4217 with
             the months of their withdrawal (in its XML); LGPL-2.1-or-later
  CLDR       npm's cldr-core, unpacked: from when to when a currency was money
             where; Unicode-3.0
  REGISTRY   npm's language-subtag-registry, unpacked: IANA's registry of
             subtags, which BCP 47 (RFC 5646) goes by; CC0-1.0

Made with iso-codes 4.15.0, cldr-core 48.2.0 and language-subtag-registry
0.4.2 (registry of 2025-08-25).
"""
import json
import pathlib
import re
import sys
import textwrap

OUT = pathlib.Path(__file__).resolve().parents[2] / "compiler/sense"

HEAD = """\
/*
 * {what}
 *
 * Made by tests/outside/make-code-tables.py; do not edit.
 * {source}
 */
#include "sense/tables.h"

"""

# On the standard's list of historic codes ("list three") and not in iso-codes;
# from memory. Their last days come from CLDR, where it has them.
HISTORIC_BESIDES = """ARY AYM BYR CHC CYP EEK GHP LTL LVL MRO MTL STD TMM TPE
    USS VEF XFO XFU YUM ZMK ZWC ZWD ZWN ZWR""".split()
# Added to the standard after the release of iso-codes.
CURRENT_BESIDES = {"XAD": "Arab Accounting Dinar", "XCG": "Caribbean Guilder",
                   "ZWG": "Zimbabwe Gold"}
# Out of use by CLDR, and still on the standard's list of current codes.
STILL_CURRENT = {"SVC"}


def text(value):
    return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'


def last_text(value):
    return "NULL" if value is None else text(value)


def write(name, what, source, body):
    head = HEAD.format(
        what="\n * ".join(textwrap.wrap(what, 74)),
        source="\n * ".join(textwrap.wrap(source, 74)))
    (OUT / name).write_text(head + body)


def rows(kind, name, items):
    """An array of groups, each on one line where that is short enough."""
    body = ""
    for items_ in items:
        *front, name_ = items_
        line = "{" + ", ".join(front) + ", "
        body += f"\t{line}{name_}}},\n" if len(line + name_) < 70 else \
            f"\t{line.rstrip()}\n\t\t{name_}}},\n"
    return (f"const {kind} {name}[] = {{\n{body}}};\n"
            f"const size_t {name}_count =\n"
            f"\tsizeof({name}) / sizeof({name}[0]);\n")


def packed(kind, name, items):
    """An array of short texts, or of groups of them, several a line."""
    items = [text(item) if isinstance(item, str) else
             "{" + ",".join(map(text, item)) + "}" for item in items]
    filled = textwrap.wrap(" ".join(f"{item}," for item in items), 70,
                           break_on_hyphens=False)
    body = "".join(f"\t{line}\n" for line in filled)
    return (f"const {kind} = {{\n{body}}};\n"
            f"const size_t {name}_count =\n"
            f"\tsizeof({name}) / sizeof({name}[0]);\n")


def countries(iso):
    current = json.loads((iso / "json/iso_3166-1.json").read_text())["3166-1"]
    gone = json.loads((iso / "json/iso_3166-3.json").read_text())["3166-3"]
    found = [(item["alpha_2"], "", item["alpha_3"],
              item.get("common_name", item["name"]), None)
             for item in current]
    found += [(item["alpha_2"], item["withdrawal_date"], item["alpha_3"],
               item["name"], item["withdrawal_date"]) for item in gone]
    lines = [(text(code), text(three), last_text(last), text(name))
             for code, _, three, name, last in sorted(found)]
    write("table_countries.c",
          "Countries: ISO 3166-1, and ISO 3166-3 with its dates of "
          "withdrawal.",
          "From Debian's iso-codes 4.15.0 (LGPL-2.1-or-later).",
          rows("struct country", "countries", lines))


def cldr_ends(cldr):
    """The last day of each currency that was once money somewhere."""
    data = json.loads((cldr / "supplemental/currencyData.json").read_text())
    ends = {}
    for region in data["supplemental"]["currencyData"]["region"].values():
        for item in region:
            for code, dates in item.items():
                ends.setdefault(code, []).append(dates.get("_to"))
    return {code: max(all_) for code, all_ in ends.items()
            if all(all_)}


def later(one, other):
    """The later of two dates that may be partial or unknown."""
    known = [date for date in (one, other) if date and date != "unknown"]
    return max(known, key=lambda date: date.ljust(10, "9")) if known else ""


def currencies(iso, cldr):
    current = {item["alpha_3"]: item["name"] for item in json.loads(
        (iso / "json/iso_4217.json").read_text())["4217"]}
    xml = (iso.parent / "xml/iso-codes/iso_4217.xml").read_text()
    entries = [dict(re.findall(r'(\w+)="([^"]*)"', match))
               for match in re.findall(
                   r"<(?:historic_)?iso_4217_entry\s([^>]*)/>", xml)]
    named = {item["letter_code"]: item["currency_name"] for item in entries}
    gone = {item["letter_code"]: item["date_withdrawn"]
            for item in entries if "date_withdrawn" in item}
    ends = cldr_ends(cldr)
    found = {}
    for code in HISTORIC_BESIDES:
        found[code] = ends.get(code, "")
    for code, date in gone.items():
        found[code] = later(date, ends.get(code))
    for code in [*current, *CURRENT_BESIDES]:
        found[code] = None if code in STILL_CURRENT else ends.get(code)
    names = {**named, **current, **CURRENT_BESIDES}
    lines = [(text(code), last_text(last), text(names.get(code, "")))
             for code, last in sorted(found.items())]
    write("table_currencies.c",
          "Currencies: ISO 4217, current and historic. The last day of a "
          "historic one is the later of two: when the standard withdrew it, "
          "and when it ceased to be money.",
          "Codes and withdrawals from Debian's iso-codes 4.15.0 "
          "(LGPL-2.1-or-later); other dates from CLDR 48.2 (Unicode-3.0); "
          "codes withdrawn since from memory of the standard's list three.",
          rows("struct currency", "currencies", lines))


def languages(iso, registry):
    data = json.loads((registry / "data/json/registry.json").read_text())
    of = {}
    for item in data:
        if ".." not in item.get("Subtag", ""):
            of.setdefault(item["Type"], []).append(item)
    tags = sorted(item["Subtag"] for item in of["language"])
    three = {}
    for tag in tags:
        if len(tag) == 3:
            three.setdefault(tag[:2], []).append(tag[2])
    shorter = {}
    for item in json.loads(
            (iso / "json/iso_639-2.json").read_text())["639-2"]:
        for key in ("alpha_3", "bibliographic"):
            if "alpha_2" in item and key in item:
                shorter[item[key]] = item["alpha_2"]
    body = packed("char languages2[][3]", "languages2",
                  [tag for tag in tags if len(tag) == 2])
    body += packed("char *const languages3[]", "languages3",
                   [f"{pair}{''.join(sorted(last))}"
                    for pair, last in sorted(three.items())])
    body += packed("struct language_pair longer_languages[]",
                   "longer_languages", sorted(shorter.items()))
    body += packed("struct language_pair extended_languages[]",
                   "extended_languages", sorted((item["Subtag"], item["Prefix"][0])
                         for item in of["extlang"]))
    body += packed("char scripts[][5]", "scripts",
                   sorted(item["Subtag"] for item in of["script"]))
    body += packed("char regions[][4]", "regions",
                   sorted(item["Subtag"] for item in of["region"]))
    body += packed("char *const language_variants[]", "language_variants",
                   sorted(item["Subtag"] for item in of["variant"]))
    body += packed("char *const old_language_tags[]", "old_language_tags",
                   sorted(item["Tag"].lower()
                          for item in of["grandfathered"]))
    write("table_languages.c",
          "Subtags of language tags: BCP 47. A row of languages3 is two "
          "letters and all those that may follow them.",
          "From IANA's registry of 2025-08-25 as in language-subtag-registry "
          "0.4.2 (CC0-1.0); the longer codes of ISO 639-2 from Debian's "
          "iso-codes 4.15.0 (LGPL-2.1-or-later).",
          body)


def main():
    if len(sys.argv) not in (3, 4):
        sys.exit(__doc__)
    cldr, registry = map(pathlib.Path, sys.argv[1:3])
    iso = pathlib.Path(sys.argv[3] if len(sys.argv) > 3 else
                       "/usr/share/iso-codes")
    countries(iso)
    currencies(iso, cldr)
    languages(iso, registry)


if __name__ == "__main__":
    main()
