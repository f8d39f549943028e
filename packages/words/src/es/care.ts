import type { CareTask, KidGrowthModel, ServiceCaution } from "@pollard/advice";
import type { AbortionCaution, CareTaskCode, VisitorCaution } from "@pollard/husbandry";
import type { WeightWords } from "../weights.ts";
import { sayAnimal } from "./animals.ts";

/** Una tarea de cuidado: qué hacer y por qué; nunca cuánto de nada. */
interface CareSaid {
  readonly title: string;
  readonly why: string;
}

/** Cada tarea de cuidado, por código. */
export const CARE: Readonly<Record<CareTaskCode, CareSaid>> = {
  "heat-watch": { title: "Vigilar el celo", why: "Una cabra no preñada vuelve a celo a las tres semanas." },
  "heat-watch-again": {
    title: "Vigilar el celo otra vez",
    why: "A las seis semanas hay otra ocasión de ver una vacía.",
  },
  "pregnancy-scan": { title: "Hacerle una ecografía", why: "Las crías se cuentan mejor entre el día 45 y el 85." },
  "dry-off": { title: "Empezar a secarla", why: "Sesenta días antes del parto, poco a poco en cuatro semanas." },
  "dam-booster": {
    title: "Preguntar al veterinario por el refuerzo de la madre",
    why: "Dado unos treinta días antes del parto, su primera leche protege a las crías.",
  },
  selenium: {
    title: "Preguntar al veterinario por el selenio",
    why: "Solo donde falta en el suelo. Demasiado mata.",
  },
  "kidding-pen": { title: "Preparar el corral de partos", why: "Limpio, seco, sin viento, unos días antes." },
  afterbirth: {
    title: "Ver que expulse la placenta",
    why: "Sale en horas. Pasadas doce horas, llame al veterinario.",
  },
  navel: { title: "Mojar el ombligo", why: "Enseguida, en yodo. Mire si la cría tiene defectos." },
  colostrum: { title: "Ver que tomó calostro", why: "En la primera hora, seis horas como máximo." },
  "birth-weight": { title: "Pesar al nacer", why: "Todo peso posterior se juzga por este." },
  "tetanus-cover": {
    title: "Preguntar al veterinario por el tétanos",
    why: "No consta refuerzo de la madre. Las heridas del desbotonado dejan entrar el tétanos.",
  },
  castration: {
    title: "Decidir sobre la castración",
    why: "Temprano duele menos. Mire la ley; pregunte al veterinario por el dolor.",
  },
  "coccidia-plan": {
    title: "Plan contra coccidios con el veterinario",
    why: "Es más común de las cuatro semanas a los cinco meses.",
  },
  "kid-vaccine": { title: "Pedir la primera vacuna al veterinario", why: "Por lo común a las cinco o seis semanas." },
  "kid-vaccine-again": {
    title: "Pedir la segunda vacuna al veterinario",
    why: "Tres o cuatro semanas después de la primera.",
  },
  weaning: {
    title: "Destetar cuando esté lista",
    why: "Nueve kilos (veinte libras), u ocho semanas, o si come bien sólido.",
  },
  identification: {
    title: "Revisar aretes y papeles",
    why: "Deben identificarse antes de salir. Los plazos cambian según el país.",
  },
  "separate-bucklings": {
    title: "Separar los machitos",
    why: "Pueden engendrar. Una cabrita puede quedar preñada a los tres meses.",
  },
  "breeding-weight": {
    title: "Pesarla antes de su primera monta",
    why: "Lista con dos tercios de su peso adulto.",
  },
};

/** Para quien entra por la puerta. */
export const VISITORS: Readonly<Record<VisitorCaution, string>> = {
  "pregnant-stay-away": "¿Embarazada? Quédese fuera. Los partos pueden llevar infecciones que dañan al bebé.",
  "weak-immunity-ask-doctor": "¿Válvula del corazón o defensas débiles? Pregunte a su médico antes de entrar.",
  "wash-hands": "Lávese las manos con agua y jabón al salir.",
  "no-gel-instead": "El gel y las toallitas no sustituyen al lavado.",
  "no-food": "Nada de comer ni beber entre las cabras. Sin besos.",
  "children-held": "Los niños de la mano, todo el tiempo.",
  "no-afterbirth": "No toque crías recién nacidas, placentas ni paja sucia.",
  "clothes-washed-hot": "Lave en caliente la ropa manchada.",
  "bucks-apart": "No entre en el corral de los machos.",
};

/** Para el criador, tras una pérdida de crías. */
export const AFTER_LOSS: Readonly<Record<AbortionCaution, string>> = {
  "isolate-her": "Apártela de las demás.",
  "gloves-and-vet": "Use guantes. Llame al veterinario. Embarazadas, lejos.",
  "keep-what-came": "Guarde lo expulsado, frío y cerrado. El veterinario puede analizarlo.",
};

/** Lo que habla en contra de una monta. */
function sayServiceCaution(caution: ServiceCaution, weights: WeightWords): string {
  switch (caution.code) {
    case "doe-too-young":
      return `${sayAnimal(caution.doe)} tiene ${Math.floor(caution.ageDays / 30.4)} meses. Las cabritas se cubren desde los siete meses.`;
    case "doe-too-light":
      return `${sayAnimal(caution.doe)} pesa ${weights.said(caution.kg)}. Antes de su primera monta es mejor ${weights.about(caution.readyKg)}.`;
    case "doe-not-weighed":
      return `Pese primero a ${sayAnimal(caution.doe)}. Debería tener ${weights.about(caution.readyKg)}.`;
    case "buck-too-young":
      return `${sayAnimal(caution.buck)} tiene menos de seis meses. Puede ser fértil, pero aún crece.`;
    case "buck-has-enough":
      return `${sayAnimal(caution.buck)} tiene ${caution.does} cabras esta temporada. A su edad bastan ${caution.most}.`;
  }
}

const STATE: Readonly<Record<KidGrowthModel["state"], string>> = {
  thriving: "crece como debe",
  slow: "gana muy poco",
  losing: "pierde peso",
  unknown: "aún no se ha pesado dos veces",
};

/** Palabras de cuidado y crecimiento. */
export const care = {
  title: (code: CareTaskCode): string => CARE[code].title,
  why: (code: CareTaskCode): string => CARE[code].why,
  pressing: (pressing: CareTask["pressing"]): string => {
    switch (pressing) {
      case "dam-not-covered":
        return "El refuerzo de la madre no consta.";
      case "heavy-enough":
        return "Pesa bastante según su último peso.";
      case undefined:
        return "";
    }
  },
  asks: { do: "Por hacer", "ask-vet": "Preguntar al veterinario", "check-law": "Mirar la ley" },
  answers: { done: "Hecho", "not-needed": "No hace falta", "put-off": "Aplazado" },
  visitors: (code: VisitorCaution): string => VISITORS[code],
  afterLoss: (code: AbortionCaution): string => AFTER_LOSS[code],
  serviceCaution: sayServiceCaution,
  growth: (state: KidGrowthModel["state"]): string => STATE[state],
  lawNote: "Lo dicho aquí no es ley. Compruebe qué vale donde usted vive.",
  vetNote: "Manda la palabra de su veterinario, y se puede fijar en cada tarea.",
} as const;
