// How she likes the page: kept in this browser, not in the design.
import { effect, signal } from "@preact/signals";

export type Theme = "light" | "dark";
export type Units = "in" | "cm";
export const SIZES = ["100%", "125%", "150%"] as const;

function kept(name: string): string | null {
  try {
    return localStorage.getItem(`desk-${name}`);
  } catch {
    return null;
  }
}

function keep(name: string, value: string): void {
  try {
    localStorage.setItem(`desk-${name}`, value);
  } catch {
    // A browser that keeps nothing shows the page as it comes.
  }
}

const dark = matchMedia("(prefers-color-scheme: dark)").matches;

export const theme = signal<Theme>((kept("theme") as Theme) ?? (dark ? "dark" : "light"));
export const type = signal(Math.min(Number(kept("type")) || 0, SIZES.length - 1));
/** Null until she chooses: then the units that her worksheet or pattern is measured in. */
export const chosenUnits = signal<Units | null>(kept("units") as Units | null);
export const still = matchMedia("(prefers-reduced-motion: reduce)").matches;

effect(() => {
  document.documentElement.dataset.theme = theme.value;
  keep("theme", theme.value);
});
effect(() => {
  document.documentElement.style.fontSize = SIZES[type.value] ?? "100%";
  keep("type", String(type.value));
});
effect(() => {
  if (chosenUnits.value) keep("units", chosenUnits.value);
});
