"""A large corpus that means little: for what must not grow faster than it."""


def write(folder, records):
    """A sound corpus of about that many records, most of them seen things."""
    folder.mkdir(parents=True)
    (folder / "corpus.yaml").write_text("format: 1\ntitle: Many pieces\n")
    characters = max(10, records // 50)
    specimens = records * 2 // 5
    sightings = records - characters - 10 - specimens

    with open(folder / "made.yaml", "w") as made:
        made.write("toyline:\n  - id: many\n    name: Many pieces\n"
                   "market:\n  - id: north\n    name: North\n"
                   "scheme:\n  - id: plain\n    name: Plain\n"
                   "    market: north\n    current: yes\n"
                   "source:\n  - id: list\n    name: A long list\n"
                   "cardback:\n")
        for number in range(6):
            made.write(f"  - id: north-{number}\n    market: north\n"
                       f"    number: {10 + number}\n    from: 1984\n"
                       f"    labels:\n      - scheme: plain\n"
                       f"        label: {10 + number}A\n")
        made.write("character:\n")
        for number in range(characters):
            made.write(f"  - id: c{number}\n    names:\n"
                       f"      en: Character {number}\n"
                       f"    released: 1984\n    text: >-\n"
                       f"      Next to [another](ref:character/"
                       f"c{(number * 7 + 1) % characters}).\n")
    (folder / "specimen").mkdir()
    with open(folder / "specimen/all.yaml", "w") as seen:
        for number in range(specimens):
            seen.write(f"- id: s{number}\n  name: Piece {number}\n"
                       f"  form: carded\n"
                       f"  character: c{number * 13 % characters}\n"
                       f"  cardback: north-{number % 6}\n"
                       f"  marks: [crease at {number}]\n")
    (folder / "sighting").mkdir()
    for part in range(10):
        with open(folder / f"sighting/{part}.yaml", "w") as seen:
            for number in range(part, sightings, 10):
                seen.write(f"- id: g{number}\n"
                           f"  specimen: s{number * 17 % specimens}\n"
                           f"  date: {1990 + number % 30}-0{number % 9 + 1}\n"
                           f"  source: list\n")
