# %% [markdown] key="title"
# # Start circuits: the lesson
#
# "It hums and clicks every half minute." A relay? A capacitor? A stuck rotor? Here you learn what each start device
# does, what the amps tell you, and how to find the one that failed with few readings.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back.
# - ⚠ **Prove it dead.** Try your meter on a live source. Measure the unit. Then try the meter on the live source again.
# - ⚠ **Discharge** a start or run capacitor through a resistor before your hands go in.
# - ⚠ **Live readings** only if you are allowed to take them: clamp round one wire, covers on, hands off.
# - ⚠ **The start test** puts power on bare pins. Only with a proper test cord and a fuse, covers on, eyes away, and
#   for a few seconds. The start winding must never stay in: it burns. Nothing guards the motor meanwhile.
# - ⚠ **Mind the pins.** They can blow out under pressure, with hot oil. Keep the cover on whenever there is power.
# - ⚠ **Never under vacuum.** Do not power a sealed compressor under vacuum, and do not test its insulation there.
# - ⚠ **Hot parts.** A PTC runs far above the heat of boiling water. Let it cool.
# - ⚠ **It may burn.** R-600a and R-290 are flammable, and a relay makes sparks. Let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Say what a current relay, a potential relay, a PTC and a solid-state switch do at rest, at the start and running.
# 2. Read start amps with the clamp round **one** wire, and tell them from running amps.
# 3. Say why the amps of two windings do not simply add up.
# 4. Get the resistance of the supply from the dip in its volts at a start.
# 5. Choose each next test by what it can rule out.
# 6. Fit the right part, prove it safe, and see it start.
# 7. Say whether a current relay suits its motor.
#
# Covers: O\*NET 49-9031.00 tasks 13790, 13792, 13793, 13801; O\*NET 49-9021.00 tasks 23552, 23553, 23561, 23562;
# EU 2015/2067 4.05, 6.03. (O\*NET task lists, CC BY 4.0.)

# %% hide="true" key="set-up"
from cmath import rect
from math import radians

from coldwright.electrical.motor_curves import starting
from coldwright.panels import new_practice, practice_desk
from coldwright.panels.figures_start_circuits import relay_figure
from coldwright.panels.real_start_circuit import real_relay

# %% [markdown] key="devices"
# ## Four ways to start
#
# A motor with one phase cannot start on its run winding alone: it only hums. For a moment the start winding must help.
# Then it has to go off, or it burns. A start device does both.
#
# | Device | At rest | What lets it go |
# |---|---|---|
# | **current relay** | contact **open**; its weight holds it | the run amps fall as the motor speeds up |
# | **potential relay** | contact **closed** | the volts on the start winding rise with speed |
# | **PTC** | cold, a few ohms: **low ohms** | it heats up, and its ohms go up a thousand times |
# | **solid-state switch** | **open** | its time is over |
#
# A motor with a **permanent capacitor** has no such device. Its capacitor always stays in.
#
# Two traps follow. A current relay that reads open cold is **not** bad. A potential relay that reads closed cold is not
# bad either. And a hot PTC reads high: let it cool before you judge it. Three things can be wrong with a PTC:
#
# - **Open**: it reads OL, cold as well.
# - **Cracked**: cold it reads several times what a good one has.
# - **Does not cool**: five minutes after a run it still reads thousands of ohms. So let it run for two minutes, pull
#   the plug, prove it dead, wait five minutes, then take it off and read it. A good one is cold by then.
#
# A current relay only works the right way up. Upside down, its own weight holds the contact closed.

# %% [markdown] key="predict"
# ## Predict
#
# The owner of this cooler says that it hums and clicks. Its plate says: runs at 1.8 A, locked rotor 16 A. What will a
# clamp show that you put round **one** wire of the cord, when you plug it in? Write your guess between the quote marks.

# %% key="prediction"
predicted = ""  # such as "5 A"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. The plug is out. Do this:
#
# 1. **Look** at the relay. What is printed on it? Does it sit the right way up?
# 2. Set the clamp to **the whole cord**. Press **Plug in, keep the highest amps**. Strange? Pull the plug again.
# 3. Let it **wait 5 min** to cool.
# 4. Now set the clamp to one wire, **cord L**, and press that button again.

