// A run taken along: readings, verdict, and the drawing as a picture.

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { fileAt } from "../ask.ts";
import { bench } from "../words.ts";
import { useAttempt } from "./attempt.ts";
import { pngOf, save } from "./picture-file.ts";

export function Exports({ run }: { readonly run: AnswerOf<Operations["GET /api/runs/{runId}"]> }) {
  const base = `/api/runs/${encodeURIComponent(run.id)}`;
  const { problem, attempt } = useAttempt();
  const take = (file: () => Promise<Blob>, ending: string) =>
    attempt(async () => save(await file(), `${run.name}.${ending}`));
  // Fetched here, so that their words are in the reader's language.
  const file = (address: string, ending: string, text: string) => (
    <button type="button" onClick={() => take(() => fileAt(`${base}/${address}`), ending)}>
      {text}
    </button>
  );
  const png = async () => pngOf(await fileAt(`${base}/drawing.svg?width=1000`));
  return (
    <section class="no-print" aria-labelledby="exports">
      <h2 id="exports">{bench.run.exportsTitle}</h2>
      <div class="movers">
        {file("log.csv", "csv", bench.run.csv)}
        {file("verdict", "json", bench.run.json)}
        {file("drawing.svg", "svg", bench.run.svg)}
        <button type="button" onClick={() => take(png, "png")}>
          {bench.run.png}
        </button>
      </div>
      <p role="alert">{problem}</p>
    </section>
  );
}
