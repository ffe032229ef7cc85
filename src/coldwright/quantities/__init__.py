"""Quantities: SI inside, conversions at the edge, and the reader of what a person types.

Gauge and absolute pressure, and a temperature and a difference of temperatures, are different kinds.
"""

from coldwright.quantities.convert import in_unit, registry, to_si
from coldwright.quantities.display import show
from coldwright.quantities.kinds import Kind
from coldwright.quantities.reader import Number, Reading, read, read_number

__all__ = ["Kind", "Number", "Reading", "in_unit", "read", "read_number", "registry", "show", "to_si"]
