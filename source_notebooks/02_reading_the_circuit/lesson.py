# %% [markdown] key="title"
# # Reading the circuit: the lesson
#
# A cooler is too warm inside, yet the lamp lights. Which part keeps it off? The schematic tells you where to put the
# tips, and the volts tell you where the path ends. Here you learn to hunt for a break, and for a joint that gets warm.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back.
# - ⚠ **Prove it dead** before your first ohms. Try the meter on a live source, read L to N, L to earth and N to earth,
#   then try it on the live source again.
# - ⚠ **Live readings: only if you may.** Put the tips on with the plug out. Plug in, hands off, read, pull the plug.
# - ⚠ **A part that stands still can be live.** A switch may sit in neutral, or a wire may be broken behind the part.
# - ⚠ **Discharge** each capacitor through a resistor before your hands go in. An inverter board holds charge as well.
# - ⚠ **A defrost heater gets hot**, and a fan may start by itself. Keep fingers away.
# - ⚠ **It may burn.** R-600a and R-290 are flammable. Read the label. Keep sparks away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Follow a schematic from the plug to a part and back. (O*NET 49-9031.00 tasks 13790, 13801; 49-9021.00 task 23558)
# 2. Tell an open switch from a closed one by volts, and by ohms. (O*NET 49-9021.00 task 23552; EU 2015/2067 4.05)
# 3. Find a poor joint by its volts, and say how much heat it makes. (O*NET 49-9031.00 task 13790; EU 2015/2067 4.05)
# 4. Test thermostat, door switch, fans, timer, heater and terminator. (O*NET 49-9021.00 tasks 23556, 23562; EU 9.04)
# 5. Change the right part, and prove the repair. (O*NET 49-9031.00 tasks 13792, 13800)
#
# O*NET task lists, CC BY 4.0. EU 2015/2067 is no longer in force; its list is from memory.

# %% hide="true" key="set-up"
from coldwright.panels import new_practice, practice_desk
from coldwright.panels.figures_reading_the_circuit import one_load, schematic, way_figure
from coldwright.panels.real_reading_the_circuit import real_joint

# %% [markdown] key="schematic-text"
# ## The schematic
#
# It shows how parts are joined, not where they sit. Read it from the live side on the left to neutral on the right.
# All that one line joins is one **net**: between two points of a net there is nothing but wire.
#
# This is a frost-free cooler. Put your finger on cord L and go to the condenser fan. Which switches do you cross?

# %% key="schematic"
schematic("Tarn 17")

# %% [markdown] key="parts"
# ## The parts, and when they are closed
#
# | Part | Closed | Open |
# |---|---|---|
# | Thermostat | cabinet warm, knob on | cabinet cold, or knob off |
# | Door switch | door open: the lamp lights | door shut |
# | Defrost timer | timer 1 to timer 4 at cooling | timer 1 to timer 2 at defrost |
# | Terminator | evaporator cold | evaporator warm |
#
# The timer's own motor turns it on after some hours. In a defrost the compressor and the fans stand still, and the
# heater melts the ice. The terminator sits in line with the heater and stops it when the ice is gone. The water runs
# down a **drain** to a pan by the compressor, where it dries off. A drain that is blocked gives ice at the bottom and
# water in the cabinet. No meter finds that: look, and flush it with warm water.

# %% [markdown] key="predict"
# ## Predict
#
# This cooler is too warm inside. The lamp lights. It runs on 120 V. You plug it in and read volts across the
# thermostat. What will the meter show? Write your guess between the quote marks, with the unit.

# %% key="prediction"
predicted = ""  # such as "60 V"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. Do this:
#
# 1. The plug is out. Read volts a.c. on outlet L and outlet N: your meter works. Then plug L and plug N: zero.
# 2. **Plug in.** Read volts a.c. from thermostat 1 to thermostat 2. Run the cell under *Compare*.
# 3. Then read timer 1 to timer 4, and timer 1 to timer 2.
# 4. **Pull the plug.** Zero the leads. Read the same pairs in ohms.

# %% key="desk"
desk = practice_desk(4, "reading_the_circuit")
desk

# %% [markdown] key="compare-text"
# ## Compare

# %% key="compare"
desk.compare(predicted)

# %% [markdown] key="explain"
# ## Explain
#
# - Across an **open** switch stands the supply. Nothing flows, so nothing is lost anywhere else on the way.
# - Across a **closed** switch stands next to nothing. That is how a good one looks. It is not dead.
# - Across a switch **without supply** stands nothing either way. So check the supply first.
#
# On this unit the thermostat shows next to nothing: it is closed. The supply stands from timer 1 to timer 4. The timer
# sits at defrost. Turn it by hand: if it does not leave defrost, it is stuck. Who stops at the thermostat changes the
# wrong part.
#
# Ohms tell the same with the plug out. But ohms take every path. From timer 1 to timer 4 the meter still sees some
# kilohms, through the timer's motor and the fans. And a fan that is still wired reads the ohms of the parts beside it.
# For the ohms of one part, **take it off**.

