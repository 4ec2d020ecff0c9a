// The stripes of the whole piece, row by row, to scale.
import { UNDYED } from "../colour";
import { seen } from "../standing";
import { yarnOf } from "../yarn";

export function Stripes() {
  const now = seen.value;
  const runs = mergedRuns(now?.stripes ?? []);
  if (!now || !runs.length) return <p class="quiet">No row names its yarn yet.</p>;
  const rows = runs.reduce((sum, [, number]) => sum + number, 0);
  let first = 1;
  return (
    <div class="strip-view" tabIndex={0} role="region" aria-label="Stripes">
      <p class="quiet small">{rows} rows, from the first above to the last.</p>
      <ol class="strip">
        {runs.map(([name, number]) => {
          const yarn = yarnOf(now, [name]);
          const from = first;
          first += number;
          const told = number === 1 ? `Row ${from}` : `Rows ${from} to ${first - 1}`;
          return (
            <li style={{ height: `${Math.max(1.6, number * 0.6)}rem` }}>
              <i style={{ background: yarn.hex || UNDYED }} />
              <span>
                <b>{yarn.letter || name || "Yarn"}</b> {told}
              </span>
            </li>
          );
        })}
      </ol>
    </div>
  );
}

export function mergedRuns(stripes: [number, string, number][]): [string, number][] {
  const found: [string, number][] = [];
  for (const [, name, number] of stripes) {
    const last = found.at(-1);
    if (last && last[0] === name) last[1] += number;
    else found.push([name, number]);
  }
  return found;
}
