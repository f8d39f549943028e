import type { AnimalRef, GenotypeSaid } from "@pollard/advice";
import { sayCounted } from "./chances.ts";

const KID_OF: Record<AnimalRef["sex"], string> = {
  doe: "doe kid",
  buck: "buck kid",
  wether: "wether",
  intersex: "kid",
  unsure: "kid",
};

/** What an animal is whose dam is not known: it may be long grown. */
const BY_SEX: Record<AnimalRef["sex"], string> = {
  doe: "doe",
  buck: "buck",
  wether: "wether",
  intersex: "goat",
  unsure: "goat",
};

/** The goat's name; failing it, its tag; failing both, whose kid it is. */
export function sayAnimal(ref: AnimalRef): string {
  if (ref.name !== undefined) return ref.name;
  if (ref.tag !== undefined) return `Tag ${ref.tag}`;
  const mark = ref.mark === undefined ? "" : ` (${ref.mark})`;
  return ref.damName === undefined ? `Unnamed ${BY_SEX[ref.sex]}${mark}` : `${ref.damName}'s ${KID_OF[ref.sex]}${mark}`;
}

/** The head of a goat that was named; behind a mark in brackets no "'s" can stand. */
export const sayHeadOf = (label: string): string => (label.endsWith(")") ? `the head of ${label}` : `${label}'s head`);

const GENOTYPE: Record<"PP" | "Pp" | "pp", string> = {
  PP: "two polled genes (PP)",
  Pp: "one polled gene (Pp), a carrier of horns",
  pp: "two horned genes (pp)",
};

/** What an animal carries, as surely as the evidence allows, and what it leans on. */
export function sayGenotype(said: GenotypeSaid): string {
  const [best] = (["PP", "Pp", "pp"] as const).toSorted((a, b) => said.belief[b] - said.belief[a]);
  const carries = GENOTYPE[best ?? "Pp"];
  switch (said.surety) {
    case "proven":
      return `Carries ${carries}. Proven.`;
    case "near-sure":
      return `Carries ${carries}. As good as sure.`;
    case "likely":
      return `Carries ${carries}, most likely. Not proven.`;
    case "open":
      return `Not known yet. ${said.polled.sense === "proven" ? "" : `Polled: ${sayCounted(said.polled)}. `}One polled gene: ${sayCounted(said.carrier)}.`;
  }
}
