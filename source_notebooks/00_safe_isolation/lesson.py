# %% [markdown] key="title"
# # Safe isolation and the meter: the lesson
#
# A meter that shows zero tells you one of two things. The wire is dead, or the meter is. Here you learn to tell which,
# and to say how far a reading can be off.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back. Off at the thermostat is not
#   off: its first wire stays live.
# - ⚠ **Prove it dead.** Try your meter on a live source. Measure the unit. Then try the meter on the live source again.
# - ⚠ **Discharge.** A capacitor keeps its charge when the plug is out. Let it out through a resistor, not through a
#   screwdriver.
# - ⚠ **Live work only where you must, and only if you may.** One hand, dry floor, finger guards on the tips.
# - ⚠ **Never ohms on a live wire.** It can ruin the meter and hurt you.
# - ⚠ **No earth, no power.** If the earth path is lost or poor, leave the plug out until it is put right.
# - ⚠ **It may burn.** R-600a and R-290 are flammable. Read the label. Keep sparks away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Prove a unit dead, step by step. (O*NET 49-9021.00 task 23557; O*NET 49-9031.00 task 13790)
# 2. Choose a meter that stands the place, and the right range. (O*NET 49-9021.00 task 23557; EU 2015/2067 4.05)
# 3. Give a reading with its ±, and say if it agrees with the plate. (O*NET 49-9021.00 task 23562; EU 2015/2067 4.05)
# 4. Tell a ghost from a live wire. (O*NET 49-9031.00 task 13790)
# 5. Test an earth path, leads zeroed. (O*NET 49-9021.00 task 23552)
#
# O*NET task lists, CC BY 4.0. EU 2015/2067 is no longer in force; its list is from memory.

# %% hide="true" key="set-up"
from coldwright.electrical.measured import Measured
from coldwright.instruments.display import Range
from coldwright.instruments.limits import reading_limits
from coldwright.panels import new_practice, practice_desk
from coldwright.panels.figures_safe_isolation import ghost_figure
from coldwright.panels.real_safe_isolation import real_meter, real_reading

# %% [markdown] key="dead-text"
# ## Proving dead
#
# | Step | Why |
# |---|---|
# | Try the meter on a live source | A dead meter shows zero everywhere |
# | Pull the plug, lock it off | So that it stays dead |
# | L to N | The usual pair |
# | L to E and N to E | L and N can both be live: then L to N is zero |
# | Try the meter on the live source again | It may have died in between |
#
# Leave out one step and you have a number, not a proof.

# %% [markdown] key="predict"
# ## Predict
#
# This cooler is plugged in, but off at its thermostat. The lamp is out of its holder. The door is shut, so the door
# switch is open. The wire from the switch to the lamp ends in the air. The supply is about 218 V. What will a meter
# show from that wire to neutral? Write your guess between the quote marks, with the unit.

# %% key="prediction"
predicted = ""  # such as "30 V"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. Then:
#
# 1. Tips on outlet L and outlet N: press **Volts a.c.** It shows the supply, so the meter works.
# 2. Tips on cord L and cord N: press **Volts a.c.** It is off at the thermostat, and yet it is live.
# 3. Tips on door switch 2 and cord N: press **Volts a.c., low impedance**.
# 4. Same tips: press **Volts a.c.**, which is the usual input. Let this one be the last.

# %% key="desk"
desk = practice_desk(26, "safe_isolation")
desk

# %% [markdown] key="desk-words"
# No panel? Work in words: `desk.do("volts ac", "door switch 2", "cord N")`, and
# `desk.do("volts ac low impedance", "door switch 2", "cord N")`.

# %% [markdown] key="compare-text"
# ## Compare

# %% key="compare"
desk.compare(predicted)

# %% [markdown] key="explain-text"
# ## Explain
#
# More than half of the supply, on a wire that is joined to nothing! Two wires side by side make a small capacitor. A
# tiny current comes over from the live one. Your meter has 10 MΩ and takes next to nothing, so the volts stay up. That
# is a **ghost**.
#
# The low-impedance input has about 3 kΩ. It takes more than the ghost can give, and the volts break down. A truly live
# wire keeps its volts on both.
#
# The picture asks: how low must the input be? Change the values and run it again. The two small capacitances are of a
# likely size, no more.

# %% key="ghost-figure"
ghost_figure(supply="230 V", hertz="50 Hz", to_live="300 pF", to_earth="100 pF")

# %% [markdown] key="ghost-care"
# A word of care: a ghost looks harmless, but **you do not know it is one until you have tested it**. And a dead
# reading on the low input is no proof of dead by itself. The steps above are.

# %% [markdown] key="limit-text"
# ## A reading has a ±
#
# A meter's manual gives its accuracy like this: ± (0.8 % of the reading + 3 digits). A **digit** is one step of the
# last place shown. On a display of `118.4 V` one digit is 0.1 V. So:
#
# - 0.8 % of 118.4 V is 0.95 V
# - 3 digits are 0.3 V
# - together ± 1.25 V
#
# Percent **of the reading**, not of the range. And do not forget the digits.
#
# An example from print: D. A. Bell, *Electronic Instrumentation and Measurements*, Example 6-2. A meter shows 20.0 V,
# with ± (0.6 % + 1 digit). We read the example in a companion to the book, not in the book.

# %% key="bell"
bell = Range(full_scale=200.0, resolution=0.1, percent=0.6, digits=1)
print(f"The reading is 20.0 V ± {bell.limit(20.0):.2f} V. The companion has 0.22 V.")

