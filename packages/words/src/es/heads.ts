import type { Day } from "@pollard/base";
import type { Sided } from "@pollard/husbandry";
import type { KidAdvice, WeighedFact, WeighedFactKind } from "@pollard/advice";
import type { AdviceSaid } from "../words.ts";
import { sayDay } from "./days.ts";

const SIGN: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  feel: {
    nothing: "No se nota bulto",
    rounded: "Bulto bajo y redondo",
    pointed: "Bulto puntiagudo",
    "tip-through": "Asoma la punta del cuerno",
  },
  skin: { slides: "La piel se desliza", "slides-a-little": "La piel se desliza poco", "held-fast": "Piel sujeta" },
  whorls: { none: "Sin remolino de pelo", unclear: "Remolino poco claro", clear: "Remolino de pelo claro" },
  crown: { "rounded-cap": "El pelo forma un gorro redondo", unclear: "Coronilla poco clara", flat: "Pelo plano" },
};

const VET: Record<string, string> = {
  bud: "El veterinario halló un botón",
  "no-bud": "El veterinario no halló botón",
  unsure: "El veterinario no estuvo seguro",
};

const GREW: Record<string, string> = {
  nothing: "No creció nada",
  knob: "Creció un bulto de hueso",
  scur: "Creció un cuernito suelto",
  horn: "Creció un cuerno",
  "soft-lump": "Creció un bulto blando",
  unsure: "No se sabe qué creció",
};

/** Un hallazgo por lado en una frase; si los dos son iguales, se dice una vez. */
function sided(finding: Sided<string>, words: Readonly<Record<string, string>>): string {
  const say = (value: string): string => words[value] ?? value;
  if ("both" in finding) return say(finding.both);
  const { left, right } = finding;
  if (left !== undefined && left === right) return `${say(left)}, los dos lados`;
  const sides = [
    left === undefined ? "" : `izquierda: ${say(left)}`,
    right === undefined ? "" : `derecha: ${say(right)}`,
  ];
  return sides.filter((side) => side !== "").join("; ");
}

/** El hecho mismo, sin lo que significa. */
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
      return "Otros hechos anotados";
  }
}

/** Las mismas bandas que en inglés: 1,25, 3 y 10 a uno. */
const BANDS = [
  [Math.log(10), "con fuerza"],
  [Math.log(3), "con claridad"],
  [Math.log(1.25), "un poco"],
] as const;

/** Un hecho y hacia dónde habla. */
export function sayWeighed({ fact, logOdds }: WeighedFact): string {
  const band = BANDS.find(([least]) => Math.abs(logOdds) >= least);
  const says = band ? `habla ${band[1]} de ${logOdds > 0 ? "cuernos" : "no tenerlos"}` : "dice poco en ningún sentido";
  return `${sayFact(fact)}: ${says}.`;
}

/** Qué hacer con la cabeza de una cría, para cuándo y por qué. */
export function sayAdvice(advice: KidAdvice, today: Day): AdviceSaid {
  switch (advice.kind) {
    case "read-head":
      return {
        title: "Lea la cabeza de esta cría",
        when: `antes de acabar ${sayDay(advice.by, today)}`,
        why: "Nadie ha leído aún esta cabeza.",
      };
    case "finish-reading":
      return {
        title: "Termine de leer esta cabeza",
        when: `antes de acabar ${sayDay(advice.by, today)}`,
        why: "La última lectura no halló nada en que basarse.",
      };
    case "leave":
      return {
        title: "Deje esta cabeza en paz",
        when: undefined,
        why: "Es bastante probable que no tenga cuernos. Operar sería seguramente innecesario.",
      };
    case "look-again":
      return {
        title: "Mire otra vez",
        when: advice.day === undefined ? undefined : sayDay(advice.day, today),
        why: "Otra mirada dice más, y hay tiempo para ella.",
      };
    case "vet-list":
      return {
        title: "Ponga esta cría en la lista del veterinario",
        when:
          advice.day === undefined
            ? undefined
            : `${advice.visit === "planned" ? "visita" : "pida que venga"} ${sayDay(advice.day, today)}`,
        why: "Los cuernos son bastante probables, y el plazo es corto.",
      };
    case "ring-vet":
      return {
        title: "Llame al veterinario",
        when: "ahora",
        why:
          advice.end < today
            ? "El plazo seguro pasó. Solo el veterinario puede decir qué es bueno ahora."
            : "Ninguna visita cabe antes del fin del plazo. Solo el veterinario puede ayudar.",
      };
    case "done":
      return { title: DONE[advice.what], when: undefined, why: "Nada que decidir sobre esta cabeza." };
  }
}

const DONE: Record<Extract<KidAdvice, { kind: "done" }>["what"], string> = {
  disbudded: "Desbotonada",
  "left-alone": "Dejada, como usted eligió",
  "outcome-known": "Se sabe qué creció",
  "left-herd": "Dejó el rebaño",
  "born-dead": "Nació muerta",
  grown: "Adulta",
};
