// What the desk tells the page, as values. All offsets count units of UTF-16.

export interface Change {
  from: number;
  to: number;
  insert: string;
}

/** A row as it is printed; lists hold one number a size. */
export interface Row {
  start: number;
  end: number;
  part: string;
  printed: string;
  first: number | null;
  last: number | null;
  times: number;
  uses: (number | null)[];
  below: (number | null)[];
  makes: (number | null)[];
  stated: (number | null)[];
  foundation: boolean;
  agrees: boolean;
  colours: string[];
}

export interface Finding {
  text: "pattern" | "worksheet";
  rule: string;
  loud: boolean;
  start: number;
  end: number;
  row: string | null;
  part: string | null;
  sizes: string[];
  message: string;
  why: string;
  related: [number, number, string][];
  edit: Change | null;
  safe: boolean;
}

export interface Yarn {
  letter: string;
  name: string;
  hex: string;
}

export interface Seen {
  title: string;
  terms: string | null;
  units: "in" | "cm";
  sizes: string[];
  rows: Row[];
  /** Where a row is printed, the colour, and how many rows of it. */
  stripes: [number, string, number][];
  parts: { name: string; start: number; make: number }[];
  marks: { labels: [number, number][]; repeats: [number, number][] };
  findings: Finding[];
  yarns: Yarn[];
  assumed: string[];
  decided: Record<string, string>;
  refused?: string;
}

export interface Word {
  found: boolean;
  start: number;
  end: number;
  word: string;
  says: string;
  more: string[];
  symbol: string;
}

/** A length in millimetres, and in words in both units. */
export interface Length {
  mm: number;
  in: string;
  cm: string;
}

export interface Pitch extends Length {
  spread: Length | null;
  measured: number;
}

export interface FileText {
  text: string;
  mark: string;
}

export interface Version {
  id: string;
  when: string;
  size: number;
}
