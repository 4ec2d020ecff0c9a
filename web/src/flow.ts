// From a keystroke to what is proven of it, and to the disk. Only the newest text is asked
// about, and only one question is under way; a save names the text that it was made from.
import { batch } from "@preact/signals";
import { type Answer, bring, get, Gone, listen, post } from "./server";
import {
  aside, conflict, folder, laidSoFar, page, progress, refusal, saved, saving, seen, words, worksheet,
} from "./standing";
import type { FileText, Seen } from "./told";

const SAVE_AFTER_MS = 250;
const TRY_AGAIN_MS = 700;

type File_ = "pattern" | "worksheet";

/** The marks of the texts as they are known to stand on the disk. */
const marks: Record<File_, string> = { pattern: "", worksheet: "" };
const onDisk: Record<File_, string> = { pattern: "", worksheet: "" };
const decided: Record<File_, boolean> = { pattern: false, worksheet: false };

/** The last answer: the text asked about, and what is seen of it. */
let answered: [text: string, seen: Seen] | null = null;
let show: (text: string, seen: Seen) => void = () => undefined;
let take = (text: string): void => {
  words.value = text;
};

/** Be told every answer, the last one too: it may have come before there was anybody to tell. */
export function onSeen(call: typeof show): void {
  show = call;
  if (answered) show(...answered);
}

/** Be told when the pattern's text comes from elsewhere. */
export function onTaken(call: typeof take): void {
  take = call;
}

export function current(file: File_): string {
  return file === "pattern" ? words.value : worksheet.value;
}

// ---- asking

let asking = false;
let again = false;

export async function look(): Promise<void> {
  if (asking) {
    again = true;
    return;
  }
  asking = true;
  const text = words.value;
  try {
    const { status, told } = await post<Seen>("/ask/seen", { text, worksheet: worksheet.value });
    if (!told.refused) {
      answered = [text, told];
      show(text, told);
    } else if (!text.trim()) seen.value = null;
    else if (status >= 500) lookLater();
  } catch (error) {
    if (!(error instanceof Gone)) throw error;
    saving.value = "gone";
  } finally {
    asking = false;
  }
  if (again || words.value !== text) {
    again = false;
    void look();
  }
}

/** What works the answer out has ended before it was done: it is asked again. */
function lookLater(): void {
  setTimeout(() => void look(), TRY_AGAIN_MS);
}

type Told<T> = T & { refused?: string };

/** Ask something that is answered at once, or that nobody else waits for. */
export async function ask<T>(
  question: string,
  wished: Record<string, unknown> = {},
): Promise<Told<T>> {
  const asked = { text: words.peek(), worksheet: worksheet.peek(), wished };
  return orGone(async () => (await post<Told<T>>(`/ask/${question}`, asked)).told);
}

/** An answer; where the desk has stopped meanwhile, that instead. */
async function orGone<T>(call: () => Promise<Told<T>>): Promise<Told<T>> {
  try {
    return await call();
  } catch (error) {
    if (!(error instanceof Gone)) throw error;
    saving.value = "gone";
    return { refused: error.message } as Told<T>;
  }
}

/** Something that the desk keeps, as `ask` answers. */
export function kept<T>(path: string): Promise<Told<T>> {
  return orGone(async () => (await get<Told<T>>(path)).told);
}

/** What lays stitches out has a turn of its own, and a process of its own at the desk. */
const LAID = new Set(["cloth", "measurements", "drawing", "symbol", "sample"]);
const turns = { laid: Promise.resolve<unknown>(null), other: Promise.resolve<unknown>(null) };

function progressOf(question: string): typeof progress {
  return LAID.has(question) ? laidSoFar : progress;
}

/**
 * Ask something that takes a while, when all that was asked before is answered. What is not
 * wanted any more by then is not asked, and an answer that comes too late is null.
 */
export function askInTurn<T>(
  question: string,
  wished: Record<string, unknown>,
  isWanted: () => boolean,
): Promise<Told<T> | null> {
  const whose = LAID.has(question) ? "laid" : "other";
  const answered = turns[whose].then(async () => {
    if (!isWanted()) return null;
    const told = await ask<T>(question, wished);
    progressOf(question).value = null;
    return isWanted() ? told : null;
  });
  turns[whose] = answered.catch(() => null);
  return answered;
}

export async function stopAsking(): Promise<void> {
  await orGone(async () => (await post<object>("/stop", {})).told);
}

// ---- saving

let timer = 0;
let writing = false;

/** Something has changed: it is saved within a moment, also while she goes on. */
export function touched(file: File_, important = false): void {
  if (important) decided[file] = true;
  saving.value = saving.value === "gone" ? "gone" : "writing";
  if (!timer) timer = window.setTimeout(() => void save(), SAVE_AFTER_MS);
}

async function save(): Promise<void> {
  timer = 0;
  if (writing || conflict.value) return;
  writing = true;
  try {
    for (const file of ["pattern", "worksheet"] as const) await saveOne(file);
    saving.value = "saved";
  } catch (error) {
    if (!(error instanceof Gone)) throw error;
    saving.value = "gone";
    timer = window.setTimeout(() => void save(), TRY_AGAIN_MS);
  } finally {
    writing = false;
  }
  if (!timer && !conflict.value && isUnsaved()) touched("pattern");
}

