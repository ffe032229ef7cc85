# %% [markdown] key="title"
# # Capacitors: the lab
#
# You get one cooler of your own. Test its capacitor, put it right, then answer seven questions. 20 marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead**, in full. Try the meter on a live source. Plug out, read volts a.c. L
#   to N, L to E and N to E. Then try the meter on the live source again.
# - ⚠ **Discharge** the capacitor through a resistor before you take it off or measure it. Then read volts d.c. across
#   it: near zero.
# - ⚠ **At work it is live.** Tips and clamp go on with the plug out. Hands off when it is in.
# - ⚠ **It can burst, and it may burn.** Keep your face away. Read which refrigerant is in the cooler.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A cooler came in from another shop. They left a slip with readings. You check one of its capacitors: the work order
# says which. Prove the unit dead in full before you touch it. Is the capacitor right? Then it stays. Is it not? Then
# fit the right spare. Prove your work, and see it run. The bench shows the work order, the slip, the shelf and the
# nameplate.
#
# | Question | Marks |
# |---|---|
# | The capacitor, off the unit | 3 |
# | What the maker's tolerance allows | 2 |
# | What it is worth | 2 |
# | The right spare | 2 |
# | Two capacitors together | 2 |
# | Three sizes for one motor | 3 |
# | At work | 2 |
# | Safe order | 4 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - Marks for **safe order** come from the job sheet alone, and only if you took all the readings that the lab needs.
# - Test the old capacitor **before** you fit another one. What the shelf says is true.
# - A number counts as right within what the meters allow. Where no meter comes in, three digits are enough.
# - In long sums keep at least four digits until the end.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk("capacitors")
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. Put "start" for "run" where your job is a start capacitor:
# `desk.do("volts ac", "outlet L", "outlet N")`, `desk.do("isolate")`, `desk.do("volts ac", "plug L", "plug N")`,
# `desk.do("discharge", "run capacitor")`, `desk.do("volts dc", "run capacitor 1", "run capacitor 2")`,
# `desk.do("take off", "run capacitor")`, `desk.do("zero leads")`,
# `desk.do("capacitance", "run capacitor 1", "run capacitor 2")`,
# `desk.do("ohms", "run capacitor 1", "run capacitor 2")`, `desk.do("inspect", "run capacitor")`,
# `desk.do("fit", "run capacitor", "A")`, `desk.do("put back", "run capacitor")`,
# `desk.do("ohms", "plug E", "cabinet metal")`, `desk.do("insulation", "plug L", "cabinet metal")`,
# `desk.do("continuity", "plug L", "thermostat 1")`, `desk.do("plug in")`, `desk.do("wait", "10 s")`,
# `desk.do("clamp", "run capacitor 1")`, `desk.do("inrush", "start capacitor 1")`.

# %% [markdown] key="off-the-unit-text"
# ## 1. The capacitor, off the unit
#
# The one that came with the cooler. First prove the unit dead: **Volts a.c.** on outlet L and N, then with the plug out
# on plug L and N, plug L and E, plug N and E, then outlet L and N again. Press **Discharge it through a resistor**, and
# **Volts d.c.** across it: near zero. Press **Take it off** and **Zero the leads**.
#
# Tips on its two ends: press **Capacitance**, then **Ohms**. Press **Look at it** too. Does the meter find no
# capacitance, or show OL on it? Then the ohms tell whether it is `"open"` or `"shorted"`.

# %% answer="off_the_unit"
capacitance = ""  # such as "12.3 uF", or "open", "shorted" or "OL"
resistance_across = ""  # such as "15 kohm" or "OL"

# %% check="off_the_unit"

# %% [markdown] key="tolerance-text"
# ## 2. What the maker's tolerance allows
#
# The work order gives the tolerance, the nameplate the value. What are the least and the most that a good one may have?

# %% answer="tolerance"
lowest_allowed = ""  # such as "12.3 uF"
highest_allowed = ""

# %% check="tolerance"

# %% [markdown] key="condition-text"
# ## 3. What it is worth
#
# Judge it by the nameplate, not by its own label.

# %% answer="condition"
condition = ""  # "good", "open", "shorted", "low", "leaky", "wrong value" or "wrong voltage"

# %% check="condition"

# %% [markdown] key="spare-text"
# ## 4. The right spare
#
# Which spare goes in? If the old one is good, no spare does. And the owner brought one along: which rule does it break?

# %% answer="spare"
part = ""  # "A", "B", "C", "D", "E", "F" or "none"
owners_spare = ""  # "capacitance", "voltage", "type", "frequency" or "bleed resistor"

# %% check="spare"

# %% [markdown] key="two-together-text"
# ## 5. Two capacitors together
#
# The odd ones P and Q make the value on the nameplate if you join them the right way. Which way is it? Give the value
# that they make then. And give the volts that P must stand. The work order says how many volts are across the two.

# %% answer="two_together"
made_up = ""  # such as "12.3 uF"
volts_on_p = ""  # such as "310 V"

# %% check="two_together"

# %% [markdown] key="sizing-text"
# ## 6. Three sizes for one motor
#
# Take the slip: volts, amps and watts of each winding with the rotor held still. Work out the three sizes for this
# motor, at the frequency of your supply.

# %% answer="sizing"
quadrature = ""  # 90° between the currents, such as "12.3 uF"
most_torque = ""
most_torque_per_amp = ""

# %% check="sizing"

# %% [markdown] key="at-work-text"
# ## 7. At work
#
# First put the right capacitor in: **Fit the spare** or **Put it back**. Then prove your work with the plug out:
# **Ohms** from plug E to the cabinet metal, **Test insulation** from plug L and from plug N to the cabinet metal, and
# **Ohms** from plug L to thermostat 1.
#
# ⚠ What comes now is live. The clamp goes on with the plug out. From the moment that it is plugged in, keep your hands
# off and your face away.
#
# - **A run capacitor:** press **Take the lock off, plug in** and wait 10 s. Choose the wire at one of its ends and
#   press **Amps in the clamp**. Tips on its two ends: press **Volts a.c.** Work out its capacitance under load.
# - **A start capacitor:** with the plug out, choose the wire at one of its ends under **Clamp round** and press **Plug
#   in, keep the highest amps**. For the capacitance under load take the slip: the old one was on the supply for one
#   second. Next to no amps? Then write `"open"`. Did it blow the fuse? Then write `"shorted"`. For the volts take the
#   rotor still, the supply and the value of the nameplate, and the start winding from question 6:
#   $V_C = V \cdot X_C / \sqrt{R_s^2 + (X_s - X_C)^2}$

# %% answer="at_work"
under_load = ""  # such as "12.3 uF", or "open" or "shorted"
volts_in_service = ""  # across the capacitor, such as "310 V"

# %% check="at_work"

# %% [markdown] key="safe-order-text"
# ## 8. Safe order
#
# Nothing to type here. One mark each: there is no hazard on your job sheet, you proved the unit dead first and in full,
# you discharged the capacitor before you touched it, and the right one is in its place with all proofs after it.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
