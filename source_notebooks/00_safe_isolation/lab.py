# %% [markdown] key="title"
# # Safe isolation and the meter: the lab
#
# You get one unit of your own. Take readings on it, then answer ten questions. 20 marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead** before your first ohms reading and before your hands go in. Off at
#   the thermostat is not off.
# - ⚠ **Try the meter** on a live source before you prove dead, and try it again after. A dead meter shows zero too.
# - ⚠ **Discharge** what holds a charge before you touch it.
# - ⚠ **Live readings first, hands off the metal.** Only the tips touch.
# - ⚠ **No earth, no power.** Leave the plug out where the earth path is poor or lost.
# - ⚠ **It may burn.** Read which refrigerant is in it.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A cooler came in. Its lamp does not light. The owner took the lamp out and turned the cooler off at its thermostat.
# **It is still plugged in.** A colleague has left a note. Read all the words that the bench shows: they hold the note,
# the plate, and the meters in the van.
#
# It stood plugged in. On a job test the earth before you plug it in.
#
# | Question | Marks |
# |---|---|
# | The supply | 3 |
# | A range for the old meter | 2 |
# | The right meter for the place | 1 |
# | Two meters, one supply | 2 |
# | The peak | 1 |
# | The wire to the lamp | 2 |
# | The earth path | 2 |
# | The fan against its plate | 2 |
# | What the note lacks | 1 |
# | Safe order | 4 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - Marks for **safe order** come from the job sheet alone, and only if you took all the readings that the lab needs.
# - Take your **live readings first**: the supply, and the wire to the lamp. Then make it safe and go on.
# - A number counts as right within what the meter allows. Give all the digits that it shows.
# - **OL** means over range: the meter finds no path. Then your answer is `"OL"`.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk("safe_isolation")
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. Each act has a name: `desk.do("volts ac", "outlet L", "outlet N")`,
# `desk.do("volts ac low impedance", "door switch 2", "cord N")`, `desk.do("open door")`, `desk.do("isolate")`,
# `desk.do("zero leads")`, `desk.do("ohms", "plug E", "cabinet metal")`, `desk.do("take off", "condenser fan")`.
# `desk` alone shows all the words of the bench.

# %% [markdown] key="supply-text"
# ## 1. The supply
#
# Tips on outlet L and outlet N: press **Volts a.c.** The meter allows ± (0.8 % of the reading + 3 digits). Give that ±
# in volts as well, to a tenth or finer. Then: is the supply within the volts on the plate ± 10 %?

# %% answer="supply"
supply_volts = ""  # such as "120.5 V"
supply_limit = ""  # without the ±, such as "1.5 V"
supply_verdict = ""  # "within limits", "too low", "too high" or "cannot tell"

# %% check="supply"

# %% [markdown] key="range-text"
# ## 2. A range for the old meter
#
# The colleague's old meter counts to 2000. Its ranges are 2 V, 20 V, 200 V and 600 V. Which is the best one for the
# supply that you read? And how much is one digit on that range?

# %% answer="range"
old_range = ""  # "2 V", "20 V", "200 V" or "600 V"
old_digit = ""  # such as "0.01 V"

# %% check="range"

# %% [markdown] key="category-text"
# ## 3. The right meter for the place
#
# Three meters lie in the van. The bench tells what is printed on each, and where the first reading is to be taken.
# Which one may be used there? Take the volts on the plate for the volts to earth.

# %% answer="category"
meter = ""  # "A", "B" or "C"

# %% check="category"

# %% [markdown] key="two-meters-text"
# ## 4. Two meters, one supply
#
# The old meter's reading stands on the bench. It allows ± (1.2 % of the reading + 2 digits). Two separate meters: take
# the **root of the sum of squares** of both limits, to a tenth of a volt or finer. Do the two readings agree?

# %% answer="two_meters"
both_limits = ""  # without the ±, such as "2.5 V"
meters = ""  # "agree" or "differ"

# %% check="two_meters"

# %% [markdown] key="peak-text"
# ## 5. The peak
#
# How high does this supply go at its peak?

# %% answer="peak"
peak_volts = ""  # such as "170 V"

# %% check="peak"

# %% [markdown] key="wire-text"
# ## 6. The wire to the lamp
#
# Lamp out, plug in. Press **Open the door**. Is the wire that leads to the lamp live? Tips on door switch 2 and cord N:
# press **Volts a.c.**, then **Volts a.c., low impedance**. Give what the first one shows: that is the usual input.

# %% answer="wire"
wire_volts = ""  # such as "120.5 V"
wire = ""  # "live" or "ghost"

# %% check="wire"

# %% [markdown] key="earth-text"
# ## 7. The earth path
#
# Press **Pull the plug, lock it off** and prove it dead. Press **Zero the leads**. Then tips on plug E and cabinet
# metal: press **Ohms**. Up to 0.5 Ω counts as good here, more as poor, OL as lost. Your local code may ask for less on
# a real job.

# %% answer="earth"
earth_ohm = ""  # such as "4.2 ohm" or "OL"
earth = ""  # "good", "poor" or "lost"

# %% check="earth"

# %% [markdown] key="fan-text"
# ## 8. The fan against its plate
#
# Choose the condenser fan as the component, press **Take it off**, and read its ohms. The meter allows ± (0.2 % of the
# reading + 3 digits). The bench tells what the maker allows. Does the fan agree?

# %% answer="fan"
fan_ohm = ""  # such as "4.2 ohm"
fan = ""  # "agrees", "differs" or "cannot tell"

# %% check="fan"

# %% [markdown] key="note-text"
# ## 9. What the note lacks
#
# The colleague's note says how the unit was proved dead. Is it a proof? If one step is not on the note, name it.

# %% answer="note"
note = ""  # "live source before", "L to N", "L to E", "N to E", "live source after" or "nothing"

# %% check="note"

# %% [markdown] key="safe-order-text"
# ## 10. Safe order
#
# Nothing to type here. One mark each: there is no hazard on your job sheet, you tried the meter on a live source before
# and after the dead readings, you read all three pairs dead before the first ohms reading and before your hands went
# in, and you zeroed the leads first.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
