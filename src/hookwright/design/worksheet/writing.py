"""A worksheet with one value changed; its comments, its order and all else stay."""

from __future__ import annotations

from typing import Any

from hookwright.design.worksheet.keys import table_called
from hookwright.design.worksheet.values import wrong_with

Value = str | int | float | bool | list[str] | list[list[str]] | list[int]


class NotWritable(ValueError):  # noqa: N818 - told to the designer, not a fault of ours
    """A value that a worksheet does not take; the message is a sentence."""


def set_value(worksheet: str, table: str, key: str, value: Value, number: int = 0) -> str:
    """The text of a worksheet in which a key has this value.

    Args:
        worksheet: Its text, which must be readable as it stands.
        table: The name of a table: "yarn".
        key: A key of that table.
        value: The value it is to have.
        number: Which table of the name, from 0; one more than there are makes a new one.

    Raises:
        NotWritable: If there is no such table or key, if it does not take this value, or
            if the worksheet cannot be read.
    """
    import tomlkit  # noqa: PLC0415 - only where a worksheet is written
    from tomlkit.exceptions import TOMLKitError  # noqa: PLC0415 - the same

    _refuse_what_is_wrong(table, key, value)
    try:
        document = tomlkit.parse(worksheet)
        _table_in(document, table, number)[key] = value
        return tomlkit.dumps(document)
    except (TOMLKitError, ValueError, RecursionError) as error:
        raise NotWritable(f"The worksheet cannot be changed: {error}.") from error


def _refuse_what_is_wrong(table: str, key: str, value: Value) -> None:
    described = table_called(table)
    if described is None:
        raise NotWritable(f'There is no table "{table}" in a worksheet.')
    one = described.key(key)
    if one is None:
        raise NotWritable(f'{described.heading} has no key "{key}".')
    wrong = wrong_with(one, value)
    if wrong is not None:
        raise NotWritable(wrong[0])


def _table_in(document: Any, name: str, number: int) -> Any:  # noqa: ANN401 - tomlkit's own
    """The table to write into, made if there is none."""
    import tomlkit  # noqa: PLC0415 - only where a worksheet is written

    described = table_called(name)
    several = described is not None and described.several
    if name not in document:
        document[name] = tomlkit.aot() if several else tomlkit.table()
    found = document[name]
    if several and isinstance(found, list):
        if number == len(found):
            found.append(tomlkit.table())
        found = found[number] if number < len(found) else None
    if not isinstance(found, dict):
        raise NotWritable(f'"{name}" is not written there as a table')
    return found
