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
  "as-expected": "Es lo esperado.",
  unusual: "Es poco común, pero pasa.",
  "very-unusual": "Por azar casi nunca pasa. Mire lo anotado.",
};

function sayOneIn(chance: number): string {
  if (chance < 0.001) return "menos de 1 de cada 1000";
  const n = 1 / chance;
  return `cerca de 1 de cada ${n < 20 ? Math.round(n) : n < 100 ? Math.round(n / 10) * 10 : Math.round(n / 100) * 100}`;
}

export function saySeen(what: string, { seen, of, low, high, verdict }: SeenAgainstExpected): string {
  if (of === 0) return `${what}: aún no se sabe nada.`;
  return `${what}: ${seen} de ${of}, se esperaban ${sayRange({ low, high })}. ${VERDICT[verdict]}`;
}

const sayRange = ({ low, high }: Pick<SeenAgainstExpected, "low" | "high">): string =>
  low === high ? `${low}` : `${low} a ${high}`;

const EXPLANATION: Readonly<Record<SurpriseReason["kind"], string>> = {
  "other-sire": "Otro padre que el anotado",
  "other-dam": "Otra madre que la anotada",
  misread: "La cabeza se leyó mal, o se anotó en otra cría",
  "parent-not-as-thought": "Un padre lleva otra cosa de lo pensado",
};

const HEAD: Readonly<Record<Surprise["head"], string>> = { horned: "tiene cuernos", polled: "es mocha" };

export function saySurprise({ kid, head, expected, explanations }: Surprise): string {
  const came = `${sayAnimal(kid)} ${HEAD[head]}. Se espera de crías así: ${sayOneIn(expected)}.`;
  return [came, ...sayExplanations(explanations)].join(" ");
}

const sayExplanations = (explanations: Surprise["explanations"]): readonly string[] =>
  explanations
    .filter((reason) => reason.counted.sense !== "under-one")
    .slice(0, 2)
    .map(({ kind, counted }) => `${EXPLANATION[kind]}: ${sayCounted(counted)}.`);

const best = (belief: PolledBelief): string =>
  (["PP", "Pp", "pp"] as const).reduce((a, b) => (belief[b] > belief[a] ? b : a));

export function sayLearnt({ animal, before, now }: LearntOfParent): string {
  const [was, is] = [best(before), best(now)];
  const name = sayAnimal(animal);
  if (was !== is) return `De ${name} se pensaba ${was}, y ahora ${is}.`;
  return now[is as keyof PolledBelief] > before[was as keyof PolledBelief]
    ? `${name} es ${is}, con más seguridad que antes.`
    : `De ${name} se sigue pensando ${is}, con menos seguridad.`;
}

function sayVetWork({ vet }: Season): string {
  const visits = `${vet.visits} ${vet.visits === 1 ? "visita" : "visitas"}`;
  const heads = `${vet.heads} ${vet.heads === 1 ? "cabeza desbotonada" : "cabezas desbotonadas"}`;
  const left = vet.leftAlone === 0 ? "" : `, ${vet.leftAlone} miradas y dejadas`;
  const cost = vet.cost === undefined ? "" : ` Costo: ${Math.round(vet.cost)}.`;
  return `El veterinario: ${visits}, ${heads}${left}.${cost}`;
}

const WHAT = {
  horned: "Con cuernos, de las cabezas conocidas",
  intersex: "Signos de ambos sexos",
  bucks: "Machitos",
} as const;

export function sayCounts(review: ReviewModel): readonly string[] {
  if (review.kind === "no-season") return ["No hay parto anotado para esto."];
  const { kiddings, kids, bornDead, notKnown } = review;
  const dead = bornDead === 0 ? "" : `, ${bornDead} nacidas muertas`;
  return [
    `${kiddings} ${kiddings === 1 ? "parto" : "partos"}, ${kids} ${kids === 1 ? "cría" : "crías"}${dead}.`,
    ...(notKnown === 0
      ? []
      : [notKnown === 1 ? "1 cabeza no se sabe aún seguro." : `${notKnown} cabezas no se saben aún seguro.`]),
    sayVetWork(review),
  ];
}

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

/** Todo lo que se dice de una temporada pasada. */
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