export function isUnsaved(): boolean {
  return (["pattern", "worksheet"] as const).some((file) => current(file) !== onDisk[file]);
}

async function saveOne(file: File_): Promise<void> {
  const text = current(file);
  if (text === onDisk[file]) return;
  const told = { file, text, made_from: marks[file], decided: decided[file] };
  const answer = await post<{ mark?: string; changed?: FileText; refused?: string }>(
    "/save",
    told,
  );
  if (answer.told.changed) {
    differ(file, answer.told.changed);
  } else if (answer.told.mark !== undefined) {
    marks[file] = answer.told.mark;
    onDisk[file] = text;
    decided[file] = false;
    saved.value = new Date();
  } else {
    aside.value = answer.told.refused ?? "It could not be saved.";
  }
}

// ---- what others do to the files

function differ(file: File_, theirs: FileText): void {
  if (theirs.text === current(file)) {
    marks[file] = theirs.mark;
    onDisk[file] = theirs.text;
    return;
  }
  conflict.value = {
    file,
    mine: current(file),
    theirs: theirs.text,
    mark: theirs.mark,
    when: new Date(),
  };
}

function heard(kind: string, told: unknown): void {
  if (kind === "changed") changedElsewhere(told as { file: File_ } & FileText);
  if (kind === "progress") {
    const said = told as { question?: string; said?: string; share?: number };
    progressOf(said.question ?? "").value = { said: said.said ?? "", share: said.share ?? 0 };
  }
}

function changedElsewhere(told: { file: File_ } & FileText): void {
  if (told.mark === marks[told.file]) return;
  const mineIsSaved = current(told.file) === onDisk[told.file] && !writing;
  if (!mineIsSaved) {
    differ(told.file, told);
    return;
  }
  marks[told.file] = told.mark;
  onDisk[told.file] = told.text;
  setText(told.file, told.text);
  const time = new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  aside.value = `This file was changed outside the desk at ${time}. The page shows it as it is now; undo brings your text back.`;
}

function setText(file: File_, text: string): void {
  if (file === "pattern") take(text);
  else worksheet.value = text;
  void look();
}

/** End a conflict with one of the two texts; the other one stays among the earlier versions. */
export function settle(text: string): void {
  const found = conflict.value;
  if (!found) return;
  marks[found.file] = found.mark;
  onDisk[found.file] = found.theirs;
  decided[found.file] = true;
  conflict.value = null;
  if (text !== current(found.file)) setText(found.file, text);
  touched(found.file, true);
}

// ---- opening

interface Opened {
  folder: string;
  pattern: FileText;
  worksheet: FileText;
  refused?: string;
}

export async function open(): Promise<void> {
  let opened: Answer<Opened>;
  try {
    opened = await get<Opened>("/opened");
  } catch {
    saving.value = "gone";
    setTimeout(() => void open(), TRY_AGAIN_MS);
    return;
  }
  const { status, told } = opened;
  if (status !== 200) {
    batch(() => {
      refusal.value = told.refused ?? "The desk cannot be opened.";
      page.value = "refused";
    });
    return;
  }
  batch(() => {
    folder.value = told.folder;
    for (const file of ["pattern", "worksheet"] as const) {
      marks[file] = told[file].mark;
      onDisk[file] = told[file].text;
    }
    words.value = told.pattern.text;
    worksheet.value = told.worksheet.text;
    page.value = told.pattern.mark || told.pattern.text ? "desk" : "first";
    saving.value = "saved";
  });
  void stayInTouch();
  if (page.value === "desk") void look();
}

/** Listen for news; where the desk has stopped, try until it is there again. */
async function stayInTouch(): Promise<void> {
  for (;;) {
    try {
      await listen(heard);
    } catch {
      // Told below: the desk is gone.
    }
    saving.value = "gone";
    await new Promise((done) => setTimeout(done, TRY_AGAIN_MS));
    await reopened();
  }
}

async function reopened(): Promise<void> {
  try {
    const { status, told } = await get<Opened>("/opened");
    if (status !== 200) return;
    for (const file of ["pattern", "worksheet"] as const) {
      if (told[file].mark !== marks[file]) changedElsewhere({ file, ...told[file] });
    }
    saving.value = "saved";
    if (isUnsaved()) touched("pattern");
    void look();
  } catch {
    // Still gone; the next try is under way.
  }
}

export interface Begun {
  text: string;
  worksheet: string;
  told: string[];
  refused?: string;
}

/** Begin with a text and its worksheet; both are saved at once. */
export function begin(begun: Begun): void {
  batch(() => {
    words.value = begun.text;
    worksheet.value = begun.worksheet;
    aside.value = begun.told.join(" ");
    page.value = "desk";
  });
  touched("pattern", true);
  touched("worksheet", true);
  void look();
}

export async function beginWithDraft(file: File): Promise<string> {
  const told = await orGone(async () => (await bring<Begun>(file)).told);
  if (told.refused) return told.refused;
  begin(told);
  return "";
}