# %% key="timer-answers"
desk.mark(
    timer_joins="",  # "timer 2", "timer 4" or "none"
    thermostat_contact="",  # "closed", "open" or "cannot tell"
    component="",
    wrong="",
)

# %% [markdown] key="way-text"
# ## Where do the volts stop?
#
# **Predict.** You go along the way to the fan and read volts to neutral at each point. Where do they drop if the
# thermostat is open? Run the cell. Then try `"loose joint"`, `"fan open"` and `"neutral broken"`.

# %% key="way-figure"
way_figure("thermostat open")

# %% [markdown] key="joint-text"
# ## A joint that gets warm
#
# A tab that sits loose has some ohms. While current flows, volts stand across it, and volts times amps turn into heat.
# Ohms with the plug out are too coarse for it: your leads alone have more. So read **volts across the joint, with the
# load on**. No load, no volts: then even a poor joint looks good.
#
# Put one tip on each side of the joint, not on neutral. On the bench each terminal is one side: cord L to
# thermostat 1, thermostat 2 to the next part, overload 1 to condenser fan 1, cord N to condenser fan 2. Then put the
# clamp round that wire. If the compressor only hums, take the overload off and let the fans be the load. And let a
# compressor rest for five minutes before you plug in again.
#
# Volts between A and B: is it A or B? Read each to a **third** terminal on the same line. The poor one shows volts to
# both others.
#
# $$P = V \cdot I \qquad R = V / I$$

# %% [markdown] key="watts-text"
# ## Watts of a heater
#
# From volts and ohms you get amps first, then watts: volts times volts, divided by ohms. An example from print (T. R.
# Kuphaldt, *Lessons in Electric Circuits*, "Calculating electric power"; read in a copy on the web): a lamp of 3 Ω on
# 18 V takes 6 A and 108 W. On 36 V it takes 12 A. Double the volts, and you get four times the watts.

# %% key="watts-example"
one_load("18 V", "3 ohm")
one_load("36 V", "3 ohm")

# %% [markdown] key="odd-cases"
# ## Four odd cases
#
# Each of these units has its own trap. Put its number into the cell, and work it on the bench.
#
# - **Unit 14, no supply.** Volts across the thermostat show zero. Does that tell you it is closed?
# - **Unit 59, a fan that stands still.** Is its winding open, or is its shaft stuck? Look at it with the plug in, then
#   take it off and read ohms.
# - **Unit 7, a thermostat that is open.** Wait for 12 hours with the plug out, so that the cabinet gets warm. Read it
#   again before you call it stuck.
# - **Unit 9, ice.** The heater gives no heat. Is it the heater? Read the terminator while it is cold.

# %% key="odd-case-desk"
odd = practice_desk(14, "reading_the_circuit")
odd

# %% key="odd-case-answers"
odd.mark(
    thermostat_contact="",  # "closed", "open" or "cannot tell"
    component="",  # such as "cord", "thermostat", "condenser fan" or "terminator"
    wrong="",  # such as "open", "stuck open", "drifted" or "seized"
)

# %% [markdown] key="repair"
# ## Change it and prove it
#
# 1. Plug out, dead, discharged. Take the part off and fit the new one. The cord is fitted in one go: `fit cord`.
# 2. A loose joint is made good by a new part with new tabs. On a real unit you can often remake the joint alone.
# 3. Prove it, plug out: **earth** from plug E to the metal, **insulation** from plug L and plug N to the metal at 500 V
#    d.c., **polarity** from plug L to thermostat 1. Take an inverter board off for the insulation test.
# 4. Plug in and show that it works: clamp the wire at the new part while it should draw current.

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back.

# %% key="practice-desk"
practice = new_practice("reading_the_circuit")
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank. `practice.solution()` shows every answer with its
# reason.

# %% key="practice-mark"
practice.mark(
    after_thermostat="",  # such as "timer 1" or "overload 1"
    fan_path="",  # such as "thermostat" or "thermostat and timer"
    door_switch_volts="",
    fan_ohms="",  # the condenser fan, taken off
    heater_ohms="",  # "none" where there is no heater
    heater_watts="",
    component="",
    wrong="",
    joint="",  # such as "overload 1"
    joint_volts="",
    joint_watts="",
)

# %% [markdown] key="real-text"
# ## On a real unit
#
# Read the cautions at the top again. This is a live reading: do it only if you may.
#
# Type your own readings with all digits that the meter shows. **The numbers below are an invented example.** How many
# volts may be lost in one joint? Ask the maker. The 0.1 V here is common practice, with no source to name.

# %% key="real-unit"
real_joint(
    across="0.620 V",  # across the joint or the closed switch, with the load on
    supply="119.6 V",
    amps="1.840 A",  # clamp round that wire, same load; "" if not read
    meter="0.8 % + 3 digits",  # accuracy on volts a.c., from the manual
    clamp="2 % + 5 digits",  # accuracy of the clamp
    allowed="0.1 V",
)

# %% [markdown] key="next"
# Ready? Open the [lab](lab.ipynb).
