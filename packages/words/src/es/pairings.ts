import {
  type AnimalRef,
  countedOf,
  type KeptKid,
  type KidsRange,
  type KidUse,
  type LocusOutlook,
  type NotBred,
  type PairLosses,
  type PairingsModel,
  type PairModel,
  type PairReasonModel,
  type PlanModel,
  type PlanRuleModel,
  type TestWorthLine,
  type TestWorthModel,
  type UseClosed,
} from "@pollard/advice";
import { otherSide } from "../en/chances.ts";
import { sayAnimal } from "./animals.ts";
import { sayCounted } from "./chances.ts";
import { locusName } from "./loci.ts";
import { decimal, list, opening } from "./numbers.ts";

const hundredth = (n: number): string => decimal(Math.round(n * 100) / 100, 2);

const sayKids = ({ mean, low, high }: KidsRange): string =>
  low === high ? `${low}` : `${mean < 0.5 ? "casi ninguna" : `unas ${Math.round(mean)}`}, de ${low} a ${high}`;

function sayRule(rule: PlanRuleModel): string {
  switch (rule.kind) {
    case "serve":
      return `${sayAnimal(rule.doe)} debe tener macho`;
    case "most":
      return `${sayAnimal(rule.buck)} cubre como mucho ${rule.most} ${rule.most === 1 ? "cabra" : "cabras"}`;
    case "least":
      return `${sayAnimal(rule.buck)} cubre al menos ${rule.least} ${rule.least === 1 ? "cabra" : "cabras"}`;
    case "must":
      return `${sayAnimal(rule.doe)} va con ${sayAnimal(rule.buck)}, como usted desea`;
    case "never":
      return `${sayAnimal(rule.doe)} no va con ${sayAnimal(rule.buck)}, como usted desea`;
    case "inbreeding-ceiling":
      return `La consanguinidad de las crías no pasa de ${hundredth(rule.ceiling)}`;
    case "intersex-ceiling":
      return `La probabilidad de cría intersexual no pasa de ${sayCeiling(rule.ceiling)}`;
    case "polled-together":
      return "Nunca dos padres mochos";
  }
}

const sayCeiling = (chance: number): string => (chance <= 0 ? "ninguna" : `1 de cada ${Math.round(1 / chance)}`);

const sayClosed = (rules: readonly PlanRuleModel[]): string =>
  rules
    .map((rule) => {
      switch (rule.kind) {
        case "polled-together":
          return "los dos son mochos";
        case "intersex-ceiling":
          return "demasiado probable una cría intersexual";
        case "inbreeding-ceiling":
          return "demasiado parentesco";
        case "must":
          return `usted la desea con ${sayAnimal(rule.buck)}`;
        case "never":
          return "usted no lo desea";
        default:
          return sayRule(rule);
      }
    })
    .join("; ");

const PART: Readonly<Record<keyof Omit<PairLosses, "total">, string>> = {
  horned: "crías con cuernos",
  heads: "cabezas difíciles",
  intersex: "crías intersexuales",
  inbreeding: "parentesco",
  barren: "quedar sin crías",
  merit: "sus propios puntos",
};

function sayReason(reason: PairReasonModel): string {
  switch (reason.kind) {
    case "forbidden":
      return opening(`${sayClosed(reason.rules)}.`);
    case "no-plan":
      return "Con él ningún plan cumple sus reglas.";
    case "as-good":
      return "Él serviría igual de bien.";
    case "costs":
      return reason.own < 0
        ? `Él le convendría más. Otras pagarían ${hundredth(reason.more - reason.own)} por ello.`
        : `Él costaría ${hundredth(reason.more)} más, sobre todo por ${PART[reason.most]}.`;
  }
}

function sayPair(pair: PairModel): string {
  const { hornedCounted: horned } = pair;
  if (pair.fertile === 0) return "Estos dos no pueden tener crías.";
  const heads =
    horned.sense === "proven"
      ? horned.count === 0
        ? "Ninguna cría echa cuernos."
        : "Todas las crías echan cuernos."
      : `${opening(sayCounted(horned))} crías echan cuernos. Quedan sin ellos ${sayCounted(otherSide(horned))}.`;
  return `${heads} Intersexuales: ${sayCounted(pair.intersexCounted)}.`;
}

function sayLuckAndDoubt({ ofTen, maybe }: PairModel): string {
  const range = `De diez crías echarían cuernos ${sayKids(ofTen)}.`;
  if (maybe.length < 2 || ofTen.doubt < 0.5) return `${range} El margen es azar.`;
  return ofTen.doubt > ofTen.luck
    ? `${range} Casi todo el margen es no conocer a los padres.`
    : `${range} Parte del margen es no conocer a los padres.`;
}

function sayKin({ inbreeding, commonAncestors }: PairModel): string {
  if (inbreeding === 0) return "No se conoce antepasado común.";
  const [first, second, third] = commonAncestors.map(({ animal }) => sayAnimal(animal));
  const names = [first, second, third].filter((name) => name !== undefined);
  const more = commonAncestors.length > names.length ? " y otros" : "";
  return `Consanguinidad de las crías ${hundredth(inbreeding)}, por ${list(names)}${more}.`;
}

function sayLocus({ locus, name, genotypes }: LocusOutlook): string {
  const said = genotypes
    .filter((g) => g.chance >= 0.005)
    .toSorted((a, b) => b.chance - a.chance)
    .map(({ genotype, chance }) => `${genotype} ${sayCounted(countedOf(chance, 20))}`);
  return `${locusName({ id: locus, name })}: ${said.join(", ")}.`;
}

