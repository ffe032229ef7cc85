# %% [markdown] key="title"
# # Overloads and locked rotor: the lesson
#
# It hums, it clicks, it is still. A minute later it hums again. Many a good overload has been thrown away for that
# click. Here you learn to hear what it says, to test it fairly, and to prove the unit safe after the repair.
#
# Run the cells from top to bottom with the **▶** button. Nothing here is marked.

# %% [markdown] key="cautions"
# ## Before you touch a real unit
#
# - ⚠ **Isolate and lock off.** Pull the plug and lock it, so that no one can put it back.
# - ⚠ **Prove it dead.** Try your meter on a live source. Measure the unit. Then try the meter on the live source again.
# - ⚠ **Discharge** a start or run capacitor through a resistor before your hands go in.
# - ⚠ **Never bridge an overload** in a unit. The one exception is the start test below: on a test cord with its own
#   fuse, three seconds, hand on the switch, insulation found good first.
# - ⚠ **Hot parts.** A compressor that hums and clicks for an hour is hot enough to burn you.
# - ⚠ **Live readings** only if you are allowed to take them: clamp round one wire, covers on, hands off.
# - ⚠ **Mind the pins.** They can blow out under pressure, with hot oil. Keep the cover on whenever there is power.
# - ⚠ **Never under vacuum.** Do not power a sealed compressor under vacuum, and do not test its insulation there.
# - ⚠ **It may burn.** R-600a and R-290 are flammable. An overload makes a spark each time it opens. Let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.** Do only what you are allowed to do.

# %% [markdown] key="goals"
# ## What you will be able to do
#
# 1. Say what the clicking means: what stops the compressor, how long it is on and off, and what it costs in watts.
# 2. Measure the amps at the start, hold them against the plate, and work out the time to trip.
# 3. Say how a hot shell changes the amps that open an overload.
# 4. Tell how hot a winding is from its ohms.
# 5. Test an overload apart from the start device, hot and cold, and read its label.
# 6. Tell a seized rotor from a start device that fails, by the start test.
# 7. Prove earth, insulation and polarity after any repair.
#
# Covers: O\*NET 49-9031.00 tasks 13790, 13792, 13793, 13801; O\*NET 49-9021.00 tasks 23552, 23553, 23562; EU 2015/2067
# 4.05, 6.03, 6.06. (O\*NET task lists, CC BY 4.0.)

# %% hide="true" key="set-up"
from coldwright.labs.overloads.sheet import amps_for_rise
from coldwright.panels import new_practice, practice_desk
from coldwright.panels.figures_overloads import trip_figure
from coldwright.panels.real_overloads import real_overload

# %% [markdown] key="bimetal"
# ## A strip that bends
#
# An overload is a strip of two metals with a small heater. All of the compressor's current goes through it. When the
# strip is hot enough it snaps open, with a **click**. Then no current flows. It cools, and it snaps closed again, with
# another click. It feels two things: the **amps** and the **heat of the shell** that it sits on.
#
# So a click is not a fault. It says: too many amps, or too hot. Your job is to find out why.
#
# | You hear | It may be |
# |---|---|
# | hum, click, long pause, hum | the rotor does not turn: start device, start winding, seized rotor, low supply |
# | the same, just after it ran | or switched on again too soon: the pressures are not equal yet |
# | it runs, click, pause, it runs | start winding never goes off, poor cooling, or a weak overload |
# | nothing | no power, or an overload that is open: hot for now, or for good |
#
# Switched on again too soon? Leave it off for 5 to 10 minutes first. Then try again, before you suspect a part.

# %% [markdown] key="predict"
# ## Predict
#
# The plate of this cooler says: runs at 0.9 A, locked rotor 8 A. It hums and does not turn. So its rotor is locked.
# What will a clamp round the wire at pin C show while it hums? Write your guess between the quote marks, with the unit.

# %% key="prediction"
predicted = ""  # such as "3 A"

# %% [markdown] key="measure"
# ## Measure
#
# The next cell opens the bench. It came in plugged in, and it has clicked for more than twenty minutes. Do this:
#
# 1. **Listen** for two minutes. Listen again. Note from click to click: seconds on, seconds off.
# 2. Choose **until the next try to start** under **How long**, press **Wait**, then read the **watts**.
# 3. Wait until the next try again, then put the **clamp** round the wire at **pin C**.

# %% key="desk"
desk = practice_desk(5, "overloads")
desk

# %% [markdown] key="compare-text"
# ## Compare

# %% key="compare"
desk.compare(predicted)

