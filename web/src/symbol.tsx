// The symbol of a stitch, drawn by the desk; nothing where it has none.
import { useEffect, useState } from "preact/hooks";
import { askInTurn } from "./flow";

const known = new Map<string, string>();

export function WordSymbol({ stitch, terms }: { stitch: string; terms: string }) {
  const [picture, setPicture] = useState(known.get(stitch) ?? "");
  useEffect(() => {
    if (!stitch || known.has(stitch)) return;
    void askInTurn<{ svg?: string }>("symbol", { stitch }, () => true).then((told) => {
      known.set(stitch, told?.svg ?? "");
      setPicture(told?.svg ?? "");
    });
  }, [stitch, terms]);
  if (!picture) return null;
  return <img class="symbol" alt="" src={`data:image/svg+xml,${encodeURIComponent(picture)}`} />;
}
