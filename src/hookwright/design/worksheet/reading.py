"""What does a worksheet say, and what in it cannot be taken as it stands?

A worksheet is a TOML file beside the pattern. Whatever is wrong with it is a finding in
its own text, and the rest of it is read all the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from hookwright.design.facts import Worksheet
from hookwright.design.worksheet.facts import Told, noted_in
from hookwright.design.worksheet.keys import TABLES, Key, Table, table_called
from hookwright.design.worksheet.places import Entry, entries_of
from hookwright.design.worksheet.slips import slip
from hookwright.design.worksheet.values import likeliest, listed, shown, wrong_with
from hookwright.finding import Edit, Finding, Severity
from hookwright.source import Source, Span

RULE = "worksheet"
_MOST_CHARACTERS = 200_000


def read_worksheet(source: Source) -> Worksheet:
    """Read a worksheet. Never fails: what cannot be read is a finding."""
    if len(source.text) > _MOST_CHARACTERS:
        return Worksheet(source, findings=(_TOO_LONG,))
    data = _data_of(source)
    if isinstance(data, Finding):
        return Worksheet(source, findings=(data,))
    reader = _Reader(source)
    tables = {table.name: list(reader.tables(table, data)) for table in TABLES}
    reader.names_of_tables(data)
    reader.yarns_named(tables)
    reader.names_told_twice(tables)
    findings = sorted(reader.findings, key=lambda finding: finding.span)
    return Worksheet(source, noted_in(tables), tuple(findings))


_TOO_LONG = Finding(
    RULE,
    Severity.ERROR,
    Span(0, 0),
    "The worksheet is far longer than a worksheet can be, and was not read.",
    "Take out what does not belong to it.",
)


def _data_of(source: Source) -> dict[str, Any] | Finding:
    """The tables as plain values, or what keeps the text from being read."""
    import tomlkit  # noqa: PLC0415 - only where there is a worksheet
    from tomlkit.exceptions import ParseError, TOMLKitError  # noqa: PLC0415 - the same

    try:
        return dict(tomlkit.parse(source.text).unwrap())
    except ParseError as error:
        return slip(source, RULE, error, error.line, error.col)
    except (TOMLKitError, ValueError, RecursionError) as error:
        return slip(source, RULE, error)


class _Reader:
    """Goes through the tables of a worksheet and gathers what is wrong with them."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []
        self._places: dict[tuple[str, int, str], Entry] = {}
        self._tables: dict[tuple[str, int], Entry] = {}
        for entry in entries_of(source.text):
            if len(entry.path) > 1:
                self._places.setdefault((entry.path[0], entry.table, entry.path[1]), entry)
            self._tables.setdefault((entry.path[0], entry.table), entry)

    def tables(self, table: Table, data: Mapping[str, Any]) -> Iterator[Told]:
        """Every table of a name, with those of its values that can be taken."""
        found = data.get(table.name, [])
        values = found if isinstance(found, list) else [found]
        for number, one in enumerate(values):
            span = self._heading(table.name, number)
            if not isinstance(one, dict):
                message = f'"{table.name}" is a table, and {shown(one)} is none.'
                self._tell(span, message, f"Write {table.heading} on a line of its own.")
                continue
            if number == 0 and isinstance(found, list) != table.several:
                self._wrong_brackets(table, span)
            if number and not table.several:
                continue
            yield self._told(table, number, span, one)

    def _heading(self, name: str, number: int) -> Span:
        entry = self._tables.get((name, number)) or self._tables.get((name, 0))
        return Span(0, 0) if entry is None else _where(entry)

    def _wrong_brackets(self, table: Table, span: Span) -> None:
        how = "can stand there several times" if table.several else "stands there once"
        self._tell(
            span,
            f'The table "{table.name}" {how}, so it is written {table.heading}.',
            f"Write {table.heading}.",
        )

    def _told(self, table: Table, number: int, span: Span, values: dict[str, Any]) -> Told:
        kept: dict[str, Any] = {}
        places: dict[str, Span] = {}
        for name, value in values.items():
            entry = self._places.get((table.name, number, name))
            place = entry.value if entry is not None else span
            key = table.key(name)
            if key is None:
                self._unknown_key(table, name, entry.name if entry is not None else span)
            elif self._is_right(key, value, place):
                kept[name], places[name] = value, place
        told = Told(span, kept, places)
        if table.name == "swatch":
            self._swatch(told)
        return told

    def _unknown_key(self, table: Table, name: str, span: Span) -> None:
        known = [key.name for key in table.keys]
        likely = likeliest(name, known)
        elsewhere = next((other for other in TABLES if other.key(name)), None)
        message = f'{table.heading} has no key "{name}".'
        if likely:
            edit = Edit(span, likely)
            self._tell(span, message, f'Write "{likely}", if that is meant.', edit)
        elif elsewhere is not None:
            self._tell(span, message, f"It belongs under {elsewhere.heading}.")
        else:
            self._tell(span, message, f"Its keys are {listed(known)}.")

    def _is_right(self, key: Key, value: object, span: Span) -> bool:
        wrong = wrong_with(key, value)
        if wrong is not None:
            self._tell(span, *wrong)
        return wrong is None

    def _swatch(self, told: Told) -> None:
        if {"stitches", "repeats"} <= told.values.keys():
            message = "A swatch is counted in stitches or in repeats, and this says both."
            self._tell(told.places["repeats"], message, "Take out one of them.")
        for number, length in (("stitches", "width"), ("repeats", "width")):
            if number in told.values and length not in told.values:
                many = shown(told.values[number])
                self._tell(
                    told.places[number],
                    f"The swatch has {many} {number}, and no {length} that they take up.",
                    f'Write how wide they are: {length} = "4 in".',
                    severity=Severity.ADVICE,
                )

    def names_of_tables(self, data: Mapping[str, Any]) -> None:
        """Names that no table has."""
        known = [table.name for table in TABLES]
        for name in data.keys() - set(known):
            entry = self._tables.get((name, 0))
            span = Span(0, 0) if entry is None else entry.name
            home = next((table for table in TABLES if table.key(name)), None)
            likely = likeliest(name, known)
            if home is not None and not isinstance(data[name], (dict, list)):
                message = f'"{name}" stands under no heading.'
                self._tell(span, message, f"Put it under {home.heading}.")
            elif likely and (table := table_called(likely)):
                message = f'There is no table "{name}" in a worksheet.'
                why = f"Write {table.heading}, if that is meant."
                self._tell(span, message, why, Edit(span, likely))
            else:
                message = f'There is no table "{name}" in a worksheet.'
                self._tell(span, message, f"The tables are {listed(known)}.")

    def yarns_named(self, tables: Mapping[str, list[Told]]) -> None:
        """Letters and names that none of the yarns has."""
        yarns = tables["yarn"]
        known = {t.text(key) for t in yarns for key in ("letter", "name", "colour")} - {""}
        if not known:
            return
        for told in (*tables["stripes"], *tables["swatch"]):
            for key in ("keep_apart", "keep_together", "favourites", "yarn", "edging"):
                for name in dict.fromkeys(_names_in(told.values.get(key, ""))):
                    if name not in known:
                        called = [t.text("letter") or t.text("name") for t in yarns]
                        message = f'"{name}" is none of the yarns: {listed(called)}.'
                        why = f"Look at the letter, or add it under {_YARN.heading}."
                        self._tell(told.places[key], message, why)

    def names_told_twice(self, tables: Mapping[str, list[Told]]) -> None:
        """A letter that two yarns have, a name that two sizes have."""
        for table, key in (("yarn", "letter"), ("size", "name")):
            seen: set[str] = set()
            for told in tables[table]:
                name = told.text(key)
                if name and name in seen:
                    message = f'Two {table}s have the {key} "{name}".'
                    self._tell(told.places[key], message, "Give one of them another.")
                seen.add(name)

    def _tell(
        self,
        span: Span,
        message: str,
        why: str,
        edit: Edit | None = None,
        severity: Severity = Severity.WARNING,
    ) -> None:
        self.findings.append(Finding(RULE, severity, span, message, why, edit=edit))


_YARN = next(table for table in TABLES if table.name == "yarn")


def _where(entry: Entry) -> Span:
    """A heading with its brackets, or the name of a table told in one line."""
    return entry.value if entry.is_heading else entry.name


def _names_in(value: object) -> Iterator[str]:
    if isinstance(value, str) and value:
        yield value
    elif isinstance(value, list):
        for one in value:
            yield from _names_in(one)
