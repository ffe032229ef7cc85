# %% [markdown] key="title"
# # Stored charge: the lesson
#
# The plug is out. The meter proves it dead. Still the unit can bite: a capacitor keeps its charge. Here you learn how
# much it holds, how long it keeps it, and how to let it out.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back.
# - ⚠ **Prove it dead.** Try your meter on a live source. Measure the unit. Then try the meter on the live source again.
# - ⚠ **Dead is not empty.** Read volts d.c. across each capacitor. Discharge it through a resistor. Then read again:
#   near zero.
# - ⚠ **No screwdriver.** A short makes an arc. It throws hot metal, and it can burst the capacitor.
# - ⚠ **A board is not safe with the plug out.** The bus of an inverter holds its volts for minutes. Read them first.
# - ⚠ **Old ones may hold PCB.** Do not open one. Hand it in as your local rules say.
# - ⚠ **It may burn.** R-600a and R-290 are flammable. Read the label. Keep sparks away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Make a charged capacitor safe, in the right order. (Covers: O*NET 49-9021.00 task 23557; EU 2015/2067 4.05)
# 2. Say how much charge and energy it can hold. (Covers: O*NET 49-9021.00 task 23552; EU 2015/2067 4.05)
# 3. Say how long until it is safe, and when it never is. (Covers: O*NET 49-9021.00 task 23562)
# 4. Choose a discharge lead and a bleed resistor. (Covers: O*NET 49-9031.00 task 13792)
# 5. Find a bleed resistor that is missing, open or too high. (Covers: O*NET 49-9031.00 tasks 13790, 13799)
#
# O*NET task lists, CC BY 4.0. EU 2015/2067 is no longer in force; its list is from memory.

# %% hide="true" key="set-up"
from coldwright.electrical.capacitor import parallel, series, stored_energy
from coldwright.electrical.capacitor_discharge import PLUG_PINS, bleed_resistance, discharge_resistor, volts_left
from coldwright.panels import new_practice, practice_desk
from coldwright.panels.figures_stored_charge import discharge_figure
from coldwright.panels.real_charge import real_charge

# %% [markdown] key="where"
# ## Where a charge can stay
#
# | Capacitor | What empties it | When it stays charged |
# |---|---|---|
# | start, with a current relay | its bleed resistor alone | the resistor is missing or burnt |
# | start, with a potential relay | the windings, as the relay closes again | the relay or a wire is off |
# | run | the windings beside it | a wire came off |
# | bus of an inverter board | a resistor on the board, slowly | for minutes, or far longer if it is burnt |
#
# A **bleed resistor** sits across the capacitor and lets the charge run out. On our start capacitors it has 15 kΩ.

# %% [markdown] key="predict"
# ## Predict
#
# This cooler runs on 120 V. It has a start capacitor and a current relay. You pull the plug and wait. How many volts
# d.c. are left on the capacitor? Write your guess between the quote marks, with the unit.

# %% key="prediction"
predicted = ""  # such as "0 V"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. The words beside it hold the work order: read them first. Then:
#
# 1. Tips on outlet L and outlet N: press **Volts a.c.** Now you know that the meter works.
# 2. Press **Pull the plug, lock it off**. Then **Volts a.c.** on plug L and N, plug L and E, plug N and E: all zero.
# 3. Tips on outlet L and outlet N again: the meter still works. So the unit is dead.
# 4. Choose 1 min and press **Wait**.
# 5. Tips on start capacitor 1 and 2: press **Volts d.c.**

# %% key="desk"
desk = practice_desk(24, "stored_charge")
desk

# %% [markdown] key="compare-text"
# ## Compare
#
# It takes your last reading, so let the volts across the capacitor be the last.

# %% key="compare"
desk.compare(predicted)

