"""The demo corpus twice over: every record again under another id, and what it
refers to with it, so that each half is the demo and neither knows the other."""
import shutil

import yaml

LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
SUFFIX = "-again"
ONCE = {"essay", "edition"}     # kinds that stay as they are


def read(path):
    made = yaml.load(path.read_text(encoding="utf-8"), LOADER)
    return made if isinstance(made, list) else [made]


def fields_of(schema):
    """The fields of each kind; those of every record are in all of them."""
    every = read(schema / "every.yaml")[0]["fields"]
    kinds = {}
    for path in schema.glob("*.yaml"):
        made = read(path)[0]
        if path.stem not in ONCE | {"every", "vocabularies"}:
            kinds[path.stem] = {field["name"]: field
                                for field in made["fields"] + every}
    return kinds


def rename(written):
    """A reference: kind/id.key, of which kind and key may be missing."""
    if isinstance(written, list):
        return [rename(one) for one in written]
    if isinstance(written, dict):
        return {how: rename(some) for how, some in written.items()}
    name, dot, key = written.partition(".")
    if written == "unknown" or name.partition("/")[0] in ONCE:
        return written
    return f"{name}{SUFFIX}{dot}{key}"


def again(value, field):
    """The value of a field with what it refers to in the other half."""
    if field["type"] in ("reference", "identity"):
        return rename(value)
    if field["type"] != "group":
        return value
    if isinstance(value, list):
        return [again(one, field) for one in value]
    inner = {one["name"]: one for one in field["fields"]}
    return {name: again(item, inner[name]) for name, item in value.items()}


def copy(record, fields):
    made = {name: again(value, fields[name]) if name in fields else value
            for name, value in record.items()}
    made["id"] += SUFFIX
    made.pop("formerly", None)
    for name, field in fields.items():
        if "unique" in field and field["type"] == "text" and name in made:
            made[name] += " again"
    return made


def make(root, folder):
    """Writes it, unless it is there from an earlier bench."""
    corpus, twice = root / "corpus", folder / "twice"
    if twice.exists():
        return twice
    kinds = fields_of(root / "schema")
    draft = folder / "twice.draft"
    shutil.rmtree(draft, ignore_errors=True)
    shutil.copytree(corpus, draft, ignore=shutil.ignore_patterns("past"))
    for path in sorted(corpus.glob("*/*.yaml")):
        if path.parent.name in kinds:
            copies = [copy(record, kinds[path.parent.name])
                      for record in read(path)]
            target = draft / path.parent.name / f"again-{path.name}"
            target.write_text(yaml.dump(copies, Dumper=DUMPER,
                                        sort_keys=False, allow_unicode=True),
                              encoding="utf-8")
    draft.rename(twice)
    return twice
