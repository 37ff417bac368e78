// Bring in a log: a file dropped, how it is understood before anything is stored, corrections, the import with progress.

import { useId, useRef, useState } from "preact/hooks";
import type { AnswerOf, CallInput, Operations } from "../../src/schema/api/index.ts";
import { isTimeZone, type Position, positions, type RunSheet } from "../../src/schema/index.ts";
import { ask, sentenceOf, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { FileDrop } from "../parts/file-drop.tsx";
import { useFocusKept } from "../parts/focus-kept.ts";
import { Go, goTo, useTitle, Way } from "../parts/going.tsx";
import { JobProgress } from "../parts/job-progress.tsx";
import { purposes } from "../parts/run-details.tsx";
import { Scroll } from "../parts/scroll.tsx";
import { StartForm } from "../parts/start-form.tsx";
import { isRoleKnown, mayChange } from "../role.ts";
import { bench, handFor, names, temperature } from "../words.ts";

type Upload = AnswerOf<Operations["POST /api/uploads"]>;
type Hints = NonNullable<CallInput<"POST /api/uploads/{uploadId}/understand">["body"]>;
type Purpose = CallInput<"POST /api/uploads/{uploadId}/import">["body"]["purpose"];

/** The zone of this device: a log that does not say its own was mostly written nearby. */
const here = new Intl.DateTimeFormat().resolvedOptions().timeZone;

export function BringIn({ fridgeId }: { readonly fridgeId: string }) {
  useTitle(bench.bringIn.title);
  const isChanging = useKept(mayChange);
  const isKnown = useKept(isRoleKnown);
  const fridge = useAsked(`fridge ${fridgeId}`, () => ask("GET /api/fridges/{fridgeId}", { params: { fridgeId } }));
  const [upload, setUpload] = useState<Upload | null>(null);
  const [isSending, setSending] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    setProblem(null);
    setSending(true);
    try {
      setUpload(await ask("POST /api/uploads", { query: { name: file.name.slice(0, 200), here }, body: file }));
    } catch (error) {
      setProblem(sentenceOf(error));
    }
    setSending(false);
  };
  return (
    <>
      <Way fridge={fridge.answer ?? undefined} />
      <h1>{bench.bringIn.title}</h1>
      <p class="lead">{bench.bringIn.lead}</p>
      {isChanging ? (
        <FileDrop label={bench.bringIn.drop} accept=".csv,.txt,.tsv,.json,text/csv" take={take} />
      ) : isKnown ? (
        <p>{bench.bringIn.onlyTechnician}</p>
      ) : null}
      <p role="status">{isSending ? bench.bringIn.sending : null}</p>
      <p role="alert">{problem}</p>
      {upload === null ? null : (
        <Understood key={upload.id} fridgeId={fridgeId} upload={upload} setUpload={setUpload} />
      )}
    </>
  );
}

interface UnderstoodProps {
  readonly fridgeId: string;
  readonly upload: Upload;
  readonly setUpload: (upload: Upload | null) => void;
}