# %% [markdown] key="explain-text"
# ## Explain
#
# The unit is dead, and the capacitor is not. When the relay opened its contact at the end of the start, the volts of
# that moment stayed on it. They can be anything up to the **peak**. Nothing lets them out: on this unit the bleed
# resistor is gone. On volts **a.c.** your meter would have shown zero, for these volts do not change.
#
# Now go on, in this order:
#
# 1. Press **Discharge it through a resistor**. Press **Volts d.c.** again: near zero.
# 2. Choose the start capacitor as the component. Press **Look at it**, then **Take it off**.
# 3. Tips on its two ends: press **Capacitance**, then **Ohms**. Press **Put it back**.
#
# ## How much is in it
#
# The **peak** of the volts is √2 = 1.414 times what an a.c. meter shows. With the capacitance $C$ in farads:
#
# $$\text{charge} = C V, \qquad \text{energy} = \tfrac{1}{2} C V^2$$
#
# Charge is in coulombs (C), energy in joules (J). One µF is one millionth of a farad. Mind the half, and mind the
# square: twice the volts hold **four times** the energy.
#
# **Predict:** which holds more, 200 µF at 165 V or 50 µF at 330 V? Then run the cell.

# %% key="energy"
for microfarads, volts in ((200, 165), (50, 330)):
    print(f"{microfarads} µF at {volts} V: {stored_energy(microfarads * 1e-6, volts):.2f} J")

# %% [markdown] key="energy-text"
# Now fill in what you found on the desk above. For the peak of a start capacitor, plan for the volts that are printed
# on it, times √2.

# %% key="desk-mark"
desk.mark(
    volts_left="",  # such as "165.3 V"
    peak_volts="",
    charge="",  # such as "42 mC"
    energy="",  # such as "4.9 J"
    ohms_across="",  # such as "15.2 kohm" or "OL"
    condition="",  # such as "in order" or "bleed resistor missing"
)

# %% [markdown] key="time-text"
# ## How long until it is safe
#
# Through a resistor $R$ the volts fall like this, from $V$ down to $v$:
#
# $$v = V e^{-t/RC}, \qquad t = R C \ln (V / v)$$
#
# $R$ times $C$ is the **time constant**, in seconds. After one of them 37 % of the volts are still there. It is **not**
# the time to safe. Use the **ln** key, not the log key.
#
# When is it safe? Two limits from the rules:
#
# - **50 V within one minute** (US National Electrical Code 460.6, from memory). We take it for all capacitors here.
# - **34 V within one second** at the pins of a plug (IEC 60335-1, clause 22.5, read as quoted).
#
# An example from print: J. O. Bird, *Electrical Circuit Theory and Technology*, chapter 17, Problem 2. A capacitor of
# 4 µF at 24 V is joined to 220 kΩ. What is left after 1.5 s? We saw this example in a textbook companion, which gives
# 4.4 V.

# %% key="time-example"
print(f"After 1.5 s there are {volts_left(24.0, 4e-6, 220e3, 1.5):.2f} V left.")

# %% [markdown] key="figure-text"
# **Predict.** The bus of an inverter board: 220 µF, 325 V, and 220 kΩ across it. Is it below 50 V after one minute?
# Think first, then run the cell. Then try a start capacitor: `"180 uF"`, `"233 V"`, `"15 kohm"`. And try `"OL"` for a
# resistor that is burnt.

# %% key="figure"
discharge_figure(capacitance="220 uF", volts="325 V", resistor="220 kohm")

# %% [markdown] key="bleed-text"
# ## What the resistor must stand
#
# Turn the formula round, and you have the most ohms that are quick enough:
#
# $$R = \frac{t}{C \ln (V / v)}$$
#
# The **watts** come from the volts: $V^2 / R$. Two things to keep apart:
#
# - **A discharge lead** is held on by hand. Its watts are highest at the first moment, with the **peak** volts. They
#   fade fast. All the joules of the capacitor go into it as heat.
# - **A bleed resistor** stays on. On a.c. the **RMS** volts count for its heat. On the bus of a board there is d.c., so
#   the whole volts count.
#
# Watts are not joules. Joules are how much. Watts are how fast.

# %% key="bleed"
pins = bleed_resistance(230 * 2**0.5, 1e-6, PLUG_PINS)
lead = discharge_resistor(325.0, 220e-6, 4700.0)
print(f"1 µF across the pins of a 230 V plug: at most {pins / 1e3:.0f} kΩ for 34 V within one second.")
print(f"4.7 kΩ on 220 µF at 325 V: {lead.peak_w:.1f} W at first, {lead.energy_j:.1f} J in all.")