# %% key="desk"
desk = practice_desk(18, "start_circuits")
desk

# %% [markdown] key="compare-text"
# ## Compare

# %% key="compare"
desk.compare(predicted)

# %% [markdown] key="explain-text"
# ## Explain
#
# Round the whole cord the clamp shows nothing. What goes out in one wire comes back in the other, and the two cancel.
# So always take **one** wire.
#
# One wire shows far more than the running amps: the rotor stands, so the motor draws its locked-rotor amps. But it
# shows less than the plate's 16 A. The plate counts **both** windings. Here only the run winding draws. So the start
# winding gets no power, and the motor hums. Which part keeps it out?

# %% [markdown] key="split-text"
# ## Amps that do not add up
#
# An example from print (I. L. Kosow, *Electric Machinery and Transformers*, Examples 10-1 and 10-3, values as in a
# published textbook companion): a small motor at 110 V takes 6 A in its run winding, 40° behind the volts. Its start
# winding takes 4 A, 15° behind. With a start capacitor the 4 A run 42° **ahead**. What does the wire to C carry?
#
# **Predict** first: 10 A?

# %% key="split-example"
run_ohm = 110 / rect(6, radians(-40))
plain = starting(run_ohm, 110 / rect(4, radians(-15)), 110)
helped = starting(run_ohm, 110 / rect(4, radians(42)), 110)
print(f"Without a capacitor: {abs(plain.line_current):.2f} A. With one: {abs(helped.line_current):.2f} A.")
print(f"And the motor pulls {helped.torque_product / plain.torque_product:.2f} times as hard at the start.")

# %% [markdown] key="split-explain"
# Both are less than 10 A. The two currents do not peak at the same time. The further apart they are, the less their sum
# and the harder the motor pulls. The companion has 9.77 A, 7.66 A and 2.34 times.

# %% [markdown] key="figure-text"
# ## The relay and the speed
#
# The coil of a current relay carries the run amps. At standstill they are high: at **pick-up** the contact closes. As
# the motor speeds up they fall: at **drop-out** it opens.
#
# **Predict.** A relay with pick-up 18 A is fitted to this motor. What happens? Run the cell, then change it to
# `pick_up="18 A", drop_out="15 A"`. Then put the old values back and try `volts="80 V"`.

# %% key="relay-figure"
relay_figure("Tarn 11", volts="120 V", pick_up="8.6 A", drop_out="7.3 A")

# %% [markdown] key="sag-text"
# ## The dip at the start
#
# While the start amps flow, the wires of the house take some of the volts. The dip, divided by the start amps, is close
# to the resistance of the supply:
#
# $$R = \frac{U_\text{rest} - U_\text{lowest}}{I_\text{start}}$$
#
# An invented example: 121.0 V at rest, 116.2 V at the start, 15.4 A. That is 4.8 V / 15.4 A = 0.31 Ω. The true value is
# more, often a tenth to a third more, for the current lags.
#
# A dip of a few volts is normal. Judge the supply by its volts **at rest**. If these are far below the plate, no start
# device can help.
#
# One meter on one range: most of its error is the same in both readings and falls out of the dip. What stays is the
# percent of the dip, the digits, and one digit for rounding.

# %% [markdown] key="hunt-text"
# ## Hunt: the best next test
#
# Write down every fault that could be. Ask of each test: which of them does it rule out? The best next test cuts the
# list down most. So begin with what costs nothing: look, listen, and the start amps.
#
# | What you find | It may be |
# |---|---|
# | silent, only the fans draw amps | overload open; with a **current relay**: coil or run winding open |
# | hums, amps well below the plate | **one** winding has no power: start device, its capacitor or start winding open |
# | the same | run winding open (other devices); low supply |
# | hums, amps as on the plate | both windings draw and it stands: **seized rotor** |
# | runs, then clicks off | the start winding stays in: contact welded, relay upside down, switch shorted |
# | the same | coil of a potential relay open; start capacitor shorted; low supply |
# | runs today | weak start: cracked PTC, low capacitor; or nothing at all |
#
# Current relay, low amps: **no tick** means it was not pulled in (stuck, or pick-up too high). A tick does not prove
# the contact; a burnt one ticks too. And a start switch soon lets go: with the run winding open the hum then stops.
#
# Then read with ohms, the part **taken off**, so that no other path fools you. The **start test** tells a stuck rotor
# from a bad device: devices and overload off, a test cord starts it for three seconds. If it runs, the motor is good,
# and you need no ohms of its windings. So before you condemn a relay's contact: its **coil**, its **contact** and a
# **start test**.
#
# Go back to the bench of unit 18 and find the fault. Then fill in and run the cell.

