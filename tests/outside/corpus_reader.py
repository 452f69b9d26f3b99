"""A corpus read by another program: PyYAML and this file, from schema/README.md.

Gives the rows that each relation of a guide should have, worked out from the
YAML of schema and corpus alone. What a record is called is left out: it is
made of names of other records, and looked at elsewhere.
"""
import calendar
import pathlib

import yaml

LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def load(path):
    return yaml.load(pathlib.Path(path).read_text(), LOADER)


def as_list(value):
    return value if isinstance(value, list) else [value]


class Schema:
    def __init__(self, folder):
        self.kinds = {}
        for path in sorted(pathlib.Path(folder).glob("*.yaml")):
            if path.stem != "vocabularies":
                self.kinds[path.stem] = load(path)
        self.every = self.kinds.pop("every")["fields"]
        self.public = {name for name, kind in self.kinds.items()
                       if kind.get("chapter") != "private"}

    def keyed(self, kind):
        """The lists of a kind whose items have addresses of their own."""
        return [field for field in self.kinds[kind]["fields"]
                if field.get("many") == "yes" and field["type"] == "group"
                and field["fields"][0]["name"] == "key"
                and field.get("export") != "no"]

    def targets(self, field):
        to = as_list(field["to"])
        return sorted(self.kinds) if to == ["any"] else to


class Corpus:
    def __init__(self, folder, schema):
        self.records = {kind: {} for kind in schema.kinds}
        self.former = {kind: {} for kind in schema.kinds}
        folder = pathlib.Path(folder)
        for kind in schema.kinds:
            for path in sorted((folder / kind).rglob("*.yaml")):
                for record in as_list(load(path)):
                    self.add(kind, record)
        for path in sorted(folder.glob("*.yaml")):
            if path.stem != "corpus":
                for kind, records in load(path).items():
                    for record in as_list(records):
                        self.add(kind, record)
        for path in sorted((folder / "essay").rglob("*.md")):
            text = path.read_text()
            title = next(line for line in text.splitlines()
                         if line.startswith("# "))
            self.add("essay", {"id": path.stem, "title": title[2:].strip(),
                               "text": text})

    def add(self, kind, record):
        self.records[kind][record["id"]] = record
        for former in as_list(record.get("formerly", [])):
            self.former[kind][former] = record["id"]


def interval(text):
    parts = [int(part) for part in text.split("-")]
    year = parts[0]
    first = (year, parts[1] if len(parts) > 1 else 1,
             parts[2] if len(parts) > 2 else 1)
    month = parts[1] if len(parts) > 1 else 12
    last = (year, month, parts[2] if len(parts) > 2
            else calendar.monthrange(year, month)[1])
    return ["%04d-%02d-%02d" % day for day in (first, last)]


