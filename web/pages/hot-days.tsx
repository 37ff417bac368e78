// Hot days, for the owner: where the fridge settles at a chosen ambient, or hour by hour on a trip.

import { useState } from "preact/hooks";
import { askedAmbient, type EnergySource, type HeatSource, heatSources } from "../../src/schema/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { FileDrop } from "../parts/file-drop.tsx";
import { Go, useTitle, Way } from "../parts/going.tsx";
import { Parts, useLetter, wholeLetter } from "../parts/letter.tsx";
import { NumberField } from "../parts/number-field.tsx";
import { readTrip, type TripRead } from "../parts/trip-text.ts";
import { Waiting } from "../parts/waiting.tsx";
import { degrees } from "../settings.ts";
import { typedNumber } from "../typed-number.ts";
import { bench, degreeSign, handFor, localOffset, names, shownCelsius, typedCelsius } from "../words.ts";

type Trip = Extract<TripRead, { readonly rows: unknown }>;

export function HotDays({ fridgeId }: { readonly fridgeId: string }) {
  useTitle(bench.hot.title);
  useKept(degrees);
  const params = { fridgeId };
  const fridge = useAsked(`fridge ${fridgeId}`, () => ask("GET /api/fridges/{fridgeId}", { params }));
  const [source, setSource] = useState<HeatSource | "">("");
  /** °C; null while what is typed cannot be asked. */
  const [ambient, setAmbient] = useState<number | null>(32);
  const [trip, setTrip] = useState<Trip | null>(null);
  const chosen = source === "" ? {} : { source };
  const asked = trip === null ? ambient : JSON.stringify(trip.rows);
  const letter = useAsked(asked === null ? null : `hot ${fridgeId} ${source} ${asked}`, () =>
    trip === null
      ? ask("GET /api/fridges/{fridgeId}/hot-day.html", {
          params,
          query: { ambient: ambient ?? Number.NaN, ...chosen },
        })
      : ask("POST /api/fridges/{fridgeId}/trip.html", {
          params,
          body: { rows: trip.rows, utcOffsetMinutes: trip.utcOffsetMinutes, ...chosen },
        }),
  );
  const parts = useLetter(letter.answer);
  return (
    <>
      <Way fridge={fridge.answer ?? undefined} />
      <h1>{bench.hot.title}</h1>
      <p class="lead">{bench.hot.lead}</p>
      <div class="row">
        {trip === null ? (
          <Outside key={degreeSign()} ambient={ambient} ask={setAmbient} />
        ) : (
          <p class="field">{bench.hot.ofTrip}</p>
        )}
        <label class="field">
          {bench.hot.source}
          <select value={source} onChange={(event) => setSource(event.currentTarget.value as HeatSource | "")}>
            <option value="">{bench.hot.newest}</option>
            {heatSources.map((one) => (
              <option key={one} value={one}>
                {names.onSource(one)}
              </option>
            ))}
          </select>
        </label>
      </div>
      <TripForm fridgeId={fridgeId} take={setTrip} />
      {asked === null ? null : parts !== null ? (
        <Parts parts={wholeLetter(parts)} class="told" />
      ) : letter.code === "not-now" ? (
        <div role="alert">
          <p>{letter.problem}</p>
          <p>
            <Go to={{ page: "bring-in", fridgeId }}>{bench.fridge.bringIn}</Go>
          </p>
        </div>
      ) : (
        <Waiting asked={letter} />
      )}
    </>
  );
}

interface OutsideProps {
  readonly ambient: number | null;
  readonly ask: (ambient: number | null) => void;
}

/** How warm it is outside, in the reader's degrees. */
function Outside({ ambient, ask }: OutsideProps) {
  const hand = handFor(0);
  const [text, setText] = useState(ambient === null ? "" : hand.degrees(ambient).split("\u00a0")[0]);
  const { least, most } = askedAmbient;
  const limits = { least: shownCelsius(least), most: shownCelsius(most) };
  return (
    <NumberField
      label={bench.hot.ambient(degreeSign())}
      text={text}
      limits={limits}
      takes={bench.hot.takes(hand.range(hand.figure(least, "Cel", 0), hand.quantity(most, "Cel", 0)))}
      isRequired
      type={setText}
      done={(typed) => {
        const value = typedNumber(typed, limits);
        ask(value === null || Number.isNaN(value) ? null : typedCelsius(typed));
      }}
    />
  );
}

interface TripFormProps {
  readonly fridgeId: string;
  readonly take: (trip: Trip | null) => void;
}

function TripForm({ fridgeId, take }: TripFormProps) {
  const [text, setText] = useState("");
  const [said, setSaid] = useState<string | null>(null);
  const read = (text: string) => {
    const found = readTrip(text, degrees.get(), localOffset);
    if ("rows" in found) {
      setSaid(bench.hot.understood(found.rows.length));
      take(found);
    } else setSaid(bench.hot.tripProblems[found.problem](found.line));
  };
  const showExample = async () => {
    const { verdict } = await ask("GET /api/fridges/{fridgeId}/verdict", { params: { fridgeId } }).catch(
      () => noVerdict,
    );
    const example = exampleTrip(verdict?.sources.map(({ source }) => source) ?? []);
    setText(example);
    read(example);
  };
  const readFile = async (file: File | undefined) => {
    if (file === undefined) return;
    // Shown, so that it can be changed.
    const inIt = await file.text();
    setText(inIt);
    read(inIt);
  };
  return (
    <details>
      <summary>{bench.hot.trip}</summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          read(text);
        }}
      >
        <p>{bench.hot.tripHow(degreeSign())}</p>
        <label class="field wide">
          {bench.hot.tripText}
          <textarea
            rows={8}
            required
            spellcheck={false}
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <FileDrop label={bench.hot.file} accept=".csv,.txt,.tsv,text/csv" take={readFile} />
        <div class="movers">
          <button type="submit">{bench.hot.answer}</button>
          <button type="button" onClick={showExample}>
            {bench.hot.exampleButton}
          </button>
          <button
            type="button"
            onClick={() => {
              take(null);
              setSaid(null);
            }}
          >
            {bench.hot.noTrip}
          </button>
        </div>
        <p role="status">{said}</p>
      </form>
    </details>
  );
}

const noVerdict = { verdict: null };

/** On sources that the fridge has shown: of others nothing could be said. */
function exampleTrip(ran: readonly (EnergySource | null)[]): string {
  const [first = "mains"] = heatSources.filter((source) => ran.includes(source));
  const either = (wanted: HeatSource, other: EnergySource) =>
    ran.length === 0 || ran.includes(wanted) ? wanted : other;
  const sources = [either("mains", first), either("dc12", "off"), either("gas", first)];
  const named = sources.map((source) => (source === "dc12" ? "12v" : source));
  const at = (celsius: number) => `${Math.round(shownCelsius(celsius))} ${degreeSign()}`;
  return bench.hot.example(new Date().getFullYear(), at, named);
}
