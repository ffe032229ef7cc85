"""Refrigerants: saturation, states, safety limits, the air around; the only room that imports CoolProp."""
