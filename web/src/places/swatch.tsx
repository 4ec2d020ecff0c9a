// The swatch: what was measured, the gauge that comes of it, and what to make first.
import { useState } from "preact/hooks";
import { note } from "../deciding";
import { told, units } from "../standing";
import type { Length, Pitch } from "../told";
import { useAnswer, useWords } from "./asking";
import { Waiting } from "./waiting";

interface Measured {
  part: string;
  stitch: string;
  of: "stitches" | "repeats";
  across: number | null;
  rows: number | null;
  width: Length | null;
  height: Length | null;
  state: string;
}

interface Gauge {
  part: string;
  origin: string;
  state: string;
  stitch: Pitch | null;
  repeat: Pitch | null;
  row: Pitch | null;
  said: string[];
  make: string[];
}

interface Found {
  swatches: Measured[];
  tables: number;
  words: [number, number][];
  parts: Gauge[];
}

export function Swatch() {
  const found = useAnswer<Found>("swatch");
  useWords(found?.words);
  if (!found) return <Waiting words="The gauge is being worked out." />;
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  return (
    <>
      <h2>What you have measured</h2>
      {found.swatches.length === 0 && (
        <p class="quiet">
          No swatch yet. Measure one repeat and ten rows, washed, and the sizes become exact.
        </p>
      )}
      <ul class="swatches">
        {found.swatches.map((swatch) => (
          <SwatchOf swatch={swatch} />
        ))}
      </ul>
      <Another number={found.tables} />
      <h2>What comes of it</h2>
      {found.parts.slice(0, 1).map((part) => (
        <GaugeOf part={part} several={found.parts.length > 1} />
      ))}
      {found.parts.length > 1 && (
        <details>
          <summary>The other parts</summary>
          {found.parts.slice(1).map((part) => (
            <GaugeOf part={part} several />
          ))}
        </details>
      )}
    </>
  );
}

function SwatchOf({ swatch }: { swatch: Measured }) {
  const wide = swatch.width?.mm ?? 100;
  const high = swatch.height?.mm ?? wide;
  const scale = 88 / Math.max(wide, high);
  return (
    <li>
      <svg viewBox="-2 -2 96 96" aria-hidden="true">
        <rect width={wide * scale} height={high * scale} />
      </svg>
      <p>
        <b>
          {swatch.across ?? "?"} {swatch.across === 1 ? swatch.of.slice(0, -1) : swatch.of}
          {swatch.rows ? `, ${swatch.rows} rows` : ""}
        </b>
        <br />
        {told(swatch.width)} wide{swatch.height ? `, ${told(swatch.height)} high` : ""}
        <br />
        <span class="quiet">
          {[swatch.part, swatch.stitch, swatch.state].filter(Boolean).join(", ") || "as measured"}
        </span>
      </p>
    </li>
  );
}

function Another({ number }: { number: number }) {
  const [said, setSaid] = useState("");
  const noted = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const given = new FormData(form);
    const word = (name: string) => String(given.get(name) ?? "").trim();
    const [width, height] = [word("width"), word("height")].map((one) =>
      /^[\d.,/ ]+$/.test(one) ? `${one} ${units.value}` : one,
    );
    const [across, rows] = [word("across"), word("rows")].map((one) => Number(one.replace(",", ".")));
    const keys: [string, unknown][] = [
      [word("of"), across],
      ["rows", rows],
      ["width", width],
      ["height", height || width],
      ["state", word("state")],
    ];
    const kept = keys.filter(([, value]) => value !== "" && value !== 0);
    const refused = await note(
      ...kept.map(([key, value]) => ({ table: "swatch", key, value, number })),
    );
    setSaid(refused || "Noted.");
    if (!refused) form.reset();
  };
  return (
    <details class="another">
      <summary>Note another swatch</summary>
      <form onSubmit={(event) => void noted(event as unknown as SubmitEvent)}>
        <label>
          How many across <input name="across" inputMode="decimal" required size={5} />
        </label>
        <label>
          of{" "}
          <select name="of">
            <option value="stitches">stitches</option>
            <option value="repeats">repeats</option>
          </select>
        </label>
        <label>
          How wide, in {units.value} <input name="width" required size={7} />
        </label>
        <label>
          How many rows <input name="rows" inputMode="decimal" size={5} />
        </label>
        <label>
          How high, in {units.value} <input name="height" size={7} />
        </label>
        <label>
          When{" "}
          <select name="state">
            <option value="blocked">washed and blocked</option>
            <option value="as worked">as worked</option>
          </select>
        </label>
        <button type="submit" class="go">
          Note it
        </button>
        <span role="status">{said}</span>
      </form>
    </details>
  );
}

function GaugeOf({ part, several }: { part: Gauge; several: boolean }) {
  const lines: [string, Pitch | null][] = [
    ["One repeat", part.repeat],
    ["One stitch", part.stitch],
    ["One row", part.row],
  ];
  return (
    <section>
      {several && <h3>{part.part || "The piece"}</h3>}
      <dl class="facts">
        {lines.map(
          ([name, pitch]) =>
            pitch && (
              <div>
                <dt>{name}</dt>
                <dd>
                  <b>{small(pitch)}</b>
                  {pitch.spread && pitch.spread.mm > 0 && (
                    <span class="quiet"> give or take {pitch.spread.mm.toFixed(1)} mm</span>
                  )}
                </dd>
              </div>
            ),
        )}
        <div>
          <dt>By</dt>
          <dd>
            {part.origin}
            {part.state ? `, ${part.state}` : ""}
          </dd>
        </div>
      </dl>
      {part.make.length > 0 && (
        <>
          <h3>A swatch to make</h3>
          {part.make.map((sentence) => (
            <p>{sentence}</p>
          ))}
        </>
      )}
      <details>
        <summary>How it came about</summary>
        {part.said.map((sentence) => (
          <p class="quiet">{sentence}</p>
        ))}
      </details>
    </section>
  );
}

/** Small lengths need finer words than a ruler has. */
function small(pitch: Pitch): string {
  return units.value === "in" ? `${(pitch.mm / 25.4).toFixed(2)} in` : `${(pitch.mm / 10).toFixed(2)} cm`;
}
