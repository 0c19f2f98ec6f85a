"""Plain Python values written as RON: dict = record, list = list, tuple = place, Tag = a kind with or without fields."""


class Tag:
    def __init__(self, name, *places, **fields):
        self.name, self.places, self.fields = name, places, fields

    def __eq__(self, other):
        return self.name == (other.name if isinstance(other, Tag) else other)

    def __hash__(self):
        return hash(self.name)

    def __repr__(self):
        return write(self)


def write(value):
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        text = f"{round(float(value), 6):.6f}".rstrip("0").rstrip(".")
        return "0" if text in ("-0", "") else text
    if isinstance(value, str):
        return '"' + value + '"'
    if isinstance(value, Tag):
        if value.places:
            return f"{value.name}({', '.join(map(write, value.places))})"
        return value.name + (write(value.fields) if value.fields else "")
    if isinstance(value, dict):
        return "(" + ", ".join(f"{k}: {write(v)}" for k, v in value.items()) + ")"
    if isinstance(value, list):
        return "[" + ", ".join(map(write, value)) + "]"
    return "(" + ", ".join(map(write, value)) + ")"


def document(value, remark):
    """A whole file: the outer record's fields each on a line, the members of its lists too."""
    lines = [f"// {remark}", "("]
    for key, field in value.items():
        if isinstance(field, list) and field and isinstance(field[0], dict):
            lines.append(f"    {key}: [")
            lines += [f"        {write(member)}," for member in field]
            lines.append("    ],")
        else:
            lines.append(f"    {key}: {write(field)},")
    return "\n".join([*lines, ")", ""])
