// The release: what stands in its way, its copies as they are made, and the finished ones.
import { useState } from "preact/hooks";
import { askInTurn, isUnsaved, stopAsking } from "../flow";
import { fetched } from "../server";
import { place, progress, words } from "../standing";
import { type Answered, useAnswer, useWords } from "./asking";
import { type Copy, Leaves } from "./leaves";
import { Told, Waiting } from "./waiting";

interface Found {
  gate: { what: string; says: string }[];
  errors: { message: string; why: string }[];
  copies: Copy[];
  open?: string;
}

export function Release() {
  const first = useAnswer<Found>("release");
  const [made, setMade] = useState<Answered<Found>>(null);
  const [isMaking, setMaking] = useState(false);
  useWords([[0, words.value.length]]);
  const found = made ?? first;
  if (!found) return <Waiting words="Looking at what is out." />;
  if (found.refused && !found.gate) return <p class="quiet">{found.refused}</p>;
  const make = async () => {
    setMaking(true);
    while (isUnsaved()) await new Promise((done) => setTimeout(done, 100));
    const answer = await askInTurn<Found>("release", { write: true }, () => true);
    setMade(answer?.gate ? answer : { ...found, open: "Stopped. What was out before still is." });
    setMaking(false);
  };
  return (
    <>
      <h2>What is to be put out</h2>
      <dl class="facts">
        {found.gate.map((one) => (
          <div>
            <dt>{one.what}</dt>
            <dd>{one.says}</dd>
          </div>
        ))}
      </dl>
      <Told all={found.errors} />
      {found.errors.length > 0 && (
        <p>
          Mend these first; until then only a draft can be made, and every page of it says so.{" "}
          <button type="button" class="word-button" onClick={() => (place.value = "pattern")}>
            To the pattern
          </button>
        </p>
      )}
      <p class="buttons">
        <button type="button" class="go" disabled={isMaking} onClick={() => void make()}>
          {found.errors.length > 0 ? "Make a draft" : "Make every copy"}
        </button>
        {isMaking && (
          <button type="button" onClick={() => void stopAsking()}>
            Stop
          </button>
        )}
        <span role="status">{isMaking ? howFar() : (found.open ?? "")}</span>
      </p>
      <h2>Copies</h2>
      {found.copies.length === 0 && <p class="quiet">None yet. They come into the folder "release", all of them or none.</p>}
      <ul class="copies">
        {found.copies.map((copy) => (
          <li key={copy.name + copy.made}>
            <button type="button" class="word-button" onClick={() => void show(copy.name)}>
              {copy.name}
            </button>
            <span class="quiet">
              {copy.what}, {Math.max(1, Math.round(copy.bytes / 1000))} kB
            </span>
            <Leaves copy={copy} />
          </li>
        ))}
      </ul>
    </>
  );
}

function howFar(): string {
  const now = progress.value;
  const share = Math.round(100 * (now?.share ?? 0));
  return `${share} % made${now?.said ? `: ${now.said}` : ""}. What is out stays out until all are whole.`;
}

const KINDS: Record<string, string> = {
  pdf: "application/pdf",
  jpg: "image/jpeg",
  png: "image/png",
  txt: "text/plain;charset=utf-8",
  svg: "text/plain;charset=utf-8",
};

/** Show a copy in a window of its own; what could run is kept as a file instead. */
async function show(name: string): Promise<void> {
  const data = await fetched(`/copy/${encodeURIComponent(name)}`);
  if (!data) return;
  const kind = KINDS[name.slice(name.lastIndexOf(".") + 1)];
  const url = URL.createObjectURL(new Blob([data], { type: kind ?? "application/octet-stream" }));
  const link = document.createElement("a");
  link.href = url;
  if (kind) link.target = "_blank";
  else link.download = name;
  link.rel = "noopener";
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
