# %% [markdown] key="title"
# # Capacitors: the lesson
#
# A motor with one phase needs a push to start. A capacitor gives it. Here you learn to test one, to say what it is
# worth, and to choose the right new one.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back.
# - ⚠ **Prove it dead.** Try your meter on a live source. Measure the unit. Then try the meter on the live source again.
# - ⚠ **Discharge.** A capacitor keeps its charge when the plug is out. Let it out through a resistor, not through a
#   screwdriver. Then read volts d.c. across it: near zero.
# - ⚠ **A test at work is live.** Clamp the tips on with the plug out. Then plug in, and keep your hands off.
# - ⚠ **It can burst.** A start capacitor that stays in too long can blow. Do not look at it from close by.
# - ⚠ **Old ones may hold PCB.** Do not open one. Hand it in as your local rules say.
# - ⚠ **It may burn.** R-600a and R-290 are flammable. Read the label. Keep sparks away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Test a capacitor off the unit, in a safe order. (O*NET 49-9021.00 task 23552; EU 2015/2067 4.05)
# 2. Test a run capacitor at work, from volts and amps. (O*NET 49-9031.00 task 13790; EU 2015/2067 4.05)
# 3. Say what it is worth: good, open, shorted, low, leaky, or a wrong one. (O*NET 49-9021.00 task 23562)
# 4. Choose the spare that fits, and say why the others do not. (O*NET 49-9031.00 task 13792)
# 5. Join two, and know the volts that each must stand. (O*NET 49-9031.00 task 13790)
# 6. Find three sizes for one motor, and know what each is for. (O*NET 49-9021.00 task 23558)
#
# O*NET task lists, CC BY 4.0. EU 2015/2067 is no longer in force; its list is from memory.

# %% hide="true" key="set-up"
from coldwright.electrical.capacitor import parallel, series, series_volts
from coldwright.electrical.capacitor_sizing import quadrature_capacitance
from coldwright.electrical.capacitor_tests import microfarad_factor
from coldwright.panels import new_practice, practice_desk
from coldwright.panels.figures_capacitors import size_figure
from coldwright.panels.real_capacitor import real_capacitor

# %% [markdown] key="two-types"
# ## Two types
#
# | | Start capacitor | Run capacitor |
# |---|---|---|
# | How long it works | about a second per start | all the time the motor runs |
# | Usual size here | 60 µF to 210 µF | 4 µF to 15 µF |
# | May be off by | −0 % to +20 % | ±5 % |
# | Bleed resistor | 15 kΩ across it | none |
#
# The sizes and the limits are those of the coolers in this course. On a job the label or the maker's list counts. A
# start capacitor left in all the time gets hot and bursts. A run capacitor in its place gives too little push, for it
# is far too small.

# %% [markdown] key="predict"
# ## Predict
#
# This cooler runs on 120 V. Its run capacitor sits in line with the start winding. The motor is running. How many volts
# are across the capacitor? Write your guess between the quote marks, with the unit.

# %% key="prediction"
predicted = ""  # such as "60 V"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. The words beside it hold the work order: read them first. Then:
#
# 1. The plug is out: press **Pull the plug, lock it off**, so that it stays out.
# 2. Prove it dead. Press **Volts a.c.** on outlet L and N: the meter works. Then on plug L and N, plug L and E, plug N
#    and E: all zero. Then on outlet L and N again: the meter still works.
# 3. Press **Discharge it through a resistor**. Tips on run capacitor 1 and 2: press **Volts d.c.** Near zero? Then go
#    on.
# 4. Choose the run capacitor as the component. Press **Look at it**, **Take it off** and **Zero the leads**.
# 5. Tips on its two ends: press **Capacitance**, then **Ohms**.
# 6. Press **Put it back**. From now on hands off: press **Take the lock off, plug in**, choose 10 s and press **Wait**.
# 7. Choose the wire at run capacitor 1 and press **Amps in the clamp**.
# 8. Last of all, tips on run capacitor 1 and 2: press **Volts a.c.**