# %% key="hunt"
desk.mark(
    at_rest="",  # a good one of this kind: "open", "closed", "low ohms" or "no device"
    part="",  # "relay", "overload", "start winding", "run winding", "rotor", "supply" or "none"
    wrong="",  # "coil open", "contact stuck open", "contact welded", "upside down", "wrong rating", ...
)

# %% [markdown] key="odd-cases"
# ## Five odd cases
#
# Each of these units has its own trap. Put its number into the cell, work it on the bench, then give your verdict.
#
# - **Unit 35.** A PTC. It hums and clicks. Read it cold, off the unit.
# - **Unit 49.** It hums, the relay ticks, and the amps are as on the plate: so both windings draw. What does the start
#   test say?
# - **Unit 13.** It starts well, runs, and clicks off.
# - **Unit 39.** It hums. Read the volts at the outlet before you condemn a part.
# - **Unit 19.** A potential relay and two capacitors. A closed contact at rest is right, so how do you tell a welded
#   one? Ask what it does when the motor runs.

# %% key="odd-case-desk"
odd = practice_desk(35, "start_circuits")
odd

# %% key="odd-case-verdict"
odd.mark(
    part="",
    wrong="",  # also "open", "shorted", "low", "cracked", "does not cool", "seized", "low voltage", "nothing"
    remedy="",  # "new relay", "new PTC", "new compressor", "put the supply right", "nothing", ...
)

# %% [markdown] key="proof-text"
# ## After the repair
#
# With every part back and the plug out, prove three things. **Earth**: from plug E to bare metal, well below one ohm.
# **Insulation**: from plug L and from plug N to bare metal, at 500 V d.c. **Polarity**: plug L leads to the thermostat.
# Then plug it in. It must start, run, and let go of the start winding: read the amps at pin S.

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back:
# `practice_desk(18, "start_circuits")`.

# %% key="practice-desk"
practice = new_practice("start_circuits")
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank.

# %% key="practice-mark"
practice.mark(
    at_rest="",
    lets_go="",  # "the run amps fall", "the start volts rise", "it heats up", "its time is over" or "it never does"
    found_amps="",  # such as "9.5 A"
    part="",
    wrong="",
    remedy="",
    start_run="",  # at pin R, such as "9.5 A"
    start_start="",  # at pin S
    start_common="",  # at pin C
    running_line="",  # such as "1.25 A" or "does not run"
    running_start="",
    source_ohm="",  # such as "0.45 ohm" or "cannot tell"
    supply="",  # "in order" or "too low"
)

# %% [markdown] key="solution-text"
# Stuck? The next cell shows each answer of this unit, with its reason and the best sequence of tests.

# %% key="practice-solution"
practice.solution()

# %% [markdown] key="real-text"
# ## On a real unit
#
# Does this current relay suit this motor? If you are allowed to work live: clamp on hold round the wire to the **run
# pin**, covers on, power on. Note the most amps. Let it run for some minutes and note the amps again.
#
# Then type your own readings, with all digits shown. Pick-up and drop-out stand on the relay or in its maker's list.
# **The numbers below are an invented example.**

# %% key="real-unit"
real_relay(
    locked="11.42 A",  # on hold, while it tries to start
    running="1.31 A",  # after some minutes
    pick_up="8.6 A",
    drop_out="7.3 A",
    clamp="2 % + 5 digits",  # accuracy from the clamp's manual
)

# %% [markdown] key="next"
# A relay that suits can still be worn or burnt. Read it off the unit, and try it the right way up.
#
# Ready? Open the [lab](lab.ipynb).
