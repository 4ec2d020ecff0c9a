// Asking the desk. Every question brings the secret of its start, which stands in the address
// that was opened and goes nowhere else.

const KEPT = "desk-key";

function key(): string {
  const given = new URLSearchParams(location.hash.slice(1)).get("key");
  if (given) {
    sessionStorage.setItem(KEPT, given);
    history.replaceState(null, "", location.pathname);
  }
  return given ?? sessionStorage.getItem(KEPT) ?? "";
}

const KEY = key();

/** The desk does not answer: it has ended, or was cut off. */
export class Gone extends Error {}

export interface Answer<T> {
  status: number;
  told: T;
}

async function send<T>(method: string, path: string, body?: BodyInit): Promise<Answer<T>> {
  let answered: Response;
  try {
    answered = await fetch(path, {
      method,
      headers: { "x-desk-key": KEY },
      body: body ?? null,
    });
  } catch {
    throw new Gone("The desk has stopped.");
  }
  const isJson = answered.headers.get("content-type")?.includes("json") ?? false;
  const told = isJson ? await answered.json() : { refused: await answered.text() };
  return { status: answered.status, told: told as T };
}

export function get<T>(path: string): Promise<Answer<T>> {
  return send<T>("GET", path);
}

/** A file of the desk, as it is; null where it cannot be had. */
export async function fetched(path: string): Promise<ArrayBuffer | null> {
  try {
    const answered = await fetch(path, { headers: { "x-desk-key": KEY } });
    return answered.ok ? await answered.arrayBuffer() : null;
  } catch {
    return null;
  }
}

export function post<T>(path: string, told: unknown): Promise<Answer<T>> {
  return send<T>("POST", path, JSON.stringify(told));
}

/** A file as it is, without a form around it. */
export function bring<T>(file: File): Promise<Answer<T>> {
  return send<T>("POST", `/draft?name=${encodeURIComponent(file.name)}`, file);
}

/** The news of the desk, as long as it tells any; then it has stopped. */
export async function listen(hear: (kind: string, told: unknown) => void): Promise<void> {
  const answered = await fetch("/news", { headers: { "x-desk-key": KEY } });
  const reader = answered.body?.pipeThrough(new TextDecoderStream()).getReader();
  if (!answered.ok || !reader) return;
  let waiting = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    waiting += value;
    const events = waiting.split("\n\n");
    waiting = events.pop() ?? "";
    for (const event of events) {
      const found = /^event: (.*)\ndata: (.*)$/.exec(event);
      if (found) hear(found[1] ?? "", JSON.parse(found[2] ?? "null"));
    }
  }
}
