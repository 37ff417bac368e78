// English: the cautions, by subject. They may be worded better, never weaker: tests hold their meaning.
// All are common practice, no source, and defer to local codes and licensed people (`cautionClose`).

import type { CautionCode } from "../../../science/index.ts";

export interface CautionWords {
  readonly about: string;
  readonly text: string;
}

export const cautions: { readonly [C in CautionCode]: CautionWords } = {
  gas: {
    about: "gas, flame, carbon monoxide",
    text:
      "Never leave gas burning unattended, indoors, over a pit or drain, or where people sleep, unless local rules and a " +
      "licensed fitter allow this set-up. Yellow or sooty flame, smell of gas, any doubt about the flue: gas off, do not " +
      "run it. A blocked flue and a bad flame are the carbon monoxide cases.",
  },
  night: {
    about: "runs overnight",
    text:
      "The default night run is on electricity. A gas stretch is attended, and comes only after flame, flue, leaks and " +
      "carbon monoxide have been checked. A fridge that chooses its own source may light gas when mains fails: close its " +
      "gas valve before an electric night.",
  },
  "stopped-on-gas": {
    about: "cooling that stopped on gas",
    text:
      "Do not relight from here and do not hurry in. If you smell gas: touch no switches, bring no flame, keep out; close " +
      "the bottle only if it can be reached in open air; call the emergency service. Coldfall sees a dead flame late, by " +
      "an hour or so, by two while a thermostat cycles; it is no alarm: approved LPG alarms (mounted low) and carbon monoxide alarms must be fitted.",
  },
  "two-sources": {
    about: "two sources",
    text: "One source at a time: two together overheat the boiler.",
  },
  "no-cold": {
    about: "tilt, and heat without cold",
    text: "Not level, or no cold with a hot boiler for hours: switch off. Heat without circulation ruins the cooling unit.",
  },
  dc12: {
    about: "12\u00a0V",
    text:
      "The 12\u00a0V element draws 10 to 15\u00a0A: it empties a leisure battery in hours or less and belongs on a charging supply. " +
      "Do not run an engine indoors to get 12\u00a0V (carbon monoxide); use a fused bench supply. Sense leads: fused, clamped, " +
      "isolated or differential at the fridge; USB must never become the 12\u00a0V return.",
  },
  mains: {
    about: "mains voltage",
    text:
      "Mains only earthed and behind an RCD, the element tested by a qualified person. Connect at the appliance first and " +
      "the socket last, undo in the reverse order. The probe board never touches mains: volts and watts are typed in from " +
      "an approved plug-in meter.",
  },
  "cooling-unit": {
    about: "cooling unit, ammonia, hydrogen",
    text:
      "Smell of ammonia or a yellow deposit: everybody out, air, no flame (ammonia and hydrogen burn), source off only if " +
      "that is safe; do not touch the deposit. Never cut, drill, weld or heat a cooling unit: it is under 14 to 25\u00a0bar. " +
      "Licensed disposal.",
  },
  road: {
    about: "on the road",
    text:
      "Gas off before fuel stations, ferries and garages; gas while driving only where law and fitted safety devices allow " +
      "it. Nothing over the vents while on gas.",
  },
  food: {
    about: "food",
    text:
      "The warmest food is not at mid-cabinet: top shelf and door are a few degrees warmer. Coldfall never judges whether " +
      "food may be eaten; it names limits with their source.",
  },
};

/** Stands at the end of every caution. */
export const cautionClose = "Common practice, no source; local codes and licensed gas and electrical people decide.";