# %% [markdown] key="explain-text"
# ## Explain
#
# The plate's locked-rotor amps are those of **both** windings, cold. On this unit the start device does not close. Only
# the run winding has current, and it is hot, so its ohms are higher. Both make the amps lower than the plate says.
#
# Use that as a sign. Amps near the plate's figure: both windings pull, and the rotor still stands. Amps far below it:
# one winding is missing, or the volts are.
#
# Now fill in what you heard. Run the cell: it says right or wrong, and why.

# %% key="heard"
desk.mark(
    sound="",  # "runs and clicks off", "hums and clicks off", "runs and stays on", "stays silent"
    on_seconds="",  # such as "15 s"
    off_seconds="",
)

# %% [markdown] key="average-text"
# ## What the clicking costs
#
# Say it takes 1000 W for 15 s and 15 W for 105 s. Over the two minutes that is
#
# $$\frac{1000 \cdot 15 + 15 \cdot 105}{15 + 105} = 138 \text{ W}$$
#
# No cold is made, yet it takes as much as a compressor that runs. And all of it is heat in the shell. That is why a
# unit left clicking dies in days. Pull the plug.

# %% [markdown] key="square-text"
# ## Heat goes with amps squared
#
# Twice the amps heat four times as much. So at twice the amps an overload opens in a **quarter** of the time, not half:
#
# $$t_2 = t_1 \cdot \left(\frac{I_1}{I_2}\right)^2$$
#
# This rule leaves out the heat that gets away. For trips of a few seconds it is close. For long ones the real time is
# longer. With few enough amps all heat gets away and it never opens.
#
# An example from print (Chakrabarti, Soni, Gupta and Bhatnagar, *A Text Book on Power System Engineering*, part IV,
# Example 1.25, seen as the worked companion of a reader): a motor of 20 kW gets 30 K warmer in one hour. Which load
# makes it 50 K warmer in the same time? Watts go with the amps here. The companion has 25.8 kW.

# %% key="square-example"
load_kw = amps_for_rise(20.0, rise_k=30.0, wanted_k=50.0)
print(f"20 kW × √(50 / 30) = {load_kw:.1f} kW")

# %% [markdown] key="figure-text"
# ## Cold and hot
#
# **Predict.** An overload opens in 8 or 9 s at 15 A from cold. Once it has clicked and closed again, on a shell of 85
# °C, will it take longer, as long, or less? Think first, then run the cell. Then try `shell="45 °C"`, or `amps="6 A"`.

# %% key="trip-figure"
trip_figure(model="Tarn 11", amps="15 A", shell="85 °C", room="25 °C")

# %% [markdown] key="ultimate-text"
# ## The lowest amps that open it
#
# The data sheet says it for 25 °C all round. On a warm shell less is enough. Mix shell and room by the shares of the
# sheet to get the warmth round it, $t$. Then
#
# $$I = I_{25} \cdot \sqrt{\frac{t_\text{opens} - t}{t_\text{opens} - 25}}$$
#
# An invented example: opens at 115 °C, 5.26 A at 25 °C, shell 85 °C, room 25 °C, shares 40 % and 60 %. Round it: 0.4
# · 85 + 0.6 · 25 = 49 °C. That leaves 66 K of 90 K. 5.26 A · √(66 / 90) = 4.5 A. All in °C: with °F it is nonsense.

# %% [markdown] key="winding-text"
# ## How hot is the winding?
#
# You cannot touch it, but you can read it. Take off start device and overload soon after you pull the plug. Read pin
# C to pin R, hot. Read it again after 12 hours, cold. For copper
#
# $$t_\text{hot} = \frac{R_\text{hot}}{R_\text{cold}} \cdot (234.5 + t_\text{room}) - 234.5$$
#
# The start device must be off: a PTC would stand beside the run winding and spoil the reading.

# %% [markdown] key="fair-text"
# ## A fair test of an overload
#
# - **Off the unit.** In its place the meter finds a way round, through fans and windings.
# - **Cold.** Hot and open is its duty. After hours at room temperature it must be closed.
# - **Leads zeroed.** A good one has a part of an ohm. Old leads have as much.
# - **Its label.** It names the locked-rotor amps that it is made for. They must be those of the plate. One for a larger
#   compressor opens too late. One for a smaller one opens for nothing.
# - **Closed cold is not all.** A weak one closes, but lets go far too early. Read its temperature when it clicks, and
#   look at the amps then.

# %% [markdown] key="start-test-text"
# ## Seized, or no start?
#
# Take the start device and the overload off. **Test the insulation of a pin to the shell first.** Below 2 MΩ: do not
# start it, the winding is grounded. Else the test cord joins the start winding in for a moment, with a good start
# device.
#
# **Never bridge an overload** in a unit. The one exception is this start test: on a test cord with its own fuse, three
# seconds, hand on the switch, insulation found good first.
#
# - It **starts**: the rotor is free. The start device kept it from starting.
# - It **does not start**: read pin C to pin S. **OL** means an open start winding. Both windings read well, and the
#   supply is right? Then the rotor is seized.

