"""The cold room of a cooler: heat that comes in, food, thermostat, air and product temperature, duty and energy."""
