import type { CallLine, HeadRecordModel } from "@pollard/advice";

/** The four ways of calling a head that are compared. */
const WAYS = ["together", "signsAlone", "pedigreeAlone", "ruleOfThumb"] as const;
export type Way = (typeof WAYS)[number];

/** A group of calls in the picture: where it stands, from 0 to 1 each way, and how large it is drawn. */
export interface Ring {
  readonly called: number;
  readonly came: number;
  readonly low: number;
  readonly high: number;
  readonly radius: number;
  readonly verdict: CallLine["came"];
}

/** What the page of the calls shows, besides the words. */
export interface RecordPage {
  readonly rings: readonly Ring[];
  /** Each way with its scores, the nearest to what came first; empty while no head counts. */
  readonly ways: readonly {
    readonly way: Way;
    readonly brier: number;
    readonly logScore: number;
    /** Length of its bar, as a share of the longest. */
    readonly share: number;
  }[];
  readonly truths: readonly { readonly from: keyof typeof SAID_IN_ORDER; readonly kids: number }[];
  /** Lessons that at least one head is behind: those that moved, and those that did not. */
  readonly moved: HeadRecordModel["learnt"]["lessons"];
  readonly unmoved: HeadRecordModel["learnt"]["lessons"];
  /** Heads too few for a small difference to mean anything. */
  readonly mayBeLuck: boolean;
}

/** Heads below which differences between ways of calling are told to be luck. Judgement. */
const LUCK_BELOW = 100;
/** Radius of a ring for one head, and its growth with the square root of the heads: areas tell numbers. */
const RING = { one: 5, more: 2.2 } as const;
const SAID_IN_ORDER = { growth: 0, "vet-finding": 1, "dna-test": 2, "grown-head": 3 } as const;

export function recordPage(record: HeadRecordModel): RecordPage {
  const { scores } = record;
  const lessons = record.learnt.lessons.filter((lesson) => Math.round(lesson.seen) > 0);
  const widest = Math.max(0.001, ...(scores === undefined ? [] : WAYS.map((way) => scores[way].brier)));
  return {
    rings: record.calls.map((line) => ({
      called: line.meanCall,
      came: line.horned / line.kids,
      low: line.low,
      high: line.high,
      radius: RING.one + RING.more * Math.sqrt(line.kids - 1),
      verdict: line.came,
    })),
    ways:
      scores === undefined
        ? []
        : WAYS.map((way) => {
            const { brier, logScore } = scores[way];
            return { way, brier, logScore, share: brier / widest };
          }).sort((a, b) => a.brier - b.brier),
    truths: record.truths.filter((t) => t.kids > 0).toSorted((a, b) => SAID_IN_ORDER[a.from] - SAID_IN_ORDER[b.from]),
    moved: lessons.filter(({ before, after }) => before.count !== after.count),
    unmoved: lessons.filter(({ before, after }) => before.count === after.count),
    mayBeLuck: record.kids < LUCK_BELOW,
  };
}