# %% key="desk"
desk = practice_desk(12, "capacitors")
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
# The volts are far **above** the supply. The turning rotor makes a voltage in the start winding too, and the winding
# and the capacitor pull against each other. So a run capacitor on 120 V may be marked 250 V or 370 V. That is why you
# never fit one for fewer volts, and why you read the volts **across the capacitor**, not at the plug.
#
# ## Capacitance at work
#
# The current through a capacitor grows with its size, with the volts and with the frequency:
#
# $$C = \frac{I}{2 \pi f V}$$
#
# In µF: one million over (2 π f), times amps, over volts. That first number is worth knowing by heart.

# %% key="factors"
for hertz in (60, 50):
    print(f"{hertz} Hz: µF = {microfarad_factor(hertz):.0f} × amps / volts")

# %% [markdown] key="factors-text"
# Many books cut the first one off to 2652. Take the number of **your** supply: the other one is 20 % off.
#
# Now fill in what you found on the desk above. The cell says right or wrong, and why.

# %% key="desk-mark"
desk.mark(
    capacitance="",  # off the unit, such as "12.3 uF"
    resistance_across="",  # such as "15 kohm" or "OL"
    under_load="",  # from your volts and amps
    volts_in_service="",  # such as "250 V"
)

# %% [markdown] key="tests-text"
# ## What each test can see
#
# | What is wrong | Capacitance | Ohms | Label |
# |---|---|---|---|
# | shorted | OL | near zero | fits |
# | open | nothing | bleed resistor or OL | fits |
# | low | too little | bleed resistor or OL | fits |
# | leaky | looks right | far below the bleed resistor | fits |
# | wrong value | fits its own label | bleed resistor or OL | not the nameplate |
# | wrong voltage | looks right | bleed resistor or OL | too few volts |
#
# So one reading is never enough. Take all three: capacitance, ohms, label. And read it **off the unit**. Still wired
# in, the windings hang beside it, and the meter shows nonsense.
#
# Here are three odd cases. Put the number into the cell, work it, and give your answer.
#
# - **Unit 24**: the capacitance looks right.
# - **Unit 41**: so does this one. Read the label.
# - **Unit 43**: 15 kΩ across it. Is that a leak?

# %% key="odd-desk"
odd = practice_desk(24, "capacitors")
odd

# %% [markdown] key="odd-words"
# The answer is one of: `"good"`, `"open"`, `"shorted"`, `"low"`, `"leaky"`, `"wrong value"`, `"wrong voltage"`.

# %% key="odd-mark"
odd.mark(condition="", part="")  # part: a letter, or "none" if the old one stays

# %% [markdown] key="spare-text"
# ## Which spare fits
#
# Go by the **nameplate**, not by the old part. Someone may have put a wrong one in.
#
# 1. The same capacitance, within the maker's tolerance.
# 2. The same volts or more, never less.
# 3. The same type: start for start, run for run.
# 4. Marked for your frequency.
# 5. A bleed resistor if the maker's one has it.
#
# This is common practice. The maker may ask for more, such as a size, a heat rating or a safety class.

# %% [markdown] key="together-text"
# ## Two together
#
# Sometimes no spare has the right value. Two may make it between them.
#
# - **Side by side** (in parallel): the values add up. Each one has the whole voltage.
# - **In a row** (in series): product over sum. The value is less than that of the smaller one. They share the volts,
#   and the **smaller** one takes the **larger** part.
#
# Do this on a job only if the maker allows it, and give each one its own bleed resistor if the maker's had one.
#
# **Predict:** 6 µF and 12 µF in a row on 450 V. Which one has more volts across it? Then run the cell.

# %% key="together"
pair = (6e-6, 12e-6)
small, large = series_volts(pair, 450.0)
print(f"Side by side: {parallel(pair) * 1e6:.0f} µF. In a row: {series(pair) * 1e6:.0f} µF.")
print(f"In a row the 6 µF one has {small:.0f} V across it, the 12 µF one {large:.0f} V.")

