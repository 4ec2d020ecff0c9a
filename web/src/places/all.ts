// The places of the desk, in the order of the band. A later one comes in as one more line here,
// and a module of the same name beside `places/` of the server.
import type { JSX } from "preact";
import { Answers, Letter } from "./answers";
import { Colours } from "./colours";
import { Corrections, CorrectionsPage } from "./corrections";
import { Costs, Sums } from "./costs";
import { Earlier } from "./earlier";
import { Edging } from "./edging";
import { Lesson } from "./lesson";
import { Release } from "./release";
import { Sizes } from "./sizes";
import { Swatch } from "./swatch";
import { Testers } from "./testers";
import { YarnPlace } from "./yarn";

export interface Place {
  name: string;
  title: string;
  Place: () => JSX.Element;
  /** What stands on the page beside it, where that is not the words it decides. */
  Page?: () => JSX.Element;
}

const NOTHING = () => ({}) as JSX.Element;

export const PLACES: Place[] = [
  { name: "pattern", title: "Pattern", Place: NOTHING },
  { name: "swatch", title: "Swatch", Place: Swatch },
  { name: "sizes", title: "Sizes", Place: Sizes },
  { name: "colours", title: "Colours", Place: Colours },
  { name: "yarn", title: "Yarn", Place: YarnPlace },
  { name: "edging", title: "Edging", Place: Edging },
  { name: "lesson", title: "Lesson", Place: Lesson },
  { name: "testers", title: "Testers", Place: Testers },
  { name: "answers", title: "Answers", Place: Answers, Page: Letter },
  { name: "corrections", title: "Corrections", Place: Corrections, Page: CorrectionsPage },
  { name: "costs", title: "Costs", Place: Costs, Page: Sums },
  { name: "release", title: "Release", Place: Release },
  { name: "earlier", title: "Earlier versions", Place: Earlier },
];

export function placeCalled(name: string): Place | undefined {
  return PLACES.find((one) => one.name === name);
}
