// The test report: one or two pages of A4 for customer and workshop, about a run or about a service, as the server writes
// it. The PDF is drawn from the same telling.

import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { type Asked, ask, fileAt, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useAttempt } from "../parts/attempt.ts";
import { Go, useTitle } from "../parts/going.tsx";
import { Parts, useWholePage } from "../parts/letter.tsx";
import { save } from "../parts/picture-file.ts";
import { Waiting } from "../parts/waiting.tsx";
import { chooseLetterhead, letterhead } from "../settings.ts";
import { bench } from "../words.ts";

export function RunReport({ runId }: { readonly runId: string }) {
  const head = useKept(letterhead);
  const query: Record<string, string> = head === "" ? {} : { letterhead: head };
  const page = useAsked(`report ${runId} ${head}`, () =>
    ask("GET /api/runs/{runId}/report.html", { params: { runId }, query }),
  );
  return (
    <Report
      page={page}
      pdf={`/api/runs/${encodeURIComponent(runId)}/report.pdf?${new URLSearchParams(query)}`}
      back={<Go to={{ page: "run", runId }}>{bench.report.toRun}</Go>}
    />
  );
}

interface ServiceReportProps {
  readonly fridgeId: string;
  readonly before: string;
  readonly after: string;
}

export function ServiceReport({ fridgeId, before, after }: ServiceReportProps) {
  const head = useKept(letterhead);
  const query = { before, after, ...(head === "" ? {} : { letterhead: head }) };
  const page = useAsked(`report ${before} ${after} ${head}`, () => ask("GET /api/comparison/report.html", { query }));
  return (
    <Report
      page={page}
      pdf={`/api/comparison/report.pdf?${new URLSearchParams(query)}`}
      back={<Go to={{ page: "before-and-after", fridgeId, before, after }}>{bench.compare.title}</Go>}
    />
  );
}

interface ReportProps {
  readonly page: Asked<string>;
  readonly pdf: string;
  readonly back: ComponentChildren;
}

function Report({ page, pdf, back }: ReportProps) {
  useTitle(bench.report.title);
  const [head, setHead] = useState(letterhead.get());
  const parts = useWholePage(page.answer);
  const { problem, attempt } = useAttempt();
  const takePdf = () => attempt(async () => save(await fileAt(pdf), "test-report.pdf"));
  const keep = (event: Event) => {
    event.preventDefault();
    chooseLetterhead(head.trim());
  };
  return (
    <>
      <nav class="back no-print" aria-label={bench.shell.way}>
        {back}
      </nav>
      {parts === null ? (
        <Waiting asked={page} title={bench.report.title} />
      ) : (
        <>
          <div class="movers no-print">
            <button type="button" class="main" onClick={() => print()}>
              {bench.start.print}
            </button>
            <button type="button" onClick={takePdf}>
              {bench.report.pdf}
            </button>
          </div>
          <p role="alert" class="no-print">
            {problem}
          </p>
          <Parts parts={parts} hasFiles={false} />
        </>
      )}
      <form class="row no-print" onSubmit={keep}>
        <label class="field">
          {bench.report.letterhead}
          <input maxLength={200} value={head} onInput={(event) => setHead(event.currentTarget.value)} />
        </label>
        <button type="submit">{bench.details.keep}</button>
      </form>
    </>
  );
}
