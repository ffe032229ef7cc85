# %% [markdown] key="title"
# # Start circuits: the lab
#
# You get one cooler of your own. Find out why it does not start as it should, with few readings. Put it right and prove
# it safe. 20 marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead** before your first ohms reading and before your hands go in. Read
#   volts a.c. on all three pairs of the plug, with a meter that you tried on the live outlet.
# - ⚠ **Discharge** start and run capacitors through a resistor before you touch what hangs on them.
# - ⚠ **The start test** puts power on bare pins: covers on, eyes away, a few seconds, and never under vacuum.
# - ⚠ **Mind the pins.** They can blow out under pressure. Keep the cover on under power.
# - ⚠ **Hot parts.** A PTC and a clicking compressor burn you.
# - ⚠ **It may burn.** Read which refrigerant is in it. Keep sparks away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A cooler came in. It has stood for hours with the plug out. The bench tells you what its owner says and what its plate
# says. Measure until you can name the part and what is wrong with it.
#
# | Question | Marks |
# |---|---|
# | A good start device of this kind | 2 |
# | Start amps, as found | 1 |
# | What has failed | 3 |
# | What to do | 1 |
# | The two windings at start | 3 |
# | Running | 2 |
# | The supply while it starts | 2 |
# | Safe order, economy and proof | 6 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - **Economy.** Looking, listening, volts, the clamp and the proofs are free. What counts are ohms, capacitance and the
#   start test, up to the repair. The course works out the best sequence for your unit. Up to three readings more than
#   that give one mark, up to one more gives the second.
# - Your readings must leave **one** fault possible and rule out all others. Read a part with ohms when it is **off**,
#   and the pins when start device, overload and run capacitor are off.
# - "As found" means before the repair. "As you leave it" means after the last part went in, nothing off. If there is
#   no part to fit, the unit as it came is the unit as you leave it.
# - Let it rest for five minutes between two starts. A PTC and an overload have to cool.
# - Read a PTC off the unit five to ten minutes after a run of two minutes or more. A good one is cold by then.
# - A relay's contact, a stuck rotor and a dead winding are never condemned by ear alone: the best sequence holds the
#   readings that prove them.
# - Marks for the way of working come from the job sheet alone, and only if you took all the readings that the lab
#   needs.
# - A number counts as right within what the instruments allow. Give all the digits that they show.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk("start_circuits")
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. Each act has a name: `desk.do("volts ac", "outlet L", "outlet N")`,
# `desk.do("inspect", "relay")`, `desk.do("inrush", "cord L")`, `desk.do("listen")`, `desk.do("isolate")`,
# `desk.do("volts ac", "plug L", "plug N")`, `desk.do("discharge", "start capacitor")`, `desk.do("zero leads")`,
# `desk.do("take off", "relay")`, `desk.do("ohms", "relay 1", "relay 2")`, `desk.do("ohms", "pin C", "pin S")`,
# `desk.do("capacitance", "start capacitor 1", "start capacitor 2")`, `desk.do("start test")`,
# `desk.do("fit", "relay", "as the plate says")`, `desk.do("put back", "overload")`, `desk.do("wait", "5 min")`,
# `desk.do("lowest volts")`, `desk.do("clamp", "pin S")`, `desk.do("insulation", "plug L", "cabinet metal")`.

# %% [markdown] key="device-text"
# ## 1. A good start device of this kind
#
# Look at the wiring on the plate. Think of a **good** start device of that kind, cold and without power. What does its
# switch show? And what makes it let go of the start winding?

# %% answer="device"
at_rest = ""  # "open", "closed", "low ohms" or "no device"
lets_go = ""  # "the run amps fall", "the start volts rise", "it heats up", "its time is over" or "it never does"

# %% check="device"

# %% [markdown] key="found-text"
# ## 2. Start amps, as found
#
# Read the volts at the outlet first, plug out. Then set the clamp to cord L and press **Plug in, keep the highest
# amps**. It plugs the unit in and keeps the most amps of the first seconds. Then listen.

# %% answer="found"
found_amps = ""  # such as "9.5 A"

# %% check="found"

# %% [markdown] key="diagnosis-text"
# ## 3. What has failed
#
# Make it safe. Then choose each next test by what it can rule out.

# %% answer="diagnosis"
# "relay", "PTC", "start switch", "start capacitor", "run capacitor", "overload", "start winding", "run winding",
# "rotor", "supply" or "none"
part = ""
# "open", "shorted", "low", "coil open", "contact stuck open", "contact welded", "upside down", "wrong rating",
# "cracked", "does not cool", "seized", "low voltage" or "nothing"
wrong = ""

# %% check="diagnosis"

# %% [markdown] key="remedy-text"
# ## 4. What to do
#
# What puts it right? Then do it on the bench, if a part here can. A relay that sits wrong can be fitted the right way
# up: its spare is called "the old one, set upright". Put back all that you took off.

# %% answer="remedy"
# "new relay", "relay upright", "new PTC", "new start switch", "new start capacitor", "new run capacitor", "new
# overload", "new compressor", "put the supply right" or "nothing"
remedy = ""

# %% check="remedy"

# %% [markdown] key="start-text"
# ## 5. The two windings at start
#
# On the unit **as you leave it**, by **Plug in, keep the highest amps**: the start amps at pin R, at pin S and at pin
# C. Pull the plug and let it rest between them.

# %% answer="start"
start_run = ""  # at pin R, such as "9.5 A"
start_start = ""  # at pin S
start_common = ""  # at pin C

# %% check="start"

# %% [markdown] key="running-text"
# ## 6. Running
#
# As you leave it: let it run for a minute or more. What does one wire of the cord carry, and what the wire to pin S? If
# it does not run on, listen to it once more and say so.

# %% answer="running"
running_line = ""  # at cord L, such as "1.25 A" or "does not run"
running_start = ""  # at pin S

# %% check="running"

# %% [markdown] key="supply-text"
# ## 7. The supply while it starts
#
# As you leave it: plug out, read the **lowest volts** at a start (it plugs the unit in), and the start amps at cord L.
# Take the volts at rest at the outlet minus the lowest volts, and divide by those amps. If the dip is so small that the
# meter cannot tell it from nothing, say so. And is the supply in order?

# %% answer="supply"
source_ohm = ""  # such as "0.45 ohm" or "cannot tell"
supply = ""  # "in order" or "too low"

# %% check="supply"

# %% [markdown] key="safe-order-text"
# ## 8. Safe order, economy and proof
#
# Nothing to type here. One mark each: there is no hazard on your job sheet; you proved it dead before the first ohms,
# on all three pairs, with the meter tried on the outlet before and after; two for economy; after the work you proved
# earth, insulation and polarity; you fitted what had failed and nothing else, and tried it.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
