// The edging: what can be worked along each edge, compared on the same corner.
import { useState } from "preact/hooks";
import { write } from "../deciding";
import { ask } from "../flow";
import { place, told, words } from "../standing";
import type { Length } from "../told";
import { useAnswer, useWords } from "./asking";
import { Waiting } from "./waiting";

interface Offered {
  side: string;
  shape: string;
  title: string;
  heading: string;
  lines: string[];
  rows: number;
  about: string[];
  verdict: string;
  excess: number;
  wide: Length | null;
}

interface Found {
  kinds: string[];
  stitches: string[];
  words: [number, number][];
  offered: Offered[];
  not_offered: { title: string; why: string }[];
  notes: string[];
}

export function Edging() {
  const [wish, setWish] = useState({ kind: "plain", stitch: "sc", rows: 2 });
  const found = useAnswer<Found>("edging", wish);
  const [said, setSaid] = useState("");
  useWords(found?.words);
  if (!found) return <Waiting words="Each edging is being worked together with the piece." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  const put = async (one: Offered) => {
    setSaid("Working it together with the piece.");
    const given = { ...wish, side: one.side, shape: one.shape, write: true };
    const told = await ask<{ text?: string }>("edging", given);
    if (told.text === undefined) {
      setSaid("It does not come out in the words as they stand.");
      return;
    }
    write(whole(words.value, told.text), `${one.heading} is written into the pattern.`);
    place.value = "pattern";
  };
  return (
    <>
      <h2>What you wish</h2>
      <div class="ask">
        <Choice label="Kind" value={wish.kind} all={found.kinds} choose={(kind) => setWish({ ...wish, kind })} />
        <Choice label="In" value={wish.stitch} all={found.stitches} choose={(stitch) => setWish({ ...wish, stitch })} />
        <label>
          Rows{" "}
          <input
            type="number"
            min={1}
            max={12}
            value={wish.rows}
            onChange={(event) => setWish({ ...wish, rows: Number(event.currentTarget.value) || 2 })}
          />
        </label>
      </div>
      {found.notes.map((sentence) => (
        <p class="quiet">{sentence}</p>
      ))}
      <p role="status">{said}</p>
      <ul class="edgings">
        {found.offered.map((one) => (
          <li>
            <Strip excess={one.excess} rows={one.rows} />
            <h3>{one.title}</h3>
            <p>
              <b>{one.verdict}</b>
              {one.wide ? `, ${told(one.wide)} wide` : ""}
            </p>
            <button type="button" onClick={() => void put(one)}>
              Write it into the pattern
            </button>
            <details>
              <summary>Its rows</summary>
              {one.lines.map((line) => (
                <p>{line}</p>
              ))}
              {one.about.map((sentence) => (
                <p class="quiet">{sentence}</p>
              ))}
            </details>
          </li>
        ))}
      </ul>
      {found.not_offered.map((one) => (
        <p class="quiet">
          No edging {one.title.slice(0, 1).toLowerCase() + one.title.slice(1)}: {one.why}
        </p>
      ))}
    </>
  );
}

/** The smallest change that makes one text of another. */
function whole(old: string, text: string) {
  let start = 0;
  const shorter = Math.min(old.length, text.length);
  while (start < shorter && old[start] === text[start]) start++;
  let end = 0;
  while (end < shorter - start && old.at(-1 - end) === text.at(-1 - end)) end++;
  return [{ from: start, to: old.length - end, insert: text.slice(start, text.length - end) }];
}

function Choice(props: { label: string; value: string; all: string[]; choose: (one: string) => void }) {
  return (
    <label>
      {props.label}{" "}
      <select value={props.value} onChange={(event) => props.choose(event.currentTarget.value)}>
        {props.all.map((one) => (
          <option value={one}>{one}</option>
        ))}
      </select>
    </label>
  );
}

/** An edge with its edging: flat, in waves where it is too long, drawn in where too short. */
function Strip({ excess, rows }: { excess: number; rows: number }) {
  const wave = Math.max(0, excess) * 60;
  const drawn = Math.max(0, -excess) * 60;
  const lines = Array.from({ length: rows }, (_, row) => {
    const y = 26 - row * (14 / Math.max(2, rows));
    const points = Array.from({ length: 61 }, (_, at) => {
      const x = 4 + at * 3.8;
      const up = wave * Math.sin(at * 0.62) * ((row + 1) / rows);
      const bow = drawn * Math.sin((Math.PI * at) / 60) * ((row + 1) / rows);
      return `${x.toFixed(1)} ${(y - up + bow).toFixed(1)}`;
    });
    return <path d={`M${points.join("L")}`} />;
  });
  return (
    <svg class="edge" viewBox="0 0 236 48" aria-hidden="true">
      <rect x="4" y="28" width="228" height="18" />
      {lines}
    </svg>
  );
}