# %% [markdown] key="lead-text"
# A lead with few ohms gets far too hot. A lead with many ohms takes for ever. A screwdriver has next to no ohms: the
# whole charge comes out at once, as an arc.

# %% [markdown] key="two-text"
# ## Two together
#
# Side by side (in parallel) the values add up. In a row (in series) it is product over sum. On the same volts, which
# pair holds more? **Predict**, then run the cell.

# %% key="two"
pair = (40e-6, 60e-6)
for name, farad in (("side by side", parallel(pair)), ("in a row", series(pair))):
    print(f"40 µF and 60 µF {name}: {farad * 1e6:.0f} µF, {stored_energy(farad, 300.0):.2f} J at 300 V")

# %% [markdown] key="odd-text"
# ## What a bad one looks like
#
# | What is wrong | A look | Ohms across it, off the unit |
# |---|---|---|
# | in order | resistor there | the maker's ohms |
# | bleed resistor missing | no resistor | OL |
# | bleed resistor open | resistor there | OL |
# | bleed resistor too high | resistor there | far more than the maker's ohms |
# | leaky capacitor | resistor there | far less than the maker's ohms |
#
# A **low** capacitor has the right ohms. Only its capacitance tells. A run capacitor here has no bleed resistor: then
# OL is right. A board stays in its place, so the meter reads its rectifiers too: with the resistor burnt open it shows
# about 2 MΩ, not OL. Its sheet says so.
#
# Here are four more units. Put the number into the cell, work it, and say what it is worth.
#
# - **Unit 20**: a board. What is left after a minute?
# - **Unit 21**: a run capacitor. What empties it?
# - **Unit 15**: you can see a resistor. Trust it?
# - **Unit 18**: nothing is left. Is all well?

# %% key="odd-desk"
odd = practice_desk(20, "stored_charge")
odd

# %% key="odd-mark"
odd.mark(condition="", ohms_across="", time_alone="")  # time_alone: such as "12.5 s" or "never"

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back:
# `practice_desk(24, "stored_charge")`.

# %% key="practice-desk"
practice = new_practice("stored_charge")
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank. `practice.solution()` shows every answer with its
# reason.
#
# The rules for the leads: at the first moment at most **ten times** the watts of the lead, and down to **5 V** within
# **30 s**. For the bleed resistor: **50 V** within **one minute**.

# %% key="practice-mark"
practice.mark(
    volts_left="",
    peak_volts="",
    charge="",
    energy="",
    low_lead_watts="",  # first watts in the lead with the fewest ohms
    high_lead_time="",  # time to 5 V on the lead with the most ohms
    lead="",  # "A", "B", "C" or "screwdriver"
    bleed_ohm="",  # the most ohms that bring it to 50 V in one minute
    bleed_watts="",  # watts of the offered one at work
    ohms_across="",
    time_alone="",
    condition="",
    energy_two="",
)

# %% [markdown] key="real-text"
# ## On a real unit
#
# Read the cautions at the top again. This cell tells what to expect. It does not make anything safe: your meter does.
#
# Type your readings with all digits that the meter shows. **The numbers below are an invented example.** Read the ohms
# with the capacitor empty. Nothing across it? Then `resistor="OL"`.
#
# What is **left** on it is chance: next time it can be more. So `kind="dc"` tells of now, and sizes no resistor. For
# that type the volts a.c. across it at work, or those printed on it, and write `kind="ac"`. For the bus of a board type
# the volts a.c. of the supply, and write `kind="bus"`.

# %% key="real-unit"
real_charge(
    volts="162.4 V",  # across the capacitor
    kind="dc",  # "dc" left with the plug out, "ac" at work or printed on it, "bus" for a board
    volts_meter="0.5 % + 3 digits",
    capacitance="189 uF",
    capacitance_tolerance="5 %",  # how far this number may be off
    resistor="15.1 kohm",  # across it, or "OL"
    resistor_tolerance="2 %",
)

# %% [markdown] key="next"
# Worked out is not measured. A resistor can burn open at any time. So each time: read, discharge, read again.
#
# Ready? Open the [lab](lab.ipynb).
