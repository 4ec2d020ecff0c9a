// A place asks whenever the words or the worksheet change; an answer that comes too late is
// dropped.
import { useEffect, useState } from "preact/hooks";
import { askInTurn } from "../flow";
import { concerned, proposed } from "../pages";
import { seen, worksheet } from "../standing";

export type Answered<T> = (T & { refused?: string }) | null;

export function useAnswer<T>(
  question: string,
  wished: Record<string, unknown> = {},
): Answered<T> {
  const [found, setFound] = useState<Answered<T>>(null);
  const key = JSON.stringify(wished);
  useEffect(() => {
    let isOver = false;
    void askInTurn<T>(question, wished, () => !isOver).then((told) => {
      if (told) setFound(told);
    });
    return () => {
      isOver = true;
    };
  }, [question, key, seen.value, worksheet.value]);
  return found;
}

/** What a place changes and concerns is shown on the page as long as it is open. */
export function useWords(spans: [number, number][] | undefined): void {
  const key = JSON.stringify(spans ?? null);
  useEffect(() => {
    concerned.value = spans ?? null;
  }, [key]);
  useEffect(
    () => () => {
      proposed.value = null;
      concerned.value = null;
    },
    [],
  );
}
