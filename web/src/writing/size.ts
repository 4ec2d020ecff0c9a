// Which of the sizes the counts are of.
import { StateEffect } from "@codemirror/state";

export const setSize = StateEffect.define<number>();
