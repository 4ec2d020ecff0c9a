// The cloth keeps in step with the words: at once as its rows begin to lie, and soon after as
// it comes to rest. Only the newest text is laid out.
import { effect } from "@preact/signals";
import { askInTurn } from "../flow";
import { cursor, place, seen, size, view, words } from "../standing";
import { Piece, type PieceTold } from "./piece";
import { camera, hung, isAtRest, laying, lit, piece, pieces, whyNone } from "./standing";

interface Told {
  pieces: PieceTold[];
  at_rest: boolean;
}

let isLaying = false;
let isStale = false;
let laid = "";

export function keepHanging(): () => void {
  return effect(() => {
    const now = seen.value;
    const isShown = place.value === "pattern" && (view.value === "fabric" || view.value === "");
    void size.value;
    if (now && isShown) void lay();
  });
}

function keyNow(): string {
  return `${size.peek()}\n${words.peek()}`;
}

async function lay(): Promise<void> {
  if (isLaying) {
    isStale = true;
    return;
  }
  const key = keyNow();
  if (key === laid) {
    hung.value = hung.peek() + 1;
    return;
  }
  isLaying = true;
  laying.value = true;
  laid = key;
  try {
    const wished = { number: size.peek() };
    const isNow = () => key === keyNow();
    hang(await askInTurn<Told>("cloth", { ...wished, kind: "quick" }, isNow));
    hang(await askInTurn<Told>("cloth", wished, isNow));
  } finally {
    isLaying = false;
    laying.value = isStale;
  }
  if (isStale) {
    isStale = false;
    void lay();
  }
}

function hang(told: (Told & { refused?: string }) | null): void {
  if (!told || told.refused) {
    laid = "";
    whyNone.value = told?.refused ?? "";
    return;
  }
  whyNone.value = told.pieces.find((one) => one.reason)?.reason ?? "";
  const isFirst = pieces.peek().length === 0;
  if (!told.at_rest && !isFirst && isAtRest.peek() && keepsLying(told.pieces)) return;
  const found = told.pieces.map((one) => new Piece(one)).filter((one) => one.size > 1);
  pieces.value = found;
  isAtRest.value = told.at_rest;
  lit.value = [];
  choose(found);
  if (isFirst && found.length) fit("near");
  hung.value = hung.peek() + 1;
}

/**
 * Until the new cloth has come to rest the one that hangs stays, if it has as many rows: what
 * has changed in it is seen in a moment, and it does not jump. Its words are those of now.
 */
function keepsLying(told: PieceTold[]): boolean {
  const hanging = pieces.peek();
  const shown = told.filter((one) => one.courses.length > 1);
  const isSame =
    shown.length === hanging.length &&
    hanging.every((one, at) => one.courses.length === shown[at]?.courses.length);
  if (!isSame) return false;
  for (const [at, one] of hanging.entries()) one.takeWords(shown[at]?.courses ?? []);
  isAtRest.value = false;
  hung.value = hung.peek() + 1;
  return true;
}

/** The piece of the row at hand hangs. */
function choose(found: Piece[]): void {
  const at = cursor.peek();
  const before = piece.peek();
  const best =
    found.findLast((one) => one.courses.some((course) => course.start >= 0 && course.start <= at)) ??
    found[0];
  piece.value = best ?? null;
  if (before && best && before.part !== best.part) fit("near");
}

effect(() => {
  void cursor.value;
  if (pieces.peek().length > 1) choose(pieces.peek());
});

let room = { width: 600, height: 500 };

export function roomIs(width: number, height: number): void {
  room = { width, height };
}

/** Look at the whole, at some stitches, or at one. */
export function fit(how: "whole" | "near" | "one"): void {
  const hanging = piece.peek();
  if (!hanging) return;
  const edge = hanging.stitch * 2;
  const whole = Math.min(
    room.width / (hanging.width + 2 * edge),
    room.height / (hanging.height + 2 * edge),
  );
  const wanted = { whole, near: 11 / hanging.stitch, one: 64 / hanging.stitch }[how];
  const scale = how === "whole" ? whole : Math.max(whole, wanted);
  const isSmall = scale === whole;
  camera.value = {
    scale,
    x: isSmall ? (hanging.width - room.width / scale) / 2 : -hanging.stitch / 2,
    y: isSmall ? -edge : Math.max(-edge, camera.peek().y),
  };
}

/** Bring a row into view, without moving what is seen of it already. */
export function follow(start: number): void {
  const hanging = piece.value;
  const course = hanging?.coursesOf(start)[0];
  if (!hanging || !course) return;
  const { top, bottom } = hanging.leftEnd(course);
  const { scale, y } = camera.peek();
  const high = room.height / scale;
  if (top >= y && bottom <= y + high) return;
  const edge = hanging.stitch * 2;
  const goal = Math.min(top - high / 3, hanging.height + edge - high);
  camera.value = { ...camera.peek(), y: Math.max(-edge, goal) };
}
