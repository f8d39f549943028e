import type { CareTask, KidGrowthModel, ServiceCaution } from "@pollard/advice";
import type { AbortionCaution, CareTaskCode, VisitorCaution } from "@pollard/husbandry";
import type { WeightWords } from "../weights.ts";
import { sayAnimal } from "./animals.ts";

/** A task of care: what to do, and why; never how much of anything. */
interface CareSaid {
  readonly title: string;
  readonly why: string;
}

/** Every task of care, by code. */
export const CARE: Readonly<Record<CareTaskCode, CareSaid>> = {
  "heat-watch": { title: "Watch for heat", why: "A doe not in kid comes back after about three weeks." },
  "heat-watch-again": { title: "Watch for heat again", why: "Six weeks on is the second chance to see an empty doe." },
  "pregnancy-scan": { title: "Have her scanned", why: "Kids are seen and counted best between day 45 and day 85." },
  "dry-off": { title: "Begin drying off", why: "Sixty days before kidding, step by step over four weeks." },
  "dam-booster": {
    title: "Ask the vet about the dam's booster",
    why: "Given about thirty days before kidding, her first milk covers the kids.",
  },
  selenium: {
    title: "Ask the vet about selenium",
    why: "Only where the soil lacks it. Too much kills.",
  },
  "kidding-pen": { title: "Make the kidding pen ready", why: "Clean, dry, out of the wind, a few days early." },
  afterbirth: {
    title: "See the afterbirth come away",
    why: "It comes within hours. After twelve hours, ring the vet.",
  },
  navel: { title: "Dip the navel", why: "At once, in iodine. Look the kid over for defects." },
  colostrum: { title: "See that it has had colostrum", why: "Within the hour, six hours at the very latest." },
  "birth-weight": { title: "Weigh at birth", why: "Every later weight is judged by this one." },
  "tetanus-cover": {
    title: "Ask the vet about tetanus cover",
    why: "No booster of the dam is on record. Disbudding wounds let tetanus in.",
  },
  castration: {
    title: "Decide about castration",
    why: "Early hurts less. Look up the law; ask the vet about pain relief.",
  },
  "coccidia-plan": {
    title: "Plan against coccidia with the vet",
    why: "It is commonest from four weeks to five months.",
  },
  "kid-vaccine": { title: "Ask the vet for the first vaccination", why: "Usually at five to six weeks." },
  "kid-vaccine-again": { title: "Ask the vet for the second vaccination", why: "Three to four weeks after the first." },
  weaning: { title: "Wean when ready", why: "Nine kilos (twenty pounds), or eight weeks, or eating solid feed well." },
  identification: {
    title: "Check tags and papers",
    why: "Goats must be identified before they leave. Deadlines differ by country.",
  },
  "separate-bucklings": {
    title: "Separate bucklings",
    why: "They can sire kids. A doeling can conceive at three months.",
  },
  "breeding-weight": {
    title: "Weigh before her first mating",
    why: "Ready at two thirds of her grown weight.",
  },
};

/** For whoever comes in at the gate. */
export const VISITORS: Readonly<Record<VisitorCaution, string>> = {
  "pregnant-stay-away": "Pregnant? Please stay outside. Birth can carry infections that harm an unborn child.",
  "weak-immunity-ask-doctor": "Heart valve trouble or weak defences? Ask your doctor before coming in.",
  "wash-hands": "Wash your hands with soap and water when you leave.",
  "no-gel-instead": "Gel and wipes do not replace washing.",
  "no-food": "Nothing to eat or drink among the goats. No kissing.",
  "children-held": "Children by the hand, all the time.",
  "no-afterbirth": "Do not touch newborn kids, afterbirth or soiled straw.",
  "clothes-washed-hot": "Wash clothes that were soiled, hot.",
  "bucks-apart": "Stay out of the bucks' pen.",
};

/** For the keeper, after a loss of kids. */
export const AFTER_LOSS: Readonly<Record<AbortionCaution, string>> = {
  "isolate-her": "Keep her apart from the others.",
  "gloves-and-vet": "Wear gloves. Ring the vet. Keep pregnant people away.",
  "keep-what-came": "Keep what came, cool and closed. The vet can have it tested.",
};

/** What speaks against a service. */
function sayServiceCaution(caution: ServiceCaution, weights: WeightWords): string {
  switch (caution.code) {
    case "doe-too-young":
      return `${sayAnimal(caution.doe)} is ${Math.floor(caution.ageDays / 30.4)} months old. Doelings are bred from seven months on.`;
    case "doe-too-light":
      return `${sayAnimal(caution.doe)} weighs ${weights.said(caution.kg)}. Before her first mating ${weights.about(caution.readyKg)} is better.`;
    case "doe-not-weighed":
      return `Weigh ${sayAnimal(caution.doe)} first. She should have ${weights.about(caution.readyKg)}.`;
    case "buck-too-young":
      return `${sayAnimal(caution.buck)} is under six months old. He may be fertile, but is still growing.`;
    case "buck-has-enough":
      return `${sayAnimal(caution.buck)} has ${caution.does} does this season. ${caution.most} is enough at his age.`;
  }
}

const STATE: Readonly<Record<KidGrowthModel["state"], string>> = {
  thriving: "grows as it should",
  slow: "gains too little",
  losing: "is losing weight",
  unknown: "not weighed twice yet",
};

/** Words of care and growth. */
export const care = {
  title: (code: CareTaskCode): string => CARE[code].title,
  why: (code: CareTaskCode): string => CARE[code].why,
  pressing: (pressing: CareTask["pressing"]): string => {
    switch (pressing) {
      case "dam-not-covered":
        return "The dam's booster is not on record.";
      case "heavy-enough":
        return "Heavy enough by its last weight.";
      case undefined:
        return "";
    }
  },
  asks: { do: "To do", "ask-vet": "Ask the vet", "check-law": "Look up the law" },
  answers: { done: "Done", "not-needed": "Not needed", "put-off": "Put off" },
  visitors: (code: VisitorCaution): string => VISITORS[code],
  afterLoss: (code: AbortionCaution): string => AFTER_LOSS[code],
  serviceCaution: sayServiceCaution,
  growth: (state: KidGrowthModel["state"]): string => STATE[state],
  lawNote: "What is said here is no law. Check what holds where you are.",
  vetNote: "Your own vet's word comes first, and can be set for every task.",
} as const;