# %% [markdown] key="range-text"
# ## Range and digit
#
# An old meter counts to 2000 and you turn the dial yourself. On its 200 V range one digit is 0.1 V. On its 600 V range
# one digit is 1 V. Take the **lowest range that goes higher than the reading**: it has the finest digit. Too low a
# range shows OL. Not sure? Start high, then go down.

# %% key="range-example"
for full_scale, digit in ((200.0, 0.1), (600.0, 1.0)):
    old_meter = Range(full_scale, digit, percent=1.2, digits=2)
    print(f"118 V on the {full_scale:.0f} V range: ± {old_meter.limit(118.0):.1f} V")

# %% [markdown] key="plate-text"
# ## Does it agree with the plate?
#
# The plate allows a band. Here: its volts ± 10 %, as most makers do (common practice; your maker counts). Your reading
# is a band too. So there are **three** answers:
#
# - all of the reading's band lies inside the plate's: it **agrees**
# - all of it lies outside: it **differs**
# - an edge of the plate lies inside your ±: this meter **cannot tell**
#
# ## Two limits at once
#
# Two meters read one supply: 118.4 V ± 1.2 V and 121.0 V ± 1.7 V. Do they agree? At worst the limits add up. But two
# separate meters are seldom off by all they may, and both to the wrong side. The likely limit is the root of the sum of
# squares. With the **same** meter on the same range the errors go together. In the **difference** of two such readings
# they largely cancel. For a **sum**, add the limits: that is the safe bound.

# %% key="two-limits"
both = reading_limits(lambda one, other: abs(other - one), Measured(118.4, 1.2), Measured(121.0, 1.7))
print(f"They are {both.value:.1f} V apart. Worst case ±{both.worst:.1f} V, likely ±{both.likely:.1f} V.")

# %% [markdown] key="two-limits-text"
# They are apart by more than the likely limit, but by less than the worst case. So you cannot be sure: read again.
#
# ## RMS and peak
#
# A meter shows **RMS** volts, and the plate means RMS too. A sine goes 1.414 times higher at its peak. That counts for
# what a capacitor holds after a bad moment, and for what its insulation must stand.
#
# ## The category
#
# The supply brings short, hard pulses. The nearer to where it comes in, the harder. So a place asks for a **category**,
# and the meter must have that category **and** enough volts:
#
# | Place | Category |
# |---|---|
# | where the supply comes in | CAT IV |
# | board, wall outlet, fixed motor | CAT III |
# | inside an appliance with a plug | CAT II |
#
# The places are those of IEC/EN 61010-1, 6.7.4, as quoted in the manual of an instrument. For a wall outlet you will
# find both CAT II and CAT III (IEC 61010-2-030, from memory). We take the stricter one. Your local code and your
# meter's manual count. By that reading CAT II 1000 V is **not** better there than CAT III 300 V: the volts do not make
# up for the category.

# %% key="category"
real_meter(place="outlet", mains="230 V", printed="CAT II 1000 V")

# %% [markdown] key="earth-text"
# ## The earth path
#
# Plug out, proved dead, tips together, **zero the leads**. Old leads have half an ohm, and that is as much as the whole
# path may have. Read ohms from plug E to bare metal. Here up to 0.5 Ω is good (common practice). Your local code may
# ask for less. A **beep is not enough**: this meter beeps up to 30 Ω.
#
# Now fill in what you found on the desk above. Open the door for the wire to the lamp: then its switch should close.

# %% key="desk-mark"
desk.mark(
    supply_volts="",  # such as "120.5 V"
    supply_limit="",  # its ±, such as "1.5 V"
    supply_verdict="",  # "within limits", "too low", "too high" or "cannot tell"
    wire_volts="",  # usual input, door open
    wire="",  # "live" or "ghost"
    earth_ohm="",  # such as "0.123 ohm" or "OL"
    earth="",  # "good", "poor" or "lost"
)

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back:
# `practice_desk(26, "safe_isolation")`. The words on the bench hold a colleague's note and the meters in the van.

# %% key="practice-desk"
practice = new_practice("safe_isolation")
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank. `practice.solution()` shows every answer with its
# reason.

# %% key="practice-mark"
practice.mark(
    supply_volts="",
    supply_limit="",
    supply_verdict="",
    old_range="",  # "2 V", "20 V", "200 V" or "600 V"
    old_digit="",  # such as "0.01 V"
    meter="",  # "A", "B" or "C"
    both_limits="",  # of your meter and the old one, such as "2.5 V"
    meters="",  # "agree" or "differ"
    peak_volts="",
    wire_volts="",
    wire="",
    earth_ohm="",
    earth="",
    fan_ohm="",  # condenser fan, taken off
    fan="",  # "agrees", "differs" or "cannot tell"
    note="",  # the step that is not on it, such as "L to E", or "nothing"
)

# %% [markdown] key="real-text"
# ## On a real unit
#
# Read the cautions at the top again. Then type your own reading, with all digits that the meter shows, and your meter's
# accuracy from its manual. **The numbers below are an invented example.** It takes volts, ohms, amps, watts, hertz and
# µF.

# %% key="real-reading"
real_reading(
    reading="108.9 V",
    meter="1 % + 3 digits",
    plate="120 V",
    tolerance="10 %",  # what the maker or your local code allows
)

# %% [markdown] key="real-meter-text"
# And your meter: may it be used where you want to measure? The places are `"source"`, `"board"`, `"outlet"`,
# `"fixed motor"` and `"appliance"`.

# %% key="real-meter"
real_meter(place="appliance", mains="120 V", printed="CAT III 600 V")

# %% [markdown] key="next"
# Ready? Open the [lab](lab.ipynb).