# %% [markdown] key="sizing-text"
# ## Three sizes for one motor
#
# With the rotor held still, a maker reads volts, amps and watts of each winding alone. Ohm's law does the rest:
#
# $$R = \frac{P}{I^2}, \qquad Z = \frac{V}{I}, \qquad X = \sqrt{Z^2 - R^2}$$
#
# These values come from the maker or from a test bench. **Do not try this on a sealed unit.** You cannot hold its
# rotor, and a winding at locked-rotor amps gets too hot within seconds. Never bridge the overload.
#
# There are three sizes that someone may call the best:
#
# - **90° between the two currents:** $X_C = X_s + R_s R_r / X_r$
# - **Most torque per amp:** $X_C = X_s + \left(Z_r \sqrt{R_s (R_s + R_r)} - X_r R_s\right) / R_r$
# - **Most torque:** $X_C = X_s + R_s (Z_r - X_r) / R_r$
#
# The small letter r stands for the run winding, s for the start winding. Then $C = 1 / (2 \pi f X_C)$.
#
# An example from print is in A. E. Fitzgerald, C. Kingsley and S. D. Umans, *Electric Machinery*, 6th edition, Example
# 9.1. Run winding 4.5 + j3.7 Ω, start winding 9.5 + j3.5 Ω, 60 Hz. What size puts the currents 90° apart? We saw this
# example in a textbook companion, which gives 176 µF. From memory, the book itself prints 177 µF.

# %% key="sizing-example"
farad = quadrature_capacitance(4.5 + 3.7j, 9.5 + 3.5j, 60.0)
print(f"For 90° between the currents: {farad * 1e6:.0f} µF")

# %% [markdown] key="figure-text"
# **Predict.** "90° is best." Many people say so. Is the torque highest there? Think first, then run the cell.

# %% key="figure"
size_figure(run_r="4.5 ohm", run_x="3.7 ohm", start_r="9.5 ohm", start_x="3.5 ohm", supply="120 V", frequency="60 Hz")

# %% [markdown] key="figure-explain"
# A larger capacitor lets more current through the start winding. At first that gains more than the worse angle costs.
# So the most torque comes at a **larger** size than 90°. But the line must carry that current, and the lights dim. The
# size in between gives the most torque for each amp.
#
# This is only the start, with the rotor still. A run capacitor is far smaller, for it is chosen for the running motor.
# The picture tells why a maker chose a size. It is no reason to fit another one.

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back:
# `practice_desk(12, "capacitors")`.

# %% key="practice-desk"
practice = new_practice("capacitors")
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank. `practice.solution()` shows every answer with its
# reason.

# %% key="practice-mark"
practice.mark(
    capacitance="",  # such as "12.3 uF", "open", "shorted" or "OL"
    resistance_across="",  # such as "15 kohm" or "OL"
    lowest_allowed="",
    highest_allowed="",
    condition="",
    part="",  # a letter or "none"
    owners_spare="",  # "capacitance", "voltage", "type", "frequency" or "bleed resistor"
    made_up="",
    volts_on_p="",
    quadrature="",
    most_torque="",
    most_torque_per_amp="",
    under_load="",
    volts_in_service="",
)

# %% [markdown] key="real-text"
# ## On a real unit
#
# Read the cautions at the top again. This test is live. Do it only if you are allowed to.
#
# Prove it dead and discharge it. Put the clamp round **one** wire of the capacitor and the tips on its own two ends,
# with the plug out. Then plug in, hands off. Type your readings with all digits that the meters show. **The numbers
# below are an invented example.** The accuracy of each meter stands in its manual. A tolerance may be `"±5 %"`,
# `"-0 +20 %"` or a range such as `"88-108 uF"`.

# %% key="real-unit"
real_capacitor(
    volts="352.4 V",  # across the capacitor
    amps="1.34 A",  # through one of its wires
    frequency="50 Hz",
    volts_meter="1 % + 3 digits",
    amps_meter="1.5 % + 2 digits",
    marked="12 uF",  # on the nameplate
    tolerance="±10 %",
    marked_volts="450 V",
    kind="run",  # "run" or "start"
    bleed="no",  # does the maker's one have a bleed resistor: "yes" or "no"
)

# %% [markdown] key="next"
# A clamp and a voltmeter add their errors up. Near the edge they cannot tell, and the cell says so. Then measure it off
# the unit.
#
# Ready? Open the [lab](lab.ipynb).
