import type { CareCaution } from "@pollard/husbandry";

/** Las cautelas de la lista del veterinario. Nunca dosis: el peso es para el veterinario, y él decide. */
export const CAUTIONS: Readonly<Record<CareCaution | "very-small-kid", string>> = {
  "vet-and-local-law": "El veterinario decide si se hace, cuándo y cómo. La ley local va primero.",
  "weigh-on-the-morning": "Pese cada cría esta mañana. El veterinario necesita el peso.",
  "pain-relief-is-the-vets": "Pregunte al veterinario por sedación, anestesia local y alivio del dolor.",
  "tetanus-cover": "Informe sobre el tétanos: el refuerzo de la madre y lo de la cría.",
  "healthy-kids-only": "Una cría con diarrea, fría o que no mama espera. Avise al veterinario.",
  "thin-skull": "El cráneo de una cría es fino. El calor puede dañar el cerebro: solo manos expertas.",
  "iron-only": "Nada de pasta cáustica, aceite de clavo, anillos de goma ni congelación.",
  "wounds-stay-sore-for-weeks":
    "Las heridas duelen semanas. Apagada, en círculos o con convulsiones: llame ya al veterinario.",
  "check-at-three-months": "Mire a los tres meses qué creció. Un cuernito entonces es rebrote, no genes.",
  "very-small-kid": "Una cría muy pequeña tolera menos errores. Avise al veterinario.",
};
