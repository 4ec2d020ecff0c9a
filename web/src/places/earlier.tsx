// Earlier versions: each can be looked at, and brought back.
import { useEffect, useState } from "preact/hooks";
import { write } from "../deciding";
import { kept } from "../flow";
import { proposed } from "../pages";
import { place, words } from "../standing";
import type { Version } from "../told";
import { useWords } from "./asking";

export function Earlier() {
  const [versions, setVersions] = useState<Version[] | null>(null);
  const [open, setOpen] = useState<{ version: Version; text: string } | null>(null);
  useWords([]);
  useEffect(() => {
    void kept<{ versions?: Version[] }>("/earlier/pattern").then((told) => setVersions(told.versions ?? []));
  }, []);
  const look = async (version: Version) => {
    const asked = `/earlier/pattern?version=${encodeURIComponent(version.id)}`;
    const told = await kept<{ text?: string }>(asked);
    if (told.text === undefined) return;
    setOpen({ version, text: told.text });
    proposed.value = changesTo(words.value, told.text);
  };
  const back = () => {
    if (!open) return;
    write(changesTo(words.value, open.text), `The pattern is as it was ${when(open.version)}.`);
    place.value = "pattern";
  };
  return (
    <>
      <h2>Earlier versions</h2>
      {versions?.length === 0 && (
        <p class="quiet">None yet. What you change is saved at once, and the text as it was is kept here.</p>
      )}
      {open && (
        <section class="note note-word" aria-label="The version that is looked at">
          <div>
            <p>
              <strong>As it was {when(open.version)}.</strong> What would change is on the page.
            </p>
            <div class="do">
              <button type="button" class="go" onClick={back}>
                Bring it back
              </button>
            </div>
          </div>
        </section>
      )}
      <ul class="versions">
        {versions?.map((version) => (
          <li>
            <button
              type="button"
              class="word-button"
              aria-pressed={open?.version.id === version.id}
              onClick={() => void look(version)}
            >
              {when(version)}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

function when(version: Version): string {
  return new Date(version.when).toLocaleString([], {
    weekday: "short",
    day: "numeric",
    month: "long",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
  });
}

/** The changes, line by line, that make one text of another. */
export function changesTo(old: string, text: string) {
  const [mine, theirs] = [old.split("\n"), text.split("\n")];
  let first = 0;
  while (first < mine.length && first < theirs.length && mine[first] === theirs[first]) first++;
  let last = 0;
  while (
    last < mine.length - first &&
    last < theirs.length - first &&
    mine.at(-1 - last) === theirs.at(-1 - last)
  )
    last++;
  if (first === mine.length && first === theirs.length) return [];
  const from = mine.slice(0, first).join("\n").length + (first > 0 ? 1 : 0);
  const gone = mine.slice(first, mine.length - last).join("\n");
  const come = theirs.slice(first, theirs.length - last).join("\n");
  return [{ from: Math.min(from, old.length), to: Math.min(from + gone.length, old.length), insert: come }];
}
