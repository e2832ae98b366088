"""YAML files read fast, and - only once something is wrong - read again to find the line of a key."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import yaml
from pydantic import ValidationError

from advisor.errors import RuleFileError
from advisor.suggestions import did_you_mean

Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_yaml(path: Path) -> Any:
    """The data of one YAML file. Raises RuleFileError with file and line."""
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise RuleFileError(str(path), "no such file", "the rule base is not whole",
                            "put the file back or point at another folder") from None
    except UnicodeDecodeError:
        raise RuleFileError(str(path), "this is no text in UTF-8", "", "save it as plain text in UTF-8") from None
    except OSError as error:
        raise RuleFileError(str(path), f"it cannot be read ({error.strerror})", "the rule base is not whole",
                            "check that the file is there and may be read") from None
    try:
        return yaml.load(text, Loader=Loader)
    except yaml.YAMLError as error:
        raise RuleFileError(_yaml_place(path, error), f"this is no YAML ({_yaml_problem(error)})",
                            "nothing in the file can be used", "check indentation, colons and quotes") from None
    except ValueError as error:  # a date that no calendar has
        raise RuleFileError(str(path), f"this is no YAML ({error})", "nothing in the file can be used",
                            "write dates as year-month-day") from None


def write_yaml(path: Path, data: Any) -> None:
    """`data` as a YAML file that read_yaml gives back."""
    path.write_text(yaml.safe_dump(data, allow_unicode=True, sort_keys=False, width=110), encoding="utf-8")


def line_of(path: Path, keys: Iterable[str | int]) -> int:
    """The line on which the value under `keys` begins; the last line that could be found otherwise."""
    node = yaml.compose(path.read_text(encoding="utf-8"), Loader=Loader)
    line = 1
    for key in keys:
        node, line = _step(node, key, line)
        if node is None:
            break
    return line


def refusal(path: Path, error: ValidationError, allowed: Iterable[str] = ()) -> RuleFileError:
    """The complaint of pydantic that tells most as one of ours: file:line, what was seen, what is allowed."""
    worst = first_complaint(error)
    message = worst["msg"].removeprefix("Value error, ").removeprefix("Assertion failed, ")
    keys = keys_of(worst)
    if isinstance(worst.get("input"), dict) and (inner := message.partition(":")[0]) in worst["input"]:
        keys, message = [*keys, inner], message.partition(": ")[2]
    place = f"{path}:{line_of(path, keys)}"
    name = ".".join(str(key) for key in keys) or "the file"
    if worst["type"] == "extra_forbidden":
        return RuleFileError(place, f"there is no key {keys[-1]!r}", "", did_you_mean(str(keys[-1]), allowed))
    if worst["type"] == "missing":
        return RuleFileError(place, f"the key {name!r} is missing", "", "add it")
    if worst["type"] == "literal_error":
        return RuleFileError(place, f"{name} is {worst['input']!r}", f"allowed are {worst['ctx']['expected']}",
                             did_you_mean(str(worst["input"]), worst["ctx"]["expected"].split("'")[1::2]))
    return RuleFileError(place, f"{name}: {message}", f"it says {worst.get('input')!r}"[:160])


def first_complaint(error: ValidationError) -> Mapping[str, Any]:
    """A misspelt key before the key that is missing because of it; otherwise the first complaint."""
    found = error.errors(include_url=False)
    return next((complaint for complaint in found if complaint["type"] == "extra_forbidden"), found[0])


def keys_of(complaint: Mapping[str, Any]) -> list[str | int]:
    """The path to the place in the file; pydantic's own marks for keys and alternatives are left out."""
    return [key for key in complaint["loc"] if key not in ("[key]", "Amount", "float")]


def _step(node: yaml.Node | None, key: str | int, line: int) -> tuple[yaml.Node | None, int]:
    if isinstance(node, yaml.MappingNode):
        for name, value in node.value:
            if name.value == str(key):
                return value, name.start_mark.line + 1
    elif isinstance(node, yaml.SequenceNode) and isinstance(key, int) and key < len(node.value):
        return node.value[key], node.value[key].start_mark.line + 1
    return None, line


def _yaml_place(path: Path, error: yaml.YAMLError) -> str:
    mark = getattr(error, "problem_mark", None)
    return f"{path}:{mark.line + 1}" if mark else str(path)


def _yaml_problem(error: yaml.YAMLError) -> str:
    return str(getattr(error, "problem", None) or error).split("\n")[0]
