// The pages begin here: who looks, which page, and what stands above and below every page.

import { render } from "preact";
import { useEffect } from "preact/hooks";
import { degreesKinds } from "../src/report/for-pages.ts";
import { ask, isSignInNeeded, outOfReach, useAsked } from "./ask.ts";
import { useKept } from "./kept-value.ts";
import { BeforeAndAfter } from "./pages/before-and-after.tsx";
import { BeforeYouStart } from "./pages/before-you-start.tsx";
import { BringIn } from "./pages/bring-in.tsx";
import { FirstPage } from "./pages/first-page.tsx";
import { FridgePage } from "./pages/fridge-page.tsx";
import { HotDays } from "./pages/hot-days.tsx";
import { RunPage } from "./pages/run-page.tsx";
import { SignIn } from "./pages/sign-in.tsx";
import { RunReport, ServiceReport } from "./pages/test-report.tsx";
import { useAttempt } from "./parts/attempt.ts";
import { Go, here, useTitle } from "./parts/going.tsx";
import { isRoleKnown, mayChange } from "./role.ts";
import {
  chooseDegrees,
  chooseLanguage,
  choosePaper,
  degrees,
  language,
  languages,
  paper,
  paperKinds,
  showPaper,
} from "./settings.ts";
import { bench, handFor, localOffset } from "./words.ts";

function Bench() {
  const isLocked = useKept(isSignInNeeded);
  const session = useAsked(`session ${isLocked}`, () => ask("GET /api/session"));
  useEffect(() => {
    if (session.answer === null) return;
    const { role, needsPassword } = session.answer;
    mayChange.set(!needsPassword || role === "technician");
    isRoleKnown.set(true);
    isSignInNeeded.set(needsPassword && role === null);
  }, [session.answer]);
  return (
    <>
      <a class="skip" href="#letter">
        {bench.shell.skip}
      </a>
      <Above />
      <main id="letter" tabIndex={-1}>
        {isLocked ? <SignIn /> : <Shown />}
      </main>
      <Below isSignedIn={session.answer?.needsPassword === true && session.answer.role !== null} />
    </>
  );
}

function Shown() {
  const page = useKept(here);
  switch (page.page) {
    case "first":
      return <FirstPage />;
    case "fridge":
      return <FridgePage key={page.fridgeId} fridgeId={page.fridgeId} />;
    case "run":
      return <RunPage key={page.runId} runId={page.runId} />;
    case "run-report":
      return <RunReport runId={page.runId} />;
    case "service-report":
      return <ServiceReport fridgeId={page.fridgeId} before={page.before} after={page.after} />;
    case "before-and-after":
      return <BeforeAndAfter fridgeId={page.fridgeId} before={page.before} after={page.after} />;
    case "hot-days":
      return <HotDays fridgeId={page.fridgeId} />;
    case "before-you-start":
      return <BeforeYouStart fridgeId={page.fridgeId} />;
    case "bring-in":
      return <BringIn fridgeId={page.fridgeId} />;
    case "nowhere":
      return <Nowhere />;
  }
}

function Nowhere() {
  useTitle(bench.shell.nowhere);
  return (
    <>
      <h1>{bench.shell.nowhere}</h1>
      <p>
        <Go to={{ page: "first" }}>{bench.shell.toFridges}</Go>
      </p>
    </>
  );
}

/** Says so when the service is out of reach. */
function Above() {
  const since = useKept(outOfReach);
  return (
    <div class="above" role="status">
      {since === null ? null : (
        <p class="out-of-reach">
          {since === "never"
            ? bench.shell.outOfReach
            : bench.shell.lastKnown(handFor(localOffset(since)).moment(since))}
        </p>
      )}
    </div>
  );
}

function Below({ isSignedIn }: { readonly isSignedIn: boolean }) {
  const shownDegrees = useKept(degrees);
  const shownPaper = useKept(paper);
  const { problem, attempt } = useAttempt();
  const leave = async () => {
    // Signed out in looks alone, the next one at this device would go on under this name.
    if (await attempt(() => ask("DELETE /api/session"))) isSignInNeeded.set(true);
  };
  return (
    <footer class="below">
      <Choice
        title={bench.shell.degrees}
        options={degreesKinds}
        names={bench.shell.degreesNames}
        chosen={shownDegrees}
        choose={chooseDegrees}
      />
      <Choice
        title={bench.shell.paper}
        options={paperKinds}
        names={bench.shell.paperNames}
        chosen={shownPaper}
        choose={choosePaper}
      />
      <Choice
        title={bench.shell.language}
        options={languages}
        names={bench.shell.languageNames}
        chosen={language}
        choose={chooseLanguage}
      />
      {isSignedIn ? (
        <button type="button" onClick={leave}>
          {bench.shell.signOut}
        </button>
      ) : null}
      {problem === null ? null : <p role="alert">{problem}</p>}
    </footer>
  );
}

interface ChoiceProps<K extends string> {
  readonly title: string;
  readonly options: readonly K[];
  readonly names: { readonly [N in K]: string };
  readonly chosen: K;
  readonly choose: (one: K) => void;
}

function Choice<K extends string>({ title, options, names, chosen, choose }: ChoiceProps<K>) {
  return (
    <fieldset class="choice">
      <legend>{title}</legend>
      {options.map((one) => (
        <label key={one}>
          <input type="radio" name={title} checked={one === chosen} onChange={() => choose(one)} />
          {names[one]}
        </label>
      ))}
    </fieldset>
  );
}

showPaper();
const root = document.getElementById("bench");
if (root !== null) render(<Bench />, root);

// Without it the pages work as well; they only show nothing when the service is out of reach.
if ("serviceWorker" in navigator) navigator.serviceWorker.register("/service-worker.js").catch(() => undefined);
