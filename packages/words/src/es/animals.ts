import type { AnimalRef, GenotypeSaid } from "@pollard/advice";
import { sayCounted } from "./chances.ts";

/** El sexo, en una palabra. */
export const SEX: Record<AnimalRef["sex"], string> = {
  doe: "hembra",
  buck: "macho",
  wether: "castrado",
  intersex: "intersexual",
  unsure: "no se sabe",
};

const KID_OF: Record<AnimalRef["sex"], string> = {
  doe: "cabrita",
  buck: "cabrito",
  wether: "castrado",
  intersex: "cría",
  unsure: "cría",
};

/** Lo que es un animal cuya madre no se conoce: puede ser adulto. */
const BY_SEX: Record<AnimalRef["sex"], string> = {
  doe: "cabra",
  buck: "macho",
  wether: "castrado",
  intersex: "caprino",
  unsure: "caprino",
};

/** El nombre del animal; si falta, su arete; si faltan ambos, de quién es cría. */
export function sayAnimal(ref: AnimalRef): string {
  if (ref.name !== undefined) return ref.name;
  if (ref.tag !== undefined) return `Arete ${ref.tag}`;
  const mark = ref.mark === undefined ? "" : ` (${ref.mark})`;
  return ref.damName === undefined
    ? `${BY_SEX[ref.sex]} sin nombre${mark}`
    : `${KID_OF[ref.sex]} de ${ref.damName}${mark}`;
}

const GENOTYPE: Record<"PP" | "Pp" | "pp", string> = {
  PP: "dos genes de mocho (PP)",
  Pp: "un gen de mocho (Pp), portador de cuernos",
  pp: "dos genes de cuernos (pp)",
};

/** Lo que lleva un animal, con la seguridad que permite la evidencia. */
export function sayGenotype(said: GenotypeSaid): string {
  const [best] = (["PP", "Pp", "pp"] as const).toSorted((a, b) => said.belief[b] - said.belief[a]);
  const carries = GENOTYPE[best ?? "Pp"];
  switch (said.surety) {
    case "proven":
      return `Lleva ${carries}. Comprobado.`;
    case "near-sure":
      return `Lleva ${carries}. Casi seguro.`;
    case "likely":
      return `Lleva ${carries}, lo más probable. No comprobado.`;
    case "open":
      return `Aún no se sabe. ${said.polled.sense === "proven" ? "" : `Mocho: ${sayCounted(said.polled)}. `}Un gen de mocho: ${sayCounted(said.carrier)}.`;
  }
}
