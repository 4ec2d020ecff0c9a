// What stands on the desk now.
import { computed, signal } from "@preact/signals";
import { chosenUnits } from "./liking";
import type { Finding, Length, Row, Seen, Word } from "./told";

export type Page = "waiting" | "first" | "desk" | "refused";

export const page = signal<Page>("waiting");
export const refusal = signal("");
export const folder = signal("");

export const seen = signal<Seen | null>(null);
export const worksheet = signal("");

/** The words of the pattern, for what looks at them beside the editor. */
export const words = signal("");

export const place = signal("pattern");
export const view = signal("fabric");
export const size = signal(0);

/** Where the cursor stands. */
export const cursor = signal(0);

export type Note =
  | { kind: "finding"; at: number }
  | { kind: "word"; word: Word }
  | null;
/** The one note that is open. */
export const note = signal<Note>(null);

export const saved = signal<Date | null>(null);
export const saving = signal<"saved" | "writing" | "gone">("saved");

export interface Conflict {
  file: "pattern" | "worksheet";
  mine: string;
  theirs: string;
  mark: string;
  when: Date;
}
export const conflict = signal<Conflict | null>(null);
/** A word about something that has happened, until the next thing happens. */
export const aside = signal("");
/** How far a long answer has come, as long as it is worked out. */
export const progress = signal<{ said: string; share: number } | null>(null);
/** The same of what lays stitches out, which goes on beside that. */
export const laidSoFar = signal<{ said: string; share: number } | null>(null);
/** What a screen reader says next. */
export const spoken = signal("");
export const showsKeys = signal(false);

export const units = computed(() => chosenUnits.value ?? seen.value?.units ?? "in");

export function told(length: Length | null | undefined): string {
  return length ? length[units.value] : "";
}

export const loud = computed(() => findingsOf((found) => found.loud));
export const quiet = computed(() => findingsOf((found) => !found.loud));

function findingsOf(wanted: (found: Finding) => boolean): Finding[] {
  return seen.value?.findings.filter((f) => f.text === "pattern" && wanted(f)) ?? [];
}

/** Rows under one printed label, which stand in the same words. */
export interface Printed {
  start: number;
  end: number;
  rows: Row[];
}

export function printedRows(rows: Row[]): Printed[] {
  const found: Printed[] = [];
  for (const row of rows) {
    const last = found.at(-1);
    if (last && last.start === row.start) last.rows.push(row);
    else found.push({ start: row.start, end: row.end, rows: [row] });
  }
  return found;
}

export function say(words: string): void {
  spoken.value = spoken.value === words ? `${words}\u00a0` : words;
}
