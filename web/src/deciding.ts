// A decision: a change of the words or of the worksheet, and the way back from it.
import { ask, look, touched } from "./flow";
import { aside, say, worksheet } from "./standing";
import type { Change } from "./told";

/** The worksheets that were before, and those that were undone. */
const before: string[] = [];
const after: string[] = [];

let change: (changes: Change[]) => void = () => undefined;

export function onChange(call: typeof change): void {
  change = call;
}

/** Make changes of the words; they can be undone like every other. */
export function write(changes: Change[], said: string): void {
  change(changes);
  touched("pattern", true);
  aside.value = said;
  say(said);
}

export function setWorksheet(text: string): void {
  if (text === worksheet.value) return;
  before.push(worksheet.value);
  after.length = 0;
  put(text);
}

function put(text: string): void {
  worksheet.value = text;
  touched("worksheet", true);
  void look();
}

export interface Noted {
  table: string;
  key: string;
  value: unknown;
  number?: number;
}

/** Note something down in the worksheet; what it does not take is told. */
export async function note(...all: Noted[]): Promise<string> {
  let text = worksheet.value;
  const was = text;
  for (const one of all) {
    worksheet.value = text;
    const told = await ask<{ worksheet?: string }>("note", { ...one });
    worksheet.value = was;
    if (told.refused || told.worksheet === undefined) return told.refused ?? "";
    text = told.worksheet;
  }
  setWorksheet(text);
  return "";
}

/** Take the last decision back. */
export function undo(): boolean {
  const text = before.pop();
  if (text === undefined) return false;
  after.push(worksheet.value);
  put(text);
  say("Taken back.");
  return true;
}

export function redo(): boolean {
  const text = after.pop();
  if (text === undefined) return false;
  before.push(worksheet.value);
  put(text);
  say("Done again.");
  return true;
}
