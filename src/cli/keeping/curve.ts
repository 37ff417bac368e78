// `coldfall probes curve`: what the ohms or millivolts of a probe mean.

import { handOf } from "../../report/index.ts";
import type { ProbeCurve } from "../../schema/index.ts";
import { coldJunctionAt, curveChecks, isSameCurve } from "../../science/sensors/index.ts";
import { wordsFor } from "../language-option.ts";
import { badOption } from "../option-values.ts";
import type { Terminal } from "../terminal.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

export interface CurveOptions extends StoreOptions {
  readonly thermistor?: { readonly ohmsAt25: number; readonly b: number };
  readonly steinhartHart?: { readonly a: number; readonly b: number; readonly c: number };
  readonly pt100?: Extract<ProbeCurve, { kind: "pt100" }>["toleranceClass"];
  readonly typeK?: 1 | 2;
  readonly coldJunction?: number;
  readonly celsius?: boolean;
}

/** @throws BadInput "bad-option" for a curve that no sensor has */
export async function setCurve(id: string, options: CurveOptions, terminal: Terminal): Promise<void> {
  const curve = curveOf(options);
  const text = wordsFor(options).probes.curve;
  await withStore(options, async ({ probes }) => {
    const isKnown = (await probes.list()).some((probe) => probe.id === id);
    await probes.put({ id, curve });
    if (!isKnown) terminal.tell(`${text.unknownBefore(id)}\n`);
    const hand = handOf(options.language ?? "en", 0);
    terminal.print(
      `${curve === null ? text.sendsCelsius(id) : text.kept(id, curve, curveChecks(curve) ?? [], hand)}\n`,
    );
    const past = (await probes.calibrations(id)).filter((calibration) => !isSameCurve(calibration.curve, curve));
    if (past.length > 0) terminal.print(`${text.calibrateAnew(id, past.length)}\n`);
  });
}

/** Null for °C. Exactly one is told: the parser sees to that. */
function curveOf({ thermistor, steinhartHart, pt100, typeK, coldJunction }: CurveOptions): ProbeCurve | null {
  if (coldJunction !== undefined && typeK === undefined) {
    throw badOption("--cold-junction", `${coldJunction}`, ({ probes }) => probes.curve.withoutCouple);
  }
  if (thermistor !== undefined) return { kind: "thermistor-b", curve: thermistor };
  if (pt100 !== undefined) return { kind: "pt100", toleranceClass: pt100 };
  if (typeK !== undefined) {
    return { kind: "type-k", toleranceClass: typeK, coldJunction: coldJunctionAt(coldJunction) };
  }
  if (steinhartHart === undefined) return null;
  const curve = { kind: "thermistor-steinhart-hart", curve: steinhartHart } as const;
  const { a, b, c } = steinhartHart;
  if (curveChecks(curve) === null)
    throw badOption("--steinhart-hart", `${a},${b},${c}`, ({ probes }) => probes.curve.expectedCoefficients);
  return curve;
}
