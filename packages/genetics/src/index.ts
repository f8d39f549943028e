// Words
export {
  type AnimalId,
  animalId,
  CHROMOSOMAL_SEXES,
  type ChromosomalSex,
  POLLED_GENOTYPES,
  type PolledBelief,
  type PolledGenotype,
} from "./vocabulary.ts";
