// Which yarn is meant by what a row calls it?
import type { Seen } from "./told";

export function yarnOf(seen: Pick<Seen, "yarns">, names: string[]): { hex: string; letter: string } {
  const name = (names.at(-1) ?? "").toLowerCase();
  const found =
    seen.yarns.find((yarn) => name && yarn.letter.toLowerCase() === name) ??
    seen.yarns.find((yarn) => name && yarn.name.toLowerCase() === name) ??
    (name ? undefined : seen.yarns[0]);
  return { hex: found?.hex ?? "", letter: found?.letter ?? "" };
}
