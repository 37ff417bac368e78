// Keeps the pages and the last answers, so that the bench opens and shows the last known state when its service is out of
// reach. What it gives from its memory carries the instant it was kept at; the page says so.

// The worker's own globals; the page's library of types does not know them.
interface WorkerEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface FetchEvent extends WorkerEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Worker {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", hear: (event: WorkerEvent) => void): void;
  addEventListener(kind: "fetch", hear: (event: FetchEvent) => void): void;
}
const worker = self as unknown as Worker;

const pagesName = "coldfall-pages-1";
const answersName = "coldfall-answers-1";
const keptHeader = "Coldfall-Kept";
/** Answers kept; the oldest make room. */
const mostAnswers = 300;

worker.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(pagesName)
      .then((pages) => pages.add("/"))
      .then(() => worker.skipWaiting()),
  );
});

worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== worker.location.origin || pathname === "/api/live") return;
  // Who is signed in is never answered from memory.
  if (pathname === "/api/session" || pathname.endsWith(".csv")) return;
  if (pathname.startsWith("/api/")) event.respondWith(newest(request));
  else event.respondWith(page(request));
});

/** The service's answer; where it gives none, the one kept last. */
async function newest(request: Request): Promise<Response> {
  const answers = await caches.open(answersName);
  try {
    const response = await fetch(request);
    if (response.ok) await keep(answers, request, response.clone());
    // After a sign-out nobody reads on what the one before him was shown.
    if (response.status === 401) await caches.delete(answersName);
    return response;
  } catch (error) {
    const kept = await answers.match(request);
    if (kept === undefined) throw error;
    return kept;
  }
}

async function keep(answers: Cache, request: Request, response: Response): Promise<void> {
  const headers = new Headers(response.headers);
  headers.set(keptHeader, String(Date.now()));
  const { status, statusText } = response;
  await answers.delete(request);
  await answers.put(request, new Response(await response.blob(), { status, statusText, headers }));
  const all = await answers.keys();
  await Promise.all(all.slice(0, Math.max(0, all.length - mostAnswers)).map((one) => answers.delete(one)));
}

/** A page or a part of one: a part named after its content never changes, anything else is asked for first. */
async function page(request: Request): Promise<Response> {
  const pages = await caches.open(pagesName);
  const isHashed = new URL(request.url).pathname.startsWith("/assets/");
  const kept = isHashed ? await pages.match(request) : undefined;
  if (kept !== undefined) return kept;
  // Every page of the bench is the same document.
  const key = request.mode === "navigate" ? "/" : request;
  try {
    const response = await fetch(request);
    if (response.ok) await pages.put(key, response.clone());
    return response;
  } catch (error) {
    const last = await pages.match(key);
    if (last === undefined) throw error;
    return last;
  }
}
