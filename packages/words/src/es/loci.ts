import { countedOf, type FindingProblem, type LocusSettingProblem, type NamedFact } from "@pollard/advice";
import type { AnimalId, Explanation, GenotypeProblemIssue, Locus, LocusTrait, WrongRecord } from "@pollard/genetics";
import { sayCounted } from "./chances.ts";

/** Los caracteres que vienen con el programa. */
const NAMES: Readonly<Record<string, string>> = {
  polled: "Mocho o con cuernos",
  wattles: "Mamellas",
  "alpha-s1-casein": "Caseína alfa-s1",
  "mps-iiid": "Mucopolisacaridosis IIID",
  "prnp-222": "Tembladera, codón 222",
  "prnp-146": "Tembladera, codón 146",
  "short-ears": "Orejas cortas",
  "blue-eyes": "Ojos azules",
  myotonia: "Miotonía",
};

/** Lo que se ve de ellos. */
const LOOKS: Readonly<Record<string, string>> = {
  present: "presentes",
  absent: "ausentes",
  healthy: "sano",
  affected: "enfermo",
  gopher: "casi sin oreja (gopher)",
  elf: "muy cortas (elf)",
  erect: "erguidas",
  blue: "azules",
  brown: "castaños",
  normal: "normal",
  myotonic: "se pone rígido",
};

/** Cómo se llama un carácter; los del criador, como él los llamó. */
export const locusName = ({ id, name }: Pick<Locus, "id" | "name">): string => NAMES[id] ?? name;

/** Qué falla en un carácter como lo describió el criador, en una frase. */
export function sayLocusProblem(problem: LocusSettingProblem): string {
  const at = problem.path === "$" ? "La descripción" : `"${problem.path}"`;
  switch (problem.code) {
    case "not-json":
      return "La descripción no es JSON.";
    case "comes-with-pollard":
      return `Ya viene un carácter "${problem.got}" con Pollard; elija otro nombre.`;
    case "not-an-object":
      return `${at} debe ser nombres con valores, entre llaves.`;
    case "not-text":
      return `${at} debe ser un texto que no esté vacío.`;
    case "not-a-list":
      return `${at} debe ser una lista, entre corchetes.`;
    case "too-few-alleles":
      return `Hacen falta al menos dos alelos; aquí hay ${problem.got}.`;
    case "too-many-alleles":
      return `Caben como mucho ${problem.most} alelos; aquí hay ${problem.got}.`;
    case "allele-twice":
      return `El alelo "${problem.got}" está dos veces.`;
    case "not-one-of":
      return `${at} debe ser uno de ${problem.allowed.join(", ")}.`;
    case "not-shares":
      return `${at} necesita partes que sumen 1, llamadas ${problem.names.join(", ")}.`;
  }
}

/** Por qué una prueba o un carácter anotado no dice nada. */
export function sayFindingProblem(problem: FindingProblem): string {
  switch (problem.code) {
    case "no-such-locus":
      return `No hay carácter "${problem.got}"; hay ${problem.allowed.join(", ")}.`;
    case "unknown-trait":
      return problem.allowed.length === 0
        ? `De este gen no se ve nada, así que "${problem.got}" no dice nada.`
        : `"${problem.got}" no es de este gen; tiene ${problem.allowed.join(", ")}.`;
    case "unknown-phenotype":
      return `"${problem.got}" no se conoce aquí; es uno de ${problem.allowed.join(", ")}.`;
    case "unknown-allele":
      return `"${problem.got}" no es alelo de este gen; tiene ${problem.allowed.join(", ")}.`;
    case "not-one-or-two-alleles":
      return `Un resultado tiene uno o dos alelos; aquí hay ${problem.got}.`;
  }
}

/** Hasta dónde fiarse de cómo se hereda; `undefined` si los estudios coinciden. */
function sayStanding(standing: LocusTrait["standing"]): string | undefined {
  switch (standing) {
    case "established":
      return undefined;
    case "disputed":
      return "Las fuentes difieren en cómo se hereda; vale la primera.";
    case "belief":
      return "Lo dicen los criadores; no se conoce estudio.";
  }
}

