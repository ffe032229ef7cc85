# %% [markdown] key="title"
# # Winding checks: the lesson
#
# A small cooler hums and then clicks off. Is the compressor dead, or something beside it? Three readings
# with a meter tell you a lot. Here you learn to take them, to name the pins, and to say what the windings are worth.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back.
# - ⚠ **Prove it dead.** Try your meter on a live source. Measure the unit. Then try the meter on the live source again.
# - ⚠ **Discharge.** A capacitor keeps its charge when the plug is out. Let it out through a resistor, not through a
#   screwdriver.
# - ⚠ **Mind the pins.** The pins of a sealed compressor can blow out under pressure, with hot oil. Never have your eyes
#   over the pins while the shell is under pressure. Keep the cover on the pins whenever there is power.
# - ⚠ **Never under vacuum.** Do not power a sealed compressor under vacuum, and do not test its insulation there. The
#   voltage jumps across inside.
# - ⚠ **It may burn.** R-600a and R-290 are flammable. Read the label. Keep sparks and flames away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Take the three readings in a safe order.
# 2. Name the common, run and start pins, and know when you cannot.
# 3. Use the sum rule with the limits of your meter.
# 4. Correct a reading to 20 °C, and get the rise of a winding from two readings.
# 5. Say what the windings are worth: good, open, shorted or grounded, and why.
#
# Covers: O\*NET 49-9021.00 tasks 23552, 23557, 23558, 23562; O\*NET 49-9031.00 tasks 13790, 13801; EU 2015/2067 4.05.
# (O\*NET task lists, CC BY 4.0. EU 2015/2067 is no longer in force; the rest of its list is from memory.)

# %% hide="true" key="set-up"
from coldwright.electrical.windings import resistance_at, temperature_rise
from coldwright.panels import new_practice, practice_desk, real_unit, winding_figure
from coldwright.quantities.constants import ICE_POINT_K

# %% [markdown] key="two-windings"
# ## Two windings, three pins
#
# The motor has a **run** winding and a **start** winding. One end of each is joined inside, and that joint goes to the
# **common** pin. The start winding is made of thinner wire, so it has more ohms.
#
# | Tips on | What the meter sees |
# |---|---|
# | common and run | the run winding |
# | common and start | the start winding |
# | run and start | both windings, one after the other |
#
# The pins on this unit carry no letters. They are called 1, 2 and 3.

# %% [markdown] key="predict"
# ## Predict
#
# The data sheet of this unit says: run winding 2.90 Ω, start winding 8.60 Ω. One pair of pins will read highest. What
# will it show? Write your guess between the quote marks, with the unit.

# %% key="prediction"
predicted = ""  # such as "5 ohm"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. Press its buttons in this order:
#
# 1. Tips on L and N, plug still in: **Read volts a.c.** It must show the supply. Now you know that the meter works.
# 2. **Pull the plug, lock it off.**
# 3. **Read volts a.c.** again: L and N, L and earth, N and earth. All must show zero. That proves it dead. On a real
#    job you now try the meter on a live source once more.
# 4. **Discharge the capacitor.** Read volts d.c. across its ends: near zero. Then **Pull the connector off.**
# 5. **Tips together, zero the leads.** Old leads add close to an ohm to each reading.
# 6. **Let it stand for 12 hours.** It came in hot, and a hot winding reads more.
# 7. Tips on pins 1 and 2, then 1 and 3, then 2 and 3: **Read ohms** each time.
#
# **OL** on the display means over range: the meter finds no path.

# %% key="desk"
desk = practice_desk(28)
desk

# %% [markdown] key="compare-text"
# ## Compare

# %% key="compare"
desk.compare(predicted)

# %% [markdown] key="explain-text"
# ## Explain
#
# Run to start goes through both windings, so it must read run plus start. That is the **sum rule**: the two lower
# readings add up to the highest one.
#
# No meter is exact. This one allows ± (0.2 % of the reading + 3 digits). A digit is one step of the last place shown.
# The rule holds if the three readings agree within what the meter allows for all three of them.
#
# Two things that fool people:
#
# - **Leads not zeroed.** Two lead resistances stand on one side and one on the other. The rule then fails by one lead.
# - **Shorted turns.** The rule still holds, for the winding reads the same from both ends. It cannot find them.

# %% key="explain"
desk.explain()

# %% [markdown] key="pins-text"
# Now name the pins:
#
# - The pin that the **highest** pair leaves out is **common**.
# - From common, the **lower** reading goes to **run** and the **higher** one to **start**.
#
# Fill in the answers and run the cell. It says right or wrong, and why.

# %% key="pins"
desk.mark(
    common="",  # "1", "2" or "3"
    run="",
    start="",
    sum_rule="",  # "holds", "does not hold", "does not apply" or "cannot be tested"
)

# %% [markdown] key="copper"
# ## Copper and heat
#
# Copper has more resistance when it is warm. To compare a reading with the data sheet, bring it to 20 °C first:
#
# $$R_{20} = R \cdot \frac{k + 20}{k + t}$$
#
# Here $t$ is the temperature of the winding in °C. $k$ is 234.5 for copper and 225 for aluminium. With °F the formula
# gives nonsense, so change to °C first.
#
# An invented example: a winding reads 11.60 Ω in a room of 35 °C (95 °F). Was it less or more at 20 °C?

