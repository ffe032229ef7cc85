# %% [markdown] key="title"
# # Winding checks: the lab
#
# You get one unit of your own. Take readings on it, then answer eight questions. 20 marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead** before your first ohms reading. A dead meter shows zero too: read
#   volts a.c. on L and N while the plug is still in, then again when it is out, and to earth as well.
# - ⚠ **Discharge** the capacitor through a resistor before your hands go near the connector. Read volts d.c. across it
#   to see that it is empty.
# - ⚠ **Mind the pins.** They can blow out under pressure. Keep your eyes away, and the cover on under power.
# - ⚠ **Never under vacuum**: no power and no insulation test. Let dry nitrogen in first.
# - ⚠ **It may burn.** Read which refrigerant is in it.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A small cooler came in. It does not start. It came straight from its last tries, so the compressor is **hot**. Find
# out which pin is which and what the windings are worth. The bench tells you what the data sheet says.
#
# | Question | Marks |
# |---|---|
# | Resistance of each pair of pins, cold | 3 |
# | Which pin is which | 3 |
# | The sum rule and the meter | 2 |
# | The lowest pair, corrected to 20 °C | 2 |
# | Temperature rise of the winding on arrival | 2 |
# | Insulation to the shell | 1 |
# | The verdict | 3 |
# | Safe order | 4 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - Marks for **safe order** come from the job sheet alone, and only if you took all the readings that the lab needs.
# - Take your **hot readings first**. Once the unit has stood for 12 hours, the heat is gone.
# - A number counts as right within what the instruments allow. Give all the digits that they show.
# - **OL** means over range: the meter finds no path. Then your answer is `"OL"`.
# - Where ohms cannot tell, the right answer is `"cannot tell"`.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk()
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. Each act has a name: `desk.isolate()`, `desk.volts_ac("L", "N")`,
# `desk.discharge()`, `desk.disconnect()`, `desk.zero_leads()`, `desk.ohms(1, 2)`, `desk.let_stand()`,
# `desk.temperature("room")`, `desk.break_vacuum()`, `desk.insulation(1)`.

# %% [markdown] key="pairs-text"
# ## 1. Resistance of each pair of pins, cold
#
# Connector off, leads zeroed. Let the unit stand for 12 hours after your hot readings, then read each pair again.

# %% answer="pairs"
resistance_12 = ""  # pins 1 and 2, such as "4.2 ohm" or "OL"
resistance_13 = ""  # pins 1 and 3
resistance_23 = ""  # pins 2 and 3

# %% check="pairs"

# %% [markdown] key="pins-text"
# ## 2. Which pin is which
#
# An inverter compressor has no such pins: then answer `"none"` three times.

# %% answer="pins"
common = ""  # "1", "2", "3", "none" or "cannot tell"
run = ""
start = ""

# %% check="pins"

# %% [markdown] key="sum-rule-text"
# ## 3. The sum rule and the meter
#
# Does the sum rule hold within what the meter allows? And how far can your **largest** cold reading be off? Take the
# largest one that is not OL. The meter allows ± (0.2 % of the reading + 3 digits).

# %% answer="sum_rule"
sum_rule = ""  # "holds", "does not hold", "does not apply" or "cannot be tested"
meter_limit = ""  # without the ±, such as "0.05 ohm"

# %% check="sum_rule"

# %% [markdown] key="at-20-text"
# ## 4. The lowest pair, corrected to 20 °C
#
# Take the pair that reads lowest, cold. The winding is copper, k = 234.5. Read the temperature of the room.

# %% answer="at_20"
resistance_at_20 = ""  # such as "4.2 ohm"

# %% check="at_20"

# %% [markdown] key="rise-text"
# ## 5. Temperature rise of the winding on arrival
#
# Choose a pair that reads both hot and cold. Take the hot reading soon after you have made the unit safe. From it and
# the cold reading of the same pair, work out how much warmer than the room the winding was.

# %% answer="rise"
temperature_rise = ""  # such as "55 K"

# %% check="rise"

# %% [markdown] key="insulation-text"
# ## 6. Insulation to the shell
#
# Test all three pins to the shell, cold, with the connector off. Give the **lowest** of the three. Is there a vacuum
# gauge on the unit? Then read the cautions again first.

# %% answer="insulation"
insulation = ""  # such as "250 Mohm", or "OL" if the tester shows more than its range

# %% check="insulation"

# %% [markdown] key="verdict-text"
# ## 7. The verdict
#
# What are the windings worth?

# %% answer="verdict"
verdict = ""  # "good", "open winding", "open internal protector", "shorted turns" or "grounded"

# %% check="verdict"

# %% [markdown] key="safe-order-text"
# ## 8. Safe order
#
# Nothing to type here. One mark each: you proved it dead first, you discharged the capacitor before you pulled the
# connector off, you zeroed the leads before you read the windings, and there is no hazard on your job sheet.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
