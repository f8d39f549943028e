import type { Day } from "@pollard/base";
import type { Sided } from "@pollard/husbandry";
import type { KidAdvice, WeighedFact, WeighedFactKind } from "@pollard/advice";
import { type Loudness, loudnessOf } from "../where-words-change.ts";
import type { AdviceSaid } from "../words.ts";
import { el, sayDay } from "./days.ts";

const SIGN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  feel: {
    nothing: "No se palpa bulto",
    rounded: "Bulto bajo y redondo",
    pointed: "Bulto en punta",
    "tip-through": "La punta del cuerno ya salió",
  },
  skin: {
    slides: "La piel se desliza",
    "slides-a-little": "La piel se desliza un poco",
    "held-fast": "La piel está fija",
  },
  whorls: { none: "Sin remolino de pelo", unclear: "Remolino de pelo dudoso", clear: "Remolino de pelo claro" },
  crown: { "rounded-cap": "El pelo forma un casquete", unclear: "Coronilla dudosa", flat: "Pelo plano" },
};

const VET: Record<string, string> = {
  bud: "El veterinario halló un botón",
  "no-bud": "El veterinario no halló botón",
  unsure: "El veterinario dudó",
};

const GREW: Record<string, string> = {
  nothing: "No creció nada",
  knob: "Creció un bulto de hueso",
  scur: "Creció un cuernito suelto",
  horn: "Creció un cuerno",
  "soft-lump": "Creció un bulto blando",
  unsure: "No se sabe qué creció",
};

/** A finding per side in one phrase; both sides alike are said once. */
function sided(finding: Sided<string>, words: Readonly<Record<string, string>>): string {
  const say = (value: string): string => words[value] ?? value;
  if ("both" in finding) return say(finding.both);
  const { left, right } = finding;
  if (left !== undefined && left === right) return `${say(left)}, ambos lados`;
  const sides = [
    left === undefined ? "" : `izquierda: ${say(left)}`,
    right === undefined ? "" : `derecha: ${say(right)}`,
  ];
  return sides.filter((side) => side !== "").join("; ");
}

/** The fact itself, without what it means. */
export function sayFact(fact: WeighedFactKind): string {
  switch (fact.kind) {
    case "pedigree":
      return "Sus padres y parientes";
    case "sign":
      return sided(fact.finding, SIGN[fact.sign] ?? {});
    case "vet-finding":
      return sided(fact.finding, VET);
    case "growth":
      return sided(fact.finding, GREW);
    case "dna-test":
      return `Prueba de ADN: ${fact.finding}`;
    case "other":
      return "Otros datos del registro";
  }
}

const LOUDNESS: Readonly<Record<Loudness, string>> = {
  strongly: "habla con fuerza",
  clearly: "habla claro",
  "a-little": "habla un poco",
};

/** One fact and which way it speaks. */
export function sayWeighed({ fact, logOdds }: WeighedFact): string {
  const loudness = loudnessOf(logOdds);
  const says =
    loudness === undefined
      ? "dice poco en un sentido u otro"
      : `${LOUDNESS[loudness]} ${logOdds > 0 ? "a favor de cuernos" : "en contra de cuernos"}`;
  return `${sayFact(fact)}: ${says}.`;
}

/** What to do about a kid's head, by when, and why. */
export function sayAdvice(advice: KidAdvice, today: Day): AdviceSaid {
  const day = (d: Day): string => el(sayDay(d, today));
  switch (advice.kind) {
    case "read-head":
      return {
        title: "Lea la cabeza de esta cría",
        when: `hasta ${day(advice.by)}`,
        why: "Nadie ha leído aún esta cabeza.",
      };
    case "finish-reading":
      return {
        title: "Termine de leer esta cabeza",
        when: `hasta ${day(advice.by)}`,
        why: "La última lectura no halló nada en qué apoyarse.",
      };
    case "leave":
      return {
        title: "Deje esta cabeza en paz",
        when: undefined,
        why: "Es bastante probable que no eche cuernos. Operar sería quizá inútil.",
      };
    case "look-again":
      return {
        title: "Mire otra vez",
        when: advice.day === undefined ? undefined : day(advice.day),
        why: "Otra mirada dice más, y hay tiempo para ella.",
      };
    case "vet-list":
      return {
        title: "Ponga esta cría en la lista del veterinario",
        when:
          advice.day === undefined
            ? undefined
            : `${advice.visit === "planned" ? "visita" : "pida al veterinario que venga"} ${day(advice.day)}`,
        why: "Es bastante probable que eche cuernos, y el plazo es corto.",
      };
    case "ring-vet":
      return {
        title: "Llame al veterinario",
        when: "ahora",
        why:
          advice.end < today
            ? "Pasó el plazo seguro. Solo el veterinario puede decir qué es lo compasivo."
            : "No cabe visita antes del fin del plazo. Solo el veterinario puede ayudar.",
      };
    case "done":
      return { title: DONE[advice.what], when: undefined, why: "No hay nada que decidir sobre esta cabeza." };
  }
}

const DONE: Record<Extract<KidAdvice, { kind: "done" }>["what"], string> = {
  disbudded: "Ya con el desbotonado hecho",
  "left-alone": "Se dejó en paz, como usted eligió",
  "outcome-known": "Se sabe qué creció",
  "left-herd": "Salió del rebaño",
  "born-dead": "Nació sin vida",
  grown: "Ya es adulta",
};