function sayPlanOfPairs(plan: PlanModel): readonly string[] {
  switch (plan.kind) {
    case "nobody-to-pair":
      return [plan.lack === "does" ? "No hay cabra que emparejar." : "No hay macho para las cabras."];
    case "no-plan":
      return [
        "Ningún plan cumple todas sus reglas. Estas no caben juntas:",
        ...plan.conflict.map((rule) => `${sayRule(rule)}.`),
      ];
    case "plan":
      return [
        `Crías la próxima temporada: ${sayKids(plan.season.kids)}.`,
        `Cabezas por desbotonar: ${sayKids(plan.season.horned)}.`,
        `Crías intersexuales: ${sayKids(plan.season.intersex)}.`,
        ...(plan.gap > 0.01 ? [`Un plan mejor ahorraría como mucho ${hundredth(plan.gap)}.`] : []),
      ];
  }
}

function sayNextPlan(next: Extract<PlanModel, { kind: "plan" }>["next"][number]): string {
  const moves = next.changes.map(
    ({ doe, to }) => `${sayAnimal(doe)} ${to === undefined ? "queda vacía" : `con ${sayAnimal(to)}`}`,
  );
  const shown = moves.slice(0, 3).join(", ");
  const more = moves.length > 3 ? ` y ${moves.length - 3} más` : "";
  return `${next.asGood ? "Igual de bueno" : `Cuesta ${hundredth(next.more)} más`}: ${shown}${more}.`;
}

const sayPrice = ({ rule, gain }: { readonly rule: PlanRuleModel; readonly gain: number }): string =>
  `Sin esta regla el plan gana ${hundredth(gain)}: ${sayRule(rule)}.`;

const NOT_BRED: Readonly<Record<NotBred, string>> = {
  "too-young": "demasiado jóvenes",
  "intersex-not-ruled-out": "intersexualidad no descartada",
  "cannot-breed": "intersexuales",
};

const SETTLES = "Lo aclaran el veterinario, el ADN o un parto: anote lo que sepa.";

function sayLeftOut(leftOut: readonly { readonly animal: AnimalRef; readonly why: NotBred }[]): readonly string[] {
  return (Object.keys(NOT_BRED) as NotBred[]).flatMap((why) => {
    const names = leftOut.filter((l) => l.why === why).map((l) => sayAnimal(l.animal));
    if (names.length === 0) return [];
    const shown = names.length > 6 ? [...names.slice(0, 5), `${names.length - 5} más`] : names;
    const line = `Sin pareja, ${NOT_BRED[why]}: ${list(shown)}.`;
    return why === "intersex-not-ruled-out" ? [line, SETTLES] : [line];
  });
}

const sayWishAside = ({ doe, buck }: PairingsModel["wishesAside"][number]): string =>
  `Su deseo para ${sayAnimal(doe)} y ${sayAnimal(buck)} queda aparte: uno no entra.`;

function sayTestWorth({ animals, worth, price, advice }: TestWorthLine): string {
  const names = list(animals.map(sayAnimal));
  switch (advice) {
    case "known-already":
      return `${names}: ya se sabe bastante. Una prueba no diría nada nuevo.`;
    case "worth-it":
      return `${names}: vale la pena. Ahorraría unos ${sayDisbuddings(worth)}.`;
    case "not-worth-it":
      return worth < 0.005
        ? `${names}: no vale la pena. Nada se decidiría de otro modo.`
        : `${names}: no vale la pena. Ahorraría ${sayDisbuddings(worth)}, y pesa ${hundredth(price)}.`;
  }
}

const sayDisbuddings = (worth: number): string =>
  `${hundredth(worth)} ${hundredth(worth) === "1,00" ? "desbotonado innecesario" : "desbotonados innecesarios"}`;

function sayTests({ lines, together }: TestWorthModel): string {
  const worthIt = lines.filter((l) => l.advice === "worth-it").length;
  if (lines.length === 0) return "No hay animal que probar.";
  if (worthIt === 0 && together.every((l) => l.advice !== "worth-it")) return "Ninguna prueba vale ahora su precio.";
  return worthIt === 1 ? "Una prueba vale su precio." : `${worthIt} pruebas valen su precio.`;
}

const USE: Readonly<Record<KidUse, string>> = {
  "keep-to-breed": "criar aquí",
  "sell-to-breed": "criar en otra parte",
  wether: "castrado",
  "keep-or-sell-as-pet": "compañía",
};
const CLOSED: Readonly<Record<UseClosed, string>> = {
  "intersex-not-ruled-out": "intersexualidad no descartada: pruebe, o pregunte al veterinario",
  "a-wether": "castrado",
  "not-a-buckling": "no es machito",
  "head-not-known": "su cabeza aún no se conoce",
  inbred: "sus padres son parientes cercanos",
};

const sayUses = ({ open }: KeptKid): string => open.map((use) => USE[use]).join(", ");

function sayClosedUses({ closed }: KeptKid): string {
  const reasons = new Set(closed.filter((c) => c.why !== "not-a-buckling").map((c) => c.why));
  return [...reasons].map((why) => CLOSED[why]).join("; ");
}

/** Todo lo que se dice de las parejas. */
export const pairings = {
  kids: sayKids,
  rule: sayRule,
  reason: sayReason,
  pair: sayPair,
  luckAndDoubt: sayLuckAndDoubt,
  kin: sayKin,
  locus: sayLocus,
  plan: sayPlanOfPairs,
  nextPlan: sayNextPlan,
  price: sayPrice,
  leftOut: sayLeftOut,
  wishAside: sayWishAside,
  testWorth: sayTestWorth,
  tests: sayTests,
  uses: sayUses,
  closedUses: sayClosedUses,
  unit: "Las pérdidas van en desbotonados innecesarios: su propia medida.",
  caution: "La intersexualidad no se ve siempre. Pregunte al veterinario antes de criar o vender.",
} as const;
