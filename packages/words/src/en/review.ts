import type {
  LearntOfParent,
  ReviewModel,
  SeenAgainstExpected,
  Surprise,
  SurpriseReason,
  Verdict,
} from "@pollard/advice";
import type { PolledBelief } from "@pollard/genetics";
import { sayAnimal } from "./animals.ts";
import { sayCounted } from "./chances.ts";

type Season = Extract<ReviewModel, { kind: "season" }>;

const VERDICT: Readonly<Record<Verdict, string>> = {
  "as-expected": "That is as expected.",
  unusual: "That is unusual, but happens.",
  "very-unusual": "That hardly happens by luck. Look at the record.",
};

/** A chance as one in so many, for what is rare; no finer than anybody could know. */
function sayOneIn(chance: number): string {
  if (chance < 0.001) return "fewer than 1 in 1,000";
  const n = 1 / chance;
  return `about 1 in ${n < 20 ? Math.round(n) : n < 100 ? Math.round(n / 10) * 10 : Math.round(n / 100) * 100}`;
}

/** What was seen, and whether that was to be expected. */
export function saySeen(what: string, { seen, of, low, high, verdict }: SeenAgainstExpected): string {
  if (of === 0) return `${what}: nothing is known yet.`;
  return `${what}: ${seen} of ${of}, expected ${sayRange({ low, high })}. ${VERDICT[verdict]}`;
}

const sayRange = ({ low, high }: Pick<SeenAgainstExpected, "low" | "high">): string =>
  low === high ? `${low}` : `${low} to ${high}`;

const EXPLANATION: Readonly<Record<SurpriseReason["kind"], string>> = {
  "other-sire": "Another sire than written",
  "other-dam": "Another dam than written",
  misread: "The head was misread, or written under another kid",
  "parent-not-as-thought": "A parent carries something else than was thought",
};

/** A kid that surprised, and what may lie behind it, the likeliest first. */
export function saySurprise({ kid, head, expected, explanations }: Surprise): string {
  const came = `${sayAnimal(kid)} is ${head}. Expected of such kids: ${sayOneIn(expected)}.`;
  return [came, ...sayExplanations(explanations)].join(" ");
}

/** What may lie behind a surprise, the likeliest first. */
const sayExplanations = (explanations: Surprise["explanations"]): readonly string[] =>
  explanations
    .filter((reason) => reason.counted.sense !== "under-one")
    .slice(0, 2)
    .map(({ kind, counted }) => `${EXPLANATION[kind]}: ${sayCounted(counted)}.`);

const best = (belief: PolledBelief): string =>
  (["PP", "Pp", "pp"] as const).reduce((a, b) => (belief[b] > belief[a] ? b : a));

/** What a season taught about a parent. */
export function sayLearnt({ animal, before, now }: LearntOfParent): string {
  const [was, is] = [best(before), best(now)];
  const name = sayAnimal(animal);
  if (was !== is) return `${name} was thought ${was}, and now ${is}.`;
  return now[is as keyof PolledBelief] > before[was as keyof PolledBelief]
    ? `${name} is ${is}, more surely than before.`
    : `${name} is still thought ${is}, less surely than before.`;
}

/** What the vet did, and what it cost where prices are known. */
function sayVetWork({ vet }: Season): string {
  const visits = `${vet.visits} ${vet.visits === 1 ? "visit" : "visits"}`;
  const heads = `${vet.heads} ${vet.heads === 1 ? "head" : "heads"} disbudded`;
  const left = vet.leftAlone === 0 ? "" : `, ${vet.leftAlone} looked at and left alone`;
  const cost = vet.cost === undefined ? "" : ` Cost: ${Math.round(vet.cost)}.`;
  return `The vet: ${visits}, ${heads}${left}.${cost}`;
}

/** What of a season is set beside what was to be expected. */
const WHAT = {
  horned: "Horned, of heads that are known",
  intersex: "Signs of both sexes",
  bucks: "Bucklings",
} as const;

/** What was counted in a season: its kiddings, the heads that are still open, the vet's work. */
export function sayCounts(review: ReviewModel): readonly string[] {
  if (review.kind === "no-season") return ["There is no kidding in the record for this."];
  const { kiddings, kids, bornDead, notKnown } = review;
  const dead = bornDead === 0 ? "" : `, ${bornDead} born dead`;
  return [
    `${kiddings} ${kiddings === 1 ? "kidding" : "kiddings"}, ${kids} ${kids === 1 ? "kid" : "kids"}${dead}.`,
    ...(notKnown === 0 ? [] : [`${notKnown} ${notKnown === 1 ? "head is" : "heads are"} not known for sure yet.`]),
    sayVetWork(review),
  ];
}

/** The season in short lines, what matters first. */
export function saySeason(review: ReviewModel): readonly string[] {
  const [first = "", ...others] = sayCounts(review);
  if (review.kind === "no-season") return [first];
  return [
    first,
    saySeen(WHAT.horned, review.horned),
    ...others.slice(0, -1),
    saySeen(WHAT.intersex, review.intersex),
    saySeen(WHAT.bucks, review.bucks),
    ...others.slice(-1),
  ];
}

/** All that is said of a season that is over. */
export const reviews = {
  season: saySeason,
  counts: sayCounts,
  what: WHAT,
  seen: saySeen,
  verdict: VERDICT,
  range: sayRange,
  oneIn: sayOneIn,
  explanations: sayExplanations,
  surprise: saySurprise,
  learnt: sayLearnt,
  vetWork: sayVetWork,
} as const;
