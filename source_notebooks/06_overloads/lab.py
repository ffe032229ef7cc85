# %% [markdown] key="title"
# # Overloads and locked rotor: the lab
#
# You get one cooler of your own. Find out why it does what it does, put it right, and prove that it is safe. 20 marks.

# %% [markdown] key="cautions"
# ## The cautions hold here too
#
# The unit here cannot hurt you. A real one can. Work here as you would work there.
#
# - ⚠ **Isolate and lock off, then prove it dead** before your first ohms reading and before your hands go in. Try your
#   meter on the live outlet, read all three pairs of the plug, try it on the outlet again.
# - ⚠ **Discharge** a start capacitor through a resistor before you touch what hangs on it.
# - ⚠ **Never bridge an overload** in a unit. The one exception is the start test below: on a test cord with its own
#   fuse, three seconds, hand on the switch, insulation found good first.
# - ⚠ **Hot parts.** A compressor that hums and clicks gets hot enough to burn you.
# - ⚠ **Mind the pins.** They can blow out under pressure. Keep your eyes away, and the cover on under power.
# - ⚠ **It may burn.** Read which refrigerant is in it. Keep sparks away and let fresh air in.
# - **Local codes, the maker's instructions and licensed practice come first.**

# %% [markdown] key="job"
# ## The job
#
# A cooler came in from a hot kitchen, still plugged in. It is not cold, and at times it clicks. Is the overload at
# fault, or does it do its duty? The bench shows you the plate and the data sheet of the overload.
#
# | Question | Marks |
# |---|---|
# | What it does, and its times | 3 |
# | Average watts | 1 |
# | Amps at the start, and the time to trip | 2 |
# | Lowest amps that open it, warm | 1 |
# | How hot the winding was | 1 |
# | The overload, apart and cold | 2 |
# | The start test | 1 |
# | What is wrong, and what to do | 2 |
# | Proof after the repair | 2 |
# | Safe order | 5 |

# %% [markdown] key="how"
# ## How it is marked
#
# - Each act and each reading goes on your **job sheet**. You cannot take a line back, but you can go on.
# - An answer that needs a reading earns marks only if that reading is on your job sheet.
# - Marks for **safe order** come from the job sheet alone, and only if you took all the readings that the lab needs.
# - **Listen first**, and read what you need under power. Once you pull the plug, the heat goes.
# - Take the first ohms of the winding **soon after** you pull the plug, and again after 12 hours.
# - Take the readings of the fault **before** you fit a new part. The proof comes after the last part is in.
# - A number counts as right within what the instruments allow. Give all the digits that they show.
# - **OL** means over range: the meter finds no path. Then your answer is `"OL"`.
# - Does the overload not click? Then the answer is `"no click"`.

# %% [markdown] key="bench"
# ## The bench
#
# The next cell opens it. Did you close the notebook and come back? Then run the cell again: your job sheet goes on
# where it was.

# %% hide="true" key="set-up"
from coldwright.panels import open_desk

# %% key="desk"
desk = open_desk("overloads")
desk

# %% [markdown] key="bench-words"
# If no panel comes up, you can work in words. Each act has a name: `desk.do("listen")`, `desk.do("wait", "next try")`,
# `desk.do("wait", "12 h")`, `desk.do("watts")`, `desk.do("clamp", "pin C")`, `desk.do("temperature", "shell")`,
# `desk.do("volts ac", "plug L", "plug N")`, `desk.do("isolate")`, `desk.do("zero leads")`,
# `desk.do("discharge", "start capacitor")`, `desk.do("take off", "overload")`, `desk.do("ohms", "pin C", "pin R")`,
# `desk.do("inspect", "overload")`, `desk.do("start test")`, `desk.do("put back", "overload")`,
# `desk.do("inrush", "pin C")`, `desk.do("fit", "overload")`, `desk.do("insulation", "plug L", "cabinet metal")`.

# %% [markdown] key="clicking-text"
# ## 1. What it does, and its times
#
# Listen for two minutes, more than once if you must. From one click of the compressor to the next: how long is it
# **on**, and how long is it **off**? Listen again at once, so that no gap comes between. No click in ten minutes (five
# times)? Then it does not click.

# %% answer="clicking"
sound = ""  # "runs and stays on", "runs and clicks off", "hums and clicks off", "hums and stays on", "stays silent"
on_seconds = ""  # such as "15 s" or "no click"
off_seconds = ""

# %% check="clicking"

# %% [markdown] key="average-text"
# ## 2. Average watts
#
# What does the power meter show on average, over on and off? Read the watts while the compressor is on, and while it is
# off. Weigh each by its own seconds. If it does not click, the reading is the average.
#
# To catch it on, choose **until the next try to start** under **How long** and press **Wait**.

# %% answer="average"
average_watts = ""  # such as "140 W"

# %% check="average"