class Relations:
    """`rows`: relation → list of {column: value}; `columns`: relation → names."""

    def __init__(self, schema, corpus):
        self.schema, self.corpus = schema, corpus
        self.rows, self.columns = {}, {}
        for kind in sorted(schema.public):
            fields = schema.kinds[kind]["fields"]
            self.declare(kind, ["id"], fields)
            for name, record in corpus.records[kind].items():
                self.add(kind, {"id": name}, fields, record)
        self.declare("record", ["kind", "id"], schema.every)
        for kind in sorted(schema.public):
            for name, record in corpus.records[kind].items():
                self.add("record", {"kind": kind, "id": name}, schema.every,
                         record)

    # What columns there are, whether or not a record fills them.

    def declare(self, relation, keys, fields):
        self.rows[relation] = []
        self.columns[relation] = list(keys)
        self.declare_fields(relation, keys, fields, "")

    def declare_fields(self, relation, keys, fields, prefix):
        for field in fields:
            if field.get("export") == "no":
                continue
            name = prefix + field["name"]
            inner = self.inner_keys(relation, keys)
            if field.get("many") == "yes":
                self.rows[f"{relation}_{name}"] = []
                self.columns[f"{relation}_{name}"] = list(inner)
                if field["type"] == "group":
                    self.declare_fields(f"{relation}_{name}", inner,
                                        field["fields"], "")
                else:
                    self.columns[f"{relation}_{name}"] += self.free(
                        inner, self.names(field, field["name"]))
            elif field["type"] == "group":
                self.declare_fields(relation, keys, field["fields"],
                                    name + "_")
            elif field["type"] == "translation":
                self.rows[f"{relation}_{name}"] = []
                self.columns[f"{relation}_{name}"] = [*inner, "language",
                                                      "text"]
            else:
                self.columns[relation] += self.free(
                    keys, self.names(field, name))
                if field["type"] == "identity":
                    listed = f"{relation}_{name}_candidates"
                    self.rows[listed] = []
                    self.columns[listed] = [*inner, *self.target_names(
                        field, field["name"])]

    @staticmethod
    def free(keys, names):
        """A name that is one of the key gets a number."""
        return [name + "_2" if name in keys else name for name in names]

    def inner_keys(self, relation, keys):
        """Key columns of what is listed in a relation."""
        if keys == ["id"]:
            return [relation, "position"]
        if keys == ["kind", "id"]:
            return ["kind", "id", "position"]
        field = relation[len(self.owner_of(relation)) + 1:]
        return [*keys[:-1], f"{field}_position", "position"]

    def owner_of(self, relation):
        return max((name for name in self.columns
                    if relation.startswith(name + "_")), key=len)

    def target_names(self, field, name):
        targets = self.schema.targets(field)
        names = [name] if len(targets) == 1 else [name + "_kind", name + "_id"]
        if any(self.schema.keyed(kind) for kind in targets):
            names.append(name + "_key")
        return names

    def names(self, field, name):
        if field["type"] == "date":
            return [name, name + "_first", name + "_last"]
        if field["type"] == "quantity":
            return [f"{name}_{field['units'][0]}"]
        if field["type"] == "reference":
            return self.target_names(field, name)
        if field["type"] == "identity":
            return [*self.target_names(field, name), name + "_state"]
        return [name]

    # What the records fill in.

    def add(self, relation, keys, fields, values):
        row = {name: None for name in self.columns[relation]}
        row.update(keys)
        self.rows[relation].append(row)
        self.fill(relation, keys, row, fields, values, "")

    def fill(self, relation, keys, row, fields, values, prefix):
        for field in fields:
            if field.get("export") == "no":
                continue
            name = prefix + field["name"]
            value = values.get(field["name"], field.get("default"))
            if value is None:
                continue
            if field.get("many") == "yes":
                self.fill_list(f"{relation}_{name}", keys, relation, field,
                               as_list(value))
            elif field["type"] == "group":
                self.fill(relation, keys, row, field["fields"], value,
                          name + "_")
            elif field["type"] == "translation":
                self.fill_translation(f"{relation}_{name}", keys, relation,
                                      value)
            else:
                row.update(self.set_apart(keys, self.cells(field, name,
                                                           value)))
                if field["type"] == "identity" and isinstance(value, dict):
                    self.fill_candidates(f"{relation}_{name}_candidates",
                                         keys, relation, field, value)

    def list_keys(self, relation, keys, owner, place):
        """Keys of the item at `place`, from 1."""
        names = [name for name in self.columns[relation]][:len(keys) + 1]
        return dict(zip(names, [*keys.values(), place]))

    def fill_list(self, relation, keys, owner, field, items):
        for place, item in enumerate(items, 1):
            inner = self.list_keys(relation, keys, owner, place)
            if field["type"] == "group":
                self.add(relation, inner, field["fields"], item)
            else:
                row = {name: None for name in self.columns[relation]}
                row.update(inner)
                row.update(self.set_apart(inner, self.cells(
                    field, field["name"], item)))
                self.rows[relation].append(row)

    def fill_translation(self, relation, keys, owner, texts):
        for place, (language, text) in enumerate(texts.items(), 1):
            self.rows[relation].append({
                **self.list_keys(relation, keys, owner, place),
                "language": language, "text": text})

    def fill_candidates(self, relation, keys, owner, field, value):
        for place, item in enumerate(next(iter(value.values())), 1):
            row = {name: None for name in self.columns[relation]}
            row.update(self.list_keys(relation, keys, owner, place))
            row.update(self.target_cells(field, field["name"], item))
            self.rows[relation].append(row)

    def set_apart(self, keys, cells):
        return dict(zip(self.free(keys, cells), cells.values()))

    def target_cells(self, field, name, value):
        targets = self.schema.targets(field)
        kind = targets[0] if len(targets) == 1 else value.split("/")[0]
        id_, _, key = value.split("/")[-1].partition(".")
        if id_ not in self.corpus.records[kind]:
            id_ = self.corpus.former[kind][id_]
        cells = {name: id_} if len(targets) == 1 else {
            name + "_kind": kind, name + "_id": id_}
        if key:
            cells[name + "_key"] = key
        return cells

    def cells(self, field, name, value):
        if field["type"] == "date":
            return dict(zip(self.names(field, name),
                            [value, *interval(value)]))
        if field["type"] == "quantity":
            number, unit = value.split()
            assert unit == field["units"][0], value
            return {f"{name}_{unit}": float(number)}
        if field["type"] == "whole":
            return {name: int(value)}
        if field["type"] == "yesno":
            return {name: {"yes": 1, "no": 0}[value]}
        if field["type"] == "reference":
            return self.target_cells(field, name, value)
        if field["type"] == "identity":
            if isinstance(value, dict):
                return {name + "_state": next(iter(value))}
            if value == "unknown":
                return {name + "_state": "unknown"}
            return {**self.target_cells(field, name, value),
                    name + "_state": "known"}
        return {name: value}