function Understood({ fridgeId, upload, setUpload }: UnderstoodProps) {
  const params = { uploadId: upload.id };
  const [hints, setHints] = useState<Hints>({ here });
  const [problem, setProblem] = useState<string | null>(null);
  const { understanding } = upload;
  const part = useRef<HTMLElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  // A question that is answered goes, and the button with it.
  useFocusKept(part, heading);
  const say = async (more: Hints) => {
    const next = { ...hints, ...more };
    try {
      setUpload(await ask("POST /api/uploads/{uploadId}/understand", { params, body: next }));
      setHints(next);
      setProblem(null);
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  return (
    <section aria-labelledby="understood" ref={part}>
      <h2 id="understood" tabIndex={-1} ref={heading}>
        {bench.bringIn.understood(upload.name)}
      </h2>
      {upload.alreadyIn.length === 0 ? null : (
        <p>
          <Go to={{ page: "run", runId: upload.alreadyIn[0] }}>{bench.bringIn.alreadyIn}</Go>
        </p>
      )}
      {upload.problem === null ? null : <p role="alert">{upload.problem.detail ?? upload.problem.title}</p>}
      {understanding === null ? null : (
        <>
          {understanding.isOwnFormat ? <p>{bench.bringIn.ownFormat}</p> : null}
          <ul>
            {understanding.sure.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
          <Questions
            questions={understanding.questions}
            answer={(more) => say({ ...more, ...toldWith(hints, more) })}
          />
          <FirstRows understanding={understanding} />
          {understanding.whole === null ? null : (
            <>
              <h3>{bench.bringIn.whole}</h3>
              <ul>
                {understanding.whole.map((text) => (
                  <li key={text}>{text}</li>
                ))}
              </ul>
            </>
          )}
        </>
      )}
      <Corrections hints={hints} columns={understanding?.columns ?? []} say={say} />
      <p role="alert">{problem}</p>
      {understanding !== null && understanding.questions.length === 0 ? (
        <ImportForm fridgeId={fridgeId} upload={upload} hints={hints} />
      ) : null}
    </section>
  );
}

type Understanding = NonNullable<Upload["understanding"]>;
type Question = Understanding["questions"][number];

interface QuestionsProps {
  readonly questions: readonly Question[];
  readonly answer: (more: Hints) => Promise<void>;
}

function Questions({ questions, answer }: QuestionsProps) {
  return (
    <>
      {questions.map((question) => (
        <fieldset class="choice column" key={`${question.about} ${question.column}`}>
          <legend>{question.sentence}</legend>
          {question.about === "starts-at" ? <StartForm tell={(startsAt) => answer({ startsAt })} /> : null}
          {question.answers.map((one) => (
            <button type="button" key={one.answer} onClick={() => answer(one.hints)}>
              {one.text}
            </button>
          ))}
        </fieldset>
      ))}
    </>
  );
}

/** What columns and words were said to be before stays said. */
const toldWith = (hints: Hints, { columns, sourceWords }: Hints): Hints => ({
  ...(columns === undefined ? {} : { columns: { ...hints.columns, ...columns } }),
  ...(sourceWords === undefined ? {} : { sourceWords: { ...hints.sourceWords, ...sourceWords } }),
});

function FirstRows({
  understanding: { firstRows, firstUnixMs, lastUnixMs },
}: {
  readonly understanding: Understanding;
}) {
  const hand = handFor(0);
  const positions = [...new Set(firstRows.flatMap(({ values }) => Object.keys(values) as Position[]))];
  return (
    <>
      {firstUnixMs === null || lastUnixMs === null ? null : (
        <p>{bench.bringIn.covers(hand.period(firstUnixMs, lastUnixMs, "with year"))}</p>
      )}
      {firstRows.length === 0 ? null : (
        <Scroll name={bench.bringIn.firstRows}>
          <table class="readings">
            <caption>{bench.bringIn.firstRows}</caption>
            <thead>
              <tr>
                <th scope="col">{bench.bringIn.line}</th>
                <th scope="col">{bench.bringIn.written}</th>
                <th scope="col">{bench.bringIn.utc}</th>
                {positions.map((position) => (
                  <th scope="col" key={position}>
                    {names.positionNames[position]}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {firstRows.map(({ line, timeText, unixMs, values }) => (
                <tr key={line}>
                  <td>{line}</td>
                  <td>{timeText}</td>
                  <td>{unixMs === null ? "–" : hand.moment(unixMs)}</td>
                  {positions.map((position) => (
                    <td key={position}>{shown(position, values[position])}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
    </>
  );
}

function shown(position: Position, value: number | null | undefined): string {
  if (value === null || value === undefined) return "–";
  return position === "supply" ? handFor(0).quantity(value, "V", 1) : temperature(value);
}

interface CorrectionsProps {
  readonly hints: Hints;
  readonly columns: Understanding["columns"];
  readonly say: (more: Hints) => Promise<void>;
}

/** A time stays a time; what is a probe, or none, a person knows better. */
const isChangeable = ({ meaning }: Understanding["columns"][number]) =>
  meaning === "none" || positions.some((position) => position === meaning);

/** What was found may be wrong: unit, order of the day's parts, clock, separator, decimals, what is counted from when. */
function Corrections({ hints, columns, say }: CorrectionsProps) {
  const told = hints.columns ?? {};
  // What was told stays here to be changed, also where nothing can be read by it.
  const shown = [...new Set([...columns.filter(isChangeable).map(({ column }) => column), ...Object.keys(told)])];
  const tell = (column: string, meaning: string) => {
    const { [column]: _, ...others } = told;
    return say({ columns: meaning === "" ? others : ({ ...others, [column]: meaning } as Hints["columns"]) });
  };
  return (
    <details>
      <summary>{bench.bringIn.correct}</summary>
      <div class="row">
        {shown.map((column) => (
          <label class="field" key={column}>
            {bench.bringIn.column(column)}
            <select value={told[column] ?? ""} onChange={(event) => tell(column, event.currentTarget.value)}>
              <option value="">{bench.bringIn.asFound}</option>
              {positions.map((position) => (
                <option key={position} value={position}>
                  {names.positionNames[position]}
                </option>
              ))}
              <option value="none">{bench.bringIn.leftOut}</option>
            </select>
          </label>
        ))}
        {(["unit", "dateOrder", "separator", "decimal", "elapsedUnit"] as const).map((field) => (
          <label class="field" key={field}>
            {bench.bringIn.fields[field]}
            <select
              value={hints[field] ?? ""}
              onChange={(event) =>
                say({ [field]: event.currentTarget.value === "" ? undefined : event.currentTarget.value } as Hints)
              }
            >
              <option value="">{bench.bringIn.asFound}</option>
              {Object.entries(bench.bringIn.choices[field]).map(([value, name]) => (
                <option key={value} value={value}>
                  {name}
                </option>
              ))}
            </select>
          </label>
        ))}
        <ZoneForm told={hints.zone ?? ""} tell={(zone) => say({ zone })} />
        {hints.startsAt === undefined ? null : (
          <StartForm told={hints.startsAt} tell={(startsAt) => say({ startsAt })} />
        )}
      </div>
    </details>
  );
}

interface ZoneFormProps {
  readonly told: string;
  readonly tell: (zone: string | undefined) => Promise<void>;
}

function ZoneForm({ told, tell }: ZoneFormProps) {
  const [typed, setTyped] = useState(told);
  const [isWrong, setWrong] = useState(false);
  const id = useId();
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const zone = typed.trim();
        const isZone = zone === "" || isTimeZone(zone);
        setWrong(!isZone);
        return isZone ? tell(zone === "" ? undefined : zone) : undefined;
      }}
    >
      <div class="field">
        <label for={id}>{bench.bringIn.zone}</label>
        <input
          id={id}
          value={typed}
          maxLength={60}
          placeholder="+02:00"
          aria-invalid={isWrong}
          aria-describedby={isWrong ? `${id}-takes` : undefined}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        {isWrong ? (
          <p class="wrong" id={`${id}-takes`} role="alert">
            {bench.bringIn.zoneTakes(here)}
          </p>
        ) : null}
      </div>
      <button type="submit">{bench.bringIn.apply}</button>
    </form>
  );
}

interface ImportFormProps {
  readonly fridgeId: string;
  readonly upload: Upload;
  readonly hints: Hints;
}

function ImportForm({ fridgeId, upload, hints }: ImportFormProps) {
  const [purpose, setPurpose] = useState<Purpose>("test");
  const [name, setName] = useState(upload.name.replace(/\.\w+$/, ""));
  const [sheet, setSheet] = useState<RunSheet | undefined>(undefined);
  const [jobId, setJobId] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const takeSheet = async (file: File | undefined) => {
    setSheet(undefined);
    setProblem(null);
    try {
      // What is in it, the service checks.
      if (file !== undefined) setSheet(JSON.parse(await file.text()) as RunSheet);
    } catch {
      setProblem(bench.bringIn.noSheet);
    }
  };
  const bring = async (event: Event) => {
    event.preventDefault();
    try {
      const body = { fridgeId, purpose, name: name.trim(), hints, sheet };
      setJobId((await ask("POST /api/uploads/{uploadId}/import", { params: { uploadId: upload.id }, body })).id);
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  if (jobId !== null)
    return (
      <JobProgress
        jobId={jobId}
        done={({ result }) => {
          const runId = result?.runIds[0];
          goTo(runId === undefined ? { page: "fridge", fridgeId } : { page: "run", runId });
        }}
      />
    );
  return (
    <form onSubmit={bring}>
      <fieldset class="choice">
        <legend>{bench.bringIn.purpose}</legend>
        {purposes.map((one) => (
          <label key={one}>
            <input type="radio" name="purpose" checked={one === purpose} onChange={() => setPurpose(one)} />
            {bench.fridge.purposes[one]}
          </label>
        ))}
      </fieldset>
      <label class="field">
        {bench.bringIn.name}
        <input required maxLength={200} value={name} onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      <label class="field">
        {bench.bringIn.sheet}
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => takeSheet(event.currentTarget.files?.[0])}
        />
      </label>
      <button type="submit" class="main">
        {bench.bringIn.go}
      </button>
      <p role="alert">{problem}</p>
    </form>
  );
}