# %% [markdown] key="proof-words"
# ## Proof after any repair
#
# You had your hands in it. So before it gets power again, plug pulled, all parts in:
#
# - **Earth:** ohms from the plug's earth pin to bare metal, leads zeroed. It should be a small part of an ohm. At most
#   0.5 Ω here (common practice). A beep is not enough: a beeper still beeps at 30 Ω.
# - **Insulation:** 500 V d.c. from live and from neutral to metal, with an insulation tester. At least 2 MΩ (older
#   editions of IEC 60335-1, cited from memory). A multimeter tests with a few volts and sees too little. Never with
#   an electronic board connected.
# - **Polarity:** the live pin must lead to the thermostat, so that the switch cuts the live side.
#
# Your maker or your local code may ask for more. Then that counts.

# %% [markdown] key="odd-cases"
# ## Five odd cases
#
# Put the number of a unit into the cell, work it on the bench, then give your verdict.
#
# - **Unit 4** hums and clicks, with the plate's amps. Do the start test.
# - **Unit 1** hums and clicks, and the start test fails too. Is it seized? Read the start winding first.
# - **Unit 3** runs, and still clicks off. Read the start device off the unit, cold.
# - **Unit 13** runs at the plate's amps, and clicks off. Which part lets go too early?
# - **Unit 24** is silent. Read its overload hot, and again after 12 hours.

# %% key="odd-case-desk"
odd = practice_desk(4, "overloads")
odd

# %% [markdown] key="verdict-words"
# The fault is one of: `"no fault"`, `"overload open"`, `"overload weak"`, `"overload of the wrong rating"`,
# `"seized rotor"`, `"start device open"`, `"start device stays closed"`, `"start winding open"`, `"grounded winding"`,
# `"low supply"`, `"condenser fan"`.

# %% key="odd-case-verdict"
odd.mark(
    start_test="",  # "starts and runs", "does not start", "nothing happens" or "not done: grounded"
    overload_ohms="",  # off the unit, cold, such as "0.25 ohm" or "OL"
    fault="",
    remedy="",  # "fit a new overload", "fit a new start device", "change the compressor", ...
)

# %% [markdown] key="practice-text"
# ## Practice without end
#
# Run the next cell again for another unit. Each has a new number. The old number brings the old unit back:
# `practice_desk(5, "overloads")`.

# %% key="practice-desk"
practice = new_practice("overloads")
practice

# %% [markdown] key="practice-answers"
# Fill in what you know and run the cell. Leave the rest blank.

# %% key="practice-mark"
practice.mark(
    sound="",
    on_seconds="",
    off_seconds="",
    average_watts="",  # such as "140 W"
    start_amps="",  # such as "12.3 A"
    trip_estimate="",  # such as "9.5 s" or "no click"
    ultimate_amps="",  # such as "4.65 A"
    winding_hot="",  # such as "85 °C"
    overload_ohms="",
    overload_rating="",  # "fits" or "does not fit"
    start_test="",
    fault="",
    remedy="",
)

# %% [markdown] key="solution-text"
# Stuck? The next cell shows each answer of this unit, with its reason.

# %% key="practice-solution"
practice.solution()

# %% [markdown] key="real-text"
# ## On a real unit
#
# Is this the right overload? If you are allowed to work live: let everything cool for hours. Clamp round one wire of
# the compressor, covers on. Power on, with a watch in your hand. Note the amps while it hums, and the seconds to the
# click. Pull the plug. **One trip is enough.**
#
# Then type your own readings, with all digits shown. The two points come from the maker's trip curve for this overload.
# **The numbers below are an invented example.**

# %% key="real-unit"
real_overload(
    seconds="9.5 s",  # from power on to the click, from cold
    watch="1 s",  # how far your watch and your thumb may be off
    amps="15.2 A",  # while it hums
    clamp="2 % + 5 digits",  # accuracy from the clamp's manual
    room="77 °F",  # of the room, the shell and the overload before the try
    opens_at="115 °C",  # by the maker
    slow_amps="10 A",  # one point of the maker's curve
    slow_seconds="25 s",
    fast_amps="20 A",  # another point, with more amps
    fast_seconds="5.1 s",
    curve_at="25 °C",  # temperature that the curve holds for
    curve_tolerance="20 %",  # how far the maker lets the time be off
)

# %% [markdown] key="next"
# Does it fit the curve, and still click? Then it does its duty. Look for what keeps the amps up or the shell hot.
#
# Ready? Open the [lab](lab.ipynb).
