// How large every piece lies, and whether flat: outlines to one scale, with their numbers.
import { useEffect, useState } from "preact/hooks";
import { askInTurn } from "../flow";
import { seen, told } from "../standing";
import type { Length } from "../told";

interface Measured {
  name: string;
  width: Length;
  height: Length;
  verdict: string;
  advice: string;
  how: string[];
}

interface Told {
  parts: { part: string; reason: string; sizes: Measured[] }[];
}

export function Measurements() {
  const [found, setFound] = useState<(Told & { refused?: string }) | null>(null);
  const now = seen.value;
  useEffect(() => {
    let isOver = false;
    void askInTurn<Told>("measurements", {}, () => !isOver).then((answer) => {
      if (answer) setFound(answer);
    });
    return () => {
      isOver = true;
    };
  }, [now]);
  if (!found) return <p class="quiet empty">Every stitch is being laid out.</p>;
  if (found.refused) return <p class="quiet empty">{found.refused}</p>;
  return (
    <div class="measurements" tabIndex={0} role="region" aria-label="Measurements">
      {found.parts.map((part) => (
        <section>
          {(found.parts.length > 1 || part.part) && <h3>{part.part || "The piece"}</h3>}
          {part.reason && <p class="quiet">{part.reason}</p>}
          <Outlines sizes={part.sizes} />
          {part.sizes.map((one) => (
            <details>
              <summary>
                {one.name ? `${one.name}: ` : ""}
                {told(one.width)} wide, {told(one.height)} high, {one.verdict}
              </summary>
              {one.advice && <p>{one.advice}</p>}
              {one.how.map((sentence) => (
                <p class="quiet">{sentence}</p>
              ))}
            </details>
          ))}
        </section>
      ))}
    </div>
  );
}

export function Outlines({ sizes }: { sizes: { name: string; width: Length; height: Length }[] }) {
  const most = Math.max(...sizes.map((one) => Math.max(one.width.mm, one.height.mm * 1.1)), 1);
  const scale = 240 / most;
  const high = Math.max(...sizes.map((one) => one.height.mm), 1) * scale;
  return (
    <svg
      class="outlines"
      viewBox={`-4 -22 300 ${Math.ceil(high) + 56}`}
      role="img"
      aria-label={sizes.map((one) => `${one.name || "The piece"}: ${told(one.width)} by ${told(one.height)}`).join("; ")}
    >
      {sizes.toReversed().map((one) => (
        <g>
          <rect x="0" y={high - one.height.mm * scale} width={one.width.mm * scale} height={one.height.mm * scale} />
          {one.name && (
            <text x={one.width.mm * scale - 6} y={high - one.height.mm * scale + 18} text-anchor="end">
              {one.name}
            </text>
          )}
        </g>
      ))}
      {sizes[0] && (
        <text x="0" y={high + 22}>
          {told(sizes.at(-1)?.width)} wide, {told(sizes.at(-1)?.height)} high
        </text>
      )}
    </svg>
  );
}
