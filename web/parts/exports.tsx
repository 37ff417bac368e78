// A run taken along: the report, readings, verdict, and the drawing as a picture.

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { bench } from "../words.ts";
import { Go } from "./going.tsx";
import { pngOf, save } from "./picture-file.ts";

export function Exports({ run }: { readonly run: AnswerOf<Operations["GET /api/runs/{runId}"]> }) {
  const base = `/api/runs/${encodeURIComponent(run.id)}`;
  const file = (address: string, ending: string, text: string) => (
    <li>
      <a href={`${base}/${address}`} download={`${run.name}.${ending}`}>
        {text}
      </a>
    </li>
  );
  return (
    <section aria-labelledby="exports">
      <h2 id="exports">{bench.run.exportsTitle}</h2>
      <p>
        <Go to={{ page: "run-report", runId: run.id }}>{bench.run.testReport}</Go> {bench.run.testReportIs}
      </p>
      <ul class="ways">
        {file("log.csv", "csv", bench.run.csv)}
        {file("verdict", "json", bench.run.json)}
        {file("drawing.svg", "svg", bench.run.svg)}
      </ul>
      <button
        type="button"
        onClick={async () => save(await pngOf(`${base}/drawing.svg?width=1000`), `${run.name}.png`)}
      >
        {bench.run.png}
      </button>
    </section>
  );
}