# %% [markdown] key="start-text"
# ## 3. Amps at the start, and the time to trip
#
# How many amps does the compressor take at the start? Set the clamp to pin C and press **Plug in, keep the highest
# amps**. If it only hums, you may read the clamp while it hums. A hot overload may be open: wait until it is cold.
#
# Did it run until you pulled the plug? Then **wait 5 min** at least, better twice, before you plug in again. Until the
# pressures are equal even a sound one only hums. Found grounded before you got here? Give it no power any more: both
# answers are `"not done: grounded"`.
#
# Then work out from the data sheet how long the overload takes to open **from cold** at your amps. Use the rule that
# amps squared times seconds stay the same. Do no amps flow? Then it is `"no click"`.

# %% answer="start"
start_amps = ""  # such as "12.3 A", or "not done: grounded"
trip_estimate = ""  # such as "9.5 s" or "no click", or "not done: grounded"

# %% check="start"

# %% [markdown] key="ultimate-text"
# ## 4. Lowest amps that open it, warm
#
# Read the shell and the room **before you pull the plug**. Mix the two by the shares of the data sheet: that is how
# warm it is round the overload. Then work out the lowest amps that would ever open a good overload there.

# %% answer="ultimate"
ultimate_amps = ""  # such as "4.65 A"

# %% check="ultimate"

# %% [markdown] key="winding-text"
# ## 5. How hot the winding was
#
# Take the start device and the overload off. Read the run winding, pin C to pin R, and read it again after 12 hours.
# From both and the room's temperature: how hot was the winding at your **first** reading? It is copper, k = 234.5.

# %% answer="winding"
winding_hot = ""  # such as "85 °C" or "185 °F"

# %% check="winding"

# %% [markdown] key="overload-text"
# ## 6. The overload, apart and cold
#
# Off the unit, after 12 hours: read across its two ends. Then look at its label. Does it fit this compressor?

# %% answer="overload"
overload_ohms = ""  # such as "0.25 ohm" or "OL"
overload_rating = ""  # "fits" or "does not fit"

# %% check="overload"

# %% [markdown] key="bypassed-text"
# ## 7. The start test
#
# Start device and overload off the pins, plug pulled. **Test insulation to the shell first.** Below 2 MΩ: do not start
# it; answer `"not done: grounded"`. Else the test cord starts it for three seconds with a good start device. What
# happens?
#
# **Never bridge an overload** in a unit. The one exception is this start test: on a test cord with its own fuse, three
# seconds, hand on the switch, insulation found good first.

# %% answer="bypassed"
start_test = ""  # "starts and runs", "does not start", "nothing happens" or "not done: grounded"

# %% check="bypassed"

# %% [markdown] key="verdict-text"
# ## 8. What is wrong, and what to do
#
# Go in order: supply, insulation, overload, start winding, start device, rotor, fan. Then do on the bench what you
# would do on the job: fit the new part, put the others back, and after the proof of section 9 plug in and see.
#
# Is no part at fault that you can fit here? Then put the old ones back. The compressor is changed in the shop, not on
# this bench. Take the readings of section 9 as it stands. A grounded one gets **no power any more**.

# %% answer="verdict"
# "no fault", "overload open", "overload weak", "overload of the wrong rating", "seized rotor", "start device open",
# "start device stays closed", "start winding open", "grounded winding", "low supply", "condenser fan"
fault = ""
# "leave it as it is", "fit a new overload", "fit a new start device", "fit a new condenser fan",
# "change the compressor", "have the supply put right", "bridge the overload"
remedy = ""

# %% check="verdict"

# %% [markdown] key="proof-text"
# ## 9. Proof after the repair
#
# All parts in, plug pulled, leads zeroed. Read ohms from plug E to bare metal. Test 500 V d.c. from plug L and from
# plug N to bare metal, and give the **lower** one. Read plug L to thermostat 1 as well: the live pin must lead there.
# Good is at most 0.5 Ω of earth and at least 2 MΩ of insulation.

# %% answer="proof"
earth_ohms = ""  # such as "0.08 ohm" or "OL"
insulation = ""  # such as "250 Mohm", or "OL" if the tester shows more than its range

# %% check="proof"

# %% [markdown] key="safe-order-text"
# ## 10. Safe order
#
# Nothing to type here. One mark each: there is no hazard on your job sheet; you proved it dead first; you zeroed the
# leads before the first ohms; you proved earth, insulation and polarity after the last part went in, or gave a grounded
# one no more power; you fitted what had failed and nothing else, and tried a new part.

# %% check="safe_order"

# %% [markdown] key="hand-in"
# ## Hand in
#
# Save with Ctrl-S. Hand in the **whole folder**. Three files count:
#
# - `lab.ipynb`: your answers
# - `ticket.json`: which unit is yours
# - `job_sheet.jsonl`: what you did and read
