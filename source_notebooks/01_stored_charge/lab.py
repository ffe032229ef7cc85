# %% [markdown] key="title"
# # Stored charge: the lab
#
# You get one cooler of your own. Find out what its capacitor holds and what empties it, then answer eight questions. 20
# marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead**, in full. Try the meter on a live source. Plug out, read volts a.c. L
#   to N, L to E and N to E. Then try the meter on the live source again.
# - ⚠ **Dead is not empty.** Read volts d.c. across the capacitor. Discharge it through a resistor. Read again: near
#   zero. Only then may hands or ohms go there.
# - ⚠ **No screwdriver.** It makes an arc that throws hot metal.
# - ⚠ **A run capacitor at work is live.** Tips go on with the plug out. Hands off when it is in.
# - ⚠ **It may burn.** Read which refrigerant is in the cooler.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A cooler came in, and it runs. The work order names its start capacitor, its run capacitor, or the bus capacitor of
# its board. What can it hold? What empties it? Prove it dead in full before you touch it. You fit nothing: put back
# what you take off. The bench shows the work order, what lies in the van, and the nameplate.
#
# | Question | Marks |
# |---|---|
# | Volts left with the plug out | 1 |
# | The most volts it can hold | 1 |
# | Charge and energy at that peak | 2 |
# | The discharge lead | 3 |
# | A bleed resistor for it | 2 |
# | What empties it by itself | 2 |
# | What it is worth | 3 |
# | Two capacitors together | 2 |
# | Safe order | 4 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - Marks for **safe order** come from the job sheet alone, and only if you took all the readings that the lab needs.
# - Read what is left **before** you discharge it. Did you forget? Plug in, pull the plug, and read again.
# - A number counts as right within what the meter allows. Where no meter comes in, three digits are enough.
# - In long sums keep at least four digits until the end.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk("stored_charge")
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. Put "run" for "start" where your job is a run capacitor. On a board the
# two ends are "board plus" and "board minus", and you discharge the "board".
# `desk.do("volts ac", "outlet L", "outlet N")`, `desk.do("isolate")`, `desk.do("volts ac", "plug L", "plug N")`,
# `desk.do("volts dc", "start capacitor 1", "start capacitor 2")`, `desk.do("discharge", "start capacitor")`,
# `desk.do("inspect", "start capacitor")`, `desk.do("take off", "start capacitor")`,
# `desk.do("capacitance", "start capacitor 1", "start capacitor 2")`,
# `desk.do("ohms", "start capacitor 1", "start capacitor 2")`, `desk.do("put back", "start capacitor")`,
# `desk.do("plug in")`, `desk.do("wait", "10 s")`.

# %% [markdown] key="left-text"
# ## 1. Volts left with the plug out
#
# Tips on outlet L and outlet N: press **Volts a.c.**, so you know that the meter works. Press **Pull the plug, lock it
# off**. Press **Volts a.c.** on plug L and N, plug L and E, plug N and E: all zero. Then outlet L and N once more. Now
# it is proved dead.
#
# Tips on the two ends of the capacitor: press **Volts d.c.**, before you discharge it. What does the meter show?

# %% answer="left"
volts_left = ""  # such as "165.3 V"

# %% check="left"

# %% [markdown] key="peak-text"
# ## 2. The most volts it can hold
#
# That is the **peak**: √2 times the RMS volts. Work it out twice, for questions 3 to 6 rest on it.
#
# - Start capacitor: take the volts that are printed on it.
# - Run capacitor: read volts a.c. across it while the compressor runs. Best before you pull the plug.
# - Bus capacitor of a board: read volts a.c. of the supply, on the outlet.

# %% answer="peak"
peak_volts = ""  # such as "233 V"

# %% check="peak"

# %% [markdown] key="stored-text"
# ## 3. Charge and energy at that peak
#
# Press **Discharge it through a resistor**. Press **Volts d.c.** again: near zero. Press **Look at it**, then **Take it
# off**, and read its capacitance. That of a board stands on the work order. What would be in it at the peak?

# %% answer="stored"
charge = ""  # such as "42 mC"
energy = ""  # such as "4.9 J"

# %% check="stored"

# %% [markdown] key="lead-text"
# ## 4. The discharge lead
#
# There are three leads in the van, and a screwdriver. The right one keeps two rules. At the first moment it takes no
# more than **ten times** its watts. And it brings the peak down to **5 V** within **30 s**. (Both rules are common
# practice.)
#
# Give the first watts in the lead with the **fewest** ohms. Give the time down to 5 V on the lead with the **most**
# ohms. Then choose.

# %% answer="lead"
low_lead_watts = ""  # such as "540 W"
high_lead_time = ""  # such as "3200 s"
lead = ""  # "A", "B", "C" or "screwdriver"

# %% check="lead"

# %% [markdown] key="bleed-text"
# ## 5. A bleed resistor for it
#
# How many ohms may a resistor across it have, at most, to bring the peak down to **50 V** in **one minute**? And how
# many watts would the one that the work order offers take at work? Think which volts count for heat: a start or run
# capacitor has a.c. across it, the bus of a board d.c. For a start capacitor take the volts that are printed on it.

# %% answer="bleed"
bleed_ohm = ""  # such as "220 kohm"
bleed_watts = ""  # such as "0.8 W"

# %% check="bleed"

# %% [markdown] key="alone-text"
# ## 6. What empties it by itself
#
# Discharged, and a capacitor off the unit, read the ohms across it. With only that across it: how long from the peak
# down to 50 V? If the meter shows OL, the answer is `"never"`. A board stays in its place, so take what the meter
# shows.

# %% answer="alone"
ohms_across = ""  # such as "15.2 kohm" or "OL"
time_alone = ""  # such as "12.5 s" or "never"

# %% check="alone"

# %% [markdown] key="condition-text"
# ## 7. What it is worth
#
# Look at it. Then hold ohms and capacitance against the work order. For a board it tells what the meter reads in place.

# %% answer="condition"
# "in order", "bleed resistor missing", "bleed resistor open", "bleed resistor too high", "leaky" or "low"
condition = ""

# %% check="condition"

# %% [markdown] key="two-text"
# ## 8. Two capacitors together
#
# The work order names two odd capacitors, P and Q, how they are joined, and the d.c. volts across the two. How much
# energy is in the two together?

# %% answer="two"
energy_two = ""  # such as "1.5 J"

# %% check="two"

# %% [markdown] key="safe-order-text"
# ## 9. Safe order
#
# Nothing to type here. One mark each: no hazard on your job sheet; you proved the unit dead first, in full; you read
# what was left before you discharged it; you discharged it and read near zero before hands or ohms went there.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
