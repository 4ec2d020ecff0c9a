// The corrections: what changed since a version that is out, and what its makers will read.
import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { note } from "../deciding";
import { Files, type Kept } from "../files";
import { ask, isUnsaved, look } from "../flow";
import { type Block, SheetOf } from "../sheet";
import { useAnswer } from "./asking";
import { Waiting } from "./waiting";

interface Found {
  kept: { version: string; date: string }[];
  next: string;
  said: string;
  files: Kept[];
  against?: string;
  new?: string;
  fabric?: number;
  page?: Block[];
  stamp?: string;
}

const shown = signal<Found | null>(null);

export function Corrections() {
  const [against, setAgainst] = useState("");
  const found = useAnswer<Found>("corrections", { size: against });
  useEffect(() => {
    shown.value = found && !found.refused ? found : null;
  }, [found]);
  useEffect(() => () => void (shown.value = null), []);
  if (!found) return <Waiting words="Comparing the two texts." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  return (
    <>
      <h2>Versions that are out</h2>
      {found.kept.length === 0 && (
        <p class="quiet">None is kept yet. Keep the text when you put it out; later changes are held against it.</p>
      )}
      {found.kept.length > 0 && (
        <fieldset class="ways">
          <legend class="hidden">Hold the text against</legend>
          {found.kept.map((one) => (
            <label>
              <input
                type="radio"
                name="against"
                checked={one.version === found.against}
                onChange={() => setAgainst(one.version)}
              />
              <span>
                <b>{one.version}</b>
                <br />
                <span class="quiet">{one.date}</span>
              </span>
            </label>
          ))}
        </fieldset>
      )}
      {found.against && (
        <>
          <p>
            {found.fabric === 0
              ? `The fabric is that of ${found.against}: every row makes the same stitches in the same places.`
              : `${found.fabric === 1 ? "One change" : `${found.fabric} changes`} in the fabric since ${found.against}. The page for its makers is beside this.`}
          </p>
          {found.stamp ? (
            <p class="quiet">For every page of the new version: {found.stamp}</p>
          ) : (
            <CallIt />
          )}
          <h2>To keep</h2>
          <Files of="corrections" all={found.files} wished={{ size: against }} />
        </>
      )}
      <KeepIt next={found.next} />
    </>
  );
}

/** The name of the new version, for its stamp. */
function CallIt() {
  const [said, setSaid] = useState("");
  const noted = async (event: SubmitEvent) => {
    event.preventDefault();
    const given = new FormData(event.currentTarget as HTMLFormElement);
    const value = String(given.get("new") ?? "").trim();
    setSaid((await note({ table: "design", key: "version", value })) || "Noted.");
  };
  return (
    <form class="ask" onSubmit={(event) => void noted(event as unknown as SubmitEvent)}>
      <label>
        The text is now version <input name="new" required size={8} />
      </label>
      <button type="submit">Note it</button>
      <span role="status">{said}</span>
    </form>
  );
}

function KeepIt({ next }: { next: string }) {
  const [said, setSaid] = useState("");
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const version = String(new FormData(form).get("version") ?? "").trim();
    while (isUnsaved()) await new Promise((done) => setTimeout(done, 100));
    const told = await ask<Found>("corrections", { write: true, words: version });
    setSaid(told.refused ?? (told.said || `Version ${version} is kept.`));
    void look();
  };
  return (
    <form class="ask" onSubmit={(event) => void keep(event as unknown as SubmitEvent)}>
      <h2>Keep the text as it is now</h2>
      <label>
        As version <input name="version" required size={8} defaultValue={next} key={next} />
      </label>
      <button type="submit">Keep it</button>
      <span role="status">{said}</span>
    </form>
  );
}

/** What makers of the older version will read, on the page. */
export function CorrectionsPage() {
  const now = shown.value;
  return (
    <section class="page decided on-page" aria-label="What its makers will read" tabIndex={0}>
      <div class="page-head">
        <h2>{now?.against ? `For makers of ${now.against}` : "What its makers will read"}</h2>
      </div>
      <div class="blocks">
        {now?.page ? <SheetOf blocks={now.page} /> : <p class="quiet">Nothing yet: no version is kept.</p>}
      </div>
    </section>
  );
}
