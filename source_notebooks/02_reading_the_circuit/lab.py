# %% [markdown] key="title"
# # Reading the circuit: the lab
#
# You get one cooler of your own. Find what is behind the complaint, put it right and prove it. Find the poor joint as
# well. Then answer eight questions. 20 marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead** before your first ohms. Try the meter on outlet L and outlet N. Read
#   plug L to plug N, plug L to plug E, plug N to plug E. Then try the outlet again.
# - ⚠ **Discharge** each capacitor before your hands go in, and an inverter board too.
# - ⚠ **Live readings: hands off.** A part that stands still can be live.
# - ⚠ **500 V ruin a board.** Take an inverter board off for the insulation test, then put it back.
# - ⚠ **It may burn.** Read which refrigerant is in it.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A cooler came in with a complaint. It was taken off the supply a short while ago, so its cabinet is still cool. The
# bench tells you the complaint and the nameplate, and shows the schematic. One part is at fault. Besides that, one
# **joint** is poor: it sits in the path of the current, and it is not at the part that you will change. Only where a
# joint itself is behind the complaint, that one is all.
#
# | Question | Marks |
# |---|---|
# | Follow the schematic | 2 |
# | Volts across a switch | 2 |
# | Ohms of the condenser fan | 1 |
# | Timer and terminator | 2 |
# | The defrost heater | 2 |
# | What is behind the complaint | 2 |
# | The poor joint | 3 |
# | Insulation after the repair | 1 |
# | Safe order | 5 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - Marks for **safe order** come from the job sheet alone, and only if you took all the readings that the lab needs.
# - Read the old parts **before** you change one. A new part brings new joints, so change nothing but the part at fault.
# - A number counts as right within what the instruments allow. Give all the digits that they show.
# - **OL** means over range: the meter finds no path. Then your answer is `"OL"`.
# - No defrost timer, heater or terminator on your unit? Then those answers are `"none"`.
# - **Readings count.** The shortest way needs 9 readings, and 12 on a frost-free unit. You may take twice as many. Free
#   are looks, temperatures, insulation, volts on the outlet or with the plug out, earth and polarity.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk("reading_the_circuit")
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. `print(desk)` shows all of it. The acts: `desk.do("plug in")`,
# `desk.do("isolate")`, `desk.do("discharge", "run capacitor")`, `desk.do("zero leads")`,
# `desk.do("volts ac", "thermostat 1", "thermostat 2")`, `desk.do("ohms", "plug L", "cord L")`,
# `desk.do("clamp", "cord N")`, `desk.do("thermostat off")`, `desk.do("open door")`, `desk.do("advance timer")`,
# `desk.do("take off", "heater")`, `desk.do("put back", "heater")`, `desk.do("fit", "heater")`,
# `desk.do("fit", "cord")`, `desk.do("wait", "5 min")`, `desk.do("wait", "12 h")`,
# `desk.do("inspect", "condenser fan")`, `desk.do("listen")`, `desk.do("insulation", "plug L", "cabinet metal")`,
# `desk.do("continuity", "plug L", "thermostat 1")`.

# %% [markdown] key="trace-text"
# ## 1. Follow the schematic
#
# Which terminal is joined by wire with thermostat 2? Name one. And which switches lie on the way from cord L to the
# condenser fan?

# %% answer="trace"
after_thermostat = ""  # one of:
# "timer 1", "overload 1", "board L", "condenser fan 1", "evaporator fan 1", "lamp 1", "door switch 1"
fan_path = ""  # "thermostat", "thermostat and timer", "thermostat and door switch", "door switch" or "timer"

# %% check="trace"

# %% [markdown] key="across-text"
# ## 2. Volts across a switch
#
# Plugged in, door shut, nothing changed yet. Read volts across the door switch, and volts across the thermostat with
# its knob on. What do the volts tell you of the thermostat's contact?

# %% answer="across"
door_switch_volts = ""  # such as "24.5 V"
thermostat_contact = ""  # "closed", "open" or "cannot tell"

# %% check="across"

# %% [markdown] key="apart-text"
# ## 3. Ohms of the condenser fan
#
# The one that came with the unit. What has its winding alone?

# %% answer="apart"
fan_ohms = ""  # such as "42.5 ohm" or "OL"

# %% check="apart"

# %% [markdown] key="defrost-text"
# ## 4. Timer and terminator
#
# As the unit came in, before you turned the timer: which terminal did timer 1 join? And what did the terminator do
# while it was cold?

# %% answer="defrost"
timer_joins = ""  # "timer 2", "timer 4" or "none"
terminator_cold = ""  # "closed", "open" or "none"

# %% check="defrost"

# %% [markdown] key="heater-text"
# ## 5. The defrost heater
#
# The one that came with the unit: its ohms, taken off. And the watts that it takes on the supply volts that you read.

# %% answer="heater"
heater_ohms = ""  # such as "61.3 ohm", "OL" or "none"
heater_watts = ""  # such as "250 W"; "0 W" if it draws nothing; "none" for no heater

# %% check="heater"

# %% [markdown] key="fault-text"
# ## 6. What is behind the complaint
#
# Which part, and what is wrong with it? If a joint is behind the complaint, name the part that the joint is at.

# %% answer="fault"
# "cord", "thermostat", "door switch", "lamp", "condenser fan", "evaporator fan", "compressor", "defrost timer",
# "heater"
component = ""  # or "terminator"
# "open", "stuck open", "stuck closed", "drifted", "seized", "loose joint", "stuck at cooling"
wrong = ""  # or "stuck at defrost"

# %% check="fault"

# %% [markdown] key="joint-text"
# ## 7. The poor joint
#
# Volts stand across it while the unit runs. Name the terminal, give the volts lost in the joint, and the watts of heat
# that it makes. Read volts and amps under the same load: let it run for five minutes first. If the compressor only
# hums, pull the plug, take the overload off and let the fans be the load. Put it back afterwards.
#
# Volts between A and B: is it A or B? Read each to a **third** terminal on the same line. The poor one shows volts to
# both others.

# %% answer="joint"
joint = ""  # "cord L", "cord N", "thermostat 1", "thermostat 2", "overload 1", "board L" or "timer 1"
joint_volts = ""  # such as "0.75 V"
joint_watts = ""  # such as "1.4 W"

# %% check="joint"

# %% [markdown] key="insulation-text"
# ## 8. Insulation after the repair
#
# The right part is in, the plug is out. Test plug L and plug N to the cabinet metal at 500 V d.c. Give the lower one.

# %% answer="insulation"
insulation = ""  # such as "250 Mohm", or "OL" if the tester shows more than its range

# %% check="insulation"

# %% [markdown] key="safe-order-text"
# ## 9. Safe order
#
# Nothing to type here. One mark each: no hazard on your job sheet; proved dead before the first ohms; the right part
# fitted, and earth, insulation and polarity proved after it; shown to work, with the clamp at the new part (for a
# heater or a terminator its ohms will do); and no more than twice the readings of the shortest way.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