# %% key="at-20"
at_20 = resistance_at(11.60, temperature_k=ICE_POINT_K + 35)
print(f"11.60 Ω at 35 °C is {at_20:.2f} Ω at 20 °C.")

# %% [markdown] key="rise"
# The same law works as a thermometer inside the winding. Read it cold and read it hot, in a room that stays as it is:
#
# $$\text{rise} = \frac{R_\text{hot} - R_\text{cold}}{R_\text{cold}} \cdot (k + t_\text{cold})$$
#
# An example from print (D. C. Kulshreshtha, *Basic Electrical Engineering*, Example 2.18): a copper motor winding has
# 3.42 Ω at 20 °C, and 4.22 Ω after running for long. The book takes a slightly different constant and gets 59.6 K.

# %% key="rise-example"
room_k = ICE_POINT_K + 20
rise_k = temperature_rise(3.42, 4.22, room_k, room_k)
print(f"The winding is {rise_k:.1f} K warmer than the room. In Fahrenheit degrees that is {rise_k * 9 / 5:.0f}.")

# %% [markdown] key="shorted-text"
# ## Shorted, or only warm?
#
# **Predict.** The maker says 4.10 Ω ± 7 % at 20 °C. The meter shows 4.05 Ω. Good? Think first, then run the cell. Then
# change the temperature to 25 °C and run it again.

# %% key="shorted-figure"
winding_figure(reading="4.05 ohm", temperature="85 °C", maker="4.10 ohm", tolerance="7 %")

# %% [markdown] key="odd-cases"
# ## Four odd cases
#
# Each of these units has its own trap. Put its number into the cell, work it on the bench, then give your verdict.
#
# - **Unit 6, hot protector.** Inside the shell a switch sits in the path to common. It opens when it is hot, and closes
#   again when it cools. Read this unit on arrival, and again after 12 hours. Do not condemn it hot.
# - **Unit 8, ground.** From pin to pin all looks well. Test each pin to the shell at 500 V d.c.
# - **Unit 21, shorted turns.** The sum rule holds. Compare each winding with the data sheet at its temperature.
# - **Unit 13, inverter compressor.** It has three equal windings, fed by an electronic board. There is no common, run
#   or start, and the sum rule is not for it. That is no fault. Take the connector off before the insulation test: 500 V
#   ruins the board.

# %% key="odd-case-desk"
odd = practice_desk(6)
odd

# %% [markdown] key="verdict-words"
# The verdict is one of: `"good"`, `"open winding"`, `"open internal protector"`, `"shorted turns"`, `"grounded"`.

# %% key="odd-case-verdict"
odd.mark(verdict="", insulation="")  # insulation: the lowest of the three pins, such as "250 Mohm" or "OL"

# %% [markdown] key="insulation"
# ## Where grounded begins
#
# A winding at or below **2 MΩ** to the shell counts as grounded here. Older editions of the appliance safety standard
# IEC 60335-1 ask for 2 MΩ of basic insulation (cited from memory). At 230 V it lets through about 0.1 mA. A clean, dry
# winding passes far less. If it reads between 2 MΩ and 20 MΩ, warm and dry it and test again: damp or bad oil may
# be the cause. Your maker or your local code may ask for more. Then that counts.

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back:
# `practice_desk(28)`.

# %% key="practice-desk"
practice = new_practice()
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank. `practice.solution()` shows every answer with its
# reason.

# %% key="practice-mark"
practice.mark(
    common="",  # "1", "2", "3", "none" or "cannot tell"
    run="",
    start="",
    sum_rule="",
    resistance_at_20="",  # the lowest pair, such as "4.2 ohm"
    insulation="",  # the lowest of the three pins
    verdict="",
)

# %% [markdown] key="real-text"
# ## On a real unit
#
# Read the cautions at the top again. Power off, locked off, proved dead, discharged, connector off, leads zeroed, cold.
#
# Then type your own readings, with all digits that the meter shows. **The numbers below are an invented example.** Put
# `"OL"` where the meter shows over range. What you do not know stays `""`. The meter's accuracy on ohms stands in its
# manual. If your meter cannot zero its leads, put what it shows with the tips together at `leads`.
#
# Insulation is tested with an **insulation tester at 500 V d.c.**, not with a multimeter. Never under vacuum, and never
# with an inverter board connected. Not tested? Leave it `""`.

# %% key="real-unit"
real_unit(
    r12="2.31 ohm",  # pins 1 and 2
    r23="11.28 ohm",  # pins 2 and 3
    r13="8.97 ohm",  # pins 1 and 3
    temperature="72 °F",  # of the shell after hours of standing, in °C or °F
    meter="0.5 % + 3 digits",  # accuracy on ohms
    leads="",  # tips together, if not zeroed
    insulation="120 Mohm",  # lowest pin to shell, by an insulation tester at 500 V d.c.
    maker_run="3.0 ohm",  # the maker's values at 20 °C
    maker_start="9.1 ohm",
    maker_pair="",  # for an inverter compressor: each pair
    maker_tolerance="7 %",
)

# %% [markdown] key="next"
# The verdict speaks of the windings alone. A compressor with good windings can still be stuck, or pump badly. If the
# windings are good, look at the start device, the capacitor and the overload next.
#
# Ready? Open the [lab](lab.ipynb).
