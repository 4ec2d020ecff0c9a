// The schematic: the outline of every piece, how large it lies, and whether flat.
import { useEffect, useState } from "preact/hooks";
import { askInTurn } from "../flow";
import { seen, told } from "../standing";
import type { Length } from "../told";
import { Drawn } from "./drawn";

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

export function Schematic() {
  return (
    <Drawn kind="schematic" words="The outlines are being drawn" label="Schematic">
      <Measures />
    </Drawn>
  );
}

function Measures() {
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
  if (found.refused) return <p class="quiet">{found.refused}</p>;
  return (
    <>
      {found.parts.map((part) => (
        <section>
          {(found.parts.length > 1 || part.part) && <h3>{part.part || "The piece"}</h3>}
          {part.reason && <p class="quiet">{part.reason}</p>}
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
    </>
  );
}
