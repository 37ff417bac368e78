// English: what to check next. Their cautions, minutes and the causes they tell apart belong to
// src/science/causes/next-checks.ts, so that no face can show one without the other.

import type { CheckCode } from "../../../science/index.ts";

export interface CheckWords {
  readonly title: string;
  readonly text: string;
}

export const checks: { readonly [C in CheckCode]: CheckWords } = {
  "clean-flue-and-burner": {
    title: "Look at flame, flue and burner, and have them cleaned",
    text:
      "Gas valve closed, every source off, boiler cold. A fitter licensed for gas takes out the baffle, brushes the flue, " +
      "cleans the burner and changes the jet (a jet is never pricked out). The flame should then be small, steady and blue. " +
      "Repeat the same attended gas run: if the strength returns, it was one of these.",
  },
  "measure-gas-pressure": {
    title: "Have the gas pressure measured while the burner runs",
    text:
      "A licensed fitter measures it at the appliance's test point and compares it with the rating plate, once with the " +
      "fridge alone and once with the other gas appliances burning. Note gas kind and pressure on the run sheet. Low pressure points " +
      "to bottle, regulator or hose; right pressure to jet, burner or flue.",
  },
  "measure-element": {
    title: "Have the heating element measured",
    text:
      "Disconnected from every supply and cold, a qualified person measures its resistance and its insulation to earth: " +
      "rated voltage squared over rated watts gives the ohms, within about 10\u00a0%. Open or far off: the element; right: " +
      "look at supply, connectors and control.",
  },
  "measure-supply-voltage": {
    title: "Measure the voltage at the fridge while it heats",
    text:
      "On 12\u00a0V at the element's terminals, not at the battery; on mains from an approved plug-in meter. Heat goes with the square " +
      "of the voltage: 10\u00a0% too low is 19\u00a0% less heat. Low at the fridge and right at the source: cable, fuse or connector. Type the figure into the " +
      "run sheet, and the next analysis takes it into account.",
  },
  "check-level": {
    title: "Check that the fridge stands level",
    text:
      "With a spirit level inside, on the freezer shelf or the evaporator plate, in both directions: within about 2 to 3 degrees any way for " +
      "older units, 3 sideways and 6 lengthways for newer ones, or what the maker states. Level the vehicle, switch off for an hour, and repeat the run.",
  },
  "fan-at-rear": {
    title: "Set a fan at the rear for two hours, on electricity",
    text:
      "With the fridge running on electricity (a fan disturbs a gas flame and its flue), let a small fan draw air up over " +
      "the condenser for 2\u00a0h while the log runs. If the fins grow clearly colder, the air behind the fridge is the trouble: vents, " +
      "gaps, baffle plates, insulation, sun on the vents.",
  },
  "paper-test-of-seal": {
    title: "Pull a strip of paper along the door seal",
    text:
      "Closed in the door, a strip of paper should pull with a light drag all round. Where it slides out, clean or adjust the seal there, and " +
      "look for a twisted door or a worn hinge. Then record warming back again: it tells a leak from a load.",
  },
  "wait-for-load": {
    title: "Repeat with the fridge empty, or loaded as in the known-good runs",
    text:
      "Food or bottles put in warm slow the fall without any fault; put in cold, they hasten it. Write the load on the run sheet. If the next run, empty or with the same load as warm or cold " +
      "as then, falls as the known-good runs do, nothing was wrong.",
  },
  "check-lamp": {
    title: "See that the lamp goes out with the door",
    text:
      "Leave a camera or telephone filming inside and close the door, or press the door switch by hand. A few watts of lamp are a good part of what such a " +
      "fridge can carry away. The bulb may be hot.",
  },
  "seat-probes": {
    title: "Look where the probes sit",
    text:
      "Evaporator probe clipped flat on the fin it sat on in the known-good runs, cabinet probe hanging free at mid-height, ambient probe in the air " +
      "that enters the lower vent, in the shade and away from the flue. Clips or tape only. All three together in one place for ten minutes show their own differences.",
  },
  defrost: {
    title: "Defrost, then repeat",
    text:
      "Frost on the fins keeps the cold from the air. Switch off, door open, and let it melt by itself: no scraping tools, no " +
      "flame, no hot-air gun. Dry it, and repeat the run.",
  },
  "record-known-good": {
    title: "Record a known-good run",
    text:
      "While the fridge is known to be well, after a service or when new, log each source from a cold boiler for 4\u00a0h or " +
      "better 7\u00a0h: nights on electricity, gas attended, the same probe places, a run sheet filled in. One run serves, three " +
      "make the interval useful. It lets the next analysis give a strength, and tell a weak source from a hot day.",
  },
  "record-longer": {
    title: "Let the log run longer",
    text:
      "From a cold boiler nothing can be said in the first half hour; the fins speak after 2\u00a0h, rate constant and depth " +
      "after 4\u00a0h, better 7\u00a0h. Keep the door shut and the dial where it is. Nights on electricity, gas attended.",
  },
  "sort-the-log": {
    title: "Put the rows of the log in the order of time",
    text:
      "Sort them by their time and analyse again. If the clock was set during the run, or day and month stand exchanged, put the times right first; of another " +
      "logger's log the mapping says how its times are written. Times that nobody can put right mean a new run.",
  },
  "say-the-source": {
    title: "Say which energy source was on",
    text:
      "For every switch give its time and the source that came on, with --source-at TIME=SOURCE, or as a column named source in the log, and analyse again; " +
      'of a run in the store by "coldfall source SOURCE --fridge NAME --run RUN --at TIME": a ' +
      "strength is only told against known-good runs on the same source.",
  },
  "exchange-probes": {
    title: "Exchange the columns evaporator and cabinet, if the probes were exchanged",
    text:
      "Look which probe sits on the fins and which hangs in the cabinet air. If they are the wrong way round, exchange the names evaporator and cabinet in the first line of " +
      "the log, or in its mapping, and analyse again; then put the probes right for the next run. If they are not, hold both in one place for ten minutes: one of them reads wrong.",
  },
  "add-ambient-probe": {
    title: "Add an ambient probe, and repeat",
    text:
      "A third probe in the air that enters the lower vent, in the shade and away from anything warm; in the log its column is named ambient. The fall is fitted against that " +
      "air, so without it hours of readings give no strength.",
  },
  "record-another-night": {
    title: "Record another run on this source",
    text:
      "Heat and weather differ from run to run; two runs decide what one leaves open. Same probe places, same load, same dial. Nights on " +
      "electricity only; a gas run by day, attended.",
  },
  "prove-heat-in-watts": {
    title: "Prove that the element takes its watts",
    text:
      "On mains read the watts from an approved plug-in meter, on 12\u00a0V volts and amperes at the fridge with a clamp meter. Full watts and no cold point to " +
      "cooling unit, tilt or ventilation; few watts point to element, thermostat or supply.",
  },
  "ask-a-fitter": {
    title: "Leave this to a licensed fitter",
    text:
      "What remains possible cannot be told apart by temperatures, and the next step opens gas, mains or the cooling unit. " +
      "Switch off, close the gas, and hand over this report with the log.",
  },
  "why-flame-went-out": {
    title: "Find out why the flame went out",
    text:
      "On the spot, and only once there is no smell of gas: is the bottle empty, or a valve shut? Does wind reach the flue's outlet or the vents? " +
      "If neither, a fitter licensed for gas looks at the flame failure device, which shuts the gas where its sensor feels no flame, and at burner and " +
      "flue. Until it is known why, that part of the log says nothing of the fridge, and gas is not left to itself.",
  },
  "why-supply-was-lost": {
    title: "Find out why the supply was lost",
    text:
      "On mains: the site's meter or fuse, the RCD, the plug, the lead; on 12\u00a0V: fuse, relay, a charger or an engine that was switched off. See also whether the " +
      "fridge's own overheat cut-out or control opened: then a qualified person looks for the reason before it is set again. A fridge that chooses its own " +
      "source may have gone over to gas meanwhile.",
  },
  "dial-to-coldest": {
    title: "Turn the dial to coldest and repeat",
    text:
      'While the thermostat holds the fridge back, the log shows "at least this strong" and no more. At the coldest setting it has to show all it ' +
      "has. Note the setting on the run sheet, and set the dial back afterwards.",
  },
};
