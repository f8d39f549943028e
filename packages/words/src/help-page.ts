/** One page of help: what it says, what is drawn beside it, and where it comes from. */
export interface HelpPage {
  readonly id: HelpId;
  readonly title: string;
  /** What somebody finds who has no time. */
  readonly short: string;
  readonly parts: readonly HelpPart[];
  /** Keys of docs/SOURCES.md. */
  readonly sources: readonly string[];
}

/** A heading of a page of help, with what stands under it. */
export interface HelpPart {
  readonly heading: string;
  readonly lines: readonly string[];
  /** The sign whose answers are drawn here, or what grew. */
  readonly drawn?: "feel" | "skin" | "whorls" | "crown" | "growth" | "knob";
}

/** A page of the help inside the app. */
export type HelpId = "polled" | "two-polled" | "reading" | "vet" | "numbers" | "notes";

/** A word of the trade, as a keeper is told it. */
export interface Term {
  readonly word: string;
  readonly means: string;
}