/** Lo que no encajaba en un pedigrí, y cómo se tomó: una frase. */
function sayGenotypeIssue(issue: GenotypeProblemIssue): string {
  switch (issue.code) {
    case "locus-without-alleles":
      return `El gen "${issue.locus}" no tiene alelos; no se puede deducir nada.`;
    case "allele-twice":
      return `El gen "${issue.locus}" tiene dos veces el alelo "${issue.allele}".`;
    case "bad-frequencies":
      return `Las frecuencias${issue.breed === undefined ? "" : ` de ${issue.breed}`} no suman 1; valen las habituales.`;
    case "duplicate-id":
      return `${issue.animal} está dos veces; vale la primera.`;
    case "missing-dam":
    case "missing-sire":
      return `${issue.parent}, de quien nació ${issue.animal}, no está; se toma por desconocido.`;
    case "own-ancestor":
      return `${issue.animal} sería su propio antepasado; se omite ${issue.parent}.`;
    case "dam-used-as-sire":
      return `${issue.parent} ha parido; se omite como padre de ${issue.animal}.`;
    case "sex-against-role":
      return `${issue.animal} es ${issue.role === "dam" ? "madre" : "padre"}, contra su sexo; vale lo que hizo.`;
    case "bad-weight":
      return `El peso ${issue.got} de un padre de ${issue.animal} no puede ser; cuenta 0.`;
    case "bad-litter":
      return `La mezcla de padres ${issue.got} no puede ser; ${issue.animal} cuenta por su lado.`;
    case "no-sire-left":
      return `Lo dicho de los padres de ${issue.animal} no deja ninguno; se omite.`;
    case "bad-sex-chance":
      return `La probabilidad de sexo ${issue.got} de ${issue.animal} no puede ser; vale un medio.`;
    case "bad-likelihood":
      return `${issue.fact} no cabe con ningún genotipo; se omite.`;
    case "bad-founder-prior":
      return `Las probabilidades de ${issue.animal} no suman 1; valen las habituales.`;
    case "founder-prior-unused":
      return `${issue.animal} tiene un padre en el archivo; sus probabilidades no se usan.`;
  }
}

/** En qué se apoya una creencia, con nombre: "la prueba de ADN de Hazel". */
function sayNamedFact({ of, about }: NamedFact, nameOf: (id: AnimalId) => string): string {
  const name = nameOf(of);
  switch (about) {
    case "look":
      return `el sexo que se vio en ${name}`;
    case "fertility":
      return `que ${name} ha tenido crías`;
    case "readings":
      return `las lecturas de la cabeza de ${name}`;
    case "vet-finding":
      return `lo que el veterinario halló en ${name}`;
    case "growth":
      return `lo que le creció a ${name}`;
    case "grown-head":
      return `la cabeza adulta de ${name}`;
    case "dna-test":
      return `la prueba de ADN de ${name}`;
    case "trait":
      return `lo que se vio en ${name}`;
  }
}

/** Algo que puede haber tras unos hechos que no casan, con su probabilidad contada. */
function sayExplanation(
  explanation: Explanation,
  nameOf: (id: AnimalId) => string,
  factOf: (fact: string) => string,
): string {
  const chance = sayCounted(countedOf(explanation.chance, 100));
  switch (explanation.kind) {
    case "as-written":
      return `Todo es como está escrito: ${chance}.`;
    case "several-wrong":
      return [
        `Varias anotaciones están mal a la vez: ${chance}.`,
        ...explanation.records.map((record) => `${sayWrongRecord(record, nameOf, factOf)}.`),
      ].join(" ");
    default:
      return `${sayWrongRecord(explanation, nameOf, factOf)}: ${chance}.`;
  }
}

/** The same of something that is on record as it should be: then a finding itself was mistaken. */
const sayMisfitReason: typeof sayExplanation = (explanation, nameOf, factOf) =>
  explanation.kind === "as-written"
    ? `Los nombres están bien; engañó una prueba o una vista: ${sayCounted(countedOf(explanation.chance, 100))}.`
    : sayExplanation(explanation, nameOf, factOf);

function sayWrongRecord(
  record: WrongRecord,
  nameOf: (id: AnimalId) => string,
  factOf: (fact: string) => string,
): string {
  switch (record.kind) {
    case "wrong-parent":
      return `${record.link.parent === "dam" ? "La madre" : "El padre"} de ${nameOf(record.link.kid)} es otro animal`;
    case "wrong-fact":
      return `Esto es de otro animal: ${factOf(record.fact)}`;
  }
}

/** Todo lo que se dice de los genes, de lo anotado sobre ellos y de lo que no casa. */
export const loci = {
  locusProblem: sayLocusProblem,
  findingProblem: sayFindingProblem,
  standing: sayStanding,
  genotypeIssue: sayGenotypeIssue,
  namedFact: sayNamedFact,
  explanation: sayExplanation,
  misfitReason: sayMisfitReason,
  name: locusName,
  look: (look: string): string => LOOKS[look] ?? look,
} as const;
